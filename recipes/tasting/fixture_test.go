package tasting_test

import (
	"fmt"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

// table is a made-up supper with tasters, to exercise the mechanism.
type table struct {
	testing.TB
	book *recipes.Book
	n    int
}

func (k *table) id() recipes.ID {
	k.n++
	return recipes.ID(fmt.Sprintf("id%06d", k.n))
}

func (k *table) try(v recipes.Verb) error {
	k.Helper()
	c, err := v(k.book)
	if err != nil {
		return err
	}
	next, err := k.book.With(c)
	if err == nil {
		k.book = next
	}
	return err
}

func (k *table) do(v recipes.Verb) {
	k.Helper()
	if err := k.try(v); err != nil {
		k.Fatalf("%v", err)
	}
}

func foodOf(code, name string, a food.Allergens) *food.Food {
	return &food.Food{Ref: food.Ref{Source: "test", Code: code}, Name: name, Allergens: a}
}

var (
	checked = food.Allergens{Recorded: true}
	haddock = foodOf("1", "Haddock", food.Allergens{Recorded: true, Contains: food.Fish})
	cream   = foodOf("2", "Cream", food.Allergens{Recorded: true, Contains: food.Milk})
	leek    = foodOf("3", "Leek", checked)
	oat     = foodOf("4", "Oat drink", food.Allergens{Recorded: true, Contains: food.OtherGluten, Depends: food.TreeNut})
	crumb   = foodOf("5", "Crumb", food.Allergens{}) // nobody has looked
)

func line(id recipes.ID, f *food.Food, grams float64) *recipes.Line {
	return &recipes.Line{ID: id, Text: f.Name, Name: f.Name, Unit: "g", Amount: grams, Grams: grams, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}
}

// lay has a gratin, its versions A (oat for cream) and B (less cream), and four
// tasters who have been asked.
func lay(tb testing.TB) *table {
	tb.Helper()
	k := &table{TB: tb, book: &recipes.Book{}}
	r := &recipes.Recipe{ID: "gratin", Title: "Gratin", Servings: 4, ServingsFrom: recipes.ServingsStated, Edition: 1, Lines: []*recipes.Line{
		line("l1", haddock, 400), line("l2", cream, 200), line("l3", leek, 300),
	}, Steps: []*recipes.Step{{ID: "s1", Text: "Bake"}}}
	k.do(recipes.AddRecipe(r, []*food.Food{haddock, cream, leek, oat, crumb}))
	k.do(recipes.AddVersion("gratin", "A", "", ""))
	k.do(recipes.AddVersion("gratin", "B", "", ""))
	swap := &recipes.Swap{ID: "oat", Recipe: "gratin", Name: "Oat for cream", Ops: []recipes.Op{{Kind: recipes.OpExchange, Line: "l2", Share: 1, Lines: []*recipes.Line{line("", oat, 200)}}}}
	k.do(recipes.AddSwap(swap, nil, "A"))
	k.do(recipes.AddSwap(&recipes.Swap{ID: "less", Recipe: "gratin", Name: "Less cream", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l2", Factor: 0.5}}}, nil, "B"))
	for _, code := range []string{"AB", "CD", "EF", "GH"} {
		k.do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID(code), Code: code, Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
	return k
}

// plan puts a liking test of the original, A and B with every taster seated.
func (k *table) plan() *recipes.Tasting {
	k.Helper()
	t := &recipes.Tasting{
		ID: "t", Recipe: "gratin", Date: "2026-03-04", Test: recipes.TestLiking, Limit: 0.5, Portion: 60, Spare: 0.1,
		Attributes: []recipes.Attribute{{Name: "Overall", Kind: recipes.AskLiking}, {Name: "Salt", Kind: recipes.AskJustRight}},
	}
	samples := []*recipes.Sample{{ID: "so", Code: "482"}, {ID: "sa", Version: "A", Code: "619"}, {ID: "sb", Version: "B", Code: "275"}}
	for i, p := range []recipes.ID{"AB", "CD", "EF", "GH"} {
		cups := []recipes.Cup{{Sample: "so", Code: 482}, {Sample: "sa", Code: 619}, {Sample: "sb", Code: 275}}
		for range i {
			cups = append(cups[1:], cups[0])
		}
		t.Seats = append(t.Seats, recipes.Seat{Number: i + 1, Panelist: p, Cups: cups})
	}
	k.do(tasting.Put(t, samples))
	return k.book.Tasting("t")
}

// answer gives a whole ballot of one seat.
func (k *table) answer(seat int, source recipes.Source, overall float64) recipes.Verb {
	var list []tasting.Answer
	for _, c := range k.book.Tasting("t").Seat(seat).Cups {
		list = append(list, tasting.Answer{Seat: seat, Code: c.Code, Scores: map[string]float64{"Overall": overall, "Salt": 3}, Source: source})
	}
	return tasting.Record("t", k.id, list...)
}
