package nutrition

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// Pair is the cooked weight of 1 g of a raw food, as the raw and cooked rows of
// USDA SR28 imply it: protein held constant for meat, grains and pulses,
// fat-free dry matter for boiled vegetables (true retention turned round,
// Murphy et al. 1975). Cooked names the row that was compared.
type Pair struct {
	Code   string // raw row
	Method string // key of Methods
	Cooked string
	Yield  float64
}

// pairs are those raw and cooked rows whose potassium and dry matter agree, so
// that they plausibly describe one sample; pairs that do not (boiled broccoli,
// mushrooms, onions, aubergine; braised stewing beef; baked cod) are left out,
// and the method's default stands in for them.
var pairs = []Pair{
	{"05062", "grilled", "05747", 0.737},
	{"05062", "pan-fried", "05747", 0.737},
	{"05096", "roasted", "05098", 0.794},
	{"05096", "baked", "05098", 0.794},
	{"23572", "pan-fried", "23575", 0.636},
	{"23572", "grilled", "23573", 0.667},
	{"23562", "pan-fried", "23565", 0.703},
	{"23557", "pan-fried", "23560", 0.734},
	{"05668", "pan-fried", "05669", 0.673},
	{"10219", "pan-fried", "10220", 0.657},
	{"15236", "baked", "15237", 0.924},
	{"15236", "roasted", "15237", 0.924},
	{"15270", "boiled, drained", "15271", 0.838},
	{"15270", "steamed", "15271", 0.838},
	{"10123", "pan-fried", "10862", 0.372},
	{"01123", "boiled, drained", "01129", 0.998},
	{"11124", "boiled, drained", "11125", 1.189},
	{"11352", "baked", "11674", 0.823},
	{"20120", "boiled, drained", "20121", 2.248},
	{"20044", "boiled, drained", "20045", 2.651},
	{"20044", "boiled with its liquid", "20045", 2.651},
	{"20044", "steamed", "20045", 2.651},
	{"20036", "boiled, drained", "20037", 3.078},
	{"16014", "boiled, drained", "16015", 2.438},
	{"16056", "boiled, drained", "16057", 2.310},
}

// YieldUse says which yield a line's estimated cooked weight rests on.
type YieldUse struct {
	Yield     float64
	Low, High float64
	Pair      *Pair // nil: the method's default
	Method    string
}

// YieldOf finds the yield of a line: of its own food and method, of a dry
// staple's swelling, else of the method; false when no method is stated.
func YieldOf(d *recipes.DraftLine, dish recipes.Technique, f *food.Food) (YieldUse, bool) {
	t := techniqueOf(d, dish)
	m := MethodOf(t)
	if m == nil {
		return YieldUse{}, false
	}
	if f != nil && alreadyCooked(d, f) {
		if d.Technique.Method == "" { // it only warms with the dish
			y, low, high := m.YieldFor(t.Minutes)
			return YieldUse{Yield: y, Low: low, High: high, Method: m.Key}, true
		}
		return YieldUse{Yield: 1, Low: 1, High: 1, Method: m.Key}, true
	}
	if f != nil && f.Source == "usda" {
		for i := range pairs {
			if pairs[i].Code == f.Code && pairs[i].Method == m.Key {
				p := &pairs[i]
				return YieldUse{Yield: p.Yield, Low: 0.9 * p.Yield, High: 1.1 * p.Yield, Pair: p, Method: m.Key}, true
			}
		}
	}
	if f != nil && f.Swells > 0 && m.Drained {
		return YieldUse{Yield: f.Swells, Low: 0.85 * f.Swells, High: 1.15 * f.Swells, Method: m.Key}, true
	}
	y, low, high := m.YieldFor(t.Minutes)
	return YieldUse{Yield: y, Low: low, High: high, Method: m.Key}, true
}
