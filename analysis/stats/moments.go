package stats

import "math"

// Mean is the average, summed in double-double arithmetic; NaN for no values or
// where one is NaN or infinite.
func Mean(x []float64) float64 {
	if !finite(x) {
		return math.NaN()
	}
	return mean(x).value()
}

// SD is the standard deviation of a sample (divisor n-1); NaN for fewer than two
// values or where one is NaN or infinite.
func SD(x []float64) float64 {
	if !finite(x) || len(x) < 2 {
		return math.NaN()
	}
	return squares(x, mean(x)).div(of(float64(len(x) - 1))).sqrt().value()
}

// LagOne is the autocorrelation of neighbours: the sum of products of successive
// departures from the mean over the sum of their squares; NaN for fewer than two
// values, no spread, or a value that is NaN or infinite.
func LagOne(x []float64) float64 {
	if !finite(x) || len(x) < 2 {
		return math.NaN()
	}
	m := mean(x)
	all := squares(x, m)
	if all.hi == 0 {
		return math.NaN()
	}
	var sum double
	for i := 1; i < len(x); i++ {
		sum = sum.add(of(x[i]).sub(m).mul(of(x[i-1]).sub(m)))
	}
	return sum.div(all).value()
}

func mean(x []float64) double {
	var sum double
	for _, v := range x {
		sum = sum.add(of(v))
	}
	return sum.div(of(float64(len(x))))
}

// squares is the sum of squared departures from m.
func squares(x []float64, m double) double {
	var sum double
	for _, v := range x {
		d := of(v).sub(m)
		sum = sum.add(d.mul(d))
	}
	return sum
}

// biggest is the largest size double-double products are safe for.
const biggest = 1e140

// finite holds for at least one value, none NaN, infinite or beyond all scores.
func finite(x []float64) bool {
	for _, v := range x {
		if !(math.Abs(v) < biggest) {
			return false
		}
	}
	return len(x) > 0
}
