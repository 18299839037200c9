package reading

import (
	"math"
	"sort"

	"parewell/recipes"
	"parewell/recipes/food"
)

// DoubtRow is an unsettled line with what settling it could move, in the
// whole recipe.
type DoubtRow struct {
	Index  int // in the lines given
	Line   *recipes.Line
	Kcal   float64 // energy it could move
	Sodium float64 // mg it could move
	Small  bool    // under 5 kcal and 20 mg: accepted with all other small things
}

// Limits under which a doubt is a small thing (DESIGN section 4).
const (
	smallKcal   = 5
	smallSodium = 20
)

// Doubtful returns the unsettled lines in order of what they could move,
// energy first, then sodium; small things come last. foods may be nil.
func Doubtful(lines []*recipes.Line, foods Foods) []DoubtRow {
	var out []DoubtRow
	for i, l := range lines {
		if l.Settled || len(l.Doubts) == 0 && l.Known() {
			continue
		}
		row := DoubtRow{Index: i, Line: l}
		row.Kcal, row.Sodium = couldMove(l, foods)
		row.Small = row.Kcal < smallKcal && row.Sodium < smallSodium
		out = append(out, row)
	}
	sort.SliceStable(out, func(i, j int) bool {
		a, b := &out[i], &out[j]
		if a.Small != b.Small {
			return b.Small
		}
		if a.Kcal != b.Kcal {
			return a.Kcal > b.Kcal
		}
		return a.Sodium > b.Sodium
	})
	return out
}

// Stand-ins where nothing is known, from memory: a food of 2.5 kcal and 3 mg
// sodium a gram; a spoonful of 15 g; a teaspoon of salt of 6 g.
const (
	unknownKcal   = 2.5
	unknownSodium = 3.0
	unknownGrams  = 15.0
	unknownSalt   = 6.0
	sodiumInSalt  = 387.58 // mg in a gram of table salt, USDA SR28 02047
)

// couldMove estimates how far energy and sodium of a line may be off.
func couldMove(l *recipes.Line, foods Foods) (kcal, sodium float64) {
	var f *food.Food
	if foods != nil && !l.Food.Zero() {
		f = foods.Get(l.Food)
	}
	grams := l.Grams
	if !l.Known() {
		grams = unknownGrams
		if f != nil && isSalt(f) {
			grams = unknownSalt
		}
	}
	if f == nil {
		return grams * unknownKcal, grams * unknownSodium
	}
	e, na := per100(f)
	share := 0.0
	if !l.Known() {
		share = 1
	}
	for _, d := range l.Doubts {
		share = math.Max(share, doubtShare(l, d.Kind))
		if d.Kind == recipes.DoubtSalted {
			sodium = math.Max(sodium, grams*saltPerBoiled*waterSaltShare*sodiumInSalt)
		}
		if d.Kind == recipes.DoubtFood || d.Kind == recipes.DoubtChoice || d.Kind == recipes.DoubtClose {
			dk, ds := spread(l, f, foods)
			kcal = math.Max(kcal, dk*grams/100*l.PartEaten)
			sodium = math.Max(sodium, ds*grams/100*l.PartEaten)
		}
	}
	return math.Max(kcal, share*e*grams/100), math.Max(sodium, share*na*grams/100)
}

func per100(f *food.Food) (kcal, sodium float64) {
	kcal, ok := f.Per100.Get(food.EnergyKcal)
	if !ok {
		kcal = unknownKcal * 100
	}
	sodium, ok = f.Per100.Get(food.Sodium)
	if !ok {
		sodium = unknownSodium * 100
	}
	return kcal, sodium
}

// doubtShare is the share of a line that a doubt about its grams puts in
// question, from memory.
func doubtShare(l *recipes.Line, k recipes.DoubtKind) float64 {
	switch k {
	case recipes.DoubtRange:
		if l.Amount+l.High > 0 {
			return (l.High - l.Amount) / (l.High + l.Amount)
		}
	case recipes.DoubtDefault, recipes.DoubtAmount, recipes.DoubtToTaste:
		return 1
	case recipes.DoubtMeasure:
		return 0.5
	case recipes.DoubtPack:
		return 0.3
	case recipes.DoubtDrained:
		return 0.15
	case recipes.DoubtState:
		return 0.6
	case recipes.DoubtPoured:
		return 0.3 // a mince of 20 % fat loses about half of it: 9 g in 100 g, by the SR28 rows of 80/20 crumbles
	case recipes.DoubtCooked:
		return 0.15
	case recipes.DoubtPartEaten:
		if len(l.Doubts) > 0 && l.PartEaten == 1 {
			return 0.1
		}
		return math.Max(l.PartEaten, 1-l.PartEaten)
	}
	return 0
}

// spread is the largest difference per 100 g between the food taken and the
// others its name may mean; a tenth of the food where there are none.
func spread(l *recipes.Line, f *food.Food, foods Foods) (kcal, sodium float64) {
	e, na := per100(f)
	kcal, sodium = e/10, na/10
	best, _, others := foods.Match(l.Name)
	n := 0
	for _, h := range append([]food.Hit{best}, others...) {
		if h.Food == nil || n == 4 {
			break
		}
		n++
		e2, na2 := per100(h.Food)
		kcal = math.Max(kcal, abs(e2-e))
		sodium = math.Max(sodium, abs(na2-na))
	}
	return kcal, sodium
}
