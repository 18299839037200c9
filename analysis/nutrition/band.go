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
// from one another. Another recipe's part errs by its amount and by what its own
// lines may be off. It says nothing of how one onion differs from the next.
func (a *Account) Band(n food.Nutrient) float64 {
	sum := 0.0
	for i := range a.Lines {
		v, _ := a.LineAmount(i, n)
		e := v / a.Draft.Servings * Spread(a.Draft.Lines[i].Line)
		inner := a.subParts(i) * a.subBand(i, n)
		sum += e*e + inner*inner
	}
	return math.Sqrt(sum)
}

// subParts is how many times one serving holds the recipe that a line names, 0
// for a line that names none.
func (a *Account) subParts(i int) float64 {
	d, la := &a.Draft.Lines[i], &a.Lines[i]
	if la.Sub == nil || d.Gone() {
		return 0
	}
	return la.sign * la.Parts * d.PartEaten * d.Used() / a.Draft.Servings
}

// subBand is how far the whole of the recipe that a line names may be off.
func (a *Account) subBand(i int, n food.Nutrient) float64 {
	sub := a.Lines[i].Sub
	if sub == nil {
		return 0
	}
	return sub.Band(n) * sub.Draft.Servings
}

// ChangeBand returns how far a change per serving may be off. A line that
// stands in both with the same amount errs alike on both sides and cancels;
// only what differs counts. The same holds of another recipe's version that both
// take a part of.
func ChangeBand(original, version *Account, n food.Nutrient) float64 {
	diff := map[recipes.ID]float64{}
	by := map[recipes.ID]*recipes.Line{}
	type inside struct{ recipe, version recipes.ID }
	parts, bands := map[inside]float64{}, map[inside]float64{}
	add := func(a *Account, sign float64) {
		for i := range a.Lines {
			v, _ := a.LineAmount(i, n)
			l := a.Draft.Lines[i].Line
			diff[l.ID] += sign * v / a.Draft.Servings
			by[l.ID] = l
			if l.Sub != nil {
				key := inside{l.Sub.Recipe, l.Sub.Version}
				parts[key] += sign * a.subParts(i)
				bands[key] = a.subBand(i, n)
			}
		}
	}
	add(original, -1)
	add(version, 1)
	sum := 0.0
	for id, d := range diff {
		e := d * Spread(by[id])
		sum += e * e
	}
	for key, p := range parts {
		e := p * bands[key]
		sum += e * e
	}
	return math.Sqrt(sum)
}
