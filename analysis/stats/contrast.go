package stats

import "math"

// Contrast estimates a combination of coefficients, sum c_j Coef_j, and its
// standard error. ok is false, and both NaN, when the data cannot tell it (c is
// not at right angles to every vector of Null) or c has the wrong length. With
// DF 0 the estimate stands and the standard error is NaN.
func (f *Fit) Contrast(c []float64) (estimate, se float64, ok bool) {
	if !f.Estimable(c) {
		return math.NaN(), math.NaN(), false
	}
	var sum double
	for j, v := range c {
		sum = sum.add(f.q.coef[j].mul(of(v)))
	}
	return sum.value(), f.Sigma * f.q.spread(c).sqrt().value(), true
}

// Estimable says whether the data can tell the combination c of coefficients.
func (f *Fit) Estimable(c []float64) bool {
	if len(c) != f.q.cols || !finite(c) {
		return false
	}
	for _, v := range f.Null {
		sum, size := 0.0, 0.0
		for j := range c {
			sum += c[j] * v[j]
			size += math.Abs(c[j] * v[j])
		}
		if math.Abs(sum) > 1e-9*size {
			return false
		}
	}
	return true
}

// spread is c' (X'X)^-1 c: the squared length of R^-T c.
func (f *factor) spread(c []float64) double {
	z := make([]double, f.rank)
	var sum double
	for k := range f.rank {
		z[k] = of(c[f.order[k]]).div(of(f.scale[k]))
		for i := range k {
			z[k] = z[k].sub(f.col[k][i].mul(z[i]))
		}
		z[k] = z[k].div(f.diag[k])
		sum = sum.add(z[k].mul(z[k]))
	}
	return sum
}
