package ui

import (
	"math/rand/v2"
	"slices"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// planPage plans a tasting of the recipe in sight: the question, what is served,
// who tastes, when; at the right what this comes to.
type planPage struct {
	w    *Window
	base *recipes.Tasting // what is planned; kept while the page is open
	f    sheets.PlanFields
	wide sheets.PlanFields // what was served before a question that takes two samples
	plan *sheets.Plan
	ids  map[string]recipes.ID // of samples drawn in this sitting, by place

	drafts planDrafts // versions the plan needs and the workbook gets with it

	said    []sheets.Saying // as last shown, and what the last change did to it
	changes []sheets.ChangedSaying

	title, caption *parts.Text
	ask            *parts.Matrix
	served         *parts.Matrix
	tasters        *parts.Matrix
	aim            *parts.Segmented
	clean, bench   *packRow
	entries        map[string]*parts.Entry
	rows           map[string]*parts.FormRow
	questions      *parts.Form
	faults         map[string]*parts.Text // under the tables
	says           *fyne.Container
	safety         *fyne.Container
	left, right    *fyne.Container
	save           *parts.Button
}

func newPlanPage(w *Window) page { return &planPage{w: w} }

// planTasting opens the planner of the recipe in sight for a tasting, a new one
// when t is nil.
func (w *Window) planTasting(t *recipes.Tasting) {
	r := w.recipe()
	if r == nil {
		return
	}
	p, _ := w.pages[pagePlan].(*planPage)
	p.ids, p.drafts = map[string]recipes.ID{}, planDrafts{}
	p.said, p.changes = nil, nil
	if t == nil {
		p.base = &recipes.Tasting{ID: w.newID(), Recipe: r.ID, Seed: rand.Uint64N(999_999_999) + 1} //nolint:gosec // a seed that is shown, no secret
		p.f = sheets.NewPlan(w.book(), r, sheets.Today(w.now()))
	} else {
		c := *t
		p.base, p.f = &c, sheets.PlanOf(w.book(), t)
	}
	p.wide = p.f
	if p.entries != nil {
		p.fill()
	}
	w.goTo(place{page: pagePlan, recipe: r.ID})
}

func (p *planPage) build() fyne.CanvasObject {
	p.entries, p.rows, p.faults = map[string]*parts.Entry{}, map[string]*parts.FormRow{}, map[string]*parts.Text{}
	p.title, p.caption = parts.NewHeading(""), parts.NewCaption("")
	leave := p.w.pin("plan.leave", parts.NewButton(parts.Quiet, "", words.Say("plan.leave"), p.leave))
	p.save = parts.NewButton(parts.Primary, "check", words.Say("plan.save"), p.keep)
	p.w.pin("plan.save", p.save)
	p.left = parts.Rows(parts.GapLarge, p.askCard(), p.servedCard(), p.tastersCard(), p.howCard())
	p.says, p.safety = parts.Rows(parts.GapSmall), parts.Rows(parts.GapSmall)
	p.right = parts.Rows(parts.GapLarge, parts.NewCard(words.Say("plan.shows"), "", p.says), parts.NewCard(words.Say("plan.safety"), "", p.safety))
	left, right := parts.Scrolled(parts.Pad(2, 14, 8, 2, p.left)), parts.Scrolled(parts.Pad(2, 10, 8, 2, p.right))
	for _, m := range []*parts.Matrix{p.ask, p.served, p.tasters} {
		m.Outer = left
	}
	p.fill()
	head := parts.Rows(2, parts.Stretch(parts.GapMedium, 0, p.title, leave, p.save), p.caption)
	return pageBody(head, parts.Columns(parts.GapLarge, []float32{1.7, 1}, left, right))
}

func (p *planPage) show() {
	if p.base == nil || p.base.Recipe != p.w.at.recipe { // come by another way than planTasting
		p.w.planTasting(nil)
		return
	}
	key := "plan.title"
	if p.w.book().Tasting(p.base.ID) != nil {
		key = "plan.title.change"
	}
	p.title.SetText(words.Say(key))
	p.caption.SetText(words.Say("plan.caption", p.w.recipe().Title))
	p.work()
}

func (p *planPage) leave() { p.w.showTastings(p.base.Recipe, p.base.ID) }

// keep saves the plan and goes back to the tastings.
func (p *planPage) keep() {
	p.work()
	if !p.plan.Ready() {
		return
	}
	id, recipe := p.base.ID, p.base.Recipe
	verb, drafts := p.withDrafts(tasting.Put(p.plan.Tasting, p.plan.Samples)), p.drafts
	p.drafts = planDrafts{} // the workbook has them when the page is shown again
	p.w.do(verb, func(ok bool) {
		if !ok {
			p.drafts = drafts
			p.work()
			return
		}
		p.w.showTastings(recipe, id)
	})
}

// freshID draws IDs for samples; the same place gets the same one again, so that
// working the form out again changes nothing.
func (p *planPage) freshID() func() recipes.ID {
	n := 0
	return func() recipes.ID {
		n++
		key := words.Trim(float64(n), 0)
		if p.ids[key] == "" {
			p.ids[key] = p.w.newID()
		}
		return p.ids[key]
	}
}

// work works the form out and shows what it comes to.
func (p *planPage) work() {
	if p.save == nil {
		return
	}
	p.read()
	p.plan = sheets.ReadPlan(p.f, p.base, p.book(), p.freshID())
	p.showAsk()
	p.showTables()
	for key, row := range p.rows {
		row.SetError(p.plan.Faults[key])
	}
	for key, t := range p.faults {
		t.SetText(p.plan.Faults[key])
		visible(t, p.plan.Faults[key] != "")
	}
	p.showSays()
	p.save.SetEnabled(p.plan.Ready())
	p.left.Refresh()
	p.right.Refresh()
}

func (p *planPage) showSays() {
	p.says.Objects = nil
	switch {
	case len(p.plan.Says) == 0: // while a field is wrong; what stood there is compared with afterwards
		p.changes = nil
	case p.changes == nil, !slices.Equal(p.plan.Says, p.said):
		p.changes, p.said = sheets.ChangesOf(p.said, p.plan.Says), p.plan.Says
	}
	if slices.ContainsFunc(p.changes, func(c sheets.ChangedSaying) bool { return c.Changed }) {
		note := parts.NewCaption(words.Say("plan.changed"))
		note.SetRole(parts.RoleAccent)
		p.says.Add(note)
	}
	for i, c := range p.changes {
		p.says.Add(saying(c, i == 0))
	}
	if len(p.plan.Says) == 0 {
		p.says.Add(parts.NewText(words.Say("plan.why." + p.f.Test)))
	}
	p.safety.Objects = nil
	all, unknown := sheets.SafetyText(p.plan.Safety)
	p.safety.Add(parts.NewText(all))
	if len(unknown) > 0 {
		p.safety.Add(parts.NewText(words.Say("plan.unchecked")))
		foods := sheets.UncheckedFoods(p.book(), p.plan.Tasting, p.plan.Samples)
		for _, name := range unknown {
			if !slices.ContainsFunc(foods, func(l recipes.ServedLine) bool { return l.Name == name }) {
				check := parts.NewButton(parts.Plain, "edit", words.Say("plan.check"), func() { p.readPack(name) })
				p.w.pin("plan.check."+name, check)
				p.safety.Add(parts.Stretch(parts.GapSmall, 0, parts.NewBold(name), check))
			}
		}
		for _, l := range foods {
			check := parts.NewButton(parts.Plain, "edit", words.Say("plan.check"), func() { p.w.recordAllergens(l) })
			p.w.pin("plan.check."+l.Name, check)
			p.safety.Add(parts.Stretch(parts.GapSmall, 0, parts.NewBold(l.Name), check))
		}
	}
}

// saying is a sentence of the plan, in bold where the last change changed it,
// with what stood there before; the first says why this test.
func saying(c sheets.ChangedSaying, first bool) fyne.CanvasObject {
	t := parts.NewText(c.Text)
	switch {
	case c.Changed:
		t.Role, t.Bold = parts.RoleAccent, true
	case first:
		t.Role = parts.RoleMuted
	}
	if c.Before == "" || first {
		return t
	}
	return parts.Rows(2, t, parts.NewCaption(words.Say("plan.changed.before", c.Before)))
}
