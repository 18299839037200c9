package ideas

import (
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
)

func ref(code string) food.Ref {
	return food.Ref{Source: food.StarterSource, Release: food.StarterRelease, Code: code}
}

func line(id, name, code string, grams float64) *recipes.Line {
	return &recipes.Line{
		ID: recipes.ID(id), Text: name, Name: name, Grams: grams, GramsFrom: recipes.GramsWeight,
		Food: ref(code), PartEaten: 1,
	}
}

func ids(all []Idea) []string {
	var out []string
	for _, x := range all {
		out = append(out, x.Entry.ID)
	}
	return out
}

func TestIdeasSuitTheDish(t *testing.T) {
	c, table := mustCatalogue(t)
	own := &food.Food{Ref: food.Ref{Source: "own", Code: "dc"}, Name: "double cream, 48 % fat", Allergens: food.Allergens{Recorded: true, Contains: food.Milk}}
	own.Per100.Set(food.EnergyKcal, 445)
	own.Per100.Set(food.Fat, 47.5)
	foods := func(r food.Ref) *food.Food {
		if r == own.Ref {
			return own
		}
		return table.Get(r)
	}
	butter := line("b", "butter", "01001", 60)
	dry := line("s", "salt", "02047", 6)
	cream := line("c", "double cream", "01053", 300)
	cream.Food = own.Ref
	sugar := line("u", "sugar", "19335", 200)
	gratin := &recipes.Recipe{ID: "g", Title: "Leek gratin", Servings: 6, Steps: []*recipes.Step{
		{ID: "1", Text: "Melt the butter and soften the leeks. Season with the salt."}, {ID: "2", Text: "Pour in the cream and bake."},
	}}
	cake := &recipes.Recipe{ID: "k", Title: "Lemon loaf", Servings: 12, Steps: []*recipes.Step{{ID: "1", Text: "Cream the butter with the sugar and whip the cream."}}}
	jam := &recipes.Recipe{ID: "j", Title: "Strawberry jam", Servings: 40, Steps: []*recipes.Step{{ID: "1", Text: "Boil the fruit with the sugar."}}}
	pickle := &recipes.Recipe{ID: "p", Title: "Pickled cucumbers", Servings: 20}
	for _, row := range []struct {
		name    string
		dish    *recipes.Recipe
		line    *recipes.Line
		want    []string
		notWant []string
	}{
		{"butter that softens leeks", gratin, butter, []string{"butter-olive-oil", "butter-less-50"}, []string{"butter-unsweetened-apple-sauce", "butter-low-fat-spread"}},
		{"butter in a cake", cake, butter, []string{"butter-unsweetened-apple-sauce", "butter-strained-yogurt", "butter-less-25"}, []string{"butter-olive-oil", "butter-less-50", "butter-prune-puree"}},
		{"an own double cream", gratin, cream, []string{"cream-strained-yogurt-half", "cream-half-and-half", "cream-whole-milk-half"}, []string{"whipped-cream-strained-yogurt"}},
		{"cream to whip", cake, cream, []string{"whipped-cream-strained-yogurt"}, []string{"cream-strained-yogurt-half"}},
		{"salt in a gratin", gratin, dry, []string{"salt-less-15", "salt-less-25", "salt-less-40", "salt-less-50"}, nil},
		{"salt in a pickle", pickle, dry, nil, []string{"salt-less-15", "salt-less-50"}},
		{"sugar in a cake", cake, sugar, []string{"sugar-less-25", "sugar-less-10"}, nil},
		{"sugar in jam", jam, sugar, nil, []string{"sugar-less-25", "sugar-less-10", "sugar-sugar-and-sucralose-baking-blend"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			got := ids(c.For(row.dish, row.line, foods))
			for _, id := range row.want {
				if !slices.Contains(got, id) {
					t.Errorf("%s is missing from %v", id, got)
				}
			}
			for _, id := range row.notWant {
				if slices.Contains(got, id) {
					t.Errorf("%s is offered in %v", id, got)
				}
			}
		})
	}
}

