package outcome_test

import (
	"strings"
	"testing"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Where a food has no figure the ledger names the ingredient, says at least or at
// most, and does not pretend that tasting is what is missing.
func TestASavingThatIsNotKnownNamesTheIngredient(t *testing.T) {
	h := newHall(t, 2)
	spread := &food.Food{Ref: food.Ref{Source: "test", Code: "2"}, Name: "Spread"} // no figure at all
	h.do(recipes.AddSwap(&recipes.Swap{ID: "spread", Recipe: "r", Name: "spread for half the cream", Ops: []recipes.Op{{
		Kind: recipes.OpExchange, Line: "l", Share: 0.5, Lines: []*recipes.Line{{Text: "50 g spread", Name: "spread", Grams: 50, GramsFrom: recipes.GramsWeight, Food: spread.Ref, PartEaten: 1}},
	}}}, []*food.Food{spread}, ""))
	h.do(recipes.AddSwap(&recipes.Swap{ID: "less", Recipe: "r", Name: "a third less cream", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l", Factor: 2.0 / 3}}}, nil, ""))
	e, err := outcome.EvidenceOf(h.book, h.book.Recipe("r"), nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		swap, nutrient string
		known          bool
		bound          ledger.Bound
		amount         float64 // per serving: half of 400 kcal, halved or a third
		lacks          string
	}{
		{"half", "energy_kcal", true, "", 100, ""},
		{"less", "energy_kcal", true, "", 200.0 / 3, ""},
		{"spread", "energy_kcal", false, ledger.AtMost, 100, "spread"},
		{"less", "fibre_g", false, ledger.AtLeast, 0, "cream"},
	} {
		for _, s := range e.Swaps {
			if s.ID != row.swap {
				continue
			}
			x := s.Savings[row.nutrient]
			if x.Known != row.known || x.Bound != row.bound || x.Lacks != row.lacks || x.Amount < row.amount-1e-9 || x.Amount > row.amount+1e-9 {
				t.Errorf("%s %s: %+v", row.swap, row.nutrient, x)
			}
			if note := x.Note("x").String(); !row.known && !strings.HasSuffix(note, "there is no figure for "+row.lacks+".") {
				t.Error(note)
			}
		}
	}
	// Judged as if all had been tasted, on fibre, of which nothing is known.
	n := len(e.Swaps)
	e.Beta, e.DF, e.ResidualSD = make([]float64, n), 30, 1
	e.Versions = []ledger.VersionFact{{Name: "original", On: make([]bool, n), Servings: 9, Pots: 1}}
	for i := range n {
		e.Cov = append(e.Cov, make([]float64, n))
		e.Cov[i][i] = 0.01
		on := make([]bool, n)
		on[i] = true
		e.Versions = append(e.Versions, ledger.VersionFact{ID: "v" + words.Trim(float64(i), 0), On: on, Servings: 9, Pots: 1})
	}
	plan, err := ledger.Next(t.Context(), e, ledger.Ask{Nutrient: "fibre_g"})
	if err != nil {
		t.Fatal(err)
	}
	if says := plan.Says()[0].String(); !strings.Contains(says, "there is no figure for") || !strings.Contains(says, "cream") {
		t.Error(says)
	}
	best, err := ledger.Best(t.Context(), e, ledger.Goal{Nutrient: "energy_kcal"})
	if err != nil || len(best.Beside) != 1 || best.Beside[0].Why != ledger.SavingUnknown || !strings.Contains(best.Beside[0].Note().String(), "no figure for spread") {
		t.Errorf("%+v %v", best.Beside, err)
	}
}
