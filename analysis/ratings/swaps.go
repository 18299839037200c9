package ratings

import (
	"math"
	"slices"

	"parewell/analysis/stats"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// SwapPart is what a report says of swaps.
type SwapPart struct {
	Swaps        []SwapEffect  `json:"swaps"`
	LackOfFit    *LackOfFit    `json:"lack_of_fit"`
	Together     []Together    `json:"together"`
	MixedUp      []MixedUp     `json:"mixed_up"`
	Pots         *Pots         `json:"pots"`
	Interactions []Interaction `json:"interactions"`
	NotServed    []string      `json:"not_served"`

	// Effects is the fit behind the figures, for other combinations.
	Effects *Effects `json:"-"`
}

// SwapEffect is what one swap does to the score, others held.
type SwapEffect struct {
	Swap string `json:"swap"`
	Estimate
	Low       Number   `json:"low"`
	High      Number   `json:"high"`
	Level     float64  `json:"level"`
	PHolm     Number   `json:"p_holm"`
	Estimable bool     `json:"estimable"`
	TiedTo    []string `json:"tied_to"`
	Pots      int      `json:"pots"`
	Servings  int      `json:"servings"`
	Reason    string   `json:"reason"` // why it cannot be estimated, "" when it can
}

// Reasons why a swap has no effect of its own.
const (
	NeverOn   = "never_on"
	AlwaysOn  = "always_on"
	Tied      = "tied"
	NotJoined = "not_joined" // no panelist tasted with and without it
)

// LackOfFit tests whether versions miss the sum of their swaps.
type LackOfFit struct {
	F   Number `json:"f"`
	DF1 int    `json:"df1"`
	DF2 Number `json:"df2"`
	P   Number `json:"p"`
}

// Together is the sum of swaps that were never apart.
type Together struct {
	Swaps []string `json:"swaps"`
	Estimate
	Low  Number `json:"low"`
	High Number `json:"high"`
}

// Pots is what is known of pot-to-pot differences.
type Pots struct {
	Count      int    `json:"count"`
	Replicated int    `json:"replicated"` // samples cooked more than once
	DF         int    `json:"df"`         // of what errors use; 0: pots cannot be told from samples
	SD         Number `json:"sd"`
	N          Number `json:"n"` // servings a pot counts for
}

// Interaction is how much a pair of swaps gives beyond the sum of both.
type Interaction struct {
	A string `json:"a"`
	B string `json:"b"`
	Estimate
	PHolm Number `json:"p_holm"`
}

// swapPlan is the plan of a table of swaps over a layout.
type swapPlan struct {
	table *Swaps
	*plan
	whole  [][]int64 // by sample: swaps, then samples that are no version
	group  []int     // circuits
	mixed  []MixedUp
	pairs  *plan // swaps with their pairs; nil where nothing can be told
	paired [][2]int
}

// planOf makes the plan, once a layout and table.
func (l *layout) planOf(t *Swaps) (*swapPlan, error) {
	if l.swapPlan != nil && l.swapPlan.table == t {
		return l.swapPlan, nil
	}
	n := len(t.Names)
	extra := 0
	for _, name := range l.samples {
		if t.On[t.row(name)] == nil {
			extra++
		}
	}
	s := &swapPlan{table: t}
	at := n
	for _, name := range l.samples {
		row := make([]int64, n+extra)
		if on := t.On[t.row(name)]; on == nil {
			row[at] = 1
			at++
		} else {
			for i, yes := range on {
				if yes {
					row[i] = 1
				}
			}
		}
		s.whole = append(s.whole, row)
	}
	var ok bool
	if s.plan, ok = l.newPlan(s.whole, n+extra); !ok {
		return nil, problem.New("", words.Say("ratings.bad.swap-size"), words.Say("ratings.bad.swap-size.hint"))
	}
	s.group = stats.Circuits(s.null, n+extra)
	s.mixed = l.mixedUp(s, n)
	s.pairUp(l, n)
	l.swapPlan = s
	return s, nil
}

// swaps fills in everything of swaps.
func (r *Result) swaps(t *Swaps, level float64) error {
	if t == nil {
		return nil
	}
	c := r.column
	p, err := c.planOf(t)
	if err != nil {
		return err
	}
	f := r.fitPlan(p.plan)
	r.SwapPart = &SwapPart{LackOfFit: r.lackOfFit(f), MixedUp: p.mixed, Together: []Together{}, Interactions: []Interaction{}, NotServed: []string{}}
	r.singles(f, p, level)
	r.sums(f, p, level)
	r.potFacts(f)
	r.interactions(p)
	r.mixedSwaps(p)
	for i, name := range t.Samples {
		if t.On[i] != nil && !slices.Contains(c.samples, name) {
			r.NotServed = append(r.NotServed, name)
		}
	}
	r.Effects = r.effectsOf(f, p)
	r.swapNotes(f)
	return nil
}

// singles are the swaps one by one.
func (r *Result) singles(f *fitted, p *swapPlan, level float64) {
	var ps []float64
	for i, name := range p.table.Names {
		c := make([]float64, p.columns)
		c[i] = 1
		s := SwapEffect{Swap: name, Estimate: f.estimate(c), Level: level, Estimable: p.alone[i], TiedTo: []string{}}
		s.Low, s.High = s.interval(level)
		s.Pots, s.Servings = r.behind(p, i)
		if !s.Estimable {
			for j, other := range p.table.Names {
				if j != i && p.group[i] >= 0 && p.group[j] == p.group[i] {
					s.TiedTo = append(s.TiedTo, other)
				}
			}
			s.Reason = r.reason(p, i, len(s.TiedTo) > 0)
		}
		ps = append(ps, float64(s.P))
		r.Swaps = append(r.Swaps, s)
	}
	for i, v := range stats.Holm(ps) {
		r.Swaps[i].PHolm = Number(v)
	}
}

// behind counts the pots and servings that had a swap.
func (r *Result) behind(p *swapPlan, swap int) (pots, servings int) {
	for _, s := range r.column.potOf {
		pots += int(p.whole[s][swap])
	}
	for s, n := range r.column.bySample.count {
		servings += int(p.whole[s][swap]) * int(n)
	}
	return pots, servings
}

func (r *Result) reason(p *swapPlan, swap int, tied bool) string {
	on := 0
	for _, row := range p.whole {
		on += int(row[swap])
	}
	switch {
	case on == 0:
		return NeverOn
	case tied:
		return Tied
	case on == len(p.whole):
		return AlwaysOn
	}
	return NotJoined
}

// sums are what swaps that were never apart do together.
func (r *Result) sums(f *fitted, p *swapPlan, level float64) {
	done := map[int]bool{-1: true}
	for i, g := range p.group[:len(p.table.Names)] {
		if done[g] || len(r.Swaps[i].TiedTo) == 0 {
			continue
		}
		done[g] = true
		c := make([]float64, p.columns)
		t := Together{}
		for j, name := range p.table.Names {
			if p.group[j] == g {
				c[j] = 1
				t.Swaps = append(t.Swaps, name)
			}
		}
		t.Estimate = f.estimate(c)
		t.Low, t.High = t.interval(level)
		r.Together = append(r.Together, t)
	}
}

func (r *Result) potFacts(f *fitted) {
	c := r.column
	r.Pots = &Pots{Count: len(c.potOf), SD: Number(f.potSD), N: Number(none)}
	times := make([]int, len(c.samples))
	for _, s := range c.potOf {
		times[s]++
	}
	for _, n := range times {
		if n > 1 {
			r.Pots.Replicated++
		}
	}
	if f.pots != nil {
		r.Pots.DF, r.Pots.N = f.pots.dfAround, Number(f.pots.around)
	}
}

func (r *Result) swapNotes(f *fitted) {
	known := f.rank > 0
	switch {
	case !known:
		r.note(NoteNoSwapVaries)
	case f.pots == nil:
		r.note(NoteOnePotEach)
	case f.pots.dfAround < 4:
		r.note(NoteFewPots)
	}
	if known && r.LackOfFit == nil {
		r.note(NoteSaturated)
	}
	if r.LackOfFit != nil && r.LackOfFit.P < 0.05 {
		r.note(NoteLackOfFit)
	}
	if len(r.MixedUp) > 0 {
		r.note(NoteMixedUp)
	}
	if len(r.NotServed) > 0 {
		r.note(NoteNotServed)
	}
}

// pairUp plans swaps with their pairs, where versions are more than swaps need.
func (s *swapPlan) pairUp(l *layout, n int) {
	if l.bySample.rank() <= s.rank || n > 24 {
		return
	}
	for a := range n {
		for b := a + 1; b < n; b++ {
			for _, row := range s.whole {
				if row[a]*row[b] != 0 {
					s.paired = append(s.paired, [2]int{a, b})
					break
				}
			}
		}
	}
	wide := make([][]int64, len(s.whole))
	for i, row := range s.whole {
		wide[i] = slices.Clone(row)
		for _, p := range s.paired {
			wide[i] = append(wide[i], row[p[0]]*row[p[1]])
		}
	}
	// A design too large for exact arithmetic tells of no pair.
	if p, ok := l.newPlan(wide, s.columns+len(s.paired)); ok && slices.Contains(p.alone[s.columns:], true) {
		s.pairs = p
	}
}

// interactions are the pairs that can be told apart from everything else.
func (r *Result) interactions(p *swapPlan) {
	if p.pairs == nil {
		return
	}
	f := r.fitPlan(p.pairs)
	var ps []float64
	for i, pair := range p.paired {
		if at := p.columns + i; p.pairs.alone[at] {
			c := make([]float64, p.pairs.columns)
			c[at] = 1
			x := Interaction{A: p.table.Names[pair[0]], B: p.table.Names[pair[1]], Estimate: f.estimate(c)}
			r.Interactions = append(r.Interactions, x)
			ps = append(ps, float64(x.P))
		}
	}
	for i, v := range stats.Holm(ps) {
		r.Interactions[i].PHolm = Number(v)
	}
}

// worst is the fewest degrees of freedom of any swap that can be estimated.
func (f *fitted) worst(swaps int) float64 {
	least := math.Inf(1)
	for i := range swaps {
		if f.alone[i] {
			c := make([]float64, f.columns)
			c[i] = 1
			_, df := f.variance(c)
			least = math.Min(least, df)
		}
	}
	if math.IsInf(least, 1) {
		return f.dfResidual
	}
	return least
}
