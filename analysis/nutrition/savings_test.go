package nutrition

import (
	"math"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// randomCase draws a dish with gaps and a set of compatible swaps.
func (l *larder) randomCase() (*recipes.Recipe, *recipes.Version, []*recipes.Swap) {
	var lines []*recipes.Line
	for i := range 6 {
		f := l.list[i]
		if l.r.Float64() < 0.1 {
			lines = append(lines, l.unweighed(f))
		} else {
			lines = append(lines, l.line(f, 20+300*l.r.Float64()))
		}
	}
	r := dish(float64(1+l.r.IntN(8)), lines...)
	var on []*recipes.Swap
next:
	for range 8 {
		s := l.swap(l.randomOp(r), l.randomOp(r))
		for _, t := range on {
			if recipes.Alternatives(s, t) != recipes.NoClash {
				continue next
			}
		}
		if recipes.CombinedShareTooLarge(append(append([]*recipes.Swap(nil), on...), s)) == "" {
			on = append(on, s)
		}
	}
	v := &recipes.Version{ID: "v", Recipe: "recipe"}
	if l.r.IntN(2) == 0 {
		v.Servings = float64(1 + l.r.IntN(10))
	}
	return r, v, on
}

func (l *larder) randomOp(r *recipes.Recipe) recipes.Op {
	line := r.Lines[l.r.IntN(len(r.Lines))].ID
	other := func() []*recipes.Line {
		return []*recipes.Line{l.line(l.list[l.r.IntN(len(l.list))], 200*l.r.Float64())}
	}
	switch l.r.IntN(8) {
	case 6:
		return recipes.Op{Kind: recipes.OpTechnique, Line: line, Technique: recipes.Technique{Method: "boiled, drained", Minutes: 20}}
	case 7:
		return recipes.Op{Kind: recipes.OpDish, Technique: recipes.Technique{Method: "simmered", Minutes: 120 * l.r.Float64()}}
	case 0, 1:
		return recipes.Op{Kind: recipes.OpMultiply, Line: line, Factor: 1.5 * l.r.Float64()}
	case 2, 3:
		return recipes.Op{Kind: recipes.OpExchange, Line: line, Share: 0.25, Lines: other()}
	case 4:
		return recipes.Op{Kind: recipes.OpAdd, Lines: other()}
	}
	return recipes.Op{Kind: recipes.OpPartEaten, Line: line, Part: l.r.Float64()}
}

// TestSavingsSumToTheChange: swaps + helping = the version's change, to 1e-9
// (DESIGN section 5, Accounts), with the unknown parts summing as well.
func TestSavingsSumToTheChange(t *testing.T) {
	for seed := range uint64(200) {
		l := newLarder(seed, 12, 0.85)
		r, v, on := l.randomCase()
		s, err := SavingsOf(r, v, on, l.get)
		if err != nil {
			t.Fatal(err)
		}
		base, after := l.of(r, nil), l.of(r, v, on...)
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			sum := s.Helping(n).Amount
			for i := range on {
				sum += s.Of(i, n).Amount
			}
			if want := Compare(base, after, n).Amount; !near(sum, want, 1e-9) {
				t.Fatalf("seed %d, %s: swaps and helping make %v, the change is %v", seed, n.Key(), sum, want)
			}
		}
		var whole form
		for i := range s.forms {
			whole.add(&s.forms[i], 1)
		}
		whole.add(&s.helping, 1)
		before, later := base.serving(), after.serving()
		whole.add(&before, 1)
		whole.add(&later, -1)
		for _, b := range whole.blanks {
			if math.Abs(b.times) > 1e-9 {
				t.Fatalf("seed %d: an unknown of %s does not sum up: %v", seed, b.nutrient.Key(), b.times)
			}
		}
	}
}

// TestSharesOfTwoSwapsOnOneLine is worked by hand. 100 g of a food of 1 kcal/g:
// x halves it, y exchanges half for 50 g of a food of 0.4 kcal/g. Alone x takes
// off 50 and y 30 (to 50 + 20 = 70); together 100 -> 25 + 10 = 35, a fall of 65.
// Shapley: x (50 + (70-35))/2 = 42.5, y (30 + (50-35))/2 = 22.5.
func TestSharesOfTwoSwapsOnOneLine(t *testing.T) {
	l := newLarder(5, 0, 1)
	a := l.plain("a", map[food.Nutrient]float64{food.EnergyKcal: 100})
	b := l.plain("b", map[food.Nutrient]float64{food.EnergyKcal: 40})
	r := dish(1, l.line(a, 100))
	x := l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: r.Lines[0].ID, Factor: .5})
	y := l.swap(recipes.Op{Kind: recipes.OpExchange, Line: r.Lines[0].ID, Share: .5, Lines: []*recipes.Line{l.line(b, 50)}})
	s, err := SavingsOf(r, nil, []*recipes.Swap{x, y}, l.get)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{-42.5, -22.5} {
		if got := s.Of(i, food.EnergyKcal).Amount; !near(got, want, 1e-12) {
			t.Errorf("swap %d: %v, want %v", i, got, want)
		}
	}
	for i, want := range []float64{-50, -30} {
		alone, err := Alone(r, []*recipes.Swap{x, y}[i], l.get)
		if err != nil {
			t.Fatal(err)
		}
		if got := alone.Of(0, food.EnergyKcal).Amount; !near(got, want, 1e-12) {
			t.Errorf("swap %d alone: %v, want %v", i, got, want)
		}
	}
}

