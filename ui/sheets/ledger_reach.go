package sheets

import (
	"strings"

	"parewell/analysis/ledger"
	"parewell/recipes"
	"parewell/recipes/words"
)

// reach is what the planner will say that a proposed tasting can show: the tasting
// is planned as the planner would and the sentence is the planner's own, so the two
// cannot promise different things. Empty where it cannot be planned.
func (l *Ledger) reach(x *ledger.Tasting) string {
	n := 0
	fresh := func() recipes.ID { n++; return recipes.ID("reach" + words.Trim(float64(n), 0)) }
	verb, fill := l.PlanNext(x, fresh)
	b := l.Book
	if verb != nil {
		c, err := verb(b)
		if err != nil {
			return ""
		}
		if b, err = b.With(c); err != nil {
			return ""
		}
	}
	f := NewPlan(b, l.Recipe, "2000-01-01") // the day has no part in it
	fill(&f)
	p := ReadPlan(f, &recipes.Tasting{ID: "reach", Recipe: l.Recipe.ID, Seed: 1}, b, fresh)
	if len(p.Reach) == 0 {
		return ""
	}
	return words.Say("ledger.next.reach", strings.Join(p.Reach, " "))
}

// asked is what is asked of the next tasting: by the score that was chosen.
func (l *Ledger) asked(a LedgerAsk) (*ledger.Evidence, ledger.Ask) {
	ask := ledger.Ask{Nutrient: a.Nutrient.Key(), Limit: a.Limit, Seed: 1, Cups: MostPerSitting(l.Book, l.Recipe), Repeat: true}
	e := l.evidence[a.Attribute]
	if e == nil || a.Attribute == l.Overall() {
		return l.evidence[l.Overall()], ask
	}
	ask.Limit, ask.Score, ask.NoPromise = 0, a.Attribute, !l.likes(a.Attribute)
	return e, ask
}
