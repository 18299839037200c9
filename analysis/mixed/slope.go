package mixed

import "gonum.org/v1/gonum/mat"

// slope is how the REML log likelihood bends at a profile, in the variances
// themselves: the residual's at index 0, then the factors' in d.order.
type slope struct {
	score    []float64
	observed [][]float64   // information
	expected [][]float64   // Fisher's
	weight   [][][]float64 // Q'H^-1 V_i H^-1 Q, by which the covariance of the coefficients moves
}

// traces are sums over the projected factors, in units of H: t of Z_i'P Z_i,
// square of (Z_i'P Z_j)^2, form u_i'(Z_i'P Z_j)u_j. Index 0 is the residual.
type traces struct {
	t, uu        []float64
	square, form [][]float64
}

func newTraces(k int) *traces {
	tr := &traces{t: make([]float64, k+1), uu: make([]float64, k+1)}
	for range k + 1 {
		tr.square = append(tr.square, make([]float64, k+1))
		tr.form = append(tr.form, make([]float64, k+1))
	}
	return tr
}

// traces walks the columns of Z'P Z one by one, so that the matrix is never held.
func (p *profile) traces(d *products) *traces {
	k := len(d.order)
	tr := newTraces(k)
	col := make([]float64, d.levels())
	for j := range col {
		clear(col)
		for _, c := range d.zz[j] {
			col[c.at] = c.v
		}
		p.s.spread(col)
		back := times(p.inverse, p.zhx[j])
		fj := d.factorC[j] + 1
		tr.uu[fj] += p.u[j] * p.u[j]
		for i := range k {
			sq, form := 0.0, 0.0
			for m := d.start[i]; m < d.start[i+1]; m++ {
				v := col[m] - dot(p.zhx[m], back)
				sq += v * v
				form += v * p.u[m]
				if m == j {
					tr.t[fj] += v
				}
			}
			tr.square[fj][i+1] += sq
			tr.form[fj][i+1] += form * p.u[j]
		}
	}
	p.residualTraces(d, tr)
	return tr
}

// residualTraces follow from P H P = P: the residual's part is what the factors
// leave of known totals.
func (p *profile) residualTraces(d *products, tr *traces) {
	tr.t[0], tr.uu[0] = float64(d.spare()), p.rss
	for i, r := range p.ratio {
		tr.t[0] -= r * tr.t[i+1]
		tr.uu[0] -= r * tr.uu[i+1]
	}
	for i := len(p.ratio); i >= 0; i-- {
		sq, form := tr.t[i], tr.uu[i]
		for j, r := range p.ratio {
			sq -= r * tr.square[i][j+1]
			form -= r * tr.form[i][j+1]
		}
		tr.square[i][0], tr.form[i][0] = sq, form
		tr.square[0][i], tr.form[0][i] = sq, form
	}
}

func (p *profile) slope(d *products) *slope {
	tr := p.traces(d)
	k, v := len(d.order), p.variance
	s := &slope{}
	for i := range k + 1 {
		s.score = append(s.score, (tr.uu[i]/v-tr.t[i])/(2*v))
		observed, expected := make([]float64, k+1), make([]float64, k+1)
		for j := range k + 1 {
			expected[j] = tr.square[i][j] / (2 * v * v)
			observed[j] = tr.form[i][j]/(v*v*v) - expected[j]
		}
		s.observed, s.expected = append(s.observed, observed), append(s.expected, expected)
	}
	s.weight = p.weights(d)
	return s
}

// weights are Q'H^-1 V_i H^-1 Q; the residual's is what the others leave of
// Q'H^-1 Q.
func (p *profile) weights(d *products) [][][]float64 {
	k := len(d.base.q)
	out := make([][][]float64, len(d.order)+1)
	for i := range out {
		out[i] = make([][]float64, k)
		for a := range k {
			out[i][a] = make([]float64, k)
		}
	}
	for j, row := range p.zhx {
		w := out[d.factorC[j]+1]
		for a := range k {
			axpy(row[a], row, w[a])
		}
	}
	for a := range k {
		for b := range k {
			out[0][a][b] = p.xhx.At(a, b)
			for i, r := range p.ratio {
				out[0][a][b] -= r * out[i+1][a][b]
			}
		}
	}
	return out
}

// pick is the square part of m at the given rows and columns.
func pick(m [][]float64, at []int) *mat.SymDense {
	out := mat.NewSymDense(len(at), nil)
	for i, a := range at {
		for j, b := range at {
			if j >= i {
				out.SetSym(i, j, (m[a][b]+m[b][a])/2)
			}
		}
	}
	return out
}
