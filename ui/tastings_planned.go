package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// plannedTasting shows what was planned and what stands against serving it.
type plannedTasting struct {
	w       *Window
	t       *recipes.Tasting
	title   *parts.Text
	caption *parts.Text
	facts   *parts.Matrix
	against *fyne.Container
	begin   *parts.Button
	body    *fyne.Container
}

func (p *plannedTasting) build() fyne.CanvasObject {
	p.title, p.caption = parts.NewSubheading(""), parts.NewCaption("")
	change := p.w.pin("tastings.change", parts.NewButton(parts.Quiet, "edit", words.Say("tastings.change"), func() { p.w.planTasting(p.t) }))
	remove := p.w.pin("tastings.remove", parts.NewButton(parts.Plain, "delete", words.Say("tastings.remove"), func() { p.w.do(tasting.Remove(p.t.ID)) }))
	papers := p.w.pin("tastings.papers", parts.NewButton(parts.Quiet, "print", words.Say("tastings.papers"), func() { p.w.printPapers(p.t) }))
	p.begin = parts.NewButton(parts.Primary, "tasting", words.Say("tastings.begin"), p.askBegin)
	p.w.pin("tastings.begin", p.begin)
	p.facts = parts.NewMatrix()
	p.facts.Whole, p.facts.Headless, p.facts.WholeRow, p.facts.Stretch = true, true, true, true
	p.facts.SetData(oneColumn())
	p.w.pin("tastings.facts", p.facts)
	p.against = parts.Rows(parts.GapMedium)
	p.body = parts.Rows(parts.GapLarge,
		parts.NewCard(words.Say("tastings.against"), "", p.against),
		parts.NewTableCard(words.Say("tastings.planned"), "", p.facts))
	scroll := parts.Scrolled(parts.Pad(mealEdge, mealEdge, mealEdge, mealEdge, p.body))
	p.facts.Outer = scroll
	head := parts.Rows(parts.GapSmall, parts.Rows(2, parts.Stretch(parts.GapSmall, 0, p.title, p.begin), p.caption), parts.Flow(parts.GapSmall, change, papers, remove))
	return parts.Fill(parts.GapSmall, 1, parts.Pad(0, mealEdge, 0, mealEdge, head), scroll)
}

func (p *plannedTasting) show(t *recipes.Tasting) {
	p.t = t
	p.title.SetText(sheets.TastingTitle(t))
	p.caption.SetText(words.Say("tastings.state.planned"))
	d := matrixOf(sheets.PlannedFacts(p.w.book(), t))
	d.Columns[0].Min, d.Columns[0].Text = 150, false
	d.Columns[1].Max = 900
	p.facts.SetData(d)
	p.showAgainst()
	p.body.Refresh()
}

// showAgainst lists what has to be settled before anybody is served, each with
// the way on.
func (p *plannedTasting) showAgainst() {
	list := sheets.Against(p.w.book(), p.t)
	p.against.Objects = nil
	for i, a := range list {
		row := parts.Stretch(parts.GapSmall, 1, parts.NewIcon(againstIcon(a), againstRole(a), 16), parts.NewText(a.Text))
		if label, act := p.wayOn(a); act != nil {
			row.Add(p.w.pin("tastings.settle."+words.Trim(float64(i), 0), parts.NewButton(parts.Quiet, "", label, act)))
		}
		p.against.Add(row)
	}
	if len(list) == 0 {
		p.against.Add(parts.NewBanner(parts.ToneGood, words.Say("tastings.against.nothing")))
	}
	p.against.Refresh()
	p.begin.SetEnabled(sheets.MayBegin(list))
}

func againstIcon(a sheets.AgainstServing) string {
	if a.Stops {
		return "error"
	}
	return "look"
}

func againstRole(a sheets.AgainstServing) fyne.ThemeColorName {
	if a.Stops {
		return parts.RoleError
	}
	return parts.RoleLook
}

// wayOn is the button that settles one thing.
func (p *plannedTasting) wayOn(a sheets.AgainstServing) (label string, act func()) {
	switch {
	case a.Food != nil:
		return words.Say("tastings.settle.food"), func() { p.w.recordAllergens(*a.Food) }
	case a.Pack != "":
		return words.Say("tastings.settle.food"), func() {
			p.w.packDialog(a.Pack, food.Allergens{}, func(has food.Allergens) { p.w.do(tasting.PackRead(p.t.ID, a.Pack, has.Contains|has.Depends)) })
		}
	case a.Out:
		return words.Say("tastings.settle.out"), func() { p.w.do(tasting.LeaveEmpty(p.t.ID, a.Seat)) }
	case a.Taster != "":
		if who := p.w.book().Panelist(a.Taster); who != nil {
			return words.Say("tastings.settle.ask"), func() { p.w.tasterForm(who, false, nil) }
		}
	}
	return words.Say("tastings.change"), func() { p.w.planTasting(p.t) }
}

// askBegin says what beginning means, then begins.
func (p *plannedTasting) askBegin() {
	t := p.t
	body := parts.Rows(parts.GapMedium, parts.NewText(words.Say("tastings.begin.text")))
	day := p.w.askDay(t, "tastings.served-on.begin", sheets.Today(p.w.now()))
	if day.view != nil {
		body.Add(day.view)
	}
	day.confirms(parts.ShowDialog(p.w.win, parts.DialogOptions{
		Title: words.Say("tastings.begin.title"), Content: body, First: day.first(), Confirm: words.Say("tastings.begin"), Cancel: words.Say("button.cancel"), Width: 480,
		OnOK: func() bool {
			v, ok := day.before("did.begin-tasting", tasting.Begin(t.ID))
			if ok {
				p.w.doForGood(t.ID, v, "did.begin-tasting", nil)
			}
			return ok
		},
	}))
}
