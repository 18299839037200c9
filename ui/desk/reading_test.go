package desk

import (
	"path/filepath"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
)

func TestReadingKnowsTheFoodsAndTheCooksChoices(t *testing.T) {
	b := newBench(t, Options{Starter: StarterFoods})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "x.parewell"), then) })
	drafts, err := b.ReadText("Butter beans\nServes 4\n\n60 g butter\n400 g tinned butter beans\n\nWarm through.", measure.Metric)
	if err != nil || len(drafts) != 1 || len(drafts[0].Lines) != 2 {
		t.Fatalf("%d drafts, %v", len(drafts), err)
	}
	foods, err := b.FoodsFor(drafts[0].Lines...)
	if err != nil || len(foods) != 2 || foods[0].Ref != drafts[0].Lines[0].Food {
		t.Fatalf("foods %v %v", foods, err)
	}
	ours := &food.Food{Ref: food.Ref{Source: "own", Code: "1"}, Name: "whey butter of the harbour"}
	b.must(t, func(then func(error)) {
		b.Do(recipes.All(recipes.Change{}.Label, "",
			recipes.PutFood(ours), recipes.Remember(&recipes.Choice{Name: "butter", Food: ours.Ref}, nil)), then)
	})
	l, err := b.ReadLine("none", "20 g butter")
	if err != nil || l.Food != ours.Ref || l.Grams != 20 {
		t.Errorf("line %+v %v", l, err)
	}
}

func TestReadLineTakesTheRecipesMeasures(t *testing.T) {
	b := newBench(t, Options{Starter: StarterFoods})
	b.must(t, func(then func(error)) { b.Create(filepath.Join(t.TempDir(), "x.parewell"), then) })
	grams := map[string]float64{}
	for _, system := range []string{"us", "metric", "imperial"} {
		id := recipes.ID(system)
		r := &recipes.Recipe{ID: id, Title: "Soup", Servings: 4, Measures: system}
		if err := b.do(t, recipes.AddRecipe(r, nil)); err != nil {
			t.Fatal(err)
		}
		l, err := b.ReadLine(id, "1 pint water")
		if err != nil {
			t.Fatal(err)
		}
		grams[system] = l.Grams
	}
	// A US pint is 473 ml (NIST SP 811), an imperial one 568 ml (UK Weights and Measures Act 1985).
	if g := grams["us"]; g < 465 || g > 480 {
		t.Errorf("US pint: %v g", g)
	}
	if g := grams["imperial"]; g < 560 || g > 575 {
		t.Errorf("imperial pint: %v g", g)
	}
}
