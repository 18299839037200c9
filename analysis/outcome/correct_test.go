package outcome_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/analysis/ratings"
	"parewell/recipes"
)

// gratin is the demo with its three closed tastings, to correct the record of.
type gratin struct {
	testing.TB
	book   *recipes.Book
	recipe *recipes.Recipe
	n      int
}

func demoGratin(tb testing.TB) *gratin {
	b, r := demoBook(tb)
	return &gratin{TB: tb, book: b, recipe: r}
}

func (g *gratin) id() recipes.ID { g.n++; return recipes.ID(fmt.Sprintf("made%012d", g.n)) }

func (g *gratin) do(v recipes.Verb) recipes.Change {
	g.Helper()
	c, err := v(g.book)
	if err == nil {
		g.book, err = g.book.With(c)
	}
	if err != nil {
		g.Fatal(err)
	}
	return c
}

// grams are the lines of a version as composed.
func (g *gratin) grams(b *recipes.Book, letter string) []string {
	var out []string
	for _, l := range b.ServedRecord(g.recipe, b.Version(g.recipe.ID, g.version(letter).ID)).Lines {
		out = append(out, fmt.Sprintf("%s %.6f", l.Name, l.Grams))
	}
	return out
}

// correct corrects the record; the verb by itself must be refused.
func (g *gratin) correct(v recipes.Verb) recipes.Change {
	g.Helper()
	c, err := v(g.book)
	if err == nil {
		_, err = g.book.With(c)
	}
	if err == nil {
		g.Fatal("what was served was changed without a word")
	}
	return g.do(recipes.Correct("2026-04-20T10:00:00Z", "the book of the evening says so", v))
}

func (g *gratin) version(letter string) *recipes.Version {
	for _, v := range g.book.Versions(g.recipe.ID) {
		if v.Letter == letter {
			return v
		}
	}
	g.Fatal("no version", letter)
	return nil
}

func (g *gratin) swap(name string) *recipes.Swap {
	for _, s := range g.book.Swaps(g.recipe.ID) {
		if strings.Contains(s.Name, name) {
			return s
		}
	}
	g.Fatal("no swap", name)
	return nil
}

// type over the ingredient of a version, grams only.
func (g *gratin) typeOver(letter, ingredient string, grams float64) recipes.Verb {
	v := g.version(letter)
	for _, d := range g.book.Draft(g.recipe, v).Lines {
		if strings.Contains(d.Line.Name, ingredient) && !d.Gone() {
			l := d.Line.WithGrams(grams)
			return recipes.TypeOver{Recipe: g.recipe.ID, Version: v.ID, Line: d.Line.ID, Typed: l, NewSwap: g.id()}.Verb()
		}
	}
	g.Fatal("no line", ingredient)
	return nil
}

func (g *gratin) ledger() (*ledger.Table, *outcome.Pool) {
	g.Helper()
	p, err := outcome.PoolOf(g.book, g.recipe.ID)
	if err != nil {
		g.Fatal(err)
	}
	report, err := ratings.Analyse(p.Table, ratings.Options{Original: outcome.Original(), Limit: p.Limit, Attribute: "Overall"})
	if err != nil {
		g.Fatal(err)
	}
	e, err := outcome.EvidenceOf(g.book, g.recipe, p, report.Results[0])
	if err != nil {
		g.Fatal(err)
	}
	t, err := ledger.Judge(e, ledger.EnergyKey)
	if err != nil {
		g.Fatal(err)
	}
	return t, p
}

func row(t *ledger.Table, id recipes.ID, all []*recipes.Swap) *ledger.Verdict {
	return &t.Rows[slices.IndexFunc(all, func(s *recipes.Swap) bool { return s.ID == id })]
}

