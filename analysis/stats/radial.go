package stats

import "math"

// leastDF is the fewest degrees of freedom that tails are reckoned
// for; below it no estimate of spread means anything.
const leastDF = 0.01

// endlessDF is where the spread is known for all that float64 can tell.
const endlessDF = 1e15

// radial is the mean of tail(s) over s = sqrt(chi-square(df)/df), the estimated
// spread in units of the true one; tail falls from 1 at 0. In u = log s the
// integrand is smooth and dies on both sides, so the plain trapezoidal sum is
// good to rounding: the step is half the spread of u, at most 0.12, which
// leaves errors of exp(-40) by the Poisson summation formula.
func radial(df float64, tail func(s float64) float64) float64 {
	if df > endlessDF {
		return tail(1)
	}
	step := math.Min(0.12, 0.5/math.Sqrt(2*df))
	front := step * math.Sqrt(df/math.Pi) * math.Exp(-stirling(df/2))
	weight := func(u float64) float64 { return front * math.Exp(df*(u-math.Expm1(2*u)/2)) }
	sum := 0.0
	walk := func(from int, by int) {
		before := 0.0
		for j := from; ; j += by {
			u := float64(j) * step
			w := weight(u)
			if w == 0 {
				return
			}
			term := w * tail(math.Exp(u))
			sum += term
			if term <= 1e-18*sum && term <= before && (by > 0 || sum > 0) {
				return
			}
			before = term
		}
	}
	walk(0, 1)
	walk(-1, -1)
	return math.Min(1, sum)
}
