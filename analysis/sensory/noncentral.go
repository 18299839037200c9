package sensory

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// tAbove is the chance that Student's t with df degrees of freedom is above x.
// Chances of t and F here are incomplete beta functions; the tests hold them
// against reference values.
func tAbove(x, df float64) float64 {
	tail := 0.5 * mathext.RegIncBeta(df/2, 0.5, df/(df+x*x))
	if x < 0 {
		return 1 - tail
	}
	return tail
}

// tPoint is the t that is exceeded with chance alpha < 0.5.
func tPoint(alpha, df float64) float64 {
	high := 1.0
	for tAbove(high, df) > alpha {
		high *= 2
	}
	return rising(func(x float64) float64 { return -tAbove(x, df) }, -alpha, 0, high)
}

// fAbove is the chance that F with df1 and df2 degrees of freedom is above x.
func fAbove(x, df1, df2 float64) float64 {
	if x <= 0 {
		return 1
	}
	return mathext.RegIncBeta(df2/2, df1/2, df2/(df2+df1*x))
}

// fPoint is the F that is exceeded with chance alpha.
func fPoint(alpha, df1, df2 float64) float64 {
	high := 1.0
	for fAbove(high, df1, df2) > alpha {
		high *= 2
	}
	return rising(func(x float64) float64 { return -fAbove(x, df1, df2) }, -alpha, 0, high)
}

// overScatter averages g over what the estimated scatter s may come out as, in
// units of the true one: s = sqrt(chi-square / df). g is 0 above most.
func overScatter(df, most float64, g func(s float64) float64) float64 {
	lg, _ := math.Lgamma(df / 2)
	scale := math.Ln2 + df/2*math.Log(df/2) - lg
	density := func(s float64) float64 {
		return math.Exp(scale + (df-1)*math.Log(s) - df*s*s/2)
	}
	reach := 9 / math.Sqrt(df) // beyond it the density is under 1e-17
	low, high := math.Max(0, 1-reach), math.Min(1+reach, most)
	return integrate(func(s float64) float64 { return density(s) * g(s) }, low, high, (high-low)/6)
}

// noncentralT is the chance that t with the noncentrality ncp is above x.
func noncentralT(x, df, ncp float64) float64 {
	return overScatter(df, math.Inf(1), func(s float64) float64 { return normalBelow(ncp - x*s) })
}

// noncentralF is the chance that F with the noncentrality ncp is above x: a
// Poisson mixture of central ones.
func noncentralF(x, df1, df2, ncp float64) float64 {
	if ncp == 0 {
		return fAbove(x, df1, df2)
	}
	below := df2 / (df2 + df1*x)
	sum, half := 0.0, ncp/2
	most := int(half + 12*math.Sqrt(half) + 40) // the rest of the weights is under 1e-17
	for j := range most {
		lg, _ := math.Lgamma(float64(j) + 1)
		weight := math.Exp(float64(j)*math.Log(half) - half - lg)
		sum += weight * mathext.RegIncBeta(df2/2, df1/2+float64(j), below)
	}
	return sum
}