func TestSwapOfAnIdea(t *testing.T) {
	c, table := mustCatalogue(t)
	l := line("c", "double cream", "01053", 300)
	r := &recipes.Recipe{ID: "g", Title: "Leek gratin", Servings: 6, Lines: []*recipes.Line{l}, Steps: []*recipes.Step{
		{ID: "1", Text: "Pour in the cream."}, {ID: "2", Text: "Bake."},
	}}
	x, ok := find(c.For(r, l, table.Get), "cream-strained-yogurt-half")
	if !ok {
		t.Fatal("not offered")
	}
	s := x.SwapFor("new", "g")
	if s.Name != "strained yogurt for half the double cream" || s.Recipe != "g" || s.Idea != x.Entry.ID {
		t.Errorf("named %q of %q from %q", s.Name, s.Recipe, s.Idea)
	}
	ex := s.Ops[0]
	if ex.Kind != recipes.OpExchange || ex.Share != 0.5 || len(ex.Lines) != 2 {
		t.Fatalf("operation %+v", ex)
	}
	if g := ex.Lines[0]; g.Grams != 150 || g.Text != "150 g strained yogurt" || g.Status() != recipes.StatusMatched {
		t.Errorf("line %+v", g)
	}
	if g := ex.Lines[1]; math.Abs(g.Grams-2.5) > 1e-9 { // 150 g x 0.018 = 2.7, weighed as 2.5
		t.Errorf("cornflour %v g", g.Grams)
	}
	if s.Ops[1].Kind != recipes.OpStepAdd || s.Ops[1].Step != "1" {
		t.Errorf("its step %+v follows %q, want step 1", s.Ops[1], s.Ops[1].Step)
	}
}

func TestLiquidsAreMeasuredAsLiquids(t *testing.T) {
	c, table := mustCatalogue(t)
	l := line("m", "whole milk", "01077", 309.39)
	l.Amount, l.Unit = 300, "ml"
	r := &recipes.Recipe{ID: "g", Title: "Leek gratin", Servings: 6, Lines: []*recipes.Line{l}}
	x, _ := find(c.For(r, l, table.Get), "whole-milk-low-fat-milk")
	n := x.SwapFor("a", "g").Ops[0].Lines[0]
	if n.Text != "300 ml low-fat milk (1 %)" || n.Unit != "ml" || math.Abs(n.Grams-309) > 2 {
		t.Errorf("%q, %v %s, %v g", n.Text, n.Amount, n.Unit, n.Grams)
	}
	cream := line("c", "double cream", "01053", 300)
	cream.Amount, cream.Unit = 300, "ml"
	r.Lines = append(r.Lines, cream)
	y, _ := find(c.For(r, cream, table.Get), "cream-strained-yogurt-half")
	if n := y.SwapFor("b", "g").Ops[0].Lines[0]; n.Text != "150 g strained yogurt" {
		t.Errorf("yogurt does not pour: %q", n.Text)
	}
}

func TestStepsNameWhatIsInTheDish(t *testing.T) {
	for _, row := range []struct{ text, old, now, want string }{
		{"Add the soured cream.", "soured cream", "yogurt", "Add the yogurt."},
		{"Soured cream, then more soured cream", "soured cream", "yogurt", "yogurt, then more yogurt"},
		{"Add the creamed corn.", "cream", "yogurt", "Add the creamed corn."},
		{"Crème fraîche in.", "crème fraîche", "yogurt", "yogurt in."},
		{"Salt it.", "", "x", "Salt it."},
	} {
		if got := replaceWords(row.text, row.old, row.now); got != row.want {
			t.Errorf("%q becomes %q, want %q", row.text, got, row.want)
		}
	}
}

func TestTasteAtTheEndClosesTheMethod(t *testing.T) {
	c, table := mustCatalogue(t)
	l := line("s", "salt", "02047", 6)
	r := &recipes.Recipe{ID: "g", Title: "Leek gratin", Servings: 6, Lines: []*recipes.Line{l}, Steps: []*recipes.Step{
		{ID: "1", Text: "Soften the leeks with the salt."}, {ID: "2", Text: "Bake."},
	}}
	x, _ := find(c.For(r, l, table.Get), "salt-less-40")
	s := x.SwapFor("a", "g")
	if last := s.Ops[len(s.Ops)-1]; last.Kind != recipes.OpStepAdd || last.Step != "2" {
		t.Errorf("%+v does not follow the last step", last)
	}
}

