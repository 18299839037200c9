package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// nextShown is how many things to do show at once; more than that scroll.
const nextShown = 5

// nextList is what earlier tests say to do next time, each with a box to strike
// it as done.
type nextList struct {
	w     *Window
	table *parts.Matrix
	view  *parts.Panel
	items []sheets.NextItem
}

func newNextList(w *Window) *nextList {
	n := &nextList{w: w, table: parts.NewMatrix()}
	n.table.OnToggle = func(row, _ int) { n.strike(row) }
	n.table.OnActivate = func(row, _ int) { n.strike(row) }
	n.table.SetData(oneColumn())
	n.table.Stretch = true
	n.view = parts.NewTableCard("", "", n.table)
	w.pin("tests.next", n.table)
	return n
}

func (n *nextList) show(items []sheets.NextItem) {
	n.items = items
	n.table.Whole = len(items) <= nextShown
	d := matrixOf(sheets.NextSheet(items))
	d.Columns[0].Min, d.Columns[0].Max = 200, 900
	d.Columns[1].Align, d.Columns[1].Text = parts.AlignCentre, false
	n.table.SetData(d)
	visible(n.view, len(items) > 0)
}

// strike marks an item as done, or as still to do.
func (n *nextList) strike(row int) {
	if row < 0 || row >= len(n.items) {
		return
	}
	it := n.items[row]
	if t := n.w.book().Test(n.w.at.recipe, it.Test); t != nil {
		n.w.do(recipes.EditTest(sheets.Struck(t, it.Line, !it.Done)))
	}
}

// nextStrip heads the recipe with what to do next time, where the list itself
// is not in sight.
type nextStrip struct {
	w    *Window
	view *fyne.Container
	page fyne.CanvasObject // around it: laid out again when the strip comes or goes
	said string
}

func newNextStrip(w *Window) *nextStrip { return &nextStrip{w: w, view: parts.Rows(0)} }

func (n *nextStrip) show(recipe recipes.ID, tab string) {
	said := ""
	if tab == tabVersions || tab == tabSwaps || tab == tabOriginal {
		said = sheets.NextText(sheets.NextTime(n.w.book(), recipe))
	}
	visible(n.view, said != "")
	if said == n.said {
		return
	}
	n.said, n.view.Objects = said, nil
	if said != "" {
		open := parts.NewButton(parts.Quiet, "pot", words.Say("tab.tests"), func() {
			n.w.goTo(place{page: pageRecipe, recipe: n.w.at.recipe, tab: tabTests})
		})
		n.w.pin("recipe.next", open)
		n.view.Add(parts.NewBanner(parts.ToneNeutral, said, open))
	}
	n.page.Refresh()
}
