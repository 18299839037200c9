package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Check is a checkbox with words beside it. Space switches it.
type Check struct {
	widget.BaseWidget
	OnChange func(on bool)
	text     string
	on       bool
	disabled bool
	focused  bool
}

// NewCheck returns a checkbox.
func NewCheck(text string, on bool, change func(on bool)) *Check {
	c := &Check{text: text, on: on, OnChange: change}
	c.ExtendBaseWidget(c)
	return c
}

// On says whether it is ticked.
func (c *Check) On() bool { return c.on }

// Set ticks or clears it without calling OnChange.
func (c *Check) Set(on bool) {
	if c.on != on {
		c.on = on
		c.Refresh()
	}
}

// SetEnabled switches whether it can be changed.
func (c *Check) SetEnabled(on bool) { c.disabled = !on; c.Refresh() }

// Disabled is part of fyne.Disableable.
func (c *Check) Disabled() bool { return c.disabled }

// Enable is part of fyne.Disableable.
func (c *Check) Enable() { c.SetEnabled(true) }

// Disable is part of fyne.Disableable.
func (c *Check) Disable() { c.SetEnabled(false) }

func (c *Check) flip() {
	if c.disabled {
		return
	}
	c.on = !c.on
	c.Refresh()
	if c.OnChange != nil {
		c.OnChange(c.on)
	}
}

// MouseDown switches at once.
func (c *Check) MouseDown(*desktop.MouseEvent) {
	if !c.disabled {
		focusOn(c)
		c.flip()
	}
}

// MouseUp is part of desktop.Mouseable.
func (c *Check) MouseUp(*desktop.MouseEvent) {}

// FocusGained is part of fyne.Focusable.
func (c *Check) FocusGained() { c.focused = true; c.Refresh() }

// FocusLost is part of fyne.Focusable.
func (c *Check) FocusLost() { c.focused = false; c.Refresh() }

// TypedRune switches on a space.
func (c *Check) TypedRune(r rune) {
	if r == ' ' {
		c.flip()
	}
}

// TypedKey is part of fyne.Focusable.
func (c *Check) TypedKey(k *fyne.KeyEvent) {
	if k.Name != fyne.KeySpace {
		passKey(c, k)
	}
}

// HeightFor returns the height with the words wrapped at a width.
func (c *Check) HeightFor(width float32) float32 {
	th := c.Theme()
	f, size := factorOf(th), SizeBody.in(th)
	lines := wrap(c.text, width-30*f, size, false)
	return fyne.Max(28*f, lineHeight(size)*float32(len(lines))+8*f)
}

// CreateRenderer is part of fyne.Widget.
func (c *Check) CreateRenderer() fyne.WidgetRenderer {
	r := &checkRenderer{
		c: c, box: canvas.NewRectangle(nil), ring: canvas.NewRectangle(color.Transparent),
		tick: newIconImage(), words: newText(c.text, SizeBody, RoleInk, false),
	}
	r.box.CornerRadius, r.ring.CornerRadius, r.ring.StrokeWidth = 4, 6, 2
	r.Refresh()
	return r
}

type checkRenderer struct {
	c         *Check
	box, ring *canvas.Rectangle
	tick      *canvas.Image
	words     *Text
}

func (r *checkRenderer) Destroy() {}
func (r *checkRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.tick, r.words, r.ring}
}

func (r *checkRenderer) MinSize() fyne.Size {
	th := r.c.Theme()
	f := factorOf(th)
	w := fyne.Min(textWidth(r.c.text, SizeBody.in(th), false), 260*f) + 30*f
	return fyne.NewSize(w, r.c.HeightFor(fyne.Max(w, r.c.Size().Width)))
}

func (r *checkRenderer) Layout(s fyne.Size) {
	f := factorOf(r.c.Theme())
	side, h := 18*f, lineHeight(SizeBody.in(r.c.Theme()))
	top := 4*f + (h-side)/2
	place(r.box, 3, top, side, side)
	place(r.tick, 4, top+1, side-2, side-2)
	place(r.ring, 0, top-3, side+6, side+6)
	place(r.words, 30*f, 4*f, s.Width-30*f, s.Height-4*f)
}

func (r *checkRenderer) Refresh() {
	c := r.c
	fill, line, ink, text := RoleCard, RoleOutline, RoleOnAccent, RoleInk
	if c.on {
		fill, line = RoleAccent, RoleAccent
	}
	if c.disabled {
		fill, line, ink, text = RoleHeader, RoleHairline, RoleMuted, RoleMuted
	}
	r.box.FillColor, r.box.StrokeColor, r.box.StrokeWidth = Colour(c, fill), Colour(c, line), 1.5
	setIcon(r.tick, "check", Colour(c, ink))
	show(r.tick, c.on)
	r.ring.StrokeColor = color.Transparent
	if c.focused {
		r.ring.StrokeColor = Colour(c, RoleAccent)
	}
	r.words.Role, r.words.text = text, c.text
	r.words.Refresh()
	r.box.Refresh()
	r.ring.Refresh()
}
