package book

import (
	"math"

	"parewell/analysis/nutrition"
	"parewell/recipes/food"
)

// tableRows are a page's rows of the table for spreadsheets. A cell is empty
// where a figure is not known; bound says what may be made of the change, and of
// a figure alone whether it is "at_least" so much.
func (p *Page) tableRows() [][]string {
	var out [][]string
	for _, r := range p.Nutrition[0].Rows {
		after := p.account.PerServing(r.nutrient)
		row := []string{safeCell(p.Title), p.Letter, r.nutrient.Key(), r.nutrient.Unit(), "", figureCell(after), "", "", "", safeCell(r.Text)}
		if after.AtLeast {
			row[8] = "at_least"
		}
		if p.Version != "" {
			c := nutrition.Compare(p.base, p.account, r.nutrient)
			row[4], row[8] = figureCell(p.base.PerServing(r.nutrient)), string(c.Bound)
			if c.Bound != nutrition.NotSure {
				row[6] = plain(c.Amount, 3)
			}
			if !math.IsNaN(c.Percent) {
				row[7] = plain(c.Percent, 1)
			}
		}
		out = append(out, row)
	}
	return out
}

func figureCell(f nutrition.Figure) string {
	if f.Nowhere {
		return ""
	}
	return plain(f.Amount, 3)
}

// Compare returns one serving's figure of a nutrient in the original and in the
// version that is printed, both in the amounts as printed, and the change; false
// for the change where the page is of the original.
func (p *Page) Compare(n food.Nutrient) (before, after nutrition.Figure, change nutrition.Change, changed bool) {
	after = p.account.PerServing(n)
	if p.Version == "" {
		return after, after, nutrition.Change{}, false
	}
	return p.base.PerServing(n), after, nutrition.Compare(p.base, p.account, n), true
}

// Salt says whether the page prints sodium as salt.
func (p *Page) Salt() bool { return p.options.SaltNotSodium }

// Nutrients are those the page prints, in its order.
func (p *Page) Nutrients() []food.Nutrient {
	var out []food.Nutrient
	for _, r := range p.Nutrition[0].Rows {
		out = append(out, r.nutrient)
	}
	return out
}
