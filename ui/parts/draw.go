package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// drawn is the renderer of most widgets here: a fixed list of objects and three
// functions. Refresh reads colours and sizes again, so a theme switch shows.
type drawn struct {
	objects []fyne.CanvasObject
	layout  func(fyne.Size)
	min     func() fyne.Size
	refresh func()
}

func (d *drawn) Destroy()                     {}
func (d *drawn) Objects() []fyne.CanvasObject { return d.objects }
func (d *drawn) Layout(s fyne.Size)           { d.layout(s) }
func (d *drawn) MinSize() fyne.Size           { return d.min() }
func (d *drawn) Refresh()                     { d.refresh() }

// start reads the colours once before the renderer is first shown.
func (d *drawn) start() fyne.WidgetRenderer {
	d.refresh()
	return d
}

// place moves and resizes an object.
func place(o fyne.CanvasObject, x, y, w, h float32) {
	o.Move(fyne.NewPos(x, y))
	o.Resize(fyne.NewSize(w, h))
}

// show makes an object visible or not without work when nothing changes.
func show(o fyne.CanvasObject, visible bool) {
	switch {
	case visible && !o.Visible():
		o.Show()
	case !visible && o.Visible():
		o.Hide()
	}
}

// styleText sets what a line of text looks like and repaints it if that changed.
func styleText(t *canvas.Text, s string, size float32, bold bool, w fyne.CanvasObject, role fyne.ThemeColorName) {
	c := Colour(w, role)
	if t.Text == s && t.TextSize == size && t.TextStyle.Bold == bold && t.Color == c {
		return
	}
	t.Text, t.TextSize, t.TextStyle.Bold, t.Color = s, size, bold, c
	t.Refresh()
}

// controlHeight is the height of fields, choices and buttons, so that a row of
// them lines up: that of Fyne's own Entry.
func controlHeight(th fyne.Theme) float32 {
	return lineHeight(SizeBody.in(th)) + 2*th.Size(theme.SizeNameInnerPadding)
}

// focusOn gives an object the keyboard, if it is in a window.
func focusOn(o fyne.Focusable) {
	obj, ok := o.(fyne.CanvasObject)
	if !ok {
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(obj); c != nil {
		Focus(c, o)
	}
}

// Focus gives o the keyboard if it stands in the canvas now. The driver takes an
// object for its window's a minute after its page has gone, and says on standard
// error that it cannot focus it.
func Focus(c fyne.Canvas, o fyne.Focusable) {
	if placed(o) {
		c.Focus(o)
	}
}

// OfferFocus gives o the keyboard where nothing has it and no dialog is open:
// now, and once more after the press that led here, which takes it away, if o is
// still in sight then.
func OfferFocus(c fyne.Canvas, o fyne.Focusable, inSight func() bool) {
	offer := func() {
		if inSight() && placed(o) && c.Focused() == nil && c.Overlays().Top() == nil {
			c.Focus(o)
		}
	}
	offer()
	timing.Do(offer)
}

// placed tells whether an object stands anywhere in its window. The toolkit gives
// the window's corner as the place of what is in none; what truly stands there is
// told by its place changing when it is moved.
func placed(o fyne.Focusable) bool {
	obj, ok := o.(fyne.CanvasObject)
	if !ok {
		return false
	}
	stands := fyne.CurrentApp().Driver().AbsolutePositionForObject
	at := stands(obj)
	if at.X > 0 || at.Y > 0 {
		return true
	}
	was := obj.Position()
	obj.Move(was.AddXY(1, 0))
	defer obj.Move(was)
	return stands(obj) != at
}

func hasFocus(o fyne.Focusable) bool {
	obj, ok := o.(fyne.CanvasObject)
	if !ok {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(obj)
	return c != nil && c.Focused() == o
}
