// Package tasting holds what a cook does with a tasting: plans it, seats tasters
// safely, serves, takes scores and closes. It is pure: verbs for the workbook,
// and values that ballots, run sheets and pages are made from. Until a tasting is
// closed nothing here joins a score and a version.
package tasting

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// MostSamples is how many samples one tasting takes (the serving orders are
// proved for up to these).
const MostSamples = 12

// did starts a change that stands in the recipe's notebook.
func did(t *recipes.Tasting, key string, args ...any) recipes.Change {
	return recipes.Change{Label: words.P(key, args...), Recipe: t.Recipe}
}

// put adds an edit unless nothing would change.
func put(c *recipes.Change, before, after recipes.Entity) {
	if !recipes.Same(before, after) {
		c.Edits = append(c.Edits, recipes.Edit{Before: before, After: after})
	}
}

func refuse(where, key string, args ...any) error {
	return problem.New(where, words.Say(key, args...), "")
}

func gone(key string) error {
	return problem.New("", words.Say(key), words.Say("error.gone.hint"))
}

func find(b *recipes.Book, id recipes.ID) (*recipes.Tasting, error) {
	if t := b.Tasting(id); t != nil {
		return t, nil
	}
	return nil, gone("error.tasting-gone")
}

// Put plans a tasting with its samples, or changes one that has not begun to
// serve; samples that are not given any more leave. It is dated and named; the
// edition is the recipe's present one. It refuses a tasting that is serving or
// closed, and one whose samples do not fit its test.
func Put(t *recipes.Tasting, samples []*recipes.Sample) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		r := b.Recipe(t.Recipe)
		if r == nil {
			return recipes.Change{}, gone("error.recipe-gone")
		}
		old := b.Tasting(t.ID)
		key := "did.plan-tasting"
		if old != nil {
			key = "did.change-tasting"
			if old.State != recipes.TastingPlanned {
				return recipes.Change{}, refuse(old.Date, "error.tasting-begun")
			}
		}
		if err := fits(t, samples); err != nil {
			return recipes.Change{}, err
		}
		n := *t
		n.State, n.Edition = recipes.TastingPlanned, r.Edition
		c := did(t, key, n.Date)
		put(&c, orNone(old), &n)
		keep := map[recipes.ID]bool{}
		for i, s := range samples {
			m := *s
			m.Tasting, m.Place, m.Served = t.ID, i+1, nil
			keep[m.ID] = true
			put(&c, orNoSample(b.Sample(t.ID, m.ID)), &m)
		}
		for _, s := range b.Samples(t.ID) {
			if !keep[s.ID] {
				put(&c, s, nil)
			}
		}
		return c, nil
	}
}

func orNone(t *recipes.Tasting) recipes.Entity {
	if t == nil {
		return nil
	}
	return t
}

func orNoSample(s *recipes.Sample) recipes.Entity {
	if s == nil {
		return nil
	}
	return s
}

// fits holds the samples against the test: two for a test of trays, the original
// among them for liking, and no more than can be set.
func fits(t *recipes.Tasting, samples []*recipes.Sample) error {
	n, original := len(samples), false
	for _, s := range samples {
		original = original || Original(s)
	}
	switch {
	case t.Test == recipes.TestHome || t.Test == recipes.TestNotes:
		if n < 1 {
			return refuse(t.Date, "error.tasting-samples-none")
		}
		return nil
	case Trays(t.Test) && n != 2:
		return refuse(t.Date, "error.tasting-samples-two")
	case n < 2:
		return refuse(t.Date, "error.tasting-samples-few")
	case n > MostSamples:
		return refuse(t.Date, "error.tasting-samples-many", MostSamples)
	case t.Test == recipes.TestLiking && !original:
		return refuse(t.Date, "error.tasting-no-original")
	}
	return nil
}

// Original tells whether a sample is the original dish.
func Original(s *recipes.Sample) bool { return s.Version == "" && s.Dish == "" }

// Trays tells whether a test is answered once for a whole tray of two samples.
func Trays(test string) bool {
	switch test {
	case "triangle", "duo-trio", "tetrad", "2-afc", "3-afc", "preference":
		return true
	}
	return false
}

