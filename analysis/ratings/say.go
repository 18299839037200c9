package ratings

import (
	"math"
	"slices"
	"strings"

	"parewell/recipes/words"
)

// stops are the notes that leave nothing else to say first.
var stops = []string{NoteOneSample, NoteNoVariation, NoteOnePanelist, NoteNoScatter, NoteNoResidual}

// Head is the one sentence that comes first.
func (r *Result) Head() words.Phrase {
	for _, code := range stops {
		if slices.Contains(r.Notes, code) && !(code == NoteOnePanelist && r.scatter()) {
			return words.P("ratings.head."+code, r.Attribute, r.Samples[0].Name)
		}
	}
	if len(r.AgainstOriginal) == 0 {
		return words.P("ratings.head.no_original", r.Attribute, r.Original)
	}
	var apart, alike, moved []string
	for _, a := range r.AgainstOriginal {
		switch {
		case !a.Difference.Known():
			apart = append(apart, a.Sample)
		case a.P < 0.05:
			moved = append(moved, words.Say("ratings.head.part", a.Sample, size(a.Difference), way(a.Difference)))
		case a.alike():
			alike = append(alike, a.Sample)
		}
	}
	switch {
	case len(apart) == len(r.AgainstOriginal):
		return words.P("ratings.head.apart", r.Attribute, r.Original)
	case len(moved) > 0:
		return words.P("ratings.head.lower", r.Attribute, words.Join(moved), r.Original)
	case len(alike) > 0:
		key := "ratings.head.all-alike"
		if len(alike) > 1 {
			key += "-many"
		}
		return words.P("ratings.head.alike", r.Attribute, words.Say(key, words.Join(alike)), words.Trim(r.limit, 2), r.Original)
	}
	return words.P("ratings.head.unsettled", r.Attribute, r.Original)
}

func size(d Number) string { return words.Number(math.Abs(float64(d)), 1) }

func way(d Number) string {
	if d < 0 {
		return words.Say("ratings.head.less")
	}
	return words.Say("ratings.head.more")
}

// alike tells whether a sample is shown to keep within the margin, several being
// tested.
func (a *Against) alike() bool { return a.Equivalent != nil && a.Equivalent.PHolm < 0.05 }

func span(low, high Number) string {
	return words.Say("ratings.range", words.Signed(float64(low), 2), words.Signed(float64(high), 2))
}

// Against says every sample's difference from the original.
func (r *Result) Against() []words.Phrase {
	var out []words.Phrase
	for i := range r.AgainstOriginal {
		a := &r.AgainstOriginal[i]
		limit := words.Trim(r.limit, 2)
		key := "ratings.against.open"
		switch {
		case !a.Difference.Known():
			out = append(out, words.P("ratings.against.apart", a.Sample, r.Original))
			continue
		case !a.P.Known():
			key = "ratings.against.plain"
		case a.P < 0.05 && a.alike():
			key = "ratings.against.small"
		case a.P < 0.05:
			key = "ratings.against.different"
		case a.alike():
			key = "ratings.against.alike"
		}
		out = append(out, words.P(key, a.Sample, words.Signed(float64(a.Difference), 2), span(a.Low, a.High), r.Original, limit))
	}
	return out
}

// SwapLines says what every swap does; nil without swaps.
func (r *Result) SwapLines() []words.Phrase {
	if r.SwapPart == nil {
		return nil
	}
	var out []words.Phrase
	for _, s := range r.Swaps {
		if !s.Estimable {
			out = append(out, words.P("ratings.swap."+s.Reason, s.Swap, words.Join(s.TiedTo)))
			continue
		}
		key, effect := "ratings.swap.open", words.Signed(float64(s.Effect), 2)
		switch {
		case !s.Low.Known() || !s.P.Known():
			key = "ratings.swap.plain"
		case s.High < 0:
			key, effect = "ratings.swap.lowers", words.Number(-float64(s.Effect), 2)
		case s.Low > 0:
			key, effect = "ratings.swap.raises", words.Number(float64(s.Effect), 2)
		}
		out = append(out, words.P(key, s.Swap, effect, span(s.Low, s.High), words.Say("ratings.swap.pots", s.Pots)))
	}
	for _, t := range r.Together {
		if t.Effect.Known() {
			out = append(out, words.P("ratings.swap.tied-sum", words.Join(t.Swaps), words.Signed(float64(t.Effect), 2), span(t.Low, t.High)))
		}
	}
	return out
}

// Explain says the notes.
func (r *Result) Explain() []words.Phrase {
	var out []words.Phrase
	for _, code := range r.Notes {
		if slices.Contains(stops, code) && !(code == NoteOnePanelist && r.scatter()) {
			continue // it is the head
		}
		out = append(out, r.explain(code)...)
	}
	if r.SwapPart != nil && r.LackOfFit != nil && r.LackOfFit.P >= 0.05 {
		out = append(out, words.P("ratings.note.fits", chance(r.LackOfFit.P)))
	}
	if r.SwapPart != nil && r.Pots.SD > 0 {
		out = append(out, words.P("ratings.note.pot-sd", words.Number(float64(r.Pots.SD), 1)))
	}
	if r.Blank > 0 {
		out = append(out, words.P("ratings.note.missing", r.Blank))
	}
	if r.DunnettError > 5e-5 {
		out = append(out, words.P("ratings.note.dunnett", r.Original, words.Trim(float64(r.DunnettError), 4)))
	}
	return out
}

func (r *Result) explain(code string) []words.Phrase {
	key := "ratings.note." + code
	switch code {
	case NoteLackOfFit:
		return []words.Phrase{words.P(key, chance(r.LackOfFit.P))}
	case NoteFirst:
		f := r.Order.FirstVsLater
		return []words.Phrase{words.P(key, size(f.Effect), way(f.Effect), chance(f.P))}
	case NoteCarryover:
		return []words.Phrase{words.P(key, chance(r.Order.Carryover.P))}
	case NoteNotServed:
		return []words.Phrase{words.P(key, strings.Join(r.NotServed, ", "))}
	case NoteMixedUp:
		var out []words.Phrase
		for _, m := range r.MixedUp {
			var with []string
			for _, c := range m.With {
				with = append(with, words.Say("ratings.condition."+c))
			}
			out = append(out, words.P(key, m.Swap, words.Join(with)))
		}
		return out
	}
	return []words.Phrase{words.P(key)}
}

// chance is a p value in words of figures; below 0.0001 it says just that.
func chance(p Number) string {
	switch {
	case !p.Known():
		return words.Unknown
	case p < 0.0001:
		return "< " + words.Trim(0.0001, 4)
	}
	return words.Number(float64(p), 4)
}

// Chance is a p value as shown to people.
func Chance(p Number) string { return chance(p) }
