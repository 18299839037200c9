package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"parewell/ui/parts"
)

// bigButton is an answer of the ballot, large enough for a finger. Digits press
// it too, so it takes no keyboard.
type bigButton struct {
	widget.BaseWidget
	text, hint string // hint is the key that presses it
	on, off    bool
	loud       bool // the one thing to press
	hovered    bool
	press      func()
}

// Measures of a large button at text factor 1.
const (
	bigHeight = 68
	bigSize   = 22
)

func newBigButton(text string, press func()) *bigButton {
	b := &bigButton{text: text, press: press}
	b.ExtendBaseWidget(b)
	return b
}

// Press does what the button does.
func (b *bigButton) Press() {
	if !b.off {
		b.press()
	}
}

// Tapped presses the button.
func (b *bigButton) Tapped(*fyne.PointEvent) { b.Press() }

// MouseIn is part of desktop.Hoverable.
func (b *bigButton) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.Refresh() }

// MouseMoved is part of desktop.Hoverable.
func (b *bigButton) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (b *bigButton) MouseOut() { b.hovered = false; b.Refresh() }

// CreateRenderer is part of fyne.Widget.
func (b *bigButton) CreateRenderer() fyne.WidgetRenderer {
	r := &bigRenderer{b: b, face: canvas.NewRectangle(color.Transparent), text: canvas.NewText("", nil), hint: canvas.NewText("", nil)}
	r.face.CornerRadius, r.face.StrokeWidth = 10, 1.5
	r.text.Alignment, r.text.TextStyle.Bold = fyne.TextAlignCenter, true
	r.Refresh()
	return r
}

type bigRenderer struct {
	b          *bigButton
	face       *canvas.Rectangle
	text, hint *canvas.Text
}

// Destroy is part of fyne.WidgetRenderer.
func (r *bigRenderer) Destroy() {}

// Objects is part of fyne.WidgetRenderer.
func (r *bigRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.face, r.text, r.hint}
}

// factor is the text size the cook has chosen.
func (r *bigRenderer) factor() float32 {
	return r.b.Theme().Size("text") / 14
}

// MinSize leaves room for the words.
func (r *bigRenderer) MinSize() fyne.Size {
	f := r.factor()
	return fyne.NewSize(r.text.MinSize().Width+24*f, bigHeight*f)
}

// Layout puts the words in the middle and the key at the left.
func (r *bigRenderer) Layout(s fyne.Size) {
	r.face.Resize(s)
	h := r.text.MinSize().Height
	put(r.text, 0, (s.Height-h)/2, s.Width, h)
	h = r.hint.MinSize().Height
	put(r.hint, 16*r.factor(), (s.Height-h)/2, r.hint.MinSize().Width, h)
}

// Refresh draws the button as it is: chosen, not to be had, under the pointer.
func (r *bigRenderer) Refresh() {
	b := r.b
	face, ink, edge := parts.RoleCard, parts.RoleInk, parts.RoleOutline
	switch {
	case b.on || b.loud:
		face, ink, edge = parts.RoleAccent, parts.RoleOnAccent, parts.RoleAccent
	case b.off:
		face, ink, edge = parts.RoleGround, parts.RoleMuted, parts.RoleHairline
	case b.hovered:
		face, edge = parts.RoleAccentSoft, parts.RoleAccent
	}
	r.face.FillColor, r.face.StrokeColor = parts.Colour(b, face), parts.Colour(b, edge)
	r.text.Text, r.text.Color, r.text.TextSize = b.text, parts.Colour(b, ink), bigSize*r.factor()
	r.hint.Text, r.hint.Color, r.hint.TextSize = b.hint, parts.Colour(b, parts.RoleMuted), 12*r.factor()
	if b.on || b.loud {
		r.hint.Color = parts.Colour(b, ink)
	}
	r.Layout(b.Size())
	r.face.Refresh()
	r.text.Refresh()
	r.hint.Refresh()
}

// bigText is a heading as large as a code is on a cup.
type bigText struct {
	widget.BaseWidget
	text string
}

// headingText is its size at text factor 1.
const headingText = 58

func newBigText(text string) *bigText {
	t := &bigText{text: text}
	t.ExtendBaseWidget(t)
	return t
}

// CreateRenderer is part of fyne.Widget.
func (t *bigText) CreateRenderer() fyne.WidgetRenderer {
	c := canvas.NewText(t.text, parts.Colour(t, parts.RoleInk))
	c.Alignment, c.TextStyle.Bold, c.TextSize = fyne.TextAlignCenter, true, headingText*t.Theme().Size("text")/14
	if len([]rune(t.text)) > 16 { // a sentence, no code
		c.TextSize /= 2
	}
	return widget.NewSimpleRenderer(c)
}
