package sheets

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"parewell/assets"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/words"
)

// demoBook is the demo workbook, made once.
var demoBook = sync.OnceValues(func() (*recipes.Book, error) {
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		return nil, err
	}
	table := food.NewTable(foods)
	c, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		return nil, err
	}
	n := 0
	return demo.Book(func() recipes.ID { n++; return recipes.ID(fmt.Sprintf("demo%012d", n)) }, table, c)
})

// demoLedger is Keep or drop of the demo's gratin, which was tasted three times.
func demoLedger(t *testing.T) *Ledger {
	t.Helper()
	b, err := demoBook()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range b.Recipes() {
		if strings.Contains(r.Title, "haddock") {
			l, err := NewLedger(b, r)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
	}
	t.Fatal("no gratin in the demo")
	return nil
}

func demoView(t *testing.T, n food.Nutrient) *LedgerView {
	t.Helper()
	v, err := demoLedger(t).View(LedgerAsk{Nutrient: n})
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The waterfall says of every swap what the table says, to the digit.
func TestTheWaterfallAgreesWithTheTable(t *testing.T) {
	for _, n := range []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium} {
		v := demoView(t, n)
		for _, x := range v.l.Falls() {
			d, err := v.FallData(x.ID, "")
			if err != nil {
				t.Fatal(err)
			}
			fig, err := charts.Waterfall(d)
			if err != nil {
				t.Fatal(err)
			}
			for _, st := range d.Steps {
				r := namedRow(t, v.Sheet, st.Name)
				want := words.Signed(st.Change, words.Decimals(n.Unit())) + " " + n.Unit() + "; effect not known"
				if strings.TrimLeft(r.Cells[0].Text, "–+") != strings.TrimLeft(words.Signed(st.Change, words.Decimals(n.Unit())), "–+") && r.Cells[0].Mark != Look {
					t.Errorf("%s: %s takes off %s in the table, changes by %v in the figure", n.Key(), st.Name, r.Cells[0].Text, st.Change)
				}
				if effect := r.Cells[1].Text; effect != "?" {
					want = "effect " + effect + " " + r.Cells[1].Sub
				}
				if !strings.Contains(fig.Alt(), want) {
					t.Errorf("%s in %s: no %q in %s", st.Name, x.Letter, want, fig.Alt())
				}
			}
		}
	}
}

func namedRow(t *testing.T, s Sheet, name string) Row {
	t.Helper()
	for _, r := range s.Rows {
		if r.Label.Text == name {
			return r
		}
	}
	t.Fatalf("no row %q", name)
	return Row{}
}
