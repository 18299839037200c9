package mixed

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// solver holds the factorisation of M = L Z'Z L + I for relative variances, L
// being the diagonal of their roots: H = I + Z L L Z' has determinant |M| and
// inverse I - Z L M^-1 L Z'. A relative variance of 0 is nothing special here.
type solver struct {
	d      *products
	scale  []float64 // L, by level
	head   []float64 // M over the first factor, diagonal
	side   [][]cell  // M between the first factor and the rest; at counts from the rest's start
	rest   *mat.Cholesky
	room   *mat.VecDense
	logDet float64 // of M, which is that of H
	ok     bool
}

// newSolver factors M for the relative variances ratio, in d.order.
func newSolver(d *products, ratio []float64) *solver {
	s := &solver{d: d, scale: make([]float64, d.levels())}
	for j := range s.scale {
		s.scale[j] = math.Sqrt(ratio[d.factorC[j]])
	}
	first := d.first()
	size := d.levels() - first
	var schur *mat.SymDense
	if size > 0 {
		schur = mat.NewSymDense(size, nil)
		s.fillRest(schur, first)
		s.room = mat.NewVecDense(size, nil)
	}
	s.takeOutFirst(schur, first)
	s.ok = !math.IsNaN(s.logDet) && !math.IsInf(s.logDet, 0)
	if size > 0 && s.ok {
		s.rest = &mat.Cholesky{}
		s.ok = s.rest.Factorize(schur)
		if s.ok {
			s.logDet += s.rest.LogDet()
		}
	}
	return s
}

// fillRest puts M over all factors but the first into m.
func (s *solver) fillRest(m *mat.SymDense, first int) {
	for j := first; j < s.d.levels(); j++ {
		for _, c := range s.d.zz[j] {
			if c.at >= j {
				v := s.scale[j] * c.v * s.scale[c.at]
				if c.at == j {
					v++
				}
				m.SetSym(j-first, c.at-first, v)
			}
		}
	}
}

// takeOutFirst keeps the first factor's part and takes its share off the rest.
func (s *solver) takeOutFirst(schur *mat.SymDense, first int) {
	s.head, s.side = make([]float64, first), make([][]cell, first)
	for j := range first {
		for _, c := range s.d.zz[j] {
			v := s.scale[j] * c.v * s.scale[c.at]
			if c.at == j {
				s.head[j] = 1 + v
			} else if v != 0 {
				s.side[j] = append(s.side[j], cell{c.at - first, v})
			}
		}
		s.logDet += math.Log(s.head[j])
		for i, a := range s.side[j] {
			for _, b := range s.side[j][i:] {
				schur.SetSym(a.at, b.at, schur.At(a.at, b.at)-a.v*b.v/s.head[j])
			}
		}
	}
}

// solve turns v, by level, into M^-1 v in place.
func (s *solver) solve(v []float64) {
	first := len(s.head)
	tail := v[first:]
	for j, row := range s.side {
		if v[j] == 0 {
			continue
		}
		f := v[j] / s.head[j]
		for _, c := range row {
			tail[c.at] -= c.v * f
		}
	}
	if s.rest != nil {
		in := mat.NewVecDense(len(tail), tail)
		if s.rest.SolveVecTo(s.room, in) != nil {
			// An ill-conditioned system still has its answer; the caller's
			// line search judges it.
			s.ok = s.ok && finite(s.room.RawVector().Data)
		}
		copy(tail, s.room.RawVector().Data)
	}
	for j, row := range s.side {
		r := v[j]
		for _, c := range row {
			r -= c.v * tail[c.at]
		}
		v[j] = r / s.head[j]
	}
}

// spread turns v, by level, into v - Z'Z L M^-1 L v in place: Z'H^-1 w from Z'w.
func (s *solver) spread(v []float64) {
	w := make([]float64, len(v))
	for j, x := range v {
		w[j] = s.scale[j] * x
	}
	s.solve(w)
	for j := range w {
		w[j] *= s.scale[j]
	}
	for j, row := range s.d.zz {
		sum := 0.0
		for _, c := range row {
			sum += c.v * w[c.at]
		}
		v[j] -= sum
	}
}
