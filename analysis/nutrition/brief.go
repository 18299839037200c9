package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Verdict on one target of the brief.
type Verdict string

// Verdicts: a target is met or missed, or cannot be told while something is
// unknown.
const (
	Met        Verdict = "met"
	Missed     Verdict = "missed"
	CannotTell Verdict = "cannot tell"
)

// Judge holds one serving against a target. An unknown part can turn "at most"
// from met into cannot tell, and can never rescue a figure already over it.
func (a *Account) Judge(t recipes.Target) Verdict {
	f := a.PerServing(t.Nutrient)
	if f.Nowhere || f.About {
		return CannotTell
	}
	enough := f.Amount >= t.Amount-1e-9
	over := f.Amount > t.Amount+1e-9
	switch {
	case t.AtLeast && enough, !t.AtLeast && !over && !f.AtLeast:
		return Met
	case !t.AtLeast && over, t.AtLeast && !f.AtLeast:
		return Missed
	}
	return CannotTell
}

// worse lists what must not slip by unseen: nutrients whose rise is a cost, and
// nutrients whose fall is (DESIGN section 1).
var worse = []struct {
	nutrient food.Nutrient
	sign     float64
}{
	{food.Sodium, 1}, {food.SaturatedFat, 1}, {food.Sugars, 1}, {food.Protein, -1}, {food.Fibre, -1},
}

// SlipShare is the part of the original's serving from which a slip is told.
const SlipShare = 0.10

// Slip is a nutrient that got worse by SlipShare or more of the original's
// serving: Amount is signed, Percent of the original (NaN where that was 0).
type Slip struct {
	Nutrient food.Nutrient
	Amount   float64
	Percent  float64
}

// Slips finds what a change made worse; change gives the change of a nutrient
// per serving, original the account it is held against.
func Slips(original *Account, change func(food.Nutrient) Change) []Slip {
	var out []Slip
	for _, w := range worse {
		c := change(w.nutrient)
		base := original.PerServing(w.nutrient)
		if c.Bound == NotSure || base.Nowhere || c.Amount*w.sign <= slipFloor(w.nutrient) {
			continue
		}
		if c.Amount*w.sign >= SlipShare*base.Amount {
			p := c.Percent
			if math.IsNaN(p) && base.Amount > 0 {
				p = 100 * c.Amount / base.Amount
			}
			out = append(out, Slip{Nutrient: w.nutrient, Amount: c.Amount, Percent: p})
		}
	}
	return out
}

// slipFloor keeps a trace from being told as a slip where the original holds
// almost none: half of what the page prints.
func slipFloor(n food.Nutrient) float64 {
	if n.Unit() == "mg" {
		return 0.5
	}
	return 0.05
}
