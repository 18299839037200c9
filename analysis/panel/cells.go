package panel

import (
	"math"

	"parewell/analysis/stats"
)

// cells are the scores by taster and sample.
type cells struct {
	tasters, samples []string
	at               [][][]float64
	means            [][]float64 // NaN where a taster has not had a sample
}

func newCells(scores []Score) *cells {
	g := &cells{}
	taster, sample := map[string]int{}, map[string]int{}
	for _, s := range scores {
		if _, ok := taster[s.Panelist]; !ok {
			taster[s.Panelist] = len(g.tasters)
			g.tasters = append(g.tasters, s.Panelist)
		}
		if _, ok := sample[s.Sample]; !ok {
			sample[s.Sample] = len(g.samples)
			g.samples = append(g.samples, s.Sample)
		}
	}
	g.at = make([][][]float64, len(g.tasters))
	for i := range g.at {
		g.at[i] = make([][]float64, len(g.samples))
	}
	for _, s := range scores {
		i, j := taster[s.Panelist], sample[s.Sample]
		g.at[i][j] = append(g.at[i][j], s.Value)
	}
	for i := range g.at {
		row := make([]float64, len(g.samples))
		for j, cell := range g.at[i] {
			row[j] = stats.Mean(cell) // NaN for none
		}
		g.means = append(g.means, row)
	}
	return g
}

// others are the sample means of all tasters but one, NaN for a sample none of
// them had. Where tasters had different samples, their levels are taken out by
// fitting level and sample in turn; in complete data that is the plain mean.
func (g *cells) others(not int) []float64 {
	level := make([]float64, len(g.means))
	sample := make([]float64, len(g.samples))
	grand := 0.0
	for range 200 {
		grand = g.fitLevels(not, level, sample)
		if g.fitSamples(not, level, sample) < 1e-13*(1+math.Abs(grand)) {
			break
		}
	}
	for j := range sample {
		sample[j] += grand
	}
	return sample
}

// fitLevels sets each taster's level given the samples, and returns their mean.
func (g *cells) fitLevels(not int, level, sample []float64) float64 {
	sum, tasters := 0.0, 0.0
	for i, row := range g.means {
		if i == not {
			continue
		}
		s, n := 0.0, 0.0
		for j, v := range row {
			if !math.IsNaN(v) {
				s, n = s+v-sample[j], n+1
			}
		}
		level[i] = s / n
		sum, tasters = sum+level[i], tasters+1
	}
	return sum / tasters
}

// fitSamples sets each sample's shift given the levels, and returns the largest
// change; NaN for a sample nobody else had.
func (g *cells) fitSamples(not int, level, sample []float64) float64 {
	moved := 0.0
	for j := range sample {
		s, n := 0.0, 0.0
		for i, row := range g.means {
			if i != not && !math.IsNaN(row[j]) {
				s, n = s+row[j]-level[i], n+1
			}
		}
		if shift := s / n; n > 0 {
			moved = math.Max(moved, math.Abs(shift-sample[j]))
			sample[j] = shift
		} else {
			sample[j] = math.NaN()
		}
	}
	return moved
}
