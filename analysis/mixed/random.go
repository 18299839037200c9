package mixed

import (
	"math"
	"slices"

	"parewell/analysis/stats"
)

// Predicted are the shifts of a factor's levels in points, drawn towards 0 as
// far as its few scores ask (best linear unbiased prediction); nil for a factor
// that is not in the model. A variance of 0 makes all of them 0.
func (m *Model) Predicted(factor int) map[string]float64 {
	k := slices.Index(m.d.order, factor)
	if k < 0 {
		return nil
	}
	out := map[string]float64{}
	for l, label := range m.d.labels[k] {
		out[label] = m.at.ratio[k] * m.at.u[m.d.start[k]+l]
	}
	return out
}

// WithoutFactor tests a random factor by leaving it out: twice the fall of the
// restricted log likelihood, and its chance on chi-square with 1 degree of
// freedom. A variance cannot be below 0, so the chance is rather too large.
// NaN and an error for a factor that is not there or a model that will not fit.
func (m *Model) WithoutFactor(factor int) (statistic, p float64, err error) {
	if factor < 0 || factor >= len(m.given.factors) {
		return math.NaN(), math.NaN(), bad("mixed.bad.factor")
	}
	rest := slices.Delete(slices.Clone(m.given.factors), factor, factor+1)
	less, err := Fit(m.given.y, m.given.x, rest)
	if err != nil {
		return math.NaN(), math.NaN(), err
	}
	statistic = math.Max(0, less.Deviance-m.Deviance)
	return statistic, stats.Chi2Above(statistic, 1), nil
}
