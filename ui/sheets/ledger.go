package sheets

import (
	"slices"
	"strings"

	"parewell/analysis/ledger"
	"parewell/analysis/nutrition"
	"parewell/analysis/outcome"
	"parewell/analysis/ratings"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Ledger is Keep or drop of one recipe: what every closed tasting of its present
// edition says of its swaps. It is worked out once for a Book, beside the window,
// and then laid out as often as the cook asks.
type Ledger struct {
	Book       *recipes.Book
	Recipe     *recipes.Recipe
	Pool       *outcome.Pool // nil: nothing that was tasted counts yet
	Attributes []recipes.Attribute
	Open       []*recipes.Tasting // not closed yet
	Old        int                // closed tastings of earlier editions

	evidence map[string]*ledger.Evidence // by attribute; "" where nothing was tasted
	results  map[string]*ratings.Result
	kitchen  nutrition.Kitchen
	bench    *Bench
	swaps    []*recipes.Swap
	versions []*recipes.Version // beside the evidence's: nil first, the original
	heads    []string           // what is to be known of the tastings themselves
}

// NewLedger gathers the tastings of a recipe. It takes a while: call it off the
// window's thread.
func NewLedger(b *recipes.Book, r *recipes.Recipe) (*Ledger, error) {
	l := &Ledger{
		Book: b, Recipe: r, evidence: map[string]*ledger.Evidence{}, results: map[string]*ratings.Result{},
		kitchen: nutrition.In(b), bench: NewBench(b, r), swaps: b.Swaps(r.ID), versions: append([]*recipes.Version{nil}, b.Versions(r.ID)...),
	}
	rated := 0
	for _, t := range b.TastingsOf(r.ID) {
		switch {
		case t.State != recipes.TastingClosed:
			l.Open = append(l.Open, t)
		case outcome.Rated(t) && t.Edition != r.Edition:
			l.Old++
		case outcome.Rated(t):
			rated++
		}
	}
	if rated > 0 {
		if p, err := outcome.PoolOf(b, r.ID); err == nil { // without scores it says why, and so does the page
			l.Pool = p
		}
	}
	if l.Pool == nil {
		e, err := outcome.EvidenceOf(b, r, nil, nil)
		l.evidence[""] = e
		return l, err
	}
	return l, l.analyse()
}

// analyse works out every attribute of the pool.
func (l *Ledger) analyse() error {
	p := l.Pool
	reckon := ratings.SwapEffects // all the verdicts need, without the wait for comparisons they do not use
	if p.Table.Swaps == nil {
		reckon = ratings.Analyse
	}
	report, err := reckon(p.Table, ratings.Options{Original: p.Original(), Limit: p.Limit})
	if err != nil {
		return err
	}
	for _, res := range report.Results {
		if res.Samples == nil {
			res.Samples = counted(p.Table, res.Attribute)
		}
		e, err := outcome.EvidenceOf(l.Book, l.Recipe, p, res)
		if err != nil {
			return err
		}
		l.results[res.Attribute] = res
		if l.evidence[res.Attribute] = e; !l.isOverall(res.Attribute) { // the limit is about how much the dish is liked
			c := *e
			c.Limit = 0
			l.evidence[res.Attribute] = &c
		}
	}
	l.attributes()
	l.heads = l.pooled()
	return nil
}

// counted counts the scores of every sample.
func counted(t *ratings.Table, attribute string) []ratings.Sample {
	var out []ratings.Sample
	for i := range t.Scores {
		s := &t.Scores[i]
		if s.Attribute != attribute {
			continue
		}
		at := slices.IndexFunc(out, func(x ratings.Sample) bool { return x.Name == s.Sample })
		if at < 0 {
			at, out = len(out), append(out, ratings.Sample{Name: s.Sample})
		}
		out[at].N++
	}
	return out
}

// isOverall tells whether an attribute is how much a sample is liked, all in all.
func (l *Ledger) isOverall(name string) bool {
	for _, t := range l.Pool.Tastings {
		if len(t.Attributes) > 0 && t.Attributes[0].Kind == recipes.AskLiking && t.Attributes[0].Name == name {
			return true
		}
	}
	return false
}

// likes tells whether a score says how much people like something, so that higher
// is better: of how strong something is it is neither.
func (l *Ledger) likes(name string) bool {
	return slices.ContainsFunc(l.Attributes, func(a recipes.Attribute) bool { return a.Name == name && a.Kind == recipes.AskLiking })
}

// attributes lists what was scored, overall liking first.
func (l *Ledger) attributes() {
	for _, t := range l.Pool.Tastings {
		for _, a := range t.Attributes {
			same := func(x recipes.Attribute) bool { return x.Name == a.Name }
			if l.evidence[a.Name] != nil && !slices.ContainsFunc(l.Attributes, same) {
				l.Attributes = append(l.Attributes, a)
			}
		}
	}
	slices.SortStableFunc(l.Attributes, func(x, y recipes.Attribute) int {
		return boolInt(l.isOverall(y.Name)) - boolInt(l.isOverall(x.Name))
	})
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// Overall names overall liking as the tastings do; empty without any.
func (l *Ledger) Overall() string {
	if len(l.Attributes) == 0 {
		return ""
	}
	return l.Attributes[0].Name
}

// Limit is the drop that was recorded as acceptable, 0 for none.
func (l *Ledger) Limit() float64 {
	if l.Pool == nil {
		return 0
	}
	return l.Pool.Limit
}

// Tasted tells whether any score counts.
func (l *Ledger) Tasted() bool { return l.Pool != nil }

// Swaps counts the recipe's swaps.
func (l *Ledger) Swaps() int { return len(l.swaps) }

// LedgerAsk is what the page is asked to show.
type LedgerAsk struct {
	Attribute string // "" overall liking
	Nutrient  food.Nutrient
	Limit     float64 // tried on the screen; 0 the recorded one
}

// LedgerView is the ledger laid out for an ask.
type LedgerView struct {
	Ask     LedgerAsk
	Table   *ledger.Table
	Sheet   Sheet
	Overall bool // the attribute is the one the limit is about
	l       *Ledger
}

// Keys of the rows that stand for a swap, for swaps that were always served
// together (by the first of them), and for a whole version.
const (
	LedgerSwapKey     = "swap:"
	LedgerTogetherKey = "together:"
	LedgerWholeKey    = "whole:"
)

// View lays the ledger out.
func (l *Ledger) View(a LedgerAsk) (*LedgerView, error) {
	if a.Attribute == "" || l.evidence[a.Attribute] == nil {
		a.Attribute = l.Overall()
	}
	v := &LedgerView{Ask: a, Overall: a.Attribute == l.Overall(), l: l}
	e := l.evidence[a.Attribute]
	limit := e.Limit
	if v.Overall && a.Limit > 0 {
		limit = a.Limit
	}
	var err error
	if v.Table, err = ledger.WhatIf(e, a.Nutrient.Key(), limit); err != nil {
		return nil, err
	}
	v.lay()
	return v, nil
}

// Recorded is the view against the recorded limit, for print and export.
func (v *LedgerView) Recorded() (*LedgerView, error) {
	a := v.Ask
	a.Limit = 0
	return v.l.View(a)
}

func (v *LedgerView) effectTitle() string {
	if v.Overall {
		return words.Say("keep.effect.liking")
	}
	return words.Say("keep.effect", v.Ask.Attribute)
}

// AttributeName names what was scored for a list: overall liking in full.
func (l *Ledger) AttributeName(name string) string {
	if name == l.Overall() {
		return words.Say("keep.overall")
	}
	return name
}

// saved is what a whole version takes off, a smaller helping with it.
func (l *Ledger) saved(version int, n food.Nutrient) ledger.Saving {
	c := l.bench.Change(version, n)
	return outcome.SavingOf(c, outcome.LineNames(l.Book, l.Recipe))
}

// IsWhole tells whether a row's key is that of a whole version.
func IsWhole(key string) bool { return strings.HasPrefix(key, LedgerWholeKey) }
