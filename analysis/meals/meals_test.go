package meals

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

// pantry is a Book under way with made-up foods; the numbers mean nothing
// outside these tests.
type pantry struct {
	t     testing.TB
	r     *rand.Rand
	book  *recipes.Book
	foods []*food.Food
	next  int
}

func newPantry(t testing.TB, seed uint64, known float64) *pantry {
	p := &pantry{t: t, r: rand.New(rand.NewPCG(seed, 3)), book: &recipes.Book{}}
	for i := range 6 {
		f := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: fmt.Sprint(i)}, Name: fmt.Sprint("food ", i)}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			if p.r.Float64() < known {
				f.Per100.Set(n, p.r.Float64()*60)
			}
		}
		p.foods = append(p.foods, f)
	}
	return p
}

func (p *pantry) do(verbs ...recipes.Verb) {
	p.t.Helper()
	for _, v := range verbs {
		c, err := v(p.book)
		if err != nil {
			p.t.Fatal(err)
		}
		if p.book, err = p.book.With(c); err != nil {
			p.t.Fatal(err)
		}
	}
}

func (p *pantry) id() recipes.ID {
	p.next++
	return recipes.ID(fmt.Sprintf("id%014d", p.next))
}

// dish adds a recipe of 1 to 5 lines with a version that uses less of the first.
func (p *pantry) dish() (recipe, version recipes.ID) {
	recipe, version = p.id(), p.id()
	r := &recipes.Recipe{ID: recipe, Title: string(recipe), Servings: 1 + float64(p.r.IntN(6)), Edition: 1}
	for range 1 + p.r.IntN(5) {
		f := p.foods[p.r.IntN(len(p.foods))]
		r.Lines = append(r.Lines, &recipes.Line{
			ID: p.id(), Text: f.Name, Name: f.Name, Grams: 10 + p.r.Float64()*300,
			GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1,
		})
	}
	less := &recipes.Swap{ID: p.id(), Recipe: recipe, Name: "less", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: r.Lines[0].ID, Factor: 0.5}}}
	p.do(recipes.AddRecipe(r, p.foods), recipes.AddVersion(recipe, version, "", ""), recipes.AddSwap(less, nil, version))
	return recipe, version
}

// meal adds a meal of 1 to 4 servings of dishes, originals and versions.
func (p *pantry) meal() recipes.ID {
	id := p.id()
	p.do(recipes.AddMeal(id, string(id)))
	for range 1 + p.r.IntN(4) {
		recipe, version := p.dish()
		if p.r.IntN(3) == 0 {
			version = ""
		}
		p.do(recipes.AddDish(id, recipe, version, 0.5+p.r.Float64()*2))
	}
	return id
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*(1+math.Abs(a)+math.Abs(b)) }

// A meal holds what its servings hold, a day what its meals and its own dishes
// hold, and its change is the sum of theirs.
func TestNutrientsAreConserved(t *testing.T) {
	for seed := uint64(1); seed <= 60; seed++ {
		p := newPantry(t, seed, 1)
		meals := []recipes.ID{p.meal(), p.meal(), p.meal()}
		recipe, version := p.dish()
		p.do(recipes.AddDay("day", "Day"), recipes.AddDish("day", recipe, version, 1.5))
		for _, m := range meals {
			p.do(recipes.PutMeal("day", m))
		}
		table := In(p.book)
		day := table.Of("day")
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			before, after, change := 0.0, 0.0, 0.0
			for _, d := range day.Dishes {
				before += d.Servings * d.Original.PerServing(n).Amount
				after += d.Servings * d.Chosen.PerServing(n).Amount
				change += d.Change(n).Amount
			}
			for _, m := range meals {
				plate := table.Of(m)
				mealBefore, mealAfter := 0.0, 0.0
				for _, d := range plate.Dishes {
					mealBefore += d.Servings * d.Original.PerServing(n).Amount
					mealAfter += d.Servings * d.Chosen.PerServing(n).Amount
				}
				if got := plate.Before.Figure(n); !near(got.Amount, mealBefore) {
					t.Fatalf("seed %d: %s of a meal before is %v, want %v", seed, n.Key(), got.Amount, mealBefore)
				}
				if got := plate.After.Figure(n); !near(got.Amount, mealAfter) {
					t.Fatalf("seed %d: %s of a meal after is %v, want %v", seed, n.Key(), got.Amount, mealAfter)
				}
				before, after, change = before+mealBefore, after+mealAfter, change+plate.Change(n).Amount
			}
			c := day.Change(n)
			if !near(day.Before.Figure(n).Amount, before) || !near(day.After.Figure(n).Amount, after) || !near(c.Amount, change) || !near(c.Amount, after-before) || c.Bound != nutrition.Exact {
				t.Fatalf("seed %d: %s of the day %v to %v (%+v), want %v to %v", seed, n.Key(), day.Before.Figure(n).Amount, day.After.Figure(n).Amount, c, before, after)
			}
		}
	}
}

