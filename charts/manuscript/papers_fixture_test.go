package manuscript

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

// supper is a made-up tasting to exercise the papers.
type supper struct {
	testing.TB
	book *recipes.Book
}

func (s *supper) do(v recipes.Verb) {
	s.Helper()
	c, err := v(s.book)
	if err == nil {
		s.book, err = s.book.With(c)
	}
	if err != nil {
		s.Fatal(err)
	}
}

func aFood(code, name string, contains food.Allergen) *food.Food {
	return &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: code}, Name: name, Allergens: food.Allergens{Recorded: true, Contains: contains}}
}

// names of what tasters must not read.
const (
	secretVersion = "Oat and thyme"
	secretSwap    = "Oat drink for the double cream"
)

// newSupper has a gratin "Lighter ..." of three versions besides the original, and
// so many tasters.
func newSupper(tb testing.TB, tasters int) *supper {
	tb.Helper()
	haddock, cream, leek, oat, wine := aFood("1", "Haddock, smoked", food.Fish), aFood("2", "Double cream", food.Milk), aFood("3", "Leek", 0), aFood("4", "Oat drink", food.OtherGluten), aFood("5", "White wine", food.Sulphite)
	haddock.Edible, cream.Density, oat.Density, wine.Density = 0.9, 1, 1.03, 0.99
	leek.Edible, leek.Measures = 0.57, []food.Measure{{Unit: "whole", Grams: 89}}
	wine.Per100.Set(food.Alcohol, 10)
	line := func(id, text string, f *food.Food, g float64) *recipes.Line {
		l := &recipes.Line{ID: recipes.ID(id), Text: text, Name: f.Name, Grams: g, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}
		if g == 0 {
			l.GramsFrom = recipes.GramsUnknown
		}
		return l
	}
	s := &supper{TB: tb, book: &recipes.Book{}}
	r := &recipes.Recipe{
		ID: "gratin", Title: "Lighter smoked haddock and leek gratin", Servings: 6, Edition: 1, Dish: recipes.Technique{Method: "baked", Minutes: 35}, Measures: "metric",
		Lines: []*recipes.Line{
			line("l1", "700 g smoked haddock", haddock, 700), line("l2", "300 ml double cream", cream, 300), line("l3", "3 large leeks, finely sliced", leek, 480),
			line("l4", "100 ml white wine", wine, 99), line("l5", "a little more leek to taste", leek, 0),
		},
		Steps: []*recipes.Step{{ID: "s1", Text: "Soften the leeks in the wine for ten minutes."}, {ID: "s2", Text: "Lay the fish over them, pour the cream over all and bake until it bubbles."}},
	}
	s.do(recipes.AddRecipe(r, []*food.Food{haddock, cream, leek, oat, wine}))
	for _, v := range []string{"va", "vb", "vc"} {
		s.do(recipes.AddVersion("gratin", recipes.ID(v), secretVersion+" "+v, ""))
	}
	s.do(recipes.AddSwap(&recipes.Swap{ID: "oat", Recipe: "gratin", Name: secretSwap, Ops: []recipes.Op{{Kind: recipes.OpExchange, Line: "l2", Share: 1, Lines: []*recipes.Line{line("", "300 ml oat drink", oat, 309)}}}}, nil, "va"))
	s.do(recipes.AddSwap(&recipes.Swap{ID: "less", Recipe: "gratin", Name: "Half the double cream", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l2", Factor: 0.5}}}, nil, "vb"))
	s.do(recipes.AddSwap(&recipes.Swap{ID: "fish", Recipe: "gratin", Name: "A quarter less fish", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l1", Factor: 0.75}}}, nil, "vc"))
	for i := range tasters {
		s.do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID(fmt.Sprintf("p%d", i)), Code: fmt.Sprintf("Q%dX", i+1), Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
	return s
}

var versionsInTurn = []recipes.ID{"", "va", "vb", "vc"}

// plan seats everybody at a tasting of so many samples; the fifth and on are
// second pots.
func (s *supper) plan(test string, seats, samples int, edit func(*recipes.Tasting)) *recipes.Tasting {
	s.Helper()
	t := &recipes.Tasting{
		ID: "t", Recipe: "gratin", Date: "2026-03-04", Time: "19:30", Test: test, Limit: 0.5, Portion: 60, Spare: 0.1, Holds: 20, Celsius: 60,
		Cooks: "Q1X", Codes: "Q2X", Attributes: []recipes.Attribute{
			{Name: "Overall", Kind: recipes.AskLiking}, {Name: "Creaminess of the sauce", Kind: recipes.AskLiking}, {Name: "Saltiness", Kind: recipes.AskJustRight}, {Name: "Smoke", Kind: recipes.AskIntensity},
		},
	}
	var list []*recipes.Sample
	var ids, people []recipes.ID
	for i := range samples {
		x := &recipes.Sample{ID: recipes.ID(fmt.Sprintf("smp%d", i)), Version: versionsInTurn[i%4], Pot: 1 + i/4}
		list, ids = append(list, x), append(ids, x.ID)
	}
	for i := range seats {
		people = append(people, recipes.ID(fmt.Sprintf("p%d", i)))
	}
	d, err := sensory.Plan(sensory.Ask{Test: sensory.Test(test), Samples: samples, Panelists: seats, Seed: 7})
	if err != nil {
		s.Fatal(err)
	}
	t.Seats = d.Seats(ids, people)
	for i := range list {
		list[i].Code = d.SampleCode(i)
	}
	if edit != nil {
		edit(t)
	}
	s.do(tasting.Put(t, list))
	return s.book.Tasting("t")
}

func (s *supper) papers(t *recipes.Tasting, ask PapersAsk) *TastingPapers {
	s.Helper()
	p, err := PapersOf(s.book, t, nutrition.In(s.book), ask)
	if err != nil {
		s.Fatal(err)
	}
	return p
}

func usual() PapersAsk {
	return PapersAsk{Heat: 200, Rest: 5, Vessel: "small gratin dish", OnHand: map[string]float64{"white wine": 5000, "Double cream": 120}}
}

// readBack returns the text of a PDF as another program reads it, or as placed
// where that program is not installed.
func readBack(t *testing.T, d *Document) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		all := ""
		for i := range d.Pages {
			all += d.Pages[i].Words() + "\n"
		}
		return all
	}
	var b bytes.Buffer
	if err := d.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "papers.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	text, err := exec.Command("pdftotext", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
