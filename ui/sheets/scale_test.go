package sheets

import (
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
)

// cake is 3 eggs (150 g), a tin of 400 g, 200 g of flour, baking powder and salt
// for 6; version A adds half its flour again as oats.
func cake(t *testing.T) *recipes.Book {
	t.Helper()
	mk := func(code, name, group string) *food.Food {
		f := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: code}, Name: name, Group: group}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			f.Per100.Set(n, 1)
		}
		f.Per100.Set(food.EnergyKcal, 100)
		return f
	}
	foods := []*food.Food{mk("01123", "egg", "eggs"), mk("11531", "tomatoes, canned", "vegetables"), mk("20081", "flour", "grains"), mk("18369", "baking powder", "baking"), mk("02047", "salt", "herbs")}
	line := func(id recipes.ID, text string, f *food.Food, amount float64, unit string, grams float64) *recipes.Line {
		return &recipes.Line{ID: id, Text: text, Name: f.Name, Amount: amount, Unit: unit, Grams: grams, GramsFrom: recipes.GramsCount, Food: f.Ref, PartEaten: 1}
	}
	r := &recipes.Recipe{
		ID: "cake", Title: "Cake", Servings: 6, Edition: 1, Lines: []*recipes.Line{
			line("egg", "3 eggs", foods[0], 3, "", 150), line("tin", "1 tin tomatoes", foods[1], 1, "tin", 400),
			line("flour", "200 g flour", foods[2], 200, "g", 200), line("raise", "2 tsp baking powder", foods[3], 2, "tsp", 9), line("salt", "1 tsp salt", foods[4], 1, "tsp", 6),
		}, Sections: []recipes.Section{{Name: "x", ShareUsed: 1, CookedGrams: 100}},
		Steps: []*recipes.Step{{ID: "s1", Text: "Beat the 3 eggs with 100 g of the flour."}, {ID: "s2", Text: "Add 200 ml water."}},
	}
	oats := *r.Lines[2]
	oats.Text, oats.Name = "100 g flour", "more flour"
	oats.Amount, oats.Grams = 100, 100
	return do(t, &recipes.Book{}, recipes.AddRecipe(r, foods), recipes.AddVersion("cake", "a", "", ""),
		recipes.AddSwap(&recipes.Swap{ID: "more", Recipe: "cake", Name: "more", Ops: []recipes.Op{{Kind: recipes.OpAdd, Lines: []*recipes.Line{&oats}}}}, nil, "a"))
}

func TestScale(t *testing.T) {
	b := cake(t)
	x := NewBench(b, b.Recipe("cake"))
	rows := []struct {
		name     string
		column   int
		f        ScaleFields
		servings float64
		texts    []string
		notes    []string // by line: a word of its note
	}{
		{"for 9", 0, ScaleFields{By: ByServings, Servings: "9"}, 9, []string{"4½ eggs", "2 tin tomatoes", "300 g flour", "3 tsp", "1½ tsp"}, []string{"", "1½ exactly", "", "Raising", "Season"}},
		{"for 8 no note on salt", 0, ScaleFields{By: ByServings, Servings: "8"}, 8, []string{"4 eggs", "1 tin tomatoes"}, []string{"", "exactly", "", "", ""}},
		{"by weight, half of 765 g", 0, ScaleFields{By: ByWeight, Weight: "382.5"}, 3, []string{"1½ eggs"}, nil},
		{"20 cm round to 20 cm square", 0, ScaleFields{By: ByPan, From: PanFields{Round: true, A: "20"}, To: PanFields{A: "20", B: "20"}}, 6 * 400 / 314.159, []string{"4 eggs", "1 tin", "255 g flour"}, []string{"3.82 exactly"}},
		{"a version", 1, ScaleFields{By: ByServings, Servings: "12"}, 12, []string{"6 eggs", "2 tin tomatoes", "400 g flour", "4 tsp", "2 tsp", "200 g flour"}, nil},
	}
	for _, r := range rows {
		got, wrong := x.Scale(r.column, r.f, reading.Options{})
		if wrong != "" {
			t.Errorf("%s: %s", r.name, wrong)
			continue
		}
		if d := got.Servings - r.servings; d > .01 || d < -.01 {
			t.Errorf("%s: serves %v, want %v", r.name, got.Servings, r.servings)
		}
		for i, want := range r.texts {
			if !strings.HasPrefix(got.Lines[i].Text, want) {
				t.Errorf("%s: %q, want %q", r.name, got.Lines[i].Text, want)
			}
		}
		for i, want := range r.notes {
			if (want == "") != (got.Lines[i].Note == "") || !strings.Contains(got.Lines[i].Note, want) {
				t.Errorf("%s: note %q, want %q", r.name, got.Lines[i].Note, want)
			}
		}
		if s := got.Text(); strings.Contains(s, "[") || !strings.Contains(s, got.Lines[0].Text) {
			t.Errorf("%s: %q", r.name, s)
		}
	}
	for name, f := range map[string]ScaleFields{
		"no servings": {By: ByServings}, "a word": {By: ByServings, Servings: "many"}, "far too many": {By: ByServings, Servings: "100000"},
		"no weight": {By: ByWeight}, "one pan": {By: ByPan, From: PanFields{Round: true, A: "20"}},
	} {
		if _, wrong := x.Scale(0, f, reading.Options{}); wrong == "" || strings.Contains(wrong, "[") {
			t.Errorf("%s: %q", name, wrong)
		}
	}
}

