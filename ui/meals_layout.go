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
	listLeast = 236
	listMost  = 360
)

// MinSize fits half a laptop screen.
func (mealsLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(520, 300) }

// Layout places list and meal, in that order for Tab.
func (l mealsLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	width := float32(int(min(max(s.Width*listShare, listLeast*l.w.factor), listMost*l.w.factor)))
	put(o[0], 0, 0, width, s.Height)
	x := width + parts.GapLarge
	put(o[1], x-mealEdge, -mealEdge, s.Width-x+2*mealEdge, s.Height+2*mealEdge)
}

// mealEdge is the room around a meal inside what scrolls it: edges and rings of
// the keyboard are not cut there.
const mealEdge = 4

// headLayout puts a name to type over, words, and buttons on one line; where
// room is short the words go, then the name gets narrower.
type headLayout struct{ w *Window }

// Widths on that line at text factor 1.
const (
	nameMost  = 300
	wordLeast = 130
)

// MinSize is as tall as the name's field.
func (headLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(200, o[0].MinSize().Height)
}

// Layout places the name, the words, and the buttons from the right.
func (l headLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	right := s.Width
	for i := len(o) - 1; i >= 2; i-- {
		if o[i].Visible() {
			m := o[i].MinSize()
			right -= m.Width
			put(o[i], right, (s.Height-m.Height)/2, m.Width, m.Height)
			right -= parts.GapSmall
		}
	}
	name := min(nameMost*l.w.factor, max(right, 0))
	put(o[0], 0, 0, name, s.Height)
	room := right - name - parts.GapMedium
	if fits := room >= wordLeast*l.w.factor; fits != o[1].Visible() {
		visible(o[1], fits)
	}
	h := o[1].MinSize().Height
	put(o[1], name+parts.GapMedium, (s.Height-h)/2, room, h)
}

// mealLayout lays out one meal: heading and target above; then the dishes with
// the field that adds to them, and what all of it holds, under each other or,
// where there is room, side by side.
type mealLayout struct {
	p     *mealsPage
	width float32 // last laid out for
	tight bool    // too narrow for bars in the table of dishes
}

// Measures of the layout at text factor 1.
const (
	mealWide   = 1120 // from here tables stand side by side
	mealSplit  = 0.58 // the dishes' share of the width then
	dishLeast  = 118  // the least height of the dishes: a header and two rows
	heldLeast  = 130  // and of what they hold
	dishesMost = 0.46 // the dishes' share of the height at most
	barsFrom   = 620  // a narrower table of dishes has no bars
)

// MinSize leaves both tables a few rows; what does not fit is scrolled to.
func (l *mealLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := l.above(o) + o[3].MinSize().Height + 2*parts.GapSmall
	if f := l.p.w.factor; l.width < mealWide*f {
		h += o[4].MinSize().Height + parts.GapSmall + (dishLeast+heldLeast)*f
	} else {
		h += dishLeast * f
	}
	return fyne.NewSize(320, h)
}

// above is the height of the heading and the target with their gaps.
func (l *mealLayout) above(o []fyne.CanvasObject) float32 {
	h := o[0].MinSize().Height + parts.GapSmall
	if o[1].Visible() {
		h += o[1].MinSize().Height + parts.GapSmall
	}
	return h
}

// Layout places heading, target, dishes, field, tools and numbers.
func (l *mealLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	l.width = s.Width
	if tight := s.Width < barsFrom*l.p.w.factor; tight != l.tight {
		l.tight = tight
		if l.p.plate() != nil {
			l.p.showDishes()
		}
	}
	head, target := o[0], o[1]
	put(head, 0, 0, s.Width, head.MinSize().Height)
	target.Resize(fyne.NewSize(s.Width, target.MinSize().Height)) // wraps at this width
	put(target, 0, head.MinSize().Height+parts.GapSmall, s.Width, target.MinSize().Height)
	if s.Width >= mealWide*l.p.w.factor {
		l.beside(o, s, l.above(o))
		return
	}
	l.under(o, s, l.above(o))
}

// beside puts the two tables side by side.
func (l *mealLayout) beside(o []fyne.CanvasObject, s fyne.Size, y float32) {
	dishes, add, tools, numbers := o[2], o[3], o[4], o[5]
	field, line := add.MinSize().Height, tools.MinSize().Height
	left := float32(int(s.Width * mealSplit))
	high := min(rowsOf(l.p.dishes, left), s.Height-y-field-parts.GapSmall)
	put(dishes, 0, y, left, high)
	put(add, 0, y+high+parts.GapSmall, left, field)
	x := left + parts.GapLarge
	put(tools, x, y, s.Width-x, line)
	y += line + parts.GapSmall
	put(numbers, x, y, s.Width-x, min(rowsOf(l.p.numbers, s.Width-x), s.Height-y))
}

// under puts the second table under the first.
func (l *mealLayout) under(o []fyne.CanvasObject, s fyne.Size, y float32) {
	dishes, add, tools, numbers := o[2], o[3], o[4], o[5]
	field, line := add.MinSize().Height, tools.MinSize().Height
	rest := s.Height - y - field - line - 3*parts.GapSmall
	high := min(rowsOf(l.p.dishes, s.Width), max(dishLeast*l.p.w.factor, rest*dishesMost))
	put(dishes, 0, y, s.Width, high)
	y += high + parts.GapSmall
	put(add, 0, y, s.Width, field)
	y += field + parts.GapSmall
	put(tools, 0, y, s.Width, line)
	y += line + parts.GapSmall
	put(numbers, 0, y, s.Width, min(rowsOf(l.p.numbers, s.Width), s.Height-y))
}

// rowsOf is the height all rows of a table ask for at a width, with its card's
// edges.
func rowsOf(m *parts.Matrix, width float32) float32 {
	m.Whole = true
	h := m.HeightFor(width - 2)
	m.Whole = false
	return h + 3
}
