package recipes

import (
	"errors"
	"maps"
	"sort"

	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Book is everything in one workbook, as an immutable value. With makes the
// next one; it copies only the small maps on the way to what changed. The zero
// Book is empty and ready.
type Book struct {
	recipes  map[ID]*dish
	foods    map[food.Ref]*PinnedFood
	choices  map[string]*Choice
	people   map[ID]*Panelist
	tastings map[ID]*sitting
	meals    map[ID]*Meal
	settings map[string]*Setting
	releases map[string]*Release
}

// dish is a recipe with its children, each in a small map of its own.
type dish struct {
	recipe   *Recipe
	swaps    map[ID]*Swap
	versions map[ID]*Version
	batches  map[ID]*Batch
}

// sitting is a tasting with its children.
type sitting struct {
	tasting  *Tasting
	samples  map[ID]*Sample
	servings map[ID]*Serving
}

// NewBook builds a Book from entities in any order, as a file is read. It
// checks nothing: what was stored had passed With.
func NewBook(entities []Entity) *Book {
	b := &Book{}
	w := newWriting(b)
	for _, e := range entities {
		w.put(e)
	}
	return w.book
}

// With returns the Book after the change. It refuses a change whose Before is
// not what the Book holds, and one that would leave a reference to nothing or
// either/or swaps both on; b itself never changes.
func (b *Book) With(c Change) (*Book, error) {
	w := newWriting(b)
	for _, e := range c.Edits {
		x := e.entityOf()
		if x == nil {
			continue
		}
		if !Same(w.book.get(x.Kind(), x.Key(), parentOf(x)), e.Before) {
			return nil, problem.Wrap(ErrChangedSince, "", words.Say("error.changed-since"), words.Say("error.changed-since.hint"))
		}
		if e.After == nil {
			w.drop(e.Before)
		} else {
			w.put(e.After)
		}
	}
	for _, e := range c.Edits {
		if err := w.book.check(e); err != nil {
			return nil, err
		}
	}
	if err := w.book.checkServed(c); err != nil {
		return nil, err
	}
	return w.book, nil
}

// ErrChangedSince is the cause of the error With gives when an edit's Before is
// not what is there: the entity was changed by somebody else in between.
var ErrChangedSince = errors.New("changed since")

// parentOf returns the ID of the entity that holds x, "" for one of its own.
func parentOf(x Entity) ID {
	switch e := x.(type) {
	case *Swap:
		return e.Recipe
	case *Version:
		return e.Recipe
	case *Batch:
		return e.Recipe
	case *Sample:
		return e.Tasting
	case *Serving:
		return e.Tasting
	}
	return ""
}

// get returns the entity of a kind and key, nil interface if there is none.
func (b *Book) get(k Kind, key string, parent ID) Entity {
	var e Entity
	switch k {
	case KindOfRecipe:
		e = orNil(b.Recipe(ID(key)))
	case KindOfSwap:
		e = orNil(b.Swap(parent, ID(key)))
	case KindOfVersion:
		e = orNil(b.Version(parent, ID(key)))
	case KindOfBatch:
		if d := b.recipes[parent]; d != nil {
			e = orNil(d.batches[ID(key)])
		}
	case KindOfFood:
		if ref, ok := food.ParseRef(key); ok {
			e = orNil(b.foods[ref])
		}
	case KindOfChoice:
		e = orNil(b.choices[key])
	case KindOfPanelist:
		e = orNil(b.people[ID(key)])
	case KindOfTasting:
		if s := b.tastings[ID(key)]; s != nil {
			e = orNil(s.tasting)
		}
	case KindOfSample:
		if s := b.tastings[parent]; s != nil {
			e = orNil(s.samples[ID(key)])
		}
	case KindOfServing:
		if s := b.tastings[parent]; s != nil {
			e = orNil(s.servings[ID(key)])
		}
	case KindOfMeal:
		e = orNil(b.meals[ID(key)])
	case KindOfSetting:
		e = orNil(b.settings[key])
	case KindOfRelease:
		e = orNil(b.releases[key])
	}
	return e
}

// orNil turns a nil pointer into a nil interface.
func orNil[T any, P interface {
	*T
	Entity
}](p P) Entity {
	if p == nil {
		return nil
	}
	return p
}

// Entities returns all of the Book's entities, parents before children, in a
// fixed order.
func (b *Book) Entities() []Entity {
	var out []Entity
	for _, k := range sortedKeys(b.settings) {
		out = append(out, b.settings[k])
	}
	for _, k := range sortedKeys(b.releases) {
		out = append(out, b.releases[k])
	}
	for _, f := range b.Foods() {
		out = append(out, b.foods[f.Ref])
	}
	for _, k := range sortedKeys(b.choices) {
		out = append(out, b.choices[k])
	}
	for _, id := range sortedKeys(b.people) {
		out = append(out, b.people[id])
	}
	for _, r := range b.Recipes() {
		out = append(out, r)
		for _, s := range b.Swaps(r.ID) {
			out = append(out, s)
		}
		for _, v := range b.Versions(r.ID) {
			out = append(out, v)
		}
		for _, x := range b.Batches(r.ID) {
			out = append(out, x)
		}
	}
	for _, t := range b.Tastings() {
		out = append(out, t)
		for _, s := range b.Samples(t.ID) {
			out = append(out, s)
		}
		for _, s := range b.Servings(t.ID) {
			out = append(out, s)
		}
	}
	for _, m := range b.Meals() {
		out = append(out, m)
	}
	return out
}

func sortedKeys[K ~string, V any](m map[K]V) []K {
	keys := make([]K, 0, len(m))
	for k := range maps.Keys(m) {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool { return keys[i] < keys[j] })
	return keys
}
