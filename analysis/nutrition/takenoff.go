package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// capTakenOff keeps what is taken off a line within what the line holds: no
// source goes below zero in any nutrient, so 60 g of fat cannot be poured off a
// line that holds 50 g. A row that describes cooked food has lost its fat
// already, and nothing more comes off it. A taken-off line that names no source
// is held against the rest of the dish.
func (a *Account) capTakenOff() {
	for i := range a.Lines {
		d, la := &a.Draft.Lines[i], &a.Lines[i]
		if la.sign > 0 || d.Gone() || la.Food == nil || !la.Weighed {
			continue
		}
		if share := a.takenShare(d, la); share < 1 {
			la.Grams, la.Edible, la.Eaten = la.Grams*share, la.Edible*share, la.Eaten*share
			la.Capped = true
		}
	}
}

// takenShare is how much of a taken-off line its source can give, 0-1.
func (a *Account) takenShare(d *recipes.DraftLine, la *LineAccount) float64 {
	var source form
	for i := range a.Lines {
		x, sx := &a.Draft.Lines[i], &a.Lines[i]
		if sx.sign < 0 || d.Line.OffOf != "" && x.From != d.Line.OffOf {
			continue
		}
		if d.Line.OffOf != "" && sx.Food != nil && alreadyCooked(x, sx.Food) {
			continue
		}
		source.addLine(x, sx)
	}
	if len(source.blanks) > 0 && source.hasOpenLines() {
		return 1 // how much there is to take from is not known
	}
	share := 1.0
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		v, ok := la.Food.Per100.Get(n)
		if take := v * la.Eaten / 100; ok && take > 0 && n != food.EnergyKJ {
			share = math.Min(share, math.Max(0, source.known[n])/take)
		}
	}
	return share
}

// hasOpenLines tells whether some line's weight or food is not known.
func (f *form) hasOpenLines() bool {
	for i := range f.blanks {
		if f.blanks[i].food == nil {
			return true
		}
	}
	return false
}
