package ledger

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"parewell/analysis/stats"
)

// Level is the level of every interval of the ledger: a tail of 5 % each side.
const Level = 0.90

// Interval is a change in liking against the original, in points, with its
// standard error and 90 % interval. What is not known is NaN.
type Interval struct{ Effect, SE, Low, High float64 }

var unknown = Interval{math.NaN(), math.NaN(), math.NaN(), math.NaN()}

// Half is half the width of the interval.
func (i Interval) Half() float64 { return (i.High - i.Low) / 2 }

// model is the evidence in an order of its own (swaps by ID), so that no result
// depends on the order they were given in.
type model struct {
	e       *Evidence
	at      []int     // at[i] is the place in Evidence.Swaps of swap i here
	on      [][]bool  // by version
	rows    [][]int64 // differences within blocks
	beta    []float64
	cov     [][]float64
	null    [][]int64
	tied    [][]int
	apart   []bool // can be estimated by itself
	bars    []uint64
	t       float64 // 95 % point of t on DF; NaN without scatter
	skipped []bool  // marked as not working
}

func newModel(e *Evidence) (*model, error) {
	if err := e.check(); err != nil {
		return nil, err
	}
	n := len(e.Swaps)
	m := &model{e: e, at: make([]int, n), beta: make([]float64, n), cov: make([][]float64, n), t: tPoint(Level+(1-Level)/2, e.DF)}
	for i := range m.at {
		m.at[i] = i
	}
	slices.SortFunc(m.at, func(a, b int) int { return cmp.Compare(e.Swaps[a].ID, e.Swaps[b].ID) })
	for i, a := range m.at {
		m.cov[i] = make([]float64, n)
		m.skipped = append(m.skipped, e.Swaps[a].DoesNotWork)
		if e.Beta == nil {
			continue
		}
		m.beta[i] = e.Beta[a]
		for j, b := range m.at {
			m.cov[i][j] = (e.Cov[a][b] + e.Cov[b][a]) / 2
		}
	}
	for _, v := range e.Versions {
		m.on = append(m.on, m.inside(v.On))
	}
	if err := m.findNull(); err != nil {
		return nil, err
	}
	m.findBars()
	return m, nil
}

// inside puts ticks from the order of the evidence into that of the model.
func (m *model) inside(on []bool) []bool {
	out := make([]bool, len(m.at))
	for i, a := range m.at {
		out[i] = on[a]
	}
	return out
}

// outside is the way back.
func (m *model) outside(on []bool) []bool {
	out := make([]bool, len(m.at))
	for i, a := range m.at {
		out[a] = on[i]
	}
	return out
}

// findNull decides by exact arithmetic what can be told apart.
func (m *model) findNull() error {
	n := len(m.at)
	var ok bool
	if m.rows = m.spanning(); m.e.Null == nil {
		m.null, ok = stats.NullBasis(m.rows, n)
	} else {
		// The null space of the null space is what scores do depend on.
		given := make([][]int64, 0, len(m.e.Null))
		for _, v := range m.e.Null {
			c := make([]int64, n)
			for i, a := range m.at {
				c[i] = v[a]
			}
			given = append(given, c)
		}
		if m.rows, ok = stats.NullBasis(given, n); ok {
			m.null, ok = stats.NullBasis(m.rows, n)
		}
	}
	if !ok {
		return misfit("numbers of swaps")
	}
	m.tied = tied(m.null, n)
	m.apart = make([]bool, n)
	for i := range m.apart {
		m.apart[i] = estimable(m.null, only(i, n))
	}
	return nil
}

// spanning are the differences within blocks, in the model's order.
func (m *model) spanning() [][]int64 {
	rows := make([][]int64, len(m.on))
	var all []int
	for v, on := range m.on {
		rows[v] = whole(on)
		if m.e.Versions[v].Servings > 0 {
			all = append(all, v)
		}
	}
	if m.e.Blocks != nil {
		return differences(rows, m.e.Blocks)
	}
	return differences(rows, [][]int{all})
}

func whole(on []bool) []int64 {
	out := make([]int64, len(on))
	for i, b := range on {
		if b {
			out[i] = 1
		}
	}
	return out
}

func only(i, n int) []bool {
	c := make([]bool, n)
	c[i] = true
	return c
}

// findBars gathers what cannot be on with each swap, for the first 64 swaps.
func (m *model) findBars() {
	place := map[string]int{}
	for i, a := range m.at {
		place[m.e.Swaps[a].ID] = i
	}
	m.bars = make([]uint64, len(m.at))
	for i, a := range m.at {
		s := m.e.Swaps[a]
		for _, id := range slices.Concat(s.Alternatives, s.FailsWith) {
			j, ok := place[id]
			if !ok || j == i || i > 63 || j > 63 {
				continue // a swap that is not in this ledger bars nothing here
			}
			m.bars[i] |= 1 << j
			m.bars[j] |= 1 << i
		}
	}
}

// effect is the sum of the swaps that are on, unknown where it cannot be
// estimated.
func (m *model) effect(on []bool) Interval {
	if m.e.Beta == nil || !estimable(m.null, on) {
		return unknown
	}
	b, v := 0.0, 0.0
	for i, x := range on {
		if !x {
			continue
		}
		b += m.beta[i]
		for j, y := range on {
			if y {
				v += m.cov[i][j]
			}
		}
	}
	return m.interval(b, math.Sqrt(math.Max(v, 0)))
}

// interval puts the 90 % interval round an estimate.
func (m *model) interval(effect, se float64) Interval {
	return Interval{effect, se, effect - m.t*se, effect + m.t*se}
}

// version is the effect of a tasted version: its own difference from the
// original where that was worked out, otherwise the sum of its swaps.
func (m *model) version(v int) Interval {
	if d := m.e.Versions[v].Direct; d != nil {
		return m.interval(d.Effect, d.SE)
	}
	return m.effect(m.on[v])
}

// tPoint is the p point of Student's t; NaN without degrees of freedom.
func tPoint(p, df float64) float64 {
	switch {
	case math.IsInf(df, 1):
		return distuv.UnitNormal.Quantile(p)
	case !(df > 0):
		return math.NaN()
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile(p)
}
