package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// AlcoholKcal is the energy of a gram of ethanol in USDA tables (Merrill &
// Watt, USDA Agriculture Handbook 74, 1973 revision).
const AlcoholKcal = 6.93

// alcoholKept is the share of alcohol that stays when it is stirred in and
// baked or simmered, by minutes: USDA Table of Nutrient Retention Factors,
// Release 6 (2007), codes 5004-5010, after Augustin et al. 1992, J Am Diet
// Assoc 92:486-488. The figure at 0 minutes is "stirred into hot liquid". Times
// between are joined by straight lines, which is our choice and not in the
// table.
var alcoholKept = []struct{ minutes, kept float64 }{
	{0, 0.85}, {15, 0.40}, {30, 0.35}, {60, 0.25}, {90, 0.20}, {120, 0.10}, {150, 0.05},
}

// Alcohol shares of the same table for what is not simmered or baked stirred in.
const (
	alcoholFlamed    = 0.75
	alcoholNoHeat    = 0.70 // left uncovered overnight
	alcoholUnstirred = 0.45 // baked 25 minutes, not stirred in
)

// overnight is the time from which an unheated dish loses alcohol by the table.
const overnight = 8 * 60

// AlcoholKept returns the share of alcohol that stays with a technique, 0-1, and
// false when heat was used but no time is stated: then the shortest time of the
// table is taken, so that no alcohol is lost without a reason.
func AlcoholKept(t recipes.Technique) (kept float64, sure bool) {
	m := MethodOf(t)
	switch {
	case m == nil, m.Key == "marinated", m.Key == "brined":
		return 1, true
	case m.Key == "raw":
		if t.Minutes >= overnight {
			return alcoholNoHeat, true
		}
		return 1, true
	case m.Key == "flamed":
		return alcoholFlamed, true
	}
	if t.Minutes <= 0 {
		return alcoholKept[0].kept, false
	}
	return between(t.Minutes), true
}

func between(minutes float64) float64 {
	last := alcoholKept[0]
	for _, p := range alcoholKept[1:] {
		if minutes <= p.minutes {
			return last.kept + (p.kept-last.kept)*(minutes-last.minutes)/(p.minutes-last.minutes)
		}
		last = p
	}
	return last.kept
}

// mineral is a retention of minerals for a sort of food and a method.
type mineral struct {
	method string
	foods  func(*food.Food) bool
	kept   map[food.Nutrient]float64
	source string
}

// minerals holds the rows of USDA Retention Factors Release 6 that could be
// read: greens boiled and drained (codes 3004, 3005) keep 95 % of calcium, iron
// and sodium. The table gives 100 % for sodium and minerals in most other rows.
var minerals = []mineral{
	{
		method: "boiled, drained", foods: isGreens, source: "retention.greens",
		kept: map[food.Nutrient]float64{food.Calcium: 0.95, food.Iron: 0.95, food.Sodium: 0.95},
	},
}

// greens are the leafy vegetables of the starter table, by their USDA numbers.
var greens = map[string]bool{
	"11457": true, // spinach
	"11233": true, // kale
	"11147": true, // chard
	"11161": true, // collards
	"11086": true, // beet greens
	"11270": true, // mustard greens
	"11568": true, // turnip greens
	"11109": true, // cabbage
	"11116": true, // pak choi
}

func isGreens(f *food.Food) bool { return f.Source == "usda" && greens[f.Code] }

// kept is what cooking leaves of a food's row: a multiplier for each nutrient,
// and kcal and kJ that leave with the alcohol, for each 100 g.
type kept struct {
	times    [food.NutrientCount]float64
	lostKcal float64
	weight   float64 // eaten grams for one gram of the line
}

// Factor is one factor applied to a line, for the details of a number.
type Factor struct {
	Nutrient food.Nutrient
	Kept     float64
	Source   string // a key of words
	Assumed  bool   // the default stands in for something not stated
}

