package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// tasterPanel lists the tasters of a tasting, what their scores show, and lets
// the cook set one aside, or take her back in.
type tasterPanel struct {
	c      *tastingResults
	table  *parts.Matrix
	says   *fyne.Container
	aside  *parts.Button
	card   *parts.Panel
	ids    []recipes.ID
	chosen recipes.ID
}

func newTasterPanel(c *tastingResults) *tasterPanel {
	p := &tasterPanel{c: c, table: parts.NewMatrix(), says: parts.Rows(4)}
	p.table.Whole, p.table.WholeRow = true, true
	p.table.SetData(oneColumn())
	p.table.OnSelect = func(row, _ int) { p.pick(row) }
	p.aside = parts.NewButton(parts.Quiet, "remove", words.Say("results.set-aside"), p.press)
	c.w.pin("results.tasters", p.table)
	c.w.pin("results.set-aside", p.aside)
	under := parts.Pad(parts.GapMedium, parts.GapLarge, parts.GapMedium, parts.GapLarge, parts.Rows(parts.GapSmall, p.says, parts.Line(0, p.aside)))
	p.card = parts.NewTableCard(words.Say("results.tasters"), words.Say("results.tasters.caption"), parts.Rows(0, p.table, under))
	return p
}

// show lists the tasters.
func (p *tasterPanel) show() {
	s := p.c.r.Panel(p.c.asked)
	p.ids = s.Tasters
	d := matrixOf(s.Sheet)
	d.Columns[0].Min, d.Columns[0].Max = 70, 160
	p.table.SetData(d)
	visible(p.card, len(p.ids) > 0 && p.c.r.Kind() != sheets.ResultsHome)
	found := false
	for _, id := range p.ids {
		found = found || id == p.chosen
	}
	if !found {
		p.chosen = ""
		if len(p.ids) > 0 {
			p.chosen = p.ids[0]
		}
	}
	if p.table.SelectedKey() != string(p.chosen) {
		p.table.SelectKey(string(p.chosen))
	}
	p.showChosen(s.Says)
}

func (p *tasterPanel) pick(row int) {
	if row < 0 || row >= len(p.ids) || p.ids[row] == p.chosen || p.c.r == nil {
		return
	}
	p.chosen = p.ids[row]
	p.showChosen(p.c.r.Panel(p.c.asked).Says)
	p.c.refresh()
}

// showChosen says what the chosen taster's scores show, under what the panel as
// a whole does.
func (p *tasterPanel) showChosen(whole []string) {
	p.says.Objects = nil
	who := p.c.w.book().Panelist(p.chosen)
	if who != nil {
		p.says.Add(parts.NewBold(who.Code))
		for _, s := range p.c.r.TasterSays(p.c.asked, p.chosen) {
			p.says.Add(parts.NewText(s))
		}
	}
	if len(whole) > 0 {
		p.says.Add(parts.NewSection(words.Say("results.panel")))
	}
	for _, s := range whole {
		t := parts.NewText(s)
		t.Role = parts.RoleMuted
		p.says.Add(t)
	}
	key := "results.set-aside"
	if p.c.r.Aside(p.chosen) != "" {
		key = "results.take-back"
	}
	p.aside.SetText(words.Say(key))
	p.aside.SetEnabled(who != nil)
	p.says.Refresh()
}

// press sets the chosen taster aside for a reason, or takes her back in.
func (p *tasterPanel) press() {
	w, t, who := p.c.w, p.c.r.Tasting, p.c.w.book().Panelist(p.chosen)
	if who == nil {
		return
	}
	if p.c.r.Aside(p.chosen) != "" {
		w.do(tasting.SetAside(t.ID, who.ID, "", ""))
		return
	}
	why := parts.NewEntry("", words.Say("results.aside.hint"), nil)
	form := parts.NewForm()
	row := form.Row(words.Say("tests.aside.why"), why, "", words.Say("results.aside.help"))
	w.pin("results.aside.why", why)
	d := parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("results.aside.title", who.Code), Content: form, First: why,
		Confirm: words.Say("tests.set-aside"), Cancel: words.Say("button.cancel"), Width: 540,
		OnOK: func() bool {
			if sheets.Blank(why.Text) {
				row.SetError(words.Say("results.aside.wrong"))
				return false
			}
			w.do(tasting.SetAside(t.ID, who.ID, why.Text, sheets.Today(w.now())))
			return true
		},
	})
	why.OnSubmitted = func(string) { d.Confirm() }
}
