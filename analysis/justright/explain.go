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
	if a.Little.N > 0 {
		sentence, args := a.Little.liked()
		out = append(out, words.P("justright.little."+sentence, args...))
		out = append(out, a.Little.explain()...)
	}
	if a.Much.N > 0 {
		sentence, args := a.Much.liked()
		out = append(out, words.P("justright.much."+sentence, args...))
		out = append(out, a.Much.explain()...)
	}
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

// explain says how far a drop is to be trusted.
func (s Side) explain() []words.Phrase {
	out := []words.Phrase{s.trust()}
	if s.Few {
		out = append(out, words.P("justright.few"))
	}
	if s.Flag && s.Drop > 0 {
		out = append(out, words.P("justright.flag"))
	}
	return out
}

// liked is which sentence tells the drop, and its numbers: less or more, bare
// where there are no limits.
func (s Side) liked() (sentence string, args []any) {
	sentence, low, high := "less", s.Low, s.High
	if !(s.Drop > 0) {
		sentence, low, high = "more", -s.High, -s.Low
	}
	args = []any{s.N, words.Share(s.Share), words.Number(math.Abs(s.Drop), 1)}
	if math.IsNaN(low) {
		return sentence + "-bare", args
	}
	return sentence, append(args, words.Number(low, 1), words.Number(high, 1))
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
