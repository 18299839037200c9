package mixed

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Model is a fitted mixed model.
type Model struct {
	N    int // rows
	Rank int // fixed effects that say something of their own
	// Coef are the fixed effects, one a column; NaN where the column is made up
	// of others and the data cannot tell it alone.
	Coef []float64
	// Components are the random factors in the order given; Residual is the
	// variance left over, in squared points.
	Components []Component
	Residual   float64
	// LogLik is the restricted log likelihood, Deviance -2 times it. They compare
	// models of the same fixed effects only.
	LogLik, Deviance float64

	d       *products
	at      *profile
	slope   *slope
	movable []int       // variances that are not at 0, in the slope's order
	spread  [][]float64 // covariance of those variances
	given   data
}

// data is what the fit was asked for, kept for refits.
type data struct {
	y       []float64
	x       [][]float64
	factors []Factor
}

// copied keeps a refit from seeing what the caller does to its slices later.
func (d data) copied() data {
	c := data{y: slices.Clone(d.y)}
	for _, row := range d.x {
		c.x = append(c.x, slices.Clone(row))
	}
	for _, f := range d.factors {
		c.factors = append(c.factors, Factor{f.Name, slices.Clone(f.Level)})
	}
	return c
}

// Component is the variance of one random factor, in squared points. Zero says
// that the likelihood is highest without the factor: its variance is 0, and all
// results are those of the model that leaves it out.
type Component struct {
	Name     string
	Levels   int
	Variance float64
	SD       float64
	Zero     bool
}

func newModel(d *products, p *profile, s *slope, given data) (*Model, error) {
	m := &Model{
		N: d.n, Rank: len(d.base.q), Residual: p.variance,
		LogLik: -p.deviance / 2, Deviance: p.deviance,
		d: d, at: p, slope: s, given: given.copied(), movable: []int{0},
	}
	m.Components = make([]Component, len(d.order))
	for k, i := range d.order {
		v := p.ratio[k] * p.variance
		m.Components[i] = Component{
			Name: given.factors[i].Name, Levels: len(d.labels[k]),
			Variance: v, SD: math.Sqrt(v), Zero: v == 0,
		}
		if v > 0 {
			m.movable = append(m.movable, k+1)
		}
	}
	if m.spread = invert(pick(s.observed, m.movable)); m.spread == nil {
		return nil, bad("mixed.bad.flat")
	}
	m.fillCoef()
	return m, nil
}

// flat is the least curvature of the likelihood, in units of the variances' own,
// that degrees of freedom can be read from. Only a handful of scores for several
// factors comes near.
const flat = 1e-6

// invert is the covariance of the variances; nil where the likelihood is so flat
// at its top that it says next to nothing of them.
func invert(observed *mat.SymDense) [][]float64 {
	n := observed.SymmetricDim()
	scaled := mat.NewSymDense(n, nil)
	for i := range n {
		if !(observed.At(i, i) > 0) {
			return nil
		}
	}
	for i := range n {
		for j := i; j < n; j++ {
			scaled.SetSym(i, j, observed.At(i, j)/math.Sqrt(observed.At(i, i)*observed.At(j, j)))
		}
	}
	var e mat.EigenSym
	if !e.Factorize(scaled, true) || e.Values(nil)[0] < flat {
		return nil
	}
	var v mat.Dense
	e.VectorsTo(&v)
	out := make([][]float64, n)
	for i := range out {
		out[i] = make([]float64, n)
		for j := range n {
			for k, value := range e.Values(nil) {
				out[i][j] += v.At(i, k) * v.At(j, k) / value
			}
			out[i][j] /= math.Sqrt(observed.At(i, i) * observed.At(j, j))
		}
	}
	return out
}

func (m *Model) fillCoef() {
	for c := range m.d.base.cols {
		one := make([]float64, m.d.base.cols)
		one[c] = 1
		est, _, _, _, _ := m.Contrast(one)
		m.Coef = append(m.Coef, est)
	}
}

// AtZero names the factors whose variance came out as 0; nil if there are none.
func (m *Model) AtZero() []string {
	var names []string
	for _, c := range m.Components {
		if c.Zero {
			names = append(names, c.Name)
		}
	}
	return names
}
