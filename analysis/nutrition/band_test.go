package nutrition

import (
	"math"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// TestBand is worked by hand: 100 kcal by weight (2 %) and 50 kcal by count
// (20 %) err by the root of 2² + 10²; halving the counted line leaves a change
// of 25 kcal that errs by 20 % of it, whatever the weighed line does.
func TestBand(t *testing.T) {
	l := newLarder(1, 0, 1)
	a := l.plain("a", map[food.Nutrient]float64{food.EnergyKcal: 100})
	weighed, counted := l.line(a, 100), l.line(a, 50)
	counted.GramsFrom = recipes.GramsCount
	r := dish(1, weighed, counted)
	half := l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: counted.ID, Factor: 0.5})
	if got := l.of(r, nil).Band(food.EnergyKcal); !near(got, math.Sqrt(104), 1e-12) {
		t.Errorf("band %v, want %v", got, math.Sqrt(104))
	}
	if got := ChangeBand(l.of(r, nil), l.of(r, nil, half), food.EnergyKcal); !near(got, 5, 1e-12) {
		t.Errorf("band of the change %v, want 5", got)
	}
}

// TestBandOfARecipeInside is worked by hand: a sauce of 100 kcal by count errs by
// 20; half of it by a typed weight (1 %) errs by 10 and by 0.5. A version that
// takes a quarter differs by 25 kcal: 0.25 of its amount and 5 of the sauce's own.
func TestBandOfARecipeInside(t *testing.T) {
	l := newLarder(1, 0, 1)
	counted := l.line(l.plain("a", map[food.Nutrient]float64{food.EnergyKcal: 100}), 100)
	counted.GramsFrom = recipes.GramsCount
	sauce := l.of(dish(4, counted), nil)
	k := Kitchen{Foods: l.get, Sub: func(recipes.SubRecipe) *Account { return sauce }}
	line := &recipes.Line{ID: l.id(), Text: "sauce", PartEaten: 1, GramsFrom: recipes.GramsTyped, Grams: 50, Sub: &recipes.SubRecipe{Recipe: "sauce", Batches: 0.5}}
	r := dish(1, line)
	whole := k.Of(recipes.Compose(r, nil, nil))
	if got := whole.Band(food.EnergyKcal); !near(got, math.Sqrt(100+0.25), 1e-12) {
		t.Errorf("band %v, want %v", got, math.Sqrt(100.25))
	}
	half := k.Of(recipes.Compose(r, nil, []*recipes.Swap{l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: line.ID, Factor: 0.5})}))
	if got := ChangeBand(whole, half, food.EnergyKcal); !near(got, math.Sqrt(25+0.0625), 1e-12) {
		t.Errorf("band of the change %v, want %v", got, math.Sqrt(25.0625))
	}
	if got := ChangeBand(whole, whole, food.EnergyKcal); got != 0 {
		t.Errorf("the same on both sides: %v", got)
	}
}
