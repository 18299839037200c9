package mixed

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// profile is the likelihood at given relative variances with everything else at
// its best: fixed effects and residual variance.
type profile struct {
	s        *solver
	ratio    []float64   // variance of each factor (in d.order) over the residual's
	zhx      [][]float64 // Z'H^-1 Q by level
	xhx      *mat.SymDense
	inverse  *mat.SymDense // of xhx; the covariance of the basis coefficients is variance times this
	coef     []float64     // basis coefficients of the residuals of y
	u        []float64     // Z'P y by level, P in units of H
	rss      float64       // y'P y
	variance float64       // residual
	deviance float64       // REML, -2 log likelihood
	ok       bool
}

func newProfile(d *products, ratio []float64) *profile {
	p := &profile{s: newSolver(d, ratio), ratio: append([]float64(nil), ratio...)}
	if !p.s.ok {
		return p
	}
	k, levels := len(d.base.q), d.levels()
	// M^-1 L Z' of the basis and of the residuals.
	inner := make([][]float64, k+1)
	for c := range inner {
		v := make([]float64, levels)
		for j := range v {
			v[j] = s0(d, j, c) * p.s.scale[j]
		}
		p.s.solve(v)
		for j := range v {
			v[j] *= p.s.scale[j]
		}
		inner[c] = v
	}
	p.fixed(d, inner)
	if p.ok {
		p.shifts(d)
	}
	return p
}

// s0 is Z' of basis vector c, or of the residuals for the c after the last.
func s0(d *products, j, c int) float64 {
	if c == len(d.base.q) {
		return d.zr[j]
	}
	return d.zx[j][c]
}

// fixed solves for the fixed effects and the deviance.
func (p *profile) fixed(d *products, inner [][]float64) {
	k := len(d.base.q)
	p.xhx = mat.NewSymDense(k, nil)
	rhs := make([]float64, k)
	ry := d.rr
	for j := range d.zr {
		ry -= d.zr[j] * inner[k][j]
	}
	for a := range k {
		for b := a; b < k; b++ {
			v := 0.0
			if a == b {
				v = 1
			}
			for j := range d.zr {
				v -= d.zx[j][a] * inner[b][j]
			}
			p.xhx.SetSym(a, b, v)
		}
		for j := range d.zr {
			rhs[a] -= d.zx[j][a] * inner[k][j]
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(p.xhx) {
		return
	}
	p.inverse = mat.NewSymDense(k, nil)
	if chol.InverseTo(p.inverse) != nil && !finite(p.inverse.RawSymmetric().Data) {
		return
	}
	p.coef = times(p.inverse, rhs)
	p.rss = ry - dot(rhs, p.coef)
	spare := float64(d.spare())
	p.variance = p.rss / spare
	p.deviance = spare*(1+math.Log(2*math.Pi*p.variance)) + p.s.logDet + chol.LogDet() + d.base.logDet()
	p.ok = p.rss > 0 && finite([]float64{p.deviance})
}

// shifts reckons Z'H^-1 Q and Z'P y.
func (p *profile) shifts(d *products) {
	k, levels := len(d.base.q), d.levels()
	p.zhx = make([][]float64, levels)
	for j := range p.zhx {
		p.zhx[j] = make([]float64, k)
	}
	col := make([]float64, levels)
	for c := range k {
		for j := range col {
			col[j] = d.zx[j][c]
		}
		p.s.spread(col)
		for j := range col {
			p.zhx[j][c] = col[j]
		}
	}
	p.u = append([]float64(nil), d.zr...)
	p.s.spread(p.u)
	for j := range p.u {
		p.u[j] -= dot(p.zhx[j], p.coef)
	}
}

// times is m v.
func times(m *mat.SymDense, v []float64) []float64 {
	out := make([]float64, len(v))
	for i := range out {
		for j, x := range v {
			out[i] += m.At(i, j) * x
		}
	}
	return out
}
