package ratings

import (
	"math"
	"slices"

	"parewell/analysis/stats"
)

// Order is what the place on the tray and the sample before do to scores.
type Order struct {
	Position     Test     `json:"position"`       // given panelist and sample
	FirstVsLater Estimate `json:"first_vs_later"` // first less the mean of later positions
	// Samples are the adjusted means given position.
	Samples []OrderSample `json:"samples"`
	// Carryover is what the sample before tells, given panelist, position and
	// sample, over later positions; nil when that cannot be asked.
	Carryover *Carryover `json:"carryover"`
	Residual  struct {
		DF int    `json:"df"`
		MS Number `json:"ms"`
	} `json:"residual"`
	Sample Test `json:"sample"` // samples given position
}

// Test is a term with its F test.
type Test struct {
	DF int    `json:"df"`
	SS Number `json:"ss"`
	F  Number `json:"f"`
	P  Number `json:"p"`
}

// OrderSample is an adjusted mean given position.
type OrderSample struct {
	Name         string `json:"name"`
	AdjustedMean Number `json:"adjusted_mean"`
}

// Carryover tests the sample before.
type Carryover struct {
	Test
	ResidualDF int  `json:"residual_df"`
	Sample     Test `json:"sample"` // samples given what came before
}

// factor is a column of levels, numbered from 0.
type factor struct {
	level []int
	n     int
}

// absorbed is several factors with the blocks taken out.
type absorbed struct {
	factors []factor
	at      []int // first column of each factor
	info    [][]float64
	total   []float64
	within  float64 // sum of squares within blocks
	rows    int
	blocks  int
	blockOf []int
	shares  []float64 // by column: mean over blocks of its part
	level   float64   // mean of block means
}

func absorb(block []int, y []float64, factors ...factor) *absorbed {
	a := &absorbed{factors: factors, rows: len(y), blockOf: block}
	n := 0
	for _, f := range factors {
		a.at = append(a.at, n)
		n += f.n
	}
	a.info, a.total, a.shares = square0(n), make([]float64, n), make([]float64, n)
	for from := 0; from < len(block); {
		to := from
		for to < len(block) && block[to] == block[from] {
			to++
		}
		a.take(from, to, y)
		from = to
	}
	for i := range a.shares {
		a.shares[i] /= float64(a.blocks)
	}
	a.level /= float64(a.blocks)
	return a
}

// take adds the rows of one block.
func (a *absorbed) take(from, to int, y []float64) {
	size := float64(to - from)
	count, mean := make([]float64, len(a.total)), stats.Mean(y[from:to])
	for i := from; i < to; i++ {
		a.within += (y[i] - mean) * (y[i] - mean)
		for f, fac := range a.factors {
			c := a.at[f] + fac.level[i]
			count[c]++
			a.total[c] += y[i] - mean
			for g, other := range a.factors {
				a.info[c][a.at[g]+other.level[i]]++
			}
		}
	}
	for i, x := range count {
		if x == 0 {
			continue
		}
		a.shares[i] += x / size
		for j, z := range count {
			a.info[i][j] -= x * z / size
		}
	}
	a.blocks++
	a.level += mean
}

// solved is a fit of some of the factors.
type solved struct {
	inv  [][]float64
	beta []float64
	rss  float64
	rank int
	df   int
}

// solve fits the named factors by sweeping columns that add something: what is
// left of one must be above 1e-9 of what it had.
func (a *absorbed) solve(which ...int) *solved {
	n := len(a.total)
	m := square0(n)
	for i := range m {
		copy(m[i], a.info[i])
	}
	s := &solved{inv: square0(n), rss: a.within}
	in := make([]bool, n)
	for _, f := range which {
		for c := a.at[f]; c < a.at[f]+a.factors[f].n; c++ {
			if m[c][c] > 1e-9*a.info[c][c] && m[c][c] > 1e-9 {
				sweep(m, c)
				in[c] = true
				s.rank++
			}
		}
	}
	for i := range n {
		for j := range n {
			if in[i] && in[j] {
				s.inv[i][j] = m[i][j]
			}
		}
	}
	s.beta = times(s.inv, a.total)
	s.rss = math.Max(0, a.within-dot(s.beta, a.total))
	s.df = a.rows - a.blocks - s.rank
	return s
}

// sweep turns column k of a symmetric matrix into that of the inverse; columns
// swept hold the inverse over themselves, up to the sign kept for the others.
func sweep(m [][]float64, k int) {
	d := m[k][k]
	for j := range m[k] {
		m[k][j] /= d
	}
	for i := range m {
		if i == k {
			continue
		}
		b := m[i][k]
		for j := range m[i] {
			m[i][j] -= b * m[k][j]
		}
		m[i][k] = -b / d
	}
	m[k][k] = 1 / d
}

