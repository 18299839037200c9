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
	CookedBy CookedFrom
}

// CookedFrom says what the cooked weight rests on.
type CookedFrom string

// Bases of the cooked weight, best first. Until tests and yields are known the
// raw weight stands in, and the window says so.
const (
	CookedMeasured  CookedFrom = "measured"
	CookedEstimated CookedFrom = "estimated"
	CookedRaw       CookedFrom = "raw"
)

// LineAccount is one line's part. Grams and Eaten are known only when Weighed.
type LineAccount struct {
	Food    *food.Food // nil when not known
	Grams   float64    // as written, after the swaps
	Edible  float64    // Grams less peel, bone or shell
	Eaten   float64    // Edible times the part eaten
	Weighed bool
}

// weights is a weight with the lines whose weight is not known.
type weights struct {
	known   float64
	missing []recipes.ID
}

// Of reckons a draft. Source: DESIGN section 5, Grams and Method; FAO
// (Greenfield & Southgate 2003): nutrients are summed over what goes in.
func Of(d *recipes.Draft, foods Foods) *Account {
	a := &Account{Draft: d, Lines: make([]LineAccount, len(d.Lines)), CookedBy: CookedRaw}
	a.sum.blanks = make([]blank, 0, 2*len(d.Lines))
	for i := range d.Lines {
		a.addLine(i, &d.Lines[i], foods)
	}
	return a
}

func (a *Account) addLine(i int, d *recipes.DraftLine, foods Foods) {
	la := weigh(d, foods)
	a.Lines[i] = la
	sign := 1.0
	if d.Line.Kind == recipes.TakenOff {
		sign = -1
	}
	if la.Weighed {
		a.eaten.known += sign * la.Eaten
		a.swollen += sign * la.Eaten * swell(la.Food, d.State)
	} else {
		a.eaten.missing = append(a.eaten.missing, d.Line.ID)
	}
	a.sum.addLine(d, &la, sign)
}

// weigh finds a line's grams by the rules of DESIGN section 5: the edible part
// applies to weights as bought only.
func weigh(d *recipes.DraftLine, foods Foods) LineAccount {
	var la LineAccount
	if !d.Line.Food.Zero() {
		la.Food = foods(d.Line.Food)
	}
	la.Grams, la.Weighed = d.Grams()
	la.Edible = la.Grams
	if d.Line.AsBought && la.Food != nil {
		la.Edible *= la.Food.EdiblePart()
	}
	la.Eaten = la.Edible * d.PartEaten
	return la
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

// CookedGrams returns the weight that values per 100 g rest on, by CookedBy.
func (a *Account) CookedGrams() (float64, bool) { return a.RawGrams() }

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
		f.AtLeast = true
	}
	return f
}
