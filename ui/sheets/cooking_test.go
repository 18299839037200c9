package sheets

import (
	"strings"
	"testing"

	"parewell/recipes"
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
