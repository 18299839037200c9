package recipes

import (
	"math"
	"slices"
	"testing"
)

// typing types grams over line 0 in a version and returns the version's swaps.
func (k *kitchen) typing(tb testing.TB, v ID, line *Line, grams float64) {
	tb.Helper()
	typed := *line
	typed.Grams = grams
	k.do(tb, TypeOver{Recipe: k.recipe.ID, Version: v, Line: line.ID, Typed: &typed, NewSwap: k.id()}.Verb())
}

func (k *kitchen) grams(v ID, at int) float64 {
	g, _ := k.book.Draft(k.recipe, k.book.Version(k.recipe.ID, v)).Lines[at].Grams()
	return g
}

func TestTypingOverAnAmountMakesOneSwap(t *testing.T) {
	k := mustKitchen(t, 21, 3)
	v, line := k.id(), k.recipe.Lines[0]
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	k.typing(t, v, line, 60)
	k.typing(t, v, line, 20)
	swaps := k.book.Swaps(k.recipe.ID)
	if len(swaps) != 1 {
		t.Fatalf("%d swaps, want the same one changed", len(swaps))
	}
	if got := k.grams(v, 0); math.Abs(got-20) > 1e-9 {
		t.Fatalf("%v g, want 20", got)
	}
	if want := "food 0 100 g to 20 g"; swaps[0].Name != want {
		t.Errorf("named %q, want %q", swaps[0].Name, want)
	}
	k.typing(t, v, line, 100)
	if ver := k.book.Version(k.recipe.ID, v); len(ver.Swaps) != 0 {
		t.Error("the original's own amount should switch the typed swap off")
	}
}

func TestTypingOverASharedSwapLeavesTheOtherVersionAlone(t *testing.T) {
	k := mustKitchen(t, 22, 3)
	a, b, line := k.id(), k.id(), k.recipe.Lines[0]
	k.do(t, AddVersion(k.recipe.ID, a, "", ""))
	k.typing(t, a, line, 60)
	k.do(t, AddVersion(k.recipe.ID, b, "", a))
	k.typing(t, b, line, 30)
	if ga, gb := k.grams(a, 0), k.grams(b, 0); math.Abs(ga-60) > 1e-9 || math.Abs(gb-30) > 1e-9 {
		t.Fatalf("A has %v g and B %v g, want 60 and 30", ga, gb)
	}
	s := k.book.Swaps(k.recipe.ID)
	if len(s) != 2 || Alternatives(s[0], s[1]) != ClashLadder {
		t.Fatal("the two amounts should be strengths of one swap")
	}
}

func TestTypingOverBesideAnotherSwapGivesTheAmountTyped(t *testing.T) {
	k := mustKitchen(t, 23, 3)
	v, line := k.id(), k.recipe.Lines[0]
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	half := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "half", Ops: []Op{{Kind: OpExchange, Line: line.ID, Share: .5, Lines: []*Line{k.line(1)}}}}
	k.do(t, AddSwap(half, nil, v))
	k.typing(t, v, line, 20)
	if got := k.grams(v, 0); math.Abs(got-20) > 1e-9 {
		t.Fatalf("%v g, want the 20 that were typed", got)
	}
}

func TestTypingAnotherFoodExchanges(t *testing.T) {
	k := mustKitchen(t, 24, 3)
	v, line := k.id(), k.recipe.Lines[0]
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	other := k.line(1)
	k.do(t, TypeOver{Recipe: k.recipe.ID, Version: v, Line: line.ID, Typed: other, NewSwap: k.id()}.Verb())
	d := k.book.Draft(k.recipe, k.book.Version(k.recipe.ID, v))
	if !d.Lines[0].Gone() || d.Lines[1].Line.Food != other.Food {
		t.Fatal("the typed food should stand in the line's place")
	}
	// typing over the brought line changes the same swap
	typed := *d.Lines[1].Line
	typed.Grams = 42
	k.do(t, TypeOver{Recipe: k.recipe.ID, Version: v, Line: d.Lines[1].Line.ID, Typed: &typed, NewSwap: k.id()}.Verb())
	if got := k.grams(v, 1); math.Abs(got-42) > 1e-9 || len(k.book.Swaps(k.recipe.ID)) != 1 {
		t.Fatalf("%v g in %d swaps, want 42 in 1", got, len(k.book.Swaps(k.recipe.ID)))
	}
	k.do(t, TypeOver{Recipe: k.recipe.ID, Version: v, Line: line.ID, NewSwap: k.id()}.Verb())
	if d = k.book.Draft(k.recipe, k.book.Version(k.recipe.ID, v)); len(d.Lines) != 3 || !d.Lines[0].Gone() {
		t.Fatal("an emptied cell should leave the ingredient out")
	}
}

