package reading

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/measure"
)

// recipeFiles are the whole recipes of testdata with what a person sees in
// them: title, servings, lines (split ones counted apart), steps.
var recipeFiles = []struct {
	file, title  string
	serves, high float64
	lines, steps int
	sections     string
}{
	{"beef-chili.txt", "Weeknight Beef and Bean Chili", 6, 0, 12, 4, ""},
	{"beef-stew.txt", "Beef stew with ale", 6, 8, 12, 3, ""},
	{"brownies.txt", "Fudge Brownies", 16, 0, 9, 3, ""},
	{"caesar-salad.txt", "Chicken Salad with Garlic Croutons", 4, 0, 13, 2, "Dressing"},
	{"chicken-curry.txt", "COCONUT CHICKEN CURRY", 4, 0, 12, 3, ""},
	{"fish-tacos.txt", "Fish Tacos with Lime Slaw", 8, 0, 12, 3, "For the fish,For the slaw"},
	{"haddock-gratin.txt", "Smoked Haddock and Leek Gratin", 6, 0, 13, 4, "For the crust"},
	{"lemon-loaf.txt", "Lemon and almond loaf", 10, 0, 11, 4, "For the icing"},
	{"lentil-soup.txt", "Red lentil soup", 4, 0, 12, 3, ""},
	{"macaroni.txt", "Stovetop macaroni and cheese", 4, 6, 9, 3, ""},
	{"oat-cookies.txt", "Grandmother-style Oat & Raisin Cookies", 24, 0, 11, 4, ""},
	{"pancakes.txt", "Sunday Buttermilk Pancakes", 4, 0, 9, 3, ""},
	{"ratatouille.txt", "Ratatouille", 4, 0, 10, 3, ""},
	{"risotto.txt", "Mushroom risotto", 4, 0, 8, 3, ""},
	{"shepherds-pie.txt", "Shepherd's pie", 4, 0, 12, 4, "For the filling,For the mash"},
	{"tuna-pasta.txt", "Store-cupboard tuna pasta (for two)", 2, 0, 8, 2, ""},
}

func TestWholeRecipes(t *testing.T) {
	for _, r := range recipeFiles {
		b, err := os.ReadFile(filepath.Join("testdata", r.file))
		if err != nil {
			t.Fatal(err)
		}
		for _, sys := range []measure.System{measure.US, measure.Metric} {
			d, err := ReadText(string(b), Options{Foods: table(t), System: sys})
			if err != nil {
				t.Fatal(r.file, err)
			}
			if d.Title != r.title || d.Servings != r.serves || d.ServingsHigh != r.high || len(d.Lines) != r.lines || len(d.Steps) != r.steps {
				t.Errorf("%s: %q serves %v-%v, %d lines, %d steps", r.file, d.Title, d.Servings, d.ServingsHigh, len(d.Lines), len(d.Steps))
			}
			if got := strings.Join(sectionsOf(d), ","); got != r.sections {
				t.Errorf("%s: sections %q", r.file, got)
			}
			for _, l := range d.Lines {
				if l.Status() == recipes.StatusUnknown {
					t.Errorf("%s: %s is unknown", r.file, l.Text)
				}
			}
		}
	}
}

func sectionsOf(d *Draft) []string {
	var out []string
	for _, l := range d.Lines {
		if l.Section != "" && (len(out) == 0 || out[len(out)-1] != l.Section) {
			out = append(out, l.Section)
		}
	}
	return out
}

func TestDraftBecomesRecipe(t *testing.T) {
	b, err := os.ReadFile("testdata/beef-stew.txt")
	if err != nil {
		t.Fatal(err)
	}
	d, err := ReadText(string(b), Options{Foods: table(t), System: measure.Metric})
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	r := d.Recipe(func() recipes.ID { n++; return recipes.ID(strings.Repeat("a", n)) })
	if n != 1+len(d.Lines)+len(d.Steps) || r.Edition != 1 || r.Measures != "metric" || r.Servings != 6 || r.ServingsHigh != 8 || r.ServingsFrom != recipes.ServingsRange {
		t.Errorf("%d ids, %+v", n, r)
	}
	if d.Lines[0].ID != "" || r.Lines[0].ID == "" || r.Lines[0].Text != d.Lines[0].Text {
		t.Error("the draft's lines were changed, or the recipe's have no ID")
	}
}
