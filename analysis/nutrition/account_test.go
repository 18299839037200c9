package nutrition

import (
	"math"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

func near(a, b, tolerance float64) bool { return math.Abs(a-b) <= tolerance*(1+math.Abs(b)) }

// TestAsBoughtWeightLosesItsPeel uses USDA SR28 11282 (onion, raw: refuse 10 %,
// 40 kcal per 100 g): 200 g unpeeled are 180 g eaten and 72 kcal; as a bare
// weight they are 200 g and 80 kcal.
func TestAsBoughtWeightLosesItsPeel(t *testing.T) {
	l := newLarder(1, 0, 1)
	onion := l.plain("onion", map[food.Nutrient]float64{food.EnergyKcal: 40})
	onion.Edible = 0.9
	bought := l.line(onion, 200)
	bought.AsBought = true
	rows := []struct {
		name  string
		line  *recipes.Line
		eaten float64
		kcal  float64
	}{
		{"as bought", bought, 180, 72},
		{"bare weight", l.line(onion, 200), 200, 80},
	}
	for _, r := range rows {
		a := l.of(dish(2, r.line), nil)
		if g, ok := a.RawGrams(); !ok || !near(g, r.eaten, 1e-12) {
			t.Errorf("%s: %v g eaten, want %v", r.name, g, r.eaten)
		}
		if f := a.Total(food.EnergyKcal); !near(f.Amount, r.kcal, 1e-12) || f.AtLeast {
			t.Errorf("%s: %+v, want %v kcal", r.name, f, r.kcal)
		}
		if f := a.PerServing(food.EnergyKcal); !near(f.Amount, r.kcal/2, 1e-12) {
			t.Errorf("%s: %v kcal a serving", r.name, f.Amount)
		}
		if f := a.Per100g(food.EnergyKcal); !near(f.Amount, 40, 1e-12) {
			t.Errorf("%s: %v kcal per 100 g, want 40", r.name, f.Amount)
		}
	}
}

// TestUnknown walks the rules of DESIGN section 5, Unknown, one by one.
func TestUnknown(t *testing.T) {
	l := newLarder(2, 0, 1)
	salt := l.plain("salt", map[food.Nutrient]float64{food.Sodium: 38758})
	stew := l.plain("stew", map[food.Nutrient]float64{food.EnergyKcal: 100, food.Sodium: 50, food.Carbohydrate: 10, food.Fat: 5})
	gap := l.plain("gap", map[food.Nutrient]float64{food.EnergyKcal: 300, food.Carbohydrate: 40, food.Fat: 20}, food.Sugars, food.Sodium)
	trace := l.plain("trace", map[food.Nutrient]float64{food.EnergyKcal: 10, food.Carbohydrate: 2}, food.Sugars)

	t.Run("grams unknown make unknown only what the food contains", func(t *testing.T) {
		a := l.of(dish(2, l.line(stew, 500), l.unweighed(salt)), nil)
		if f := a.PerServing(food.EnergyKcal); f.AtLeast || f.Amount != 250 {
			t.Errorf("energy %+v, want 250 and whole: salt holds none", f)
		}
		if f := a.PerServing(food.Sodium); !f.AtLeast || f.Amount != 125 || len(f.Gaps) != 1 {
			t.Errorf("sodium %+v, want at least 125", f)
		}
	})
	t.Run("food unknown makes all unknown", func(t *testing.T) {
		mystery := l.line(stew, 100)
		mystery.Food = food.Ref{}
		a := l.of(dish(1, l.line(stew, 100), mystery), nil)
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			if !a.Total(n).AtLeast {
				t.Errorf("%s is not at least", n.Key())
			}
		}
	})
	t.Run("known nowhere", func(t *testing.T) {
		if f := l.of(dish(1, l.line(gap, 100)), nil).Total(food.Sugars); !f.Nowhere {
			t.Errorf("%+v, want known nowhere", f)
		}
	})
	t.Run("a blank that cannot matter is listed in details only", func(t *testing.T) {
		a := l.of(dish(4, l.line(stew, 1000), l.line(trace, 15)), nil) // at most 0.3 g of sugars in 4 servings
		if f := a.Total(food.Sugars); f.AtLeast || len(f.Minor) != 1 {
			t.Errorf("%+v, want whole with one minor blank", f)
		}
	})

	r := dish(2, l.line(stew, 500), l.unweighed(salt), l.line(gap, 100))
	saltLine, gapLine := r.Lines[1].ID, r.Lines[2].ID
	noSalt := l.swap(recipes.Op{Kind: recipes.OpRemove, Line: saltLine})
	lessStew := l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: r.Lines[0].ID, Factor: .5})
	halfGap := l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: gapLine, Factor: .5})
	moreSalt := l.swap(recipes.Op{Kind: recipes.OpAdd, Lines: []*recipes.Line{l.unweighed(salt)}})
	rows := []struct {
		name     string
		nutrient food.Nutrient
		on       []*recipes.Swap
		bound    Bound
		amount   float64
	}{
		{"the same unknown on both sides cancels", food.Sodium, []*recipes.Swap{lessStew}, Exact, -62.5},
		{"unknown only in the original", food.Sodium, []*recipes.Swap{noSalt, lessStew}, AtLeast, -62.5},
		{"half the unknown is left", food.Sugars, []*recipes.Swap{halfGap}, AtLeast, 0},
		{"unknown only in the version", food.Sodium, []*recipes.Swap{moreSalt}, AtMost, 0},
		{"different unknowns on both sides", food.Sodium, []*recipes.Swap{noSalt, moreSalt}, NotSure, 0},
		{"nothing unknown in energy", food.EnergyKcal, []*recipes.Swap{noSalt, lessStew}, Exact, -125},
	}
	base := l.of(r, nil)
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			c := Compare(base, l.of(r, nil, row.on...), row.nutrient)
			if c.Bound != row.bound || !near(c.Amount, row.amount, 1e-12) {
				t.Errorf("%v %v, want %v %v", c.Amount, c.Bound, row.amount, row.bound)
			}
			if row.nutrient == food.Sodium && !math.IsNaN(c.Percent) {
				t.Errorf("percent %v of an unknown original", c.Percent)
			}
		})
	}
}

