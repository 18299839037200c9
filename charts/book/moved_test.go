package book

import (
	"math"
	"testing"

	"parewell/analysis/claims"
	"parewell/recipes"
)

// TestWhatMovesAPagesEnergy: the way from the workbook's energy to the page's adds
// up, whatever the rule and the measures.
func TestWhatMovesAPagesEnergy(t *testing.T) {
	b := mustHarbour(t)
	moved := 0
	for n, r := range b.Recipes() {
		for _, v := range append([]*recipes.Version{nil}, b.Versions(r.ID)...) {
			for _, o := range []Options{Usual(Metric, claims.EU), Usual(US, claims.US)} {
				letter := ""
				if v != nil {
					letter = v.Letter
				}
				p := pageOf(t, n, letter, o)
				m := p.Moved
				if m == nil {
					continue
				}
				sum := m.Own + m.Rule
				for i, l := range m.Lines {
					sum += l.Kcal
					if i > 0 && math.Abs(l.Kcal) > math.Abs(m.Lines[i-1].Kcal) || l.Name == "" || l.Was == l.Is {
						t.Errorf("%s %s: %+v", r.Title, letter, m.Lines)
					}
				}
				if math.Abs(sum-m.Page) > 1e-6 || m.Page != *p.Nutrition[0].Rows[0].Exact {
					t.Errorf("%s %s: %v and %v kcal; the page prints %v", r.Title, letter, sum, m.Page, *p.Nutrition[0].Rows[0].Exact)
				}
				moved += len(m.Lines)
			}
		}
	}
	if moved == 0 {
		t.Error("nothing was rounded anywhere")
	}
}
