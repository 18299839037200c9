package sensory

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/mathext"
)

// The tests share one scale, d-prime: how far two samples lie apart in units of
// the scatter of one taste (equal-variance normal, one dimension). Each test
// turns it into a share of right answers in its own way: 2-AFC and 3-AFC by
// the strongest, triangle and duo-trio by the nearest two, tetrad by two pairs.
// Ura 1960, David and Trivedi 1962, Ennis 1993 (J. Sens. Stud. 8:353), Ennis
// and Jesionka 2011 (J. Sens. Stud. 26:371).

// slope is the derivative of the share of right answers by d-prime. All five
// integrals of products of normal densities have these closed forms.
func (t Test) slope(d float64) float64 {
	half, sixth := d/math.Sqrt2, d/math.Sqrt(6)
	switch t {
	case TwoAFC, Preference:
		return normalDensity(half) / math.Sqrt2
	case ThreeAFC:
		return math.Sqrt2 * normalDensity(half) * normalBelow(sixth)
	case DuoTrio:
		return normalDensity(half)/math.Sqrt2*(2*normalBelow(sixth)-1) +
			normalDensity(sixth)/math.Sqrt(6)*(2*normalBelow(half)-1)
	case Triangle:
		return math.Sqrt(2.0/3) * normalDensity(sixth) * (2*normalBelow(half) - 1)
	case Tetrad:
		return 2 * math.Sqrt2 * normalDensity(half) * (2*normalBelow(sixth) - 1)
	}
	return math.NaN()
}

// panelNodes are Gauss-Legendre points and weights on 0...1; panels are
// panelWidth wide, where the slopes are smooth to the last digit.
const panelWidth = 2.0

var panelNodes, panelWeights = func() ([]float64, []float64) {
	x, w := make([]float64, 24), make([]float64, 24)
	quad.Legendre{}.FixedLocations(x, w, 0, 1)
	return x, w
}()

// integrate sums f from low to high in panels at most width wide.
func integrate(f func(float64) float64, low, high, width float64) float64 {
	if !(high > low) {
		return 0
	}
	panels := math.Ceil((high - low) / width)
	step := (high - low) / panels
	sum := 0.0
	for i := range int(panels) {
		from := low + float64(i)*step
		for j, x := range panelNodes {
			sum += panelWeights[j] * step * f(from+x*step)
		}
	}
	return sum
}

// AtDPrime is the share of right answers at d-prime d >= 0.
func (t Test) AtDPrime(d float64) float64 {
	half, sixth := normalBelow(d/math.Sqrt2), normalBelow(d/math.Sqrt(6))
	switch t {
	case TwoAFC, Preference:
		return half
	case DuoTrio:
		return 1 - half - sixth + 2*half*sixth
	}
	return t.Guess() + integrate(t.slope, 0, d, panelWidth)
}

// mostDPrime is beyond what any count tells from "all right".
const mostDPrime = 40

// DPrime is the d-prime at which the share of right answers is pc: 0 at or
// below guessing; ok is false when all are right (no end to it) or the test has
// no d-prime.
func (t Test) DPrime(pc float64) (d float64, ok bool) {
	switch {
	case !t.Counts() || math.IsNaN(pc) || pc >= 1:
		return math.NaN(), false
	case pc <= t.Guess():
		return 0, true
	}
	high := 1.0
	for high < mostDPrime && t.AtDPrime(high) < pc {
		high *= 2
	}
	return rising(t.AtDPrime, pc, 0, high), true
}

// DPrimeSE is the standard error of the d-prime of x of n by the delta method
// (Bi, Ennis and O'Mahony 1997, doi 10.1111/j.1745-459X.1997.tb00055.x); ok is
// false at or below guessing and when all are right.
func (t Test) DPrimeSE(n, x int) (se float64, ok bool) {
	pc := float64(x) / float64(n)
	d, ok := t.DPrime(pc)
	if !ok || d == 0 {
		return math.NaN(), false
	}
	return math.Sqrt(pc*(1-pc)/float64(n)) / t.slope(d), true
}

// DPrimeExact maps the exact limits of the share of right answers to d-prime;
// High is +Inf when all are right. Two-sided limits at 0.95 can touch 0 while
// the one-sided test at 0.05 shows a difference.
func (t Test) DPrimeExact(n, x int, level float64) Limits { return t.mapped(Exact(n, x, level)) }

// DPrimeLikelihood is the same from the likelihood.
func (t Test) DPrimeLikelihood(n, x int, level float64) Limits {
	return t.mapped(likelihoodLimits(n, x, level))
}

func (t Test) mapped(pc Limits) Limits {
	at := func(p float64) float64 {
		if d, ok := t.DPrime(p); ok {
			return d
		}
		return math.Inf(1)
	}
	return Limits{at(pc.Low), at(pc.High)}
}

// Sameness compares d-primes of several tests: are they one and the same?
type Sameness struct {
	Pooled, SE float64 // the common d-prime, weighted by precision
	Chi2       float64
	DF         int
	P          float64
}

// CompareDPrimes weighs estimates by their standard errors and tests whether
// they differ (chi-square of heterogeneity).
func CompareDPrimes(d, se []float64) Sameness {
	var sumW, sumWD float64
	for i := range d {
		w := 1 / (se[i] * se[i])
		sumW += w
		sumWD += w * d[i]
	}
	s := Sameness{Pooled: sumWD / sumW, SE: 1 / math.Sqrt(sumW), DF: len(d) - 1}
	for i := range d {
		z := (d[i] - s.Pooled) / se[i]
		s.Chi2 += z * z
	}
	s.P = mathext.GammaIncRegComp(float64(s.DF)/2, s.Chi2/2)
	return s
}
