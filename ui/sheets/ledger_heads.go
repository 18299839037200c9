package sheets

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Heads are the sentences over the table: how far to trust it. The first says so
// where another limit is only tried.
func (v *LedgerView) Heads() (whatIf string, trust []string) {
	for _, p := range v.Table.Heads() {
		if p.Key == "ledger.head.what-if" {
			whatIf = p.String()
			continue
		}
		trust = append(trust, p.String())
	}
	if !v.l.Tasted() {
		return whatIf, nil
	}
	if v.Overall && v.Table.Limit == 0 {
		trust = append(trust, words.Say("keep.head.no-limit"))
	}
	if !v.Overall {
		trust = append(trust, words.Say("keep.head.other", v.Ask.Attribute))
	}
	trust = append(trust, v.l.mixedUp(v.Ask.Attribute)...)
	return whatIf, append(trust, v.l.heads...)
}

// pooled is what is to be known of the tastings themselves.
func (l *Ledger) pooled() []string {
	var out []string
	limits := map[float64]bool{}
	for _, t := range l.Pool.Tastings {
		limits[t.Limit] = true
	}
	if len(limits) > 1 {
		out = append(out, words.Say("keep.head.limits", words.Trim(l.Pool.Limit, 2)))
	}
	out = append(out, l.Pool.Notes()...)
	for _, t := range l.Pool.Tastings {
		out = append(out, l.differs(t)...)
	}
	if l.Old > 0 {
		out = append(out, words.Say("keep.head.old", l.Old))
	}
	return out
}

// mixedUp names the swaps that go with something that is no swap: the cook, the
// day, the place on the tray.
func (l *Ledger) mixedUp(attribute string) []string {
	res := l.results[attribute]
	if res == nil || res.SwapPart == nil {
		return nil
	}
	var out []string
	for _, m := range res.MixedUp {
		var with []string
		for _, w := range m.With {
			with = append(with, words.Say("keep.with."+w))
		}
		out = append(out, words.Say("keep.head.mixed-up", m.Swap, words.Join(with)))
	}
	return out
}

// differs says where a pot of a tasting held another weight than its version
// asks for: that is no swap, and yet it was tasted.
func (l *Ledger) differs(t *recipes.Tasting) []string {
	var out []string
	seen := map[recipes.ID]bool{}
	for _, s := range tasting.InOrder(l.Book, t.ID) {
		test := l.Book.Test(l.Recipe.ID, s.Batch)
		if test == nil || seen[test.ID] {
			continue
		}
		seen[test.ID] = true
		for _, line := range l.bench.TestLines(test.Version) {
			g, weighed := test.AsCooked[line.ID]
			if !weighed || !line.Known || line.Gone || math.Abs(g-line.Grams) <= asCookedLook*line.Grams {
				continue
			}
			out = append(out, words.Say("keep.head.differs", tasting.NameOf(l.Book, t, s), dayText(t.Date), line.Name, words.Grams(g), words.Grams(line.Grams)))
		}
	}
	return out
}
