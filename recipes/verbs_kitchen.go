package recipes

import (
	"math"
	"slices"
	"strings"

	"parewell/recipes/words"
)

// SetTechnique says how the whole original is cooked.
func SetTechnique(id ID, t Technique) Verb {
	return editRecipe(id, "did.technique", []any{t.Method}, nil, func(_ *Book, _ *edits, r *Recipe) error {
		if t.Minutes < 0 || math.IsNaN(t.Minutes) || math.IsInf(t.Minutes, 0) {
			return refuse(r.Title, "error.minutes")
		}
		t.Method = strings.TrimSpace(t.Method)
		r.Dish = t
		return nil
	})
}

// AddTest adds a test of a version (of the original when its Version is empty)
// with the next number.
func AddTest(t *Batch) Verb {
	return func(b *Book) (Change, error) {
		if _, err := b.mustRecipe(t.Recipe); err != nil {
			return Change{}, err
		}
		c := *t
		c.Number = 0
		for _, x := range b.Batches(t.Recipe) {
			if x.Version == t.Version {
				c.Number = max(c.Number, x.Number)
			}
		}
		c.Number++
		e := newEdits(b, t.Recipe, "did.add-test", c.Number, b.letterOf(&c))
		e.put(&c)
		return e.done()
	}
}

// EditTest replaces the test of the same ID; its number stays.
func EditTest(t *Batch) Verb {
	return func(b *Book) (Change, error) {
		old, err := b.mustTest(t.Recipe, t.ID)
		if err != nil {
			return Change{}, err
		}
		c := *t
		c.Number = old.Number
		e := newEdits(b, t.Recipe, "did.edit-test", c.Number, b.letterOf(&c))
		e.put(&c)
		return e.done()
	}
}

// SetAside takes a spoiled test out of the averages for a reason; an empty
// reason takes it back in.
func SetAside(recipe, id ID, reason string) Verb {
	return func(b *Book) (Change, error) {
		old, err := b.mustTest(recipe, id)
		if err != nil {
			return Change{}, err
		}
		key := "did.set-aside"
		if reason = strings.TrimSpace(reason); reason == "" {
			key = "did.take-back"
		}
		e := newEdits(b, recipe, key, old.Number, b.letterOf(old))
		c := *old
		c.SetAside = reason
		e.put(&c)
		return e.done()
	}
}

// RemoveTest removes a test.
func RemoveTest(recipe, id ID) Verb {
	return func(b *Book) (Change, error) {
		old, err := b.mustTest(recipe, id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, recipe, "did.remove-test", old.Number, b.letterOf(old))
		e.drop(old)
		return e.done()
	}
}

// Test returns a test of a recipe, nil if there is none of that ID.
func (b *Book) Test(recipe, id ID) *Batch {
	if d := b.recipes[recipe]; d != nil {
		return d.batches[id]
	}
	return nil
}

// TestsOf returns the tests of a version (of the original when empty), by
// number.
func (b *Book) TestsOf(recipe, version ID) []*Batch {
	return slices.DeleteFunc(b.Batches(recipe), func(t *Batch) bool { return t.Version != version })
}

func (b *Book) mustTest(recipe, id ID) (*Batch, error) {
	if t := b.Test(recipe, id); t != nil {
		return t, nil
	}
	return nil, gone("error.test-gone")
}

// letterOf names a test's version in a label; the original is said so.
func (b *Book) letterOf(t *Batch) string {
	if v := b.Version(t.Recipe, t.Version); v != nil {
		return v.Letter
	}
	return words.Say("the-original")
}

// checkTest wants weights that a scale can show and a version that is there.
func (b *Book) checkTest(t *Batch) error {
	if b.Recipe(t.Recipe) == nil || t.Version != "" && b.Version(t.Recipe, t.Version) == nil {
		return refuse("", "error.test-no-version")
	}
	weights := []float64{t.FullDish, t.Dish, t.LeftOver, t.Servings, t.Minutes}
	for _, g := range t.AsCooked {
		weights = append(weights, g)
	}
	for _, g := range weights {
		if g < 0 || math.IsNaN(g) || math.IsInf(g, 0) {
			return refuse("", "error.test-weight")
		}
	}
	if g, ok := t.CookedGrams(); ok && g <= 0 {
		return refuse("", "error.test-empty")
	}
	return nil
}
