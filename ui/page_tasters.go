package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// tastersPage lists who tastes: allergies, what is not eaten, consent, sittings.
type tastersPage struct {
	w     *Window
	table *parts.Matrix
	full  fyne.CanvasObject
	empty fyne.CanvasObject
	ids   []recipes.ID // by row
}

func newTastersPage(w *Window) page { return &tastersPage{w: w} }

func (p *tastersPage) build() fyne.CanvasObject {
	add := p.w.pin("tasters.add", parts.NewButton(parts.Primary, "add", words.Say("tasters.add"), p.add))
	copied := p.w.pin("tasters.copy", parts.NewButton(parts.Quiet, "export", words.Say("tasters.copy"), p.w.saveEditorCopy))
	p.table = parts.NewMatrix()
	p.table.WholeRow, p.table.Stretch = true, true
	p.table.OnActivate = func(row, _ int) { p.edit(row) }
	p.table.OnDelete = func(row, _ int) { p.remove(row) }
	p.table.OnMenu = p.menu
	p.table.SetData(matrixOf(sheets.Tasters(p.w.book())))
	p.w.pin("tasters.table", p.table)
	p.full = parts.NewTableCard("", "", p.table)
	p.empty = parts.NewPanel(parts.GapMedium, parts.NewEmptyState(parts.ArtPeople, words.Say("tasters.empty"), words.Say("tasters.empty.sentence"),
		p.w.pin("tasters.empty.add", parts.NewButton(parts.Quiet, "add", words.Say("tasters.add"), p.add))))
	return pageBody(parts.PageHead(words.Say("nav.tasters"), words.Say("tasters.caption"), copied, add), stackOf(p.full, p.empty))
}

func (p *tastersPage) show() {
	s := sheets.Tasters(p.w.book())
	p.ids = keysOf(s)
	d := matrixOf(s)
	d.Columns[0].Min, d.Columns[0].Text = 110, false
	for i := 3; i < len(d.Columns); i++ { // allergies and what is not eaten take what is spare
		d.Columns[i].Text = false
	}
	p.table.SetData(d)
	if row, _ := p.table.Selected(); row < 0 && len(p.ids) > 0 {
		p.table.Select(0, 0)
	}
	visible(p.full, len(p.ids) > 0)
	visible(p.empty, len(p.ids) == 0)
}

func (p *tastersPage) at(row int) *recipes.Panelist {
	if row < 0 || row >= len(p.ids) {
		return nil
	}
	return p.w.book().Panelist(p.ids[row])
}

func (p *tastersPage) add() {
	p.w.tasterForm(&recipes.Panelist{ID: p.w.newID()}, true, func(id recipes.ID) { p.table.SelectKey(string(id)) })
}

func (p *tastersPage) edit(row int) {
	if t := p.at(row); t != nil && !t.Removed {
		p.w.tasterForm(t, false, nil)
	}
}

func (p *tastersPage) remove(row int) {
	if t := p.at(row); t != nil && !t.Removed {
		p.w.removeTaster(t)
	}
}

func (p *tastersPage) menu(row, _ int, at fyne.Position) {
	t := p.at(row)
	if t == nil || t.Removed {
		return
	}
	parts.ShowMenu(p.table, at,
		parts.MenuItem{Icon: "edit", Label: words.Say("tasters.edit"), Do: func() { p.edit(row) }}, parts.MenuItem{},
		parts.MenuItem{Icon: "delete", Label: words.Say("tasters.remove"), Do: func() { p.remove(row) }})
}

// removeTaster asks first: it is the one act that cannot be undone.
func (w *Window) removeTaster(p *recipes.Panelist) {
	parts.Confirm(w.win, words.Say("tasters.remove.title", p.Code), sheets.RemovalText(w.book(), p),
		words.Say("tasters.remove"), words.Say("button.cancel"), true, func() {
			w.desk.RemovePerson(tasting.RemoveTaster(p.ID), w.problemOrNil)
		})
}
