package sensory

import (
	"math"

	"parewell/recipes/words"
)

// Short says in one sentence what a small panel can honestly show, and what it
// cannot: a table of 5 to 10 friends, fewer, or a cook alone with a helper. An
// empty Key for larger panels. limit is the most liking that may be lost, or for
// tests with right answers the share of people who may notice; 0 for none.
func (d *Design) Short(limit, scatter float64) words.Phrase {
	n, t := len(d.Trays), d.Ask.Test
	switch {
	case n > friends:
		return words.Phrase{}
	case n == 1:
		a := oneTongue()[0]
		return words.P("sensory.short.one", a.M, a.N)
	case n < fewFriends:
		return words.P("sensory.short.few", n)
	case t == Liking:
		return d.LikingPlan(scatter).short(limit)
	case t.Counts():
		return shortTell(t, n, limit)
	}
	return words.P("sensory.short."+string(t), n)
}

// fewFriends is how many make a table (judgement).
const fewFriends = 5

func (p LikingPlan) short(limit float64) words.Phrase {
	notice, show := p.Notice(UsualAlpha, UsualPower), p.Limit(UsualAlpha, UsualPower)
	switch {
	case math.IsInf(notice, 0) || math.IsInf(show, 0):
		return words.P("sensory.short.few", p.Panelists)
	case limit > 0 && show <= limit:
		return words.P("sensory.short.liking-both", p.Panelists, points(notice), words.Trim(limit, 2))
	}
	return words.P("sensory.short.liking", p.Panelists, points(notice))
}

func shortTell(t Test, n int, limit float64) words.Phrase {
	c := Reach(t, n)
	switch {
	case c.MinCorrect == nil:
		return words.P("sensory.short.few", n)
	case t.TwoSided():
		return words.P("sensory.short.preference", n, *c.MinCorrect)
	case c.ShowShare != nil && limit > 0 && *c.ShowShare <= limit:
		return words.P("sensory.short.tell-both", n, *c.MinCorrect, words.Share(limit))
	}
	return words.P("sensory.short.tell", n, *c.MinCorrect)
}

// similarTo says what share of people who notice a panel can show to be the most,
// and whether that is the limit asked for (0 for none).
func similarTo(t Test, n int, show, limit float64) words.Phrase {
	switch {
	case limit <= 0 || limit >= 1:
		return words.P("sensory.tell.similar", words.Share(show))
	case show <= limit:
		return words.P("sensory.tell.similar-met", words.Share(limit))
	}
	need := TastersFor(func(n int) bool {
		pd, ok := Showable(t, n, UsualAlpha, UsualPower)
		return ok && pd <= limit
	})
	if need == 0 {
		return words.P("sensory.tell.similar-never", words.Share(show), words.Share(limit))
	}
	return words.P("sensory.tell.similar-not", need, words.Share(show), words.Share(limit))
}
