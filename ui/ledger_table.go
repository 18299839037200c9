package ui

import (
	"strings"

	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// showTools brings the pickers and the limit up to date.
func (p *ledgerPage) showTools() {
	var items []parts.Suggestion
	for _, a := range p.l.Attributes {
		items = append(items, parts.Suggestion{Key: a.Name, Text: p.l.AttributeName(a.Name)})
	}
	if len(items) == 0 {
		items = []parts.Suggestion{{Text: words.Say("keep.overall")}}
	}
	p.attribute.SetItems(items)
	p.attribute.SetKey(p.view.Ask.Attribute)
	p.attribute.SetEnabled(len(items) > 1)
	p.nutrient.SetItems(ledgerNutrients(p.w.book())) // settings may have changed
	p.nutrient.SetKey(p.ask.Nutrient.Key())
	p.limit.Set(p.limitText())
	visible(p.limitRow, p.view.Overall && p.l.Tasted())
}

// showBanners says over the table what is to be known first: a limit that is
// only tried, how far to trust the table, or that nothing was tasted.
func (p *ledgerPage) showBanners() {
	p.banners.Objects = nil
	whatIf, trust := p.view.Heads()
	if whatIf != "" {
		back := parts.NewButton(parts.Quiet, "undo", words.Say("keep.limit.back", words.Trim(p.l.Limit(), 2)), func() { p.tryLimit("") })
		p.w.pin("ledger.limit.back", back)
		p.banners.Add(parts.NewBanner(parts.ToneLook, whatIf, back))
	}
	if len(trust) > 0 {
		p.banners.Add(parts.NewBanner(parts.ToneNeutral, strings.Join(trust, "\n")))
	}
	if !p.l.Tasted() {
		p.banners.Add(p.untasted())
	}
	visible(p.banners, len(p.banners.Objects) > 0)
	p.banners.Refresh()
}

// untasted says what to do before there is anything to judge by.
func (p *ledgerPage) untasted() *parts.Panel {
	plan := parts.NewButton(parts.Primary, "tasting", words.Say("tastings.plan"), func() { p.w.planTasting(nil) })
	text := words.Say("keep.untasted")
	switch {
	case len(p.l.Open) > 0:
		t := p.l.Open[len(p.l.Open)-1]
		text = words.Say("keep.untasted.open", sheets.TastingTitle(t))
		plan = parts.NewButton(parts.Primary, "tasting", words.Say("keep.untasted.look"), func() { p.w.showTastings(p.recipe, t.ID) })
	case p.l.Old > 0:
		text = words.Say("keep.untasted.old", p.l.Old)
	}
	p.w.pin("ledger.plan", plan)
	return parts.NewBanner(parts.ToneLook, text, plan)
}

// ledgerTone is the tone of a sign.
func ledgerTone(m sheets.Mark) (parts.Tone, string) {
	v, ok := m.Verdict()
	tone := parts.ToneNeutral
	switch v {
	case charts.LikedMore, charts.Within, charts.SmallDrop:
		tone = parts.ToneGood
	case charts.TooMuch, charts.LessUnsettled:
		tone = parts.ToneLook
	}
	if !ok {
		return tone, "info"
	}
	return tone, parts.VerdictIcon(v)
}

// showDetail says what stands behind the chosen row.
func (p *ledgerPage) showDetail() {
	d := p.view.Detail(p.chosen)
	tone, icon := ledgerTone(d.Mark)
	p.detail.Objects = nil
	title := parts.NewSubheading(d.Title)
	title.OneLine = false
	p.detail.Add(title)
	p.detail.Add(parts.Flow(parts.GapSmall, parts.NewChip(tone, icon, d.Label)))
	for _, s := range d.Says {
		p.detail.Add(parts.NewText(s))
	}
	if len(d.Rests) > 0 {
		p.detail.Add(parts.NewSection(words.Say("keep.rests.title")))
		for _, s := range d.Rests {
			t := parts.NewText(s)
			t.Role = parts.RoleMuted
			p.detail.Add(t)
		}
	}
	p.detail.Refresh()
}

// planOf opens the planner with what fill puts in. drafts, nil for none, makes the
// versions the plan needs; they are kept with the plan and not before.
func (w *Window) planOf(drafts recipes.Verb, fill func(*sheets.PlanFields)) {
	w.planTasting(nil)
	if p, ok := w.pages[pagePlan].(*planPage); ok && p.entries != nil {
		p.drafts = planDrafts{verb: drafts}
		p.said, p.changes = nil, nil // what is filled in here is no change of the cook's
		fill(&p.f)
		p.fill()
		p.work()
	}
}

// draftVersion makes a version of a combination, as one act, and shows it.
func (p *ledgerPage) draftVersion(on []bool) {
	id, recipe := p.w.newID(), p.recipe
	p.w.do(p.l.Drafted(id, on), func(ok bool) {
		if ok {
			p.w.showVersion(recipe, id)
		}
	})
}

// showVersion goes to a version's column.
func (w *Window) showVersion(recipe, id recipes.ID) {
	if w.book().Version(recipe, id) == nil {
		return
	}
	w.goTo(place{page: pageRecipe, recipe: recipe, tab: tabVersions})
	w.versions().selectVersion(id)
}
