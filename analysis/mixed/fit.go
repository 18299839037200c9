package mixed

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"parewell/recipes/words"
)

const (
	// mostRows and mostRest keep a fit to some seconds: rows, and levels of all
	// factors but the largest.
	mostRows = 50000
	mostRest = 1500
	// mostScore is where squares would overflow.
	mostScore = 1e100
)

// Fit fits y by the columns of x (one row a score; put in a column of ones for
// the level) and random factors, none to some. Errors (*problem.Error): no
// scores, lengths that differ, values NaN or infinite, all scores equal, no
// scatter left, a factor of one level or a level for each score, factors that
// the data cannot tell from each other or from the columns.
func Fit(y []float64, x [][]float64, factors []Factor) (*Model, error) {
	if err := check(y, x, factors); err != nil {
		return nil, err
	}
	d := newProducts(y, x, factors)
	if len(d.base.q) == 0 {
		return nil, bad("mixed.bad.columns")
	}
	if d.spare() < 1 {
		return nil, bad("mixed.bad.spare", len(y), len(d.base.q))
	}
	if d.rr <= 1e-24*(1+dot(y, y)) {
		return nil, bad("mixed.bad.no-scatter")
	}
	if d.levels()-d.first() > mostRest {
		return nil, bad("mixed.bad.levels", mostRest)
	}
	if err := d.tellApart(factors); err != nil {
		return nil, err
	}
	p, s, err := optimise(d)
	if err != nil {
		return nil, err
	}
	return newModel(d, p, s, data{y, x, factors})
}

func check(y []float64, x [][]float64, factors []Factor) error {
	switch {
	case len(y) == 0:
		return bad("mixed.bad.empty")
	case len(y) > mostRows:
		return bad("mixed.bad.rows", mostRows)
	case len(x) != len(y):
		return bad("mixed.bad.lengths", len(y), len(x))
	case len(x[0]) == 0:
		return bad("mixed.bad.columns")
	}
	same := true
	for i, v := range y {
		if len(x[i]) != len(x[0]) {
			return bad("mixed.bad.ragged", i+1)
		}
		for _, w := range append([]float64{v}, x[i]...) {
			if !(math.Abs(w) <= mostScore) {
				return bad("mixed.bad.number", i+1)
			}
		}
		same = same && v == y[0]
	}
	if same {
		return bad("mixed.bad.same")
	}
	for _, f := range factors {
		if err := f.check(len(y)); err != nil {
			return err
		}
	}
	return nil
}

// tellApart refuses factors whose variances the data cannot tell: those that the
// fixed effects swallow, and those that come to the same thing as others. The
// likelihood knows all variances exactly when the projected covariances are
// linearly independent, which the information at no random effects shows.
func (d *products) tellApart(factors []Factor) error {
	if len(factors) == 0 {
		return nil
	}
	p := newProfile(d, make([]float64, len(d.order)))
	if !p.ok {
		return bad("mixed.bad.no-scatter")
	}
	square := p.traces(d).square
	for k := range d.order {
		whole := 0.0
		for j := d.start[k]; j < d.start[k+1]; j++ {
			for _, c := range d.zz[j] {
				if c.at == j {
					whole += c.v * c.v
				}
			}
		}
		if square[k+1][k+1] <= 1e-12*whole {
			return bad("mixed.bad.swallowed", factors[d.order[k]].Name)
		}
	}
	return d.collinear(square, factors)
}

// collinear names factors that only their sum is known of.
func (d *products) collinear(square [][]float64, factors []Factor) error {
	n := len(square)
	m := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			m.SetSym(i, j, square[i][j]/math.Sqrt(square[i][i]*square[j][j]))
		}
	}
	var e mat.EigenSym
	if !e.Factorize(m, true) {
		return bad("mixed.bad.unsettled")
	}
	if e.Values(nil)[0] > 1e-9 {
		return nil
	}
	var v mat.Dense
	e.VectorsTo(&v)
	var names []string
	for k, i := range d.order {
		if math.Abs(v.At(k+1, 0)) > 0.05 {
			names = append(names, factors[i].Name)
		}
	}
	if math.Abs(v.At(0, 0)) > 0.05 {
		names = append(names, words.Say("mixed.left-over"))
	}
	return bad("mixed.bad.collinear", words.Join(names))
}