func TestBrief(t *testing.T) {
	l := newLarder(3, 0, 1)
	salt := l.plain("salt", map[food.Nutrient]float64{food.Sodium: 38758})
	stew := l.plain("stew", map[food.Nutrient]float64{food.EnergyKcal: 100, food.Sodium: 50, food.Protein: 8})
	whole := l.of(dish(1, l.line(stew, 500)), nil)
	open := l.of(dish(1, l.line(stew, 500), l.unweighed(salt)), nil)
	rows := []struct {
		name   string
		a      *Account
		target recipes.Target
		want   Verdict
	}{
		{"at most, under", whole, recipes.Target{Nutrient: food.EnergyKcal, Amount: 500}, Met},
		{"at most, over", whole, recipes.Target{Nutrient: food.EnergyKcal, Amount: 499}, Missed},
		{"at least, reached", whole, recipes.Target{Nutrient: food.Protein, AtLeast: true, Amount: 40}, Met},
		{"at least, not reached", whole, recipes.Target{Nutrient: food.Protein, AtLeast: true, Amount: 41}, Missed},
		{"at most, with an unknown", open, recipes.Target{Nutrient: food.Sodium, Amount: 800}, CannotTell},
		{"at most, over already", open, recipes.Target{Nutrient: food.Sodium, Amount: 200}, Missed},
		{"at least, reached already", open, recipes.Target{Nutrient: food.Sodium, AtLeast: true, Amount: 200}, Met},
		{"at least, with an unknown", open, recipes.Target{Nutrient: food.Sodium, AtLeast: true, Amount: 800}, CannotTell},
	}
	for _, r := range rows {
		if got := r.a.Judge(r.target); got != r.want {
			t.Errorf("%s: %s, want %s", r.name, got, r.want)
		}
	}
}

func TestSlipsTellWhatGotWorse(t *testing.T) {
	l := newLarder(4, 0, 1)
	cream := l.plain("cream", map[food.Nutrient]float64{food.EnergyKcal: 340, food.Fat: 36, food.SaturatedFat: 23, food.Sodium: 27, food.Protein: 3})
	milk := l.plain("evaporated milk", map[food.Nutrient]float64{food.EnergyKcal: 78, food.Sodium: 115, food.Protein: 7.5})
	r := dish(2, l.line(cream, 300))
	s := l.swap(recipes.Op{Kind: recipes.OpExchange, Line: r.Lines[0].ID, Share: 1, Lines: []*recipes.Line{l.line(milk, 300)}})
	base, after := l.of(r, nil), l.of(r, nil, s)
	slips := Slips(base, func(n food.Nutrient) Change { return Compare(base, after, n) })
	if len(slips) != 1 || slips[0].Nutrient != food.Sodium || !near(slips[0].Amount, 132, 1e-9) {
		t.Fatalf("%+v, want sodium up by 132 mg", slips)
	}
}
