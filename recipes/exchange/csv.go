package exchange

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
)

// WriteCSV writes versions side by side: UTF-8, "." for decimals, "," between
// cells, rows ending in CR LF (RFC 4180). Each row says what it is in its first
// three cells (kind, item, unit); the original then has two (value, at least)
// and every version five (value, at least, change, percent, bound). A cell is
// empty where nothing is known; "at least" is 1 where parts are unknown.
//
// Rows, in this order: title, name and servings; the weight of a serving; every
// nutrient per serving; each swap with 1 where it is on; ingredients in grams
// of the whole recipe, a version's own under the one they stand for; steps.
//
// Spreadsheets run a cell that starts with = + - @, a tab or a return as a
// formula, wherever it came from, and a recipe's text may be pasted from
// anywhere. Such texts get an apostrophe in front, which a spreadsheet shows
// as text; numbers are written by this program and stay numbers.
func WriteCSV(w io.Writer, s *Sheet) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	for _, row := range s.rows() {
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// safe keeps a text from being run as a formula.
func safe(s string) string {
	if s == "" || !strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return s
	}
	return "'" + s
}

// figure writes a number to at most four decimals; NaN and infinities are empty.
func figure(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	s := strconv.FormatFloat(v, 'f', 4, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func (f Figure) cells() []string {
	switch {
	case !f.Known:
		return []string{"", ""}
	case f.AtLeast:
		return []string{figure(f.Amount), "1"}
	}
	return []string{figure(f.Amount), ""}
}

func (c Change) cells() []string {
	if c.Bound == "unknown" {
		return []string{"", "", c.Bound}
	}
	return []string{figure(c.Amount), figure(c.Percent), c.Bound}
}

// rows lays out the whole sheet.
func (s *Sheet) rows() [][]string {
	out := [][]string{s.header()}
	out = append(out,
		s.texts("about", "title", "", func(c *Column) string { return s.Recipe.Title }),
		s.texts("about", "name", "", (*Column).name),
		s.texts("about", "servings", "", func(c *Column) string { return figure(c.Draft.Servings) }),
		s.compared("about", "serving weight", "g", func(c *Column) Figure { return c.Serving }),
	)
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		out = append(out, s.nutrient(n))
	}
	for _, sw := range s.Swaps {
		out = append(out, s.texts("swap", sw.Name, "", func(c *Column) string { return tick(c, sw.ID) }))
	}
	out = append(out, s.ingredients()...)
	return append(out, s.steps()...)
}

func tick(c *Column, swap recipes.ID) string {
	if c.Draft.Version != nil && c.Draft.Version.Has(swap) {
		return "1"
	}
	return "0"
}

func (s *Sheet) header() []string {
	row := []string{"kind", "item", "unit"}
	for i := range s.Columns {
		l := safe(s.Columns[i].letter())
		row = append(row, l, l+" at least")
		if i > 0 {
			row = append(row, l+" change", l+" percent", l+" bound")
		}
	}
	return row
}

// texts is a row with one text a column. A text that is a number stays one.
func (s *Sheet) texts(kind, item, unit string, of func(*Column) string) []string {
	row := []string{kind, safe(item), unit}
	for i := range s.Columns {
		row = append(row, safe(of(&s.Columns[i])), "")
		if i > 0 {
			row = append(row, "", "", "")
		}
	}
	return row
}

// nutrient is a row with the changes as they were reckoned.
func (s *Sheet) nutrient(n food.Nutrient) []string {
	row := []string{"nutrient", n.Key(), n.Unit()}
	for i := range s.Columns {
		c := &s.Columns[i]
		row = append(row, c.Per[n].cells()...)
		if i > 0 {
			row = append(row, c.Change[n].cells()...)
		}
	}
	return row
}

// compared is a row of weights; the change is worked out where both are whole.
func (s *Sheet) compared(kind, item, unit string, of func(*Column) Figure) []string {
	row := []string{kind, safe(item), unit}
	var base Figure
	for i := range s.Columns {
		f := of(&s.Columns[i])
		row = append(row, f.cells()...)
		if i == 0 {
			base = f
			continue
		}
		c := Change{Bound: "unknown"}
		if f.whole() && base.whole() {
			c = Change{Amount: f.Amount - base.Amount, Percent: math.NaN(), Bound: "exact"}
			if base.Amount > 0 {
				c.Percent = 100 * c.Amount / base.Amount
			}
		}
		row = append(row, c.cells()...)
	}
	return row
}

// ingredients aligns the lines of all columns.
func (s *Sheet) ingredients() [][]string {
	var out [][]string
	for _, l := range s.aligned() {
		kind := "ingredient"
		if l.Kind == recipes.TakenOff {
			kind = string(recipes.TakenOff)
		}
		out = append(out, s.compared(kind, l.Text, "g", func(c *Column) Figure { return gramsIn(c.Draft, l.ID) }))
	}
	return out
}

// gramsIn is what a draft has of a line: 0 where the line is not in it.
func gramsIn(d *recipes.Draft, id recipes.ID) Figure {
	for i := range d.Lines {
		if d.Lines[i].Line.ID == id {
			g, known := d.Lines[i].Grams()
			return Figure{Amount: g, Known: known}
		}
	}
	return Figure{Known: true}
}

// aligned lists the lines of all columns once: the original's in order, each
// followed by those exchanged for it, then the added ones.
func (s *Sheet) aligned() []*recipes.Line {
	var out, added []*recipes.Line
	seen := map[recipes.ID]bool{}
	take := func(to *[]*recipes.Line, l *recipes.Line) {
		if !seen[l.ID] {
			seen[l.ID] = true
			*to = append(*to, l)
		}
	}
	for _, base := range s.Recipe.Lines {
		take(&out, base)
		for i := range s.Columns {
			for k := range s.Columns[i].Draft.Lines {
				d := &s.Columns[i].Draft.Lines[k]
				switch d.From {
				case base.ID:
					take(&out, d.Line)
				case "":
					take(&added, d.Line)
				}
			}
		}
	}
	return append(out, added...)
}

// steps are numbered as each column reads them; a dropped step is empty.
func (s *Sheet) steps() [][]string {
	most := 0
	texts := make([][]string, len(s.Columns))
	for i := range s.Columns {
		texts[i] = steps(s.Columns[i].Draft)
		most = max(most, len(texts[i]))
	}
	var out [][]string
	for n := range most {
		at := 0
		out = append(out, s.texts("step", strconv.Itoa(n+1), "", func(*Column) string {
			own := texts[at]
			at++
			if n < len(own) {
				return own[n]
			}
			return ""
		}))
	}
	return out
}
