package manuscript

import (
	"math"
	"slices"
	"strings"
	"time"
	"unicode"

	"parewell/analysis/nutrition"
	"parewell/analysis/shopping"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// PapersAsk is what the cook says of the papers beside the tasting itself. Zeros
// mean the usual.
type PapersAsk struct {
	Parts   []Part // none: all
	Whole   bool   // whole batches only
	OnHand  map[string]float64
	Vessel  string  // what a pot is cooked in; "" leaves a blank
	Heat    float64 // °C of the oven; 0: as the method says, else a blank
	Preheat float64 // minutes for the oven to heat up; 0: 15 (common practice, no source)
	Rest    float64 // minutes from the heat to the first portion; 0: as the method says, else none
	NoRest  bool    // it does not rest, whatever the method says
	PerCup  float64 // minutes to fill one cup; 0: half a minute (common practice, no source)
	Seats   []int   // ballots and labels of these only; none: of all
	PerWave int     // trays in a wave; 0: as many as the longest hold allows
}

// PapersOf gathers what is printed for a tasting. k weighs cooked dishes. A
// sample that a taster does not eat is on none of her papers, a seat whose taster
// stays away has none. It refuses a seat of somebody who is left out, numbers below 0, a time that is none, and a
// word on the tasters' papers that tells them what to expect.
func PapersOf(b *recipes.Book, t *recipes.Tasting, k nutrition.Kitchen, ask PapersAsk) (*TastingPapers, error) {
	r := b.Recipe(t.Recipe)
	if r == nil {
		return nil, problem.New(t.Date, words.Say("error.recipe-gone"), words.Say("error.gone.hint"))
	}
	if err := ask.check(t); err != nil {
		return nil, err
	}
	if t.State != recipes.TastingClosed {
		if err := tasting.MayBeServed(b, t); err != nil {
			return nil, err
		}
	}
	if t.State == recipes.TastingPlanned {
		t = tasting.Ready(b, t)
	}
	p := &TastingPapers{Parts: ask.Parts, Title: say("title", day(t.Date)), Dish: r.Title, Invite: inviteOf(b, t)}
	m := maker{book: b, tasting: t, recipe: r, kitchen: k, ask: ask}
	m.list = shopping.Of(b, t, k, shopping.Ask{Whole: ask.Whole, OnHand: ask.OnHand})
	m.nameSamples()
	p.Pots, p.Shopping, p.Tests = m.pots(), m.shopping(), m.tests()
	if err := m.run(&p.Run); err != nil {
		return nil, err
	}
	m.trays(p)
	return p, nil
}

// ShoppingOf is the shopping list of a tasting alone: for all pots together, what
// is on hand struck off.
func ShoppingOf(b *recipes.Book, t *recipes.Tasting, k nutrition.Kitchen, ask PapersAsk) []Bought {
	r := b.Recipe(t.Recipe)
	if r == nil {
		return nil
	}
	m := maker{book: b, tasting: t, recipe: r, kitchen: k, ask: ask}
	m.list = shopping.Of(b, t, k, shopping.Ask{Whole: ask.Whole, OnHand: ask.OnHand})
	return m.shopping()
}

// FoodText is the food with what of it nobody knows the amount of.
func (x *Bought) FoodText() string {
	if len(x.Check) == 0 {
		return x.Food
	}
	return x.Food + " · " + say("shopping.check", strings.Join(x.Check, "; "))
}

// maker makes the papers of one tasting.
type maker struct {
	book    *recipes.Book
	tasting *recipes.Tasting
	recipe  *recipes.Recipe
	kitchen nutrition.Kitchen
	ask     PapersAsk
	list    *shopping.List
	names   map[recipes.ID]string // of samples, for the kitchen
	pot     map[recipes.ID]int    // place in list.Pots
}

func (a *PapersAsk) check(t *recipes.Tasting) error {
	for _, v := range []float64{a.Heat, a.Preheat, a.Rest, a.PerCup, float64(a.PerWave)} {
		if v < 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return problem.New(t.Date, say("ask"), "")
		}
	}
	asks := len(a.Parts) == 0 || slices.ContainsFunc(a.Parts, func(p Part) bool { return !p.Kitchen() })
	if !asks {
		return nil
	}
	for _, x := range t.Attributes {
		if w := promise(x.Name); w != "" {
			return problem.New(x.Name, say("promise", w), say("promise.hint"))
		}
	}
	if w := promise(t.Cleanser); w != "" {
		return problem.New(t.Cleanser, say("promise", w), say("promise.hint"))
	}
	for _, c := range t.Care { // never left out: somebody's safety hangs on it
		if w := promise(c); w != "" {
			return problem.New(c, say("promise", w), say("promise.hint"))
		}
	}
	return nil
}

// promise returns the first word of a text that tells tasters what to expect, ""
// when there is none.
func promise(text string) string {
	never := words.List("papers.never")
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		if slices.Contains(never, strings.ToLower(w)) {
			return w
		}
	}
	return ""
}

// day writes a date as on a page; one that is none stays as it is.
func day(date string) string {
	d, err := time.Parse(time.DateOnly, date)
	if err != nil {
		return date
	}
	return words.Day(d)
}

// inviteOf lists what may do somebody harm, of all samples and what is eaten
// between them together. No food is named: a food's name can tell what was done.
func inviteOf(b *recipes.Book, t *recipes.Tasting) Invite {
	s := tasting.Check(b, t, b.Samples(t.ID))
	v := Invite{Day: day(t.Date), Time: t.Time, Open: len(s.Unknown) > 0}
	if t.Test != recipes.TestHome {
		v.Between = strings.TrimSpace(t.Cleanser)
	}
	for _, k := range s.Allergens.Keys() {
		v.Allergens = append(v.Allergens, words.Say("ideas.allergen."+k))
	}
	for _, c := range s.Care {
		v.Care = append(v.Care, words.Say("tasting.care."+string(c)))
	}
	for _, c := range t.Care {
		c = strings.TrimSpace(c)
		if key := "tasting.care." + c; words.Current().Has(key) {
			c = words.Say(key)
		}
		if c != "" && !slices.Contains(v.Care, c) {
			v.Care = append(v.Care, c)
		}
	}
	slices.Sort(v.Care)
	return v
}

// trays makes the tasters' papers: what is asked, and what is handed out.
func (m *maker) trays(p *TastingPapers) {
	waves := map[int]int{}
	for _, w := range p.Run.Waves {
		for _, n := range w.Seats {
			waves[n] = w.Number
		}
	}
	for i := range m.tasting.Seats {
		seat := &m.tasting.Seats[i]
		if seat.Away != "" || len(m.ask.Seats) > 0 && !slices.Contains(m.ask.Seats, seat.Number) {
			continue
		}
		ballot := tasting.BallotOf(m.tasting, seat)
		ballot.Title = p.Title
		p.Ballots = append(p.Ballots, ballot)
		p.Trays = append(p.Trays, Tray{Seat: seat.Number, Wave: waves[seat.Number], Taster: m.taster(seat), Open: ballot.Open, Codes: ballot.Cups})
	}
}

func (m *maker) taster(seat *recipes.Seat) string {
	if p := m.book.Panelist(seat.Panelist); p != nil {
		return p.Code
	}
	return ""
}
