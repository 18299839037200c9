package nutrition

import (
	"math"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// A total holds what its parts hold: nutrients are conserved, whatever the
// order, and joining totals is adding all their parts.
func TestSumConserves(t *testing.T) {
	for seed := uint64(1); seed <= 200; seed++ {
		l := newLarder(seed, 8, 1)
		var parts []Part
		want := [food.NutrientCount]float64{}
		for range 1 + l.r.IntN(5) {
			r := dish(1 + float64(l.r.IntN(8)))
			for range 1 + l.r.IntN(6) {
				r.Lines = append(r.Lines, l.line(l.list[l.r.IntN(len(l.list))], l.r.Float64()*400))
			}
			p := Part{Account: l.of(r, nil), Servings: 0.25 + l.r.Float64()*3}
			parts = append(parts, p)
			for n := range want {
				want[n] += p.Servings * p.Account.PerServing(food.Nutrient(n)).Amount
			}
		}
		cut := l.r.IntN(len(parts) + 1)
		whole, joined := Sum(parts), Join([]*Total{Sum(parts[:cut]), Sum(parts[cut:])})
		l.r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		shuffled := Sum(parts)
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			for name, x := range map[string]*Total{"sum": whole, "joined": joined, "shuffled": shuffled} {
				if f := x.Figure(n); math.Abs(f.Amount-want[n]) > 1e-9*(1+want[n]) || f.AtLeast || f.Nowhere {
					t.Fatalf("seed %d: %s %s is %+v, want %v", seed, name, n.Key(), f, want[n])
				}
			}
		}
	}
}

// The unknown rules of DESIGN section 5, over several dishes.
func TestSumOfUnknowns(t *testing.T) {
	l := newLarder(1, 0, 1)
	cream := l.plain("cream", map[food.Nutrient]float64{food.EnergyKcal: 400, food.Carbohydrate: 60}, food.Sugars)
	rice := l.plain("rice", map[food.Nutrient]float64{food.EnergyKcal: 100, food.Carbohydrate: 50, food.Sugars: 10})
	syrup := l.plain("syrup", map[food.Nutrient]float64{food.EnergyKcal: 300, food.Carbohydrate: 80}, food.Sugars)
	one := func(f *food.Food, grams float64) *Account { return l.of(dish(1, l.line(f, grams)), nil) }
	creamy, starchy, sweet := one(cream, 100), one(rice, 100), one(syrup, 100)
	trace := one(cream, 0.1) // 0.06 g of carbohydrate bounds its sugars
	sum := func(parts ...Part) *Total { return Sum(parts) }
	rows := []struct {
		name                          string
		total                         *Total
		amount                        float64
		atLeast, nowhere, minor, gaps bool
	}{
		{"known alone", sum(Part{starchy, 2}), 20, false, false, false, false},
		{"unknown alone is known nowhere", sum(Part{creamy, 1}), 0, true, true, false, true},
		{"known and unknown are at least", sum(Part{starchy, 2}, Part{creamy, 1}), 20, true, false, false, true},
		{"a trace of unknown is minor", sum(Part{starchy, 2}, Part{trace, 1}), 20, false, false, true, false},
		{"many traces are not", sum(Part{starchy, 2}, Part{trace, 10}), 20, true, false, false, true},
		{"nothing is a known nothing", sum(), 0, false, false, false, false},
	}
	for _, r := range rows {
		f := r.total.Figure(food.Sugars)
		if math.Abs(f.Amount-r.amount) > 1e-9 || f.AtLeast != r.atLeast || f.Nowhere != r.nowhere || (len(f.Minor) > 0) != r.minor || (len(f.Gaps) > 0) != r.gaps {
			t.Errorf("%s: %+v", r.name, f)
		}
	}
	changes := []struct {
		name          string
		before, after *Total
		bound         Bound
		amount        float64
	}{
		{"the same unknown on both sides cancels", sum(Part{starchy, 2}, Part{creamy, 1}), sum(Part{starchy, 1}, Part{creamy, 1}), Exact, -10},
		{"also when it moves to another dish", sum(Part{creamy, 2}), sum(Part{l.of(dish(2, l.line(cream, 200), l.line(rice, 50)), nil), 2}), Exact, 5},
		{"more before than after", sum(Part{starchy, 1}, Part{creamy, 2}), sum(Part{creamy, 1}), AtLeast, -10},
		{"more after than before", sum(Part{starchy, 1}), sum(Part{creamy, 1}), AtMost, -10},
		{"different on both sides", sum(Part{creamy, 1}), sum(Part{sweet, 1}), NotSure, 0},
	}
	for _, r := range changes {
		c := CompareTotals(r.before, r.after, food.Sugars)
		if c.Bound != r.bound || math.Abs(c.Amount-r.amount) > 1e-9 || !math.IsNaN(c.Recipe) || !math.IsNaN(c.Portion) {
			t.Errorf("%s: %+v, want %s %v", r.name, c, r.bound, r.amount)
		}
	}
}

// A weight nobody knows is one unknown per line: it cancels against itself and
// against nothing else.
func TestSumOfUnweighedLines(t *testing.T) {
	l := newLarder(2, 1, 1)
	lines := []*recipes.Line{l.unweighed(l.list[0]), l.unweighed(l.list[0])}
	one, other := l.of(dish(4, lines[0]), nil), l.of(dish(4, lines[1]), nil)
	if c := CompareTotals(Sum([]Part{{one, 1}}), Sum([]Part{{one, 1}}), food.Fat); c.Bound != Exact || c.Amount != 0 {
		t.Errorf("against itself: %+v", c)
	}
	if c := CompareTotals(Sum([]Part{{one, 1}}), Sum([]Part{{other, 1}}), food.Fat); c.Bound != NotSure {
		t.Errorf("against another: %+v", c)
	}
	if c := CompareTotals(Sum([]Part{{one, 2}}), Sum([]Part{{one, 1}}), food.Fat); c.Bound != AtLeast {
		t.Errorf("half of it: %+v", c)
	}
}