// Blind tells whether codes stand for samples and results wait for closing.
func Blind(t *recipes.Tasting) bool {
	return t.Test != recipes.TestHome && t.Test != recipes.TestNotes
}

// Remove takes away a tasting that has not begun to serve.
func Remove(id recipes.ID) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, id)
		if err != nil {
			return recipes.Change{}, err
		}
		if t.State != recipes.TastingPlanned {
			return recipes.Change{}, refuse(t.Date, "error.tasting-begun")
		}
		c := did(t, "did.remove-tasting", t.Date)
		put(&c, t, nil)
		for _, s := range b.Samples(id) {
			put(&c, s, nil)
		}
		return c, nil
	}
}

// editTasting makes a verb of a change to the tasting itself, in any state that
// ok allows.
func editTasting(id recipes.ID, key string, ok func(*recipes.Tasting) error, edit func(*recipes.Book, *recipes.Tasting) error) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, id)
		if err != nil {
			return recipes.Change{}, err
		}
		if err := ok(t); err != nil {
			return recipes.Change{}, err
		}
		n := *t
		if err := edit(b, &n); err != nil {
			return recipes.Change{}, err
		}
		c := did(t, key, t.Date)
		put(&c, t, &n)
		return c, nil
	}
}

func notClosed(t *recipes.Tasting) error {
	if t.State == recipes.TastingClosed {
		return refuse(t.Date, "error.tasting-closed")
	}
	return nil
}

func notBegun(t *recipes.Tasting) error {
	if t.State != recipes.TastingPlanned {
		return refuse(t.Date, "error.tasting-begun")
	}
	return nil
}

// Who records who cooks, who sets the codes and who serves.
func Who(id recipes.ID, cooks, codes, serves string) recipes.Verb {
	return editTasting(id, "did.tasting-who", notClosed, func(_ *recipes.Book, t *recipes.Tasting) error {
		t.Cooks, t.Codes, t.Serves = strings.TrimSpace(cooks), strings.TrimSpace(codes), strings.TrimSpace(serves)
		return nil
	})
}

// OnDay records on which day a tasting is or was served.
func OnDay(id recipes.ID, date string) recipes.Verb {
	return editTasting(id, "did.tasting-day", notClosed, func(_ *recipes.Book, t *recipes.Tasting) error {
		t.Date = date
		return nil
	})
}

// PackRead records which allergens something of a tasting that is no food of the
// workbook holds, by its name: what is eaten between samples, a benchmark dish. What
// it may hold counts as held.
func PackRead(id recipes.ID, name string, holds food.Allergen) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, id)
		if err != nil {
			return recipes.Change{}, err
		}
		if err := notClosed(t); err != nil {
			return recipes.Change{}, err
		}
		c := did(t, "did.pack-read", name, t.Date)
		if t.Cleanser == name {
			n := *t
			n.CleanFree, n.Cleans = true, holds
			put(&c, t, &n)
		}
		for _, s := range b.Samples(id) {
			if s.Dish == name {
				n := *s
				n.DishChecked, n.DishAllergens = true, holds
				put(&c, s, &n)
			}
		}
		if len(c.Edits) == 0 {
			return recipes.Change{}, gone("error.sample-gone")
		}
		return c, nil
	}
}

// SampleAs records how a sample was cooked and served: which test, cook, day,
// temperature, minutes held. What stands in to except those is not taken.
func SampleAs(tasting recipes.ID, to *recipes.Sample) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, tasting)
		if err != nil {
			return recipes.Change{}, err
		}
		old := b.Sample(tasting, to.ID)
		if old == nil {
			return recipes.Change{}, gone("error.sample-gone")
		}
		if err := notClosed(t); err != nil {
			return recipes.Change{}, err
		}
		n := *old
		n.Batch, n.Cook, n.Cooked, n.Celsius, n.Held = to.Batch, to.Cook, to.Cooked, to.Celsius, to.Held
		n.DishChecked, n.DishAllergens = to.DishChecked, to.DishAllergens
		c := did(t, "did.sample", t.Date)
		put(&c, old, &n)
		return c, nil
	}
}