func TestJoinedSwapsKeepTheDraft(t *testing.T) {
	k := mustKitchen(t, 25, 4)
	v := k.id()
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	k.typing(t, v, k.recipe.Lines[0], 50)
	k.typing(t, v, k.recipe.Lines[1], 50)
	before := [2]float64{k.grams(v, 0), k.grams(v, 1)}
	s := k.book.Swaps(k.recipe.ID)
	k.do(t, JoinSwaps(k.recipe.ID, []ID{s[0].ID, s[1].ID}, "less of both"))
	if after := [2]float64{k.grams(v, 0), k.grams(v, 1)}; after != before {
		t.Fatalf("%v g, want %v as before", after, before)
	}
	if got := k.book.Swaps(k.recipe.ID); len(got) != 1 || got[0].Name != "less of both" {
		t.Fatal("want one joined swap")
	}
}

func TestTypingAnotherFoodBesideASmallerAmountGivesTheGramsTyped(t *testing.T) {
	k := mustKitchen(t, 26, 3)
	v, line := k.id(), k.recipe.Lines[0]
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	less := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "less", Ops: []Op{{Kind: OpMultiply, Line: line.ID, Factor: .8}}}
	k.do(t, AddSwap(less, nil, v))
	other := k.line(1)
	other.Grams = 70
	k.do(t, TypeOver{Recipe: k.recipe.ID, Version: v, Line: line.ID, Typed: other, NewSwap: k.id()}.Verb())
	if got := k.grams(v, 1); math.Abs(got-70) > 1e-9 {
		t.Fatalf("%v g, want the 70 that were typed", got)
	}
}

// TestJoiningDoesNotPutEitherOrSwapsOn: A has s1 and s3 on; s3 is either/or
// with s2; joining s1 and s2 would leave A with two that cannot both be on.
func TestJoiningDoesNotPutEitherOrSwapsOn(t *testing.T) {
	k := mustKitchen(t, 27, 4)
	v := k.id()
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	mk := func(line int, kind OpKind, tick ID) ID {
		s := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "s", Ops: []Op{{Kind: kind, Line: k.recipe.Lines[line].ID, Factor: .5}}}
		k.do(t, AddSwap(s, nil, tick))
		return s.ID
	}
	s1, s3 := mk(0, OpMultiply, v), mk(1, OpRemove, v)
	s2 := mk(1, OpMultiply, "")
	_ = s3
	c, err := JoinSwaps(k.recipe.ID, []ID{s1, s2}, "both")(k.book)
	if err == nil {
		_, err = k.book.With(c)
	}
	if err == nil {
		t.Fatal("accepted")
	}
	if _, err := JoinSwaps(k.recipe.ID, []ID{s1, s1}, "twice")(k.book); err == nil {
		t.Fatal("a swap was joined with itself")
	}
}

// TestWhatIsTypedTwiceIsOneSwap: typing over a cell what another swap does already
// ticks that swap.
func TestWhatIsTypedTwiceIsOneSwap(t *testing.T) {
	k := mustKitchen(t, 25, 3)
	a, b, line := k.id(), k.id(), k.recipe.Lines[0]
	other := *k.recipe.Lines[1]
	other.Grams = 40
	step := k.recipe.Steps[0]
	over := func(v ID, typed *Line) {
		t.Helper()
		k.do(t, TypeOver{Recipe: k.recipe.ID, Version: v, Line: line.ID, Typed: typed, NewSwap: k.id()}.Verb())
	}
	for _, row := range []struct {
		name string
		act  func(v ID)
	}{
		{"an amount", func(v ID) { k.typing(t, v, line, 60) }},
		{"another food", func(v ID) { over(v, &other) }},
		{"left out", func(v ID) { over(v, nil) }},
		{"a step", func(v ID) { k.do(t, TypeOverStep(k.recipe.ID, v, step.ID, "Rest it.", k.id())) }},
	} {
		t.Run(row.name, func(t *testing.T) {
			a, b = k.id(), k.id()
			k.do(t, AddVersion(k.recipe.ID, a, "", ""))
			k.do(t, AddVersion(k.recipe.ID, b, "", ""))
			row.act(a)
			n := len(k.book.Swaps(k.recipe.ID))
			row.act(b)
			va, vb := k.book.Version(k.recipe.ID, a), k.book.Version(k.recipe.ID, b)
			if len(k.book.Swaps(k.recipe.ID)) != n || len(va.Swaps) != 1 || !slices.Equal(va.Swaps, vb.Swaps) {
				t.Errorf("%d swaps after %d; A has %v, B %v", len(k.book.Swaps(k.recipe.ID)), n, va.Swaps, vb.Swaps)
			}
		})
	}
	// an amount typed and typed again to what a swap does: that swap takes its place
	c := k.id()
	k.do(t, AddVersion(k.recipe.ID, c, "", ""))
	k.typing(t, c, line, 30)
	k.typing(t, c, line, 60)
	if got := k.grams(c, 0); math.Abs(got-60) > 1e-9 || len(k.book.Version(k.recipe.ID, c).Swaps) != 1 {
		t.Errorf("%v g with %v", got, k.book.Version(k.recipe.ID, c).Swaps)
	}
}
