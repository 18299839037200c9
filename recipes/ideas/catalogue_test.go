package ideas

import (
	"strings"
	"testing"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
)

func mustTable(tb testing.TB) *food.Table {
	tb.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		tb.Fatal(err)
	}
	return food.NewTable(foods)
}

func mustCatalogue(tb testing.TB) (*Catalogue, *food.Table) {
	tb.Helper()
	t := mustTable(tb)
	c, err := ReadCatalogue(assets.Swaps, assets.Kitchen, t)
	if err != nil {
		tb.Fatal(err)
	}
	return c, t
}

// Every row's own claims are held against the published table, helpers
// included: at least 3 % of the part it replaces must go.
func TestEveryClaimHolds(t *testing.T) {
	c, _ := mustCatalogue(t)
	if len(c.Entries()) < 136 {
		t.Fatalf("%d entries, want at least 136", len(c.Entries()))
	}
	for _, e := range c.Entries() {
		if e.Function == "" || e.WorksIn == "" || e.FailsWhen == "" || e.Basis == "" {
			t.Errorf("%s does not say what it does, where it works, when it fails or what it rests on", e.ID)
		}
		for _, n := range e.Claims {
			if !e.Lightens(e.From, n) {
				off, ok := e.Per100(e.From, n)
				t.Errorf("%s claims %s but takes off %.2f (known %v) of 100 g", e.ID, n.Key(), off, ok)
			}
		}
	}
}

func TestFamiliesNameStarterFoods(t *testing.T) {
	c, table := mustCatalogue(t)
	for key, f := range c.families {
		for code := range f.codes {
			if table.Get(food.Ref{Source: food.StarterSource, Release: food.StarterRelease, Code: code}) == nil {
				t.Errorf("family %s: %s is not in the starter table", key, code)
			}
		}
	}
	for _, e := range c.Entries() {
		if !c.families[e.Family].codes[e.From.Code] {
			t.Errorf("%s: its own food is not of the family %s", e.ID, e.Family)
		}
	}
}

// dishFor is a recipe that shows every context an entry may want.
func dishFor(c *Catalogue, e *Entry) (*recipes.Recipe, *recipes.Line) {
	l := &recipes.Line{
		ID: "line", Text: "200 g " + e.FromName, Name: e.FromName, Grams: 200, GramsFrom: recipes.GramsWeight,
		Food: e.From.Ref, PartEaten: 1,
	}
	title, step := "Supper", "Add the "+e.FromName
	for _, x := range c.contexts {
		for _, key := range e.OnlyIn {
			if x.key == key {
				title += " " + x.words[0]
				step += " " + x.words[0]
			}
		}
	}
	return &recipes.Recipe{
		ID: "recipe", Title: title, Servings: 4, Lines: []*recipes.Line{l},
		Steps: []*recipes.Step{{ID: "step", Text: step + "."}},
	}, l
}

// Every entry must be offered for its own food in a dish it suits, and its
// swap must pass the Book's gate, compose, and lighten what it claims.
func TestEveryEntryMakesAUsableSwap(t *testing.T) {
	c, table := mustCatalogue(t)
	for _, e := range c.Entries() {
		r, l := dishFor(c, e)
		x, ok := find(c.For(r, l, table.Get), e.ID)
		if !ok {
			t.Errorf("%s is not offered in %q, %q", e.ID, r.Title, r.Steps[0].Text)
			continue
		}
		s := x.SwapFor("swap", r.ID)
		var b recipes.Book
		book := mustDo(t, &b, recipes.AddRecipe(r, []*food.Food{e.From}))
		book = mustDo(t, book, recipes.AddVersion(r.ID, "version", "", ""))
		book = mustDo(t, book, recipes.AddSwap(s, x.Foods, "version"))
		before := dishOf(book.Draft(book.Recipe(r.ID), nil), book)
		after := dishOf(book.Draft(book.Recipe(r.ID), book.Version(r.ID, "version")), book)
		for _, n := range e.Claims {
			if after[n] >= before[n] {
				t.Errorf("%s: %s goes from %.2f to %.2f", e.ID, n.Key(), before[n], after[n])
			}
		}
		if strings.ContainsAny(s.Name, "[]{}") || s.Name == "" {
			t.Errorf("%s is named %q", e.ID, s.Name)
		}
	}
}

func find(all []Idea, id string) (Idea, bool) {
	for _, x := range all {
		if x.Entry.ID == id {
			return x, true
		}
	}
	return Idea{}, false
}

func mustDo(tb testing.TB, b *recipes.Book, v recipes.Verb) *recipes.Book {
	tb.Helper()
	c, err := v(b)
	if err != nil {
		tb.Fatal(err)
	}
	if b, err = b.With(c); err != nil {
		tb.Fatal(err)
	}
	return b
}

// dishOf sums the known nutrients of a draft by plain arithmetic.
func dishOf(d *recipes.Draft, b *recipes.Book) [food.NutrientCount]float64 {
	var sum [food.NutrientCount]float64
	for i := range d.Lines {
		g, _ := d.Lines[i].Grams()
		if f := b.Food(d.Lines[i].Line.Food); f != nil {
			for n := range sum {
				v, _ := f.Per100.Get(food.Nutrient(n))
				sum[n] += v * g / 100
			}
		}
	}
	return sum
}

func TestRowFaultsAreNamed(t *testing.T) {
	table := mustTable(t)
	head, rest, _ := strings.Cut(string(assets.Swaps), "\n")
	first, _, _ := strings.Cut(rest, "\n")
	edit := func(from, to string) []byte { return []byte(head + "\n" + strings.Replace(first, from, to, 1) + "\n") }
	for _, row := range []struct {
		name  string
		swaps []byte
		want  string
	}{
		{"a food that is not there", edit("01053", "99999"), "swaps.csv, row 2: the food 99999"},
		{"a kind that is none", edit("replace", "swallow"), `row 2: there is no kind "swallow"`},
		{"a ratio that is no number", edit(",1,volume,", ",x,volume,"), `ratio "x"`},
		{"a family that is none", edit("heavy cream", "heavy thing"), `there is no family "heavy thing"`},
		{"a claim that is none", edit("energy|", "energie|"), `"energie" cannot be claimed`},
		{"a row twice", []byte(head + "\n" + first + "\n" + first + "\n"), "row 3: cream-half-and-half stands twice"},
		{"a wrong header", []byte("id,kind\n"), "row 1: the columns are"},
		{"nothing at all", nil, "row 1"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := ReadCatalogue(row.swaps, assets.Kitchen, table)
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("error %v, want %q in it", err, row.want)
			}
		})
	}
}
