package ledger

import (
	"parewell/recipes/words"
)

// Table is the page Keep or drop: a verdict for each swap, and under them the
// whole versions, which outrank them.
type Table struct {
	Rows   []Verdict // in the order of Evidence.Swaps
	Wholes []Whole   // tasted versions with swaps on, in the order of Evidence.Versions
	Main   int       // in Wholes: the version with the most swaps; -1 none

	Nutrient        string
	Limit, Recorded float64 // judged against; kept with the tasting
	evidence        *Evidence
	rank            int // of what scores depend on
}

// WhatIf tells that another limit than the recorded one was tried: for the
// screen only.
func (t *Table) WhatIf() bool { return t.Limit != t.Recorded }

// Whole is one line for a whole version.
type Whole struct {
	Version int // in Evidence.Versions
	Name    string
	Swaps   int // how many are on
	Kind    Kind
	Interval
	Limit float64
	Pots  int
	More  More

	digits int // decimals its table needs

	// Outranks tells that its swaps each fit the limit by themselves and the
	// version does not, or is not shown to.
	Outranks bool
}

// Judge makes the table against the recorded limit, with savings of a nutrient.
func Judge(e *Evidence, nutrient string) (*Table, error) { return WhatIf(e, nutrient, e.Limit) }

// WhatIf makes the table against another limit; the recorded one is not touched.
func WhatIf(e *Evidence, nutrient string, limit float64) (*Table, error) {
	m, err := newModel(e)
	if err != nil {
		return nil, err
	}
	t := &Table{Rows: make([]Verdict, len(e.Swaps)), Main: -1, Nutrient: nutrient, Limit: set(limit), Recorded: set(e.Limit), evidence: e}
	for i, a := range m.at {
		t.Rows[a] = m.verdict(i, t.Limit, nutrient)
	}
	most := 0
	for v, fact := range e.Versions {
		n := onCount(fact.On)
		if fact.Servings == 0 || n == 0 {
			continue
		}
		if t.Wholes = append(t.Wholes, t.whole(m, v)); n > most {
			t.Main, most = len(t.Wholes)-1, n
		}
	}
	t.rank = len(m.at) - len(m.null)
	t.sameDigits()
	return t, nil
}

// Digits are the decimals of the table's effects: those of the one that needs most,
// because figures under one another have as many.
func (t *Table) Digits() int {
	d := 1
	for i := range t.Rows {
		d = max(d, Places(t.Rows[i].Interval, t.Limit), Places(t.Rows[i].Joint, t.Limit))
	}
	for i := range t.Wholes {
		d = max(d, Places(t.Wholes[i].Interval, t.Limit))
	}
	return d
}

// sameDigits makes the sentences of the table write as many decimals as its figures.
func (t *Table) sameDigits() {
	d := t.Digits()
	for i := range t.Rows {
		t.Rows[i].digits = d
	}
	for i := range t.Wholes {
		t.Wholes[i].digits = d
	}
}

// set makes a limit that is none 0, so that it can be compared.
func set(limit float64) float64 {
	if !(limit > 0) {
		return 0
	}
	return limit
}

func (t *Table) whole(m *model, v int) Whole {
	fact := m.e.Versions[v]
	w := Whole{Version: v, Name: fact.Name, Swaps: onCount(fact.On), Interval: m.version(v), Limit: t.Limit, Pots: fact.Pots}
	if w.Kind = Of(w.Interval, t.Limit); fact.Direct == nil && !estimable(m.null, m.on[v]) {
		w.Kind = Tied
	}
	if w.Kind == NotEnough || w.Kind == LessUnsettled && t.Limit > 0 {
		w.More = m.more(w.Interval, t.Limit)
	}
	w.Outranks = !w.Kind.Fits()
	for i, on := range fact.On {
		if on && !t.Rows[i].Kind.Fits() {
			w.Outranks = false
		}
	}
	return w
}

// Heads are the sentences over the table that say how far to trust it: one pot
// each, scores seen early, versions too few to show swaps in each other's way,
// and a limit that is only tried.
func (t *Table) Heads() []words.Phrase {
	e := t.evidence
	var out []words.Phrase
	switch {
	case t.WhatIf() && t.Recorded == 0:
		out = append(out, words.P("ledger.head.what-if.none", points(t.Limit)))
	case t.WhatIf():
		out = append(out, words.P("ledger.head.what-if", points(t.Limit), points(t.Recorded)))
	}
	if t.onePotEach() {
		out = append(out, words.P("ledger.head.one-pot", t.mainName()))
	}
	if e.Peeked {
		out = append(out, words.P("ledger.head.peeked"))
	}
	switch spare := distinctTasted(e) - 1 - t.rank; {
	case len(t.Wholes) > 0 && spare <= 0:
		out = append(out, words.P("ledger.head.few-versions"))
	case e.LackOfFit > 0 && e.LackOfFit < 0.05:
		out = append(out, words.P("ledger.head.interplay"))
	}
	return out
}

// onePotEach tells that nothing tasted was cooked twice.
func (t *Table) onePotEach() bool {
	any := false
	for _, v := range t.evidence.Versions {
		if v.Servings == 0 {
			continue
		}
		if any = true; v.Pots > 1 {
			return false
		}
	}
	return any && len(t.Wholes) > 0
}

func (t *Table) mainName() string {
	if t.Main < 0 {
		return ""
	}
	return t.Wholes[t.Main].Name
}

// distinctTasted counts the different combinations that were tasted.
func distinctTasted(e *Evidence) int {
	seen := map[string]bool{}
	for _, v := range e.Versions {
		if v.Servings > 0 {
			key := make([]byte, len(v.On))
			for i, on := range v.On {
				if on {
					key[i] = 1
				}
			}
			seen[string(key)] = true
		}
	}
	return len(seen)
}

// Groups numbers sets of swaps that were always served together, from 1, in the
// order of Rows; 0 for one that stands by itself.
func (t *Table) Groups() []int {
	out, next := make([]int, len(t.Rows)), 0
	for i := range t.Rows {
		if out[i] > 0 || len(t.Rows[i].TiedTo) == 0 || t.Rows[i].Mixed {
			continue
		}
		next++
		out[i] = next
		for _, k := range t.Rows[i].TiedTo {
			out[k] = next
		}
	}
	return out
}
