package ratings

import (
	"math"

	"parewell/analysis/stats"
)

// dunnettPoint is the 5 % point of Dunnett's test. Where servings are missing,
// correlations have no common factor and every tail takes long; they are near
// some that have one, so the point of those is taken and moved by one Newton
// step, which leaves less than the tail's own error.
func dunnettPoint(corr [][]float64, df float64) float64 {
	const alpha, h = 0.05, 0.01
	near := commonFactor(corr)
	if near == nil {
		t, _ := stats.DunnettPoint(alpha, corr, df)
		return t
	}
	t, _ := stats.DunnettPoint(alpha, near, df)
	p, _ := stats.DunnettAbove(t, corr, df)
	above, _ := stats.DunnettAbove(t+h, near, df)
	below, _ := stats.DunnettAbove(t-h, near, df)
	moved := t + (p-alpha)/(below-above)*2*h
	if math.Abs(moved-t) < 0.05 {
		return moved
	}
	t, _ = stats.DunnettPoint(alpha, corr, df)
	return t
}

// commonFactor is the nearest matrix of correlations l_i l_j by least squares;
// nil when there is none.
func commonFactor(corr [][]float64) [][]float64 {
	n := len(corr)
	if n < 3 { // two always have one
		return corr
	}
	l := make([]float64, n)
	for i := range l {
		l[i] = math.Sqrt(0.5)
	}
	for range 200 {
		for i := range l {
			top, bottom := 0.0, 0.0
			for j := range l {
				if j != i {
					top += corr[i][j] * l[j]
					bottom += l[j] * l[j]
				}
			}
			l[i] = top / bottom
		}
	}
	out := square0(n)
	for i := range l {
		if !(math.Abs(l[i]) < 0.999) {
			return nil
		}
		for j := range l {
			out[i][j] = l[i] * l[j]
		}
		out[i][i] = 1
	}
	return out
}
