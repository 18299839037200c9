package stats

import (
	"math"
)

// TResult is a difference with its t test. Every figure that cannot be reckoned
// is NaN: all but N for fewer than two values, T and P when nothing varies.
type TResult struct {
	N        int     // values, both groups together
	Estimate float64 // mean difference, in the unit of the scores
	SD       float64 // of the differences; NaN for two groups
	SE       float64 // of Estimate
	DF       float64 // degrees of freedom
	T        float64 // Estimate / SE
	P        float64 // two-sided
	Effect   float64 // Estimate / SD (Cohen's d of the differences); NaN for two groups
}

// Interval is the two-sided interval for the difference at a level such as 0.95;
// NaN for a level outside (0, 1) or when there is no SE. With an SE of 0 both
// ends are the estimate.
func (r TResult) Interval(level float64) (low, high float64) {
	return interval(r.Estimate, r.SE, r.DF, level)
}

// interval is estimate -+ t se; NaN for a level outside (0, 1).
func interval(estimate, se, df, level float64) (low, high float64) {
	if !(level > 0 && level < 1) {
		return math.NaN(), math.NaN()
	}
	reach := TPoint((1-level)/2, df) * se
	return estimate - reach, estimate + reach
}

// PairedT tests whether differences (one per taster) average to zero. A NaN is
// an unpaired score and is left out.
func PairedT(d []float64) TResult {
	d = present(d)
	n := float64(len(d))
	r := TResult{N: len(d), Estimate: Mean(d), SD: SD(d), DF: math.NaN()}
	r.SE = r.SD / math.Sqrt(n)
	if n > 1 {
		r.DF = n - 1
	}
	r.Effect = ratio(r.Estimate, r.SD)
	r.T, r.P = tTest(r.Estimate, r.SE, r.DF)
	return r
}

// Welch tests whether the means of two separate groups differ, a less b, without
// taking their spreads as equal; DF is Satterthwaite's (Welch 1947, Biometrika
// 34:28). NaN values are left out.
func Welch(a, b []float64) TResult {
	a, b = present(a), present(b)
	va, vb := square(SD(a))/float64(len(a)), square(SD(b))/float64(len(b))
	r := TResult{N: len(a) + len(b), Estimate: Mean(a) - Mean(b), SD: math.NaN(), Effect: math.NaN()}
	r.SE = math.Sqrt(va + vb)
	r.DF = ratio(square(va+vb), va*va/float64(len(a)-1)+vb*vb/float64(len(b)-1))
	r.T, r.P = tTest(r.Estimate, r.SE, r.DF)
	return r
}

// tTest is t and its two-sided p; NaN when se is 0 or unknown.
func tTest(estimate, se, df float64) (t, p float64) {
	t = ratio(estimate, se)
	return t, 2 * TAbove(math.Abs(t), df)
}

// TOSTResult is a pair of one-sided tests against margins on both sides.
// The p values are NaN when nothing varies or the margin is not above 0.
type TOSTResult struct {
	Estimate, SE, DF, Margin float64
	TLower, PLower           float64 // against "worse by the margin or more": the non-inferiority test
	TUpper, PUpper           float64 // against "better by the margin or more"
	P                        float64 // the larger of both: the equivalence test
}

// TOST tests whether a difference lies within -margin to +margin (Schuirmann
// 1987, doi 10.1007/BF01068419), given its standard error and degrees of freedom.
func TOST(diff, se, df, margin float64) TOSTResult {
	r := TOSTResult{Estimate: diff, SE: se, DF: df, Margin: margin}
	nan := math.NaN()
	r.TLower, r.PLower, r.TUpper, r.PUpper, r.P = nan, nan, nan, nan, nan
	if !(margin > 0) || !(se > 0) || math.IsInf(se, 0) {
		return r
	}
	r.TLower, r.TUpper = (diff+margin)/se, (diff-margin)/se
	r.PLower, r.PUpper = TAbove(r.TLower, df), TAbove(-r.TUpper, df)
	r.P = math.Max(r.PLower, r.PUpper)
	return r
}

// Equivalent says whether the difference lies within the margins at level alpha;
// false too when it cannot be tested (P is NaN).
func (r TOSTResult) Equivalent(alpha float64) bool { return r.P <= alpha }

// NotWorse says whether the difference lies above -Margin at level alpha (lower
// side only); false too when it cannot be tested.
func (r TOSTResult) NotWorse(alpha float64) bool { return r.PLower <= alpha }

// Interval is the two-sided interval that decides like the tests at level alpha,
// of level 1 - 2 alpha; its low end is the one-sided bound of [TOSTResult.NotWorse].
func (r TOSTResult) Interval(alpha float64) (low, high float64) {
	return interval(r.Estimate, r.SE, r.DF, 1-2*alpha)
}

// present copies the values that are not NaN.
func present(x []float64) []float64 {
	var out []float64
	for _, v := range x {
		if !math.IsNaN(v) {
			out = append(out, v)
		}
	}
	return out
}

// ratio is a/b; NaN when b is 0, where nothing can be tested.
func ratio(a, b float64) float64 {
	if b == 0 {
		return math.NaN()
	}
	return a / b
}

func square(x float64) float64 { return x * x }
