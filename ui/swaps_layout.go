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
	tick bool      // the table has columns of ticks
	room fyne.Size // of the window's part the page has
}

// Shares of the room, and heights and widths at text factor 1.
const (
	tableMost   = 0.58 // of the height, for the table
	sourceShare = 0.40 // of the width, for the list of sources
	sourceMost  = 560
	rowTall     = 40  // one row of the table, names of two lines among them
	headTall    = 118 // the line above the table and its header
	emptyTall   = 108 // the line above the table and the banner in its place
	bannerTall  = 62
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

// refresh lays out again when the table needs another height.
func (l *swapsLayout) refresh(view *fyne.Container) {
	n, tick := len(l.p.sheet.Rows), len(l.p.sheet.Versions) > 0
	if n != l.rows || tick != l.tick {
		l.rows, l.tick = n, tick
		view.Refresh()
	}
}

func (l *swapsLayout) narrow() bool { return l.room.Width < narrowSwaps*l.p.w.factor }

// heights are those of the table and of what stands under it.
func (l *swapsLayout) heights() (table, lower float32) {
	f := l.p.w.factor
	needs := (float32(l.rows)*rowTall + headTall) * f
	switch {
	case l.rows == 0: // only the line above the table and the banner
		needs = emptyTall * f
	case l.p.noTicks.Visible():
		needs += bannerTall * f
	}
	table = min(max(l.room.Height*tableMost, tableLeast*f), needs)
	if l.narrow() {
		return table, (sourceTall+cardTall)*f + parts.GapMedium
	}
	return table, max(l.room.Height-table-parts.GapMedium, lowerLeast*f)
}

// MinSize is as tall as the page needs to be.
func (l *swapsLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	table, lower := l.heights()
	return fyne.NewSize(0, table+parts.GapMedium+lower)
}

// Layout places table, sources and card, in that order for Tab.
func (l *swapsLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	f := l.p.w.factor
	table, lower := l.heights()
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
