package panel

import (
	"math"

	"parewell/recipes/words"
)

// How much must be there before a sentence is said (common practice, no source).
const (
	enoughScores  = 3 // to speak of the use of the scale
	enoughWidth   = 5 // scores, to call a use of the scale narrow
	enoughShared  = 5 // samples, to speak of agreement
	enoughRepeats = 3 // degrees of freedom, to speak of repeatability and of telling apart
	unlikely      = 0.05
)

// Explain says what the taster's scores show, and where they are too few to show
// anything. It never speaks of the person.
func (p *Panelist) Explain() []words.Phrase {
	if p.Same {
		out := []words.Phrase{words.P("panel.same", p.Name, p.N, words.Trim(p.Mean, 1))}
		if p.N < enoughScores {
			out = append(out, words.P("panel.scale.few"))
		}
		return append(out, p.missed()...)
	}
	out := p.scale()
	out = append(out, p.missed()...)
	out = append(out, p.agreement())
	out = append(out, p.repeatability()...)
	return append(out, p.discrimination()...)
}

// scale is the use of the scale.
func (p *Panelist) scale() []words.Phrase {
	if p.N < 2 {
		return []words.Phrase{words.P("panel.one-score", p.Name, words.Trim(p.Mean, 1)), words.P("panel.scale.few")}
	}
	out := []words.Phrase{words.P("panel.scale", p.Name, p.N, words.Trim(p.Low, 1), words.Trim(p.High, 1), words.Number(p.Mean, 1))}
	half := p.panel.SD / 2
	switch {
	case p.N < enoughScores:
		out = append(out, words.P("panel.scale.few"))
	case p.Level >= half:
		out = append(out, words.P("panel.level.above", words.Number(p.Level, 1)))
	case p.Level <= -half:
		out = append(out, words.P("panel.level.below", words.Number(-p.Level, 1)))
	}
	if p.N >= enoughWidth && p.SD < half {
		out = append(out, words.P("panel.narrow"))
	}
	return out
}

func (p *Panelist) missed() []words.Phrase {
	if p.Missed == 0 {
		return nil
	}
	return []words.Phrase{words.P("panel.missed", p.Missed)}
}

// agreement puts the correlation with the others into words; the steps are
// common practice, no source.
func (p *Panelist) agreement() words.Phrase {
	if p.Shared < enoughShared {
		return words.P("panel.agree.few", p.Shared)
	}
	if math.IsNaN(p.Agreement) {
		return words.P("panel.agree.none")
	}
	return words.P("panel.agree."+p.step(), p.Shared, words.Number(p.Agreement, 2))
}

// step is how far the order of the samples is that of the others.
func (p *Panelist) step() string {
	switch {
	case p.Agreement >= 0.7:
		return "much"
	case p.Agreement >= 0.3:
		return "partly"
	case p.Agreement > -0.3:
		return "own"
	}
	return "other"
}

// Agrees says in two or three words how far the order of the samples is that of
// the others, as the sentence does: too few samples say nothing, whatever their
// correlation.
func (p *Panelist) Agrees() words.Phrase {
	switch {
	case p.Shared < enoughShared:
		return words.P("panel.agree.short.few", p.Shared)
	case math.IsNaN(p.Agreement):
		return words.P("panel.agree.short.none")
	}
	return words.P("panel.agree.short." + p.step())
}

// repeatability says how far scores of the same sample lie apart.
func (p *Panelist) repeatability() []words.Phrase {
	switch {
	case p.DF2 == 0:
		return []words.Phrase{words.P("panel.repeat.none")}
	case p.DF2 < enoughRepeats && p.Gap == 0:
		return []words.Phrase{words.P("panel.repeat.equal"), words.P("panel.repeat.few")}
	case p.DF2 < enoughRepeats:
		return []words.Phrase{words.P("panel.repeat.gap", words.Trim(p.Gap, 1)), words.P("panel.repeat.few")}
	}
	out := []words.Phrase{words.P("panel.repeat.spread", words.Number(p.Repeatability, 1), words.Number(p.panel.Repeatability, 1))}
	if p.Repeatability > 1.5*p.panel.Repeatability {
		out = append(out, words.P("panel.repeat.wide"))
	}
	return out
}

// discrimination says whether the scores tell the samples apart.
func (p *Panelist) discrimination() []words.Phrase {
	switch {
	case p.DF2 < enoughRepeats || p.Tasted < 2:
		return nil
	case math.IsNaN(p.P):
		return []words.Phrase{words.P("panel.apart.exact")}
	case p.P <= unlikely:
		return []words.Phrase{words.P("panel.apart.clear", chance(p.P))}
	}
	return []words.Phrase{words.P("panel.apart.open", chance(p.P))}
}

// Explain says what the panel shows as a whole.
func (p *Panel) Explain() []words.Phrase {
	out := []words.Phrase{words.P("panel.whole", len(p.Panelists), len(p.Samples), p.N)}
	if w := p.Whole; w != nil {
		out = append(out, w.explain()...)
	} else if len(p.Samples) > 1 && p.Alike {
		out = append(out, words.P("panel.whole.served"))
	} else if len(p.Samples) > 1 {
		out = append(out, words.P("panel.whole.uneven"))
	}
	if p.RepeatDF > 0 {
		out = append(out, words.P("panel.whole.repeat", words.Number(p.Repeatability, 1)))
	} else {
		out = append(out, words.P("panel.whole.no-repeat"))
	}
	return append(out, words.P("panel.aside"))
}

func (w *Whole) explain() (out []words.Phrase) {
	switch {
	case math.IsNaN(w.OfSamples.P):
	case w.OfSamples.P <= unlikely:
		out = append(out, words.P("panel.whole.apart", chance(w.OfSamples.P)))
	default:
		out = append(out, words.P("panel.whole.open", chance(w.OfSamples.P)))
	}
	if w.OfInteraction.P <= unlikely {
		out = append(out, words.P("panel.whole.differ", chance(w.OfInteraction.P)))
	}
	return out
}

// chance formats a probability: per cent, and words for what is tiny.
func chance(p float64) string {
	if p < 0.0001 {
		return words.Say("panel.chance.tiny")
	}
	places := 1
	if p < 0.001 {
		places = 2
	}
	return words.Trim(100*p, places) + " %"
}
