package sheets

import (
	"slices"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// NextCard is what to do next: one step, why, the two acts it offers, and what
// stands behind the proposed tasting.
type NextCard struct {
	Step    string
	Why     []string
	First   NextAct // does the step; the zero value for none
	Second  NextAct // the other way on
	Samples []string
	Tells   []string // what the proposed tasting costs and tells, in sentences
	Plan    *ledger.Tasting
}

// NextAct is a button of the card.
type NextAct struct {
	Kind    NextKind
	Label   string
	On      []bool     // swaps of the version to draft
	Version recipes.ID // the version to look at
	Tasting recipes.ID // the tasting to look at
}

// NextKind says what a button of the card does.
type NextKind string

// The acts.
const (
	NextDraft NextKind = "draft" // make a version
	NextOpen  NextKind = "open"  // look at one
	NextPlan  NextKind = "plan"  // plan the tasting
	NextHeld  NextKind = "held"  // look at the tasting that is planned
)

// Card lays out what comes next. To cook is the step where what nobody has tasted
// is sure to keep within the limit, else to taste what tells most.
func (t *Trades) Card() NextCard {
	c := NextCard{}
	if t.Next == nil {
		return c
	}
	p := t.Next.Promised
	sure := p != nil && t.Best != nil && t.Best.Limit > 0 && p.Low > -t.Best.Limit
	for _, x := range t.Next.Says() {
		if x.Key != "ledger.next.nothing" {
			c.Why = append(c.Why, x.String())
		}
	}
	t.tasting(&c, !sure)
	cook := t.cook(p, sure)
	held, same := t.held(c.Plan)
	if held != nil && !same {
		c.Why = append(c.Why, words.Say("keep.next.also-planned", TastingTitle(held)))
	}
	plan := NextAct{Kind: NextPlan, Label: words.Say("keep.next.plan")}
	switch {
	case same:
		c.Step, c.Plan = words.Say("keep.next.step.planned", TastingTitle(held)), nil
		c.First, c.Second = NextAct{Kind: NextHeld, Label: words.Say("keep.untasted.look"), Tasting: held.ID}, cook
	case sure:
		c.Step, c.First = words.Say("keep.next.step.cook", words.Join(shortNames(t.swapsOf(p)))), cook
		if plan.Label = words.Say("keep.next.plan.instead"); c.Plan != nil {
			c.Second = plan
		}
	case c.Plan != nil:
		c.Step, c.First, c.Second = words.Say("keep.next.step.taste", words.Join(t.served(c.Plan))), plan, cook
	default:
		c.Step, c.First = words.Say("keep.next.step.done"), cook
	}
	return c
}

// held is the last tasting of scores that is planned or open, nil for none, and
// whether it serves all that the proposed one would.
func (t *Trades) held(x *ledger.Tasting) (held *recipes.Tasting, same bool) {
	for _, open := range t.l.Open {
		if !outcome.Rated(open) {
			continue
		}
		if held = open; x != nil && t.serves(open, x) {
			return open, true
		}
	}
	return held, false
}

// serves tells whether a tasting has every sample of a proposed one.
func (t *Trades) serves(open *recipes.Tasting, x *ledger.Tasting) bool {
	b := t.l.Book
	return !slices.ContainsFunc(x.Samples, func(want ledger.Sample) bool {
		return !slices.ContainsFunc(tasting.InOrder(b, open.ID), func(s *recipes.Sample) bool {
			return s.Dish == "" && slices.Equal(t.l.ticks(b.Version(t.l.Recipe.ID, s.Version)), want.On)
		})
	})
}

// ticks tells which of the recipe's swaps a version has; the original is nil.
func (l *Ledger) ticks(v *recipes.Version) []bool {
	out := make([]bool, len(l.swaps))
	if v == nil {
		return out
	}
	for _, s := range l.Book.On(v) {
		if i := slices.Index(l.swaps, s); i >= 0 {
			out[i] = true
		}
	}
	return out
}

// cook is the act of what is to be cooked, or of the best that was tasted.
func (t *Trades) cook(p *ledger.Combo, sure bool) NextAct {
	look := func(v *recipes.Version) NextAct {
		return NextAct{Kind: NextOpen, Label: words.Say("keep.next.open", v.Letter), Version: v.ID}
	}
	if p != nil {
		if v := t.l.versionAt(p.Version); v != nil {
			return look(v)
		}
		key := "keep.next.draft.nearest"
		if sure {
			key = "keep.next.draft"
		}
		return NextAct{Kind: NextDraft, Label: words.Say(key), On: p.On}
	}
	if b := t.Next.Instead; b != nil {
		if v := t.l.versionAt(b.Version); v != nil {
			return look(v)
		}
	}
	return NextAct{}
}

// tasting puts in what the proposed tasting serves, costs and tells. What it tells
// for the first time is the reason where to taste is the step.
func (t *Trades) tasting(c *NextCard, step bool) {
	x := t.Next.Tasting
	if x == nil {
		return
	}
	c.Plan, c.Samples = x, t.samples(x)
	var tells []words.Phrase
	for _, p := range x.Says() {
		if step && p.Key == "ledger.next.separates" {
			c.Why = append([]string{p.String()}, c.Why...)
			continue
		}
		tells = append(tells, p)
	}
	c.Tells = gatheredSays(tells, "ledger.next.still-open", "keep.next.still-open")
	if most := MostPerSitting(t.l.Book, t.l.Recipe); cupsOf(x) >= most {
		c.Tells = append(c.Tells, words.Say("keep.next.cups", most))
	}
	if t.reach != "" {
		c.Tells = append(c.Tells, t.reach)
	}
}

// cupsOf counts the cups each taster gets of a proposed tasting.
func cupsOf(x *ledger.Tasting) int {
	n := 0
	for _, s := range x.Samples {
		n += s.Pots
	}
	return n
}

// served names in short what a proposed tasting serves.
func (t *Trades) served(x *ledger.Tasting) []string {
	var out []string
	fresh := 0
	for _, s := range x.Samples {
		switch v := t.l.versionAt(s.Version); {
		case len(s.Names) == 0:
			out = slices.Insert(out, 0, words.Say("the-original"))
		case v != nil:
			out = append(out, v.Letter)
		default:
			fresh++
		}
	}
	if fresh > 0 {
		out = append(out, words.Say("keep.next.fresh", fresh))
	}
	return out
}

// samples says what a proposed tasting serves, pot by pot.
func (t *Trades) samples(x *ledger.Tasting) []string {
	var out []string
	for _, s := range x.Samples {
		name := words.Say("keep.next.new", words.Join(s.Names))
		if len(s.Names) == 0 {
			name = words.Say("the-original")
		} else if v := t.l.versionAt(s.Version); v != nil {
			name = LetterName(v)
		}
		out = append(out, Capital(words.Say("keep.next.sample", s.Pots, name)))
	}
	return out
}
