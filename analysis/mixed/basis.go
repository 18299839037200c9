package mixed

import "math"

// dependent is the share of a column's length below which what the columns
// before it leave over counts as rounding.
const dependent = 1e-9

// basis is an orthonormal basis of the columns of x, found from left to right; a
// column made up of earlier ones is left out. All further work is on the basis,
// so that badly scaled columns do no harm.
type basis struct {
	q    [][]float64 // one slice a basis vector, over rows
	r    [][]float64 // r[k][m]: kept column m = sum over k <= m of r[k][m] q[k]
	kept []int       // columns of x
	null [][]float64 // combinations of columns that are zero on every row
	cols int
}

func newBasis(x [][]float64) *basis {
	b := &basis{cols: len(x[0])}
	var coef [][]float64 // coef[m] are the parts of kept column m along q[0..m]
	for c := range b.cols {
		v := make([]float64, len(x))
		for i := range x {
			v[i] = x[i][c]
		}
		parts, rest, length := b.reduce(v)
		if rest <= dependent*length {
			b.null = append(b.null, b.combination(c, parts, coef))
			continue
		}
		for i := range v {
			v[i] /= rest
		}
		b.q, b.kept = append(b.q, v), append(b.kept, c)
		coef = append(coef, append(parts, rest))
	}
	b.r = make([][]float64, len(b.q))
	for k := range b.r {
		b.r[k] = make([]float64, len(b.q))
		for m := k; m < len(b.q); m++ {
			b.r[k][m] = coef[m][k]
		}
	}
	return b
}

// reduce takes the basis out of v, twice, since once leaves rounding behind.
func (b *basis) reduce(v []float64) (parts []float64, rest, length float64) {
	length = norm(v)
	parts = make([]float64, len(b.q))
	for range 2 {
		for k, q := range b.q {
			d := dot(q, v)
			parts[k] += d
			axpy(-d, q, v)
		}
	}
	return parts, norm(v), length
}

// combination is the null vector of column c, whose parts along the basis are
// known: c less what makes it up.
func (b *basis) combination(c int, parts []float64, coef [][]float64) []float64 {
	null := make([]float64, b.cols)
	null[c] = 1
	left := append([]float64(nil), parts...)
	for m := len(b.q) - 1; m >= 0; m-- {
		a := left[m] / coef[m][m]
		null[b.kept[m]] = -a
		for k := range m {
			left[k] -= a * coef[m][k]
		}
	}
	return null
}

// estimable says whether the combination c of the columns' coefficients means
// the same whatever made-up columns get: at right angles to all null vectors.
func (b *basis) estimable(c []float64) bool {
	if len(c) != b.cols {
		return false
	}
	for _, null := range b.null {
		if !(math.Abs(dot(c, null)) <= 1e-8*norm(c)*norm(null)) {
			return false
		}
	}
	return finite(c)
}

// onBasis turns a combination of coefficients into one of the basis: R'^-1 c.
func (b *basis) onBasis(c []float64) []float64 {
	l := make([]float64, len(b.q))
	for m, col := range b.kept {
		s := c[col]
		for k := range m {
			s -= b.r[k][m] * l[k]
		}
		l[m] = s / b.r[m][m]
	}
	return l
}

// logDet is the log determinant of X'X over the kept columns.
func (b *basis) logDet() float64 {
	s := 0.0
	for k := range b.r {
		s += 2 * math.Log(b.r[k][k])
	}
	return s
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i, v := range a {
		s += v * b[i]
	}
	return s
}

// axpy adds a x to y.
func axpy(a float64, x, y []float64) {
	for i, v := range x {
		y[i] += a * v
	}
}

func norm(v []float64) float64 {
	// Scaled, so that large columns do not overflow.
	most := 0.0
	for _, x := range v {
		most = max(most, math.Abs(x))
	}
	if most == 0 || math.IsInf(most, 0) {
		return most
	}
	s := 0.0
	for _, x := range v {
		s += (x / most) * (x / most)
	}
	return most * math.Sqrt(s)
}

func finite(v []float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
