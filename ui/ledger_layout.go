package ui

import (
	"fyne.io/fyne/v2"

	"parewell/ui/parts"
)

// ledgerLayout puts what stands behind a row at the right of the table; in a
// narrow window under it, in one column that scrolls as a whole. Where the table has little room its words wrap sooner.
type ledgerLayout struct{ p *ledgerPage }

// Sizes of Keep or drop at text factor 1.
const (
	ledgerNarrow = 860  // below this width everything stands under one another
	ledgerSide   = 0.31 // the right side's share of the width, within its bounds
	ledgerLeast  = 310
	ledgerMost   = 460
	ledgerTight  = 790 // a narrower table wraps its words sooner
	ledgerClose  = 640 // and one that is narrower still has short lines of names
)

// MinSize fits half a laptop screen.
func (*ledgerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(420, 240) }

// Layout places the table's side and the other, in that order for Tab.
func (l *ledgerLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	f := l.p.w.factor
	l.stack(s.Width < ledgerNarrow*f)
	if l.p.narrow {
		l.room(s.Width)
		put(o[0], 0, 0, s.Width, s.Height)
		return
	}
	side := float32(int(min(max(s.Width*ledgerSide, ledgerLeast*f), ledgerMost*f)))
	left := s.Width - side - parts.GapMedium
	l.room(left)
	put(o[0], 0, 0, left, s.Height)
	put(o[1], left+parts.GapMedium, 0, side, s.Height)
}

// stack moves what stands at the right under the table, or back.
func (l *ledgerLayout) stack(narrow bool) {
	p := l.p
	if narrow == p.narrow {
		return
	}
	p.narrow = narrow
	main := p.main.Objects[:3]
	rest := []fyne.CanvasObject{p.chart.view, p.best.view}
	if narrow {
		p.side.Objects = nil
		p.main.Objects = append(append(main[:3:3], p.why), append(rest, p.next.view)...)
	} else {
		p.side.Objects = []fyne.CanvasObject{p.why, p.next.view}
		p.main.Objects = append(main[:3:3], rest...)
	}
	visible(p.right, !narrow)
	p.main.Refresh()
	p.side.Refresh()
	p.left.Refresh()
}

// room tells the tables how much there is for them.
func (l *ledgerLayout) room(width float32) {
	f := l.p.w.factor
	if tight, close := width < ledgerTight*f, width < ledgerClose*f; tight != l.p.tight || close != l.p.close {
		l.p.tight, l.p.close = tight, close
		l.p.showTable()
		l.p.best.show()
	}
}
