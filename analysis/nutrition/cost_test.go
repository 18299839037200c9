package nutrition

import (
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// TestCost is worked by hand: 180 g of peeled onion (edible part 0.9) are 200 g
// bought at 1.50 a kilogram, 0.30; wine has no price.
func TestCost(t *testing.T) {
	l := newLarder(1, 0, 1)
	onion, wine := l.plain("onion", nil), l.plain("wine", nil)
	onion.Edible = 0.9
	prices := map[food.Ref]*recipes.Price{onion.Ref: {Money: 1.5, Grams: 1000}}
	price := func(r food.Ref) *recipes.Price { return prices[r] }
	peeled, bought := l.line(onion, 180), l.line(onion, 200)
	bought.AsBought = true
	for _, x := range []*recipes.Line{peeled, bought} {
		if c := l.of(dish(1, x), nil).Cost(price); !near(c.Money, 0.3, 1e-12) || c.AtLeast {
			t.Errorf("%+v, want 0.30", c)
		}
	}
	if c := l.of(dish(1, peeled, l.line(wine, 100)), nil).Cost(price); !c.AtLeast || len(c.Open) != 1 || !near(c.Money, 0.3, 1e-12) {
		t.Errorf("%+v, want at least 0.30", c)
	}
}
