package stats

import (
	"math"
	"sort"
)

// Holm adjusts p values for testing them together (step-down, Holm 1979, Scand.
// J. Statist. 6:65), in the order given; at most 1. A NaN is no test: it stays
// NaN and is not counted. Nil for nil.
func Holm(p []float64) []float64 {
	if p == nil {
		return nil
	}
	out := append([]float64{}, p...)
	var order []int
	for i, v := range p {
		if !math.IsNaN(v) {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return p[order[a]] < p[order[b]] })
	most := 0.0
	for rank, i := range order {
		most = math.Max(most, math.Min(1, p[i]*float64(len(order)-rank)))
		out[i] = most
	}
	return out
}

// Ranks gives each value its rank, 1 for the smallest; equal values share the
// mean of theirs. tieSum is the sum of t^3 - t over groups of t equal values.
// Values that are NaN get NaN and are not counted.
func Ranks(x []float64) (ranks []float64, tieSum float64) {
	return ranksWithin(x, 0)
}

// ranksWithin ranks values, taking neighbours no more than slack apart as equal.
func ranksWithin(x []float64, slack float64) (ranks []float64, tieSum float64) {
	ranks = make([]float64, len(x))
	var order []int
	for i, v := range x {
		if ranks[i] = math.NaN(); !math.IsNaN(v) {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool { return x[order[a]] < x[order[b]] })
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && same(x[order[to]], x[order[to-1]], slack) {
			to++
		}
		for _, i := range order[from:to] {
			ranks[i] = float64(from+1+to) / 2
		}
		t := float64(to - from)
		tieSum += t*t*t - t
		from = to
	}
	return ranks, tieSum
}

// same holds for equal infinities too, where the difference is NaN.
func same(a, b, slack float64) bool { return a == b || a-b <= slack }
