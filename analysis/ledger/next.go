package ledger

import (
	"context"
	"math"
	"slices"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Ask is what the cook wants of the next version and the next tasting.
type Ask struct {
	Nutrient   string
	Limit      float64 // judged against; 0 the recorded one
	Swaps      []int   // asked about; nil all that are not settled
	Tasters    int     // 0 Evidence.Panelists, and 12 where that is not known either
	MaxSamples int     // 2 to 8; 0 is 5
	Cups       int     // most cups for one taster, each pot of a sample one; 0 no bound
	Repeat     bool    // where nothing else is cooked twice the original is, so that a pot can be told from a swap

	// Scatter of one taster's score, points, where no tasting has shown it yet;
	// 0 is 1.4 (typical on nine points: 1.2 to 1.9).
	Scatter float64

	// Score names what is judged where it is not how much the dish is liked;
	// NoPromise tells that more of it is not better, so that no version is best.
	Score     string
	NoPromise bool

	WithoutOriginal bool // the original need not be among the samples
	Seed            uint64
}

const (
	usualTasters = 12  // common practice, no source
	usualSamples = 5   // common practice, no source
	mostSamples  = 8   // common practice, no source: palates tire
	usualScatter = 1.4 // the planner's: sensory.UsualScatter, which has the sources
)

// Plan offers what to cook and taste next.
type Plan struct {
	Promised *Combo   // best combination nobody has tasted; nil where none is to be had
	Beaten   bool     // there is no Promised because what was tasted is better than all that can be predicted
	Instead  *Combo   // tasted, and takes more off within the limit than Promised; nil none
	Tasting  *Tasting // tells most of what was asked; nil nothing is left to tell
	limit    float64
	score    string
	lacks    string // ingredients without a figure, where no saving is known
	silent   bool   // nothing is promised: more is not better
}

// Tasting is a proposed tasting of fresh pots.
type Tasting struct {
	Samples        []Sample
	Tasters        int
	Pots, Servings int
	Gains          []Gain // what it would tell of each swap asked about
}

// Sample is one version to serve.
type Sample struct {
	On      []bool // in the order of Evidence.Swaps; nothing on is the original
	Names   []string
	Version int // in Evidence.Versions with just these swaps; -1 is to be drafted
	Pots    int // to cook of it
}

// Gain is what a tasting would tell of one swap: half widths of its 90 %
// interval now and afterwards, in points.
type Gain struct {
	Swap          int
	Name          string
	Separates     bool    // it could not be judged before and can be afterwards
	Settles       bool    // a verdict would come out if the effect is what it seems now
	Effect        float64 // as it seems now; NaN not known
	Before, After float64 // NaN not known
}

// Next finds the version that promises most and the tasting that tells most,
// with the fewest samples and pots that tell as much. Errors: too many swaps,
// evidence that does not fit together, and the context's.
func Next(ctx context.Context, e *Evidence, ask Ask) (*Plan, error) {
	m, err := newModel(e)
	if err != nil {
		return nil, err
	}
	ask = m.filled(ask)
	t, err := m.best(ctx, Goal{Nutrient: ask.Nutrient, Limit: ask.Limit, Keep: 1})
	if err != nil {
		return nil, err
	}
	p := &Plan{Promised: t.promised, Beaten: t.beaten, limit: ask.Limit, score: ask.Score, lacks: t.Lacks, silent: ask.NoPromise}
	if ask.NoPromise {
		p.Promised, p.Beaten = nil, false
	} else if f := t.ForLimit; f != nil && f.Standing == StandsTasted {
		p.Instead = f
	}
	p.Tasting, err = m.tasting(ctx, ask)
	return p, err
}

// filled puts what is usual where nothing was said.
func (m *model) filled(a Ask) Ask {
	if a.Limit = set(a.Limit); a.Limit == 0 {
		a.Limit = set(m.e.Limit)
	}
	if a.Tasters < 2 {
		a.Tasters = m.e.Panelists
	}
	if a.Tasters < 2 {
		a.Tasters = usualTasters
	}
	if a.MaxSamples == 0 {
		a.MaxSamples = usualSamples
	}
	a.MaxSamples = min(max(a.MaxSamples, 2), mostSamples)
	if m.e.ResidualSD > 0 {
		a.Scatter = m.e.ResidualSD
	}
	if !(a.Scatter > 0) {
		a.Scatter = usualScatter
	}
	return a
}

// asked are the swaps (of the model) asked about that can be cooked.
func (m *model) asked(a Ask) (out []int) {
	for i, at := range m.at {
		if m.skipped[i] || a.Swaps != nil && !slices.Contains(a.Swaps, at) {
			continue
		}
		if a.Swaps != nil || !m.verdict(i, a.Limit, "").Kind.Settled() {
			out = append(out, i)
		}
	}
	return out
}

// tasting weighs the best tastings of each size against each other.
func (m *model) tasting(ctx context.Context, a Ask) (*Tasting, error) {
	targets := m.asked(a)
	if len(targets) == 0 {
		return nil, nil
	}
	full := newSearch(m, a, targets)
	if n := len(full.free); n > MaxSwaps {
		return nil, problem.New("", words.Say("ledger.bad.swaps", n, MaxSwaps), words.Say("ledger.bad.swaps.hint"))
	}
	first := m.first(a, targets)
	var best *offer
	for k := 2; k <= a.MaxSamples; k++ {
		tries := []*search{full}
		if k-1 < len(first) { // too few samples to tell all of them: some, at least
			tries = append(tries, newSearch(m, a, first[:k-1]))
		}
		for _, s := range tries {
			d, err := s.design(ctx, k)
			if err != nil {
				return nil, err
			}
			for pots := 1; d != nil && pots <= s.mostPots(); pots++ {
				served := a.served(d, pots)
				if a.Cups > 0 && len(served)*pots > a.Cups {
					break
				}
				if o := s.weigh(served, pots, targets); o != nil && (best == nil || o.beats(best)) {
					o.s, best = s, o
				}
			}
		}
	}
	if best == nil {
		return nil, nil
	}
	return best.tasting(), nil
}

// served is a design with the original once more where that is asked for and nothing
// else is cooked twice.
func (a Ask) served(design []uint32, pots int) []uint32 {
	if a.Repeat && pots == 1 && slices.Contains(design, 0) {
		return append(slices.Clone(design), 0)
	}
	return design
}

// first are the swaps asked about that cannot be judged yet, the most wanted
// first: as asked, or what takes most off.
func (m *model) first(a Ask, targets []int) (out []int) {
	for _, i := range targets {
		if !m.apart[i] {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(i, j int) int {
		if a.Swaps != nil {
			return slices.Index(a.Swaps, m.at[i]) - slices.Index(a.Swaps, m.at[j])
		}
		x, y := m.e.Swaps[m.at[i]].Savings[a.Nutrient], m.e.Swaps[m.at[j]].Savings[a.Nutrient]
		if x.Known != y.Known {
			return map[bool]int{true: -1, false: 1}[x.Known]
		}
		return order(y.Amount, x.Amount)
	})
	return out
}

// offer is one tasting with what it would tell.
type offer struct {
	s                  *search
	design             []uint32
	pots               int // of each sample
	gains              []Gain
	separates, settles int
	told               float64 // sum of log shrinkings of half widths
}

// beats: more told apart, then more settled, then more told for each sample and
// pot, then fewer of them.
func (o *offer) beats(b *offer) bool {
	cost := func(o *offer) float64 { return float64(len(o.design) * (1 + o.pots)) }
	per := o.told/cost(o) - b.told/cost(b)
	switch {
	case o.separates != b.separates:
		return o.separates > b.separates
	case o.settles != b.settles:
		return o.settles > b.settles
	case math.Abs(per) > 1e-9:
		return per > 0
	}
	return cost(o) < cost(b)
}

func (o *offer) tasting() *Tasting {
	s := o.s
	t := &Tasting{Tasters: s.ask.Tasters, Servings: s.ask.Tasters * len(o.design), Gains: o.gains}
	for i, mask := range o.design {
		t.Pots += o.pots
		if k := slices.Index(o.design, mask); k < i { // the original once more
			t.Samples[k].Pots += o.pots
			continue
		}
		on := s.m.outside(s.ticks(mask))
		sample := Sample{On: on, Version: -1, Pots: o.pots}
		for a, x := range on {
			if x {
				sample.Names = append(sample.Names, s.m.e.Swaps[a].Name)
			}
		}
		if v, ok := s.known[mask]; ok {
			sample.Version = v
		}
		t.Samples = append(t.Samples, sample)
	}
	return t
}
