package ui

import (
	"fyne.io/fyne/v2"

	"parewell/ui/parts"
)

// ledgerLayout puts what stands behind a row at the right of the table; in a
// narrow window under it. Where the table has little room its words wrap sooner.
type ledgerLayout struct{ p *ledgerPage }

// Sizes of Keep or drop at text factor 1.
const (
	ledgerNarrow = 800  // below this width the two stand under one another
	ledgerSide   = 0.31 // the right side's share of the width, within its bounds
	ledgerLeast  = 310
	ledgerMost   = 460
	ledgerTight  = 790  // a narrower table wraps its words sooner
	ledgerUpper  = 0.58 // the table's share of the height where they stand under one another
)

// MinSize fits half a laptop screen.
func (*ledgerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(420, 240) }

// Layout places the table's side and the other, in that order for Tab.
func (l *ledgerLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	f := l.p.w.factor
	if s.Width < ledgerNarrow*f {
		l.room(s.Width)
		high := float32(int(s.Height * ledgerUpper))
		put(o[0], 0, 0, s.Width, high)
		put(o[1], 0, high+parts.GapSmall, s.Width, s.Height-high-parts.GapSmall)
		return
	}
	side := float32(int(min(max(s.Width*ledgerSide, ledgerLeast*f), ledgerMost*f)))
	left := s.Width - side - parts.GapMedium
	l.room(left)
	put(o[0], 0, 0, left, s.Height)
	put(o[1], left+parts.GapMedium, 0, side, s.Height)
}

// room tells the tables how much there is for them.
func (l *ledgerLayout) room(width float32) {
	if tight := width < ledgerTight*l.p.w.factor; tight != l.p.tight {
		l.p.tight = tight
		l.p.showTable()
		l.p.best.show()
	}
}
