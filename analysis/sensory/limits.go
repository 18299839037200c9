package sensory

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Limits of an unknown share or d-prime.
type Limits struct{ Low, High float64 }

// Exact returns the Clopper-Pearson limits of a share from x of n at a level of
// confidence such as 0.95 (Clopper and Pearson 1934, doi 10.1093/biomet/26.4.404).
func Exact(n, x int, level float64) Limits {
	tail := (1 - level) / 2
	return Limits{exactLow(n, x, tail), exactHigh(n, x, tail)}
}

// exactLow is the share at which x or more of n happen with chance tail.
func exactLow(n, x int, tail float64) float64 {
	if x <= 0 {
		return 0
	}
	return rising(func(p float64) float64 { return AtLeast(n, x, p) }, tail, 0, 1)
}

// exactHigh is the share at which x or fewer of n happen with chance tail.
func exactHigh(n, x int, tail float64) float64 {
	if x >= n {
		return 1
	}
	return rising(func(p float64) float64 { return -AtMost(n, x, p) }, -tail, 0, 1)
}

// rising finds where a rising function reaches a value between low and high, to
// the last digit; it needs no derivative and cannot run away.
func rising(f func(float64) float64, value, low, high float64) float64 {
	for range 200 {
		mid := low + (high-low)/2
		if mid <= low || mid >= high {
			break
		}
		if f(mid) < value {
			low = mid
		} else {
			high = mid
		}
	}
	return low + (high-low)/2
}

// normalPoint is the standard normal's value below which the share p lies.
func normalPoint(p float64) float64 { return mathext.NormalQuantile(p) }

// normalBelow is the standard normal's share below x, exact in both tails.
func normalBelow(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }

func normalDensity(x float64) float64 { return math.Exp(-x*x/2) / math.Sqrt(2*math.Pi) }

// Wilson returns Wilson's limits of a share (Wilson 1927), which are shorter
// than the exact ones and cover at their rate only on average.
func Wilson(n, x int, level float64) Limits {
	z, m := normalPoint(1-(1-level)/2), float64(n)
	p := float64(x) / m
	centre, half := p+z*z/(2*m), z*math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return Limits{(centre - half) / (1 + z*z/m), (centre + half) / (1 + z*z/m)}
}

// WaldShare returns the standards' printed limits of the share who truly tell,
// pd plus and minus z standard errors, and that error. They can lie below 0 and
// are too short for small panels: beside the exact ones only.
func WaldShare(t Test, n, x int, level float64) (Limits, float64) {
	z := normalPoint(1 - (1-level)/2)
	pc := float64(x) / float64(n)
	se := math.Sqrt(pc*(1-pc)/float64(n)) / (1 - t.Guess())
	return Limits{t.Share(pc) - z*se, t.Share(pc) + z*se}, se
}

// likelihoodLimits are the shares at which the log-likelihood of x of n is half
// a chi-square point (1 df) below its top.
func likelihoodLimits(n, x int, level float64) Limits {
	z := normalPoint(1 - (1-level)/2)
	m, k := float64(n), float64(x)
	logL := func(p float64) float64 { return xlogy(k, p) + xlogy(m-k, 1-p) }
	bottom := logL(k/m) - z*z/2
	out := Limits{0, 1}
	if x > 0 {
		out.Low = rising(logL, bottom, 0, k/m)
	}
	if x < n {
		out.High = rising(func(p float64) float64 { return -logL(p) }, -bottom, k/m, 1)
	}
	return out
}

func xlogy(x, y float64) float64 {
	if x == 0 {
		return 0
	}
	return x * math.Log(y)
}
