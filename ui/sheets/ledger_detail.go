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
			d := v.swapDetail(r)
			d.Title = words.Say("keep.together.title", Capital(words.Join(append([]string{r.Name}, r.Ties...))))
			return d
		}
	}
	for i := range v.Table.Wholes {
		if w := &v.Table.Wholes[i]; key == LedgerWholeKey+string(v.l.versions[w.Version].ID) {
			return v.wholeDetail(w)
		}
	}
	return LedgerDetail{}
}

func (v *LedgerView) swapDetail(r *ledger.Verdict) LedgerDetail {
	cell := v.swapVerdict(r)
	d := LedgerDetail{Title: Capital(r.Name), Label: cell.Text, Mark: cell.Mark}
	if !v.l.Tasted() {
		d.Says = []string{words.Say("keep.nothing-tasted")}
		return d
	}
	says := r.Sentences()
	if !v.Overall {
		d.Says, says = []string{v.otherWhy(r)}, []words.Phrase{r.PotsNote()}
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
func (v *LedgerView) otherWhy(r *ledger.Verdict) string {
	if math.IsNaN(r.Low) {
		if k := r.Kind; k == ledger.Tied || k == ledger.AlwaysOn || k == ledger.NotTasted {
			return words.Say("keep.other.why." + string(k))
		}
		return words.Say("keep.other.why.no-range")
	}
	effect, span := EffectText(r.Interval, 0)
	return words.Say("keep.other.why", v.Ask.Attribute, effect, span)
}

func (v *LedgerView) wholeDetail(w *ledger.Whole) LedgerDetail {
	cell := v.wholeVerdict(w)
	version := v.l.versions[w.Version]
	d := LedgerDetail{Title: words.Say("keep.whole.title", LetterName(version)), Label: cell.Text, Mark: cell.Mark}
	on := v.l.Book.On(version)
	swaps := words.P("keep.whole.swaps", len(on), words.Join(swapNames(on)))
	if v.Overall {
		d.Says = spoken(w.Line(), w.Warning(), swaps, w.PotsNote(), w.MoreNote())
	} else {
		if !math.IsNaN(w.Low) {
			effect, span := EffectText(w.Interval, 0)
			d.Says = append(d.Says, words.Say("keep.other.why", v.Ask.Attribute, effect, span))
		}
		d.Says = append(d.Says, spoken(swaps, w.PotsNote())...)
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
