package exchange_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/analysis/sheet"
	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/exchange"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
)

func counted() func() recipes.ID {
	n := 0
	return func() recipes.ID { n++; return recipes.ID(fmt.Sprintf("demo%012d", n)) }
}

// mustDemo returns the demo and options that know its own foods.
func mustDemo(tb testing.TB) (*recipes.Book, reading.Options) {
	tb.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		tb.Fatal(err)
	}
	table := food.NewTable(foods)
	c, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		tb.Fatal(err)
	}
	b, err := demo.Book(counted(), table, c)
	if err != nil {
		tb.Fatal(err)
	}
	for _, f := range b.Foods() {
		if f.Source == "own" {
			foods = append(foods, f)
		}
	}
	return b, reading.Options{System: measure.Metric, Foods: food.NewTable(foods)}
}

// forms are the two ways a version goes out.
var forms = []struct {
	name  string
	file  string
	write func(*bytes.Buffer, *exchange.Column) error
}{
	{"text", "recipe.txt", func(b *bytes.Buffer, c *exchange.Column) error { return exchange.WriteText(b, c.Draft) }},
	{"JSON-LD", "recipe.json", func(b *bytes.Buffer, c *exchange.Column) error { return exchange.WriteJSONLD(b, c) }},
}

// Every version of the demo goes out and comes in again: the same ingredients,
// steps and servings, and the same energy to 1 % (amounts are rounded as a
// cook would write them). Foods chosen by hand are put back first, because a
// text cannot carry them.
func TestVersionsComeInAgain(t *testing.T) {
	book, opt := mustDemo(t)
	for _, form := range forms {
		for _, r := range book.Recipes() {
			s := sheet.Of(book, r)
			for i := range s.Columns {
				c := &s.Columns[i]
				name := fmt.Sprint(form.name, " ", r.Title, " ", i)
				var b bytes.Buffer
				if err := form.write(&b, c); err != nil {
					t.Fatal(err)
				}
				_, drafts, err := exchange.Import(b.Bytes(), form.file, opt, counted())
				if err != nil || len(drafts) != 1 {
					t.Errorf("%s: %d recipes, %v", name, len(drafts), err)
					continue
				}
				compare(t, name, c, drafts[0], book, opt)
			}
		}
	}
}

func compare(t *testing.T, name string, c *exchange.Column, d *reading.Draft, book *recipes.Book, opt reading.Options) {
	t.Helper()
	if d.Servings != c.Draft.Servings || !strings.HasPrefix(d.Title, c.Draft.Recipe.Title) || d.Headnote != c.Draft.Recipe.Headnote {
		t.Errorf("%s: %q serves %v, headnote %q", name, d.Title, d.Servings, d.Headnote)
	}
	if len(d.Steps) != len(c.Draft.Steps) {
		t.Errorf("%s: %d steps, want %d", name, len(d.Steps), len(c.Draft.Steps))
	}
	out := map[string]food.Ref{}
	kept := 0
	for i := range c.Draft.Lines {
		if l := &c.Draft.Lines[i]; !l.Gone() {
			kept++
			out[l.Line.Name] = l.Line.Food
		}
	}
	if len(d.Lines) != kept {
		t.Errorf("%s: %d ingredients, want %d", name, len(d.Lines), kept)
		return
	}
	r := d.Recipe(counted())
	for _, l := range r.Lines {
		if ref, ok := out[l.Name]; ok {
			l.Food = ref
		}
	}
	foods := func(ref food.Ref) *food.Food {
		if f := book.Food(ref); f != nil {
			return f
		}
		return opt.Foods.Get(ref)
	}
	got := nutrition.Of(recipes.Compose(r, nil, nil), foods).PerServing(food.EnergyKcal)
	want := c.Per[food.EnergyKcal].Amount
	if got.AtLeast || math.Abs(got.Amount-want) > 0.01*want {
		t.Errorf("%s: %.1f kcal a serving came back, %.1f went out", name, got.Amount, want)
	}
}

func TestTextKeepsHeadings(t *testing.T) {
	book, opt := mustDemo(t)
	for _, r := range book.Recipes() {
		var b bytes.Buffer
		if err := exchange.WriteText(&b, book.Draft(r, nil)); err != nil {
			t.Fatal(err)
		}
		d, err := reading.ReadText(b.String(), opt)
		if err != nil {
			t.Fatal(err)
		}
		for i, l := range d.Lines {
			if i < len(r.Lines) && (l.Text != r.Lines[i].Text || l.Section != r.Lines[i].Section) {
				t.Errorf("%s: %q under %q came back as %q under %q", r.Title, r.Lines[i].Text, r.Lines[i].Section, l.Text, l.Section)
			}
		}
	}
}

func TestJSONLDLeavesOutWhatIsNotWhole(t *testing.T) {
	book, _ := mustDemo(t)
	r := book.Recipes()[0]
	c := sheet.Of(book, r).Columns[0]
	var b bytes.Buffer
	if err := exchange.WriteJSONLD(&b, &c); err != nil {
		t.Fatal(err)
	}
	var out struct {
		Context   string            `json:"@context"`
		Type      string            `json:"@type"`
		Yield     string            `json:"recipeYield"`
		Nutrition map[string]string `json:"nutrition"`
	}
	if err := json.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	if out.Context != "https://schema.org" || out.Type != "Recipe" || out.Yield != "6 servings" {
		t.Errorf("%+v", out)
	}
	// The double cream's label does not tell cholesterol or trans fat.
	for _, key := range []string{"cholesterolContent", "transFatContent"} {
		if v, there := out.Nutrition[key]; there {
			t.Errorf("%s is %q though parts are unknown", key, v)
		}
	}
	kcal := fmt.Sprintf("%.0f kcal", c.Per[food.EnergyKcal].Amount)
	if out.Nutrition["calories"] != kcal || out.Nutrition["sodiumContent"] == "" || out.Nutrition["servingSize"] == "" {
		t.Errorf("nutrition %v, want %s", out.Nutrition, kcal)
	}
}

func TestImportAddsAllOrNone(t *testing.T) {
	_, opt := mustDemo(t)
	two := `[{"@type":"Recipe","name":"Toast","recipeYield":"2","recipeIngredient":["50 g butter","100 g white bread"]},
		{"@type":"Recipe","name":"Porridge","recipeYield":"1","recipeIngredient":["40 g rolled oats"]}]`
	verb, drafts, err := exchange.Import([]byte(two), "two.json", opt, counted())
	if err != nil || len(drafts) != 2 {
		t.Fatalf("%d drafts, %v", len(drafts), err)
	}
	b := &recipes.Book{}
	c, err := verb(b)
	if err != nil {
		t.Fatal(err)
	}
	if b, err = b.With(c); err != nil || len(b.Recipes()) != 2 {
		t.Errorf("%d recipes, %v", len(b.Recipes()), err)
	}
	if back, err := b.With(c.Inverse()); err != nil || len(back.Entities()) != 0 {
		t.Errorf("undo leaves %v, %v", back, err)
	}
	if _, _, err := exchange.Import([]byte("no recipe here"), "x.txt", opt, counted()); err == nil {
		t.Error("a text without a recipe was imported")
	}
}