// TestMakingItTheOriginals: twice the amounts for twice the servings hold the
// same a serving, in the original and in a version that adds something.
func TestMakingItTheOriginals(t *testing.T) {
	b := cake(t)
	x := NewBench(b, b.Recipe("cake"))
	s, _ := x.Scale(0, ScaleFields{By: ByServings, Servings: "12"}, reading.Options{})
	after := do(t, b, s.Verb(b, "cake", reading.Options{}))
	y := NewBench(after, after.Recipe("cake"))
	for i := range x.Accounts {
		was, now := x.Accounts[i].PerServing(food.EnergyKcal).Amount, y.Accounts[i].PerServing(food.EnergyKcal).Amount
		if d := was - now; d > 1e-9 || d < -1e-9 {
			t.Errorf("column %d: %v kcal a serving, before %v", i, now, was)
		}
	}
	r := after.Recipe("cake")
	if r.Servings != 12 || r.Line("egg").Text != "6 eggs" || r.Sections[0].CookedGrams != 200 {
		t.Errorf("the original serves %v with %q", r.Servings, r.Line("egg").Text)
	}
	refused := func(name string, b *recipes.Book) {
		c, err := s.Verb(b, "cake", reading.Options{})(b)
		if err == nil {
			t.Errorf("%s: %d edits went through", name, len(c.Edits))
		}
	}
	refused("weighed tests", do(t, b, recipes.AddTest(&recipes.Batch{ID: "t", Recipe: "cake", FullDish: 700})))
	tea := &recipes.Recipe{ID: "tea", Title: "Tea", Servings: 1, Lines: []*recipes.Line{SubLine(b, &recipes.Line{ID: "c", PartEaten: 1}, SubOf("cake", "", SubBatches, 1))}}
	refused("a batch used elsewhere", do(t, b, recipes.AddRecipe(tea, nil)))
}

// TestTheMethodScalesToo: in the list, as text, and where the amounts become the
// original's own, in what a swap says as well.
func TestTheMethodScalesToo(t *testing.T) {
	b := do(t, cake(t), recipes.AddSwap(&recipes.Swap{ID: "say", Recipe: "cake", Name: "say", Ops: []recipes.Op{{Kind: recipes.OpStepReplace, Step: "s2", Text: "Add 50 g flour."}}}, nil, "a"))
	x := NewBench(b, b.Recipe("cake"))
	s, wrong := x.Scale(0, ScaleFields{By: ByServings, Servings: "12"}, reading.Options{})
	if wrong != "" {
		t.Fatal(wrong)
	}
	if text := s.Text(); !strings.Contains(text, "Method\n1. Beat the 6 eggs with 200 g of the flour.\n2. Add 200 ml water.  (amounts in this step are for the whole recipe)\n") {
		t.Errorf("the list says %s", text)
	}
	if rows := s.Sheet().Rows; rows[len(rows)-1].Cells[0].Mark != Look || !strings.HasPrefix(rows[len(rows)-2].Label.Text, "1. Beat the 6 eggs") {
		t.Errorf("the table ends in %+v", rows[len(rows)-2:])
	}
	after := do(t, b, s.Verb(b, "cake", reading.Options{}))
	if got := after.Recipe("cake").Steps[0].Text + " " + after.Swap("cake", "say").Ops[0].Text; got != "Beat the 6 eggs with 200 g of the flour. Add 100 g flour." {
		t.Errorf("the original's own method: %q", got)
	}
	if b.Recipe("cake").Steps[0].Text != "Beat the 3 eggs with 100 g of the flour." {
		t.Error("the recipe before was changed")
	}
}
