package stats

import "math"

// OneWayResult is the analysis of variance of separate groups. P and F are NaN
// when the groups do not vary within.
type OneWayResult struct {
	Between, Within     float64 // sums of squares
	DFBetween, DFWithin int
	MSBetween, MSWithin float64
	F, P                float64
	RSquared            float64 // Between / total; NaN if nothing varies
	ResidualSD          float64 // sqrt(MSWithin)
}

// OneWay compares the means of groups of scores from different people. Empty
// groups are left out and so are NaN values; all is NaN with fewer than two
// groups or no more values than groups. Never use it where tasters score several
// versions: their levels would land in the error.
func OneWay(groups [][]float64) OneWayResult {
	nan := math.NaN()
	r := OneWayResult{Between: nan, Within: nan, MSBetween: nan, MSWithin: nan, F: nan, P: nan, RSquared: nan, ResidualSD: nan}
	var all []float64
	var kept [][]float64
	for _, g := range groups {
		if g = present(g); len(g) > 0 {
			all, kept = append(all, g...), append(kept, g)
		}
	}
	if len(kept) < 2 || len(all) <= len(kept) || !finite(all) {
		return r
	}
	grand := mean(all)
	var between, within double
	for _, g := range kept {
		m := mean(g)
		d := m.sub(grand)
		between = between.add(d.mul(d).mul(of(float64(len(g)))))
		within = within.add(squares(g, m))
	}
	r.DFBetween, r.DFWithin = len(kept)-1, len(all)-len(kept)
	r.fill(between, within)
	return r
}

func (r *OneWayResult) fill(between, within double) {
	r.Between, r.Within = between.value(), within.value()
	a, b := between.div(of(float64(r.DFBetween))), within.div(of(float64(r.DFWithin)))
	r.MSBetween, r.MSWithin, r.ResidualSD = a.value(), b.value(), b.sqrt().value()
	if total := between.add(within); total.hi > 0 {
		r.RSquared = between.div(total).value()
	}
	if within.hi > 0 {
		r.F = a.div(b).value()
		r.P = FAbove(r.F, float64(r.DFBetween), float64(r.DFWithin))
	}
}
