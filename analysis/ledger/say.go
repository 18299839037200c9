package ledger

import (
	"math"

	"parewell/recipes/words"
)

// Says is the plan in sentences: what promises most, and what is as good and
// already tasted.
func (p *Plan) Says() []words.Phrase {
	var out []words.Phrase
	if p.score != "" {
		out = append(out, words.P("ledger.next.score", p.score))
	}
	instead := "ledger.next.instead"
	switch c := p.Promised; {
	case p.silent:
	case c == nil && p.lacks != "":
		out = append(out, words.P("ledger.next.unknown", p.lacks))
	case p.Beaten:
		out = append(out, words.P("ledger.next.beaten"))
		instead = "ledger.next.best-tasted"
	case c == nil:
		out = append(out, words.P("ledger.next.no-promise"))
	case p.limit > 0 && c.Low > -p.limit:
		out = append(out, promise("ledger.next.promised", c))
	case !(p.limit > 0):
		out = append(out, promise("ledger.next.highest", c))
	default:
		out = append(out, promise("ledger.next.closest", c))
	}
	if p.Instead != nil {
		out = append(out, words.P(instead, words.Join(p.Instead.Names)))
	}
	if p.Tasting == nil {
		return append(out, words.P("ledger.next.nothing"))
	}
	return out
}

func promise(key string, c *Combo) words.Phrase {
	d := Places(c.Interval, 0)
	return words.P(key, words.Join(c.Names), words.Signed(c.Effect, d), words.Signed(c.Low, d), words.Signed(c.High, d), c.BestOf)
}

// Says is what the tasting costs and what it would settle, one sentence each.
func (t *Tasting) Says() []words.Phrase {
	out := []words.Phrase{words.P("ledger.next.cost", len(t.Samples), t.Pots, t.Tasters, t.Servings)}
	var apart []string
	for _, g := range t.Gains {
		if g.Separates {
			apart = append(apart, g.Name)
		}
	}
	if len(apart) > 0 {
		out = append(out, words.P("ledger.next.separates", words.Join(apart)))
	}
	for i := range t.Gains {
		if p := t.Gains[i].Says(); p.Key != "" {
			out = append(out, p)
		}
	}
	return out
}

// Says is what the tasting would tell of one swap; a phrase without a key for nothing.
func (g *Gain) Says() words.Phrase {
	half := words.Number(g.After, 1)
	switch {
	case math.IsNaN(g.After):
		return words.P("ledger.next.still-open", g.Name)
	case math.IsNaN(g.Before):
		return words.P("ledger.next.first", g.Name, half)
	case g.Settles:
		return words.P("ledger.next.settles", g.Name, words.Number(g.Before, 1), half, words.Signed(g.Effect, 1))
	case g.Before-g.After < 0.005:
		return words.Phrase{}
	}
	return words.P("ledger.next.narrows", g.Name, words.Number(g.Before, 2), words.Number(g.After, 2))
}
