package stats

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mathext"
)

// Points of the lattice for correlations without a common factor: a Kronecker
// sequence of square roots of primes in shifted copies, folded (the baker's
// transform), which makes the mean of smooth functions good to about 1e-5.
const (
	latticePoints = 3000
	latticeCopies = 16
	latticeSeed   = 1955 // fixed, so that the same data give the same p
)

// lattice reckons the tail of max |T_i| for T = L Z / s. Where a one-factor
// correlation is near, whose tail is known exactly, only the difference from it
// is left to the points, and most of their error cancels.
type lattice struct {
	cone    *cone
	control *cone                   // the near one-factor correlation; nil if there is none
	known   func(t float64) float64 // its tail
	s       []float64               // spread at each point, all copies in turn
	u       [][]float64             // folded lattice coordinates of each point
}

func newLattice(corr [][]float64, df float64) *lattice {
	root, order := pivotedRoot(corr)
	l := &lattice{cone: newCone(root)}
	rank := len(root[0])
	if rank == len(corr) {
		l.nearFactor(corr, order, df)
	}
	step := primeRoots(rank)
	dice := rand.New(rand.NewPCG(latticeSeed, 1))
	quantile := spreadTable(df)
	for range latticeCopies {
		shift := make([]float64, rank)
		for k := range shift {
			shift[k] = dice.Float64()
		}
		for n := range latticePoints {
			u := make([]float64, rank)
			for k := range u {
				_, f := math.Modf(shift[k] + float64(n+1)*step[k])
				u[k] = 1 - math.Abs(2*f-1)
			}
			l.s = append(l.s, quantile(u[rank-1]))
			l.u = append(l.u, u)
		}
	}
	return l
}

// nearFactor sets up the control, its rows in the same order as ours.
func (l *lattice) nearFactor(corr [][]float64, order []int, df float64) {
	load := nearLoads(corr)
	near := make([][]float64, len(order))
	for a, i := range order {
		for _, j := range order {
			r := load[i] * load[j]
			if i == j {
				r = 1
			}
			near[a] = append(near[a], r)
		}
	}
	root := rootInOrder(near)
	if root == nil {
		return
	}
	f := newFactorTail(load)
	l.control = newCone(root)
	l.known = func(t float64) float64 {
		return radial(df, func(s float64) float64 { return f.above(t * s) })
	}
}

// above is the mean over the copies and five of its standard errors, with or
// without the control, whichever errs less.
func (l *lattice) above(t float64) (p, leave float64) {
	z := make([]float64, len(l.cone.groups))
	var plain, less []float64
	for c := range latticeCopies {
		sum, off := 0.0, 0.0
		for n := c * latticePoints; n < (c+1)*latticePoints; n++ {
			v := l.cone.point(t*l.s[n], l.u[n], z)
			sum += v
			if l.control != nil {
				off += v - l.control.point(t*l.s[n], l.u[n], z)
			}
		}
		plain, less = append(plain, sum/latticePoints), append(less, off/latticePoints)
	}
	best, base := plain, 0.0
	if l.control != nil && SD(less) < SD(plain) {
		best, base = less, l.known(t)
	}
	p = math.Max(0, math.Min(1, base+Mean(best)))
	return p, 5*SD(best)/math.Sqrt(latticeCopies) + latticeFloor
}

// latticeFloor is what interpolated spreads may be off by whatever the points.
const latticeFloor = 2e-8

// cone is the region |L z| < x for growing x.
type cone struct {
	root   [][]float64
	groups [][]int // rows whose last column is k
}

func newCone(root [][]float64) *cone {
	c := &cone{root: root, groups: make([][]int, len(root[0]))}
	for i, row := range root {
		last := 0
		for k, v := range row {
			if math.Abs(v) > 1e-9 {
				last = k
			}
		}
		c.groups[last] = append(c.groups[last], i)
	}
	return c
}

// point walks through the columns: each narrows where the next normal value may
// lie (Genz 1992, J. Comput. Graph. Stat. 1:141); the chance of staying inside
// everywhere is the product of the widths.
func (c *cone) point(x float64, u, z []float64) float64 {
	inside := 1.0
	for k, rows := range c.groups {
		lo, hi := math.Inf(-1), math.Inf(1)
		for _, i := range rows {
			centre := 0.0
			for j := range k {
				centre += c.root[i][j] * z[j]
			}
			a, b := (-x-centre)/c.root[i][k], (x-centre)/c.root[i][k]
			lo, hi = math.Max(lo, math.Min(a, b)), math.Min(hi, math.Max(a, b))
		}
		if lo >= hi {
			return 1
		}
		low, wide := NormalAbove(-lo), between(lo, hi)
		inside *= wide
		if k+1 < len(c.groups) {
			z[k] = mathext.NormalQuantile(math.Max(1e-300, math.Min(1-1e-16, low+u[k]*wide)))
		}
	}
	return 1 - inside
}

// between is the chance of a standard normal value from lo to hi.
func between(lo, hi float64) float64 {
	if lo > 0 {
		return NormalAbove(lo) - NormalAbove(hi)
	}
	return NormalAbove(-hi) - NormalAbove(-lo)
}

// primeRoots are the fractions of the square roots of the first n primes.
func primeRoots(n int) []float64 {
	var out []float64
	var primes []int
	for c := 2; len(out) < n; c++ {
		prime := true
		for _, p := range primes {
			prime = prime && c%p != 0
		}
		if prime {
			primes = append(primes, c)
			_, f := math.Modf(math.Sqrt(float64(c)))
			out = append(out, f)
		}
	}
	return out
}

// spreadTable inverts the distribution of s = sqrt(chi-square(df)/df) by cubic
// interpolation in a table over the normal scale, on which it is nearly straight.
func spreadTable(df float64) func(u float64) float64 {
	if df > 1e10 { // off by less than the floor below
		return func(float64) float64 { return 1 }
	}
	const reach, steps = 8.5, 400
	width := 2 * reach / steps
	var logs []float64
	for i := range steps + 1 {
		logs = append(logs, math.Log(spreadAt(NormalAbove(-reach+float64(i)*width), df)))
	}
	return func(u float64) float64 {
		z := math.Max(-reach, math.Min(reach, mathext.NormalQuantile(math.Max(1e-17, math.Min(1-1e-16, u)))))
		at := (z + reach) / width
		i := max(1, min(steps-2, int(at)))
		f := at - float64(i)
		a, b, c, d := logs[i-1], logs[i], logs[i+1], logs[i+2]
		return math.Exp(b + f/2*(c-a+f*(2*a-5*b+4*c-d+f*(3*(b-c)+d-a))))
	}
}

// spreadAt is the s exceeded with chance upper.
func spreadAt(upper, df float64) float64 {
	return pointOf(func(s float64) float64 { return Chi2Above(df*s*s, df) }, upper, 1, 1e-14)
}
