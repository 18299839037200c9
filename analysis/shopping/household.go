package shopping

import (
	"math"

	"parewell/recipes/measure"
)

// Household is an amount in a measure of the kitchen: "2.5 cup", "4 large".
type Household struct {
	Amount float64
	Unit   string // "cup", "tbsp", "tsp", "ml", "litre", or what one is called: "large", "clove"
}

// counted are the units in which a food is bought by number.
var counted = map[string]bool{
	"whole": true, "medium": true, "large": true, "small": true, "head": true, "bulb": true, "clove": true,
	"fillet": true, "breast": true, "thigh": true, "rasher": true, "stalk": true, "ear": true,
}

// Where a cook changes from one measure to the next (common practice, no source).
const (
	spoons = 3.9 // tablespoons below which an amount is given in spoons
	most   = 40  // of one counted; above that nobody counts
)

// Household puts grams as bought into the food's own household measure: counted
// where it is bought by number, else by volume where that is known. false where
// the food has neither. Counts are rounded up to whole ones, volumes to the
// nearest mark of a spoon or cup.
func (i *Item) Household(bought float64, system measure.System) (Household, bool) {
	if i.Row == nil || bought <= 0 || i.State != "" {
		return Household{}, false
	}
	edible := bought * i.Row.EdiblePart()
	if m, _, ok := i.Row.Each(""); ok && counted[m.Unit] && m.Grams > 0 && edible/m.Grams < most {
		return Household{math.Max(1, math.Ceil(edible/m.Grams-0.1)), m.Unit}, true
	}
	if perMl, _, ok := i.Row.GramsPerMillilitre(); ok && perMl > 0 {
		return volume(edible/perMl, system), true
	}
	return Household{}, false
}

// volume gives millilitres as spoons, cups (US) or millilitres.
func volume(ml float64, system measure.System) Household {
	size := func(word string) float64 { return float64(measure.Lookup(word).Millilitres(system)) }
	tbsp, tsp, cup := size("tbsp"), size("tsp"), size("cup")
	to := func(amount, mark float64) float64 { return math.Max(mark, math.Round(amount/mark)*mark) }
	switch {
	case ml < tbsp*0.95:
		return Household{to(ml/tsp, 0.25), "tsp"}
	case ml < tbsp*spoons:
		return Household{to(ml/tbsp, 0.5), "tbsp"}
	case system == measure.US:
		return Household{to(ml/cup, 0.25), "cup"}
	case ml < 100:
		return Household{to(ml, 5), "ml"}
	}
	if ml >= 995 {
		return Household{to(ml/1000, 0.05), "litre"}
	}
	return Household{to(ml, 10), "ml"}
}
