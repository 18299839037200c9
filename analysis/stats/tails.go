package stats

import "math"

// NormalAbove is the chance that a standard normal value exceeds z, to 1e-12
// relative; NaN for NaN.
func NormalAbove(z float64) float64 { return 0.5 * math.Erfc(z/math.Sqrt2) }

// TAbove is the chance that Student's t on df degrees of freedom exceeds t (one
// tail), to 1e-10 relative. df may be +Inf (normal); NaN unless df is at least 0.01.
func TAbove(t, df float64) float64 {
	switch {
	case math.IsNaN(t) || !(df >= leastDF):
		return math.NaN()
	case t < 0:
		return 1 - TAbove(-t, df)
	case df > endlessDF:
		return NormalAbove(t)
	case math.IsInf(t, 1):
		return 0
	case t == 0:
		return 0.5
	}
	r := t / math.Sqrt(df)
	x, y := 1/(1+r*r), 1/(1+1/(r*r))
	if x > 1e-300 {
		return 0.5 * betaBelow(df/2, 0.5, x, y)
	}
	// So far out only the leading term r^-df is left, and r*r has overflowed.
	return 0.5 * math.Exp(-df*math.Log(r)+logBetaHalf(df/2)) / (df / 2)
}

// logBetaHalf is log of 1/B(a, 1/2).
func logBetaHalf(a float64) float64 {
	top, _ := math.Lgamma(a + 0.5)
	low, _ := math.Lgamma(a)
	return top - low - 0.5*math.Log(math.Pi)
}

// FAbove is the chance that an F ratio on df1 and df2 degrees of freedom exceeds
// f, to 1e-10 relative for up to 1e10 of them. Either may be +Inf; NaN unless
// both are at least 0.01.
func FAbove(f, df1, df2 float64) float64 {
	switch {
	case math.IsNaN(f) || !(df1 >= leastDF) || !(df2 >= leastDF):
		return math.NaN()
	case f <= 0:
		return 1
	case df1 > endlessDF && df2 > endlessDF:
		return step(f)
	case df2 > endlessDF:
		return Chi2Above(df1*f, df1)
	case math.IsInf(f, 1):
		return 0
	case df1 > endlessDF:
		return 1 - Chi2Above(df2/f, df2)
	}
	r := df1 / df2 * f
	return betaBelow(df2/2, df1/2, 1/(1+r), 1/(1+1/r))
}

// step is the tail of the constant 1.
func step(f float64) float64 {
	if f < 1 {
		return 1
	}
	return 0
}

// Chi2Above is the chance that chi-square on df degrees of freedom exceeds x, to
// 1e-10 relative; NaN unless df is positive and finite.
func Chi2Above(x, df float64) float64 {
	switch {
	case math.IsNaN(x) || !(df >= leastDF) || df > 1e10:
		return math.NaN()
	case math.IsInf(x, 1):
		return 0
	}
	return gammaAbove(df/2, x/2)
}
