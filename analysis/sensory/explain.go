package sensory

import (
	"math"

	"parewell/recipes/words"
)

// Explain says the result in sentences, the answer first. It never says "no
// difference": what is not shown is open, with how large it may be.
func (d *Discrimination) Explain() []words.Phrase {
	var out []words.Phrase
	if d.Test.TwoSided() {
		out = append(out, d.preferred())
	} else {
		out = append(out, d.verdicts()...)
	}
	// What was counted is said per test; "sensory.told.*" are the sentences.
	out = append(out,
		words.P("sensory.told."+string(d.Test), d.Correct, d.N, words.Trim(float64(d.N)*d.PGuess, 1)),
		words.P(d.sided(), chance(d.PDifference)))
	switch {
	case d.Test.TwoSided(): // which they prefer says nothing of how far apart they taste
	case d.DPrime == nil:
		out = append(out, words.P("sensory.d-prime.all"))
	case d.DPrimeSE != nil:
		out = append(out, words.P("sensory.d-prime", words.Number(*d.DPrime, 2), words.Number(*d.DPrimeSE, 2)))
	}
	return out
}

// sided is the sentence that says what the chance is of.
func (d *Discrimination) sided() string {
	if d.Test.TwoSided() {
		return "sensory.chance.two"
	}
	return "sensory.chance.one"
}

// verdicts are the answer: noticed or not settled, similar or not shown.
func (d *Discrimination) verdicts() []words.Phrase {
	var out []words.Phrase
	if d.Different() {
		out = append(out, words.P("sensory.notice", words.Share(d.PD), words.Share(d.PDLow), words.Share(d.PDHigh)))
		if d.PDLow == 0 {
			out = append(out, words.P("sensory.notice.edge"))
		}
	} else if !d.ShownSimilar() && d.PDHigh < 0.005 { // bad luck in guessing, and no sign that nobody notices
		out = append(out, words.P("sensory.open.fewer"))
	} else if !d.ShownSimilar() {
		out = append(out, words.P("sensory.open", words.Share(d.PDHigh)))
	}
	switch {
	case d.Similar == nil:
	case d.ShownSimilar() && d.Different():
		out = append(out, words.P("sensory.similar.but", words.Share(d.Similar.PDLimit), chance(d.Similar.P)))
	case d.ShownSimilar():
		out = append(out, words.P("sensory.similar", words.Share(d.Similar.PDLimit), chance(d.Similar.P)))
	default:
		out = append(out, words.P("sensory.similar.open", words.Share(d.Similar.PDLimit), chance(d.Similar.P)))
	}
	return out
}

func (d *Discrimination) preferred() words.Phrase {
	exact := Exact(d.N, d.Correct, 0.95)
	switch {
	case !d.Different():
		return words.P("sensory.preferred.open", words.Share(exact.Low), words.Share(exact.High))
	case d.PC > 0.5:
		return words.P("sensory.preferred.first", words.Share(d.PC), words.Share(exact.Low), words.Share(exact.High))
	}
	return words.P("sensory.preferred.second", words.Share(1-d.PC), words.Share(1-exact.High), words.Share(1-exact.Low))
}

// chance formats a probability: per cent, and words for what is tiny.
func chance(p float64) string {
	if p < 0.0001 {
		return words.Say("sensory.chance.tiny")
	}
	places := 1
	if p < 0.001 {
		places = 2
	}
	return words.Trim(100*p, places) + " %"
}

// Explain says in sentences how even the design is and what its panel can show,
// before anyone cooks; a small panel first in one sentence (see Short). limit is
// the most liking that may be lost (DESIGN: the acceptable drop), or the share of
// people who may notice, 0 for none; scatter as for Report.
func (d *Design) Explain(limit, scatter float64) []words.Phrase {
	var out []words.Phrase
	if short := d.Short(limit, scatter); short.Key != "" {
		out = append(out, short)
	}
	out = append(out, d.Balance().phrase(len(d.Trays)))
	switch {
	case d.Ask.Test == Liking:
		out = append(out, d.LikingPlan(scatter).Explain(limit)...)
	case d.Ask.Test.Counts():
		out = append(out, explainTell(d.Ask.Test, len(d.Trays), limit)...)
	}
	for _, a := range d.Advice(limit, scatter) {
		out = append(out, a.Phrase())
	}
	return out
}

