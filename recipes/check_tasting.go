package recipes

import (
	"math"
	"strings"
	"time"

	"parewell/recipes/words"
)

// checkSitting refuses what an edit would leave wrong of tasters and tastings.
func (b *Book) checkSitting(e Edit) error {
	switch x := e.entityOf().(type) {
	case *Panelist:
		if e.After == nil {
			return b.checkPanelistGone(x)
		}
		return b.checkPanelist(x)
	case *Tasting:
		if e.After == nil {
			if len(b.Samples(x.ID))+len(b.Servings(x.ID)) > 0 {
				return refuse(x.Date, "error.tasting-children")
			}
			return nil
		}
		return b.checkTasting(x, e.Before)
	case *Sample:
		if e.After != nil {
			return b.checkSample(x)
		}
		return b.checkSampleGone(x)
	case *Serving:
		if e.After != nil {
			return b.checkServing(x)
		}
	}
	return nil
}

func (b *Book) checkPanelist(p *Panelist) error {
	if strings.TrimSpace(p.Code) == "" {
		return refuse("", "error.taster-code")
	}
	for _, q := range b.people {
		if q.ID != p.ID && strings.EqualFold(q.Code, p.Code) {
			return refuse(p.Code, "error.taster-twice")
		}
	}
	if p.Consent != "" && !isDate(p.Consent) {
		return refuse(p.Code, "error.date", p.Consent)
	}
	return nil
}

func isDate(s string) bool {
	_, err := time.Parse(time.DateOnly, s)
	return err == nil
}

func (b *Book) checkPanelistGone(p *Panelist) error {
	for _, t := range b.Tastings() {
		if t.SeatOf(p.ID) != nil {
			return refuse(p.Code, "error.taster-seated", t.Date)
		}
		for _, s := range b.Servings(t.ID) {
			if s.Panelist == p.ID {
				return refuse(p.Code, "error.taster-seated", t.Date)
			}
		}
	}
	return nil
}

// stage orders the states of a tasting.
var stage = map[TastingState]int{TastingPlanned: 1, TastingServing: 2, TastingClosed: 3}

func (b *Book) checkTasting(t *Tasting, before Entity) error {
	if b.Recipe(t.Recipe) == nil {
		return gone("error.recipe-gone")
	}
	if !isDate(t.Date) {
		return refuse("", "error.date", t.Date)
	}
	if stage[t.State] == 0 {
		return refuse(t.Date, "error.tasting-state")
	}
	if old, ok := before.(*Tasting); ok && old != nil && stage[t.State] < stage[old.State] {
		return refuse(t.Date, "error.tasting-back")
	}
	for _, v := range []float64{t.Limit, t.Portion, t.Spare, t.Holds} {
		if v < 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return refuse(t.Date, "error.tasting-number")
		}
	}
	return b.checkSeats(t)
}

// checkSeats wants every cup filled by a sample of this tasting, no code twice
// before one taster, and nobody on two seats.
func (b *Book) checkSeats(t *Tasting) error {
	sits := map[ID]bool{}
	for _, seat := range t.Seats {
		if p := seat.Panelist; p != "" {
			if b.people[p] == nil || sits[p] {
				return refuse(t.Date, "error.seat-taster", seat.Number)
			}
			sits[p] = true
		}
		seen := map[int]bool{}
		for _, c := range seat.Cups {
			if b.Sample(t.ID, c.Sample) == nil || c.Code < 100 || c.Code > 999 || seen[c.Code] {
				return refuse(t.Date, "error.seat-cup", seat.Number)
			}
			seen[c.Code] = true
		}
	}
	return nil
}

func (b *Book) checkSample(s *Sample) error {
	t := b.Tasting(s.Tasting)
	if t == nil {
		return gone("error.tasting-gone")
	}
	if s.Version != "" && b.Version(t.Recipe, s.Version) == nil {
		return gone("error.version-gone")
	}
	if s.Batch != "" && b.Test(t.Recipe, s.Batch) == nil {
		return gone("error.test-gone")
	}
	for _, v := range []float64{s.Celsius, s.Held} {
		if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
			return refuse(t.Date, "error.tasting-number")
		}
	}
	return nil
}

func (b *Book) checkSampleGone(s *Sample) error {
	t := b.Tasting(s.Tasting)
	if t == nil {
		return nil
	}
	for _, seat := range t.Seats {
		for _, c := range seat.Cups {
			if c.Sample == s.ID {
				return refuse(t.Date, "error.sample-seated")
			}
		}
	}
	for _, x := range b.Servings(t.ID) {
		if x.Sample == s.ID {
			return refuse(t.Date, "error.sample-seated")
		}
	}
	return nil
}

func (b *Book) checkServing(s *Serving) error {
	t := b.Tasting(s.Tasting)
	if t == nil {
		return gone("error.tasting-gone")
	}
	p := b.people[s.Panelist]
	if p == nil {
		return gone("error.taster-gone")
	}
	if s.Sample != "" && b.Sample(t.ID, s.Sample) == nil {
		return gone("error.sample-gone")
	}
	if t.State == TastingPlanned {
		return refuse(t.Date, "error.not-serving")
	}
	for name, v := range s.Scores {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return refuse(p.Code, "error.score", name)
		}
		if a, ok := t.Attribute(name); ok && s.Sample != "" && (v != math.Trunc(v) || v < 1 || v > a.Top()) {
			return refuse(p.Code, "error.score-range", words.Trim(v, 2), a.Name, words.Trim(a.Top(), 0))
		}
	}
	return nil
}

// tastedAs tells whether a sample of the recipe's tastings is such.
func (b *Book) tastedAs(recipe ID, is func(*Sample) bool) bool {
	for _, t := range b.TastingsOf(recipe) {
		for _, s := range b.Samples(t.ID) {
			if is(s) {
				return true
			}
		}
	}
	return false
}
