package recipes

import (
	"maps"

	"parewell/recipes/food"
)

// writing makes the next Book: it copies each map at most once, on its first
// change, and shares all others with the Book before.
type writing struct {
	book  *Book
	owned map[any]bool // top maps by name, dishes and sittings by pointer, already copied
}

func newWriting(b *Book) *writing {
	next := *b
	return &writing{book: &next, owned: map[any]bool{}}
}

// own returns a copy of m that this writing may change, made once per name.
func own[K comparable, V any](w *writing, name any, m map[K]V) map[K]V {
	if w.owned[name] {
		return m
	}
	w.owned[name] = true
	if m == nil {
		return map[K]V{}
	}
	return maps.Clone(m)
}

// dish returns the recipe's own copy of its dish.
func (w *writing) dish(id ID) *dish {
	w.book.recipes = own(w, "recipes", w.book.recipes)
	d := w.book.recipes[id]
	if d != nil && w.owned[d] {
		return d
	}
	next := &dish{}
	if d != nil {
		*next = *d
	}
	w.book.recipes[id] = next
	w.owned[next] = true
	return next
}

func (w *writing) sitting(id ID) *sitting {
	w.book.tastings = own(w, "tastings", w.book.tastings)
	s := w.book.tastings[id]
	if s != nil && w.owned[s] {
		return s
	}
	next := &sitting{}
	if s != nil {
		*next = *s
	}
	w.book.tastings[id] = next
	w.owned[next] = true
	return next
}

// childMap names a dish's or sitting's map for own.
type childMap struct {
	parent any
	name   string
}

// put adds or replaces an entity.
func (w *writing) put(e Entity) {
	b := w.book
	switch x := e.(type) {
	case *Recipe:
		w.dish(x.ID).recipe = x
	case *Swap:
		d := w.dish(x.Recipe)
		d.swaps = own(w, childMap{d, "swaps"}, d.swaps)
		d.swaps[x.ID] = x
	case *Version:
		d := w.dish(x.Recipe)
		d.versions = own(w, childMap{d, "versions"}, d.versions)
		d.versions[x.ID] = x
	case *Batch:
		d := w.dish(x.Recipe)
		d.batches = own(w, childMap{d, "batches"}, d.batches)
		d.batches[x.ID] = x
	case *PinnedFood:
		b.foods = own(w, "foods", b.foods)
		b.foods[x.Ref] = x
	case *Choice:
		b.choices = own(w, "choices", b.choices)
		b.choices[x.Name] = x
	case *Panelist:
		b.people = own(w, "people", b.people)
		b.people[x.ID] = x
	case *Tasting:
		w.sitting(x.ID).tasting = x
	case *Sample:
		s := w.sitting(x.Tasting)
		s.samples = own(w, childMap{s, "samples"}, s.samples)
		s.samples[x.ID] = x
	case *Serving:
		s := w.sitting(x.Tasting)
		s.servings = own(w, childMap{s, "servings"}, s.servings)
		s.servings[x.ID] = x
	case *Meal:
		b.meals = own(w, "meals", b.meals)
		b.meals[x.ID] = x
	case *Setting:
		b.settings = own(w, "settings", b.settings)
		b.settings[x.Name] = x
	case *Release:
		b.releases = own(w, "releases", b.releases)
		b.releases[x.Key()] = x
	}
}

// drop removes an entity; a dish or sitting goes when nothing is left in it.
func (w *writing) drop(e Entity) {
	b := w.book
	switch x := e.(type) {
	case *Recipe:
		w.dish(x.ID).recipe = nil
		w.tidyDish(x.ID)
	case *Swap:
		d := w.dish(x.Recipe)
		d.swaps = own(w, childMap{d, "swaps"}, d.swaps)
		delete(d.swaps, x.ID)
		w.tidyDish(x.Recipe)
	case *Version:
		d := w.dish(x.Recipe)
		d.versions = own(w, childMap{d, "versions"}, d.versions)
		delete(d.versions, x.ID)
		w.tidyDish(x.Recipe)
	case *Batch:
		d := w.dish(x.Recipe)
		d.batches = own(w, childMap{d, "batches"}, d.batches)
		delete(d.batches, x.ID)
		w.tidyDish(x.Recipe)
	case *PinnedFood:
		b.foods = own(w, "foods", b.foods)
		delete(b.foods, food.Ref(x.Ref))
	case *Choice:
		b.choices = own(w, "choices", b.choices)
		delete(b.choices, x.Name)
	case *Panelist:
		b.people = own(w, "people", b.people)
		delete(b.people, x.ID)
	case *Tasting:
		w.sitting(x.ID).tasting = nil
		w.tidySitting(x.ID)
	case *Sample:
		s := w.sitting(x.Tasting)
		s.samples = own(w, childMap{s, "samples"}, s.samples)
		delete(s.samples, x.ID)
		w.tidySitting(x.Tasting)
	case *Serving:
		s := w.sitting(x.Tasting)
		s.servings = own(w, childMap{s, "servings"}, s.servings)
		delete(s.servings, x.ID)
		w.tidySitting(x.Tasting)
	case *Meal:
		b.meals = own(w, "meals", b.meals)
		delete(b.meals, x.ID)
	case *Setting:
		b.settings = own(w, "settings", b.settings)
		delete(b.settings, x.Name)
	case *Release:
		b.releases = own(w, "releases", b.releases)
		delete(b.releases, x.Key())
	}
}

func (w *writing) tidyDish(id ID) {
	d := w.book.recipes[id]
	if d.recipe == nil && len(d.swaps) == 0 && len(d.versions) == 0 && len(d.batches) == 0 {
		delete(w.book.recipes, id)
	}
}

func (w *writing) tidySitting(id ID) {
	s := w.book.tastings[id]
	if s.tasting == nil && len(s.samples) == 0 && len(s.servings) == 0 {
		delete(w.book.tastings, id)
	}
}
