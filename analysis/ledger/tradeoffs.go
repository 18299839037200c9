package ledger

import (
	"context"
	"math"
	"math/bits"
	"slices"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Standing tells how a combination is known.
type Standing string

// Standings, from sure to hoped.
const (
	StandsTasted Standing = "tasted"
	StandsCooked Standing = "cooked"    // cooked, never scored
	Predicted    Standing = "predicted" // from its swaps only
)

// Combo is one combination of swaps. Interval is of its liking against the
// original: its own when it was tasted and that was worked out, otherwise the
// sum of its swaps.
type Combo struct {
	On       []bool // in the order of Evidence.Swaps
	Swaps    []int  // those that are on
	Names    []string
	Version  int // in Evidence.Versions, -1 none has just these swaps
	Standing Standing
	Interval
	Saving Saving
	Kind   Kind // the verdict on it against the limit that was asked for
	BestOf int  // it was picked as best of so many
	mask   uint32
}

// Aside is a swap that stands beside the trade-offs and why: NotTasted, Tied,
// AlwaysOn, or DoesNotWork.
type Aside struct {
	Swap int
	Name string
	Why  Kind
	Ties []string // of Tied: in no combination without these

	Mixed bool   // as in Verdict
	Lacks string // of SavingUnknown: the ingredients that have no figure
}

// SavingUnknown is why a swap stands in no trade-off though its effect is told:
// what it takes off is not known.
const SavingUnknown Kind = "saving-unknown"

// DoesNotWork is why a swap that failed in the pan is in no combination.
const DoesNotWork Kind = "does-not-work"

// Goal says what trade-offs are asked for.
type Goal struct {
	Nutrient string
	Limit    float64 // judged against; 0 the recorded one
	Keep     int     // ranked combinations kept; 0 is 12
}

// Tradeoffs are combinations that can be estimated and cooked.
type Tradeoffs struct {
	Considered int     // how many there are
	Ranked     []Combo // the best by the low end of their interval
	Frontier   []Combo // by saving, least first: no other saves as much with a higher low end
	ForLimit   *Combo  // takes most off with its low end above the limit; nil none does
	Beside     []Aside
	Lacks      string // no saving is known of any combination: the ingredients that have no figure
	Limit      float64
	promised   *Combo // the best that was not tasted; nil none saves anything, or none is worth cooking
	beaten     bool   // of what can be predicted none is worth cooking beside what was tasted
}

// Best finds the trade-offs among at most MaxSwaps usable swaps. Where nothing
// was tasted all are listed beside and nothing is ranked. The only errors are
// too many swaps, evidence that does not fit together, and the context's.
func Best(ctx context.Context, e *Evidence, g Goal) (*Tradeoffs, error) {
	m, err := newModel(e)
	if err != nil {
		return nil, err
	}
	return m.best(ctx, g)
}

func (m *model) best(ctx context.Context, g Goal) (*Tradeoffs, error) {
	w := newWalker(m, g.Nutrient)
	if n := len(w.use); n > MaxSwaps {
		return nil, problem.New("", words.Say("ledger.bad.swaps", n, MaxSwaps), words.Say("ledger.bad.swaps.hint"))
	}
	if g.Keep == 0 {
		g.Keep = 12
	}
	t := &Tradeoffs{Limit: set(g.Limit), Beside: m.beside(g.Nutrient)}
	if t.Limit == 0 {
		t.Limit = set(m.e.Limit)
	}
	if m.e.Beta == nil || math.IsNaN(m.t) {
		return t, nil
	}
	p := newPicker(w, t.Limit, g.Keep)
	if err := w.walk(ctx, p.visit); err != nil {
		return nil, err
	}
	t.promised = p.promised()
	t.beaten = t.promised == nil && p.seen > len(p.tasted)
	p.addTasted()
	if len(p.front) == 0 {
		t.Lacks = m.lacks(g.Nutrient)
	}
	t.Considered = p.seen
	t.Ranked, t.Frontier = p.combos(p.ranked), p.combos(p.front)
	if p.bestMask.mask != 0 {
		t.ForLimit = &p.combos([]point{p.bestMask})[0]
	}
	return t, nil
}

// beside lists the swaps that stand in no combination, or not by themselves.
func (m *model) beside(nutrient string) []Aside {
	var out []Aside
	rows := make([]*Aside, len(m.at))
	for i, a := range m.at {
		v := m.verdict(i, 0, nutrient)
		switch {
		case m.skipped[i]:
			rows[a] = &Aside{Swap: a, Name: v.Name, Why: DoesNotWork}
		case v.Kind == NotTasted || v.Kind == AlwaysOn || v.Kind == Tied:
			rows[a] = &Aside{Swap: a, Name: v.Name, Why: v.Kind, Ties: v.Ties, Mixed: v.Mixed}
		case !v.Saving.Known && v.Saving.Lacks != "":
			rows[a] = &Aside{Swap: a, Name: v.Name, Why: SavingUnknown, Lacks: v.Saving.Lacks}
		}
	}
	for _, r := range rows {
		if r != nil {
			out = append(out, *r)
		}
	}
	return out
}

// promised is the best that was not tasted: for the limit, or else with the
// highest low end among those that save something. None where a tasted version
// beats all of them, or what is left would seem to be over the limit.
func (p *picker) promised() *Combo {
	pt := p.bestMask
	if pt.mask == 0 && len(p.front) > 0 {
		pt = p.front[0]
	}
	if pt.mask == 0 {
		return nil
	}
	c := &p.combos([]point{pt})[0]
	if p.limit > 0 && c.Effect < -p.limit {
		return nil
	}
	return c
}

// combos fills in what points stand for.
func (p *picker) combos(points []point) []Combo {
	out := make([]Combo, len(points))
	for i, pt := range points {
		on := p.w.ticks(pt.mask)
		c := Combo{On: on, Version: -1, Standing: Predicted, Interval: p.interval(pt.mask), BestOf: p.seen, mask: pt.mask}
		c.Kind = Of(c.Interval, p.limit)
		p.w.mask = pt.mask
		p.w.anew()
		if p.w.unknown == 0 {
			c.Saving = Saving{Amount: p.w.saving, Known: true}
		}
		for a, x := range on {
			if x {
				c.Swaps, c.Names = append(c.Swaps, a), append(c.Names, p.w.m.e.Swaps[a].Name)
			}
		}
		if v, ok := p.version[pt.mask]; ok {
			c.Version = v
			if fact := p.w.m.e.Versions[v]; fact.Servings > 0 {
				c.Standing = StandsTasted
			} else if fact.Cooked {
				c.Standing = StandsCooked
			}
		}
		out[i] = c
	}
	return out
}

// lacks names the ingredients for want of whose figures no saving is known.
func (m *model) lacks(nutrient string) string {
	var out []string
	for i, a := range m.at {
		if s := m.e.Swaps[a].Savings[nutrient]; m.usable(i) && !s.Known && s.Lacks != "" && !slices.Contains(out, s.Lacks) {
			out = append(out, s.Lacks)
		}
	}
	return words.Join(out)
}

// Note says how the combination is known and what to make of it. That less is to
// be expected is no news of one that is over the limit anyway.
func (c *Combo) Note() words.Phrase {
	if c.Kind == TooMuch && c.Standing != StandsTasted {
		return words.P("ledger.combo." + string(c.Standing) + ".over")
	}
	return words.P("ledger.combo."+string(c.Standing), c.BestOf)
}

// Note says why the swap stands beside.
func (a *Aside) Note() words.Phrase {
	if a.Why == SavingUnknown {
		return words.P("ledger.beside.saving-unknown", a.Name, a.Lacks)
	}
	if a.Mixed && a.Why == Tied {
		return words.P("ledger.beside.mixed", a.Name, words.Join(a.Ties))
	}
	if a.Mixed && a.Why == AlwaysOn {
		return words.P("ledger.beside.never-both", a.Name)
	}
	return words.P("ledger.beside."+string(a.Why), a.Name, words.Join(a.Ties))
}

// Printable tells whether the combination may stand on paper: tasted only.
func (c *Combo) Printable() bool { return c.Standing == StandsTasted }

// size is the number of swaps of a mask.
func size(mask uint32) int { return bits.OnesCount32(mask) }