func (b *Balance) phrase(n int) words.Phrase {
	switch {
	case b.Sequences != nil && b.PlaceSpread == 0:
		return words.P("sensory.balance.trays", len(b.Sequences))
	case b.Sequences != nil:
		return words.P("sensory.balance.trays-nearly", len(b.Sequences), b.PlaceSpread)
	case b.Together != nil && b.Perfect():
		return words.P("sensory.balance.blocks")
	case b.Together != nil:
		return words.P("sensory.balance.blocks-nearly", b.PlaceSpread, b.AfterSpread, b.TogetherSpread)
	case b.Perfect():
		return words.P("sensory.balance.perfect")
	case b.Even():
		return words.P("sensory.balance.even", n, b.PlaceSpread, b.AfterSpread)
	}
	return words.P("sensory.balance.nearly", b.PlaceSpread, b.AfterSpread)
}

// Explain says what the panel can show, and whether that is enough for limit.
func (p LikingPlan) Explain(limit float64) []words.Phrase {
	notice, show := p.Notice(UsualAlpha, UsualPower), p.Limit(UsualAlpha, UsualPower)
	if math.IsInf(notice, 0) || math.IsInf(show, 0) {
		return []words.Phrase{words.P("sensory.can.none", p.Panelists)}
	}
	out := []words.Phrase{words.P("sensory.can.notice", p.Panelists, points(notice))}
	switch {
	case limit <= 0:
		out = append(out, words.P("sensory.can.limit", p.Panelists, points(show)))
	case show <= limit:
		out = append(out, words.P("sensory.can.limit-met", p.Panelists, words.Trim(limit, 2)))
	default:
		out = append(out, words.P("sensory.can.limit-not", p.Panelists, points(show), words.Trim(limit, 2)))
	}
	return append(out, words.P("sensory.can.scatter", words.Trim(p.Scatter, 2)))
}

// points rounds up to tenths: a promise is kept.
func points(v float64) string { return words.Number(math.Ceil(v*10-1e-6)/10, 1) }

func explainTell(t Test, n int, limit float64) []words.Phrase {
	c := Reach(t, n)
	if c.MinCorrect == nil {
		return []words.Phrase{words.P("sensory.tell.none", n, fewestTasters(t))}
	}
	if t.TwoSided() {
		majority := t.Right(*c.NoticeShare)
		return []words.Phrase{words.P("sensory.tell.prefer", *c.MinCorrect, n), words.P("sensory.tell.majority", words.Share(majority))}
	}
	out := []words.Phrase{
		words.P("sensory.tell.right", *c.MinCorrect, n),
		words.P("sensory.tell.notice", words.Share(*c.NoticeShare)),
	}
	out = append(out, sizeOf(t, n, c)...)
	if c.ShowShare != nil {
		out = append(out, similarTo(t, n, *c.ShowShare, limit))
	}
	return out
}

// sizeOf says how small a difference so many tasters find, on the scale that all
// tests share, and with the tests that ask the same how small with those: the share
// of people who notice is no measure between tests. At one d-prime two pairs are
// sorted more often than the odd one is found, though guessing is right as often.
func sizeOf(t Test, n int, c *TellCan) []words.Phrase {
	if c.NoticeD == nil {
		return nil
	}
	out := []words.Phrase{words.P("sensory.tell.size", points(*c.NoticeD), words.Trim(100*TwoAFC.AtDPrime(*c.NoticeD), 0))}
	var others []string
	for _, x := range []Test{Triangle, DuoTrio, Tetrad} {
		if d := Reach(x, n).NoticeD; d != nil && x != t {
			others = append(others, words.Say("sensory.tell.other", words.Say("plan.name."+string(x)), points(*d)))
		}
	}
	if anyDifference := t == Triangle || t == DuoTrio || t == Tetrad; anyDifference && len(others) > 0 {
		out = append(out, words.P("sensory.tell.others", words.Join(others)))
	}
	return out
}

// fewestTasters is the smallest panel that can show anything if all are right.
func fewestTasters(t Test) int {
	for n := 1; ; n++ {
		if _, ok := MinCorrect(t, n, UsualAlpha); ok {
			return n
		}
	}
}