// With gaps in the foods: the known parts still add up, an unknown in any meal
// is one in the day, and what no version touches cancels in the change.
func TestUnknownsOfADay(t *testing.T) {
	gaps, cancelled := 0, 0
	for seed := uint64(1); seed <= 60; seed++ {
		p := newPantry(t, seed, 0.7)
		meals := []recipes.ID{p.meal(), p.meal()}
		p.do(recipes.AddDay("day", "Day"), recipes.PutMeal("day", meals[0]), recipes.PutMeal("day", meals[1]))
		table := In(p.book)
		day := table.Of("day")
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			sum, open, sure := 0.0, false, true
			for _, m := range meals {
				f, c := table.Of(m).After.Figure(n), table.Of(m).Change(n)
				sum, open, sure = sum+f.Amount, open || len(f.Gaps)+len(f.Minor) > 0, sure && c.Bound == nutrition.Exact
			}
			f, c := day.After.Figure(n), day.Change(n)
			if !near(f.Amount, sum) || open != (len(f.Gaps)+len(f.Minor) > 0) {
				t.Fatalf("seed %d: %s of the day %+v, meals %v, open %v", seed, n.Key(), f, sum, open)
			}
			if open && sure {
				cancelled++
			}
			if open {
				gaps++
			}
			if !near(c.Amount, table.Of(meals[0]).Change(n).Amount+table.Of(meals[1]).Change(n).Amount) {
				t.Fatalf("seed %d: the known change of %s is %v in the day", seed, n.Key(), c.Amount)
			}
		}
	}
	if gaps == 0 || cancelled == 0 {
		t.Errorf("%d gaps, %d of them cancelled: the test looked at nothing", gaps, cancelled)
	}
}

// An original eaten as it is changes nothing, whatever is not known of it.
func TestOriginalsChangeNothing(t *testing.T) {
	p := newPantry(t, 5, 0.5)
	recipe, version := p.dish()
	p.do(recipes.AddMeal("m", "M"), recipes.AddDish("m", recipe, "", 2))
	plate := In(p.book).Of("m")
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		if c := plate.Change(n); c.Bound != nutrition.Exact || c.Amount != 0 {
			t.Errorf("%s: %+v", n.Key(), c)
		}
	}
	if d := plate.Dishes[0]; d.Version() != nil || d.Recipe().ID != recipe {
		t.Errorf("the dish is %v of %v", d.Version(), d.Recipe())
	}
	p.do(recipes.SetDish("m", 0, recipes.MealDish{Recipe: recipe, Servings: 2}, recipes.MealDish{Recipe: recipe, Version: version, Servings: 2}))
	table := In(p.book)
	if v := table.Of("m").Dishes[0].Version(); v == nil || v.ID != version {
		t.Errorf("the version chosen is %v", v)
	}
	if again := table.Of("m"); table.Of("none") != nil || again != table.Of("m") {
		t.Error("a meal that is not there, or one reckoned twice")
	}
}

// A smaller helping counts: half of it in twice the servings is half of it.
func TestServingsAreTheVersionsOwn(t *testing.T) {
	p := newPantry(t, 6, 1)
	recipe, version := p.dish()
	own := p.book.Recipe(recipe).Servings
	p.do(recipes.ServeVersion(recipe, version, 2*own), recipes.AddMeal("m", "M"), recipes.AddDish("m", recipe, version, 1))
	plate := In(p.book).Of("m")
	whole := plate.Dishes[0].Chosen.Total(food.EnergyKcal).Amount
	if got := plate.After.Figure(food.EnergyKcal).Amount; !near(got, whole/(2*own)) {
		t.Errorf("%v of %v over %v servings", got, whole, 2*own)
	}
}

func BenchmarkDay(b *testing.B) {
	p := newPantry(b, 9, 0.8)
	p.do(recipes.AddDay("day", "Day"))
	for range 6 {
		p.do(recipes.PutMeal("day", p.meal()))
	}
	b.ResetTimer()
	for range b.N {
		day := In(p.book).Of("day")
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			day.Change(n)
		}
	}
}
