package recipes

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"parewell/recipes/food"
)

// seeded gives bytes from a seeded generator, so that IDs repeat run to run.
type seeded struct{ r *rand.Rand }

func (s seeded) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = byte(s.r.UintN(256))
	}
	return len(p), nil
}

func newSeeded(seed uint64) seeded { return seeded{rand.New(rand.NewPCG(seed, seed))} }

func (s seeded) id() ID { return NewID(s) }

// kitchen is a small made-up dish to exercise the mechanism; its numbers mean
// nothing outside these tests.
type kitchen struct {
	seeded
	book   *Book
	recipe *Recipe
	foods  []*food.Food
}

func mustKitchen(tb testing.TB, seed uint64, lines int) *kitchen {
	tb.Helper()
	k := &kitchen{seeded: newSeeded(seed), book: &Book{}}
	for i := range lines + 4 {
		f := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: fmt.Sprintf("%05d", i)}, Name: fmt.Sprintf("food %d", i)}
		for n := food.Nutrient(0); n < food.NutrientCount; n++ {
			if k.r.Float64() < 0.9 {
				f.Per100.Set(n, k.r.Float64()*50)
			}
		}
		k.foods = append(k.foods, f)
	}
	k.recipe = &Recipe{ID: k.id(), Title: "Test dish", Servings: 4, ServingsFrom: ServingsStated, Edition: 1}
	for i := range lines {
		k.recipe.Lines = append(k.recipe.Lines, k.line(i))
		k.recipe.Steps = append(k.recipe.Steps, &Step{ID: k.id(), Text: fmt.Sprintf("do %d", i)})
	}
	k.do(tb, AddRecipe(k.recipe, k.foods))
	k.recipe = k.book.Recipe(k.recipe.ID)
	return k
}

func (k *kitchen) line(i int) *Line {
	return &Line{
		ID: k.id(), Text: fmt.Sprintf("%d g food %d", 100+i, i), Name: fmt.Sprintf("food %d", i), Amount: float64(100 + i),
		Unit: "g", Grams: float64(100 + i), GramsFrom: GramsWeight, Food: k.foods[i].Ref, PartEaten: 1,
	}
}

func (k *kitchen) do(tb testing.TB, v Verb) Change {
	tb.Helper()
	c, err := v(k.book)
	if err != nil {
		tb.Fatalf("verb: %v", err)
	}
	next, err := k.book.With(c)
	if err != nil {
		tb.Fatalf("%s: %v", c.Label, err)
	}
	k.book = next
	return c
}

// randomSwap draws a swap of any operation on the recipe.
func (k *kitchen) randomSwap() *Swap {
	s := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "swap"}
	for range 1 + k.r.IntN(3) {
		s.Ops = append(s.Ops, k.randomOp())
	}
	return s
}

func (k *kitchen) randomOp() Op {
	line := k.recipe.Lines[k.r.IntN(len(k.recipe.Lines))].ID
	step := k.recipe.Steps[k.r.IntN(len(k.recipe.Steps))].ID
	switch k.r.IntN(9) {
	case 0, 1:
		return Op{Kind: OpMultiply, Line: line, Factor: float64(k.r.IntN(8)) / 4}
	case 2, 3:
		return Op{Kind: OpExchange, Line: line, Share: float64(1+k.r.IntN(2)) / 4, Lines: []*Line{k.line(k.r.IntN(len(k.recipe.Lines)))}}
	case 4:
		return Op{Kind: OpRemove, Line: line}
	case 5:
		return Op{Kind: OpAdd, Lines: []*Line{k.line(0)}}
	case 6:
		return Op{Kind: OpPartEaten, Line: line, Part: k.r.Float64()}
	case 7:
		return Op{Kind: OpStepReplace, Step: step, Text: "do it another way"}
	}
	return Op{Kind: OpStepAdd, Step: step, Text: "one more thing"}
}

// compatible draws up to n swaps no two of which are either/or, with no line
// exchanged for more than all of it.
func (k *kitchen) compatible(n int) []*Swap {
	var on []*Swap
next:
	for range n {
		s := k.randomSwap().settled()
		if s.selfClash() {
			continue
		}
		for _, t := range on {
			if Alternatives(s, t) != NoClash {
				continue next
			}
		}
		if CombinedShareTooLarge(append(append([]*Swap(nil), on...), s)) == "" {
			on = append(on, s)
		}
	}
	return on
}

// selfClash tells whether a drawn swap exchanges more than all of a line.
func (s *Swap) selfClash() bool { return CombinedShareTooLarge([]*Swap{s}) != "" }
