package recipes

import (
	"errors"
	"strings"
	"testing"

	"parewell/recipes/words"
)

// snapshot is the Book's whole value as text.
func snapshot(tb testing.TB, b *Book) string {
	tb.Helper()
	var out strings.Builder
	for _, e := range b.Entities() {
		out.WriteString(string(e.Kind()))
		out.WriteString(encode(tb, e))
		out.WriteByte('\n')
	}
	return out.String()
}

// randomVerb draws an act of a cook on the kitchen's Book.
func (k *kitchen) randomVerb() Verb {
	r := k.book.Recipe(k.recipe.ID)
	versions, swaps := k.book.Versions(r.ID), k.book.Swaps(r.ID)
	line := r.Lines[k.r.IntN(len(r.Lines))]
	pick := func(n int) int { return k.r.IntN(max(n, 1)) }
	switch c := k.r.IntN(14); {
	case c == 0 || len(versions) == 0:
		return AddVersion(r.ID, k.id(), "", "")
	case c <= 2 || len(swaps) == 0:
		return AddSwap(k.randomSwap(), nil, versions[pick(len(versions))].ID)
	case c <= 5:
		return Tick(r.ID, versions[pick(len(versions))].ID, swaps[pick(len(swaps))].ID, k.r.IntN(2) == 0)
	case c <= 8:
		typed := *line
		typed.Grams *= 0.5
		return TypeOver{Recipe: r.ID, Version: versions[pick(len(versions))].ID, Line: line.ID, Typed: &typed, NewSwap: k.id()}.Verb()
	case c == 9:
		return RemoveSwap(r.ID, swaps[pick(len(swaps))].ID)
	case c == 10:
		return RemoveVersion(r.ID, versions[pick(len(versions))].ID)
	case c == 11:
		l := *line
		l.Grams++
		return SetLine(r.ID, &l, nil)
	case c == 12:
		return ServeVersion(r.ID, versions[pick(len(versions))].ID, float64(k.r.IntN(8)))
	}
	return TypeOverStep(r.ID, versions[pick(len(versions))].ID, r.Steps[pick(len(r.Steps))].ID, "otherwise", k.id())
}

// TestUndoOfDoIsIdentity also holds that no verb or With mutates the Book it
// is given.
func TestUndoOfDoIsIdentity(t *testing.T) {
	for seed := range uint64(40) {
		k := mustKitchen(t, seed, 4)
		books, changes := []*Book{k.book}, []Change{}
		shots := []string{snapshot(t, k.book)}
		for len(changes) < 40 {
			c, err := k.randomVerb()(k.book)
			if err != nil {
				continue // a drawn verb may rightly be refused
			}
			next, err := k.book.With(c)
			if err != nil {
				continue
			}
			k.book = next
			books, changes, shots = append(books, next), append(changes, c), append(shots, snapshot(t, next))
		}
		for i, b := range books {
			if snapshot(t, b) != shots[i] {
				t.Fatalf("seed %d: Book %d was mutated", seed, i)
			}
		}
		for i := len(changes) - 1; i >= 0; i-- {
			before, err := k.book.With(changes[i].Inverse())
			if err != nil {
				t.Fatalf("seed %d: undo of %s: %v", seed, changes[i].Label, err)
			}
			if snapshot(t, before) != shots[i] {
				t.Fatalf("seed %d: undo of %s differs", seed, changes[i].Label)
			}
			k.book = before
		}
	}
}

func TestEntitiesSurviveTheirJSON(t *testing.T) {
	k := mustKitchen(t, 11, 4)
	for range 60 {
		if c, err := k.randomVerb()(k.book); err == nil {
			if next, err := k.book.With(c); err == nil {
				k.book = next
			}
		}
	}
	var back []Entity
	for _, e := range k.book.Entities() {
		b, err := EncodeEntity(e)
		if err != nil {
			t.Fatal(err)
		}
		x, err := DecodeEntity(e.Kind(), b)
		if err != nil {
			t.Fatal(err)
		}
		back = append(back, x)
	}
	if snapshot(t, NewBook(back)) != snapshot(t, k.book) {
		t.Fatal("the Book read back differs")
	}
}

