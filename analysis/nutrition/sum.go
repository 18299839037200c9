package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Part is so many servings of a reckoned dish. Servings are the dish's own: one
// of a version that serves six is a sixth of it.
type Part struct {
	Account  *Account
	Servings float64
}

// Total is what several parts hold together, for one eater: a meal or a day.
// Unknowns are carried as they are in the parts, so that one that stands in two
// parts, or before and after, is still one and the same.
type Total struct{ whole Account }

// Sum adds parts up. No parts give a Total of known zeros.
func Sum(parts []Part) *Total {
	t := &Total{whole: Account{Draft: &recipes.Draft{Servings: 1}}}
	for _, p := range parts {
		t.add(&p.Account.sum, p.Servings/p.Account.Draft.Servings)
	}
	return t
}

// Join adds totals up, as the meals of a day.
func Join(totals []*Total) *Total {
	t := Sum(nil)
	for _, x := range totals {
		t.add(&x.whole.sum, 1)
	}
	return t
}

func (t *Total) add(f *form, times float64) { t.whole.sum.add(f, times) }

// Figure returns the total of a nutrient. Gaps and Minor are lines of any of
// the dishes; a blank is minor when all of them together could not move the
// total by 1 % or 0.1 g.
func (t *Total) Figure(n food.Nutrient) Figure { return t.whole.Total(n) }

// CompareTotals returns after less before: lighter is negative. An unknown that
// is as large on both sides cancels. Percent is of before, NaN when that is
// zero or not known. Recipe and Portion are NaN: they belong to single dishes.
func CompareTotals(before, after *Total, n food.Nutrient) Change {
	b, a := before.whole.serving(), after.whole.serving()
	c := changeOf(&b, &a, n, &before.whole)
	c.Recipe, c.Portion = math.NaN(), math.NaN()
	return c
}

// TotalSlips finds what a change made worse against a total by SlipShare or
// more, as Slips does for one dish.
func TotalSlips(before *Total, change func(food.Nutrient) Change) []Slip {
	return Slips(&before.whole, change)
}