// keptOf finds what holds for a line; nil when everything stays. A row that
// describes cooked food has its losses in it already.
func keptOf(d *recipes.DraftLine, dish recipes.Technique, f *food.Food) *kept {
	factors := FactorsOf(d, dish, f)
	if len(factors) == 0 && d.Line.Uptake == nil {
		return nil
	}
	k := &kept{weight: 1}
	for n := range k.times {
		k.times[n] = 1
	}
	if u := d.Line.Uptake; u != nil {
		k.takeUp(u, &f.Per100)
	}
	for _, x := range factors {
		k.times[x.Nutrient] *= x.Kept
		if x.Nutrient == food.Alcohol {
			v, _ := f.Per100.Get(food.Alcohol)
			k.lostKcal += AlcoholKcal * v * (1 - x.Kept)
		}
	}
	return k
}

// FactorsOf lists the retention factors that apply to a line.
func FactorsOf(d *recipes.DraftLine, dish recipes.Technique, f *food.Food) []Factor {
	t := techniqueOf(d, dish)
	m := MethodOf(t)
	if m == nil || alreadyCooked(d, f) {
		return nil
	}
	var out []Factor
	if v, ok := f.Per100.Get(food.Alcohol); !ok || v > 0 {
		if r, sure := AlcoholKept(t); r < 1 {
			out = append(out, Factor{Nutrient: food.Alcohol, Kept: r, Source: "retention.alcohol", Assumed: !sure})
		}
	}
	for i := range minerals {
		row := &minerals[i]
		if row.method != m.Key || !row.foods(f) {
			continue
		}
		for _, n := range []food.Nutrient{food.Sodium, food.Calcium, food.Iron} {
			out = append(out, Factor{Nutrient: n, Kept: row.kept[n], Source: row.source})
		}
	}
	return out
}

// PouredAway tells whether the water a line is cooked in is poured away, and
// what dissolved in it with it: nothing says how much where FactorsOf has no
// published factor. False for rows that describe cooked food.
func PouredAway(d *recipes.DraftLine, dish recipes.Technique, f *food.Food) bool {
	m := MethodOf(techniqueOf(d, dish))
	return m != nil && m.Drained && f != nil && !alreadyCooked(d, f)
}

// techniqueOf is the line's own technique, else the dish's.
func techniqueOf(d *recipes.DraftLine, dish recipes.Technique) recipes.Technique {
	if d.Technique.Method != "" {
		return d.Technique
	}
	return dish
}

// alreadyCooked tells whether the row describes the food as cooked.
func alreadyCooked(d *recipes.DraftLine, f *food.Food) bool {
	return f.State == food.Cooked || d.State == food.Cooked && f.State != food.Raw && f.State != food.Dry
}

// saltOfSodium turns mg of sodium into grams of salt by molar mass (58.44/22.99).
const saltOfSodium = 2.542 / 1000

// takeUp applies the shares of a marinade, brine or cooking water. Energy keeps
// the share that its parts keep by the general factors 4, 9, 4 and 7.
func (k *kept) takeUp(u *recipes.Uptake, p *food.Profile) {
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		switch n {
		case food.Sodium, food.Potassium, food.Calcium, food.Iron:
			k.times[n] = u.Salt
		case food.Fat, food.SaturatedFat, food.TransFat, food.Cholesterol:
			k.times[n] = u.Fat
		default:
			k.times[n] = u.Water
		}
	}
	fat, _ := p.Get(food.Fat)
	sodium, _ := p.Get(food.Sodium)
	protein, _ := p.Get(food.Protein)
	carb, _ := p.Get(food.Carbohydrate)
	alcohol, _ := p.Get(food.Alcohol)
	watery, fatty := 4*protein+4*carb+7*alcohol, 9*fat
	share := u.Water
	if watery+fatty > 0 {
		share = (watery*u.Water + fatty*u.Fat) / (watery + fatty)
	}
	k.times[food.EnergyKcal], k.times[food.EnergyKJ] = share, share
	salt := math.Min(sodium*saltOfSodium/100, 1)
	fatPart := math.Min(fat/100, 1-salt)
	k.weight = u.Salt*salt + u.Fat*fatPart + u.Water*(1-salt-fatPart)
}
