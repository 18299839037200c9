package ratings

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"parewell/analysis/stats"
)

// Mixed is the model with panelists (within tastings) random, by restricted
// maximum likelihood; degrees of freedom are Satterthwaite's from the observed
// information (Kuznetsova and others 2017, doi 10.18637/jss.v082.i13).
type Mixed struct {
	VarPanelist Number `json:"var_panelist"`
	VarResidual Number `json:"var_residual"`

	// Boundary: panelists' variance is estimated as 0. Then degrees of freedom
	// are those of the residual, and the fixed model is the answer to use.
	Boundary        bool           `json:"boundary"`
	Samples         []MixedSample  `json:"samples"`
	AgainstOriginal []MixedAgainst `json:"against_original"`
	Test            MixedTest      `json:"test"`
	Swaps           []MixedSwap    `json:"swaps,omitempty"`

	fit *reml
}

// MixedSample is an adjusted mean.
type MixedSample struct {
	Name         string `json:"name"`
	AdjustedMean Number `json:"adjusted_mean"`
	SE           Number `json:"se"`
	DF           Number `json:"df"`
}

// MixedAgainst is a sample less the original; p is of that comparison alone.
type MixedAgainst struct {
	Sample     string `json:"sample"`
	Difference Number `json:"difference"`
	SE         Number `json:"se"`
	DF         Number `json:"df"`
	P          Number `json:"p"`
}

// MixedTest is the F test of all samples (contrasts with the first).
type MixedTest struct {
	F   Number `json:"f"`
	DF1 int    `json:"df1"`
	DF2 Number `json:"df2"`
	P   Number `json:"p"`
}

// MixedSwap is a swap's effect by the mixed model.
type MixedSwap struct {
	Swap string `json:"swap"`
	Estimate
}

// mixedOf fits samples; nil where the scores do not allow it.
func mixedOf(r *Result) *Mixed {
	c := r.column
	k := len(c.samples)
	if k < 2 || len(c.size) < 2 || len(c.y)-k <= len(c.size)-1 && r.fit.df <= 0 || !r.scatter() {
		return nil
	}
	x := make([][]float64, k)
	for s := range x {
		x[s] = make([]float64, k)
		x[s][0], x[s][s] = 1, 1
	}
	f := newREML(c, x)
	if f == nil {
		return nil
	}
	m := &Mixed{VarPanelist: Number(f.lambda * f.sigma2), VarResidual: Number(f.sigma2), Boundary: f.lambda == 0, fit: f}
	zero := slices.Index(c.samples, r.Original)
	for s, name := range c.samples {
		e := f.estimate(x[s])
		m.Samples = append(m.Samples, MixedSample{name, e.Effect + Number(f.shift), e.SE, e.DF})
		if zero < 0 || s == zero {
			continue
		}
		d := make([]float64, k)
		for i := range d {
			d[i] = x[s][i] - x[zero][i]
		}
		e = f.estimate(d)
		m.AgainstOriginal = append(m.AgainstOriginal, MixedAgainst{name, e.Effect, e.SE, e.DF, e.P})
	}
	m.Test = f.test()
	return m
}

// mixedSwaps adds the swaps that the fixed model can tell.
func (r *Result) mixedSwaps(p *swapPlan) {
	if r.Mixed == nil || p.rank == 0 || p.columns > len(p.table.Names) {
		return
	}
	x := make([][]float64, len(p.x))
	for s, row := range p.x {
		x[s] = []float64{1}
		for _, at := range p.pivot {
			x[s] = append(x[s], row[at])
		}
	}
	f := newREML(r.column, x)
	if f == nil {
		return
	}
	for i, at := range p.pivot {
		if p.alone[at] {
			c := make([]float64, len(p.pivot)+1)
			c[i+1] = 1
			r.Mixed.Swaps = append(r.Mixed.Swaps, MixedSwap{p.table.Names[at], f.estimate(c)})
		}
	}
}

// reml is a model with one random level a block. In it lambda is the blocks'
// variance over the residual's; sums are kept by size of block, so that a trial
// lambda costs no more than the samples do.
type reml struct {
	n      int
	sizes  []float64
	blocks []float64       // by size: how many
	m      []*mat.SymDense // by size: sum of X's column sums, squared
	t      []*mat.VecDense // by size: sum of X's column sums by the block's total
	u      []float64       // by size: sum of totals squared
	full   *mat.SymDense
	xy     *mat.VecDense
	yy     float64
	shift  float64 // taken off the scores

	lambda, sigma2 float64
	beta           *mat.VecDense
	inv            *mat.SymDense // of X'WX
	slope          *mat.SymDense // derivative of X'WX by lambda
	cov            *mat.SymDense // of (lambda, sigma2); nil at the boundary
}

