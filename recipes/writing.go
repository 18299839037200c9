package recipes

import "maps"

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
func (w *writing) put(e Entity) { w.set(e, false) }

// drop removes an entity; a dish or sitting goes when nothing is left in it.
func (w *writing) drop(e Entity) { w.set(e, true) }

// set puts an entity into its map, or takes it out when it is gone.
func (w *writing) set(e Entity, gone bool) {
	b := w.book
	switch x := e.(type) {
	case *Recipe:
		w.dish(x.ID).recipe = unless(gone, x)
		w.tidyDish(x.ID)
	case *Swap:
		d := w.dish(x.Recipe)
		d.swaps = with(w, childMap{d, "swaps"}, d.swaps, x.ID, x, gone)
		w.tidyDish(x.Recipe)
	case *Version:
		d := w.dish(x.Recipe)
		d.versions = with(w, childMap{d, "versions"}, d.versions, x.ID, x, gone)
		w.tidyDish(x.Recipe)
	case *Batch:
		d := w.dish(x.Recipe)
		d.batches = with(w, childMap{d, "batches"}, d.batches, x.ID, x, gone)
		w.tidyDish(x.Recipe)
	case *PinnedFood:
		b.foods = with(w, "foods", b.foods, x.Ref, x, gone)
	case *Choice:
		b.choices = with(w, "choices", b.choices, x.Name, x, gone)
	case *Panelist:
		b.people = with(w, "people", b.people, x.ID, x, gone)
	case *Tasting:
		w.sitting(x.ID).tasting = unless(gone, x)
		w.tidySitting(x.ID)
	case *Sample:
		s := w.sitting(x.Tasting)
		s.samples = with(w, childMap{s, "samples"}, s.samples, x.ID, x, gone)
		w.tidySitting(x.Tasting)
	case *Serving:
		s := w.sitting(x.Tasting)
		s.servings = with(w, childMap{s, "servings"}, s.servings, x.ID, x, gone)
		w.tidySitting(x.Tasting)
	case *Meal:
		b.meals = with(w, "meals", b.meals, x.ID, x, gone)
	case *Setting:
		b.settings = with(w, "settings", b.settings, x.Name, x, gone)
	case *Release:
		b.releases = with(w, "releases", b.releases, x.Key(), x, gone)
	}
}

// with returns this writing's own copy of m with x under its key, or without it.
func with[K comparable, V any](w *writing, name any, m map[K]V, key K, x V, gone bool) map[K]V {
	m = own(w, name, m)
	if gone {
		delete(m, key)
	} else {
		m[key] = x
	}
	return m
}

// unless returns x, or nil when it is gone.
func unless[T any](gone bool, x *T) *T {
	if gone {
		return nil
	}
	return x
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
