package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Text is a paragraph in one of the four sizes and any role of colour. It wraps
// at the width it gets, or is cut with an ellipsis when OneLine.
type Text struct {
	widget.BaseWidget
	Role    fyne.ThemeColorName
	Scale   TextSize
	Bold    bool
	OneLine bool
	Align   fyne.TextAlign

	text  string
	width float32 // last width wrapped for, 0 before the first layout
	lines []*canvas.Text
	last  wrapping
}

// wrapping remembers the last lines, because every frame asks for the height.
type wrapping struct {
	text        string
	width, size float32
	bold        bool
	lines       []string
}

func (t *Text) wrapped(width float32) []string {
	size := t.size()
	if w := &t.last; w.lines == nil || w.text != t.text || w.width != width || w.size != size || w.bold != t.Bold {
		t.last = wrapping{t.text, width, size, t.Bold, wrap(t.text, width, size, t.Bold)}
	}
	return t.last.lines
}

// NewText returns body text in ink that wraps.
func NewText(text string) *Text { return newText(text, SizeBody, RoleInk, false) }

// NewCaption returns small muted text that wraps.
func NewCaption(text string) *Text { return newText(text, SizeCaption, RoleMuted, false) }

// NewHeading returns a page's heading on one line.
func NewHeading(text string) *Text {
	t := newText(text, SizeHeading, RoleInk, true)
	t.OneLine = true
	return t
}

// NewSubheading returns a bold subheading on one line.
func NewSubheading(text string) *Text {
	t := newText(text, SizeSubheading, RoleInk, true)
	t.OneLine = true
	return t
}

// NewBold returns bold body text that wraps.
func NewBold(text string) *Text { return newText(text, SizeBody, RoleInk, true) }

func newText(text string, size TextSize, role fyne.ThemeColorName, bold bool) *Text {
	t := &Text{Role: role, Scale: size, Bold: bold, text: text}
	t.ExtendBaseWidget(t)
	return t
}

// SetText changes the words; the same words cost nothing.
func (t *Text) SetText(text string) {
	if t.text != text {
		t.text = text
		t.Refresh()
	}
}

// Text returns the words.
func (t *Text) Text() string { return t.text }

// SetRole changes the role of colour.
func (t *Text) SetRole(role fyne.ThemeColorName) {
	if t.Role != role {
		t.Role = role
		t.Refresh()
	}
}

// HeightFor returns the height the paragraph takes at a width.
func (t *Text) HeightFor(width float32) float32 {
	size := t.size()
	if t.OneLine || width <= 0 {
		return lineHeight(size)
	}
	return lineHeight(size) * float32(len(t.wrapped(width)))
}

func (t *Text) size() float32 { return t.Scale.in(t.Theme()) }

// least returns the least width: a whole line when it may not wrap and is short,
// the longest of a few characters otherwise.
func (t *Text) least() float32 {
	full := textWidth(t.text, t.size(), t.Bold)
	if t.OneLine {
		return fyne.Min(full, 60)
	}
	return fyne.Min(full, 120)
}

// MinSize returns a narrow width and the height at the width last given.
func (t *Text) MinSize() fyne.Size {
	w := t.least()
	if t.width > 0 {
		return fyne.NewSize(w, t.HeightFor(t.width))
	}
	return fyne.NewSize(w, lineHeight(t.size()))
}

// Natural is the width of the words on one line.
func (t *Text) Natural() float32 { return textWidth(t.text, t.size(), t.Bold) }

// CreateRenderer is part of fyne.Widget.
func (t *Text) CreateRenderer() fyne.WidgetRenderer {
	r := &textRenderer{t: t}
	r.Refresh()
	return r
}

type textRenderer struct {
	t       *Text
	objects []fyne.CanvasObject
}

func (r *textRenderer) Destroy()                     {}
func (r *textRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *textRenderer) MinSize() fyne.Size           { return r.t.MinSize() }

func (r *textRenderer) Layout(s fyne.Size) {
	r.t.width = s.Width
	r.Refresh()
}

func (r *textRenderer) split() []string {
	t := r.t
	switch {
	case t.width <= 0:
		return []string{t.text}
	case t.OneLine:
		return []string{cut(t.text, t.width, t.size(), t.Bold)}
	}
	return t.wrapped(t.width)
}

func (r *textRenderer) Refresh() {
	t := r.t
	lines := r.split()
	for len(t.lines) < len(lines) {
		t.lines = append(t.lines, canvas.NewText("", nil))
	}
	r.objects = r.objects[:0]
	h := lineHeight(t.size())
	for i, s := range lines {
		l := t.lines[i]
		l.Alignment = t.Align
		styleText(l, s, t.size(), t.Bold, t, t.Role)
		place(l, 0, float32(i)*h, t.width, h)
		r.objects = append(r.objects, l)
	}
}
