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
