package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// ballotPage lays out one screen of the ballot: what it is of, large; what is
// asked; the answers; and at the foot the way back and the lock.
func ballotPage(title, caption, lead string, content, foot fyne.CanvasObject) fyne.CanvasObject {
	small := parts.NewText(caption)
	small.Align = fyne.TextAlignCenter
	small.SetRole(parts.RoleMuted)
	ask := parts.NewText(lead)
	ask.Align, ask.Scale = fyne.TextAlignCenter, parts.SizeSubheading
	middle := parts.Rows(20, small, newBigText(title), ask, parts.Pad(20, 0, 0, 0, content))
	sides := parts.Columns(0, []float32{1, 14, 1}, parts.Rows(0), middle, parts.Rows(0))
	return parts.Pad(24, 28, 20, 28, parts.Fill(parts.GapMedium, 0, container.New(third{sides}, parts.Scrolled(parts.Pad(8, 8, 8, 8, sides))), foot))
}

// third lays what scrolls a little above the middle; content tells how tall it is.
type third struct{ content fyne.CanvasObject }

// MinSize is that of what scrolls.
func (third) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout leaves a third of the free height above.
func (l third) Layout(o []fyne.CanvasObject, s fyne.Size) {
	o[0].Resize(s) // wraps the text at this width
	top := max(s.Height-l.content.MinSize().Height-16, 0) / 3
	put(o[0], 0, top, s.Width, s.Height-top)
}

// Room a figure of a scale needs for its words under it, at text factor 1: with
// words of the usual size, and with small ones. With less the words stand in a
// line of their own.
const (
	roomForWords = 116
	roomForSmall = 94
)

// choices are the answers as large buttons. A scale stands in one row, so that
// none of it is ever out of sight; other answers stand below each other.
func (s *ballotScreen) choices(list []sheets.BallotChoice, chosen float64, pick func(sheets.BallotChoice)) fyne.CanvasObject {
	if s.endsHere() {
		pick = s.confirm
	}
	scale := len(list) > 0 && list[0].Note != ""
	room := s.w.win.Canvas().Size().Width * 0.84 / float32(max(len(list), 1)) / s.w.factor
	all, row := parts.Rows(8), parts.Columns(8, equal(len(list)))
	for _, c := range list {
		b := newBigButton(c.Text, func() { pick(c) })
		b.on, b.off = c.Value == chosen, c.Taken
		s.w.pin("ballot.choice."+words.Trim(c.Value, 0), b)
		switch {
		case scale && room >= roomForSmall:
			row.Add(parts.Rows(6, b, anchorText(c.Note, room)))
		case scale:
			row.Add(b)
		default:
			if c.Key != c.Text {
				b.hint = c.Key
			}
			all.Add(b)
		}
	}
	switch {
	case scale && room >= roomForSmall:
		return row
	case scale:
		return parts.Rows(parts.GapMedium, row, anchorText(sheets.ScaleWords(list), roomForWords))
	}
	return parts.Columns(0, []float32{1, 1.6, 1}, parts.Rows(0), all, parts.Rows(0))
}

// anchorText is the words under a figure of a scale.
func anchorText(note string, room float32) *parts.Text {
	t := parts.NewText(note)
	if room < roomForWords {
		t.Scale = parts.SizeCaption
	}
	t.Align = fyne.TextAlignCenter
	t.SetRole(parts.RoleMuted)
	return t
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
	if s.run != nil && s.keys.asked == nil && s.at >= 0 && s.at < len(s.run.Steps) {
		line.Add(parts.NewCaption(words.Say("tastings.screen.keys")))
		line.Add(parts.Spring())
	}
	line.Add(lock)
	return line
}

// set shows a screen and gives the keyboard to the ballot.
func (s *ballotScreen) set(o fyne.CanvasObject) {
	s.keys.asked = nil
	s.body.Objects = []fyne.CanvasObject{o}
	s.body.Refresh()
	s.keys.take()
}

// keyCatcher has the keyboard while nothing else of the ballot has: digits
// answer, arrows and Esc move.
type keyCatcher struct {
	widget.BaseWidget
	s     *ballotScreen
	asked *confirmation // while an answer that ends the ballot waits for yes or no
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
func (k *keyCatcher) TypedRune(r rune) {
	switch {
	case k.asked != nil:
	case k.s.endsHere():
		k.s.confirmKey(string(r))
	default:
		k.s.digit(r)
	}
}

// TypedKey moves back, on, or asks for the cook.
func (k *keyCatcher) TypedKey(e *fyne.KeyEvent) {
	if k.asked != nil {
		k.asked.key(e.Name)
		return
	}
	k.s.key(e.Name)
}

// CreateRenderer is part of fyne.Widget; it draws nothing.
func (k *keyCatcher) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
