package tables

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"parewell/recipes/food"
	"parewell/recipes/food/portions"
)

// newFood begins a food of a USDA table. name is what is made plain, published
// the name it is kept under beside that.
func (r *rows) newFood(code, name, published string) (e entry, ok bool) {
	number, ok := ndb(code)
	if !ok {
		r.fail("tables.bad.code", code)
		return e, false
	}
	e.Code, e.Published, e.line = number, published, r.first
	if e.Name = plain(name); e.Name == "" {
		r.w.byCode[number] = badFood
		r.fail("tables.bad.name")
		return e, false
	}
	e.rank = [food.NutrientCount]uint8{}
	return e, true
}

// badFood stands in byCode for a food whose row was bad: other files may speak
// of it.
const badFood = -1

// add takes a food in; a second one of its number is a bad row.
func (w *work) add(r *rows, e entry) {
	if at, twice := w.byCode[e.Code]; twice && at >= 0 {
		r.fail("tables.bad.twice", e.Code, w.foods[at].line)
		return
	}
	w.byCode[e.Code] = int32(len(w.foods))
	w.foods = append(w.foods, e)
}

// ndb gives a food's number with the leading zeros that a spreadsheet may have
// taken off; false if it is none.
func ndb(s string) (string, bool) {
	if s == "" || len(s) > 6 || strings.Trim(s, "0123456789") != "" {
		return "", false
	}
	if len(s) < 5 {
		s = "00000"[len(s):] + s
	}
	return strings.Clone(s), true
}

// edible turns refuse in per cent into the share that is eaten; 0 is unknown.
func (r *rows) edible(refuse string) (float64, bool) {
	v, known, ok := number(refuse, r.comma)
	if !ok || v > 100 {
		r.fail("tables.bad.refuse", refuse)
		return 0, false
	}
	if !known || v == 100 {
		return 0, true
	}
	return math.Round((100-v)*100) / 10_000, true
}

// mostMeasures is how many household measures a food keeps.
const mostMeasures = 40

// heaviest is the most grams one of a measure can weigh: a whole animal's meat.
const heaviest = 50_000

// measureOf adds a household measure a cook would write; of two with the same
// words the first stands.
func (w *work) measureOf(f *food.Food, what string, grams float64, names portions.Names) {
	m, count, ok := w.parser.Parse(what, names)
	if !ok || len(f.Measures) >= mostMeasures {
		return
	}
	m.Grams = math.Round(grams/count*1000) / 1000
	if !(m.Grams > 0 && m.Grams < heaviest) {
		return
	}
	same := func(o food.Measure) bool { return o.Unit == m.Unit && o.Detail == m.Detail }
	if !slices.ContainsFunc(f.Measures, same) {
		m.Detail = strings.Clone(m.Detail)
		f.Measures = append(f.Measures, m)
	}
}

// tidy is a published name as it is kept: one blank between words and no signs
// that cannot be seen. It never shares the memory of a line.
func tidy(s string) string {
	clean := true
	for i := 0; i < len(s) && clean; i++ {
		clean = s[i] >= ' ' && s[i] != 0x7f && !(s[i] == ' ' && i+1 < len(s) && s[i+1] == ' ') && s[i] < 0x80
	}
	if clean {
		return strings.Clone(strings.TrimSpace(s))
	}
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\ufeff' || unicode.Is(unicode.Zs, r) {
			return ' '
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}