// newREML fits; x by sample. Nil where the scores leave no scatter.
func newREML(c *column, x [][]float64) *reml {
	f := &reml{n: len(c.y), shift: stats.Mean(c.y)}
	f.gather(c, x)
	if f.n <= len(x[0]) || !f.search() {
		return nil
	}
	f.finish()
	return f
}

// gather makes the sums.
func (f *reml) gather(c *column, x [][]float64) {
	p := len(x[0])
	f.full, f.xy = mat.NewSymDense(p, nil), mat.NewVecDense(p, nil)
	at := map[float64]int{}
	sums, totals := make([][]float64, len(c.size)), make([]float64, len(c.size))
	weight := make([]float64, len(x))
	for i, v := range c.y {
		v -= f.shift
		b, row := c.block[i], x[c.sample[i]]
		if sums[b] == nil {
			sums[b] = make([]float64, p)
		}
		for j, w := range row {
			sums[b][j] += w
			f.xy.SetVec(j, f.xy.AtVec(j)+w*v)
		}
		weight[c.sample[i]]++
		totals[b] += v
		f.yy += v * v
	}
	for s, row := range x {
		f.full.SymRankOne(f.full, weight[s], mat.NewVecDense(p, row))
	}
	for b, size := range c.size {
		g, known := at[size]
		if !known {
			g = len(f.sizes)
			at[size] = g
			f.sizes, f.blocks, f.u = append(f.sizes, size), append(f.blocks, 0), append(f.u, 0)
			f.m, f.t = append(f.m, mat.NewSymDense(p, nil)), append(f.t, mat.NewVecDense(p, nil))
		}
		v := mat.NewVecDense(p, sums[b])
		f.m[g].SymRankOne(f.m[g], 1, v)
		f.t[g].AddScaledVec(f.t[g], totals[b], v)
		f.u[g] += totals[b] * totals[b]
		f.blocks[g]++
	}
}

// shrink is lambda/(1+lambda n), or its derivative by lambda of an order.
func shrink(lambda, n float64, order int) float64 {
	d := 1 + lambda*n
	switch order {
	case 0:
		return lambda / d
	case 1:
		return 1 / (d * d)
	}
	return -2 * n / (d * d * d)
}

// normal is X'WX, X'Wy and y'Wy, or their derivatives by lambda.
func (f *reml) normal(lambda float64, order int) (*mat.SymDense, *mat.VecDense, float64) {
	p := f.xy.Len()
	a, r, yy := mat.NewSymDense(p, nil), mat.NewVecDense(p, nil), 0.0
	if order == 0 {
		a.CopySym(f.full)
		r.CopyVec(f.xy)
		yy = f.yy
	}
	for g, n := range f.sizes {
		d := shrink(lambda, n, order)
		for i := range p {
			for j := i; j < p; j++ {
				a.SetSym(i, j, a.At(i, j)-d*f.m[g].At(i, j))
			}
		}
		r.AddScaledVec(r, -d, f.t[g])
		yy -= d * f.u[g]
	}
	return a, r, yy
}

// state is the likelihood's parts at a lambda.
type state struct {
	beta   *mat.VecDense
	inv    *mat.SymDense
	s      float64 // weighted residual sum of squares, and its derivatives
	s1, s2 float64
	l1, l2 float64 // derivatives of the log determinants
	a1     *mat.SymDense
}

func (f *reml) at(lambda float64) *state {
	a, r, yy := f.normal(lambda, 0)
	a1, r1, yy1 := f.normal(lambda, 1)
	a2, r2, yy2 := f.normal(lambda, 2)
	var chol mat.Cholesky
	if !chol.Factorize(a) {
		return nil
	}
	st := &state{beta: new(mat.VecDense), inv: new(mat.SymDense), a1: a1}
	if chol.SolveVecTo(st.beta, r) != nil || chol.InverseTo(st.inv) != nil {
		return nil
	}
	b := st.beta
	st.s = yy - mat.Dot(b, r)
	st.s1 = yy1 - 2*mat.Dot(b, r1) + mat.Inner(b, a1, b)
	var g, h mat.VecDense
	g.MulVec(a1, b)
	g.SubVec(r1, &g)
	h.MulVec(st.inv, &g)
	st.s2 = yy2 - 2*mat.Dot(b, r2) + mat.Inner(b, a2, b) - 2*mat.Dot(&g, &h)
	var p1, p2, p11 mat.Dense
	p1.Mul(st.inv, a1)
	p2.Mul(st.inv, a2)
	p11.Mul(&p1, &p1)
	st.l1, st.l2 = mat.Trace(&p1), mat.Trace(&p2)-mat.Trace(&p11)
	for i, n := range f.sizes {
		d := n / (1 + lambda*n)
		st.l1 += f.blocks[i] * d
		st.l2 -= f.blocks[i] * d * d
	}
	return st
}

