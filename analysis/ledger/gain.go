package ledger

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"parewell/analysis/stats"
)

// information is the inverse of the covariance on what can be estimated, zero
// on the rest.
func (m *model) information() [][]float64 {
	if m.e.Beta == nil {
		return square(len(m.at))
	}
	return inverseOn(m.cov, m.null)
}

// inverseOn inverts a symmetric matrix on the space square to the null vectors.
func inverseOn(a [][]float64, null [][]int64) [][]float64 {
	n := len(a)
	out := square(n)
	q := complement(null, n)
	r := len(q)
	if r == 0 {
		return out
	}
	inner := mat.NewSymDense(r, nil)
	for i := range r {
		for j := i; j < r; j++ {
			inner.SetSym(i, j, form(q[i], a, q[j]))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(inner) { // no scatter at all: as good as exact
		for i := range r {
			inner.SetSym(i, i, inner.At(i, i)+1e-9)
		}
		if !chol.Factorize(inner) {
			return out
		}
	}
	var inv mat.SymDense
	if chol.InverseTo(&inv) != nil {
		return out
	}
	for s := range r {
		for t := range r {
			v := inv.At(s, t)
			for i := range n {
				for j := range n {
					out[i][j] += q[s][i] * v * q[t][j]
				}
			}
		}
	}
	return out
}

func form(a []float64, m [][]float64, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		for j, y := range b {
			sum += x * m[i][j] * y
		}
	}
	return sum
}

// complement is an orthonormal basis of what is square to the null vectors.
func complement(null [][]int64, n int) [][]float64 {
	var all [][]float64
	join := func(v []float64) bool {
		for range 2 { // twice is enough
			for _, u := range all {
				d := dot(u, v)
				for i := range v {
					v[i] -= d * u[i]
				}
			}
		}
		l := math.Sqrt(dot(v, v))
		if l < 1e-8 {
			return false
		}
		for i := range v {
			v[i] /= l
		}
		all = append(all, v)
		return true
	}
	for _, v := range null {
		f := make([]float64, n)
		for i, x := range v {
			f[i] = float64(x)
		}
		join(f)
	}
	known := len(all)
	for i := range n {
		f := make([]float64, n)
		f[i] = 1
		join(f)
	}
	return all[known:]
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}

// weigh works out what a design would tell of the swaps asked about, by exact
// arithmetic what it would tell apart; nil when it tells nothing.
func (s *search) weigh(design []uint32, pots int, asked []int) *offer {
	m := s.m
	on := make([][]bool, len(design))
	rows := make([][]int64, len(design))
	block := make([]int, len(design))
	for i, mask := range design {
		on[i] = s.ticks(mask)
		rows[i], block[i] = whole(on[i]), i
	}
	null, ok := stats.NullBasis(slices.Concat(m.rows, differences(rows, [][]int{block})), len(m.at))
	if !ok {
		return nil
	}
	cov := inverseOn(s.after(on, s.perMean(pots)), null)
	t := tPoint(Level+(1-Level)/2, positive(m.e.DF)+float64((s.ask.Tasters-1)*(len(design)-1)))
	o := &offer{design: design, pots: pots}
	for _, i := range asked {
		o.gain(m, i, s.ask.Limit, estimable(null, only(i, len(m.at))), t*math.Sqrt(math.Max(cov[i][i], 0)))
	}
	slices.SortFunc(o.gains, func(a, b Gain) int { return a.Swap - b.Swap })
	if o.told < 1e-9 && o.separates == 0 {
		return nil
	}
	return o
}

func positive(df float64) float64 {
	if df > 0 {
		return df
	}
	return 0
}

// after is all the information there will be.
func (s *search) after(on [][]bool, variance float64) [][]float64 {
	n := len(s.m.at)
	out := square(n)
	mean := make([]float64, n)
	for _, x := range on {
		for i, b := range x {
			if b {
				mean[i] += 1 / float64(len(on))
			}
		}
	}
	centred := make([]float64, n)
	for i := range out {
		copy(out[i], s.info[i])
	}
	for _, x := range on {
		for i, b := range x {
			if centred[i] = -mean[i]; b {
				centred[i] = 1 - mean[i]
			}
		}
		for i, a := range centred {
			for j, b := range centred {
				out[i][j] += a * b / variance
			}
		}
	}
	return out
}

// usualHalf stands for what is thought of a swap before anything is known: a
// swap seldom moves liking by more than two points (from memory).
const usualHalf = 2.0

// gain adds what is told of swap i.
func (o *offer) gain(m *model, i int, limit float64, apart bool, half float64) {
	g := Gain{Swap: m.at[i], Name: m.e.Swaps[m.at[i]].Name, Effect: math.NaN(), Before: math.NaN(), After: math.NaN()}
	now := m.effect(only(i, len(m.at)))
	if m.apart[i] && m.e.tasted(m.at[i]) {
		g.Effect, g.Before = now.Effect, now.Half()
	}
	if apart {
		g.After = half
		g.Separates = !m.apart[i]
		g.Settles = !math.IsNaN(g.Effect) && !Of(now, limit).Settled() &&
			Of(Interval{Effect: g.Effect, Low: g.Effect - half, High: g.Effect + half}, limit).Settled()
		before := g.Before
		if math.IsNaN(before) {
			before = usualHalf
		}
		if half > 0 && before > half {
			o.told += math.Log(before / half)
		}
	}
	if g.Separates {
		o.separates++
	}
	if g.Settles {
		o.settles++
	}
	o.gains = append(o.gains, g)
}
