package ui

import (
	"fyne.io/fyne/v2"

	"parewell/ui/parts"
)

// mealsLayout puts the list of meals at the left of the chosen one.
type mealsLayout struct{ w *Window }

// Width of the list: a share of the room within its bounds, at text factor 1.
const (
	listShare = 0.26
	listLeast = 224
	listMost  = 360
)

// MinSize fits half a laptop screen.
func (mealsLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(520, 300) }

// Layout places list and meal, in that order for Tab.
func (l mealsLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	width := min(max(s.Width*listShare, listLeast*l.w.factor), listMost*l.w.factor)
	put(o[0], 0, 0, width, s.Height)
	x := width + parts.GapLarge
	put(o[1], x, 0, s.Width-x, s.Height)
}

// mealLayout lays out one meal: heading and target above; then the dishes with
// the field that adds to them, and what all of it holds, under each other or,
// where there is room, side by side.
type mealLayout struct{ p *mealsPage }

// Measures of the layout at text factor 1.
const (
	mealWide  = 1120 // from here tables stand side by side
	mealSplit = 0.58 // the dishes' share of the width then
	mealRow   = 31   // a row of a table
	mealHead  = 54   // a header of two lines
	mealLeast = 118  // the least height of the dishes: a header and two rows
)

// MinSize is small enough for half a laptop screen.
func (l *mealLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(320, 280) }

// Layout places heading, target, dishes, field, tools and numbers.
func (l *mealLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	head, target, dishes, add, tools, numbers := o[0], o[1], o[2], o[3], o[4], o[5]
	h := head.MinSize().Height
	put(head, 0, 0, s.Width, h)
	y := h + parts.GapSmall
	if target.Visible() {
		target.Resize(fyne.NewSize(s.Width, target.MinSize().Height)) // wraps at this width
		h = target.MinSize().Height
		put(target, 0, y, s.Width, h)
		y += h + parts.GapSmall
	}
	field, line := add.MinSize().Height, tools.MinSize().Height
	if f := l.p.w.factor; s.Width >= mealWide*f {
		left := float32(int(s.Width * mealSplit))
		rest := s.Height - y
		high := min(l.need(rest), rest-field-parts.GapSmall)
		put(dishes, 0, y, left, high)
		put(add, 0, y+high+parts.GapSmall, left, field)
		x := left + parts.GapLarge
		put(numbers, x, y, s.Width-x, rest-line-parts.GapSmall)
		put(tools, x, s.Height-line, s.Width-x, line)
		return
	}
	rest := s.Height - y - field - line - 3*parts.GapSmall
	high := min(l.need(rest), max(mealLeast*l.p.w.factor, rest*0.46))
	put(dishes, 0, y, s.Width, high)
	y += high + parts.GapSmall
	put(add, 0, y, s.Width, field)
	y += field + parts.GapSmall
	put(tools, 0, y, s.Width, line)
	y += line + parts.GapSmall
	put(numbers, 0, y, s.Width, s.Height-y)
}

// need is the height the rows of the dishes ask for, at most all there is.
func (l *mealLayout) need(most float32) float32 {
	rows := max(len(l.p.sheet.Rows), 2)
	return min((float32(rows)*mealRow+mealHead+4)*l.p.w.factor, most)
}