func TestStrengthsAreEitherOr(t *testing.T) {
	c, table := mustCatalogue(t)
	l := line("s", "salt", "02047", 6)
	r := &recipes.Recipe{ID: "g", Title: "Leek gratin", Servings: 6, Lines: []*recipes.Line{l}}
	a, _ := find(c.For(r, l, table.Get), "salt-less-15")
	b, _ := find(c.For(r, l, table.Get), "salt-less-40")
	x, y := a.SwapFor("a", "g"), b.SwapFor("b", "g")
	if recipes.Alternatives(x, y) != recipes.ClashLadder || !(x.Strength < y.Strength) {
		t.Errorf("clash %q, strengths %v and %v", recipes.Alternatives(x, y), x.Strength, y.Strength)
	}
	if x.Name != "15 % less salt" {
		t.Errorf("named %q", x.Name)
	}
}

func TestCautions(t *testing.T) {
	c, table := mustCatalogue(t)
	mince := line("m", "beef mince", "23572", 500)
	powder := line("p", "baking powder", "18369", 10)
	mayo := line("y", "mayonnaise", "04025", 100)
	salt := line("s", "salt", "02047", 50)
	stew := &recipes.Recipe{ID: "g", Title: "Chilli", Servings: 6, Lines: []*recipes.Line{mince, powder, mayo, salt}, Steps: []*recipes.Step{{ID: "1", Text: "Simmer."}}}
	kraut := &recipes.Recipe{ID: "k", Title: "Sauerkraut", Servings: 6, Lines: []*recipes.Line{salt}}
	kinds := func(all []Caution) string {
		var out []string
		for _, x := range all {
			out = append(out, string(x.Kind))
			if s := x.Say.String() + x.From.String(); strings.Contains(s, "[") {
				t.Errorf("no words for %s: %s", x.Kind, s)
			}
		}
		return strings.Join(out, ",")
	}
	of := func(r *recipes.Recipe, l *recipes.Line, id string) string {
		x, ok := find(c.For(r, l, table.Get), id)
		if !ok {
			t.Fatalf("%s is not offered", id)
		}
		return kinds(x.Cautions)
	}
	if got := of(stew, mince, "beef-mince-lean-turkey-mince"); got != "poultry" {
		t.Errorf("turkey for beef: %s", got)
	}
	if got := of(stew, powder, "baking-powder-low-sodium-baking-powder"); got != "potassium" {
		t.Errorf("low-sodium baking powder: %s", got)
	}
	if got := of(stew, mayo, "mayonnaise-strained-yogurt"); got != "allergen" {
		t.Errorf("yogurt for mayonnaise: %s", got)
	}
	less := &recipes.Swap{ID: "x", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "s", Factor: 0.5}}}
	if got := kinds(c.Cautions(kraut, less, table.Get)); got != "preserved" {
		t.Errorf("half the salt in sauerkraut: %s", got)
	}
	if got := kinds(c.Cautions(stew, less, table.Get)); got != "" {
		t.Errorf("half the salt in a chilli: %s", got)
	}
}

func TestAllergensOfAnIdea(t *testing.T) {
	c, table := mustCatalogue(t)
	l := line("y", "mayonnaise", "04025", 100)
	r := &recipes.Recipe{ID: "g", Title: "Slaw", Servings: 6, Lines: []*recipes.Line{l}, Steps: []*recipes.Step{{ID: "1", Text: "Stir."}}}
	x, ok := find(c.For(r, l, table.Get), "mayonnaise-strained-yogurt")
	if !ok || x.Added != food.Milk || x.Lost&food.Egg == 0 {
		t.Errorf("offered %v, adds %v, loses %v", ok, x.Added.Keys(), x.Lost.Keys())
	}
}

func BenchmarkFor(b *testing.B) {
	c, table := mustCatalogue(b)
	l := line("c", "double cream", "01053", 300)
	r := &recipes.Recipe{ID: "g", Title: "Leek gratin", Servings: 6, Lines: []*recipes.Line{l}, Steps: []*recipes.Step{
		{ID: "1", Text: "Pour in the cream and simmer."}, {ID: "2", Text: "Bake."},
	}}
	for b.Loop() {
		c.For(r, l, table.Get)
	}
}

func BenchmarkReadCatalogue(b *testing.B) {
	table := mustTable(b)
	for b.Loop() {
		if _, err := ReadCatalogue(assets.Swaps, assets.Kitchen, table); err != nil {
			b.Fatal(err)
		}
	}
}
