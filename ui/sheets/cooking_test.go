package sheets

import (
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

func TestMethodText(t *testing.T) {
	rows := []struct {
		name string
		t    recipes.Technique
		want string
	}{
		{"nothing", recipes.Technique{}, "not stated"},
		{"one of ours", recipes.Technique{Method: "boiled, drained"}, "boiled and drained"},
		{"with a time", recipes.Technique{Method: "baked", Minutes: 25}, "baked, 25 minutes"},
		{"one minute", recipes.Technique{Method: "flamed", Minutes: 1}, "flamed, 1 minute"},
		{"the recipe's own words", recipes.Technique{Method: "baked uncovered"}, "baked uncovered"},
	}
	for _, r := range rows {
		if got := MethodText(r.t); got != r.want {
			t.Errorf("%s: %q, want %q", r.name, got, r.want)
		}
	}
	for _, c := range MethodChoices(recipes.Technique{Method: "smoked"}) {
		if strings.HasPrefix(c.Value, "[") {
			t.Errorf("%q has no words", c.Name)
		}
	}
	if c := MethodChoices(recipes.Technique{Method: "smoked"}); c[len(c)-1].Name != "smoked" {
		t.Error("a way that is none of ours should stay on the list")
	}
}

func TestReadMinutes(t *testing.T) {
	rows := []struct {
		typed string
		want  float64
		ok    bool
	}{{"", 0, true}, {"25", 25, true}, {"7,5", 7.5, true}, {"soon", 0, false}, {"9000", 9000, false}}
	for _, r := range rows {
		if got, ok := ReadMinutes(r.typed); ok != r.ok || ok && got != r.want {
			t.Errorf("%q: %v %v, want %v %v", r.typed, got, ok, r.want, r.ok)
		}
	}
}

// do runs verbs on a Book.
func do(t *testing.T, b *recipes.Book, verbs ...recipes.Verb) *recipes.Book {
	t.Helper()
	for _, v := range verbs {
		c, err := v(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	return b
}

// TestWhatTheWeightRestsOn: the gratin goes in at 300 g (A: 251 g); baked
// weighs 0.9 of that, usually 0.80 to 0.97; tests say 262 and 270 g.
func TestWhatTheWeightRestsOn(t *testing.T) {
	b, r := gratin(t)
	rows := []struct {
		name       string
		verbs      []recipes.Verb
		label      string
		cells      [2]string
		sub, holds string
	}{
		{"nothing known", nil, "before cooking", [2]string{"300 g", "251 g"}, "", "no test yet"},
		{"a way of cooking", []recipes.Verb{recipes.SetTechnique("recipe", recipes.Technique{Method: "baked"})}, "estimated", [2]string{"270 g", "226 g"}, "240 g – 291 g", "usually 240 g to 291 g"},
		{"a test of the original only", []recipes.Verb{recipes.AddTest(&recipes.Batch{ID: "t1", Recipe: "recipe", FullDish: 262})}, "estimated", [2]string{"270 g", "226 g"}, "240 g – 291 g", "Original has been weighed"},
		{"tests of both", []recipes.Verb{
			recipes.AddTest(&recipes.Batch{ID: "t2", Recipe: "recipe", FullDish: 270}),
			recipes.AddTest(&recipes.Batch{ID: "t3", Recipe: "recipe", Version: "a", FullDish: 220}),
		}, "cooked", [2]string{"266 g", "220 g"}, "262 g – 270 g", "the mean of 2 tests, 262 g to 270 g"},
	}
	for _, c := range rows {
		b = do(t, b, c.verbs...)
		x := NewBench(b, b.Recipe(r.ID))
		got := row(t, x.Sheet(Options{}), DishWeightKey)
		if !strings.Contains(got.Label.Text, c.label) || got.Cells[0].Text != c.cells[0] || got.Cells[1].Text != c.cells[1] || got.Cells[0].Sub != c.sub {
			t.Errorf("%s: %+v", c.name, got)
		}
		if d := x.Detail(DishWeightKey, 0, PerServing); !strings.Contains(d.Text, c.holds) || d.Act == "" {
			t.Errorf("%s: %+v", c.name, d)
		}
	}
}

// TestChain holds the arithmetic of one ingredient: 200 g as bought, 90 %
// edible, 35 % eaten, baked at 0.9; half an hour's heat keeps 35 % of alcohol
// (USDA Retention Factors, Release 6).
func TestChain(t *testing.T) {
	b, _ := gratin(t)
	wine := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: "wine"}, Name: "wine", Edible: 0.9}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		wine.Per100.Set(n, 0)
	}
	wine.Per100.Set(food.Alcohol, 10)
	line := &recipes.Line{ID: "wine", Text: "200 g wine", Grams: 200, GramsFrom: recipes.GramsWeight, Food: wine.Ref, PartEaten: .35, AsBought: true}
	b = do(t, b, recipes.AddLine("recipe", line, "end", []*food.Food{wine}),
		recipes.SetTechnique("recipe", recipes.Technique{Method: "baked", Minutes: 30}))
	facts := func(l recipes.ID) LineFacts {
		f, ok := NewBench(b, b.Recipe("recipe")).LineFacts(l, 0)
		if !ok {
			t.Fatal("no facts")
		}
		return f
	}
	f := facts("wine")
	want := []string{"200 g", "200 g × 90 % = 180 g", "180 g × 35 % = 63 g", "as the dish: baked, 30 minutes", "63 g × 90 % = 57 g (usually 80 % to 97 %)"}
	for i, w := range want {
		if i >= len(f.Chain) || !strings.HasPrefix(f.Chain[i].Value, w) {
			t.Errorf("step %d of %+v, want %q", i, f.Chain, w)
		}
	}
	if len(f.Kept) != 2 || f.Kept[0].Name != "Alcohol" || !strings.Contains(f.Kept[0].Value, "35 % stays: USDA") {
		t.Errorf("kept %+v", f.Kept)
	}
	b = do(t, b, recipes.SetLine("recipe", line.WithUptake(&recipes.Uptake{Water: .1, Salt: .2}), nil))
	if got := facts("wine").Chain[2].Value; !strings.HasPrefix(got, "10 % of the water, 20 % of the salt and 0 % of the fat in 180 g: 18 g") {
		t.Errorf("a bath: %q", got)
	}
}

