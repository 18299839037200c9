package ratings

import (
	"math"

	"parewell/analysis/stats"
)

// scatterOf is the error of a fitted plan: mean squares with their degrees of
// freedom.
type scatterOf struct {
	residual   float64 // NaN without degrees of freedom
	dfResidual float64
	around     float64 // of pots, no smaller than residual; used when pots
	dfAround   float64
	pots       *potPlan
}

// fitted is a plan fitted to scores.
type fitted struct {
	*plan
	scatterOf
	beta  []float64
	rss   float64 // about block + the model
	pot   float64 // mean square of pots within samples; NaN without
	potSD float64 // NaN without
}

// fitPlan fits a plan by least squares to the scores of a result.
func (r *Result) fitPlan(p *plan) *fitted {
	c := r.column
	f := &fitted{plan: p, pot: none, potSD: none}
	xq := make([]float64, p.columns)
	for s, q := range r.fit.total {
		for i, v := range p.x[s] {
			xq[i] += v * q
		}
	}
	f.beta = times(p.inv, xq)
	effect := make([]float64, len(c.samples))
	for s := range effect {
		effect[s] = dot(p.x[s], f.beta)
	}
	f.rss = residual(c.block, c.sample, c.size, c.y, effect)
	if settled(f.rss, c.y) {
		f.rss = 0
	}
	f.residual, f.dfResidual = r.ms, float64(r.fit.df)
	if p.kitchen != nil {
		f.addPots(r)
	}
	return f
}

// addPots brings in the pots' mean squares.
func (f *fitted) addPots(r *Result) {
	c := r.column
	g := r.potFit()
	if g.df <= 0 {
		f.residual = none
		return
	}
	f.pots = f.kitchen
	f.residual, f.dfResidual = g.rss/float64(g.df), float64(g.df)
	f.dfAround = float64(f.pots.dfAround)
	raw := math.Max(f.rss-g.rss, 0) / f.dfAround
	f.around = math.Max(raw, f.residual)
	f.potSD = math.Sqrt(math.Max(raw-f.residual, 0) / f.pots.around)
	f.pot = math.Max(r.fit.rss-g.rss, 0) / float64(f.pots.dfWithin)
	if settled(f.pot, c.y) {
		f.pot = 0
	}
}

// potFit fits block + pot, once a result.
func (r *Result) potFit() *fit {
	if r.byPot == nil {
		c := r.column
		r.byPot = c.byPot.fit(c.block, c.pot, c.size, c.y)
		if settled(r.byPot.rss, c.y) {
			r.byPot.rss = 0
		}
	}
	return r.byPot
}

// variance is that of a sum of coefficients, with its degrees of freedom.
func (f *fitted) variance(c []float64) (v, df float64) {
	h := form(f.inv, c)
	if f.pots == nil {
		return h * f.residual, f.dfResidual
	}
	a := form(f.pots.spread, c) / f.pots.around * f.around
	b := h*f.residual - form(f.pots.spread, c)/f.pots.around*f.residual
	return welch(a, f.dfAround, b, f.dfResidual)
}

// welch adds two estimated variances: Satterthwaite's degrees of freedom (1946,
// Biometrics Bulletin 2:110).
func welch(a, dfA, b, dfB float64) (v, df float64) {
	v = a + b
	return v, v * v / (a*a/dfA + b*b/dfB)
}

// covariance is that of all coefficients.
func (f *fitted) covariance() [][]float64 {
	out := square0(f.columns)
	for i := range out {
		for j := range out[i] {
			out[i][j] = f.inv[i][j] * f.residual
			if f.pots != nil {
				out[i][j] += f.pots.spread[i][j] * (f.around - f.residual) / f.pots.around
			}
		}
	}
	return out
}

// estimate is a sum of coefficients with its error; all NaN where the design
// cannot tell it, the errors NaN without scatter.
func (f *fitted) estimate(c []float64) (e Estimate) {
	if !square(f.null, c) {
		return Estimate{Number(none), Number(none), Number(none), Number(none)}
	}
	v, df := f.variance(c)
	e = Estimate{Number(dot(c, f.beta)), Number(math.Sqrt(v)), Number(df), Number(none)}
	if t := math.Abs(float64(e.Effect)) / float64(e.SE); e.SE > 0 {
		e.P = Number(2 * stats.TAbove(t, df))
	}
	return e
}

// Estimate is a sum of effects with its standard error, degrees of freedom and
// two-sided p; NaN what cannot be told.
type Estimate struct {
	Effect Number `json:"effect"`
	SE     Number `json:"se"`
	DF     Number `json:"df"`
	P      Number `json:"p"`
}

// interval is the two-sided interval at a level.
func (e Estimate) interval(level float64) (low, high Number) {
	half := Number(stats.TPoint((1-level)/2, float64(e.DF))) * e.SE
	return e.Effect - half, e.Effect + half
}

// lackOfFit tests whether versions miss the sum of their swaps.
func (r *Result) lackOfFit(f *fitted) *LackOfFit {
	df1 := r.column.bySample.rank() - f.rank
	if df1 <= 0 {
		return nil
	}
	ss := f.rss - r.fit.rss
	if settled(ss, r.column.y) {
		ss = 0
	}
	l := &LackOfFit{DF1: df1, DF2: Number(f.dfResidual), F: Number(none), P: Number(none)}
	below := f.residual
	if f.pots != nil {
		part := f.pots.lackOfPots / f.pots.within
		v, df := welch(part*math.Max(f.pot, f.residual), float64(f.pots.dfWithin), (1-part)*f.residual, f.dfResidual)
		below, l.DF2 = v, Number(df)
	}
	ms := ratio(ss/float64(df1), below)
	l.F, l.P = Number(ms), Number(stats.FAbove(ms, float64(df1), float64(l.DF2)))
	return l
}
