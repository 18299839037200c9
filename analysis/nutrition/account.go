// Package nutrition works out what a composed draft holds: grams, nutrients
// with their gaps, what each line and each swap contributes, and how a version
// differs from its original. It reads values and returns values.
package nutrition

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// Foods finds the food row a line pins; nil when there is none.
type Foods func(food.Ref) *food.Food

// Account is the reckoning of one draft. Totals are of the whole dish.
type Account struct {
	Draft    *recipes.Draft
	Lines    []LineAccount // one for each of Draft.Lines, same order
	sum      form          // nutrients of the whole dish
	eaten    weights       // eaten weight going in
	swollen  float64       // the same with dry rice, pasta and pulses at their cooked weight
	cooked   cookedWeights
	CookedBy CookedFrom // what CookedGrams rests on
}

// CookedFrom says what the cooked weight rests on.
type CookedFrom string

// Bases of the cooked weight, best first.
const (
	CookedMeasured  CookedFrom = "measured"  // mean of kept tests
	CookedEstimated CookedFrom = "estimated" // from yields of foods and methods
	CookedRaw       CookedFrom = "raw"       // no test and no method stated
)

// cookedWeights are the weights each basis gives, in grams of the whole dish.
type cookedWeights struct {
	measured       Weighed
	hasMeasured    bool
	estimate       float64
	low, high      float64
	estimatedLines int // lines whose method, own or the dish's, gave a yield
	otherLines     int
	weighed        map[string]bool // sections with a cooked weight of their own
}

// LineAccount is one line's part. Grams and Eaten are known only when Weighed.
type LineAccount struct {
	Food    *food.Food // nil when not known, or when the line is another recipe
	Sub     *Account   // of the recipe it names
	Parts   float64    // how many times Sub
	Grams   float64    // as written, after the swaps
	Edible  float64    // Grams less peel, bone or shell
	Eaten   float64    // Edible times the part eaten and the share of its section used
	Weighed bool
	Capped  bool // a taken-off line that its source could not give in full
	kept    *kept
	sign    float64
}

// weights is a weight with the lines whose weight is not known.
type weights struct {
	known   float64
	missing []recipes.ID
}

// Of reckons a draft by the plain rules: pinned foods alone.
func Of(d *recipes.Draft, foods Foods) *Account { return Kitchen{Foods: foods}.Of(d) }

// Of reckons a draft. Source: DESIGN section 5, Grams and Method; EuroFIR's
// mixed method (yield on the recipe, retention on the ingredient; Vásquez-
// Caicedo, Bell & Hartmann 2008, D2.2.9).
func (k Kitchen) Of(d *recipes.Draft) *Account {
	a := &Account{Draft: d, Lines: make([]LineAccount, len(d.Lines))}
	a.sum.blanks = make([]blank, 0, 2*len(d.Lines))
	for i := range d.Lines {
		a.Lines[i] = k.weigh(&d.Lines[i], d.Dish)
	}
	a.capTakenOff()
	for i := range d.Lines {
		a.addLine(i)
	}
	k.weighSections(a)
	if k.Weighed != nil {
		a.cooked.measured, a.cooked.hasMeasured = k.Weighed(d)
	}
	a.CookedBy = a.bestBasis()
	return a
}

// addLine adds a weighed line to the dish.
func (a *Account) addLine(i int) {
	d, la := &a.Draft.Lines[i], &a.Lines[i]
	if la.Weighed {
		a.eaten.known += la.sign * la.Eaten
		a.swollen += la.sign * la.Eaten * swell(la.Food, d.State)
	} else {
		a.eaten.missing = append(a.eaten.missing, d.Line.ID)
	}
	a.addCooked(d, la)
	a.sum.addLine(d, la)
}

// addCooked adds a line to the estimated cooked weight.
func (a *Account) addCooked(d *recipes.DraftLine, la *LineAccount) {
	if !la.Weighed || d.Gone() {
		return
	}
	use, ok := a.yieldUse(d, la)
	if !ok {
		a.cooked.otherLines++
	} else if la.sign > 0 && la.Sub == nil {
		a.cooked.estimatedLines++
	}
	a.cooked.add(la.sign*la.Eaten, use)
}

// yieldUse is the yield of a line, 1 and false when nothing says one. What is
// taken off leaves at its own weight; another recipe's part is cooked already.
func (a *Account) yieldUse(d *recipes.DraftLine, la *LineAccount) (YieldUse, bool) {
	if la.sign < 0 || la.Sub != nil {
		return YieldUse{Yield: 1, Low: 1, High: 1}, true
	}
	if use, ok := YieldOf(d, a.Draft.Dish, la.Food); ok {
		return use, true
	}
	return YieldUse{Yield: 1, Low: 1, High: 1}, false
}

// add puts grams going in to the estimate at their yield.
func (c *cookedWeights) add(grams float64, use YieldUse) {
	c.estimate += grams * use.Yield
	c.low += grams * use.Low
	c.high += grams * use.High
}

func (a *Account) bestBasis() CookedFrom {
	switch {
	case a.cooked.hasMeasured:
		return CookedMeasured
	case a.cooked.estimatedLines > 0:
		return CookedEstimated
	}
	return CookedRaw
}