// dropped tests what leaving factors out costs.
func dropped(all, without *solved) Test {
	t := Test{DF: all.rank - without.rank, SS: Number(without.rss - all.rss), F: Number(none), P: Number(none)}
	f := ratio(ratio(float64(t.SS), float64(t.DF)), ratio(all.rss, float64(all.df)))
	t.F, t.P = Number(f), Number(stats.FAbove(f, float64(t.DF), float64(all.df)))
	return t
}

// order fills in Order where all positions are known and differ.
func (r *Result) order() {
	c := r.column
	distinct := slices.Compact(slices.Sorted(slices.Values(c.position)))
	if !c.anyPos || distinct[0] <= 0 || len(distinct) < 2 || !r.scatter() {
		return
	}
	position := factor{make([]int, len(c.position)), len(distinct)}
	for i, p := range c.position {
		position.level[i], _ = slices.BinarySearch(distinct, p)
	}
	a := absorb(c.block, c.y, factor{c.sample, len(c.samples)}, position)
	full := a.solve(0, 1)
	if full.df <= 0 || settled(full.rss, c.y) {
		return
	}
	o := &Order{Position: dropped(full, a.solve(0)), Sample: dropped(full, a.solve(1))}
	o.Residual.DF, o.Residual.MS = full.df, Number(full.rss/float64(full.df))
	o.FirstVsLater = a.first(full)
	for s, name := range c.samples {
		o.Samples = append(o.Samples, OrderSample{name, a.mean(full, s)})
	}
	o.Carryover = r.carryover(position)
	r.Order = o
	if o.Position.P < 0.05 && o.FirstVsLater.P < 0.05 {
		r.note(NoteFirst)
	}
	if o.Carryover != nil && o.Carryover.P < 0.05 {
		r.note(NoteCarryover)
	}
}

// estimate is a combination of coefficients; NaN when it cannot be told.
func (a *absorbed) estimate(s *solved, c []float64) Estimate {
	h := times(s.inv, c)
	for i, v := range times(a.info, h) {
		if math.Abs(v-c[i]) > 1e-7 {
			return Estimate{Number(none), Number(none), Number(none), Number(none)}
		}
	}
	e := Estimate{Effect: Number(dot(c, s.beta)), DF: Number(float64(s.df))}
	se := math.Sqrt(dot(c, h) * s.rss / float64(s.df))
	e.SE, e.P = Number(se), Number(2*stats.TAbove(math.Abs(float64(e.Effect))/se, float64(s.df)))
	return e
}

// first is the first position less the mean of the later ones.
func (a *absorbed) first(s *solved) Estimate {
	c := make([]float64, len(a.total))
	n := a.factors[1].n
	c[a.at[1]] = 1
	for p := 1; p < n; p++ {
		c[a.at[1]+p] = -1 / float64(n-1)
	}
	return a.estimate(s, c)
}

// mean is a sample's adjusted mean: blocks weigh the same, and positions do.
func (a *absorbed) mean(s *solved, sample int) Number {
	c := make([]float64, len(a.total))
	for i, w := range a.shares {
		c[i] = -w
	}
	c[sample]++
	for p := range a.factors[1].n {
		c[a.at[1]+p] += 1 / float64(a.factors[1].n)
	}
	e := a.estimate(s, c)
	return Number(a.level) + e.Effect
}

// carryover asks whether the sample before tells, over later positions.
func (r *Result) carryover(position factor) *Carryover {
	c := r.column
	type place struct{ block, position int }
	at := map[place]int{}
	for i, p := range c.position {
		at[place{c.block[i], p}] = c.sample[i]
	}
	var block []int
	var y []float64
	sample, before, pos := factor{n: len(c.samples)}, factor{n: len(c.samples)}, factor{n: position.n}
	for i, p := range c.position {
		was, known := at[place{c.block[i], p - 1}]
		if !known {
			continue
		}
		block, y = append(block, c.block[i]), append(y, c.y[i])
		sample.level, before.level = append(sample.level, c.sample[i]), append(before.level, was)
		pos.level = append(pos.level, position.level[i])
	}
	if len(y) == 0 {
		return nil
	}
	a := absorb(block, y, sample, pos, before)
	full, without := a.solve(0, 1, 2), a.solve(0, 1)
	if full.df <= 0 || full.rank == without.rank || settled(full.rss, y) {
		return nil
	}
	return &Carryover{Test: dropped(full, without), ResidualDF: full.df, Sample: dropped(full, a.solve(1, 2))}
}
