package workbook

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
)

// cook draws edits as a cook might make them.
type cook struct {
	rnd *rand.Rand
	ids seeded
}

func newCook(seed uint64) *cook {
	return &cook{rnd: rand.New(rand.NewPCG(seed, 7)), ids: newSeeded(seed)}
}

func (k *cook) id() recipes.ID { return recipes.NewID(k.ids) }

// one draws one of a list, the zero value of an empty one.
func one[T any](k *cook, list []T) T {
	var none T
	if len(list) == 0 {
		return none
	}
	return list[k.rnd.IntN(len(list))]
}

func (k *cook) line(f *food.Food) *recipes.Line {
	g := float64(1 + k.rnd.IntN(300))
	return line(k.id(), fmt.Sprintf("%g g %s", g, f.Name), f, g)
}

// edit draws the next edit: any verb, on things that are there for the most
// part. Some will be refused, as some of a cook's are.
func (k *cook) edit(b *recipes.Book) (string, recipes.Verb) {
	r := one(k, b.Recipes())
	if r == nil || k.rnd.IntN(12) == 0 {
		id := k.id()
		return "add recipe", addGratin(id)
	}
	v, s := one(k, b.Versions(r.ID)), one(k, b.Swaps(r.ID))
	if v == nil || k.rnd.IntN(12) == 0 {
		like := recipes.ID("")
		if v != nil {
			like = v.ID
		}
		return "add version", recipes.AddVersion(r.ID, k.id(), "", like)
	}
	if s == nil {
		return "add swap", k.addSwap(r, v)
	}
	return k.among(b, r, v, s)
}

func (k *cook) addSwap(r *recipes.Recipe, v *recipes.Version) recipes.Verb {
	l := one(k, r.Lines)
	if l == nil {
		return recipes.AddLine(r.ID, k.line(cream), "", []*food.Food{cream})
	}
	op := one(k, []recipes.Op{
		{Kind: recipes.OpExchange, Line: l.ID, Share: 0.25 * float64(1+k.rnd.IntN(4)), Lines: []*recipes.Line{k.line(yogurt)}},
		{Kind: recipes.OpMultiply, Line: l.ID, Factor: 0.5},
		{Kind: recipes.OpRemove, Line: l.ID},
		{Kind: recipes.OpAdd, Lines: []*recipes.Line{k.line(butter)}},
		{Kind: recipes.OpPartEaten, Line: l.ID, Part: 0.5},
		{Kind: recipes.OpDish, Technique: recipes.Technique{Method: "baked"}},
	})
	s := &recipes.Swap{ID: k.id(), Recipe: r.ID, Name: fmt.Sprintf("swap %d", k.rnd.IntN(100)), Ops: []recipes.Op{op}}
	return recipes.AddSwap(s, []*food.Food{yogurt, butter}, v.ID)
}

func (k *cook) among(b *recipes.Book, r *recipes.Recipe, v *recipes.Version, s *recipes.Swap) (string, recipes.Verb) {
	other := one(k, slices.DeleteFunc(b.Swaps(r.ID), func(x *recipes.Swap) bool { return x == s }))
	if other == nil {
		other = s
	}
	changed := *s
	changed.Note = fmt.Sprint("note ", k.rnd.IntN(100))
	cell := one(k, b.Draft(r, v).Lines)
	step := one(k, r.Steps)
	typed := k.line(one(k, []*food.Food{cream, yogurt, butter}))
	if k.rnd.IntN(4) == 0 {
		typed = nil
	}
	type named struct {
		name string
		verb recipes.Verb
	}
	all := []named{
		{"tick", recipes.Tick(r.ID, v.ID, s.ID, k.rnd.IntN(2) == 0)},
		{"add swap", k.addSwap(r, v)},
		{"title", recipes.SetTitle(r.ID, fmt.Sprintf("Supper %d", k.rnd.IntN(100)))},
		{"servings", recipes.SetServings(r.ID, float64(1+k.rnd.IntN(12)))},
		{"brief", recipes.SetBrief(r.ID, recipes.Brief{Keep: "the crust", Limit: 0.5, Targets: []recipes.Target{{Nutrient: food.Sodium, Amount: 800}}})},
		{"add line", recipes.AddLine(r.ID, k.line(butter), "", []*food.Food{butter})},
		{"remember", recipes.Remember(&recipes.Choice{Name: "cream", Food: cream.Ref}, []*food.Food{cream})},
		{"own food", recipes.PutFood(&food.Food{Ref: food.Ref{Source: "own", Code: fmt.Sprint(k.rnd.IntN(5))}, Name: fmt.Sprint("own ", k.rnd.IntN(100))})},
		{"remove food", recipes.RemoveFood(food.Ref{Source: "own", Code: fmt.Sprint(k.rnd.IntN(5))})},
		{"setting", recipes.Set("units", one(k, []string{"metric", "us", ""}))},
		{"name version", recipes.RenameVersion(r.ID, v.ID, fmt.Sprint(k.rnd.IntN(100)))},
		{"version servings", recipes.ServeVersion(r.ID, v.ID, float64(k.rnd.IntN(5)))},
		{"move version", recipes.MoveVersion(r.ID, v.ID, k.rnd.IntN(2) == 0)},
		{"remove version", recipes.RemoveVersion(r.ID, v.ID)},
		{"name swap", recipes.RenameSwap(r.ID, s.ID, fmt.Sprint("swap ", k.rnd.IntN(100)))},
		{"edit swap", recipes.EditSwap(&changed, nil)},
		{"remove swap", recipes.RemoveSwap(r.ID, s.ID)},
		{"remove recipe", recipes.RemoveRecipe(r.ID)},
	}
	if other != s {
		all = append(all, named{"join swaps", recipes.JoinSwaps(r.ID, []recipes.ID{s.ID, other.ID}, "joined")})
	}
	if cell.Line != nil {
		all = append(all, named{"type over", recipes.TypeOver{Recipe: r.ID, Version: v.ID, Line: cell.Line.ID, Typed: typed, NewSwap: k.id(), Foods: []*food.Food{cream, yogurt, butter}}.Verb()},
			named{"type over", recipes.TypeOver{Recipe: r.ID, Version: v.ID, Line: cell.Line.ID, Typed: typed, NewSwap: k.id(), Foods: []*food.Food{cream, yogurt, butter}}.Verb()})
	}
	if step != nil {
		all = append(all, named{"type over step", recipes.TypeOverStep(r.ID, v.ID, step.ID, fmt.Sprint("Whisk ", k.rnd.IntN(9)), k.id())},
			named{"step", recipes.SetStep(r.ID, step.ID, one(k, []string{"Rest it.", "Cover.", ""}))})
	}
	if l := one(k, r.Lines); l != nil {
		all = append(all, named{"settle", recipes.SettleLines(r.ID, []recipes.ID{l.ID})}, named{"remove line", recipes.RemoveLine(r.ID, l.ID)})
	}
	pick := one(k, all)
	return pick.name, pick.verb
}

