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

// Recipe returns the recipe with the ID, nil if there is none.
func (b *Book) Recipe(id ID) *Recipe {
	if d := b.recipes[id]; d != nil {
		return d.recipe
	}
	return nil
}

// Recipes returns all recipes by their place, then title.
func (b *Book) Recipes() []*Recipe {
	out := make([]*Recipe, 0, len(b.recipes))
	for _, d := range b.recipes {
		if d.recipe != nil {
			out = append(out, d.recipe)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		x, y := out[i], out[j]
		if x.Order != y.Order {
			return x.Order < y.Order
		}
		if x.Title != y.Title {
			return x.Title < y.Title
		}
		return x.ID < y.ID
	})
	return out
}

// Swap returns a recipe's swap, nil if there is none.
func (b *Book) Swap(recipe, id ID) *Swap {
	if d := b.recipes[recipe]; d != nil {
		return d.swaps[id]
	}
	return nil
}

// Swaps returns a recipe's swaps by their place.
func (b *Book) Swaps(recipe ID) []*Swap {
	d := b.recipes[recipe]
	if d == nil {
		return nil
	}
	out := make([]*Swap, 0, len(d.swaps))
	for _, s := range d.swaps {
		out = append(out, s)
	}
	sort.Slice(out, func(i, j int) bool { return swapBefore(out[i], out[j]) })
	return out
}

// Version returns a recipe's version, nil if there is none.
func (b *Book) Version(recipe, id ID) *Version {
	if d := b.recipes[recipe]; d != nil {
		return d.versions[id]
	}
	return nil
}

// Versions returns a recipe's versions by their place.
func (b *Book) Versions(recipe ID) []*Version {
	d := b.recipes[recipe]
	if d == nil {
		return nil
	}
	out := make([]*Version, 0, len(d.versions))
	for _, v := range d.versions {
		out = append(out, v)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Order != out[j].Order {
			return out[i].Order < out[j].Order
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// On returns the swaps a version has on, by their place; nil for a nil version.
func (b *Book) On(v *Version) []*Swap {
	if v == nil {
		return nil
	}
	d := b.recipes[v.Recipe]
	if d == nil {
		return nil
	}
	out := make([]*Swap, 0, len(v.Swaps))
	for _, id := range v.Swaps {
		if s := d.swaps[id]; s != nil {
			out = append(out, s)
		}
	}
	sort.Slice(out, func(i, j int) bool { return swapBefore(out[i], out[j]) })
	return out
}

// Draft composes a version of the Book; a nil version gives the original.
func (b *Book) Draft(r *Recipe, v *Version) *Draft { return Compose(r, v, b.On(v)) }

// Food returns a pinned or own food, nil if the Book has none of that number.
func (b *Book) Food(ref food.Ref) *food.Food {
	if f := b.foods[ref]; f != nil {
		return &f.Food
	}
	return nil
}

// Price returns what the cook pays for a food, nil if she has not said.
func (b *Book) Price(ref food.Ref) *Price {
	if f := b.foods[ref]; f != nil {
		return f.Price
	}
	return nil
}

// Foods returns all pinned and own foods by name.
func (b *Book) Foods() []*food.Food {
	out := make([]*food.Food, 0, len(b.foods))
	for _, f := range b.foods {
		out = append(out, &f.Food)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Name != out[j].Name {
			return out[i].Name < out[j].Name
		}
		return out[i].Ref.String() < out[j].Ref.String()
	})
	return out
}

// Choice returns what the cook once decided of a name, nil if nothing.
func (b *Book) Choice(name string) *Choice { return b.choices[name] }

// Batches returns the tests of a recipe by number.
func (b *Book) Batches(recipe ID) []*Batch {
	d := b.recipes[recipe]
	if d == nil {
		return nil
	}
	out := make([]*Batch, 0, len(d.batches))
	for _, x := range d.batches {
		out = append(out, x)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Number != out[j].Number {
			return out[i].Number < out[j].Number
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// Tastings returns all tastings by date, then name.
func (b *Book) Tastings() []*Tasting {
	out := make([]*Tasting, 0, len(b.tastings))
	for _, s := range b.tastings {
		if s.tasting != nil {
			out = append(out, s.tasting)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Date != out[j].Date {
			return out[i].Date < out[j].Date
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// Servings returns a tasting's servings by ID.
func (b *Book) Servings(tasting ID) []*Serving {
	s := b.tastings[tasting]
	if s == nil {
		return nil
	}
	out := make([]*Serving, 0, len(s.servings))
	for _, x := range s.servings {
		out = append(out, x)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].ID < out[j].ID })
	return out
}

// Samples returns a tasting's samples by code.
func (b *Book) Samples(tasting ID) []*Sample {
	s := b.tastings[tasting]
	if s == nil {
		return nil
	}
	out := make([]*Sample, 0, len(s.samples))
	for _, x := range s.samples {
		out = append(out, x)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Code < out[j].Code })
	return out
}

// Meals returns all meals by their place.
func (b *Book) Meals() []*Meal {
	out := make([]*Meal, 0, len(b.meals))
	for _, m := range b.meals {
		out = append(out, m)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Order != out[j].Order {
			return out[i].Order < out[j].Order
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// Setting returns a workbook setting, "" if it is not set.
func (b *Book) Setting(name string) string {
	if s := b.settings[name]; s != nil {
		return s.Value
	}
	return ""
}

// Served tells whether any tasting has served the recipe's present edition:
// from then on its original, versions and swaps are frozen.
func (b *Book) Served(r *Recipe) bool {
	for _, s := range b.tastings {
		if t := s.tasting; t != nil && t.Recipe == r.ID && t.Edition == r.Edition && t.State != TastingPlanned {
			return true
		}
	}
	return false
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
