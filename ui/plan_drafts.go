package ui

import (
	"parewell/recipes"
	"parewell/recipes/words"
)

// planDrafts are versions that a plan needs and the workbook does not hold. The
// planner sees them as if it did; whoever leaves the plan leaves nothing behind.
type planDrafts struct {
	verb  recipes.Verb  // makes them; nil for none
	of    *recipes.Book // what book was worked out from
	book  *recipes.Book
	fault error
}

// book is the workbook with the plan's drafts in it.
func (p *planPage) book() *recipes.Book {
	now, d := p.w.book(), &p.drafts
	if d.verb == nil {
		return now
	}
	if d.of != now {
		d.of, d.book = now, now
		c, err := d.verb(now)
		if err == nil {
			d.book, err = now.With(c)
		}
		if d.fault = err; err != nil {
			d.book = now
			p.w.problem(err)
		}
	}
	return d.book
}

// withDrafts keeps a plan and the drafts it serves as one act.
func (p *planPage) withDrafts(put recipes.Verb) recipes.Verb {
	b, recipe := p.book(), p.base.Recipe
	if p.drafts.verb == nil || p.drafts.fault != nil {
		return put
	}
	verbs := []recipes.Verb{p.drafts.verb}
	made := 0
	for _, v := range b.Versions(recipe) {
		switch {
		case p.w.book().Version(recipe, v.ID) != nil:
		case p.f.Versions[v.ID] == 0:
			verbs = append(verbs, recipes.RemoveVersion(recipe, v.ID))
		default:
			made++
		}
	}
	if made == 0 {
		return put
	}
	return recipes.All(words.P("did.plan-drafts", p.plan.Tasting.Date), recipe, append(verbs, put)...)
}
