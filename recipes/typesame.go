package recipes

import (
	"math"
	"slices"

	"parewell/recipes/words"
)

// sameSwap finds a swap of the recipe that does just this and is not on in the
// version, nil when there is none: what is typed twice is one swap with one
// evidence.
func sameSwap(b *Book, v *Version, ops []Op) *Swap {
	for _, s := range b.Swaps(v.Recipe) {
		if len(ops) > 0 && !v.Has(s.ID) && slices.EqualFunc(s.Ops, ops, sameOp) {
			return s
		}
	}
	return nil
}

// instead ticks a swap in the version in the place of old, which may be nil.
func instead(v *Version, old, s *Swap) Verb {
	var verbs []Verb
	if old != nil {
		verbs = append(verbs, Tick(v.Recipe, v.ID, old.ID, false))
	}
	verbs = append(verbs, Tick(v.Recipe, v.ID, s.ID, true))
	return All(words.P("did.type-over", s.Name, v.Letter), v.Recipe, verbs...)
}

// sameOp tells whether two operations do the same, whatever their lines are called.
func sameOp(a, b Op) bool {
	return a.Kind == b.Kind && a.Line == b.Line && a.Step == b.Step && a.Text == b.Text && a.Technique == b.Technique && a.State == b.State &&
		near(a.Share, b.Share) && near(a.Factor, b.Factor) && near(a.Part, b.Part) && slices.EqualFunc(a.Lines, b.Lines, sameAdded)
}

// sameAdded tells whether two lines bring the same food in the same weight.
func sameAdded(a, b *Line) bool {
	return !a.Food.Zero() && a.Food == b.Food && a.Sub == nil && b.Sub == nil && a.Known() && b.Known() && near(a.Grams, b.Grams) &&
		a.Kind == b.Kind && a.AsBought == b.AsBought && a.State == b.State && near(a.PartEaten, b.PartEaten) && a.Technique == b.Technique && a.Uptake == nil && b.Uptake == nil
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(1, math.Abs(a)) }