func (f *reml) free() float64 { return float64(f.n - f.xy.Len()) }

// slope1 is the derivative by lambda of twice the negative restricted log
// likelihood, the residual's variance being at its best.
func (f *reml) slope1(lambda float64) float64 {
	st := f.at(lambda)
	if st == nil || !(st.s > 0) {
		return none
	}
	return st.l1 + f.free()*st.s1/st.s
}

// search finds the best lambda: the first sign change of the slope on a grid from
// 0 up, halved to the last digit. False where there is no scatter.
func (f *reml) search() bool {
	low := 0.0
	s := f.slope1(0)
	if math.IsNaN(s) {
		return false
	}
	if s >= 0 {
		f.lambda = 0
		return true
	}
	high := 1e-4
	for ; f.slope1(high) < 0; high *= 2 {
		if low = high; high > 1e8 {
			return false
		}
	}
	for range 200 {
		mid := low + (high-low)/2
		if mid <= low || mid >= high {
			break
		}
		if f.slope1(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	f.lambda = low
	return true
}

// finish keeps what estimates need, with the covariance of the variances from the
// observed information.
func (f *reml) finish() {
	st := f.at(f.lambda)
	q := f.free()
	f.beta, f.inv, f.slope, f.sigma2 = st.beta, st.inv, st.a1, st.s/q
	if f.lambda == 0 {
		return
	}
	v := f.sigma2
	ll, ls, ss := st.l2+st.s2/v, -st.s1/(v*v), q/(v*v)
	det := ll*ss - ls*ls
	if det > 0 {
		f.cov = mat.NewSymDense(2, []float64{2 * ss / det, -2 * ls / det, -2 * ls / det, 2 * ll / det})
	}
}

// df are Satterthwaite's degrees of freedom of a combination.
func (f *reml) df(c *mat.VecDense) float64 {
	if f.cov == nil {
		return f.free()
	}
	var ic mat.VecDense
	ic.MulVec(f.inv, c)
	h := mat.Dot(c, &ic)
	g := mat.NewVecDense(2, []float64{-f.sigma2 * mat.Inner(&ic, f.slope, &ic), h})
	return 2 * h * h * f.sigma2 * f.sigma2 / mat.Inner(g, f.cov, g)
}

func (f *reml) estimate(c []float64) Estimate {
	v := mat.NewVecDense(len(c), slices.Clone(c))
	e := Estimate{Effect: Number(mat.Dot(v, f.beta)), SE: Number(math.Sqrt(f.sigma2 * mat.Inner(v, f.inv, v))), DF: Number(f.df(v))}
	e.P = Number(2 * stats.TAbove(math.Abs(float64(e.Effect/e.SE)), float64(e.DF)))
	return e
}

// test is the F test of all coefficients but the first, with the degrees of
// freedom of its independent parts pooled.
func (f *reml) test() MixedTest {
	p := f.xy.Len()
	q := p - 1
	cov := mat.NewSymDense(q, nil)
	for i := range q {
		for j := i; j < q; j++ {
			cov.SetSym(i, j, f.sigma2*f.inv.At(i+1, j+1))
		}
	}
	var eig mat.EigenSym
	if !eig.Factorize(cov, true) {
		return MixedTest{Number(none), q, Number(none), Number(none)}
	}
	var vectors mat.Dense
	eig.VectorsTo(&vectors)
	sum, e := 0.0, 0.0
	for j, d := range eig.Values(nil) {
		c := mat.NewVecDense(p, nil)
		for i := range q {
			c.SetVec(i+1, vectors.At(i, j))
		}
		b := mat.Dot(c, f.beta)
		sum += b * b / d / float64(q)
		if nu := f.df(c); nu > 2 {
			e += nu / (nu - 2)
		}
	}
	df2 := 2.0
	if e > float64(q) {
		df2 = 2 * e / (e - float64(q))
	}
	return MixedTest{Number(sum), q, Number(df2), Number(stats.FAbove(sum, float64(q), df2))}
}
