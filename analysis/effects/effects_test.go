package effects

import (
	"fmt"
	"math"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
)

func must(tb testing.TB) (*ideas.Catalogue, *food.Table) {
	tb.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		tb.Fatal(err)
	}
	t := food.NewTable(foods)
	c, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, t)
	if err != nil {
		tb.Fatal(err)
	}
	return c, t
}

func line(id, name, code string, grams float64) *recipes.Line {
	return &recipes.Line{
		ID: recipes.ID(id), Text: name, Name: name, Grams: grams, GramsFrom: recipes.GramsWeight, PartEaten: 1,
		Food: food.Ref{Source: food.StarterSource, Release: food.StarterRelease, Code: code},
	}
}

func chowder() *recipes.Recipe {
	return &recipes.Recipe{
		ID: "r", Title: "Chowder", Servings: 4,
		Lines: []*recipes.Line{
			line("cream", "double cream", "01053", 300), line("mayo", "mayonnaise", "04025", 100),
			line("potato", "potatoes", "11352", 500), line("salt", "salt", "02047", 6),
		},
		Steps: []*recipes.Step{{ID: "1", Text: "Simmer the potatoes in the cream with the salt."}},
	}
}

func ids() func() recipes.ID {
	n := 0
	return func() recipes.ID { n++; return recipes.ID(fmt.Sprint("s", n)) }
}

func TestEffectIsTheWholeChange(t *testing.T) {
	c, table := must(t)
	r := chowder()
	looks, err := Biggest(c, r, table.Get, ids(), 10)
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, look := range looks {
		for _, f := range look.Ideas {
			tried++
			foods := With(table.Get, f.Idea.Foods)
			before := nutrition.Of(recipes.Compose(r, nil, nil), foods)
			after := nutrition.Of(recipes.Compose(r, nil, []*recipes.Swap{f.Effect.Swap}), foods)
			for n := food.Nutrient(0); n < food.NutrientCount; n++ {
				want := nutrition.Compare(before, after, n)
				if got := f.Effect.Changes[n]; got.Bound != want.Bound || math.Abs(got.Amount-want.Amount) > 1e-9 {
					t.Errorf("%s, %s: %v %v, want %v %v", f.Effect.Swap.Name, n.Key(), got.Amount, got.Bound, want.Amount, want.Bound)
				}
			}
		}
	}
	if tried < 8 {
		t.Errorf("only %d ideas for a chowder", tried)
	}
}

func TestBiggestStartsWithTheLargestShare(t *testing.T) {
	c, table := must(t)
	looks, err := Biggest(c, chowder(), table.Get, ids(), 2)
	if err != nil || len(looks) != 2 {
		t.Fatalf("%d looks, %v", len(looks), err)
	}
	// By hand: the cream holds 69 of 81 g saturated fat (85 %), 6 g of salt
	// 2325 of 3071 mg sodium (76 %).
	if looks[0].Line.ID != "cream" || looks[0].Shares[0].Nutrient != food.SaturatedFat {
		t.Errorf("first %s for %s", looks[0].Line.ID, looks[0].Shares[0].Nutrient.Key())
	}
	if looks[1].Line.ID != "salt" || len(looks[1].Ideas) < 4 {
		t.Errorf("second %s with %d ideas", looks[1].Line.ID, len(looks[1].Ideas))
	}
}

func TestSlipsAndAllergensShow(t *testing.T) {
	c, table := must(t)
	r := chowder()
	r.Lines = r.Lines[:3] // without the salt the mayonnaise is most of the sodium
	fits, err := Fit(c, r, r.Line("mayo"), table.Get, ids())
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, f := range fits {
		switch f.Idea.Entry.ID {
		case "mayonnaise-light-mayonnaise":
			seen++
			if len(f.Effect.Slips) == 0 || f.Effect.Slips[0].Nutrient != food.Sodium {
				t.Errorf("light mayonnaise slips %+v, want sodium first", f.Effect.Slips)
			}
		case "mayonnaise-strained-yogurt":
			seen++
			if f.Effect.Added != 0 { // the cream already brought milk
				t.Errorf("yogurt adds %v to a dish with cream", f.Effect.Added.Keys())
			}
			if f.Effect.Lost&food.Egg == 0 {
				t.Errorf("the dish loses %v, want egg", f.Effect.Lost.Keys())
			}
		}
	}
	if seen != 2 {
		t.Errorf("%d of the two ideas were offered", seen)
	}
}
