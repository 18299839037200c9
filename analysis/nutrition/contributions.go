package nutrition

import (
	"sort"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Contribution is one line's part of a nutrient in the whole dish.
type Contribution struct {
	Index  int // of the draft's line
	Line   *recipes.Line
	Amount float64 // in the nutrient's unit, whole dish
	Share  float64 // of the known total, 0-1; 0 when the total is 0
	Known  bool
}

// Contributions returns where a nutrient comes from, largest first; lines that
// are gone are left out, lines not known come last.
func (a *Account) Contributions(n food.Nutrient) []Contribution {
	var out []Contribution
	for i := range a.Lines {
		d := &a.Draft.Lines[i]
		if d.Gone() {
			continue
		}
		c := Contribution{Index: i, Line: d.Line}
		c.Amount, c.Known = a.LineAmount(i, n)
		if total := a.sum.known[n]; total > 0 && c.Known {
			c.Share = c.Amount / total
		}
		out = append(out, c)
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Known != out[j].Known {
			return out[i].Known
		}
		return out[i].Amount > out[j].Amount
	})
	return out
}

// LineAmount returns what one line brings of a nutrient to the whole dish,
// after every factor; false when it is not known.
func (a *Account) LineAmount(i int, n food.Nutrient) (float64, bool) {
	d, la := &a.Draft.Lines[i], &a.Lines[i]
	if d.Gone() {
		return 0, true
	}
	var f form
	f.addLine(d, la)
	for k := range f.blanks {
		if f.blanks[k].nutrient == n && f.blanks[k].times != 0 {
			return 0, false
		}
	}
	return f.known[n], true
}
