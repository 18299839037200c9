package justright

import (
	"math"

	"parewell/recipes/words"
)

// unlikely is the chance from which on a result is called clear.
const unlikely = 0.05

// Explain says each attribute in turn, and at the end once what a penalty can
// and cannot show.
func (r *Result) Explain() []words.Phrase {
	var out []words.Phrase
	drops := false
	for i := range r.Attributes {
		a := &r.Attributes[i]
		out = append(out, a.Explain()...)
		drops = drops || a.Little.Drop > 0 || a.Much.Drop > 0
	}
	if drops {
		out = append(out, words.P("justright.association"))
	}
	return out
}

// Explain says who found what, then for each side how much less (or more) it
// liked the dish, and how far that is to be trusted.
func (a *Attribute) Explain() []words.Phrase {
	if a.N == 0 {
		return []words.Phrase{words.P("justright.nobody", a.Name)}
	}
	out := []words.Phrase{words.P("justright.counts", a.Name, a.Right.N, a.N, a.Little.N, a.Much.N)}
	if a.Blank > 0 {
		out = append(out, words.P("justright.blank", a.Blank))
	}
	switch {
	case a.Right.N == 0:
		return append(out, words.P("justright.no-right"))
	case a.Right.N == a.N:
		return append(out, words.P("justright.all-right"))
	}
	out = append(out, a.Little.explain("justright.little")...)
	out = append(out, a.Much.explain("justright.much")...)
	return append(out, a.whole()...)
}

// whole is what both sides come to.
func (a *Attribute) whole() (out []words.Phrase) {
	pulls := func(s Side) bool { return s.Flag && s.Drop > 0 }
	switch {
	case !a.Little.Flag && !a.Much.Flag:
		out = append(out, words.P("justright.quiet"))
	case pulls(a.Little) && pulls(a.Much):
		out = append(out, words.P("justright.both"))
	case a.Direction <= unlikely && a.Little.N > a.Much.N:
		out = append(out, words.P("justright.ask-more", a.Little.N, a.Much.N))
	case a.Direction <= unlikely:
		out = append(out, words.P("justright.ask-less", a.Much.N, a.Little.N))
	}
	return out
}

// explain says one side; key is the start of its sentences.
func (s Side) explain(key string) []words.Phrase {
	if s.N == 0 {
		return nil
	}
	amount := words.Number(math.Abs(s.Drop), 1)
	var out []words.Phrase
	switch {
	case s.Drop > 0 && !math.IsNaN(s.Low):
		out = append(out, words.P(key+".less", s.N, words.Share(s.Share), amount, words.Number(s.Low, 1), words.Number(s.High, 1)))
	case !math.IsNaN(s.Low):
		out = append(out, words.P(key+".more", s.N, words.Share(s.Share), amount, words.Number(-s.High, 1), words.Number(-s.Low, 1)))
	case s.Drop > 0:
		out = append(out, words.P(key+".less-bare", s.N, words.Share(s.Share), amount))
	default:
		out = append(out, words.P(key+".more-bare", s.N, words.Share(s.Share), amount))
	}
	out = append(out, s.trust())
	if s.Few {
		out = append(out, words.P("justright.few"))
	}
	if s.Flag && s.Drop > 0 {
		out = append(out, words.P("justright.flag"))
	}
	return out
}

// trust says how far a drop may be chance.
func (s Side) trust() words.Phrase {
	switch {
	case math.IsNaN(s.Welch.P):
		return words.P("justright.untested")
	case s.Holm <= unlikely:
		return words.P("justright.clear")
	case s.Welch.P <= unlikely:
		return words.P("justright.many")
	}
	return words.P("justright.open")
}

// Explain says how the answers moved from the first version to the second; name
// is the attribute's.
func (c *Comparison) Explain(name string) []words.Phrase {
	out := []words.Phrase{
		words.P("justright.moved", name, c.Right.First, c.N, c.Right.Second),
		words.P("justright.went", c.Right.Gained, c.Right.Lost),
	}
	switch {
	case c.changed() == 0:
		return append(out, words.P("justright.none-changed"))
	case c.Right.P <= unlikely && c.Right.Gained > c.Right.Lost:
		out = append(out, words.P("justright.better"))
	case c.Right.P <= unlikely:
		out = append(out, words.P("justright.worse"))
	default:
		out = append(out, words.P("justright.move-open"))
	}
	if c.Right.P > unlikely && c.Marginal.P <= unlikely && !c.Few {
		out = append(out, words.P("justright.whole-moved", c.Little.First, c.Little.Second, c.Much.First, c.Much.Second))
	}
	if c.Few {
		out = append(out, words.P("justright.few-changed", c.changed()))
	}
	return out
}
