package ratings

import (
	"math/big"
	"slices"

	"parewell/analysis/stats"
)

// plan is what a layout can tell of a linear model of samples (swaps, or swaps
// and their pairs), whatever the scores.
type plan struct {
	x       [][]float64 // by sample, then column
	columns int
	null    [][]int64 // what no score depends on; exact
	pivot   []int     // columns that are fitted; the others are 0
	alone   []bool    // by column: can be estimated by itself
	rank    int
	inv     [][]float64 // a generalised inverse of the information, right for what can be estimated
	kitchen *potPlan    // nil where no sample was cooked twice
}

// potPlan is what pots add to errors: a covariance is inv·MSr + spread·(MSb-MSr)/around.
type potPlan struct {
	spread     [][]float64 // inv X'CCX inv, C being the information of pots
	dfAround   int         // pots around the model
	dfWithin   int         // pots of one sample around their mean
	around     float64     // pots' variance in the mean square of dfAround
	within     float64     // the same of dfWithin
	lackOfPots float64     // the same of lack of fit
}

// newPlan takes x in whole numbers; ok is false when exact arithmetic does not
// fit 64 bits.
func (l *layout) newPlan(x [][]int64, columns int) (*plan, bool) {
	p := &plan{columns: columns, alone: make([]bool, columns)}
	e := &stats.Echelon{Columns: columns}
	first := map[int]int{} // by component
	for s, row := range x {
		f := make([]float64, columns)
		for i, v := range row {
			f[i] = float64(v)
		}
		p.x = append(p.x, f)
		part := l.bySample.part[s]
		if at, seen := first[part]; seen {
			e.Add(less(row, x[at]))
		} else {
			first[part] = s
		}
	}
	p.rank, p.pivot = len(e.Lead), slices.Sorted(slices.Values(e.Lead))
	for i, r := range e.Rows {
		p.alone[e.Lead[i]] = only(r, e.Lead[i])
	}
	var ok bool
	if p.null, ok = e.Null(); !ok {
		return nil, false
	}
	p.invert(l.bySample.info)
	if l.byPot != nil && l.byPot.rank() > l.bySample.rank() {
		p.findPots(l)
	}
	return p, p.inv != nil
}

func less(a, b []int64) []int64 {
	out := make([]int64, len(a))
	for i, v := range a {
		out[i] = v - b[i]
	}
	return out
}

// invert inverts X'CX over the pivots.
func (p *plan) invert(info [][]float64) {
	all := wrap(p.x, info, p.columns)
	part := square0(p.rank)
	for i, a := range p.pivot {
		for j, b := range p.pivot {
			part[i][j] = all[a][b]
		}
	}
	got := inverse(part)
	if got == nil {
		return
	}
	p.inv = square0(p.columns)
	for i, a := range p.pivot {
		for j, b := range p.pivot {
			p.inv[a][b] = got[i][j]
		}
	}
}

// findPots works out how much of the pots' variance is in every mean square.
func (p *plan) findPots(l *layout) {
	c := l.byPot.info
	bySwap := make([][]float64, len(c)) // C X
	bySample := square0(len(c))         // C S
	trace := 0.0
	for i, row := range c {
		trace += row[i]
		bySwap[i] = make([]float64, p.columns)
		for j, v := range row {
			if v == 0 {
				continue
			}
			bySample[i][l.potOf[j]] += v
			for k, w := range p.x[l.potOf[j]] {
				bySwap[i][k] += v * w
			}
		}
	}
	q := &potPlan{dfAround: l.byPot.rank() - p.rank, dfWithin: l.byPot.rank() - l.bySample.rank()}
	m := gram(bySwap, p.columns)
	q.spread = wrap(p.inv, m, p.columns)
	around := trace - traceOf(p.inv, m)
	within := trace - traceOf(l.bySample.inv, gram(bySample, len(l.samples)))
	q.around, q.within = around/float64(q.dfAround), within/float64(q.dfWithin)
	if lack := q.dfAround - q.dfWithin; lack > 0 {
		q.lackOfPots = (around - within) / float64(lack)
	}
	p.kitchen = q
}

// gram is M'M over the first columns.
func gram(m [][]float64, columns int) [][]float64 {
	out := square0(columns)
	for _, row := range m {
		for i := range columns {
			for j := range columns {
				out[i][j] += row[i] * row[j]
			}
		}
	}
	return out
}

// traceOf is the trace of AB, both symmetric.
func traceOf(a, b [][]float64) float64 {
	s := 0.0
	for i, row := range a {
		s += dot(row, b[i])
	}
	return s
}

// only tells a row that is 0 but in one column.
func only(row []*big.Int, at int) bool {
	for i, x := range row {
		if i != at && x.Sign() != 0 {
			return false
		}
	}
	return true
}
