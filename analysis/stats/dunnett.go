package stats

import "math"

// quadratureError is the relative error stated for one-factor correlations; the
// tests hold it against finer sums and other programs' tables.
const quadratureError = 1e-9

// DunnettAbove is the chance that the largest of |T_1| ... |T_m| reaches t, the
// T_i being multivariate t on df degrees of freedom (may be +Inf) with the given
// correlations; leave is the numerical error to allow for in p. Comparisons with
// one control have correlations l_i l_j, with l_i = sqrt(n_i/(n_i+n_0)), 0.5 in
// complete blocks: such one-factor correlations (whatever they come from, any
// two comparisons among them) are integrated exactly. Others take a fixed lattice
// of points, the same for the same input, and leave is then five standard errors
// of its shifted copies: commonly below 1e-5 where the correlations are nearly
// one-factor (missing cells), 2e-4 elsewhere. Singular correlations will do.
// NaN, NaN for a matrix that is no correlation matrix, NaN t or df below 0.01.
func DunnettAbove(t float64, corr [][]float64, df float64) (p, leave float64) {
	above, _ := maxAbove(corr, df)
	if above == nil || math.IsNaN(t) {
		return math.NaN(), math.NaN()
	}
	switch {
	case t <= 0:
		return 1, 0
	case math.IsInf(t, 1):
		return 0, 0
	}
	return above(t)
}

// DunnettPoint is the t that the largest |T_i| reaches with chance alpha, and the
// numerical error to allow for in it; see [DunnettAbove]. NaN, NaN also for alpha
// outside [0, 1].
func DunnettPoint(alpha float64, corr [][]float64, df float64) (t, leave float64) {
	above, fine := maxAbove(corr, df)
	if above == nil || !(alpha >= 0 && alpha <= 1) {
		return math.NaN(), math.NaN()
	}
	switch alpha {
	case 0:
		return math.Inf(1), 0
	case 1:
		return 0, 0
	}
	chance := func(t float64) float64 { p, _ := above(t); return p }
	t = pointOf(chance, alpha, TPoint(alpha/float64(2*len(corr)), df), fine)
	_, off := above(t)
	step := 1e-3 * t
	slope := (chance(t-step) - chance(t+step)) / (2 * step)
	return t, off / slope
}

// maxAbove picks the way to reckon the tail, nil if the input makes no sense, and
// how finely it is worth solving for a point.
func maxAbove(corr [][]float64, df float64) (above func(t float64) (p, leave float64), fine float64) {
	if !(df >= leastDF) || !isCorrelation(corr) {
		return nil, 0
	}
	if root, _ := pivotedRoot(corr); root == nil {
		return nil, 0
	}
	corr = withoutTwins(corr)
	if load, misfit, ok := oneFactor(corr); ok {
		f := newFactorTail(load)
		return func(t float64) (float64, float64) {
			p := radial(df, func(s float64) float64 { return f.above(t * s) })
			return p, p*quadratureError + misfit
		}, 1e-13
	}
	return newLattice(corr, df).above, 1e-8
}

// factorTail is the tail of max |X_i| with X_i = l_i Z + sqrt(1 - l_i²) E_i.
type factorTail struct {
	load, rest []float64
}

func newFactorTail(load []float64) *factorTail {
	f := &factorTail{load: load}
	for _, l := range load {
		f.rest = append(f.rest, math.Sqrt(math.Max(0, (1-l)*(1+l))))
	}
	return f
}

// above integrates over Z; the integrand is even, so half the axis does. Panels
// are at most one unit long and crowd where a nearly fixed X_i crosses x.
func (f *factorTail) above(x float64) float64 {
	if x > 39 { // below the smallest float64
		return 0
	}
	if len(f.load) == 1 {
		return 2 * NormalAbove(x)
	}
	cuts := f.cuts(x)
	sum := 0.0
	for i := 1; i < len(cuts); i++ {
		half, mid := (cuts[i]-cuts[i-1])/2, (cuts[i]+cuts[i-1])/2
		if half < 1e-14 {
			continue
		}
		part := 0.0
		for j, node := range gaussNodes {
			part += gaussWeights[j] * (f.at(x, mid+half*node) + f.at(x, mid-half*node))
		}
		sum += part * half
	}
	return math.Min(1, sum)
}

// at is the integrand: 2 phi(z) (1 - product of (1 - u_i)), u_i the chance that
// |X_i| reaches x given z; by logs, so that far tails keep their digits.
func (f *factorTail) at(x, z float64) float64 {
	logIn := 0.0
	for i, l := range f.load {
		u := outside(x, l*z, f.rest[i])
		if u >= 1 {
			logIn = math.Inf(-1)
			break
		}
		logIn += math.Log1p(-u)
	}
	return -2 / math.Sqrt(2*math.Pi) * math.Exp(-z*z/2) * math.Expm1(logIn)
}

// outside is the chance that a normal value about centre reaches -x or x.
func outside(x, centre, spread float64) float64 {
	if spread < 1e-8 {
		return step(x / math.Abs(centre))
	}
	return NormalAbove((x-centre)/spread) + NormalAbove((x+centre)/spread)
}