func TestTooManySwapsOnOneLineAreRefusedInWords(t *testing.T) {
	l := newLarder(6, 2, 1)
	r := dish(1, l.line(l.list[0], 100))
	var on []*recipes.Swap
	for range MaxSwapsOnLine + 1 {
		on = append(on, l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: r.Lines[0].ID, Factor: .9}))
	}
	if _, err := SavingsOf(r, nil, on, l.get); err == nil || !strings.Contains(err.Error(), "13") {
		t.Fatalf("got %v", err)
	}
	if _, err := SavingsOf(r, nil, on[:MaxSwapsOnLine], l.get); err != nil {
		t.Fatal(err)
	}
}

func TestRecipeAndPortionEffect(t *testing.T) {
	l := newLarder(7, 3, 1)
	for _, f := range l.list {
		f.Per100.Set(food.Alcohol, 0) // or simmering would drive some off
	}
	rice := l.plain("rice", map[food.Nutrient]float64{food.EnergyKcal: 365})
	rice.Swells = 2.65 // USDA SR28 20044 > 20045, protein held constant
	r := dish(4, l.line(l.list[0], 400), l.line(l.list[1], 300), l.line(rice, 200))
	base := l.of(r, nil)
	halved := l.swap()
	for _, x := range r.Lines {
		halved.Ops = append(halved.Ops, recipes.Op{Kind: recipes.OpMultiply, Line: x.ID, Factor: .5})
	}
	simmered := l.swap(recipes.Op{Kind: recipes.OpDish, Technique: recipes.Technique{Method: "simmered", Minutes: 90}})
	t.Run("simmering longer gives 0 and 0", func(t *testing.T) {
		c := Compare(base, l.of(r, nil, simmered), food.EnergyKcal)
		if !near(c.Recipe, 0, 1e-12) || !near(c.Portion, 0, 1e-12) {
			t.Errorf("recipe %v, portion %v", c.Recipe, c.Portion)
		}
	})
	t.Run("halving everything at the same servings is all portion", func(t *testing.T) {
		c := Compare(base, l.of(r, nil, halved), food.EnergyKcal)
		if !near(c.Recipe, 0, 1e-9) || !near(c.Portion, c.Amount, 1e-9) || c.Amount >= 0 {
			t.Errorf("recipe %v, portion %v of %v", c.Recipe, c.Portion, c.Amount)
		}
	})
	t.Run("more servings from the same pot is all portion", func(t *testing.T) {
		v := &recipes.Version{Servings: 6}
		c := Compare(base, Of(recipes.Compose(r, v, nil), l.get), food.EnergyKcal)
		if !near(c.Recipe, 0, 1e-9) || !near(c.Portion, c.Amount, 1e-9) {
			t.Errorf("recipe %v, portion %v of %v", c.Recipe, c.Portion, c.Amount)
		}
	})
	t.Run("the two always sum to the change", func(t *testing.T) {
		for seed := range uint64(100) {
			l := newLarder(seed, 12, 1)
			r, v, on := l.randomCase()
			c := Compare(l.of(r, nil), l.of(r, v, on...), food.Fat)
			if !math.IsNaN(c.Recipe) && !near(c.Recipe+c.Portion, c.Amount, 1e-9) {
				t.Fatalf("seed %d: %v + %v is not %v", seed, c.Recipe, c.Portion, c.Amount)
			}
		}
	})
	t.Run("rice cooked and rice dry are one weight", func(t *testing.T) {
		if want := (400 + 300 + 200*2.65) / 4.0; !near(base.swollen/4, want, 1e-12) {
			t.Errorf("%v g, want %v", base.swollen/4, want)
		}
	})
}

func TestOrderOfLinesDoesNotMatter(t *testing.T) {
	for seed := range uint64(50) {
		l := newLarder(seed, 12, 0.85)
		r, v, on := l.randomCase()
		mixed := *r
		mixed.Lines = append([]*recipes.Line(nil), r.Lines...)
		l.r.Shuffle(len(mixed.Lines), func(i, j int) { mixed.Lines[i], mixed.Lines[j] = mixed.Lines[j], mixed.Lines[i] })
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			a, b := l.of(r, v, on...).Total(n), l.of(&mixed, v, on...).Total(n)
			if !near(a.Amount, b.Amount, 1e-12) || a.AtLeast != b.AtLeast || a.Nowhere != b.Nowhere {
				t.Fatalf("seed %d, %s: %+v and %+v", seed, n.Key(), a, b)
			}
		}
	}
}
