package mixed

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

const (
	// mostSteps is far above the 5 to 15 Newton steps that data need.
	mostSteps = 100
	// settled ends the search: twice the log likelihood still to be gained, so
	// that variances are within 1e-8 of their own standard errors.
	settled = 1e-16
	// runaway is a variance over the residual's that only scores without any
	// scatter of their own reach: a residual variance on its way to 0.
	runaway = 1e5
)

// grid are the relative variances tried for a start, factor by factor.
var grid = []float64{0, 0.05, 0.25, 1, 4, 30}

// begin is the best of a coarse search, so that the climb starts on the right hill.
func begin(d *products) *profile {
	ratio := make([]float64, len(d.order))
	for i := range ratio {
		ratio[i] = 0.25
	}
	best := newProfile(d, ratio)
	for range 2 {
		for i := range ratio {
			for _, g := range grid {
				ratio[i] = g
				if p := newProfile(d, ratio); p.ok && (!best.ok || p.deviance < best.deviance) {
					best = p
				}
			}
			copy(ratio, best.ratio)
		}
	}
	return best
}

// optimise climbs to the highest restricted likelihood, variances staying at or
// above 0.
func optimise(d *products) (*profile, *slope, error) {
	p := begin(d)
	if !p.ok {
		return nil, nil, bad("mixed.bad.no-scatter")
	}
	for range mostSteps {
		if most(p.ratio) > runaway {
			return nil, nil, bad("mixed.bad.no-scatter")
		}
		s := p.slope(d)
		step, gain := s.step(p)
		if math.IsNaN(gain) {
			break
		}
		if gain <= settled {
			return p, s, nil
		}
		next := p.search(d, step)
		if next == nil {
			// No better point along the way: rounding has the last word
			// when next to nothing was to be gained, else the search failed.
			if gain < 1e-9 {
				return p, s, nil
			}
			break
		}
		p = next
	}
	return nil, nil, bad("mixed.bad.unsettled")
}

// search goes along a step, halving it until the deviance does not rise.
func (p *profile) search(d *products, step []float64) *profile {
	for t := 1.0; t > 1e-9; t /= 2 {
		residual := math.Max(0.1*p.variance, p.variance+t*step[0])
		ratio := make([]float64, len(p.ratio))
		for i, r := range p.ratio {
			ratio[i] = math.Max(0, r*p.variance+t*step[i+1]) / residual
		}
		next := newProfile(d, ratio)
		if next.ok && next.deviance <= p.deviance+1e-12*(1+math.Abs(p.deviance)) {
			return next
		}
	}
	return nil
}

// step is Newton's, in the variances; factors at 0 that would go below stay.
// gain is twice the log likelihood it promises.
func (s *slope) step(p *profile) (step []float64, gain float64) {
	free := []int{0}
	for i, r := range p.ratio {
		if r > 0 || s.score[i+1]*p.variance > 1e-10 {
			free = append(free, i+1)
		}
	}
	for {
		step, gain = s.within(free)
		var stay []int
		for _, i := range free {
			if i == 0 || p.ratio[i-1] > 0 || step[i] > 0 {
				stay = append(stay, i)
			}
		}
		if len(stay) == len(free) {
			return step, gain
		}
		free = stay
	}
}

// within solves for the step over the free variances: by the observed
// information where it curves the right way, else by the expected one; gain is
// NaN when neither can be solved.
func (s *slope) within(free []int) (step []float64, gain float64) {
	step = make([]float64, len(s.score))
	score := mat.NewVecDense(len(free), nil)
	for i, f := range free {
		score.SetVec(i, s.score[f])
	}
	var chol mat.Cholesky
	if !chol.Factorize(pick(s.observed, free)) && !chol.Factorize(pick(s.expected, free)) {
		return step, math.NaN()
	}
	var out mat.VecDense
	if chol.SolveVecTo(&out, score) != nil && !finite(out.RawVector().Data) {
		return step, math.NaN()
	}
	for i, f := range free {
		step[f] = out.AtVec(i)
		gain += out.AtVec(i) * s.score[f]
	}
	return step, gain
}

func most(v []float64) float64 {
	m := 0.0
	for _, x := range v {
		m = math.Max(m, x)
	}
	return m
}
