package ratings

import (
	"math"
	"slices"
)

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
	column *column
	levels []float64 // of the samples, as factor
}

// Version is one sample of the table of swaps that was served.
type Version struct {
	Name           string
	On             []bool
	Servings, Pots int
}

func (r *Result) effectsOf(f *fitted, p *swapPlan) *Effects {
	n := len(p.table.Names)
	e := &Effects{Swaps: p.table.Names, Beta: f.beta[:n:n], DF: f.worst(n), ResidualSD: math.Sqrt(f.residual), PotSD: f.potSD, fitted: f, column: r.column, levels: r.fit.effect}
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

// Direct is a sample less another as they were scored, whatever their swaps: the
// figures of Result.AgainstOriginal, but with what pots add to the error where
// pots are known, and of this comparison alone. ok is false when no chain of
// panelists joins them.
func (e *Effects) Direct(sample, original string) (effect, se, df float64, ok bool) {
	a, b := slices.Index(e.column.samples, sample), slices.Index(e.column.samples, original)
	l, f := e.column.bySample, e.fitted
	if a < 0 || b < 0 || a == b || !l.joined(a, b) {
		return none, none, none, false
	}
	v, df := l.between(a, b)*f.residual, f.dfResidual
	if f.pots != nil {
		part := e.potShare(a, b) / f.pots.around
		v, df = welch(part*f.around, f.dfAround, (l.between(a, b)-part)*f.residual, f.dfResidual)
	}
	return e.levels[a] - e.levels[b], math.Sqrt(v), df, true
}

// potShare is the pots' variance in a difference of samples: the sum of squares
// of the weights that least squares gives each pot.
func (e *Effects) potShare(a, b int) float64 {
	inv, sum := e.column.bySample.inv, 0.0
	for _, row := range e.column.byPot.info {
		w := 0.0
		for j, v := range row {
			s := e.column.potOf[j]
			w += v * (inv[s][a] - inv[s][b])
		}
		sum += w * w
	}
	return sum
}
