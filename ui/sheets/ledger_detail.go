package sheets

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/ledger"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// LedgerDetail is what stands behind one row: the evidence in sentences, and the
// tastings and pots it rests on.
type LedgerDetail struct {
	Title string
	Label string // the verdict
	Mark  Mark
	Says  []string
	Rests []string
}

// Detail explains a row by its key; the zero value for a key that has none.
func (v *LedgerView) Detail(key string) LedgerDetail {
	for i := range v.Table.Rows {
		r := &v.Table.Rows[i]
		switch id := string(v.l.swaps[r.Swap].ID); key {
		case LedgerSwapKey + id:
			return v.swapDetail(r)
		case LedgerTogetherKey + id:
			return v.togetherDetail(r)
		}
	}
	for i, version := range v.l.versions {
		if version == nil || key != LedgerWholeKey+string(version.ID) {
			continue
		}
		if w := v.whole(i); w != nil {
			return v.wholeDetail(w)
		}
		return v.untastedDetail(version)
	}
	return LedgerDetail{}
}

// togetherDetail explains swaps that were always served together, as one.
func (v *LedgerView) togetherDetail(r *ledger.Verdict) LedgerDetail {
	cell := v.jointVerdict(r)
	d := v.swapDetail(r)
	d.Title, d.Label, d.Mark = words.Say("keep.together.title", Capital(words.Join(append([]string{r.Name}, r.Ties...)))), cell.Text, cell.Mark
	says := r.Together()
	if d.Says = spoken(says...); !v.Overall {
		d.Says = append([]string{v.otherWhy(r.Whole, r.Joint)}, spoken(says[1])...)
	}
	return d
}

// untastedDetail says what is known of a version that nobody has tasted.
func (v *LedgerView) untastedDetail(version *recipes.Version) LedgerDetail {
	cell, on := notTasted(), v.l.Book.On(version)
	return LedgerDetail{
		Title: words.Say("keep.whole.title", LetterName(version)), Label: cell.Text, Mark: cell.Mark,
		Says: spoken(words.P("keep.whole.untasted"), words.P("keep.whole.swaps", len(on), words.Join(swapNames(on)))),
	}
}

func (v *LedgerView) swapDetail(r *ledger.Verdict) LedgerDetail {
	cell := v.swapVerdict(r)
	d := LedgerDetail{Title: Capital(r.Name), Label: cell.Text, Mark: cell.Mark}
	if !v.l.Tasted() {
		d.Says = []string{words.Say("keep.nothing-tasted")}
		return d
	}
	says := r.Evidence()
	if !v.Overall {
		d.Says, says = []string{v.otherWhy(r.Kind, r.Interval)}, nil
	}
	says = append(says, r.Saving.Note(v.as().name))
	d.Says = append(d.Says, spoken(says...)...)
	id := v.l.swaps[r.Swap].ID
	d.Rests = v.l.rests(func(s *recipes.Sample) bool {
		return s.Served != nil && slices.ContainsFunc(s.Served.Swaps, func(x recipes.ServedSwap) bool { return x.ID == id })
	})
	return d
}

// spoken says phrases as sentences, leaving out those without a key.
func spoken(all ...words.Phrase) []string {
	var out []string
	for _, p := range all {
		if p.Key == "" {
			continue
		}
		s := Capital(p.String())
		if !strings.HasSuffix(s, ".") {
			s += "."
		}
		out = append(out, s)
	}
	return out
}

// otherWhy is the evidence where the score is not how much the dish is liked.
func (v *LedgerView) otherWhy(k ledger.Kind, i ledger.Interval) string {
	if math.IsNaN(i.Low) {
		if k == ledger.Tied || k == ledger.AlwaysOn || k == ledger.NotTasted {
			return words.Say("keep.other.why." + string(k))
		}
		return words.Say("keep.other.why.no-range")
	}
	effect, span := effectIn(i, v.Table.Digits())
	return words.Say(v.otherKey(), v.Ask.Attribute, effect, span)
}

// otherKey is the sentence of a score that is not how much the dish is liked as a
// whole: of what people like, higher is better; of how strong something is it is
// neither.
func (v *LedgerView) otherKey() string {
	if v.l.likes(v.Ask.Attribute) {
		return "keep.other.why.liked"
	}
	return "keep.other.why"
}

func (v *LedgerView) wholeDetail(w *ledger.Whole) LedgerDetail {
	cell := v.wholeVerdict(w)
	version := v.l.versions[w.Version]
	d := LedgerDetail{Title: words.Say("keep.whole.title", LetterName(version)), Label: cell.Text, Mark: cell.Mark}
	on := v.l.Book.On(version)
	swaps := words.P("keep.whole.swaps", len(on), words.Join(swapNames(on)))
	if v.Overall {
		d.Says = spoken(w.Line(), w.Warning(), swaps, w.MoreNote())
	} else {
		if !math.IsNaN(w.Low) {
			d.Says = append(d.Says, v.otherWhy(w.Kind, w.Interval))
		}
		d.Says = append(d.Says, spoken(swaps)...)
	}
	d.Rests = v.l.rests(func(s *recipes.Sample) bool { return s.Version == version.ID && s.Dish == "" })
	return d
}

func swapNames(on []*recipes.Swap) []string {
	out := make([]string, len(on))
	for i, s := range on {
		out[i] = s.Name
	}
	return out
}

// rests says which tastings a verdict rests on: which samples that had it, from
// how many pots, scored by how many.
func (l *Ledger) rests(had func(*recipes.Sample) bool) []string {
	var out []string
	for _, t := range l.Pool.Tastings {
		var names []string
		pots := map[string]map[string]bool{}
		for _, s := range tasting.InOrder(l.Book, t.ID) {
			name := tasting.NameOf(l.Book, t, s)
			if had(s) && pots[name] == nil {
				names, pots[name] = append(names, name), map[string]bool{}
			}
		}
		people := map[string]bool{}
		for i := range l.Pool.Table.Scores {
			x := &l.Pool.Table.Scores[i]
			if m := pots[x.Sample]; m != nil && x.Tasting == string(t.ID) {
				m[x.Pot], people[x.Panelist] = true, true
			}
		}
		for i, name := range names {
			names[i] = words.Say("keep.rests.sample", len(pots[name]), name)
		}
		if len(people) > 0 {
			out = append(out, words.Say("keep.rests", len(people), TastingTitle(t), strings.Join(names, ", ")))
		}
	}
	return out
}
