package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/ui/parts"
)

// swapsLayout puts the tick table above, the list of sources and the card side
// by side under it; in a narrow window all three stand under one another. The
// table takes what its rows need, but leaves the rest enough to read; where
// the window is too low for that the page scrolls.
type swapsLayout struct {
	p    *swapsPage
	rows int
	room fyne.Size // of the window's part the page has
}

// Shares of the room, and heights and widths at text factor 1.
const (
	tableMost   = 0.58 // of the height, for the table
	sourceShare = 0.40 // of the width, for the list of sources
	sourceMost  = 560
	rowTall     = 31  // one row of the table
	headTall    = 118 // the line above the table and its header
	tableLeast  = 250
	lowerLeast  = 200
	sourceTall  = 240 // where the three stand under one another
	cardTall    = 340
	narrowSwaps = 900
)

// swapsView scrolls the page where it is taller than the window.
type swapsView struct {
	l      *swapsLayout
	scroll *container.Scroll
}

func newSwapsView(l *swapsLayout, top, sources, card fyne.CanvasObject) *fyne.Container {
	v := &swapsView{l: l, scroll: parts.Scrolled(container.New(l, top, sources, card))}
	l.p.table.Outer = v.scroll
	return container.New(v, v.scroll)
}

// MinSize fits half a laptop screen.
func (v *swapsView) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 240) }

// Layout tells the page its room before it is measured.
func (v *swapsView) Layout(o []fyne.CanvasObject, s fyne.Size) {
	v.l.room = s
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(s)
	v.scroll.Refresh()
}

// refresh lays out again when the number of rows has changed.
func (l *swapsLayout) refresh(view *fyne.Container) {
	if n := len(l.p.sheet.Rows); n != l.rows {
		l.rows = n
		view.Refresh()
	}
}

func (l *swapsLayout) narrow() bool { return l.room.Width < narrowSwaps*l.p.w.factor }

// heights are those of the table and of what stands under it.
func (l *swapsLayout) heights(top fyne.CanvasObject) (table, lower float32) {
	f := l.p.w.factor
	table = min(max(l.room.Height*tableMost, tableLeast*f), (float32(l.rows)*rowTall+headTall)*f)
	if l.rows == 0 {
		table = top.MinSize().Height
	}
	if l.narrow() {
		return table, (sourceTall+cardTall)*f + parts.GapMedium
	}
	return table, max(l.room.Height-table-parts.GapMedium, lowerLeast*f)
}

// MinSize is as tall as the page needs to be.
func (l *swapsLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	table, lower := l.heights(o[0])
	return fyne.NewSize(0, table+parts.GapMedium+lower)
}

// Layout places table, sources and card, in that order for Tab.
func (l *swapsLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	f := l.p.w.factor
	table, lower := l.heights(o[0])
	put(o[0], 0, 0, s.Width, table)
	y := table + parts.GapMedium
	if l.narrow() {
		put(o[1], 0, y, s.Width, sourceTall*f)
		put(o[2], 0, y+sourceTall*f+parts.GapMedium, s.Width, cardTall*f)
		return
	}
	width := min(s.Width*sourceShare, sourceMost*f)
	put(o[1], 0, y, width, lower)
	put(o[2], width+parts.GapMedium, y, s.Width-width-parts.GapMedium, lower)
}
