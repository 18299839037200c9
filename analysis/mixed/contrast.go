package mixed

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"parewell/analysis/stats"
)

// Estimable says whether the data can tell the combination c of fixed effects.
func (m *Model) Estimable(c []float64) bool { return m.d.base.estimable(c) }

// Contrast estimates a combination of fixed effects, sum c_j Coef_j, in points:
// its standard error, Satterthwaite's degrees of freedom, t and two-sided p for
// its being 0. All are NaN when the data cannot tell it or c has the wrong
// length; t and p for a combination of nothing.
func (m *Model) Contrast(c []float64) (est, se, df, t, p float64) {
	if !m.Estimable(c) {
		nan := math.NaN()
		return nan, nan, nan, nan, nan
	}
	return m.along(m.d.base.onBasis(c))
}

// along is Contrast for a combination l of the basis.
func (m *Model) along(l []float64) (est, se, df, t, p float64) {
	v := times(m.at.inverse, l)
	est = dot(l, m.d.level) + dot(l, m.at.coef)
	variance := m.at.variance * dot(l, v)
	se = math.Sqrt(variance)
	df = 2 * variance * variance / m.uncertainty(v)
	t = est / se
	return est, se, df, t, 2 * stats.TAbove(math.Abs(t), df)
}

// uncertainty is the variance of a squared standard error: g'Ag with g its slope
// in the variances and A their covariance.
func (m *Model) uncertainty(v []float64) float64 {
	g := make([]float64, len(m.movable))
	for k, i := range m.movable {
		for a, row := range m.slope.weight[i] {
			g[k] += v[a] * dot(row, v)
		}
	}
	s := 0.0
	for k, row := range m.spread {
		s += g[k] * dot(row, g)
	}
	return s
}

// Covariance of the estimates of two combinations, in squared points; NaN where
// either cannot be told. Correlations for Dunnett's comparisons come from it.
func (m *Model) Covariance(a, b []float64) float64 {
	if !m.Estimable(a) || !m.Estimable(b) {
		return math.NaN()
	}
	return m.at.variance * dot(m.d.base.onBasis(a), times(m.at.inverse, m.d.base.onBasis(b)))
}

// F is a test that several combinations are 0 together: Num is how many say
// something of their own. All but Num are NaN, and Num 0, where nothing can be
// tested.
type F struct {
	F   float64
	Num int
	Den float64 // degrees of freedom of the error (Fai & Cornelius)
	P   float64
}

// FTest tests rows of combinations of fixed effects together. With unbalanced
// data Den depends a little on how the rows are written (a thousandth is usual).
func (m *Model) FTest(rows [][]float64) F {
	nan := math.NaN()
	none := F{F: nan, Den: nan, P: nan}
	var l [][]float64
	for _, r := range rows {
		if !m.Estimable(r) {
			return none
		}
		l = append(l, m.d.base.onBasis(r))
	}
	if len(l) == 0 {
		return none
	}
	var e mat.EigenSym
	if !e.Factorize(m.among(l), true) {
		return none
	}
	return m.together(l, &e, none)
}

// among is the covariance of several combinations of the basis.
func (m *Model) among(l [][]float64) *mat.SymDense {
	v := mat.NewSymDense(len(l), nil)
	for i := range l {
		w := times(m.at.inverse, l[i])
		for j := i; j < len(l); j++ {
			v.SetSym(i, j, dot(l[j], w))
		}
	}
	return v
}

// together splits the rows into uncorrelated ones and joins their squared t.
func (m *Model) together(l [][]float64, e *mat.EigenSym, none F) F {
	values := e.Values(nil)
	var vectors mat.Dense
	e.VectorsTo(&vectors)
	var dfs []float64
	sum := 0.0
	for k, v := range values {
		if v <= 1e-10*values[len(values)-1] {
			continue
		}
		one := make([]float64, len(l[0]))
		for i := range l {
			axpy(vectors.At(i, k), l[i], one)
		}
		_, _, df, t, _ := m.along(one)
		sum += t * t
		dfs = append(dfs, df)
	}
	if len(dfs) == 0 {
		return none
	}
	f := F{F: sum / float64(len(dfs)), Num: len(dfs), Den: pooled(dfs)}
	f.P = stats.FAbove(f.F, float64(f.Num), f.Den)
	return f
}

// pooled is the degrees of freedom that give F the mean of the sum of squared t
// on those of each; 2 when one of them has no more, and so no mean.
func pooled(dfs []float64) float64 {
	low, high, e := math.Inf(1), 0.0, 0.0
	for _, df := range dfs {
		low, high = math.Min(low, df), math.Max(high, df)
		e += df / (df - 2)
	}
	switch {
	case high-low <= 1e-8*high:
		return low
	case low <= 2:
		return 2
	}
	return 2 * e / (e - float64(len(dfs)))
}
