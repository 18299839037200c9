package ratings

import "math"

func square0(n int) [][]float64 {
	flat := make([]float64, n*n)
	m := make([][]float64, n)
	for i := range m {
		m[i] = flat[i*n : (i+1)*n]
	}
	return m
}

// inverse inverts a symmetric positive definite matrix by Cholesky's way; nil
// when it is none to working precision.
func inverse(a [][]float64) [][]float64 {
	n := len(a)
	l := square0(n)
	for i := range n {
		for j := range i + 1 {
			s := a[i][j]
			for k := range j {
				s -= l[i][k] * l[j][k]
			}
			if i != j {
				l[i][j] = s / l[j][j]
				continue
			}
			if !(s > 1e-12*math.Abs(a[i][i])) {
				return nil
			}
			l[i][i] = math.Sqrt(s)
		}
	}
	out := square0(n)
	column := make([]float64, n)
	for c := range n {
		for i := range n {
			s := 0.0
			if i == c {
				s = 1
			}
			for k := range i {
				s -= l[i][k] * column[k]
			}
			column[i] = s / l[i][i]
		}
		for i := n - 1; i >= 0; i-- {
			s := column[i]
			for k := i + 1; k < n; k++ {
				s -= l[k][i] * out[k][c]
			}
			out[i][c] = s / l[i][i]
		}
	}
	return out
}

func times(a [][]float64, v []float64) []float64 {
	out := make([]float64, len(a))
	for i, row := range a {
		out[i] = dot(row, v)
	}
	return out
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i, x := range a {
		s += x * b[i]
	}
	return s
}

// form is c'Ac.
func form(a [][]float64, c []float64) float64 {
	s := 0.0
	for i, x := range c {
		if x != 0 {
			s += x * dot(a[i], c)
		}
	}
	return s
}

// wrap is X'AX for X of 0 and 1 or any numbers, by rows.
func wrap(x, a [][]float64, columns int) [][]float64 {
	ax := make([][]float64, len(a))
	for i, row := range a {
		ax[i] = make([]float64, columns)
		for j, v := range row {
			if v != 0 {
				for c, w := range x[j] {
					ax[i][c] += v * w
				}
			}
		}
	}
	out := square0(columns)
	for i, row := range x {
		for c, v := range row {
			if v != 0 {
				for d, w := range ax[i] {
					out[c][d] += v * w
				}
			}
		}
	}
	return out
}
