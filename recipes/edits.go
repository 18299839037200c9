package recipes

import (
	"math"
	"strconv"

	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// edits gathers a change against one Book.
type edits struct {
	book   *Book
	change Change
}

func newEdits(b *Book, recipe ID, key string, args ...any) *edits {
	return &edits{book: b, change: Change{Label: words.P(key, args...), Recipe: recipe}}
}

// put adds or replaces an entity, against what the Book holds or what this
// change put before; a value that is already there adds nothing.
func (e *edits) put(x Entity) {
	for i := range e.change.Edits {
		at := &e.change.Edits[i]
		if at.After != nil && at.After.Kind() == x.Kind() && at.After.Key() == x.Key() {
			at.After = x
			return
		}
	}
	before := e.book.get(x.Kind(), x.Key(), parentOf(x))
	if Same(before, x) {
		return
	}
	e.change.Edits = append(e.change.Edits, Edit{Before: before, After: x})
}

func (e *edits) drop(x Entity) { e.change.Edits = append(e.change.Edits, Edit{Before: x}) }

// pin keeps the foods that lines use and the Book does not hold yet.
func (e *edits) pin(foods []*food.Food) {
	for _, f := range foods {
		if f != nil && e.book.Food(f.Ref) == nil {
			e.put(&PinnedFood{Food: *f})
		}
	}
}

func (e *edits) done() (Change, error) { return e.change, nil }

// gone is the error of a verb whose subject is no longer in the Book.
func gone(key string) error {
	return problem.New("", words.Say(key), words.Say("error.gone.hint"))
}

// recipe finds the verb's recipe.
func (b *Book) mustRecipe(id ID) (*Recipe, error) {
	if r := b.Recipe(id); r != nil {
		return r, nil
	}
	return nil, gone("error.recipe-gone")
}

func (b *Book) mustVersion(recipe, id ID) (*Recipe, *Version, error) {
	r, err := b.mustRecipe(recipe)
	if err != nil {
		return nil, nil, err
	}
	v := b.Version(recipe, id)
	if v == nil {
		return nil, nil, gone("error.version-gone")
	}
	return r, v, nil
}

func (b *Book) mustSwap(recipe, id ID) (*Recipe, *Swap, error) {
	r, err := b.mustRecipe(recipe)
	if err != nil {
		return nil, nil, err
	}
	s := b.Swap(recipe, id)
	if s == nil {
		return nil, nil, gone("error.swap-gone")
	}
	return r, s, nil
}

// nextOrder returns a place after all of the given ones.
func nextOrder[T any](items []T, order func(T) float64) float64 {
	last := 0.0
	for _, x := range items {
		last = math.Max(last, order(x))
	}
	return math.Floor(last) + 1
}

// nextLetter returns the first letter no version of the recipe has: A-Z, then
// A2-Z2 and so on.
func nextLetter(versions []*Version) string {
	used := map[string]bool{}
	for _, v := range versions {
		used[v.Letter] = true
	}
	for round := 1; ; round++ {
		for c := 'A'; c <= 'Z'; c++ {
			letter := string(c)
			if round > 1 {
				letter += strconv.Itoa(round)
			}
			if !used[letter] {
				return letter
			}
		}
	}
}
