package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// notebookMost is how many entries the page shows, the newest ones.
const notebookMost = 500

// notebookPage lists what was done in the recipe, day by day, the newest first.
type notebookPage struct {
	w     *Window
	table *parts.Matrix
	card  fyne.CanvasObject
	empty fyne.CanvasObject
	undo  *parts.Button
}

func newNotebookPage(w *Window) page { return &notebookPage{w: w} }

func (p *notebookPage) build() fyne.CanvasObject {
	p.table = parts.NewMatrix()
	p.table.WholeRow, p.table.Stretch = true, true
	p.fill(nil)
	p.w.pin("notebook.table", p.table)
	p.card = parts.NewTableCard("", "", p.table)
	p.empty = parts.NewEmptyState(parts.ArtSheet, words.Say("notebook.empty"), words.Say("notebook.empty.sentence"))
	p.undo = parts.NewButton(parts.Quiet, "undo", words.Say("notebook.undo"), p.w.undo)
	p.w.pin("notebook.undo", p.undo)
	head := parts.Line(parts.GapMedium, parts.NewCaption(words.Say("notebook.caption")), parts.Spring(), p.undo)
	return parts.Fill(parts.GapSmall, 1, head, stackOf(p.card, p.empty))
}

// show has the notebook read beside the window; an answer for a recipe no
// longer in sight is dropped.
func (p *notebookPage) show() {
	p.undo.SetEnabled(p.w.view.Undo != "" && p.w.view.ReadOnly == "")
	recipe := p.w.at.recipe
	p.w.desk.History(recipe, notebookMost, func(entries []recipes.HistoryEntry, err error) {
		if err != nil {
			p.w.problem(err)
			return
		}
		if p.w.at.recipe != recipe || p.w.at.tab != tabNotebook {
			return
		}
		p.fill(entries)
	})
}

func (p *notebookPage) fill(entries []recipes.HistoryEntry) {
	d := matrixOf(sheets.Notebook(entries, time.Local))
	d.Columns[0].Min, d.Columns[0].Max, d.Columns[0].Text = 130, 150, false
	d.Columns[1].Max, d.Columns[1].Text = 900, true
	d.Columns[2].Text = false
	p.table.SetData(d)
	if p.card == nil {
		return
	}
	visible(p.card, len(entries) > 0)
	visible(p.empty, len(entries) == 0)
	p.w.offerKeys() // the table was not there when the page was come to
}