// refused tells whether err is a verb's refusal, which a cook may meet.
func refused(err error) bool {
	var p *problem.Error
	return errors.As(err, &p) && p.Err == nil
}

const (
	seeds   = 20
	edits   = 60
	reopens = 7 // every so many edits the file is read afresh
)

// TestUndoingEverythingRestoresBookAndFile makes 60 random edits, undoes all and
// redoes all, over 20 seeds; Book and file agree after each.
func TestUndoingEverythingRestoresBookAndFile(t *testing.T) {
	done := map[string]int{}
	for seed := range uint64(seeds) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) { oneSession(t, seed, done) })
	}
	for _, name := range []string{"type over", "tick", "remove recipe", "join swaps", "edit swap", "remove swap"} {
		if done[name] == 0 {
			t.Errorf("no session came to %s: %v", name, done)
		}
	}
}

func oneSession(t *testing.T, seed uint64, done map[string]int) {
	f := mustCreate(t)
	k := newCook(seed)
	states := []string{content(t, f.Book())}
	for tries := 0; len(states) <= edits; tries++ {
		if tries > 20*edits {
			t.Fatal("the verbs are refused too often")
		}
		name, verb := k.edit(f.Book())
		before := f.Book()
		a, err := f.Apply(ctx, verb, recipes.ByCook)
		switch {
		case err != nil && !refused(err):
			t.Fatalf("%s: %v", name, err)
		case err != nil && f.Book() != before:
			t.Fatalf("%s was refused and changed the Book", name)
		case err != nil || a.Seq == 0:
			continue
		}
		done[name]++
		states = append(states, content(t, f.Book()))
		if got := onDisk(t, f.Path()); got != states[len(states)-1] {
			t.Fatalf("after %s the file holds\n%s\nnot\n%s", name, got, states[len(states)-1])
		}
	}
	f = stepThrough(t, f, states, "undo", func(i int) int { return edits - 1 - i }, (*File).Undo)
	f = stepThrough(t, f, states, "redo", func(i int) int { return i + 1 }, (*File).Redo)
	wantSound(t, f)
}

// stepThrough undoes or redoes every edit and compares each state passed.
func stepThrough(t *testing.T, f *File, states []string, name string, at func(int) int, step func(*File, context.Context) (Applied, error)) *File {
	t.Helper()
	for i := range edits {
		if _, err := step(f, ctx); err != nil {
			t.Fatalf("%s %d: %v", name, i, err)
		}
		if content(t, f.Book()) != states[at(i)] {
			t.Fatalf("%s %d led to another Book", name, i)
		}
		if i%reopens == 0 {
			path := f.Path()
			f.Close()
			if f = mustOpen(t, path); content(t, f.Book()) != states[at(i)] {
				t.Fatalf("%s %d led to another file", name, i)
			}
		}
	}
	return f
}
