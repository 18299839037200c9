package sheets

import (
	"context"
	"slices"
	"strings"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/charts"
	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Trades are the best trade-offs and what to cook and taste next, by overall
// liking.
type Trades struct {
	Ask  LedgerAsk
	Best *ledger.Tradeoffs // nil with Err
	Next *ledger.Plan
	Err  error // why there are none, or the context's

	reach string // what the proposed tasting can show by itself
	l     *Ledger
}

// Trade searches the combinations. It takes a while: call it off the window's
// thread.
func (l *Ledger) Trade(ctx context.Context, a LedgerAsk) Trades {
	t := Trades{Ask: a, l: l}
	e := l.evidence[l.Overall()]
	if t.Best, t.Err = ledger.Best(ctx, e, ledger.Goal{Nutrient: a.Nutrient.Key(), Limit: a.Limit}); t.Err != nil {
		return t
	}
	e, ask := l.asked(a)
	ask.Tasters = outcome.Askable(l.Book)
	if t.Next, t.Err = ledger.Next(ctx, e, ask); t.Err == nil && t.Next.Tasting != nil {
		t.reach = l.reach(t.Next.Tasting)
	}
	return t
}

// tradesShown is how many trade-offs the list holds.
const tradesShown = 8

// Sheet lists the best trade-offs, what keeps within the limit first and what is
// over it last, under a line that says so; of each the one that takes most off
// first. Nothing in it that was not tasted may be printed.
func (t *Trades) Sheet() Sheet {
	as := t.l.bench.as(t.Ask.Nutrient)
	s := Sheet{Corner: words.Say("keep.combo"), Columns: []Column{
		{Key: "saving", Title: words.Say("keep.lighter"), Sub: as.label(), Number: true, Index: -1},
		{Key: "effect", Title: words.Say("keep.effect.liking"), Sub: words.Say("keep.effect.range"), Index: -1, Tight: true},
		{Key: "known", Title: words.Say("keep.verdict"), Sub: words.Say("keep.known"), Index: -1},
	}}
	if t.Best == nil {
		return s
	}
	all := t.shown()
	slices.SortStableFunc(all, func(a, b ledger.Combo) int { return standing(a.Kind) - standing(b.Kind) })
	places := 1
	for i := range all {
		places = max(places, ledger.Places(all[i].Interval, t.Best.Limit))
	}
	over := false
	for i := range all {
		if all[i].Kind == ledger.TooMuch && !over {
			over = true
			s.Rows = append(s.Rows, Row{Key: "over", Band: true, Label: text(words.Say("keep.best.over", words.Trim(t.Best.Limit, 2)))})
		}
		s.Rows = append(s.Rows, t.comboRow(i, &all[i], places))
	}
	return s
}

// standing puts what keeps within the limit before what is not sure, and that
// before what is over it.
func standing(k ledger.Kind) int {
	switch {
	case k.Fits():
		return 0
	case k == ledger.TooMuch:
		return 2
	}
	return 1
}

// comboRow is the row of one combination: its verdict, and how it is known.
func (t *Trades) comboRow(at int, c *ledger.Combo, places int) Row {
	effect, span := effectIn(c.Interval, places)
	grey := c.Kind == ledger.TooMuch
	row := Row{Key: words.Trim(float64(at), 0), Label: Cell{Text: t.comboName(c), Wrap: true, Muted: grey, Bar: noBar()}}
	verdict := words.Say("ledger.kind." + string(c.Kind))
	if t.Best.ForLimit != nil && sameCombo(c, t.Best.ForLimit) {
		row.Label.Strong, verdict = true, words.Say("keep.best", verdict)
	}
	if c.Printable() || standing(c.Kind) == 1 { // nobody keeps or drops what was only reckoned
		verdict = advised(c.Kind, verdict)
	}
	note := Cell{Text: words.Say("keep.best.known", verdict, c.Note().String()), Mark: VerdictMark(charts.Verdict(c.Kind)), Wrap: true, Muted: grey || !c.Printable(), Bar: noBar()}
	if c.Kind == ledger.NoLimit {
		note.Text, note.Mark = c.Note().String(), NoMark
	}
	saving := t.l.bench.as(t.Ask.Nutrient).saving(c.Saving)
	saving.Muted = saving.Muted || grey
	row.Cells = []Cell{saving, {Text: effect, Sub: span, Muted: grey || !c.Printable(), Bar: noBar()}, note}
	return row
}

// Foot says what the list lacks; "" for nothing.
func (t *Trades) Foot() string {
	switch {
	case t.Best == nil:
		return ""
	case len(t.Best.Frontier) == 0:
		return words.Say("keep.best.none")
	case t.Best.ForLimit == nil && t.Best.Limit > 0:
		return words.Say("keep.best.none-within", words.Trim(t.Best.Limit, 2), t.l.bench.as(t.Ask.Nutrient).name)
	}
	return ""
}

// LighterBy are the nutrients of which a lighter dish has less: those of the tables
// but protein and fibre, of which more is better.
func LighterBy(u Units) []food.Nutrient {
	return slices.DeleteFunc(slices.Clone(u.Shown()), func(n food.Nutrient) bool { return n == food.Protein || n == food.Fibre })
}

// shown are the combinations of the list, the best for the limit among them.
func (t *Trades) shown() []ledger.Combo {
	all := slices.Clone(t.Best.Frontier)
	slices.Reverse(all)
	if len(all) <= tradesShown {
		return all
	}
	out := all[:tradesShown]
	if b := t.Best.ForLimit; b != nil && !slices.ContainsFunc(out, func(c ledger.Combo) bool { return sameCombo(&c, b) }) {
		out[tradesShown-1] = *b
	}
	return out
}

func (t *Trades) comboName(c *ledger.Combo) string {
	names := words.Join(shortNames(t.swapsOf(c)))
	if v := t.l.versionAt(c.Version); v != nil {
		return words.Say("keep.combo.version", v.Letter, names)
	}
	return Capital(names)
}

// swapsOf are the swaps of a combination.
func (t *Trades) swapsOf(c *ledger.Combo) []*recipes.Swap {
	out := make([]*recipes.Swap, len(c.Swaps))
	for i, s := range c.Swaps {
		out[i] = t.l.swaps[s]
	}
	return out
}

// versionAt is a version of the evidence; nil for the original and for none.
func (l *Ledger) versionAt(i int) *recipes.Version {
	if i < 0 || i >= len(l.versions) {
		return nil
	}
	return l.versions[i]
}

// Beside says which swaps stand in no trade-off, or not by themselves.
func (t *Trades) Beside() []string {
	if t.Best == nil {
		return nil
	}
	var all []words.Phrase
	said := map[string]bool{}
	for i := range t.Best.Beside {
		a := &t.Best.Beside[i]
		if a.Why == ledger.Tied { // one sentence for all that were served together
			set := strings.Join(slices.Sorted(slices.Values(append([]string{a.Name}, a.Ties...))), "\n")
			if said[set] {
				continue
			}
			said[set] = true
		}
		all = append(all, a.Note())
	}
	return gatheredSays(all, "ledger.beside.not-tasted", "keep.beside.not-tasted")
}

// gatheredSays says phrases as sentences; those of a key that only names a swap
// are said in one, under another key, where there are several.
func gatheredSays(all []words.Phrase, key, together string) []string {
	var out, names []string
	at := 0
	for _, p := range all {
		if p.Key == key {
			if names = append(names, p.Args[0]); len(names) > 1 {
				continue
			}
			at = len(out)
		}
		out = append(out, Capital(p.String()))
	}
	if len(names) > 1 {
		out[at] = Capital(words.Say(together, words.Join(names)))
	}
	return out
}

// Drafted is a version with the given swaps on, as one act.
func (l *Ledger) Drafted(id recipes.ID, on []bool) recipes.Verb {
	return recipes.All(words.P("keep.did.draft"), l.Recipe.ID, l.draft(id, on)...)
}

func (l *Ledger) draft(id recipes.ID, on []bool) []recipes.Verb {
	var swaps []*recipes.Swap
	for i, x := range on {
		if x && i < len(l.swaps) {
			swaps = append(swaps, l.swaps[i])
		}
	}
	verbs := []recipes.Verb{recipes.AddVersion(l.Recipe.ID, id, words.Join(shortNames(swaps)), "")}
	for i, x := range on {
		if x && i < len(l.swaps) {
			verbs = append(verbs, recipes.Tick(l.Recipe.ID, id, l.swaps[i].ID, true))
		}
	}
	return verbs
}

// PlanNext prepares a proposed tasting: the verb that drafts the versions it
// lacks (nil when it lacks none), and what fills the planner's form afterwards.
func (l *Ledger) PlanNext(x *ledger.Tasting, fresh func() recipes.ID) (recipes.Verb, func(*PlanFields)) {
	var verbs []recipes.Verb
	pots := map[recipes.ID]int{}
	original := 0
	for _, s := range x.Samples {
		switch v := l.versionAt(s.Version); {
		case len(s.Names) == 0:
			original = s.Pots
		case v != nil:
			pots[v.ID] = s.Pots
		default:
			id := fresh()
			verbs = append(verbs, l.draft(id, s.On)...)
			pots[id] = s.Pots
		}
	}
	fill := func(f *PlanFields) {
		f.Test, f.Versions, f.Original, f.Twice = recipes.TestLiking, pots, original > 0, original > 1
		if l.Limit() > 0 {
			f.Limit = words.Field(l.Limit(), 2)
		}
	}
	if len(verbs) == 0 {
		return nil, fill
	}
	return recipes.All(words.P("keep.did.drafts", countDrafts(x)), l.Recipe.ID, verbs...), fill
}

func countDrafts(x *ledger.Tasting) int {
	n := 0
	for _, s := range x.Samples {
		if s.Version < 0 && len(s.Names) > 0 {
			n++
		}
	}
	return n
}

// CSV is the table of a view with the recorded limit, as the charts folder has it.
func (v *LedgerView) CSV() [][]string {
	return book.KeepOrDrop(v.Table, v.Ask.Nutrient, v.attribute(), v.Overall, func(version int) ledger.Saving { return v.l.saved(version, v.Ask.Nutrient) })
}
