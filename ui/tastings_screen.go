package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// ballotPage lays out one screen of the ballot: what it is of, large; what is
// asked; the answers; and at the foot the way back and the lock.
func ballotPage(title, caption, lead string, content, foot fyne.CanvasObject) fyne.CanvasObject {
	head := parts.NewHeading(title)
	head.Align = fyne.TextAlignCenter
	small := parts.NewCaption(caption)
	small.Align = fyne.TextAlignCenter
	ask := parts.NewSubheading(lead)
	ask.Align, ask.Bold = fyne.TextAlignCenter, false
	middle := parts.Columns(0, []float32{1, 6, 1}, parts.Rows(0), parts.Rows(18, small, head, ask, parts.Pad(16, 0, 0, 0, content)), parts.Rows(0))
	return parts.Pad(24, 28, 20, 28, parts.Fill(parts.GapMedium, 0, parts.Scrolled(parts.Pad(40, 8, 8, 8, middle)), foot))
}

// choices are the answers as large buttons. A scale stands in one row with its
// words under it; what is words alone stands below each other.
func (s *ballotScreen) choices(list []sheets.BallotChoice, chosen float64, pick func(sheets.BallotChoice)) fyne.CanvasObject {
	wide := len(list) > 0 && list[0].Note != ""
	all := parts.Rows(10)
	row := parts.Columns(8, equal(len(list)))
	for _, c := range list {
		b := newBigButton(c.Text, func() { pick(c) })
		b.on, b.off = c.Value == chosen, c.Taken
		if !wide && c.Key != "" && c.Key != c.Text {
			b.hint = c.Key
		}
		s.w.pin("ballot.choice."+words.Trim(c.Value, 0), b)
		if !wide {
			all.Add(b)
			continue
		}
		note := parts.NewCaption(c.Note)
		note.Align = fyne.TextAlignCenter
		row.Add(parts.Rows(6, b, note))
	}
	if wide {
		return row
	}
	return parts.Columns(0, []float32{1, 1.6, 1}, parts.Rows(0), all, parts.Rows(0))
}

func equal(n int) []float32 {
	out := make([]float32, n)
	for i := range out {
		out[i] = 1
	}
	return out
}

// lockLine is the foot of a screen: the way back where there is one, the keys,
// and the lock that hands the machine to the cook.
func (s *ballotScreen) lockLine(back *parts.Button) fyne.CanvasObject {
	lock := parts.NewButton(parts.Plain, "lock", words.Say("tastings.screen.lock"), s.askCook)
	s.w.pin("ballot.lock", lock)
	line := parts.Line(parts.GapMedium)
	if back != nil {
		line.Add(back)
	}
	line.Add(parts.Spring())
	line.Add(lock)
	return line
}

// set shows a screen and gives the keyboard to the ballot.
func (s *ballotScreen) set(o fyne.CanvasObject) {
	s.body.Objects = []fyne.CanvasObject{o}
	s.body.Refresh()
	s.keys.take()
}

// keyCatcher has the keyboard while nothing else of the ballot has: digits
// answer, arrows and Esc move.
type keyCatcher struct {
	widget.BaseWidget
	s *ballotScreen
}

func newKeyCatcher(s *ballotScreen) *keyCatcher {
	k := &keyCatcher{s: s}
	k.ExtendBaseWidget(k)
	return k
}

// take gives the keyboard to the ballot.
func (k *keyCatcher) take() { k.s.w.win.Canvas().Focus(k) }

// FocusGained is part of fyne.Focusable.
func (k *keyCatcher) FocusGained() {}

// FocusLost is part of fyne.Focusable.
func (k *keyCatcher) FocusLost() {}

// TypedRune answers by a digit.
func (k *keyCatcher) TypedRune(r rune) { k.s.digit(r) }

// TypedKey moves back, on, or asks for the cook.
func (k *keyCatcher) TypedKey(e *fyne.KeyEvent) { k.s.key(e.Name) }

// CreateRenderer is part of fyne.Widget; it draws nothing.
func (k *keyCatcher) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
