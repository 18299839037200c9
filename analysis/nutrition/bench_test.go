package nutrition

import (
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// benchDish is one recipe of 12 lines with 6 versions of 4 swaps.
func benchDish(l *larder) (*recipes.Recipe, [][]*recipes.Swap) {
	var lines []*recipes.Line
	for i := range 12 {
		lines = append(lines, l.line(l.list[i], 100+float64(i)))
	}
	r := dish(6, lines...)
	var versions [][]*recipes.Swap
	for v := range 6 {
		var on []*recipes.Swap
		for s := range 4 {
			at := lines[(v+3*s)%12].ID
			on = append(on, l.swap(recipes.Op{Kind: recipes.OpExchange, Line: at, Share: .5, Lines: []*recipes.Line{l.line(l.list[s], 50)}}))
		}
		versions = append(versions, on)
	}
	return r, versions
}

// BenchmarkEveryVersionOfOneRecipe is what an edit costs: accounts, changes of
// the six figures on the page and the savings of each version. Budget: 1 ms.
func BenchmarkEveryVersionOfOneRecipe(b *testing.B) {
	l := newLarder(1, 20, 0.85)
	r, versions := benchDish(l)
	shown := []food.Nutrient{food.EnergyKcal, food.Fat, food.SaturatedFat, food.Sugars, food.Protein, food.Sodium}
	for b.Loop() {
		base := l.of(r, nil)
		for _, on := range versions {
			a := l.of(r, nil, on...)
			for _, n := range shown {
				Compare(base, a, n)
			}
			if _, err := SavingsOf(r, nil, on, l.get); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkWholeBook composes and reckons 1,000 recipes x 6 versions x 12
// lines. Budget: 100 ms.
func BenchmarkWholeBook(b *testing.B) {
	l := newLarder(1, 20, 0.85)
	r, versions := benchDish(l)
	for b.Loop() {
		for range 1000 {
			for _, on := range versions {
				l.of(r, nil, on...)
			}
		}
	}
}
