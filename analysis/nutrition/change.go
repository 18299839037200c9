package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Bound says how sure a change is (DESIGN section 5, Unknown).
type Bound string

// Bounds of a change: exact; lighter by at least or at most so much; or not
// known, from which no percentage, claim or verdict is drawn.
const (
	Exact   Bound = "exact"
	AtLeast Bound = "at_least" // lighter by at least: the original holds more that is unknown
	AtMost  Bound = "at_most"  // lighter by at most: the version does
	NotSure Bound = "unknown"
)

// Change is a version less its original, per serving of each: lighter is
// negative. Percent is of the original's serving, NaN when that is zero or not
// known. Recipe and Portion are its two parts and sum to Amount; both NaN when
// the weights do not allow them.
type Change struct {
	Amount  float64
	Bound   Bound
	Percent float64
	Recipe  float64
	Portion float64
	Gaps    []recipes.ID // lines whose unknowns keep it from being exact
}

// Compare returns the change of one nutrient from the original to a version.
func Compare(original, version *Account, n food.Nutrient) Change {
	before, after := original.serving(), version.serving()
	c := changeOf(&before, &after, n, original)
	c.Recipe, c.Portion = math.NaN(), math.NaN()
	if c.Bound == Exact {
		c.Recipe, c.Portion = effects(original, version, n)
	}
	return c
}

// serving returns the form of one serving.
func (a *Account) serving() form {
	var f form
	f.blanks = make([]blank, 0, len(a.sum.blanks))
	f.add(&a.sum, 1/a.Draft.Servings)
	return f
}

// changeOf subtracts two forms per serving; unknowns with equal weight on both
// sides cancel.
func changeOf(before, after *form, n food.Nutrient, original *Account) Change {
	var diff form
	diff.addOne(after, n, 1)
	diff.addOne(before, n, -1)
	c := Change{Amount: diff.known[n], Percent: math.NaN()}
	c.Bound, c.Gaps = bound(&diff, n, before.known[n])
	base := original.PerServing(n)
	if c.Bound != NotSure && !base.AtLeast && !base.About && base.Amount > 0 {
		c.Percent = 100 * c.Amount / base.Amount
	}
	return c
}

// addOne adds one nutrient of g.
func (f *form) addOne(g *form, n food.Nutrient, times float64) {
	f.known[n] += times * g.known[n]
	for i := range g.blanks {
		if g.blanks[i].nutrient == n {
			b := g.blanks[i]
			b.times *= times
			f.join(b)
		}
	}
}

// bound judges the unknowns left in a difference (version less original, per
// serving): all on the original's side makes the version lighter by at least
// the known part, all on the version's side by at most.
func bound(diff *form, n food.Nutrient, known float64) (Bound, []recipes.ID) {
	most, up, down := 0.0, false, false
	var gaps []recipes.ID
	for i := range diff.blanks {
		b := &diff.blanks[i]
		if b.nutrient != n || math.Abs(b.times) < 1e-12 {
			continue
		}
		most += math.Abs(b.times) * b.most
		up = up || b.times > 0
		down = down || b.times < 0
		gaps = append(gaps, b.at)
	}
	switch {
	case len(gaps) == 0, negligible(most, known, 1):
		return Exact, nil
	case up && down:
		return NotSure, gaps
	case down:
		return AtLeast, gaps
	}
	return AtMost, gaps
}

// effects splits a change into what the recipe does and what a smaller or
// larger helping does. With w the eaten going-in weight per serving (dry rice,
// pasta and pulses at their cooked weight) and d the nutrient per such gram,
// recipe = (d1-d0)(w0+w1)/2 and portion = (w1-w0)(d0+d1)/2 (DESIGN section 5);
// the two sum to d1·w1 - d0·w0. NaN, NaN when a weight is missing on one side
// only or is zero.
func effects(original, version *Account, n food.Nutrient) (recipe, portion float64) {
	w0, w1 := original.swollen/original.Draft.Servings, version.swollen/version.Draft.Servings
	if !(w0 > 0) || !(w1 > 0) || !sameMissing(original.eaten.missing, version.eaten.missing) {
		return math.NaN(), math.NaN()
	}
	d0 := original.sum.known[n] / original.Draft.Servings / w0
	d1 := version.sum.known[n] / version.Draft.Servings / w1
	return (d1 - d0) * (w0 + w1) / 2, (w1 - w0) * (d0 + d1) / 2
}

// HelpingGrams is what a serving weighs going in, eaten, with dry rice, pasta and
// pulses at their cooked weight: what Change.Portion compares. NaN where lines
// without weight keep it from being known.
func (a *Account) HelpingGrams() float64 {
	if len(a.eaten.missing) > 0 {
		return math.NaN()
	}
	return a.swollen / a.Draft.Servings
}

func sameMissing(a, b []recipes.ID) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