func TestWithRefuses(t *testing.T) {
	k := mustKitchen(t, 5, 3)
	v := k.id()
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	line := k.recipe.Lines[0].ID
	one := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "one", Ops: []Op{{Kind: OpRemove, Line: line}}}
	two := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "two", Ops: []Op{{Kind: OpMultiply, Line: line, Factor: .5}}}
	k.do(t, AddSwap(one, nil, v))
	k.do(t, AddSwap(two, nil, ""))

	ver := k.book.Version(k.recipe.ID, v)
	both := *ver
	both.Swaps = []ID{one.ID, two.ID}
	bad := *k.recipe
	bad.Servings = 0
	orphan := *one
	orphan.Ops = []Op{{Kind: OpRemove, Line: "nowhere"}}
	stale := *ver
	stale.Name = "stale"
	rows := []struct {
		name string
		edit Edit
		key  string
	}{
		{"either/or both on", Edit{Before: ver, After: &both}, "error.either-or"},
		{"no servings", Edit{Before: k.book.Recipe(k.recipe.ID), After: &bad}, "error.servings"},
		{"swap of a line that is not there", Edit{Before: k.book.Swap(k.recipe.ID, one.ID), After: &orphan}, "error.swap-line-missing"},
		{"swap still on removed", Edit{Before: k.book.Swap(k.recipe.ID, one.ID)}, "error.swap-in-use"},
		{"recipe with children removed", Edit{Before: k.book.Recipe(k.recipe.ID)}, "error.recipe-children"},
		{"food in use removed", Edit{Before: &PinnedFood{Food: *k.foods[0]}}, "error.food-in-use"},
		{"changed since", Edit{Before: &stale, After: ver}, "error.changed-since"},
	}
	for _, r := range rows {
		_, err := k.book.With(Change{Edits: []Edit{r.edit}})
		if err == nil {
			t.Errorf("%s: accepted", r.name)
			continue
		}
		first, _, _ := strings.Cut(words.Say(r.key), "{")
		if !strings.Contains(err.Error(), first) {
			t.Errorf("%s: %q, want %q", r.name, err, first)
		}
	}
	if _, err := k.book.With(Change{Edits: []Edit{{Before: &stale, After: ver}}}); !errors.Is(err, ErrChangedSince) {
		t.Error("a stale edit is not told by ErrChangedSince")
	}
}

func TestTickingUnticksAlternatives(t *testing.T) {
	k := mustKitchen(t, 6, 3)
	v := k.id()
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	mk := func(f float64) *Swap {
		return &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "salt", Ladder: "salt", Strength: f, Ops: []Op{{Kind: OpMultiply, Line: k.recipe.Lines[0].ID, Factor: f}}}
	}
	a, b := mk(.85), mk(.6)
	k.do(t, AddSwap(a, nil, v))
	k.do(t, AddSwap(b, nil, v))
	if ver := k.book.Version(k.recipe.ID, v); ver.Has(a.ID) || !ver.Has(b.ID) {
		t.Fatalf("on: %v, want the new strength alone", ver.Swaps)
	}
}

func TestSubRecipeLoopsAreRefused(t *testing.T) {
	k := mustKitchen(t, 8, 2)
	sauce := &Recipe{ID: k.id(), Title: "Sauce", Servings: 1, Lines: []*Line{{ID: k.id(), Text: "the dish", PartEaten: 1, GramsFrom: GramsTyped, Grams: 10, Sub: &SubRecipe{Recipe: k.recipe.ID, Grams: 10}}}}
	k.do(t, AddRecipe(sauce, nil))
	loop := &Line{ID: k.id(), Text: "sauce", PartEaten: 1, GramsFrom: GramsTyped, Grams: 10, Sub: &SubRecipe{Recipe: sauce.ID, Grams: 10}}
	c, err := AddLine(k.recipe.ID, loop, "", nil)(k.book)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := k.book.With(c); err == nil || !strings.Contains(err.Error(), words.Say("error.loop")) {
		t.Fatalf("a dish inside itself: %v", err)
	}
	if c, err = RemoveRecipe(k.recipe.ID)(k.book); err == nil {
		_, err = k.book.With(c)
	}
	if err == nil || !strings.Contains(err.Error(), "Sauce") {
		t.Fatalf("removing a recipe in use: %v, want its user named", err)
	}
}

// TestSeveralVerbsMakeOneEditAnEntity: a change that adds a version and then
// ticks it must be undone as one, so each entity has one before and one after.
func TestSeveralVerbsMakeOneEditAnEntity(t *testing.T) {
	k := mustKitchen(t, 61, 3)
	v := k.id()
	swap := &Swap{ID: k.id(), Recipe: k.recipe.ID, Name: "less", Ops: []Op{{Kind: OpMultiply, Line: k.recipe.Lines[0].ID, Factor: .5}}}
	before := snapshot(t, k.book)
	c := k.do(t, AcceptDraft(k.recipe.ID, v, "draft", []*Swap{swap}, nil))
	seen := map[string]bool{}
	for _, e := range c.Edits {
		if seen[e.entityOf().Key()] {
			t.Errorf("%s has two edits", e.entityOf().Key())
		}
		seen[e.entityOf().Key()] = true
	}
	if !k.book.Version(k.recipe.ID, v).Has(swap.ID) {
		t.Error("the draft's swap is not on")
	}
	k.do(t, func(*Book) (Change, error) { return c.Inverse(), nil })
	if snapshot(t, k.book) != before {
		t.Error("undo differs")
	}
	none := k.do(t, All(label("did.nothing"), k.recipe.ID, SetTitle(k.recipe.ID, "other"), SetTitle(k.recipe.ID, k.recipe.Title)))
	if !none.Empty() {
		t.Error("there and back again is a change")
	}
}