// Rank orders bases: 0 is best.
func (c CookedFrom) rank() int {
	switch c {
	case CookedMeasured:
		return 0
	case CookedEstimated:
		return 1
	}
	return 2
}

// CommonBasis puts all accounts of one comparison on one basis of cooked
// weight, the best that every one of them has, and returns it. It changes only
// the weight that figures per 100 g and serving weights rest on.
func CommonBasis(accounts []*Account) CookedFrom {
	worst := CookedMeasured
	for _, a := range accounts {
		if b := a.bestBasis(); b.rank() > worst.rank() {
			worst = b
		}
	}
	if worst == CookedEstimated || worst == CookedMeasured {
		for _, a := range accounts {
			a.CookedBy = worst
		}
		return worst
	}
	for _, a := range accounts {
		a.CookedBy = CookedRaw
	}
	return CookedRaw
}

// weigh finds a line's grams by the rules of DESIGN section 5: the edible part
// applies to weights as bought only.
func (k *Kitchen) weigh(d *recipes.DraftLine, dish recipes.Technique) LineAccount {
	la := LineAccount{sign: 1}
	if d.Line.Kind == recipes.TakenOff {
		la.sign = -1
	}
	if d.Line.Sub != nil {
		k.weighSub(d, &la)
		return la
	}
	if !d.Line.Food.Zero() {
		if f := k.Foods(d.Line.Food); f != nil {
			la.Food = k.row(f)
			la.kept = keptOf(d, dish, la.Food)
		}
	}
	la.Grams, la.Weighed = d.Grams()
	la.Edible = la.Grams
	if d.Line.AsBought && la.Food != nil {
		la.Edible *= la.Food.EdiblePart()
	}
	la.Eaten = la.Edible * d.PartEaten * d.Used()
	if la.kept != nil && d.Line.Uptake != nil {
		la.Eaten = la.Edible * la.kept.weight * d.Used()
	}
	return la
}

// weighSub finds how much of another recipe's version a line takes: grams of
// its cooked weight, servings or batches of it.
func (k *Kitchen) weighSub(d *recipes.DraftLine, la *LineAccount) {
	if k.Sub == nil {
		return
	}
	if la.Sub = k.Sub(*d.Line.Sub); la.Sub == nil {
		return
	}
	whole, complete := la.Sub.CookedGrams()
	s := d.Line.Sub
	switch {
	case s.Batches > 0:
		la.Parts = s.Batches
	case s.Servings > 0:
		la.Parts = s.Servings / la.Sub.Draft.Servings
	case whole > 0:
		la.Parts = s.Grams / whole
	}
	la.Parts *= d.Scale
	la.Grams = la.Parts * whole
	la.Edible = la.Grams
	la.Eaten = la.Grams * d.PartEaten * d.Used()
	la.Weighed = complete && whole > 0 || d.Gone()
}

// swell is how much heavier a dry staple is when cooked: 1 for all else and
// for staples weighed cooked.
func swell(f *food.Food, state food.State) float64 {
	if f == nil || f.Swells <= 0 || state == food.Cooked || state == food.Drained {
		return 1
	}
	return f.Swells
}

// RawGrams returns the eaten weight going in; false when some line's weight
// is not known and it is "at least" that much.
func (a *Account) RawGrams() (float64, bool) { return a.eaten.known, len(a.eaten.missing) == 0 }

// CookedGrams returns the weight that values per 100 g rest on, by CookedBy; a
// measured weight is complete whatever the lines lack.
func (a *Account) CookedGrams() (float64, bool) {
	switch a.CookedBy {
	case CookedMeasured:
		return a.cooked.measured.Mean, true
	case CookedEstimated:
		return a.cooked.estimate, a.estimateWhole()
	}
	return a.RawGrams()
}

// CookedRange returns the range of the cooked weight on its basis: of the kept
// tests, of the yields' ranges, or the raw weight twice.
func (a *Account) CookedRange() (low, high float64) {
	switch a.CookedBy {
	case CookedMeasured:
		return a.cooked.measured.Low, a.cooked.measured.High
	case CookedEstimated:
		return a.cooked.low, a.cooked.high
	}
	return a.eaten.known, a.eaten.known
}

// Tests returns how many kept tests a measured weight is the mean of.
func (a *Account) Tests() int { return a.cooked.measured.Tests }

// ServingGrams returns the weight of one serving, and whether it is complete.
func (a *Account) ServingGrams() (float64, bool) {
	g, ok := a.CookedGrams()
	return g / a.Draft.Servings, ok
}

// Total returns the whole dish's figure of a nutrient.
func (a *Account) Total(n food.Nutrient) Figure { return a.figure(n, 1) }

// PerServing returns one serving's figure of a nutrient.
func (a *Account) PerServing(n food.Nutrient) Figure { return a.figure(n, 1/a.Draft.Servings) }

// Per100g returns the figure for 100 g of cooked weight; unknown when there is
// no weight.
func (a *Account) Per100g(n food.Nutrient) Figure {
	g, whole := a.CookedGrams()
	if g <= 0 {
		return Figure{Nowhere: true}
	}
	f := a.figure(n, 100/g)
	if !whole {
		f.About, f.AtLeast = true, false
	}
	return f
}
