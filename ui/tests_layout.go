package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/ui/parts"
)

// Sizes of the Tests page at text factor 1.
const (
	testsNarrow = 820 // below this width the three stand under one another
	testsSide   = 0.32
	testsLeast  = 345 // of the card's width
	testsMost   = 520
	testsList   = 230 // the least height of the list of tests
	testsCard   = 460 // height of the card where it stands under the list
	testsNext   = 200 // height of the things to do when they scroll
)

// testsLayout puts what to do next time above the list of tests and the card of
// one test at their right; in a narrow window the card stands under them. Where
// the window is too low the page scrolls.
type testsLayout struct {
	p    *testsPage
	room fyne.Size // of the window's part the page has
}

// testsView scrolls the page where it is taller than the window.
type testsView struct {
	l      *testsLayout
	scroll *container.Scroll
}

func newTestsView(p *testsPage, next, list, card fyne.CanvasObject) *fyne.Container {
	l := &testsLayout{p: p}
	v := &testsView{l: l, scroll: parts.Scrolled(container.New(l, next, list, card))}
	p.table.Outer, p.next.table.Outer = v.scroll, v.scroll
	return container.New(v, v.scroll)
}

// MinSize fits half a laptop screen.
func (v *testsView) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 240) }

// Layout tells the page its room before it is measured.
func (v *testsView) Layout(o []fyne.CanvasObject, s fyne.Size) {
	v.l.room = s
	put(o[0], 0, 0, s.Width, s.Height)
	v.scroll.Content.Refresh()
	v.scroll.Refresh()
}

func (l *testsLayout) narrow() bool { return l.room.Width < testsNarrow*l.p.w.factor }

// above is the height of what stands over the list, with the gap under it.
func (l *testsLayout) above(width float32) float32 {
	next := l.p.next
	if !next.view.Visible() {
		return 0
	}
	if !next.table.Whole {
		return testsNext*l.p.w.factor + parts.GapMedium
	}
	return next.view.HeightFor(width) + parts.GapMedium
}

func (l *testsLayout) mainWidth() float32 {
	if l.narrow() {
		return l.room.Width
	}
	f := l.p.w.factor
	return l.room.Width - min(max(l.room.Width*testsSide, testsLeast*f), testsMost*f) - parts.GapMedium
}

// MinSize is as tall as the page needs to be.
func (l *testsLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	f := l.p.w.factor
	high := l.above(l.mainWidth()) + testsList*f
	if l.narrow() {
		return fyne.NewSize(0, high+parts.GapMedium+testsCard*f)
	}
	return fyne.NewSize(0, max(high, l.room.Height))
}

// Layout places next time, list and card, in that order for Tab.
func (l *testsLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	width := l.mainWidth()
	above := l.above(width)
	put(o[0], 0, 0, width, above-parts.GapMedium)
	if l.narrow() {
		f := l.p.w.factor
		list := s.Height - above - parts.GapMedium - testsCard*f
		put(o[1], 0, above, width, list)
		put(o[2], 0, above+list+parts.GapMedium, width, testsCard*f)
		return
	}
	put(o[1], 0, above, width, s.Height-above)
	put(o[2], width+parts.GapMedium, 0, s.Width-width-parts.GapMedium, s.Height)
}
