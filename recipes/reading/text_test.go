package reading

import (
	"errors"
	"os"
	"slices"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/problem"
)

func TestReadTextShapes(t *testing.T) {
	opt := Options{Foods: table(t)}
	for _, c := range []struct {
		name, text   string
		title        string
		serves       float64
		from         recipes.ServingsFrom
		lines, steps int
	}{
		{"ingredients only", "2 eggs\n100 g flour\n200 ml milk", "", 1, recipes.ServingsAssumed, 3, 0},
		{"no headings", "Batter\n\n2 eggs\n100 g flour\n200 ml milk\n\nWhisk everything together until smooth and let it stand.", "Batter", 1, recipes.ServingsAssumed, 3, 1},
		{"title with a number", "3 Bean Salad\n\nServes 4\n\n1 can black beans, drained\n1 can chickpeas, drained\n2 tbsp olive oil\n\nMix well in a large bowl and chill.", "3 Bean Salad", 4, recipes.ServingsStated, 3, 1},
		{"servings in the heading", "Soup\nIngredients (serves 6)\n1 onion\n1 litre water\nMethod\nBoil.", "Soup", 6, recipes.ServingsStated, 2, 1},
		{"double spaced", "Soup\n\nIngredients\n\n1 onion\n\n1 litre water\n\n1 tsp salt\n\nDirections\n\nBoil.\n\nServe.", "Soup", 1, recipes.ServingsAssumed, 3, 2},
		{"windows line ends", "Soup\r\nServes 2\r\n1 onion\r\n1 litre water\r\nMethod\r\n1. Boil.\r\n2. Serve.\r\n", "Soup", 2, recipes.ServingsStated, 2, 2},
		{"method on one line", "Soup\nIngredients\n1 onion\nMethod: Boil the onion and serve.", "Soup", 1, recipes.ServingsAssumed, 1, 1},
		{"broken ingredient line", "Soup\nIngredients\n1 onion, peeled,\nhalved and sliced\n1 litre water\nMethod\nBoil.", "Soup", 1, recipes.ServingsAssumed, 2, 1},
		{"makes a litre", "Stock\nMakes 1 litre\n1 onion\n1 carrot\nMethod\nBoil.", "Stock", 1, recipes.ServingsAssumed, 2, 1},
		{"yield with dozen", "Buns\nYield: 1 dozen buns\n500 g flour\n300 ml milk\nMethod\nBake.", "Buns", 12, recipes.ServingsStated, 2, 1},
		{"portions", "Buns\n8 portions\n500 g flour\n300 ml milk\nMethod\nBake.", "Buns", 8, recipes.ServingsStated, 2, 1},
		{"numbered ingredients", "Buns\nIngredients\n1. 500 g flour\n2. 300 ml milk\n3. 1 tsp salt\nMethod\n1. Bake.", "Buns", 1, recipes.ServingsAssumed, 3, 1},
	} {
		d, err := ReadText(c.text, opt)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if d.Title != c.title || d.Servings != c.serves || d.ServingsFrom != c.from || len(d.Lines) != c.lines || len(d.Steps) != c.steps {
			t.Errorf("%s: title %q, serves %v (%s), %d lines, steps %q", c.name, d.Title, d.Servings, d.ServingsFrom, len(d.Lines), d.Steps)
		}
	}
}

func TestReadTextProblems(t *testing.T) {
	for _, text := range []string{"", "   \n\n", "Only a story about soup, with no list of anything in it at all."} {
		_, err := ReadText(text, Options{Foods: table(t), Where: "soup.txt"})
		var p *problem.Error
		if !errors.As(err, &p) || p.Hint == "" || !strings.HasPrefix(p.Where, "soup.txt") {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestSkippedSaysWhy(t *testing.T) {
	d, err := ReadText("Soup\nPrint Recipe\nPrep time: 10 min\n2 onions\n1 litre water\nMethod\nBoil.\nNotes\nGood cold.", Options{Foods: table(t)})
	if err != nil {
		t.Fatal(err)
	}
	want := []Skipped{{2, "Print Recipe", "page furniture"}, {3, "Prep time: 10 min", "times"}, {8, "Notes", "notes"}, {9, "Good cold.", "notes"}}
	if len(d.Skipped) != len(want) {
		t.Fatalf("%+v", d.Skipped)
	}
	for i := range want {
		if d.Skipped[i] != want[i] {
			t.Errorf("%+v, want %+v", d.Skipped[i], want[i])
		}
	}
}

func TestDoubtfulOrder(t *testing.T) {
	opt := Options{Foods: table(t)}
	var lines []*recipes.Line
	for _, s := range []string{"1 bay leaf", "oil for deep frying", "salt, to taste", "2 large eggs", "1 pinch nutmeg", "300 ml double cream"} {
		lines = append(lines, ReadLine(s, opt))
	}
	rows := Doubtful(lines, opt.Foods)
	var got []string
	for _, r := range rows {
		got = append(got, r.Line.Text)
		if r.Line != lines[r.Index] {
			t.Errorf("%s has the index of %s", r.Line.Text, lines[r.Index].Text)
		}
	}
	want := []string{"oil for deep frying", "300 ml double cream", "salt, to taste", "1 bay leaf", "1 pinch nutmeg"}
	if strings.Join(got[:3], "|") != strings.Join(want[:3], "|") || len(got) != len(want) {
		t.Errorf("order %q", got)
	}
	for _, r := range rows {
		small := r.Line.Text == "1 bay leaf" || r.Line.Text == "1 pinch nutmeg"
		if r.Small != small {
			t.Errorf("%s: small %v (%.1f kcal, %.1f mg)", r.Line.Text, r.Small, r.Kcal, r.Sodium)
		}
	}
	settled := *lines[1]
	settled.Settled = true
	if rows := Doubtful([]*recipes.Line{&settled}, opt.Foods); len(rows) != 0 {
		t.Error("a settled line is still in doubt")
	}
}

func FuzzReadText(f *testing.F) {
	for _, r := range recipeFiles {
		b, err := os.ReadFile("testdata/" + r.file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(b))
	}
	for _, s := range []string{"", "Ingredients", "Method\nMethod", "1 egg\n(", "Serves 0\n1 egg", "Serves -4\n1 egg", "Makes ½\n1 egg", ":\n1 egg", "1.\n2.\n3."} {
		f.Add(s)
	}
	opt := Options{Foods: table(f)}
	f.Fuzz(func(t *testing.T, text string) {
		d, err := ReadText(text, opt)
		if err != nil {
			return
		}
		if !(d.Servings > 0) || len(d.Lines) == 0 {
			t.Fatalf("serves %v, %d lines", d.Servings, len(d.Lines))
		}
		for _, l := range d.Lines {
			if slices.ContainsFunc(l.Doubts, func(x recipes.Doubt) bool { return x.Kind == recipes.DoubtCooked || x.Kind == recipes.DoubtSalted }) {
				continue // what the method does with it, the line alone does not say
			}
			checkLine(t, l, Options{Foods: opt.Foods, Section: l.Section}, true)
		}
	})
}

func BenchmarkReadText(b *testing.B) {
	text, err := os.ReadFile("testdata/oat-cookies.txt")
	if err != nil {
		b.Fatal(err)
	}
	opt := Options{Foods: table(b)}
	for b.Loop() {
		if _, err := ReadText(string(text), opt); err != nil {
			b.Fatal(err)
		}
	}
}
