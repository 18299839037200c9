package sheets

import (
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// sauced is the gratin with a sauce of its own: 300 g of milk for 3 servings,
// 300 kcal; version B of the sauce halves it.
func sauced(t *testing.T) *recipes.Book {
	t.Helper()
	b, _ := gratin(t)
	milk := food.Ref{Source: "test", Release: "1", Code: "milk"}
	sauce := &recipes.Recipe{ID: "sauce", Title: "White sauce", Servings: 3, Lines: []*recipes.Line{
		{ID: "smilk", Text: "300 g milk", Name: "milk", Grams: 300, GramsFrom: recipes.GramsWeight, Food: milk, PartEaten: 1},
	}}
	return do(t, b, recipes.AddRecipe(sauce, nil), recipes.AddVersion("sauce", "sb", "", ""),
		recipes.AddSwap(&recipes.Swap{ID: "less", Recipe: "sauce", Name: "less milk", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "smilk", Factor: .5}}}, nil, "sb"))
}

func TestAnotherRecipeAsAnIngredient(t *testing.T) {
	rows := []struct {
		name       string
		sub        recipes.SubRecipe
		text       string
		grams      float64
		kcal, cell string
	}{
		{"grams of the original", SubOf("sauce", "", SubGrams, 100), "100 g of White sauce", 100, "100", "100 g"},
		{"servings of the original", SubOf("sauce", "", SubServings, 2), "2 servings of White sauce", 200, "200", "2 servings"},
		{"a batch of a version", SubOf("sauce", "sb", SubBatches, 1), "1 batch of White sauce, A", 150, "150", "1 batch"},
		{"grams of a version, thinner by weight alone", SubOf("sauce", "sb", SubGrams, 100), "100 g of White sauce, A", 100, "100", "100 g"},
	}
	for _, r := range rows {
		b := sauced(t)
		l := SubLine(b, &recipes.Line{ID: "sub", PartEaten: 1}, r.sub)
		if l.Text != r.text || l.Grams != r.grams {
			t.Errorf("%s: %q, %v g", r.name, l.Text, l.Grams)
		}
		b = do(t, b, recipes.AddLine("recipe", l, "end", nil))
		x := NewBench(b, b.Recipe("recipe"))
		c := row(t, x.Ingredients(), "sub").Cells
		if c[OrigGrams].Text != r.cell || c[OrigEnergy].Text != r.kcal || c[OrigFood].Text != SubName(b, r.sub) || c[OrigStatus].Mark != Met {
			t.Errorf("%s: %+v", r.name, c)
		}
		if c := row(t, x.Sheet(Options{}), "sub").Cells; c[0].Text != r.cell || c[1].Text != Same {
			t.Errorf("%s, in the versions: %+v", r.name, c)
		}
		if d := x.Detail("sub", 0, PerServing); d.Act != "Open the recipe" || !strings.Contains(d.Text, "White sauce") {
			t.Errorf("%s: %+v", r.name, d)
		}
		if n := SubNote(b, r.sub); !strings.Contains(n, r.kcal+" kcal") {
			t.Errorf("%s: %q", r.name, n)
		}
	}
}

func TestResizingAPartOfAnotherRecipe(t *testing.T) {
	b := sauced(t)
	l := SubLine(b, &recipes.Line{ID: "sub", PartEaten: 1}, SubOf("sauce", "", SubServings, 2))
	if got := Resized(b, l, 100); got.Sub.Servings != 1 || got.Grams != 100 {
		t.Errorf("%+v, %v g: want one serving", got.Sub, got.Grams)
	}
	// the sauce comes to make 600 g: its two servings weigh 400 g now
	b = do(t, b, recipes.SetLine("sauce", b.Recipe("sauce").Line("smilk").WithGrams(600), nil))
	if got := LineNow(b, l); got.Grams != 400 || l.Grams != 200 {
		t.Errorf("today %v g, as written %v g", got.Grams, l.Grams)
	}
	if got := Resized(b, l, 100); got.Sub.Servings != .5 {
		t.Errorf("%+v, want half a serving", got.Sub)
	}
}

func TestLoopsAreRefusedInWords(t *testing.T) {
	b := sauced(t)
	b = do(t, b, recipes.AddLine("recipe", SubLine(b, &recipes.Line{ID: "sub", PartEaten: 1}, SubOf("sauce", "", SubBatches, 1)), "end", nil))
	back := SubLine(b, &recipes.Line{ID: "back", PartEaten: 1}, SubOf("recipe", "", SubServings, 1))
	c, err := recipes.AddLine("sauce", back, "end", nil)(b)
	if err == nil {
		_, err = b.With(c)
	}
	if err == nil || strings.Contains(err.Error(), "[") {
		t.Errorf("a loop: %v", err)
	}
}

func TestSectionInWords(t *testing.T) {
	b, _ := gratin(t)
	l := *b.Recipe("recipe").Lines[1]
	l.Section = "For the crust"
	b = do(t, b, recipes.SetLine("recipe", &l, nil))
	if got := SectionText(b.Recipe("recipe"), "For the crust"); got != "For the crust" {
		t.Errorf("nothing said: %q", got)
	}
	rows := []struct {
		name, used, weighs string
		want               recipes.Section
		fault              string
	}{
		{"half", "50", "", recipes.Section{Name: "For the crust", ShareUsed: .5}, ""},
		{"weighed", "100", "80 g", recipes.Section{Name: "For the crust", ShareUsed: 1, CookedGrams: 80}, ""},
		{"none of it", "0", "", recipes.Section{}, "used"},
		{"more than all", "120", "", recipes.Section{}, "used"},
		{"no weight", "50", "heavy", recipes.Section{}, "weighs"},
	}
	for _, r := range rows {
		s, faults := ReadSection(b.Recipe("recipe").Section("For the crust"), r.used, r.weighs)
		if r.fault != "" {
			if faults[r.fault] == "" {
				t.Errorf("%s: no fault in %+v", r.name, s)
			}
			continue
		}
		if s != r.want || len(faults) > 0 {
			t.Errorf("%s: %+v %v", r.name, s, faults)
		}
	}
	b = do(t, b, recipes.SetSection("recipe", recipes.Section{Name: "For the crust", ShareUsed: .5}))
	x := NewBench(b, b.Recipe("recipe"))
	// 200 of milk and half of 400 of butter, for two
	if got := row(t, x.Sheet(Options{}), "energy_kcal").Cells[0].Text; got != "200" {
		t.Errorf("%s kcal a serving, want 200", got)
	}
	if got := row(t, x.Sheet(Options{}), "section").Label.Text; got != "For the crust: 50 % used" {
		t.Errorf("heading %q", got)
	}
	f, _ := x.LineFacts("butter", 0)
	if got := f.Chain[3].Value; got != "100 g × 50 % = 50 g" {
		t.Errorf("the arithmetic: %q", got)
	}
	b = do(t, b, recipes.SetSection("recipe", recipes.Section{Name: "For the crust", ShareUsed: 1}))
	if len(b.Recipe("recipe").Sections) != 0 {
		t.Error("what is used whole and not weighed is not kept")
	}
	if _, err := recipes.SetSection("recipe", recipes.Section{Name: "x", ShareUsed: 2})(b); err == nil {
		c, _ := recipes.SetSection("recipe", recipes.Section{Name: "x", ShareUsed: 2})(b)
		if _, err := b.With(c); err == nil {
			t.Error("twice a section was kept")
		}
	}
}
