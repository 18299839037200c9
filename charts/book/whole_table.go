package book

import (
	"math"

	"parewell/analysis/nutrition"
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
