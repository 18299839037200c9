package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// ButtonKind says how loud a button is.
type ButtonKind int

// One Primary in a view at most; Quiet for everything else; Plain has no border
// and suits rows of small actions; Danger takes something away.
const (
	Quiet ButtonKind = iota
	Primary
	Plain
	Danger
)

// Button is a button with words, a drawing or both. Enter and Space press it.
type Button struct {
	widget.BaseWidget
	kind     ButtonKind
	text     string
	icon     string
	tip      string
	OnPress  func()
	Short    bool // long words are cut to the room there is and shown whole as a tip
	disabled bool
	focused  bool
	hovered  bool
	pressed  bool
	released bool // MouseUp pressed it already: the tap that follows does not
	hint     tipper
}

// NewButton returns a button; icon may be empty.
func NewButton(kind ButtonKind, icon, text string, press func()) *Button {
	b := &Button{kind: kind, icon: icon, text: text, OnPress: press}
	b.ExtendBaseWidget(b)
	return b
}

// NewIconButton returns a small button with a drawing and its name as a tip.
func NewIconButton(icon, tip string, press func()) *Button {
	b := NewButton(Plain, icon, "", press)
	b.tip = tip
	return b
}

// SetTip sets the words shown when the pointer rests on the button.
func (b *Button) SetTip(tip string) { b.tip = tip }

// SetText changes the words.
func (b *Button) SetText(text string) {
	if b.text != text {
		b.text = text
		b.Refresh()
	}
}

// SetIcon changes the drawing.
func (b *Button) SetIcon(icon string) {
	if b.icon != icon {
		b.icon = icon
		b.Refresh()
	}
}

// Text returns the words.
func (b *Button) Text() string { return b.text }

// Enable and Disable are part of fyne.Disableable.
func (b *Button) Enable() { b.SetEnabled(true) }

// Disable greys the button out; it cannot be pressed or focused.
func (b *Button) Disable() { b.SetEnabled(false) }

// Disabled says whether the button is greyed out.
func (b *Button) Disabled() bool { return b.disabled }

// SetEnabled switches the button on or off.
func (b *Button) SetEnabled(on bool) {
	if b.disabled == on {
		b.disabled = !on
		b.Refresh()
	}
}

// Press does what the button does, unless it is disabled.
func (b *Button) Press() {
	if !b.disabled && b.OnPress != nil {
		b.hint.hide()
		CommitEdits(fyne.CurrentApp().Driver().CanvasForObject(b))
		b.OnPress()
	}
}

// Tapped presses the button when the press came from elsewhere than the mouse.
func (b *Button) Tapped(*fyne.PointEvent) {
	if b.released {
		b.released = false
		return
	}
	b.Press()
}

// MouseDown shows the button pressed. Acting on the mouse's own events keeps a
// press that slips a few pixels, which a tap inside a scroll would lose.
func (b *Button) MouseDown(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary && !b.disabled {
		b.pressed, b.released = true, false
		b.Refresh()
	}
}

// MouseUp presses the button if the pointer is still on it.
func (b *Button) MouseUp(e *desktop.MouseEvent) {
	if !b.pressed {
		return
	}
	b.pressed = false
	b.Refresh()
	s := b.Size()
	if e.Position.X >= 0 && e.Position.Y >= 0 && e.Position.X < s.Width && e.Position.Y < s.Height {
		b.released = true
		b.Press()
	}
}

// MouseIn is part of desktop.Hoverable.
func (b *Button) MouseIn(*desktop.MouseEvent) {
	b.hovered = true
	tip := b.tip
	if tip == "" && b.Short && b.cutTo(b.Size().Width) != b.text {
		tip = b.text
	}
	b.hint.rest(b, tip)
	b.Refresh()
}

// cutTo is what of the words fits a button so wide.
func (b *Button) cutTo(width float32) string {
	if !b.Short || width <= 0 {
		return b.text
	}
	f := factorOf(b.Theme())
	room := width - 2*9*f
	if b.icon != "" {
		room -= 18*f + 6
	}
	return cut(b.text, room, SizeBody.in(b.Theme()), b.kind == Primary || b.kind == Danger)
}

// MouseMoved is part of desktop.Hoverable.
func (b *Button) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (b *Button) MouseOut() {
	b.hovered = false
	b.hint.hide()
	b.Refresh()
}

// FocusGained is part of fyne.Focusable.
func (b *Button) FocusGained() { b.focused = true; b.Refresh() }

// FocusLost is part of fyne.Focusable.
func (b *Button) FocusLost() { b.focused = false; b.hint.hide(); b.Refresh() }

// TypedRune is part of fyne.Focusable.
func (b *Button) TypedRune(rune) {}

// TypedKey presses the button on Enter and Space.
func (b *Button) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		b.Press()
	default:
		passKey(b, k)
	}
}

