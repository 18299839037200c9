package ratings

import (
	"fmt"
	"math"
	"slices"

	"parewell/analysis/stats"
)

// newResult fits the model blocks.
func newResult(c *column, original string, o Options) *Result {
	f := c.bySample.fit(c.block, c.sample, c.size, c.y)
	r := &Result{
		Attribute: c.attribute, Panelists: c.people, Servings: len(c.y), Model: "blocks", Original: original,
		limit: o.Limit, column: c, fit: f, ms: none, Notes: []string{}, Pairs: []Pair{}, AgainstOriginal: []Against{},
	}
	if settled(f.rss, c.y) {
		f.rss = 0
	}
	if f.df > 0 {
		r.ms = f.rss / float64(f.df)
	}
	r.ResidualSD = Number(math.Sqrt(r.ms))
	r.cautions()
	return r
}

// settled tells a sum of squares that is 0 but for rounding.
func settled(ss float64, y []float64) bool {
	most := 0.0
	for _, v := range y {
		most = math.Max(most, math.Abs(v))
	}
	return ss <= 1e-24*float64(len(y))*most*most
}

// cautions notes what stands in the way of an answer.
func (r *Result) cautions() {
	c := r.column
	if len(c.samples) == 1 {
		r.note(NoteOneSample)
	}
	if c.people == 1 {
		r.note(NoteOnePanelist)
	}
	switch {
	case c.people > 1 && r.fit.df <= 0:
		r.note(NoteNoScatter)
	case slices.Min(c.y) == slices.Max(c.y):
		r.note(NoteNoVariation)
	case r.ms == 0 && len(c.samples) > 1:
		r.note(NoteNoResidual)
	}
	if c.bySample.parts > 1 {
		r.note(NoteApart)
	}
}

// compare fills in means, the analysis of variance and comparisons.
func (r *Result) compare() {
	r.means()
	r.anova()
	r.pairs()
	r.against()
}

func (r *Result) means() {
	c, l := r.column, r.column.bySample
	mean := blockMeans(c.block, c.size, c.y)
	level := 0.0
	for _, m := range mean {
		level += m / float64(len(mean))
	}
	level -= dot(l.share, r.fit.effect)
	half := stats.TPoint(0.025, float64(r.fit.df))
	for s, name := range c.samples {
		m := Sample{Name: name, N: int(l.count[s]), AdjustedMean: Number(none), SE: Number(none)}
		var scores []float64
		for i, v := range c.y {
			if c.sample[i] == s {
				scores = append(scores, v)
			}
		}
		m.Mean, m.Distribution = Number(stats.Mean(scores)), counts(scores)
		if l.parts == 1 {
			se := math.Sqrt(l.variance(s) * r.ms)
			m.AdjustedMean, m.SE = Number(level+r.fit.effect[s]), Number(se)
			m.Low, m.High = m.AdjustedMean-Number(half*se), m.AdjustedMean+Number(half*se)
		} else {
			m.Low, m.High = Number(none), Number(none)
		}
		r.Samples = append(r.Samples, m)
	}
}

func counts(scores []float64) []Count {
	out := []Count{}
	slices.Sort(scores)
	for i, v := range scores {
		if i == 0 || v != scores[i-1] {
			out = append(out, Count{Score: v})
		}
		out[len(out)-1].Count++
	}
	return out
}

// anova tests each term given those that do not contain it.
func (r *Result) anova() {
	c, f := r.column, r.fit
	a := &r.Anova
	a.Residual.DF, a.Residual.SS, a.Residual.MS = f.df, Number(f.rss), Number(r.ms)
	alone := make([]float64, len(c.samples)) // of no sample: blocks only
	a.Sample = r.term(residual(c.block, c.sample, c.size, c.y, alone)-f.rss, c.bySample.rank())

	tasting := make([]int, len(c.y))
	size := make([]float64, c.tastings)
	for i, b := range c.block {
		tasting[i] = c.tasting[b]
		size[tasting[i]]++
	}
	evenings := newLayer(tasting, c.sample, size, len(c.samples))
	g := evenings.fit(tasting, c.sample, size, c.y)
	rank := c.tastings + evenings.rank()
	a.Panelist = r.term(g.rss-f.rss, len(c.size)+c.bySample.rank()-rank)
	if c.tastings > 1 {
		within := 0.0
		means := blockMeans(c.sample, c.bySample.count, c.y)
		for i, v := range c.y {
			within += (v - means[c.sample[i]]) * (v - means[c.sample[i]])
		}
		t := r.term(within-g.rss, rank-len(c.samples))
		a.Tasting = &t
	}
}

// term tests a sum of squares against the residual. One that is 0 but for
// rounding is 0.
func (r *Result) term(ss float64, df int) Term {
	if settled(ss, r.column.y) {
		ss = 0
	}
	t := Term{DF: df, SS: Number(ss), MS: Number(ratio(ss, float64(df)))}
	f := ratio(float64(t.MS), r.ms)
	t.F, t.P = Number(f), Number(stats.FAbove(f, float64(df), float64(r.fit.df)))
	return t
}

// scatter tells whether differences can be tested.
func (r *Result) scatter() bool { return r.ms > 0 }

