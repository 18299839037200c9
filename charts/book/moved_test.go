package book

import (
	"math"
	"strings"
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
					sum += l.By
					if i > 0 && math.Abs(l.By) > math.Abs(m.Lines[i-1].By) || l.Name == "" || l.Was == l.Is {
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

// TestWhatRoundingMovesMostIsNamed: the editor is led to the ingredient that moves a
// figure by more than 2 %, and told what it is printed as.
func TestWhatRoundingMovesMostIsNamed(t *testing.T) {
	p := pageOf(t, 1, "E", Usual(Metric, claims.EU))
	found := false
	for _, o := range p.Editor {
		if o.Kind != OpenRounding || !strings.Contains(o.Text, "sodium") {
			continue
		}
		found = true
		line := recipes.ID("")
		for _, s := range p.Sections {
			for i := range s.Lines {
				if strings.Contains(s.Lines[i].In(0), "salt") {
					line = s.Lines[i].Line
				}
			}
		}
		if o.Line != line || !strings.Contains(o.Text, "Most of it is") || !strings.Contains(o.Text, "salt: ") {
			t.Errorf("%+v, want line %s", o, line)
		}
	}
	if !found {
		t.Error("nothing is said of the sodium")
	}
}

// TestASmallerServingIsTold: a figure that is lower because the slice is smaller says
// so, on the page itself.
func TestASmallerServingIsTold(t *testing.T) {
	for _, row := range []struct {
		recipe int
		letter string
		told   bool
	}{{2, "E", true}, {2, "B", false}, {0, "B", false}} {
		p := pageOf(t, row.recipe, row.letter, Usual(Metric, claims.EU))
		if got := strings.Contains(p.Change.Text, "smaller by weight"); got != row.told {
			t.Errorf("recipe %d %s: %s", row.recipe, row.letter, p.Change.Text)
		}
	}
}
