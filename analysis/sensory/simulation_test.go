package sensory

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Simulations are seeded; each counts how often something happens and holds it
// to what the planner promised, within four standard errors of the counting.

func near(t *testing.T, what string, hits, runs int, want float64) {
	t.Helper()
	got, se := float64(hits)/float64(runs), math.Sqrt(want*(1-want)/float64(runs))
	if math.Abs(got-want) > 4*se+1e-9 {
		t.Errorf("%s: %.4f of %d runs, planner says %.4f", what, got, runs, want)
	}
}

func binomial(r *rand.Rand, n int, p float64) int {
	x := 0
	for range n {
		if r.Float64() < p {
			x++
		}
	}
	return x
}

// TestSimulatedCounts: the decision rules applied to simulated panels.
func TestSimulatedCounts(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	const runs = 20000
	for _, c := range []struct {
		test Test
		n    int
		pd   float64
	}{
		{Triangle, 24, 0}, {Triangle, 24, 0.4}, {DuoTrio, 32, 0.3}, {Tetrad, 30, 0.35}, {TwoAFC, 8, 0.7}, {Preference, 20, 0}, {Preference, 20, 0.5},
	} {
		pc := c.test.Right(c.pd)
		shown, similar, covered := 0, 0, 0
		for range runs {
			x := binomial(r, c.n, pc)
			if reached(PGuess(c.test, c.n, x), 0.05) {
				shown++
			}
			if reached(PSimilar(c.test, c.n, x, 0.4), 0.05) {
				similar++
			}
			if l := Exact(c.n, x, 0.95); l.Low <= pc && pc <= l.High {
				covered++
			}
		}
		near(t, string(c.test)+" shown", shown, runs, Power(c.test, c.n, 0.05, pc))
		if x, ok := MaxCorrect(c.test, c.n, 0.4, 0.05); ok {
			near(t, string(c.test)+" similar", similar, runs, AtMost(c.n, x, pc))
		}
		if c.pd == 0 && float64(shown) > 0.055*runs {
			t.Errorf("%s: shown in %d of %d panels that only guess", c.test, shown, runs)
		}
		if float64(covered) < 0.945*runs {
			t.Errorf("%s: exact limits cover in %d of %d", c.test, covered, runs)
		}
	}
}

// TestSimulatedTasting: tasters with a normal scatter of taste follow each
// test's rule; the share of right answers is the psychometric function's.
func TestSimulatedTasting(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	const runs = 200000
	for _, d := range []float64{0, 0.8, 1.7} {
		for _, k := range []Test{Triangle, DuoTrio, Tetrad, TwoAFC, ThreeAFC} {
			right := 0
			for range runs {
				if tastes(k, d, r) {
					right++
				}
			}
			near(t, string(k), right, runs, k.AtDPrime(d))
		}
	}
}

// tastes plays one tray: samples A around 0, B around d.
func tastes(k Test, d float64, r *rand.Rand) bool {
	a, a2, b, b2 := r.NormFloat64(), r.NormFloat64(), d+r.NormFloat64(), d+r.NormFloat64()
	switch k {
	case Triangle: // the odd one is what is left of the nearest two
		return math.Abs(a-a2) < math.Min(math.Abs(a-b), math.Abs(a2-b))
	case DuoTrio: // a is the open sample
		return math.Abs(a-a2) < math.Abs(a-b)
	case Tetrad: // the two lowest are put together
		return math.Max(a, a2) < math.Min(b, b2) || math.Max(b, b2) < math.Min(a, a2)
	case ThreeAFC:
		return b > math.Max(a, a2)
	}
	return b > a
}

// TestSimulatedLiking: panels scored with a personal level, a sample effect and
// normal scatter; the block analysis decides as the planner says.
func TestSimulatedLiking(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	const runs, scatter = 6000, 1.4
	for _, c := range []struct{ n, samples int }{{8, 4}, {12, 2}, {24, 5}} {
		p := NewLikingPlan(c.n, c.samples, scatter)
		drop, limit, equal := p.Notice(0.05, 0.8), p.Limit(0.05, 0.8), p.Equal(0.05, 0.8)
		noticed, wrong, within, same := 0, 0, 0, 0
		for range runs {
			diff, se := analysed(c.n, c.samples, scatter, r)
			bound := tPoint(0.025/float64(c.samples-1), p.DF) * se
			if math.Abs(diff-drop) > bound {
				noticed++
			}
			if math.Abs(diff) > bound {
				wrong++
			}
			side := tPoint(0.05, p.DF) * se
			if diff-side > -limit {
				within++
			}
			if math.Abs(diff)+side < equal {
				same++
			}
		}
		near(t, "noticed", noticed, runs, 0.8)
		near(t, "noticed though nothing was lost", wrong, runs, 0.05/float64(c.samples-1))
		near(t, "within the limit", within, runs, 0.8)
		near(t, "equal", same, runs, 0.8)
	}
}

// analysed simulates one panel whose samples are all liked alike and returns
// sample 1 less sample 0 with its standard error from panelist + sample.
func analysed(n, samples int, scatter float64, r *rand.Rand) (diff, se float64) {
	cells := make([][]float64, n)
	mean := make([]float64, samples)
	grand := 0.0
	for i := range cells {
		level := 6 + 1.5*r.NormFloat64()
		cells[i] = make([]float64, samples)
		for j := range cells[i] {
			cells[i][j] = level + scatter*r.NormFloat64()
			mean[j] += cells[i][j] / float64(n)
			grand += cells[i][j] / float64(n*samples)
		}
	}
	ss := 0.0
	for _, row := range cells {
		own := 0.0
		for _, v := range row {
			own += v / float64(samples)
		}
		for j, v := range row {
			e := v - own - mean[j] + grand
			ss += e * e
		}
	}
	ms := ss / float64((n-1)*(samples-1))
	return mean[1] - mean[0], math.Sqrt(2 * ms / float64(n))
}
