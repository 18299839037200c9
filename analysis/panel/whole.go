package panel

import (
	"math"

	"parewell/analysis/stats"
)

// Term is one line of the analysis of variance; MS is NaN on 0 degrees.
type Term struct {
	DF     int
	SS, MS float64
}

// Test is an F ratio with its tail; NaN where its divisor is 0 or unknown.
type Test struct{ F, P float64 }

// Whole is the analysis of variance of a complete panel. Samples and tasters are
// tested against how differently tasters see the samples (tasters stand for
// others like them), and that against repeats.
type Whole struct {
	Tasters, Samples, Interaction, Error Term
	OfTasters, OfSamples, OfInteraction  Test
}

// whole is nil unless all cells hold equally many scores and there are at least
// two samples.
func (g *cells) whole() *Whole {
	a, b, r := len(g.tasters), len(g.samples), len(g.at[0][0])
	if b < 2 || r == 0 {
		return nil
	}
	column := make([]float64, b)
	row := make([]float64, a)
	within := 0.0
	for i := range g.at {
		for j, cell := range g.at[i] {
			if len(cell) != r {
				return nil
			}
			m := g.means[i][j]
			row[i] += m / float64(b)
			column[j] += m / float64(a)
			for _, v := range cell {
				within += (v - m) * (v - m)
			}
		}
	}
	grand := stats.Mean(row)
	both := 0.0
	for i := range g.at {
		for j, m := range g.means[i] {
			both += square(m - row[i] - column[j] + grand)
		}
	}
	n := float64(r)
	w := &Whole{
		Tasters:     term(a-1, n*float64(b)*around(row, grand)),
		Samples:     term(b-1, n*float64(a)*around(column, grand)),
		Interaction: term((a-1)*(b-1), n*both),
		Error:       term(a*b*(r-1), within),
	}
	w.OfTasters, w.OfSamples = w.Tasters.over(w.Interaction), w.Samples.over(w.Interaction)
	w.OfInteraction = w.Interaction.over(w.Error)
	return w
}

func term(df int, ss float64) Term {
	if df == 0 {
		return Term{0, ss, math.NaN()}
	}
	return Term{df, ss, ss / float64(df)}
}

// over tests one term on another.
func (t Term) over(e Term) Test {
	// A divisor of rounding only is none.
	if !(e.MS > 1e-14*t.MS) || t.DF == 0 {
		return Test{math.NaN(), math.NaN()}
	}
	f := t.MS / e.MS
	return Test{f, stats.FAbove(f, float64(t.DF), float64(e.DF))}
}

func around(v []float64, m float64) float64 {
	s := 0.0
	for _, x := range v {
		s += square(x - m)
	}
	return s
}

func square(x float64) float64 { return x * x }
