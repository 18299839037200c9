package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// spread is how far a line's grams may be off, as a share, by how they were
// obtained: about two standard deviations of kitchen practice. Common practice,
// no source.
var spread = map[recipes.GramsFrom]float64{
	recipes.GramsTyped:     0.01,
	recipes.GramsWeight:    0.02,
	recipes.GramsDensity:   0.06,
	recipes.GramsHousehold: 0.10,
	recipes.GramsCount:     0.20,
	recipes.GramsDefault:   0.50,
}

// Spread returns how far a line's grams may be off, as a share of them; 0 for
// grams that are not known, whose gap is told elsewhere.
func Spread(l *recipes.Line) float64 { return spread[l.GramsFrom] }

// Band returns how far one serving's figure may be off because of how grams
// were obtained: the root of the summed squares over lines, which err apart
// from one another. It says nothing of how one onion differs from the next.
func (a *Account) Band(n food.Nutrient) float64 {
	sum := 0.0
	for i := range a.Lines {
		v, _ := a.LineAmount(i, n)
		e := v / a.Draft.Servings * Spread(a.Draft.Lines[i].Line)
		sum += e * e
	}
	return math.Sqrt(sum)
}

// ChangeBand returns how far a change per serving may be off. A line that
// stands in both with the same amount errs alike on both sides and cancels;
// only what differs counts.
func ChangeBand(original, version *Account, n food.Nutrient) float64 {
	diff := map[recipes.ID]float64{}
	by := map[recipes.ID]*recipes.Line{}
	add := func(a *Account, sign float64) {
		for i := range a.Lines {
			v, _ := a.LineAmount(i, n)
			l := a.Draft.Lines[i].Line
			diff[l.ID] += sign * v / a.Draft.Servings
			by[l.ID] = l
		}
	}
	add(original, -1)
	add(version, 1)
	sum := 0.0
	for id, d := range diff {
		e := d * Spread(by[id])
		sum += e * e
	}
	return math.Sqrt(sum)
}
