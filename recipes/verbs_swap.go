package recipes

import (
	"slices"
	"strings"

	"parewell/recipes/food"
)

// AddSwap adds a swap to its recipe and pins the foods it brings; when tick
// names a version the swap is switched on there.
func AddSwap(s *Swap, foods []*food.Food, tick ID) Verb {
	return func(b *Book) (Change, error) {
		if _, err := b.mustRecipe(s.Recipe); err != nil {
			return Change{}, err
		}
		e := newEdits(b, s.Recipe, "did.add-swap", s.Name)
		e.pin(foods)
		c := s.settled()
		if c.Order == 0 {
			c.Order = nextOrder(b.Swaps(s.Recipe), func(x *Swap) float64 { return x.Order })
		}
		e.put(c)
		if v := b.Version(s.Recipe, tick); v != nil {
			w := *v
			w.Swaps = ticked(b, v, c, true)
			e.put(&w)
		}
		return e.done()
	}
}

// EditSwap replaces the swap of the same ID; versions that have it on lose
// those swaps that have become its alternatives.
func EditSwap(s *Swap, foods []*food.Food) Verb {
	return func(b *Book) (Change, error) {
		_, old, err := b.mustSwap(s.Recipe, s.ID)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, s.Recipe, "did.edit-swap", s.Name)
		e.pin(foods)
		c := s.settled()
		c.Order = old.Order
		e.put(c)
		for _, v := range b.Versions(s.Recipe) {
			if v.Has(s.ID) {
				w := *v
				w.Swaps = ticked(b, v, c, true)
				e.put(&w)
			}
		}
		return e.done()
	}
}

// RenameSwap gives a swap another name.
func RenameSwap(recipe, id ID, name string) Verb {
	return func(b *Book) (Change, error) {
		_, s, err := b.mustSwap(recipe, id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, recipe, "did.name-swap", s.Name, name)
		c := *s
		c.Name = strings.TrimSpace(name)
		e.put(&c)
		return e.done()
	}
}

// RemoveSwap removes a swap and unticks it in every version.
func RemoveSwap(recipe, id ID) Verb {
	return func(b *Book) (Change, error) {
		_, s, err := b.mustSwap(recipe, id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, recipe, "did.remove-swap", s.Name)
		for _, v := range b.Versions(recipe) {
			if v.Has(id) {
				w := *v
				w.Swaps = without(v.Swaps, id)
				e.put(&w)
			}
		}
		e.drop(s)
		return e.done()
	}
}

// JoinSwaps makes one swap of several: the first keeps its ID, name given, and
// takes the operations of the others, which go. A version has the joined swap
// on if it had any of them on.
func JoinSwaps(recipe ID, ids []ID, name string) Verb {
	return func(b *Book) (Change, error) {
		if len(ids) < 2 || slices.Contains(ids[1:], ids[0]) {
			return Change{}, refuse("", "error.join-two")
		}
		_, first, err := b.mustSwap(recipe, ids[0])
		if err != nil {
			return Change{}, err
		}
		joined := *first
		joined.Name, joined.Ops = strings.TrimSpace(name), slices.Clone(first.Ops)
		e := newEdits(b, recipe, "did.join-swaps", name)
		var rest []*Swap
		for _, id := range ids[1:] {
			_, s, err := b.mustSwap(recipe, id)
			if err != nil {
				return Change{}, err
			}
			if c := Alternatives(first, s); c != NoClash {
				return Change{}, refuse(first.Name, "error.join-either-or", s.Name)
			}
			joined.Ops = append(joined.Ops, s.Ops...)
			rest = append(rest, s)
		}
		settled := joined.settled()
		e.put(settled)
		for _, v := range b.Versions(recipe) {
			if w, hit := joinedTicks(v, ids); hit {
				e.put(w)
			}
		}
		for _, s := range rest {
			e.drop(s)
		}
		return e.done()
	}
}

// joinedTicks returns v with ids[0] on in place of any of ids; false if v had
// none of them on.
func joinedTicks(v *Version, ids []ID) (*Version, bool) {
	w, hit := *v, false
	w.Swaps = nil
	for _, id := range v.Swaps {
		if slices.Contains(ids, id) {
			hit = true
			continue
		}
		w.Swaps = append(w.Swaps, id)
	}
	w.Swaps = append(w.Swaps, ids[0])
	slices.Sort(w.Swaps)
	return &w, hit
}

// AcceptDraft takes the differences of a pasted lighter draft: the swaps join
// the recipe and a new version has all of them on.
func AcceptDraft(recipe, version ID, name string, swaps []*Swap, foods []*food.Food) Verb {
	return func(b *Book) (Change, error) {
		r, err := b.mustRecipe(recipe)
		if err != nil {
			return Change{}, err
		}
		verbs := []Verb{AddVersion(recipe, version, name, "")}
		for i, s := range swaps {
			pinned := foods
			if i > 0 {
				pinned = nil
			}
			verbs = append(verbs, AddSwap(s, pinned, version))
		}
		return All(label("did.accept-draft", r.Title), recipe, verbs...)(b)
	}
}

func without(ids []ID, id ID) []ID {
	return slices.DeleteFunc(slices.Clone(ids), func(x ID) bool { return x == id })
}
