package recipes

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"
)

func encode(tb testing.TB, v any) string {
	tb.Helper()
	b, err := json.Marshal(v)
	if err != nil {
		tb.Fatal(err)
	}
	return string(b)
}

// TestSwapsCommute: the order in which swaps are ticked never matters (DESIGN
// section 3, "so order never matters").
func TestSwapsCommute(t *testing.T) {
	for seed := range uint64(300) {
		k := mustKitchen(t, seed, 5)
		on := k.compatible(6)
		want := encode(t, Compose(k.recipe, nil, on))
		for range 5 {
			mixed := append([]*Swap(nil), on...)
			k.r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
			if got := encode(t, Compose(k.recipe, nil, mixed)); got != want {
				t.Fatalf("seed %d: order changed the draft\n%s\n%s", seed, want, got)
			}
		}
	}
}

// TestAmounts works the rule of DESIGN section 3 by hand: amounts multiply,
// exchanges take their shares of what is left.
func TestAmounts(t *testing.T) {
	k := mustKitchen(t, 1, 2)
	line := k.recipe.Lines[0] // 100 g
	swap := func(ops ...Op) *Swap {
		return (&Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "s", Ops: ops}).settled()
	}
	half := swap(Op{Kind: OpExchange, Line: line.ID, Share: 0.5, Lines: []*Line{k.line(1)}}) // for 101 g
	quarter := swap(Op{Kind: OpExchange, Line: line.ID, Share: 0.25, Lines: []*Line{k.line(1)}})
	less := swap(Op{Kind: OpMultiply, Line: line.ID, Factor: 0.8})
	d := Compose(k.recipe, nil, []*Swap{half, less, quarter})
	want := []float64{100 * 0.8 * 0.25, 101 * 0.8, 101 * 0.8, 101}
	if len(d.Lines) != len(want) {
		t.Fatalf("%d lines, want %d", len(d.Lines), len(want))
	}
	for i, w := range want {
		if g, ok := d.Lines[i].Grams(); !ok || math.Abs(g-w) > 1e-9 {
			t.Errorf("line %d: %v g, want %v", i, g, w)
		}
	}
}

func TestAlternatives(t *testing.T) {
	k := mustKitchen(t, 2, 3)
	a, b := k.recipe.Lines[0].ID, k.recipe.Lines[1].ID
	swap := func(ladder string, ops ...Op) *Swap {
		return &Swap{ID: k.id(), Recipe: k.recipe.ID, Ladder: ladder, Ops: ops}
	}
	rows := []struct {
		name string
		x, y *Swap
		want Clash
	}{
		{"strengths of one swap", swap("salt", Op{Kind: OpMultiply, Line: a, Factor: .85}), swap("salt", Op{Kind: OpMultiply, Line: a, Factor: .75}), ClashLadder},
		{"amounts multiply", swap("", Op{Kind: OpMultiply, Line: a, Factor: .5}), swap("", Op{Kind: OpMultiply, Line: a, Factor: .5}), NoClash},
		{"shares up to all", swap("", Op{Kind: OpExchange, Line: a, Share: .5}), swap("", Op{Kind: OpExchange, Line: a, Share: .5}), NoClash},
		{"shares above all", swap("", Op{Kind: OpExchange, Line: a, Share: .6}), swap("", Op{Kind: OpExchange, Line: a, Share: .5}), ClashShares},
		{"removed and touched", swap("", Op{Kind: OpRemove, Line: a}), swap("", Op{Kind: OpMultiply, Line: a, Factor: .5}), ClashRemoved},
		{"removed, other line", swap("", Op{Kind: OpRemove, Line: a}), swap("", Op{Kind: OpMultiply, Line: b, Factor: .5}), NoClash},
		{"part eaten set twice", swap("", Op{Kind: OpPartEaten, Line: a, Part: .5}), swap("", Op{Kind: OpPartEaten, Line: a, Part: .2}), ClashSet},
		{"dish cooked two ways", swap("", Op{Kind: OpDish}), swap("", Op{Kind: OpDish}), ClashSet},
		{"same step rewritten", swap("", Op{Kind: OpStepReplace, Step: k.recipe.Steps[0].ID}), swap("", Op{Kind: OpStepReplace, Step: k.recipe.Steps[0].ID}), NoClash},
	}
	for _, r := range rows {
		if got := Alternatives(r.x, r.y); got != r.want {
			t.Errorf("%s: %q, want %q", r.name, got, r.want)
		}
		if got := Alternatives(r.y, r.x); got != r.want {
			t.Errorf("%s, turned round: %q, want %q", r.name, got, r.want)
		}
	}
}

func TestStepsOfTwoSwapsStayTillJoined(t *testing.T) {
	k := mustKitchen(t, 3, 2)
	step := k.recipe.Steps[0].ID
	one := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "one", Ops: []Op{{Kind: OpStepReplace, Step: step, Text: "bake"}}}
	two := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "two", Ops: []Op{{Kind: OpStepReplace, Step: step, Text: "grill"}}}
	v := k.id()
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	k.do(t, AddSwap(one, nil, v))
	k.do(t, AddSwap(two, nil, v))
	steps := func() []DraftStep { return k.book.Draft(k.recipe, k.book.Version(k.recipe.ID, v)).Steps }
	if got := steps()[0].Texts; len(got) != 2 {
		t.Fatalf("texts %q, want both", got)
	}
	k.do(t, TypeOverStep(k.recipe.ID, v, step, "bake, then grill", k.id()))
	if got := steps()[0].Texts; len(got) != 1 || got[0] != "bake, then grill" {
		t.Fatalf("texts %q, want the cook's own", got)
	}
	k.do(t, Tick(k.recipe.ID, v, one.ID, false))
	k.do(t, JoinStep(k.recipe.ID, v, step, ""))
	if got := steps()[0].Texts; len(got) != 1 || got[0] != "grill" {
		t.Fatalf("texts %q, want the swap's", got)
	}
}

func TestAddedLineIDsAreFixedAndDistinct(t *testing.T) {
	seen := map[ID]bool{}
	for op := range 60 {
		for pos := range 30 {
			id := addedLineID("abcdefghijkmnpqr", op, pos)
			if seen[id] {
				t.Fatalf("op %d, line %d repeats the id %s", op, pos, id)
			}
			seen[id] = true
		}
	}
}

func TestNewIDsAreSixteenLettersAndDistinct(t *testing.T) {
	s := seeded{rand.New(rand.NewPCG(7, 7))}
	seen := map[ID]bool{}
	for range 10000 {
		id := s.id()
		if len(id) != 16 || seen[id] {
			t.Fatalf("id %q", id)
		}
		seen[id] = true
	}
}

func TestAddedStepsStandWhereTheySay(t *testing.T) {
	k := mustKitchen(t, 9, 2)
	first := k.recipe.Steps[0].ID
	s := (&Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "s", Ops: []Op{
		{Kind: OpStepAdd, Step: first, Text: "second"},
		{Kind: OpStepAdd, Text: "last"},
	}}).settled()
	var got []string
	for _, d := range Compose(k.recipe, nil, []*Swap{s}).Steps {
		got = append(got, d.Texts[0])
	}
	if want := []string{"do 0", "second", "do 1", "last"}; encode(t, got) != encode(t, want) {
		t.Fatalf("steps %q, want %q", got, want)
	}
}
