package stats

import "math"

// TukeyAbove is the chance that the studentized range of k independent normal
// values, its spread estimated on df degrees of freedom, exceeds q; for a
// comparison of two means q is |t| sqrt 2. df may be +Inf. NaN for k < 2, df
// below 0.01 or NaN. Good to 1e-9 relative.
func TukeyAbove(q float64, k int, df float64) float64 {
	switch {
	case math.IsNaN(q) || k < 2 || !(df >= leastDF):
		return math.NaN()
	case q <= 0:
		return 1
	case math.IsInf(q, 1):
		return 0
	}
	return radial(df, func(s float64) float64 { return rangeAbove(q*s, k) })
}

// TukeyPoint is the studentized range of k values on df degrees of freedom that
// is exceeded with chance alpha; NaN for alpha outside [0, 1] and where
// [TukeyAbove] is NaN.
func TukeyPoint(alpha float64, k int, df float64) float64 {
	switch {
	case !(alpha >= 0 && alpha <= 1) || k < 2 || !(df >= leastDF):
		return math.NaN()
	case alpha == 0:
		return math.Inf(1)
	case alpha == 1:
		return 0
	}
	pairs := float64(k) * float64(k-1)
	guess := math.Sqrt2 * TPoint(alpha/pairs, df) // Bonferroni lies just above
	return pointOf(func(q float64) float64 { return TukeyAbove(q, k, df) }, alpha, guess, 1e-13)
}

// rangeAbove is the chance that the range of k standard normal values exceeds w:
// k times the integral of phi(z) (F(z)^(k-1) - (F(z) - F(z-w))^(k-1)) over the
// largest value z. The bracket is taken by expm1 and log1p so that far tails keep
// their digits; the step shrinks as the power sharpens the integrand.
func rangeAbove(w float64, k int) float64 {
	if w > 56 { // exp(-w²/4) is below the smallest float64
		return 0
	}
	m := float64(k - 1)
	step := math.Min(0.45, 0.65/math.Sqrt(float64(k)))
	sum := 0.0
	for z := -9.0; z < w+9; z += step {
		low := NormalAbove(w - z) // F(z-w)
		if low == 0 {
			continue
		}
		all := 1 - NormalAbove(z)
		if z < 0 {
			all = NormalAbove(-z)
		}
		gap := -1.0 // 1 - (1 - low/all)^m - 1 when low = all
		if low < all {
			gap = math.Expm1(m * math.Log1p(-low/all))
		}
		sum -= math.Exp(-z*z/2) * math.Pow(all, m) * gap
	}
	return math.Min(1, sum*step*float64(k)/math.Sqrt(2*math.Pi))
}
