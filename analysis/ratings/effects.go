package ratings

import "math"

// Effects is the fitted model of swaps, by which other combinations than those
// tasted can be judged.
type Effects struct {
	Swaps []string

	// Beta is a least-squares solution: one of many where swaps are tied (of those
	// some are then 0). Cov is its covariance, pots included, right for sums that
	// can be estimated; NaN without scatter. Both in points.
	Beta []float64
	Cov  [][]float64

	// DF are the degrees of freedom behind Cov: where pots are random the fewest of
	// any swap, and [Effects.Contrast] gives those of a very sum. ResidualSD is the
	// scatter of one score, PotSD that of pots (NaN: no sample was cooked twice).
	DF                float64
	ResidualSD, PotSD float64

	// Null spans the sums of swaps that change no score: a sum c can be estimated
	// exactly when it is at right angles to all of them.
	Null [][]int64

	Versions []Version

	fitted *fitted
}

// Version is one sample of the table of swaps that was served.
type Version struct {
	Name           string
	On             []bool
	Servings, Pots int
}

func (r *Result) effectsOf(f *fitted, p *swapPlan, _ float64) *Effects {
	n := len(p.table.Names)
	e := &Effects{Swaps: p.table.Names, Beta: f.beta[:n:n], DF: f.worst(n), ResidualSD: math.Sqrt(f.residual), PotSD: f.potSD, fitted: f}
	for _, row := range f.covariance()[:n] {
		e.Cov = append(e.Cov, row[:n:n])
	}
	for _, v := range f.null {
		for _, x := range v[:n] {
			if x != 0 {
				e.Null = append(e.Null, v[:n:n])
				break
			}
		}
	}
	pots := make([]int, len(p.whole))
	for _, s := range r.column.potOf {
		pots[s]++
	}
	for s, name := range r.column.samples {
		if on := p.table.On[p.table.row(name)]; on != nil {
			e.Versions = append(e.Versions, Version{name, on, int(r.column.bySample.count[s]), pots[s]})
		}
	}
	return e
}

// Predict is the effect of a combination against the original, in points, with
// its standard error (NaN without scatter). ok is false, and both NaN, when the
// tastings cannot tell it, or the combination has the wrong length.
func (e *Effects) Predict(combination []bool) (effect, se float64, ok bool) {
	c := make([]float64, len(combination))
	for i, on := range combination {
		if on {
			c[i] = 1
		}
	}
	effect, se, _, ok = e.Contrast(c)
	return effect, se, ok
}

// Contrast is a sum of effects, one weight a swap, with its own degrees of
// freedom; see [Effects.Predict].
func (e *Effects) Contrast(c []float64) (effect, se, df float64, ok bool) {
	if len(c) != len(e.Swaps) || !square(e.Null, c) {
		return none, none, none, false
	}
	full := make([]float64, e.fitted.columns)
	copy(full, c)
	v, df := e.fitted.variance(full)
	return dot(c, e.Beta), math.Sqrt(v), df, true
}
