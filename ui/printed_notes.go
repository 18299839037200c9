package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// printNotes are the notes on technique of a version, each to be printed or not.
type printNotes struct {
	page  *printedPage
	view  *fyne.Container
	card  fyne.CanvasObject
	shown []sheets.PrintNote
	boxes []*parts.Check
}

func newPrintNotes(p *printedPage) *printNotes {
	view := parts.Rows(0)
	return &printNotes{page: p, view: view, card: parts.NewCard(words.Say("printed.technique"), words.Say("printed.technique.from"), view)}
}

// show ticks what is printed; boxes of the same notes stay, so that the keyboard
// stays where it is.
func (n *printNotes) show(r *recipes.Recipe) {
	all := sheets.PrintNotes(n.page.w.book(), r)
	if !n.same(all) {
		n.make(all)
	}
	n.shown = all
	for i := range all {
		n.boxes[i].Set(all[i].On)
	}
	visible(n.card, len(all) > 0)
}

func (n *printNotes) same(all []sheets.PrintNote) bool {
	if len(all) != len(n.shown) {
		return false
	}
	for i := range all {
		if all[i].Swap != n.shown[i].Swap || all[i].Name != n.shown[i].Name {
			return false
		}
	}
	return true
}

func (n *printNotes) make(all []sheets.PrintNote) {
	n.boxes = nil
	n.view.Objects = nil
	for i := range all {
		swap := all[i].Swap
		box := parts.NewCheck(all[i].Name, all[i].On, func(on bool) {
			n.page.choose(func(x *recipes.Print) { x.Untold = sheets.Untold(n.page.w.recipe(), swap, on) })
		})
		n.page.w.pin("printed.note:"+string(swap), box)
		n.boxes = append(n.boxes, box)
		n.view.Add(box)
	}
	n.view.Refresh()
	n.page.cards.Refresh()
}
