package recipes

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"math"
	"reflect"
	"slices"

	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// ServedRecord returns what is frozen of a version (of the original for nil)
// when it is served: its lines and steps as composed, recipes inside it
// flattened to their lines, the swaps with a digest of each, the food rows.
func (b *Book) ServedRecord(r *Recipe, v *Version) *Served {
	d := b.Draft(r, v)
	out := &Served{Servings: d.Servings, Dish: d.Dish}
	b.flatten(out, d, 1, 0)
	for _, s := range d.Steps {
		if !s.Dropped {
			out.Steps = append(out.Steps, s.Texts...)
		}
	}
	for _, s := range b.On(v) {
		out.Swaps = append(out.Swaps, ServedSwap{ID: s.ID, Digest: s.Digest()})
	}
	seen := map[food.Ref]bool{}
	for _, l := range out.Lines {
		if f := b.Food(l.Food); f != nil && !seen[l.Food] {
			seen[l.Food] = true
			out.Foods = append(out.Foods, f)
		}
	}
	return out
}

// deepest is how far recipes inside recipes are followed; loops are refused when
// they are made, so this only guards against a damaged file.
const deepest = 12

// flatten adds the lines of a draft, times the part of it that is used. The part
// of a recipe inside given by weight is that of its ingredients' weight as
// written: what it loses in the pan is reckoned where numbers are.
func (b *Book) flatten(out *Served, d *Draft, part float64, depth int) {
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Gone() {
			continue
		}
		g, known := l.Grams()
		used := part * l.Used()
		if sub := l.Line.Sub; sub != nil && depth < deepest {
			if inner := b.Recipe(sub.Recipe); inner != nil {
				x := b.Draft(inner, b.Version(sub.Recipe, sub.Version))
				b.flatten(out, x, used*l.PartEaten*subPart(sub, x, l.Scale), depth+1)
				continue
			}
		}
		out.Lines = append(out.Lines, ServedLine{
			Name: l.Line.Name, Food: l.Line.Food, Grams: g * used, Known: known, Kind: l.Line.Kind,
			PartEaten: l.PartEaten, Uptake: l.Line.Uptake, Technique: l.Technique, State: l.State,
		})
	}
}

// subPart is how much of a recipe a line takes, in parts of the whole of it.
func subPart(s *SubRecipe, x *Draft, scale float64) float64 {
	switch {
	case s.Batches > 0:
		return s.Batches * scale
	case s.Servings > 0 && x.Servings > 0:
		return s.Servings * scale / x.Servings
	}
	whole := 0.0
	for i := range x.Lines {
		if g, ok := x.Lines[i].Grams(); ok {
			whole += g
		}
	}
	if whole <= 0 {
		return 0
	}
	return s.Grams * scale / whole
}

// Digest is a short fingerprint of what a swap does: its operations, not its
// name or place. Equal digests mean the same change.
func (s *Swap) Digest() string {
	raw, err := json.Marshal(s.Ops)
	if err != nil {
		return "" // operations are plain values and always marshal
	}
	sum := sha256.Sum256(raw)
	return hex.EncodeToString(sum[:8])
}

// sameDish tells whether two records are of the same dish: amounts, foods,
// techniques and steps, whatever values the food rows have today.
func sameDish(a, b *Served) bool {
	if a.Servings != b.Servings || a.Dish != b.Dish || len(a.Lines) != len(b.Lines) ||
		!slices.Equal(a.Steps, b.Steps) || !slices.Equal(a.Swaps, b.Swaps) {
		return false
	}
	return slices.EqualFunc(a.Lines, b.Lines, sameServedLine)
}

func sameServedLine(x, y ServedLine) bool {
	if !x.Food.Zero() {
		x.Name, y.Name = "", "" // another word for the same food changes nothing
	}
	if math.Abs(x.Grams-y.Grams) <= 1e-9*math.Abs(x.Grams) {
		x.Grams = y.Grams
	}
	return reflect.DeepEqual(x, y)
}

// ServedError is the cause of the error With gives when a change would alter a
// dish that has been served. The cook says which it was: Correct or ChangeDish.
type ServedError struct {
	Recipe, Version ID // Version empty: the original
	Tasting         ID
}

func (e *ServedError) Error() string { return words.Say("error.served.cause") }

