package ledger

import (
	"math"
	"slices"

	"parewell/recipes/words"
)

// Label is the verdict in a few words, for its cell.
func (v *Verdict) Label() words.Phrase {
	switch {
	case v.Kind == Tied && v.Mixed:
		return words.P("ledger.kind.mixed", words.Join(v.Ties))
	case v.Kind == Tied:
		return words.P("ledger.kind.tied", words.Join(v.Ties))
	case v.Kind == AlwaysOn && v.Mixed:
		return words.P("ledger.kind.never-both")
	}
	return words.P("ledger.kind." + string(v.Kind))
}

// Explain is the evidence for the verdict in one or two sentences: size, range,
// limit. The pots it rests on and what would settle it stand by themselves
// (PotsNote, MoreNote).
func (v *Verdict) Explain() words.Phrase {
	switch v.Kind {
	case Tied:
		if v.Mixed {
			return words.P("ledger.why.mixed", v.Name, words.Join(v.Ties))
		}
		if !math.IsNaN(v.Joint.Low) {
			d := max(v.digits, Places(v.Joint, v.Limit))
			return words.P("ledger.why.tied-joint", v.Name, words.Join(v.Ties), words.Signed(v.Joint.Effect, d), words.Signed(v.Joint.Low, d), words.Signed(v.Joint.High, d))
		}
		return words.P("ledger.why.tied", v.Name, words.Join(v.Ties))
	case AlwaysOn, NotTasted:
		if v.Mixed {
			return words.P("ledger.why.never-both", v.Name)
		}
		return words.P("ledger.why."+string(v.Kind), v.Name)
	}
	return why(v.Name, v.Kind, v.Interval, v.Limit, v.digits)
}

// why words an interval that was judged, with at least so many decimals.
func why(name string, k Kind, i Interval, limit float64, digits int) words.Phrase {
	switch {
	case math.IsNaN(i.Effect):
		return words.P("ledger.why.no-scores", name)
	case math.IsNaN(i.Low):
		return words.P("ledger.why.no-range", name, points(i.Effect))
	}
	d := max(digits, Places(i, limit))
	key := "ledger.why." + string(k)
	if k == LessUnsettled && limit == 0 {
		key = "ledger.why.less-no-limit"
	}
	return words.P(key, name, words.Signed(i.Effect, d), words.Signed(i.Low, d), words.Signed(i.High, d), words.Trim(limit, 2), words.Number(math.Abs(i.Effect), d))
}

// Places are the decimals an interval is written with: one, or two where one
// would put an end on the limit or on zero that lies beside it.
func Places(i Interval, limit float64) int {
	for _, end := range []float64{i.Low, i.High} {
		for _, mark := range []float64{-limit, 0} {
			if math.Abs(end-mark) < 0.1 {
				return 2
			}
		}
	}
	return 1
}

// points writes a size in points of liking.
func points(v float64) string { return words.Trim(v, 2) }

// PotsNote says how many pots the verdict rests on; a phrase without a key when it
// rests on none.
func (v *Verdict) PotsNote() words.Phrase { return potsNote(v.Pots) }

// PotsNote says how many pots of the version were tasted.
func (w *Whole) PotsNote() words.Phrase { return potsNote(w.Pots) }

func potsNote(pots int) words.Phrase {
	if pots == 0 {
		return words.Phrase{}
	}
	return words.P("ledger.pots", pots)
}

// Note says why a saving is not known: which ingredients have no figure for the
// nutrient named; a phrase without a key where it is known.
func (s Saving) Note(nutrient string) words.Phrase {
	if s.Known || s.Lacks == "" {
		return words.Phrase{}
	}
	return words.P("ledger.saving.lacks", nutrient, s.Lacks)
}

// MoreNote says what tasting would settle it; a phrase without a key when none is
// asked for.
func (v *Verdict) MoreNote() words.Phrase { return v.More.note() }

// MoreNote says what tasting would settle it; a phrase without a key when none is
// asked for.
func (w *Whole) MoreNote() words.Phrase { return w.More.note() }

func (m More) note() words.Phrase {
	switch {
	case m.NotWithPanel && m.Tasters > 0:
		return words.P("ledger.more.not-with-panel", m.Tasters, MostEvenings)
	case m.NotWithPanel:
		return words.P("ledger.more.not-at-all", mostAlone)
	case m.Servings == 0:
		return words.Phrase{}
	case m.Evenings == 0:
		return words.P("ledger.more.servings", m.Servings)
	}
	return words.P("ledger.more.evenings", m.Evenings, m.Servings, m.Tasters)
}

// Evidence is Sentences without the pots, for where those are listed.
func (v *Verdict) Evidence() []words.Phrase {
	return slices.DeleteFunc(v.Sentences(), func(p words.Phrase) bool { return p.Key == "ledger.pots" })
}

// Sentences are all that is to be said of the swap, in order: the evidence, the
// pots, what would settle it, and liking lost where that may be said.
func (v *Verdict) Sentences() []words.Phrase {
	out := []words.Phrase{v.Explain()}
	for _, p := range []words.Phrase{v.PotsNote(), v.MoreNote(), v.LostNote()} {
		if p.Key != "" {
			out = append(out, p)
		}
	}
	return out
}

// LostNote says what 100 kcal cost in liking; a phrase without a key when that may not
// be said.
func (v *Verdict) LostNote() words.Phrase {
	switch {
	case math.IsNaN(v.LostPer100):
		return words.Phrase{}
	case v.LostPer100 < 0:
		return lostNote("ledger.gained", -v.LostPer100, -v.LostHigh, -v.LostLow)
	}
	return lostNote("ledger.lost", v.LostPer100, v.LostLow, v.LostHigh)
}

// lostNote writes a cost to two figures, and its range to as many decimals.
func lostNote(key string, per, low, high float64) words.Phrase {
	d := 2 - int(math.Ceil(math.Log10(math.Max(per, 0.1))))
	d = min(max(d, 0), 2)
	return words.P(key, words.Number(per, d), words.Number(low, d), words.Number(high, d))
}

// Together is the evidence for a swap and those that were always served with it, as
// one: what they did, whether that keeps within the limit, and that nobody can say
// which of them did it.
func (v *Verdict) Together() []words.Phrase {
	name := words.Join(append([]string{v.Name}, v.Ties...))
	out := []words.Phrase{why(words.Say("ledger.together", name), v.Whole, v.Joint, v.Limit, v.digits), words.P("ledger.together.which", 1+len(v.Ties))}
	if p := v.Settle.note(); p.Key != "" {
		out = append(out, p)
	}
	return out
}

// Line is the whole version's line: all its swaps together, with the verdict.
func (w *Whole) Line() words.Phrase {
	limit := words.Trim(w.Limit, 2)
	fit := words.P("ledger.whole."+string(w.Kind), limit)
	if math.IsNaN(w.Low) {
		return words.P("ledger.whole.unknown", w.Swaps, w.Name, fit)
	}
	d := max(w.digits, Places(w.Interval, w.Limit))
	return words.P("ledger.whole", w.Swaps, w.Name, words.Signed(w.Effect, d), words.Signed(w.Low, d), words.Signed(w.High, d), fit)
}

// Warning says that swaps which each fit do not fit together; a phrase without a key
// otherwise.
func (w *Whole) Warning() words.Phrase {
	if !w.Outranks {
		return words.Phrase{}
	}
	return words.P("ledger.whole.outranks", w.Name)
}
