package sheet

import (
	"math"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

// book is one dish with a version, and a food of which sodium is not known.
func book(tb testing.TB) (*recipes.Book, *recipes.Recipe) {
	tb.Helper()
	cream := &food.Food{Ref: food.Ref{Source: "own", Code: "c"}, Name: "cream"}
	cream.Per100.Set(food.EnergyKcal, 400)
	cream.Per100.Set(food.Fat, 40)
	r := &recipes.Recipe{ID: "r", Title: "Dish", Servings: 2, Lines: []*recipes.Line{
		{ID: "l", Text: "100 g cream", Grams: 100, GramsFrom: recipes.GramsWeight, Food: cream.Ref, PartEaten: 1},
	}}
	b := &recipes.Book{}
	for _, v := range []recipes.Verb{
		recipes.AddRecipe(r, []*food.Food{cream}), recipes.AddVersion("r", "v", "less", ""),
		recipes.AddSwap(&recipes.Swap{ID: "s", Recipe: "r", Name: "less", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l", Factor: 0.5}}}, nil, "v"),
	} {
		c, err := v(b)
		if err != nil {
			tb.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			tb.Fatal(err)
		}
	}
	return b, b.Recipe("r")
}

// By hand: 100 g of 400 kcal for two is 200 a serving; half of it 100.
func TestColumnsHoldTheReckoning(t *testing.T) {
	b, r := book(t)
	s := Of(b, r)
	if len(s.Columns) != 2 || len(s.Swaps) != 1 {
		t.Fatalf("%d columns, %d swaps", len(s.Columns), len(s.Swaps))
	}
	o, v := &s.Columns[0], &s.Columns[1]
	if f := o.Per[food.EnergyKcal]; !f.Known || f.AtLeast || f.Amount != 200 {
		t.Errorf("original %+v", f)
	}
	if c := v.Change[food.EnergyKcal]; c.Amount != -100 || c.Percent != -50 || c.Bound != string(nutrition.Exact) {
		t.Errorf("change %+v", c)
	}
	if f := o.Per[food.Sodium]; f.Known {
		t.Errorf("sodium is known nowhere, the column says %+v", f)
	}
	if c := v.Change[food.Sodium]; c.Bound == string(nutrition.Exact) || !math.IsNaN(c.Percent) {
		t.Errorf("change of an unknown %+v", c)
	}
	if o.Serving.Amount != 50 || !o.Serving.Known || o.Serving.AtLeast {
		t.Errorf("serving %+v", o.Serving)
	}
	if none := Of(b, r, b.Version("r", "v")); len(none.Columns) != 2 {
		t.Errorf("one chosen version gives %d columns", len(none.Columns))
	}
}
