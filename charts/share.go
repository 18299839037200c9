package charts

import (
	"errors"
	"math"
	"sort"
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// ShareData is what the share chart shows: from which ingredients the calories
// (or another amount) of each version come, per serving.
type ShareData struct {
	Title, Unit string
	Versions    []ChangeVersion // 1 to 9; one without a letter is the original
	Parts       []SharePart
}

// SharePart is one ingredient with its amount in each version: 0 where the
// version does without it, NaN where it is not known.
type SharePart struct {
	Name    string
	Amounts []float64
}

// shareParts is how many ingredients are told apart; the rest is one part.
const shareParts = 7

// ShareChart prepares the share chart from a copy of d: the largest parts by
// their greatest amount in any version, and "everything else".
func ShareChart(d ShareData) (*Figure, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	v := &shareView{title: oneLine(d.Title), unit: oneLine(d.Unit), rows: rowLabels(d.Versions), parts: d.largest()}
	for i := range v.rows {
		if v.rows[i].letter == "" {
			v.rows[i].style = -1
		}
	}
	v.sum()
	return &Figure{title: v.title, alt: v.alt(), paint: v.paint}, nil
}

func (d ShareData) check() error {
	fail := func(key string, args ...any) error {
		return problem.Wrap(errors.New("charts: "+key), d.Title, words.Say(key, args...), words.Say(key+".hint"))
	}
	if len(d.Versions) == 0 {
		return fail("charts.none")
	}
	if len(d.Versions) > Versions+1 {
		return fail("charts.many", len(d.Versions), Versions)
	}
	if len(d.Parts) == 0 {
		return fail("charts.share.none")
	}
	for _, p := range d.Parts {
		if len(p.Amounts) != len(d.Versions) {
			return fail("charts.change.uneven", p.Name, len(p.Amounts), len(d.Versions))
		}
		for _, a := range p.Amounts {
			if a < 0 || math.IsInf(a, 0) {
				return fail("charts.share.negative", p.Name)
			}
		}
	}
	return nil
}

// largest returns copies of the largest parts, largest first, the rest joined.
func (d ShareData) largest() []SharePart {
	parts := append([]SharePart(nil), d.Parts...)
	sort.SliceStable(parts, func(i, j int) bool { return parts[i].most() > parts[j].most() })
	var rest []SharePart
	if len(parts) > shareParts {
		parts, rest = parts[:shareParts-1], parts[shareParts-1:]
	}
	for i := range parts {
		parts[i] = SharePart{oneLine(parts[i].Name), append([]float64(nil), parts[i].Amounts...)}
	}
	if len(rest) == 0 {
		return parts
	}
	other := SharePart{words.Say("charts.share.rest"), make([]float64, len(d.Versions))}
	for _, p := range rest {
		for i, a := range p.Amounts {
			other.Amounts[i] += a // an unknown makes the rest unknown
		}
	}
	return append(parts, other)
}

func (p SharePart) most() float64 {
	m := 0.0
	for _, a := range p.Amounts {
		if a > m { // false for NaN
			m = a
		}
	}
	return m
}

// shareView paints the share chart: a row a version, ingredients end to end.
type shareView struct {
	title, unit string
	rows        []rowLabel
	parts       []SharePart
	totals      []float64 // of what is known
	gaps        []bool    // whether something is not
}

func (v *shareView) sum() {
	v.totals, v.gaps = make([]float64, len(v.rows)), make([]bool, len(v.rows))
	for _, p := range v.parts {
		for i, a := range p.Amounts {
			if math.IsNaN(a) {
				v.gaps[i] = true
			} else {
				v.totals[i] += a
			}
		}
	}
}

// total says what row i adds up to.
func (v *shareView) total(i int) string {
	text := words.Say("charts.amount", words.Number(v.totals[i], words.Decimals(v.unit)), v.unit)
	if v.gaps[i] {
		return words.Say("charts.at_least", text)
	}
	return text
}

func (v *shareView) alt() string {
	var out []string
	if v.title != "" {
		out = append(out, words.Say("charts.alt.title", v.title))
	}
	out = append(out, words.Say("charts.share.alt"))
	for i, r := range v.rows {
		var each []string
		for _, p := range v.parts {
			amount := words.Say("charts.not_known")
			if !math.IsNaN(p.Amounts[i]) {
				amount = words.Say("charts.amount", words.Number(p.Amounts[i], words.Decimals(v.unit)), v.unit)
			}
			each = append(each, words.Say("charts.alt.value", p.Name, amount))
		}
		name := strings.TrimSpace(words.Say("charts.alt.version", r.letter, r.name))
		out = append(out, words.Say("charts.share.alt.row", name, v.total(i), Semicolons(each)))
	}
	return strings.Join(out, " ")
}

// swatches are the fills of the parts, in order: tones of one colour from dark
// to pale, told apart by hatch as well; the last part of all is bare.
func (v *shareView) swatches(s *sheet) []swatch {
	out := make([]swatch, len(v.parts))
	for i := range v.parts {
		out[i] = s.inks.part(i)
		out[i].edge = mix(s.inks.ink, s.inks.ground, 0.35)
	}
	return out
}

func (v *shareView) paint(s *sheet) {
	n := vg.Length(len(v.rows))
	var r vg.Rectangle
	var row, legend vg.Length
	styles := v.swatches(s)
	keys := make([]key, len(v.parts))
	for i, p := range v.parts {
		keys[i] = key{p.Name, styles[i]}
	}
	for _, s.scale = range []float64{1, 0.9, 0.82, 0.74} {
		r = s.room(v.title)
		legend = s.legend(r, keys, true) + s.pt(4)
		if row = (r.Max.Y - r.Min.Y - legend) / n; row >= s.lineOf(s.bodyPen())*1.2 {
			break
		}
	}
	row = max(1, min(row, s.pt(60)))
	s.frame(v.title)
	top := r.Max.Y - legend
	s.legend(r, keys, false)
	v.stacks(s, r, top, row, styles)
}

// stacks draws the rows under top.
func (v *shareView) stacks(s *sheet, r vg.Rectangle, top, row vg.Length, styles []swatch) {
	gut := s.gutter(v.rows, r.Max.X-r.Min.X)
	left := r.Min.X + gut.width() + s.pt(8)
	rs := []reach{{after: s.pt(2)}}
	for i := range v.rows {
		rs = append(rs, reach{hi: v.totals[i], after: s.labelGap() + s.width(s.headPen(), v.total(i)) + s.pt(2)})
	}
	unit, _ := fitScale(r.Max.X-left, rs, 1e-9)
	n := len(v.rows)
	area := vg.Rectangle{Min: vg.Point{X: left, Y: top - row*vg.Length(n)}, Max: vg.Point{X: r.Max.X, Y: top}}
	pl := s.panel(area, 0, float64((r.Max.X-left)/unit), 0.5-float64(n), 0.5)
	s.rowLines(r.Min.X, r.Max.X, top, row, n)
	for i := range v.rows {
		y := pl.y(-float64(i))
		gut.draw(s, i, r.Min.X, y, row)
		pl.draw(bars{s: s, items: v.stack(s, i, row, styles)})
		s.write(s.headPen(), pl.x(v.totals[i])+s.labelGap(), y, 0, v.total(i))
		v.inside(s, pl, i)
	}
	pl.draw(zeroLine{s})
}

// stack returns the known parts of row i end to end.
func (v *shareView) stack(s *sheet, i int, row vg.Length, styles []swatch) []bar {
	var out []bar
	at := 0.0
	for k, p := range v.parts {
		if a := p.Amounts[i]; a > 0 {
			out = append(out, bar{from: at, to: at + a, row: -float64(i), thickness: min(0.66, float64(s.pt(28)/row)), style: styles[k]})
			at += a
		}
	}
	return out
}

// inside writes amounts into the parts that have the room.
func (v *shareView) inside(s *sheet, pl panel, i int) {
	at := 0.0
	for k, p := range v.parts {
		a := p.Amounts[i]
		if !(a > 0) {
			continue
		}
		text := words.Number(a, words.Decimals(v.unit))
		pen := s.smallPen()
		if x0, x1 := pl.x(at), pl.x(at+a); x1-x0 > s.width(pen, text)+s.pt(8) {
			s.writePatch(pen, (x0+x1)/2, pl.y(-float64(i)), text, s.inks.part(k))
		}
		at += a
	}
}