// pairs are all pairs by Tukey and Kramer.
func (r *Result) pairs() {
	c, l := r.column, r.column.bySample
	k, df := len(c.samples), float64(r.fit.df)
	point := none
	if r.scatter() && k > 1 {
		point = c.band(fmt.Sprintf("tukey %d %v", k, df), func() float64 { return stats.TukeyPoint(0.05, k, df) }) / math.Sqrt2
	}
	for a := range k {
		for b := a + 1; b < k; b++ {
			p := Pair{A: c.samples[a], B: c.samples[b], Difference: Number(none), SE: Number(none), P: Number(none), Low: Number(none), High: Number(none)}
			if l.joined(a, b) {
				d, se := r.fit.effect[a]-r.fit.effect[b], math.Sqrt(l.between(a, b)*r.ms)
				p.Difference, p.SE = Number(d), Number(se)
				if r.scatter() {
					p.P = Number(stats.TukeyAbove(math.Abs(d/se)*math.Sqrt2, k, df))
				}
				p.Low, p.High = Number(d-point*se), Number(d+point*se)
			}
			r.Pairs = append(r.Pairs, p)
		}
	}
}

// band is a critical point, worked out once a layout.
func (l *layout) band(key string, work func() float64) float64 {
	v, ok := l.bands[key]
	if !ok {
		v = work()
		l.bands[key] = v
	}
	return v
}

// against sets every sample against the original by Dunnett, with the
// correlations of the very design.
func (r *Result) against() {
	c, l := r.column, r.column.bySample
	zero := slices.Index(c.samples, r.Original)
	if zero < 0 { // not served with this attribute
		return
	}
	var at []int
	for s := range c.samples {
		if s != zero && l.joined(s, zero) {
			at = append(at, s)
		}
	}
	corr := l.correlations(zero, at)
	df, point := float64(r.fit.df), none
	if r.scatter() && len(at) > 0 {
		point = c.band(fmt.Sprintf("dunnett %d %v", zero, df), func() float64 { return dunnettPoint(corr, df) })
	}
	for s, name := range c.samples {
		if s == zero {
			continue
		}
		a := Against{Sample: name, Difference: Number(none), SE: Number(none), P: Number(none), Low: Number(none), High: Number(none)}
		if r.limit > 0 {
			a.Equivalent = &Equivalent{Number(r.limit), Number(none), Number(none)}
		}
		if l.joined(s, zero) {
			r.set(&a, r.fit.effect[s]-r.fit.effect[zero], math.Sqrt(l.between(s, zero)*r.ms), point, corr)
		}
		r.AgainstOriginal = append(r.AgainstOriginal, a)
	}
	r.holmOfLimits()
}

// holmOfLimits adjusts the tests of the limit for being several.
func (r *Result) holmOfLimits() {
	if !(r.limit > 0) {
		return
	}
	var ps []float64
	for _, a := range r.AgainstOriginal {
		ps = append(ps, float64(a.Equivalent.P))
	}
	for i, p := range stats.Holm(ps) {
		r.AgainstOriginal[i].Equivalent.PHolm = Number(p)
	}
}

func (r *Result) set(a *Against, d, se, point float64, corr [][]float64) {
	df := float64(r.fit.df)
	a.Difference, a.SE = Number(d), Number(se)
	a.Low, a.High = Number(d-point*se), Number(d+point*se)
	if !r.scatter() {
		return
	}
	p, leave := stats.DunnettAbove(math.Abs(d/se), corr, df)
	a.P, r.DunnettError = Number(p), Number(math.Max(leave, float64(r.DunnettError)))
	if a.Equivalent != nil {
		a.Equivalent.P = Number(stats.TOST(d, se, df, r.limit).P)
	}
}

// correlations are those of the differences from one level.
func (l *layer) correlations(zero int, at []int) [][]float64 {
	out := square0(len(at))
	for i, a := range at {
		for j, b := range at {
			cov := l.inv[a][b] - l.inv[a][zero] - l.inv[zero][b] + l.inv[zero][zero]
			out[i][j] = cov / math.Sqrt(l.between(a, zero)*l.between(b, zero))
		}
		out[i][i] = 1
	}
	return out
}

// Contrast is a sum of adjusted means with weights that add to 0, by name of
// sample, and its standard error on DF degrees of freedom. ok is false when no
// chain of panelists joins what it compares, or a name is not there.
func (r *Result) Contrast(weights map[string]float64) (estimate, se float64, df int, ok bool) {
	l := r.column.bySample
	c := make([]float64, l.levels)
	sum := make([]float64, l.parts)
	for name, w := range weights {
		s := slices.Index(r.column.samples, name)
		if s < 0 {
			return none, none, 0, false
		}
		c[s] = w
		sum[l.part[s]] += w
	}
	for _, v := range sum {
		if math.Abs(v) > 1e-9 {
			return none, none, 0, false
		}
	}
	return dot(c, r.fit.effect), math.Sqrt(form(l.inv, c) * r.ms), r.fit.df, true
}

// rank is Friedman's test; a panelist's several scores of a sample are averaged.
func (r *Result) rank() {
	c := r.column
	rows, n := make([][]float64, len(c.size)), make([][]float64, len(c.size))
	for b := range rows {
		rows[b], n[b] = make([]float64, len(c.samples)), make([]float64, len(c.samples))
	}
	for i, v := range c.y {
		rows[c.block[i]][c.sample[i]] += v
		n[c.block[i]][c.sample[i]]++
	}
	for b := range rows {
		for s := range rows[b] {
			rows[b][s] = rows[b][s] / n[b][s] // 0/0: not served
		}
	}
	f := stats.Friedman(rows)
	r.Friedman = FriedmanTest{Number(f.Chi2), Number(f.DF), Number(f.P), Number(none), Number(f.W)}
	if f.Exact != nil {
		r.Friedman.Exact = Number(*f.Exact)
	}
}