// checkServed refuses a change to a dish that was served, unless it corrects the
// record.
func (b *Book) checkServed(c Change) error {
	reached := b.reachedBy(c)
	if len(reached) == 0 || c.Correction {
		return nil
	}
	var cause *ServedError
	var names, days []string
	for _, t := range b.frozen(reached) {
		r := b.Recipe(t.Recipe)
		for _, s := range b.Samples(t.ID) {
			if s.Served == nil || s.Dish != "" || sameDish(s.Served, b.ServedRecord(r, b.Version(t.Recipe, s.Version))) {
				continue
			}
			if cause == nil {
				cause = &ServedError{Recipe: r.ID, Version: s.Version, Tasting: t.ID}
			}
			names, days = append(names, b.sampleName(s)), append(days, t.Date)
		}
	}
	if cause == nil {
		return nil
	}
	if c.recipeEdited() != nil { // what all versions start from
		cause.Version = ""
	}
	slices.Sort(names)
	slices.Sort(days)
	names, days = slices.Compact(names), slices.Compact(days)
	for i := range days {
		days[i] = words.DayOf(days[i])
	}
	return problem.Wrap(cause, b.Recipe(cause.Recipe).Title, words.Say("error.served", words.Join(names), words.Join(days)), words.Say("error.served.hint"))
}

func (b *Book) sampleName(s *Sample) string {
	if v := b.Version(b.Tasting(s.Tasting).Recipe, s.Version); v != nil {
		return v.Letter
	}
	return words.Say("the-original")
}

// frozen returns the tastings of the present editions of the recipes that have
// begun to serve.
func (b *Book) frozen(reached map[ID]bool) []*Tasting {
	var out []*Tasting
	for _, t := range b.Tastings() {
		r := b.Recipe(t.Recipe)
		if r != nil && reached[r.ID] && t.State != TastingPlanned && t.Edition == r.Edition {
			out = append(out, t)
		}
	}
	return out
}

// reachedBy returns the recipes whose dishes a change may alter: those it edits
// and those that use them.
func (b *Book) reachedBy(c Change) map[ID]bool {
	out := map[ID]bool{}
	for _, e := range c.Edits {
		switch x := e.entityOf().(type) {
		case *Recipe:
			out[x.ID] = true
		case *Swap:
			out[x.Recipe] = true
		case *Version:
			out[x.Recipe] = true
		}
	}
	if len(out) == 0 || len(b.tastings) == 0 {
		return nil
	}
	for range deepest {
		grown := false
		for _, r := range b.Recipes() {
			if !out[r.ID] && slices.ContainsFunc(b.subsOf(r), func(id ID) bool { return out[id] }) {
				out[r.ID], grown = true, true
			}
		}
		if !grown {
			break
		}
	}
	return out
}

// ChangeDish makes a verb a change of a dish that was served: the served one
// stays, and the change goes to a new version (with new swaps where it altered
// one), or, where the original itself changes, starts a new edition of the
// recipe. version is the one the cook is looking at. fresh draws IDs.
func ChangeDish(version ID, fresh func() ID, verb Verb) Verb {
	return func(b *Book) (Change, error) {
		c, err := verb(b)
		if err != nil || c.Empty() {
			return c, err
		}
		if _, err := b.With(c); err == nil {
			return c, nil
		}
		if r := c.recipeEdited(); r != nil {
			return b.newEdition(c, r.ID)
		}
		return (&moving{book: b, change: c, look: version, fresh: fresh, swaps: map[ID]ID{}}).move()
	}
}

// recipeEdited is the recipe whose original a change alters; nil for none.
func (c Change) recipeEdited() *Recipe {
	for _, e := range c.Edits {
		if r, ok := e.After.(*Recipe); ok && e.Before != nil {
			return r
		}
	}
	return nil
}

// newEdition starts a new edition of an edited recipe, and of those served that
// use it.
func (b *Book) newEdition(c Change, edited ID) (Change, error) {
	e := &edits{book: b, change: c}
	free := c
	free.Correction = true
	next, err := b.With(free)
	if err != nil {
		return Change{}, err
	}
	for _, t := range next.frozen(next.reachedBy(c)) {
		r := *next.Recipe(t.Recipe)
		r.Edition = t.Edition + 1
		e.put(&r)
	}
	return e.done()
}
