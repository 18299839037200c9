package nutrition

import (
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// TestShareOfASection: half of a sauce of 400 g cream (300 kcal in 100 g) goes
// into the dish with 200 g of pasta (350 kcal): 600 of 1200, and 700 kcal.
func TestShareOfASection(t *testing.T) {
	l := newLarder(1, 0, 1)
	cream := l.plain("cream", map[food.Nutrient]float64{food.EnergyKcal: 300, food.Fat: 30})
	fat := l.plain("fat", map[food.Nutrient]float64{food.EnergyKcal: 900, food.Fat: 100})
	pasta := l.plain("pasta", map[food.Nutrient]float64{food.EnergyKcal: 350})
	sauce := l.line(cream, 400)
	sauce.Section = "For the sauce"
	off := l.line(fat, 20)
	off.Kind, off.OffOf = recipes.TakenOff, sauce.ID // no heading of its own: it goes with its ingredient
	r := dish(2, l.line(pasta, 200), sauce)
	half := func(cooked float64) []recipes.Section {
		return []recipes.Section{{Name: "For the sauce", CookedGrams: cooked, ShareUsed: 0.5}}
	}
	with := func(s []recipes.Section, lines ...*recipes.Line) *Account {
		c := *r
		c.Sections, c.Lines = s, append(append([]*recipes.Line(nil), r.Lines...), lines...)
		return l.of(&c, nil)
	}
	rows := []struct {
		name         string
		a            *Account
		kcal, weight float64
	}{
		{"all of it", with(nil), 1900, 600},
		{"half of it", with(half(0)), 1300, 400},
		{"fat off the sauce, half of which is used", with(half(0), off), 1300 - 90, 390},
		{"weighed by itself: 300 g, half of which is used", with(half(300)), 1300, 350},
	}
	for _, x := range rows {
		if got := x.a.Total(food.EnergyKcal).Amount; !near(got, x.kcal, 1e-12) {
			t.Errorf("%s: %v kcal, want %v", x.name, got, x.kcal)
		}
		if got, whole := x.a.CookedGrams(); !near(got, x.weight, 1e-12) || !whole {
			t.Errorf("%s: %v g, want %v", x.name, got, x.weight)
		}
	}
	if a := with(half(300)); a.CookedBy != CookedEstimated {
		t.Errorf("a weighed section is more than the weight before cooking: %s", a.CookedBy)
	}
	if got, _ := with([]recipes.Section{{Name: "nobody's", CookedGrams: 500, ShareUsed: 1}}).CookedGrams(); got != 600 {
		t.Errorf("a section that has no lines weighs nothing: %v g", got)
	}
	open := l.unweighed(cream)
	open.Section = "For the sauce"
	if _, whole := with(half(300), open).CookedGrams(); !whole {
		t.Error("a section that was weighed is whole whatever its lines lack")
	}
	if _, whole := with([]recipes.Section{{Name: "elsewhere", CookedGrams: 10, ShareUsed: 1}}, open).CookedGrams(); whole {
		t.Error("a line with no weight outside a weighed section leaves the weight open")
	}
}

// TestAVersionOfAWeighedSection: a version that puts in half as much has a
// section of half the weight.
func TestAVersionOfAWeighedSection(t *testing.T) {
	l := newLarder(1, 0, 1)
	sauce := l.line(l.plain("cream", map[food.Nutrient]float64{food.EnergyKcal: 300}), 400)
	sauce.Section = "sauce"
	r := dish(2, sauce, l.line(l.plain("pasta", nil), 200))
	r.Sections = []recipes.Section{{Name: "sauce", CookedGrams: 300, ShareUsed: 0.5}}
	half := l.swap(recipes.Op{Kind: recipes.OpMultiply, Line: sauce.ID, Factor: 0.5})
	if got, _ := l.of(r, nil, half).CookedGrams(); !near(got, 200+75, 1e-12) {
		t.Errorf("%v g, want 275", got)
	}
}

// TestSavingsWithSections holds swaps plus helping to the version's change over
// random recipes whose sections are used in part.
func TestSavingsWithSections(t *testing.T) {
	for seed := range uint64(60) {
		l := newLarder(seed, 12, 1)
		r, v, on := l.randomCase()
		for i, x := range r.Lines {
			x.Section = [...]string{"", "sauce", "crust"}[i%3]
		}
		r.Sections = []recipes.Section{{Name: "sauce", ShareUsed: 0.35}, {Name: "crust", CookedGrams: 120, ShareUsed: 0.8}}
		s, err := SavingsOf(r, v, on, l.get)
		if err != nil {
			t.Fatal(err)
		}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			sum := s.Helping(n).Amount
			for i := range on {
				sum += s.Of(i, n).Amount
			}
			want := Compare(l.of(r, nil), l.of(r, v, on...), n).Amount
			if !near(sum, want, 1e-9) {
				t.Fatalf("seed %d, %s: swaps make %v of %v", seed, n.Key(), sum, want)
			}
		}
	}
}
