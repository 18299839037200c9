package parts

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// Layer is the sheet over a window's or a dialog's content on which editors,
// completion lists and tips are put. It takes no clicks itself and leaves the
// keyboard where it is, which a Fyne pop-up would not.
type Layer struct{ layerLayout }

type layerLayout struct {
	sheet  *fyne.Container
	canvas fyne.Canvas // last seen; the driver knows a new object only once painted
	tip    *tipper     // the last that waited or showed a tip
}

func (*layerLayout) Layout([]fyne.CanvasObject, fyne.Size) {}
func (*layerLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// WithLayer returns the content with a layer over it. Give the result to the
// window; widgets of this package find the layer by themselves. Dialogs made
// here bring their own.
func WithLayer(content fyne.CanvasObject) *fyne.Container {
	l := &Layer{}
	l.sheet = container.New(l)
	return container.NewStack(content, l.sheet)
}

// layerFor finds the layer over an object: the open dialog's, else the window's,
// or nil when the window was built without one.
func layerFor(o fyne.CanvasObject) *Layer {
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil {
		return nil
	}
	l := findLayer(c.Content(), 4)
	if top := c.Overlays().Top(); top != nil {
		if over := findLayer(top, 6); over != nil {
			l = over
		}
	}
	if l != nil {
		l.canvas = c
	}
	return l
}

func findLayer(o fyne.CanvasObject, depth int) *Layer {
	if depth == 0 || o == nil {
		return nil
	}
	switch x := o.(type) {
	case *fyne.Container:
		if l, ok := x.Layout.(*Layer); ok {
			return l
		}
		for i := len(x.Objects) - 1; i >= 0; i-- {
			if l := findLayer(x.Objects[i], depth-1); l != nil {
				return l
			}
		}
	case interface{ layerInside() fyne.CanvasObject }:
		return findLayer(x.layerInside(), depth-1)
	case *container.ThemeOverride:
		return findLayer(x.Content, depth-1)
	}
	return nil
}

// at returns where an object is on the layer.
func (l *Layer) at(o fyne.CanvasObject) fyne.Position {
	d := fyne.CurrentApp().Driver()
	return d.AbsolutePositionForObject(o).Subtract(d.AbsolutePositionForObject(l.sheet))
}

// add and remove ask for a new frame: a container does not by itself.
func (l *Layer) add(o fyne.CanvasObject) {
	l.sheet.Add(o)
	canvas.Refresh(l.sheet)
}

func (l *Layer) remove(o fyne.CanvasObject) {
	l.sheet.Remove(o)
	canvas.Refresh(l.sheet)
}

func (l *Layer) size() fyne.Size { return l.sheet.Size() }

// restDelay is how long the pointer rests before a tip shows.
const restDelay = 550 * time.Millisecond

// tipper shows one tip after the pointer has rested on something.
type tipper struct {
	cancel func()
	layer  *Layer
	box    fyne.CanvasObject
}

// rest starts the wait for a tip under an object.
func (t *tipper) rest(o fyne.CanvasObject, text string) {
	t.restAt(o, text, func() (fyne.Position, fyne.Size) { return fyne.Position{}, o.Size() })
}

// restAt starts the wait for a tip under a part of an object, asked for late
// because it may scroll meanwhile.
func (t *tipper) restAt(o fyne.CanvasObject, text string, where func() (fyne.Position, fyne.Size)) {
	t.hide()
	if text == "" {
		return
	}
	if l := layerFor(o); l != nil {
		l.tip = t
	}
	t.cancel = timing.After(restDelay, func() {
		t.cancel = nil
		l := layerFor(o)
		if l == nil || t.box != nil {
			return
		}
		pos, size := where()
		l.tip = t
		t.layer, t.box = l, newTip(o, text)
		l.add(t.box)
		placeBeside(l, t.box, l.at(o).Add(pos), size, t.box.MinSize())
	})
}

func (t *tipper) hide() {
	if t.cancel != nil {
		t.cancel()
		t.cancel = nil
	}
	if t.box != nil {
		t.layer.remove(t.box)
		t.box = nil
	}
}

// closeTip takes the tip over an object's page away: what it stands by has
// scrolled from under the pointer, which has not moved and is told nothing.
func closeTip(o fyne.CanvasObject) {
	if l := layerFor(o); l != nil && l.tip != nil {
		l.tip.hide()
	}
}

// placeBeside puts a box under something, or over it where there is no room
// below, and keeps it on the layer.
func placeBeside(l *Layer, box fyne.CanvasObject, at fyne.Position, anchor, size fyne.Size) {
	room := l.size()
	x := fyne.Max(4, fyne.Min(at.X, room.Width-size.Width-4))
	y := at.Y + anchor.Height + 4
	if y+size.Height > room.Height-4 && at.Y-4-size.Height > 0 {
		y = at.Y - 4 - size.Height
	}
	place(box, x, y, size.Width, size.Height)
}

const tipWidth = 320

// newTip draws a tip from plain canvas objects, so that the pointer goes through.
func newTip(o fyne.CanvasObject, text string) fyne.CanvasObject {
	th := themeOf(o)
	size := th.Size(theme.SizeNameCaptionText)
	h := lineHeight(size)
	lines := wrap(text, tipWidth, size, false)
	ground := canvas.NewRectangle(roleIn(th, RoleInk))
	ground.CornerRadius = 6
	box := container.NewWithoutLayout(ground)
	var w float32
	for i, s := range lines {
		x := canvas.NewText(s, roleIn(th, RoleCard))
		x.TextSize = size
		place(x, 10, 6+float32(i)*h, tipWidth, h)
		w = fyne.Max(w, textWidth(s, size, false))
		box.Add(x)
	}
	full := fyne.NewSize(w+20, h*float32(len(lines))+12)
	ground.Resize(full)
	ground.SetMinSize(full)
	return box
}

// raised draws the ground of a list or an editor that floats over the page: a
// soft shadow, the card colour and a hairline.
func raised(o fyne.CanvasObject) *fyne.Container {
	shade := canvas.NewRectangle(Colour(o, RoleShade))
	shade.CornerRadius = 10
	face := canvas.NewRectangle(Colour(o, RoleCard))
	face.CornerRadius, face.StrokeWidth, face.StrokeColor = 8, 1, Colour(o, RoleHairline)
	return container.New(&raisedLayout{}, shade, face)
}

type raisedLayout struct{}

func (*raisedLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }
func (*raisedLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	place(o[0], -2, 1, s.Width+4, s.Height+4)
	place(o[1], 0, 0, s.Width, s.Height)
}