// What a pot weighed says nothing new of who liked it: after an amount of a shared
// swap is corrected every swap keeps its effect to the digit.
func TestACorrectedAmountKeepsEveryEffect(t *testing.T) {
	for _, c := range []struct {
		name, version, ingredient, swap string
		grams                           float64
		is                              string
	}{
		{"an amount a swap brought", "A", "yogurt", "strained yogurt", 130, "130 g"},
		{"an amount two swaps deep", "E", "olive oil", "olive oil for the butter", 24, "24 g"},
		{"an amount a swap cut", "D", "fine salt", "25 % less", 5, "5 g"},
		{"what an exchange leaves", "B", "double cream", "strained yogurt", 120, "120 g"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := demoGratin(t)
			before, _ := g.ledger()
			id, swaps := g.swap(c.swap).ID, len(g.book.Swaps(g.recipe.ID))
			had := map[string]bool{}
			for _, v := range g.book.Versions(g.recipe.ID) {
				had[v.Letter] = v.Has(id)
			}
			verb := g.typeOver(c.version, c.ingredient, c.grams)
			free, err := verb(g.book)
			if err != nil {
				t.Fatal(err)
			}
			free.Correction = true
			asTyped, err := g.book.With(free)
			if err != nil {
				t.Fatal(err)
			}
			want := g.grams(asTyped, c.version)
			g.correct(verb)
			if got := g.grams(g.book, c.version); !slices.Equal(got, want) {
				t.Errorf("%s holds %q, typed was %q", c.version, got, want)
			}
			if n := len(g.book.Swaps(g.recipe.ID)); n != swaps {
				t.Errorf("%d swaps, before %d", n, swaps)
			}
			for _, v := range g.book.Versions(g.recipe.ID) {
				if v.Has(id) != had[v.Letter] {
					t.Errorf("%s no longer has the swaps it had", v.Letter)
				}
			}
			after, p := g.ledger()
			for i := range before.Rows {
				x, y := before.Rows[i], after.Rows[i]
				if x.Kind != y.Kind || x.Pots != y.Pots || !math.IsNaN(x.Effect) && math.Abs(x.Effect-y.Effect) > 1e-9 {
					t.Errorf("%s: %s %v, before %s %v", x.Name, y.Kind, y.Effect, x.Kind, x.Effect)
				}
			}
			weighs := false
			for _, d := range g.book.Draft(g.recipe, g.version(c.version)).Lines {
				w, _ := d.Grams()
				weighs = weighs || strings.Contains(d.Line.Name, c.ingredient) && math.Abs(w-c.grams) < 1e-9
			}
			if !weighs {
				t.Error("the version does not say what was typed")
			}
			said := 0
			for _, x := range p.Tastings {
				for _, k := range g.book.Corrections(x.ID) {
					if k.At != "2026-04-20T10:00:00Z" || k.Was == "" || k.Why != "the book of the evening says so" || len(k.Of) == 0 {
						t.Errorf("%+v", k)
					}
					if strings.Contains(k.What, c.ingredient) && k.Is == c.is {
						said++
					}
				}
			}
			if said == 0 {
				t.Error("no tasting lists the correction")
			}
		})
	}
}

// Where the correction takes a swap out of a version, the analysis goes by what
// was in fact served, says which correction that was, and its words are true.
func TestACorrectedSetIsWhatTheAnalysisGoesBy(t *testing.T) {
	for _, c := range []struct{ name, version, swap, tied string }{
		{"one more swap is told apart", "B", "crumbs brushed", ""},
		{"salt was as ever in D", "D", "25 % less", "olive oil for the butter under the leeks"},
		{"A was the original", "A", "strained yogurt", "not told apart"},
	} {
		t.Run(c.name, func(t *testing.T) {
			g := demoGratin(t)
			v, s := g.version(c.version), g.swap(c.swap)
			before, _ := g.ledger()
			g.correct(recipes.Tick(g.recipe.ID, v.ID, s.ID, false))
			table, p := g.ledger()
			if notes := strings.Join(p.Notes(), "\n"); !strings.Contains(notes, "20 Apr 2026") || !strings.Contains(notes, "swaps in "+c.version) || !strings.Contains(notes, s.Name) || !strings.Contains(notes, "the book of the evening says so") {
				t.Errorf("the results do not say what was corrected:\n%s", notes)
			}
			if all := g.book.Swaps(g.recipe.ID); row(table, s.ID, all).Pots >= row(before, s.ID, all).Pots {
				t.Error("pots of the version are counted still")
			}
			tied, groups := "", table.Groups()
			for i := range table.Rows {
				v := &table.Rows[i]
				if v.Mixed && groups[i] > 0 {
					t.Errorf("%s stands with those always served with it", v.Name)
				}
				says := v.Label().String() + " " + v.Explain().String()
				if strings.Contains(says, "?") {
					t.Error(says)
				}
				if v.Kind == ledger.Tied {
					tied += says
				}
				for _, x := range p.Table.Swaps.On {
					at := slices.IndexFunc(p.Swaps, func(s *recipes.Swap) bool { return s.Name == v.Name })
					for _, tie := range v.Ties {
						other := slices.IndexFunc(p.Swaps, func(s *recipes.Swap) bool { return s.Name == tie })
						if strings.Contains(says, "always served together") && x[at] != x[other] {
							t.Errorf("not true: %s", says)
						}
					}
				}
			}
			if c.tied == "" && tied != "" || !strings.Contains(tied, c.tied) {
				t.Errorf("tied: %q, want %q", tied, c.tied)
			}
		})
	}
}

