package sheets

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// gratin is a small bench: 200 g of a 100 kcal food and 100 g of a 400 kcal
// one for two servings; version A halves the second. Numbers are made up to be
// worked by hand.
func gratin(t *testing.T) (*recipes.Book, *recipes.Recipe) {
	t.Helper()
	mk := func(code string, kcal, sodium float64) *food.Food {
		f := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: code}, Name: "food " + code}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			f.Per100.Set(n, 0)
		}
		f.Per100.Set(food.EnergyKcal, kcal)
		f.Per100.Set(food.Sodium, sodium)
		return f
	}
	milk, butter, salt := mk("milk", 100, 10), mk("butter", 400, 20), mk("salt", 0, 38758)
	line := func(id recipes.ID, f *food.Food, g float64) *recipes.Line {
		return &recipes.Line{ID: id, Text: fmt.Sprintf("%v g %s", g, f.Name), Name: f.Name, Amount: g, Unit: "g", Grams: g, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}
	}
	r := &recipes.Recipe{
		ID: "recipe", Title: "Gratin", Servings: 2, Edition: 1,
		Lines: []*recipes.Line{line("milk", milk, 200), line("butter", butter, 100)},
		Steps: []*recipes.Step{{ID: "s1", Text: "Melt."}, {ID: "s2", Text: "Bake."}},
		Brief: recipes.Brief{Targets: []recipes.Target{{Nutrient: food.EnergyKcal, Amount: 250}}},
	}
	half := &recipes.Swap{ID: "half", Recipe: "recipe", Name: "half the butter", Ops: []recipes.Op{
		{Kind: recipes.OpMultiply, Line: "butter", Factor: .5},
		{Kind: recipes.OpStepReplace, Step: "s1", Text: "Melt half."},
		{Kind: recipes.OpAdd, Lines: []*recipes.Line{line("", salt, 1)}},
	}}
	b := &recipes.Book{}
	for _, v := range []recipes.Verb{
		recipes.AddRecipe(r, []*food.Food{milk, butter, salt}),
		recipes.AddVersion("recipe", "a", "", ""),
		recipes.AddSwap(half, nil, "a"),
	} {
		c, err := v(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	return b, b.Recipe("recipe")
}

func row(t *testing.T, s Sheet, key string) Row {
	t.Helper()
	for _, r := range s.Rows {
		if r.Key == key {
			return r
		}
	}
	t.Fatalf("no row %q", key)
	return Row{}
}

func TestVersionsSheet(t *testing.T) {
	b, r := gratin(t)
	s := NewBench(b, r).Sheet(Options{})
	energy := row(t, s, "energy_kcal")
	// original (200 + 400) / 2 = 300; A (200 + 200) / 2 = 200: -100, a third
	if energy.Cells[0].Text != "300" || energy.Cells[1].Text != "200" || energy.Cells[1].Sub != "–100 (–33 %)" {
		t.Errorf("energy %+v", energy.Cells)
	}
	if energy.Cells[0].Mark != Missed || energy.Cells[1].Mark != Met {
		t.Errorf("marks %v and %v, want missed and met against 250", energy.Cells[0].Mark, energy.Cells[1].Mark)
	}
	if energy.Cells[1].Bar >= 0 || energy.Cells[1].Bar < -1 {
		t.Errorf("bar %v", energy.Cells[1].Bar)
	}
	sodium := row(t, s, "sodium_mg")
	// original (20 + 20) / 2 = 20; A (20 + 10 + 387.58) / 2 = 208.8
	if sodium.Cells[1].Text != "209" || sodium.Cells[1].Mark != Look || !strings.Contains(sodium.Cells[1].Tip, "+189 mg") {
		t.Errorf("sodium %+v, want a look mark", sodium.Cells[1])
	}
	if c := row(t, s, "milk").Cells[1]; c.Text != "=" {
		t.Errorf("milk %+v, want =", c)
	}
	if c := row(t, s, "butter").Cells[1]; c.Text != "50 g" || !c.Editable {
		t.Errorf("butter %+v, want 50 g", c)
	}
	if c := row(t, s, "half.c0").Cells[1]; c.Text != "1 g food salt" {
		t.Errorf("added salt %+v", c)
	}
	if c := row(t, s, "s1").Cells[1]; c.Text != "Melt half." {
		t.Errorf("step %+v", c)
	}
	for _, x := range s.Rows {
		if x.Key == "s2" {
			t.Error("a step that does not differ is shown")
		}
		if !x.Band && len(x.Cells) != len(s.Columns) {
			t.Errorf("row %s has %d cells for %d columns", x.Key, len(x.Cells), len(s.Columns))
		}
	}
	if all := NewBench(b, r).Sheet(Options{All: true, AllSteps: true}); len(all.Rows) <= len(s.Rows) {
		t.Error("all nutrients and steps should show more rows")
	}
}

func TestBases(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	for basis, want := range map[Basis]string{PerServing: "300", Per100g: "200", WholeDish: "600"} {
		if got := row(t, x.Sheet(Options{Basis: basis}), "energy_kcal").Cells[0].Text; got != want {
			t.Errorf("basis %d: %s, want %s", basis, got, want)
		}
	}
}

func TestLibraryAndIngredients(t *testing.T) {
	b, r := gratin(t)
	lib := Library(b)
	if got := row(t, lib, "recipe"); got.Cells[1].Text != "300" || got.Cells[2].Text != "A  200" || got.Cells[3].Mark != Met {
		t.Errorf("library %+v", got.Cells)
	}
	ing := NewBench(b, r).Ingredients()
	got := row(t, ing, "butter")
	if got.Cells[OrigGrams].Text != "100 g" || got.Cells[OrigEnergy].Text != "400" || got.Cells[OrigEaten].Text != "100 %" {
		t.Errorf("butter %+v", got.Cells)
	}
	for _, c := range got.Cells {
		if !math.IsNaN(c.Bar) {
			t.Error("a line has no bar")
		}
	}
}