// TestKeptDrained: water poured off is not called water that boils off, and
// where no published factor is known it says so.
func TestKeptDrained(t *testing.T) {
	rows := []struct {
		name, method string
		state        food.State
		want, never  string
	}{
		{"drained", "boiled, drained", food.Raw, "no published factor", "boils off"},
		{"simmered", "simmered", food.Raw, "boils off", "poured away"},
		{"a row of the cooked food has its losses in it", "boiled, drained", food.Cooked, "boils off", "poured away"},
	}
	for _, row := range rows {
		b, _ := gratin(t)
		leek := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: "leek"}, Name: "leek", Edible: 1, State: row.state}
		leek.Per100.Set(food.Alcohol, 0)
		l := &recipes.Line{ID: "leek", Text: "2 leeks", Grams: 178, GramsFrom: recipes.GramsCount, Food: leek.Ref, PartEaten: 1, Technique: recipes.Technique{Method: row.method}}
		b = do(t, b, recipes.AddLine("recipe", l, "end", []*food.Food{leek}))
		f, _ := NewBench(b, b.Recipe("recipe")).LineFacts("leek", 0)
		if len(f.Kept) != 1 || !strings.Contains(f.Kept[0].Value, row.want) || strings.Contains(f.Kept[0].Value, row.never) {
			t.Errorf("%s: %+v", row.name, f.Kept)
		}
	}
}

// TestDoubtTexts says what was read of a line's own cooking in words.
func TestDoubtTexts(t *testing.T) {
	l := &recipes.Line{Food: food.Ref{Code: "x"}, Doubts: []recipes.Doubt{{Kind: recipes.DoubtCooked, Args: []string{"boiled, drained"}}}}
	if got := DoubtText(l); !strings.Contains(got, "boiled and drained") {
		t.Errorf("got %q", got)
	}
}

// TestTakenOff: 40 of the butter's 400 kcal a 100 g come off as fat, then more
// than there is.
func TestTakenOff(t *testing.T) {
	b, r := gratin(t)
	fat := b.Food(r.Lines[1].Food) // the butter itself stands for its fat
	off, after := OffLine(r, r.Lines[0], "off", fat.Name, 10)
	off.Food = fat.Ref
	b = do(t, b, recipes.AddLine("recipe", off, after, nil))
	x := NewBench(b, b.Recipe("recipe"))
	s := x.Sheet(Options{})
	at := map[string]int{}
	for i, r := range s.Rows {
		at[r.Key] = i
	}
	got := row(t, s, "off")
	if at["off"] != at["milk"]+1 || got.Label.Text != "taken off: 10 g food butter" || got.Cells[0].Text != "–10 g" || !x.IsOff("off") {
		t.Errorf("row %+v at %d, the milk's at %d", got, at["off"], at["milk"])
	}
	f, _ := x.LineFacts("milk", 0)
	if len(f.Off) != 1 || f.Off[0].Text != "10 g food butter" || f.Off[0].Note != "" {
		t.Errorf("taken off %+v", f.Off)
	}
	// 200 g of milk hold 200 kcal: 100 g of 400 kcal cannot come off
	b = do(t, b, recipes.SetLine("recipe", b.Recipe("recipe").Line("off").WithGrams(100), nil))
	x = NewBench(b, b.Recipe("recipe"))
	if f, _ := x.LineFacts("milk", 0); !strings.Contains(f.Off[0].Note, "Only 50 g") {
		t.Errorf("held back %+v", f.Off)
	}
	if c := row(t, x.Ingredients(), "off").Cells[OrigGrams]; c.Mark != Look {
		t.Errorf("the table should mark it: %+v", c)
	}
	b = do(t, b, recipes.RemoveLine("recipe", "milk"))
	if b.Recipe("recipe").Line("off") != nil {
		t.Error("what is taken off goes with its ingredient")
	}
}

func TestChoicesSayWhatTheyRestOn(t *testing.T) {
	b, r := gratin(t)
	for _, l := range r.Lines {
		for _, c := range NewBench(b, r).Choices(0, l) {
			if strings.Contains(c.Name+c.Note, "[") || !strings.Contains(c.Note, "range") {
				t.Errorf("%s: %q", c.Key, c.Note)
			}
		}
	}
}
