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
	latticePoints = 5000
	latticeCopies = 16
	latticeSeed   = 1955 // fixed, so that the same data give the same p
)

// lattice reckons the tail of max |T_i| for T = L Z / s.
type lattice struct {
	root   [][]float64 // L, rows grouped by their last column
	groups [][]int     // rows whose last column is k
	s      []float64   // spread at each point, all copies in turn; nil if it is 1
	u      [][]float64 // folded lattice coordinates of each point
}

func newLattice(root [][]float64, df float64) *lattice {
	l := &lattice{root: root}
	rank := len(root[0])
	l.groups = make([][]int, rank)
	for i, row := range root {
		last := 0
		for k, v := range row {
			if math.Abs(v) > 1e-9 {
				last = k
			}
		}
		l.groups[last] = append(l.groups[last], i)
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

// above is the mean over the copies and five of its standard errors.
func (l *lattice) above(t float64) (p, leave float64) {
	z := make([]float64, len(l.groups))
	var copies []float64
	for c := range latticeCopies {
		sum := 0.0
		for n := c * latticePoints; n < (c+1)*latticePoints; n++ {
			sum += l.point(t*l.s[n], l.u[n], z)
		}
		copies = append(copies, sum/latticePoints)
	}
	p = Mean(copies)
	return math.Max(0, math.Min(1, p)), 5*SD(copies)/math.Sqrt(latticeCopies) + 1e-8
}

// point walks through the columns: each narrows where the next normal value may
// lie (Genz 1992, J. Comput. Graph. Stat. 1:141); the chance of staying inside
// everywhere is the product of the widths.
func (l *lattice) point(x float64, u, z []float64) float64 {
	inside := 1.0
	for k, rows := range l.groups {
		lo, hi := math.Inf(-1), math.Inf(1)
		for _, i := range rows {
			centre := 0.0
			for j := range k {
				centre += l.root[i][j] * z[j]
			}
			a, b := (-x-centre)/l.root[i][k], (x-centre)/l.root[i][k]
			lo, hi = math.Max(lo, math.Min(a, b)), math.Min(hi, math.Max(a, b))
		}
		if lo >= hi {
			return 1
		}
		low, wide := NormalAbove(-lo), between(lo, hi)
		inside *= wide
		if k+1 < len(l.groups) {
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
	if math.IsInf(df, 1) {
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
	return pointOf(func(s float64) float64 { return Chi2Above(df*s*s, df) }, upper, 1)
}

// pivotedRoot is L with L L' = c and as many columns as c has rank, the largest
// remaining variance taken first; nil if c has a negative direction.
func pivotedRoot(c [][]float64) [][]float64 {
	m := len(c)
	left := make([]float64, m) // variance not yet accounted for
	root := make([][]float64, m)
	for i := range left {
		left[i] = c[i][i]
	}
	for range m {
		best := 0
		for i, v := range left {
			if v < -1e-7 {
				return nil
			}
			if v > left[best] {
				best = i
			}
		}
		if left[best] < 1e-10 {
			break
		}
		addColumn(c, root, left, best)
	}
	for i := range m {
		for j := range i {
			if math.Abs(inner(root[i], root[j])-c[i][j]) > 1e-6 {
				return nil
			}
		}
	}
	return root
}

func addColumn(c, root [][]float64, left []float64, pivot int) {
	top := math.Sqrt(left[pivot])
	next := make([]float64, len(c))
	for i := range c {
		next[i] = (c[i][pivot] - inner(root[i], root[pivot])) / top
		if left[i] < 1e-10 {
			next[i] = 0
		}
	}
	for i, v := range next {
		root[i] = append(root[i], v)
		left[i] -= v * v
	}
}

func inner(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
