package panel

import (
	"math"

	"parewell/analysis/stats"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Score is one sample scored by one taster. The same pair again is a repeat.
type Score struct {
	Panelist, Sample string
	Value            float64
}

// Panelist is what one taster's scores show, in the unit of the scores.
type Panelist struct {
	Name           string
	N              int // scores
	Tasted, Missed int // samples of the panel
	// Mean, SD (NaN for one score), Low and High describe the use of the scale;
	// Level is the mean less that of the others on the same samples (NaN where
	// no sample is shared). Same says that all of several scores are equal.
	Mean, SD, Low, High, Level float64
	Same                       bool
	// Agreement is the correlation of the sample means with those of the others,
	// Slope how far they move when the others' move by 1, both over Shared
	// samples; NaN for fewer than 3 of them or where nothing varies.
	Agreement, Slope float64
	Shared           int
	// F tests whether samples differ against repeats (DF1, DF2, P); NaN without
	// repeats, or where repeats never differ. Repeatability is the SD of repeats,
	// sqrt(MSE); NaN without. Gap is the largest distance between repeats.
	F, P, MSE, Repeatability, Gap float64
	DF1, DF2                      int

	panel *Panel
}

// Range is the highest score less the lowest.
func (p *Panelist) Range() float64 { return p.High - p.Low }

// Panel is all tasters together.
type Panel struct {
	N         int
	Panelists []Panelist // in order of appearance
	Samples   []string   // in order of appearance
	SD        float64    // of all scores
	// Repeatability is the SD of repeats over all tasters on RepeatDF degrees of
	// freedom; NaN without repeats.
	Repeatability float64
	RepeatDF      int
	// Whole is the analysis of variance; nil unless every taster scored every
	// sample equally often, and there are at least two samples.
	Whole *Whole
	// Alike tells that every taster scored each sample as often as the others did:
	// where there is no Whole, a sample was served more often than another.
	Alike bool
}

const (
	// mostScore keeps squares exact enough.
	mostScore = 1e6
	mostCells = 50000
)

// Analyse reads the scores of a panel. Errors (*problem.Error): no scores, a
// score that is no number, a name left out, one taster only, all scores equal,
// more scores than can be taken at once.
func Analyse(scores []Score) (*Panel, error) {
	if err := check(scores); err != nil {
		return nil, err
	}
	g := newCells(scores)
	if len(g.tasters) == 1 {
		return nil, bad("panel.bad.one", g.tasters[0])
	}
	p := &Panel{N: len(scores), Samples: g.samples, Repeatability: math.NaN()}
	all := make([]float64, len(scores))
	for i, s := range scores {
		all[i] = s.Value
	}
	p.SD = stats.SD(all)
	within := 0.0
	for i := range g.tasters {
		t := g.panelist(i)
		t.panel = p
		if t.DF2 > 0 {
			within += t.MSE * float64(t.DF2)
			p.RepeatDF += t.DF2
		}
		p.Panelists = append(p.Panelists, t)
	}
	if p.RepeatDF > 0 {
		p.Repeatability = math.Sqrt(within / float64(p.RepeatDF))
	}
	p.Whole, p.Alike = g.whole(), g.alike()
	return p, nil
}

// alike tells whether every taster scored each sample as often as the others did.
func (g *cells) alike() bool {
	for i := range g.tasters {
		for j := range g.samples {
			if len(g.at[i][j]) != len(g.at[0][j]) {
				return false
			}
		}
	}
	return true
}

func check(scores []Score) error {
	switch {
	case len(scores) == 0:
		return bad("panel.bad.empty")
	case len(scores) > mostCells:
		return bad("panel.bad.rows", mostCells)
	}
	same := true
	for i, s := range scores {
		switch {
		case !(math.Abs(s.Value) <= mostScore):
			return bad("panel.bad.number", i+1)
		case s.Panelist == "" || s.Sample == "":
			return bad("panel.bad.name", i+1)
		}
		same = same && s.Value == scores[0].Value
	}
	if same {
		return bad("panel.bad.same")
	}
	return nil
}

// bad is a fault of the data, with its mend where the sentences have one.
func bad(key string, args ...any) error {
	hint := ""
	if words.Current().Has(key + ".hint") {
		hint = words.Say(key + ".hint")
	}
	return problem.New(words.Say("panel.where"), words.Say(key, args...), hint)
}

// panelist reckons one taster.
func (g *cells) panelist(i int) Panelist {
	p := Panelist{Name: g.tasters[i]}
	var all []float64
	for _, cell := range g.at[i] {
		all = append(all, cell...)
		if len(cell) > 0 {
			p.Tasted++
		}
	}
	p.N, p.Missed = len(all), len(g.samples)-p.Tasted
	p.Mean, p.SD = stats.Mean(all), stats.SD(all)
	p.Low, p.High = ends(all)
	p.Same = p.N > 1 && p.Low == p.High
	p.repeats(g.at[i])
	p.against(g.means[i], g.others(i))
	return p
}

// repeats compares samples with the scatter of repeats of the same sample.
func (p *Panelist) repeats(cell [][]float64) {
	p.Gap, p.F, p.P, p.MSE, p.Repeatability = math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()
	within := 0.0
	for _, scores := range cell {
		if len(scores) < 2 {
			continue
		}
		low, high := ends(scores)
		if !(p.Gap > high-low) {
			p.Gap = high - low
		}
		p.DF2 += len(scores) - 1
		within += float64(len(scores)-1) * math.Pow(stats.SD(scores), 2)
	}
	if p.DF2 == 0 {
		return
	}
	p.MSE = within / float64(p.DF2)
	p.Repeatability = math.Sqrt(p.MSE)
	if r := stats.OneWay(cell); p.Tasted > 1 {
		p.F, p.P, p.DF1 = r.F, r.P, r.DFBetween
	}
}

// against compares the sample means with those of the others.
func (p *Panelist) against(own, others []float64) {
	var a, b []float64
	for j, v := range own {
		if !math.IsNaN(v) && !math.IsNaN(others[j]) {
			a, b = append(a, v), append(b, others[j])
		}
	}
	p.Shared = len(a)
	p.Level = stats.Mean(a) - stats.Mean(b)
	p.Agreement, p.Slope = math.NaN(), math.NaN()
	if len(a) < 3 {
		return
	}
	ma, mb := stats.Mean(a), stats.Mean(b)
	var aa, ab, bb float64
	for j := range a {
		aa += (a[j] - ma) * (a[j] - ma)
		ab += (a[j] - ma) * (b[j] - mb)
		bb += (b[j] - mb) * (b[j] - mb)
	}
	// Below this share of the scale's square a spread is rounding.
	least := 1e-20 * (1 + ma*ma + mb*mb)
	if bb > least {
		p.Slope = ab / bb
	}
	if aa > least && bb > least {
		p.Agreement = math.Max(-1, math.Min(1, ab/math.Sqrt(aa*bb)))
	}
}

func ends(v []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, x := range v {
		low, high = math.Min(low, x), math.Max(high, x)
	}
	return low, high
}
