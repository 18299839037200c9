package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/ui/parts"
)

// Sizes of the Foods page at text factor 1.
const (
	foodsNarrow = 840 // below this width the two stand under one another
	foodsSide   = 0.31
	foodsLeast  = 325 // of the column's width
	foodsMost   = 470
	foodsList   = 270 // height of the list where the column stands under it
	foodsCard   = 420 // and of the column
	foodsThumb  = 10  // room for the page's own scroll bar there
)

// foodsView puts what is known of a food at the right of the list, in that order
// for Tab; in a narrow window it stands under the list and the page scrolls.
type foodsView struct {
	w      *Window
	box    *fyne.Container
	scroll *container.Scroll
	room   fyne.Size
}

func newFoodsView(w *Window, list, card fyne.CanvasObject) *foodsView {
	v := &foodsView{w: w}
	v.scroll = parts.Scrolled(container.New(foodsInner{v}, list, card))
	v.box = container.New(v, v.scroll)
	return v
}

// MinSize fits half a laptop screen.
func (v *foodsView) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 240) }

// Layout tells the page its room before it is measured.
func (v *foodsView) Layout(o []fyne.CanvasObject, s fyne.Size) {
	v.room = s
	put(o[0], 0, 0, s.Width, s.Height)
	v.scroll.Content.Refresh()
	v.scroll.Refresh()
}

func (v *foodsView) narrow() bool { return v.room.Width < foodsNarrow*v.w.factor }

// foodsInner lays out what foodsView scrolls.
type foodsInner struct{ v *foodsView }

// MinSize is as tall as the page needs to be.
func (l foodsInner) MinSize(o []fyne.CanvasObject) fyne.Size {
	if !l.v.narrow() || !o[1].Visible() {
		return fyne.NewSize(0, l.v.room.Height)
	}
	return fyne.NewSize(0, max(l.v.room.Height, (foodsList+foodsCard)*l.v.w.factor+parts.GapMedium))
}

// Layout places list and column.
func (l foodsInner) Layout(o []fyne.CanvasObject, s fyne.Size) {
	f := l.v.w.factor
	switch {
	case !o[1].Visible():
		put(o[0], 0, 0, s.Width, s.Height)
	case l.v.narrow():
		high, wide := s.Height-foodsCard*f-parts.GapMedium, s.Width-foodsThumb
		put(o[0], 0, 0, wide, high)
		put(o[1], 0, high+parts.GapMedium, wide, foodsCard*f)
	default:
		side := min(max(s.Width*foodsSide, foodsLeast*f), foodsMost*f)
		put(o[0], 0, 0, s.Width-side-parts.GapLarge, s.Height)
		put(o[1], s.Width-side, 0, side, s.Height)
	}
}
