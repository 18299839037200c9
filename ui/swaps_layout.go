package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/ui/parts"
)

// swapsLayout puts the tick table above, the list of sources and the card side
// by side under it. The table takes what its rows need, but leaves the lower
// half enough to read.
type swapsLayout struct {
	p     *swapsPage
	rows  int
	least float32 // height of what always stands above the rows
}

// Shares of the room.
const (
	tableMost   = 0.56 // of the height, for the table
	sourceShare = 0.38 // of the width, for the list of sources
	sourceMost  = 560  // its widest, at text factor 1
	rowTall     = 31   // of one row of the table, at text factor 1
	headTall    = 118  // of the line above the table and its header
)

func newSwapsView(l *swapsLayout, top, sources, card fyne.CanvasObject) *fyne.Container {
	return container.New(l, top, sources, card)
}

// refresh lays out again when the number of rows has changed.
func (l *swapsLayout) refresh(c *fyne.Container) {
	if n := len(l.p.sheet.Rows); n != l.rows {
		l.rows = n
		l.Layout(c.Objects, c.Size())
	}
}

// MinSize fits half a laptop screen.
func (l *swapsLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(520, 300) }

// Layout places table, sources and card, in that order for Tab.
func (l *swapsLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	f := l.p.w.factor
	top := min(s.Height*tableMost, (float32(l.rows)*rowTall+headTall)*f)
	if l.rows == 0 {
		top = min(s.Height*0.3, o[0].MinSize().Height)
	}
	width := min(s.Width*sourceShare, sourceMost*f)
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(s.Width, top))
	y := top + parts.GapMedium
	o[1].Move(fyne.NewPos(0, y))
	o[1].Resize(fyne.NewSize(width, s.Height-y))
	o[2].Move(fyne.NewPos(width+parts.GapMedium, y))
	o[2].Resize(fyne.NewSize(s.Width-width-parts.GapMedium, s.Height-y))
}