// A change of a served dish is told as what it is: a new version with a letter and
// a title of its own, and nothing done to the served one.
func TestAChangedDishIsToldByItsOwnName(t *testing.T) {
	g := demoGratin(t)
	a := g.version("A")
	for _, row := range []struct{ letter, title string }{{"G", "yogurt, changed from A"}, {"H", "yogurt, changed from A (2)"}} {
		c := g.do(recipes.ChangeDish(a.ID, g.id, g.typeOver("A", "yogurt", 130)))
		made := g.version(row.letter)
		if made.Name != row.title || made.Note != "" {
			t.Errorf("%+v", made)
		}
		if says := c.Label.String(); !strings.HasPrefix(says, "New version "+row.letter+" beside A: ") || strings.Contains(says, "in A") || !strings.Contains(says, "in "+row.letter) {
			t.Error(says)
		}
		if now := g.version("A"); now.Name != a.Name || !slices.Equal(now.Swaps, a.Swaps) {
			t.Error("A is no longer as it was served")
		}
	}
}

// Another amount of a swap that several versions share makes one new swap, in the
// new version alone.
func TestAChangedDishTakesNoSwapFromOthers(t *testing.T) {
	g := demoGratin(t)
	had := map[string][]recipes.ID{}
	for _, v := range g.book.Versions(g.recipe.ID) {
		had[v.Letter] = v.Swaps
	}
	n := len(g.book.Swaps(g.recipe.ID))
	b := g.version("B")
	g.do(recipes.ChangeDish(b.ID, g.id, g.typeOver("B", "olive oil", 10)))
	if now := len(g.book.Swaps(g.recipe.ID)); now != n+1 {
		t.Errorf("%d swaps more, want one", now-n)
	}
	for letter, swaps := range had {
		if !slices.Equal(g.version(letter).Swaps, swaps) {
			t.Errorf("%s has other swaps", letter)
		}
	}
	if made := g.version("G"); len(made.Swaps) != len(b.Swaps) {
		t.Errorf("G has %d swaps, B %d", len(made.Swaps), len(b.Swaps))
	}
}

// A copy for an editor keeps what was corrected, and no words about people.
func TestTheEditorsCopyKeepsCorrectionsWithoutReasons(t *testing.T) {
	g := demoGratin(t)
	g.correct(g.typeOver("A", "yogurt", 130))
	b := recipes.NewBook(recipes.ForEditor(g.book))
	n := 0
	for _, x := range b.TastingsOf(g.recipe.ID) {
		for _, c := range b.Corrections(x.ID) {
			if n++; c.Why != "" || c.Was == "" {
				t.Errorf("%+v", c)
			}
		}
	}
	if n == 0 {
		t.Error("the copy lost the corrections")
	}
	for _, p := range b.Panelists() {
		for _, why := range p.Aside {
			if why != "set aside by the cook" {
				t.Error(why)
			}
		}
	}
}