// CreateRenderer is part of fyne.Widget.
func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	r := &buttonRenderer{
		b: b, ring: canvas.NewRectangle(color.Transparent), face: canvas.NewRectangle(nil),
		text: canvas.NewText("", nil), icon: newIconImage(),
	}
	r.ring.StrokeWidth, r.ring.CornerRadius, r.face.CornerRadius = 2, 8, 6
	r.Refresh()
	return r
}

// shortest is the room that a Short button's words keep.
const shortest = 90

type buttonRenderer struct {
	b          *Button
	ring, face *canvas.Rectangle
	text       *canvas.Text
	icon       *canvas.Image
}

func (r *buttonRenderer) Destroy() {}
func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.face, r.ring, r.icon, r.text}
}

func (r *buttonRenderer) side() float32 { return 18 * factorOf(r.b.Theme()) }

func (r *buttonRenderer) MinSize() fyne.Size {
	f := factorOf(r.b.Theme())
	w, h := 2*9*f, controlHeight(r.b.Theme())
	if r.b.text == "" {
		return fyne.NewSquareSize(32 * f)
	}
	words := textWidth(r.b.text, SizeBody.in(r.b.Theme()), r.bold()) + 8*f
	if r.b.Short {
		words = fyne.Min(words, shortest*f)
	}
	w += words
	if r.b.icon != "" {
		w += r.side() + 3*f
	}
	return fyne.NewSize(w, h)
}

func (r *buttonRenderer) bold() bool { return r.b.kind == Primary || r.b.kind == Danger }

func (r *buttonRenderer) Layout(s fyne.Size) {
	r.face.Resize(s)
	place(r.ring, -3, -3, s.Width+6, s.Height+6)
	size, side := SizeBody.in(r.b.Theme()), r.side()
	r.text.Text = r.b.cutTo(s.Width)
	tw := textWidth(r.text.Text, size, r.bold())
	w := tw
	if r.b.icon != "" {
		w += side
		if r.b.text != "" {
			w += 6
		}
	}
	x := (s.Width - w) / 2
	if r.b.icon != "" {
		place(r.icon, x, (s.Height-side)/2, side, side)
		x += side + 6
	}
	h := lineHeight(size)
	place(r.text, x, (s.Height-h)/2, tw, h)
}

// roles returns fill, border and text of the button's state.
func (r *buttonRenderer) roles() (fill, border, text fyne.ThemeColorName) {
	switch {
	case r.b.disabled && r.b.kind == Plain:
		return "", "", RoleOutline
	case r.b.disabled:
		return RoleHeader, RoleHairline, RoleOutline
	case r.b.kind == Primary:
		return RoleAccent, RoleAccent, RoleOnAccent
	case r.b.kind == Danger:
		return RoleErrorSoft, RoleError, RoleError
	case r.b.kind == Plain && (r.b.hovered || r.b.pressed):
		return RoleHover, "", RoleInk
	case r.b.kind == Plain:
		return "", "", RoleInk
	case r.b.pressed:
		return RoleAccentSoft, RoleAccent, RoleInk
	case r.b.hovered:
		return RoleHover, RoleOutline, RoleInk
	}
	return RoleCard, RoleOutline, RoleInk
}

func (r *buttonRenderer) Refresh() {
	b := r.b
	fill, border, text := r.roles()
	r.face.FillColor, r.face.StrokeColor, r.face.StrokeWidth = color.Transparent, color.Transparent, 0
	if fill != "" {
		r.face.FillColor = Colour(b, fill)
	}
	if border != "" {
		r.face.StrokeColor, r.face.StrokeWidth = Colour(b, border), 1
	}
	if b.kind == Primary && (b.hovered || b.pressed) && !b.disabled {
		r.face.FillColor = mix(Colour(b, RoleAccent), Colour(b, RoleInk), 0.16)
	}
	r.ring.StrokeColor = color.Transparent
	if b.focused {
		r.ring.StrokeColor = Colour(b, RoleAccent)
	}
	styleText(r.text, b.text, SizeBody.in(b.Theme()), r.bold(), b, text)
	setIcon(r.icon, b.icon, Colour(b, text))
	r.Layout(b.Size())
	r.face.Refresh()
	r.ring.Refresh()
}

// mix returns a with a share of b in it.
func mix(a, b color.Color, share float64) color.Color {
	p, _ := color.NRGBAModel.Convert(a).(color.NRGBA)
	q, _ := color.NRGBAModel.Convert(b).(color.NRGBA)
	at := func(x, y uint8) uint8 { return uint8(float64(x)*(1-share) + float64(y)*share) }
	return color.NRGBA{R: at(p.R, q.R), G: at(p.G, q.G), B: at(p.B, q.B), A: 0xff}
}
