package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// DialogOptions says what a dialog holds and does.
type DialogOptions struct {
	Title    string
	Content  fyne.CanvasObject
	First    fyne.Focusable // gets the keyboard; nil: the confirming button
	Confirm  string         // words of the confirming button; empty: none
	Cancel   string         // words of the closing button; empty: none
	Danger   bool           // confirming takes something away
	Width    float32        // 0: 480
	Height   float32        // 0: as tall as the content
	OnOK     func() bool    // false keeps the dialog open; nil just closes
	OnClosed func()         // after it closed without confirming
}

// Dialog is a sheet in the middle of the window. Esc closes it, Enter confirms,
// the first field has the keyboard.
type Dialog struct {
	canvas  fyne.Canvas
	options DialogOptions
	overlay *overlay
	oldKey  func(*fyne.KeyEvent)
	ok      *Button
}

var openDialogs []*Dialog

// dialogOn returns the topmost open dialog of a canvas, or nil.
func dialogOn(c fyne.Canvas) *Dialog {
	for i := len(openDialogs) - 1; i >= 0; i-- {
		if openDialogs[i].canvas == c {
			return openDialogs[i]
		}
	}
	return nil
}

// ShowDialog opens a dialog over a window.
func ShowDialog(w fyne.Window, o DialogOptions) *Dialog {
	d := &Dialog{canvas: w.Canvas(), options: o}
	d.overlay = &overlay{d: d, sheet: WithLayer(d.body())}
	d.overlay.ExtendBaseWidget(d.overlay)
	d.oldKey = d.canvas.OnTypedKey()
	d.canvas.SetOnTypedKey(d.key)
	openDialogs = append(openDialogs, d)
	d.canvas.Overlays().Add(d.overlay)
	d.overlay.Resize(d.canvas.Size())
	d.focusFirst()
	// Opened by a press, the driver takes the keyboard away once the press is
	// handled: ask again after it.
	timing.Do(func() {
		if dialogOn(d.canvas) == d && d.canvas.Focused() == nil {
			d.focusFirst()
		}
	})
	return d
}

func (d *Dialog) focusFirst() {
	switch {
	case d.options.First != nil:
		d.canvas.Focus(d.options.First)
	case d.ok != nil:
		d.canvas.Focus(d.ok)
	}
}

// body builds title, content and the row of buttons.
func (d *Dialog) body() fyne.CanvasObject {
	o := d.options
	bottom := Line(GapSmall, Spring())
	if o.Cancel != "" {
		bottom.Add(NewButton(Quiet, "", o.Cancel, d.Close))
	}
	if o.Confirm != "" {
		kind := Primary
		if o.Danger {
			kind = Danger
		}
		d.ok = NewButton(kind, "", o.Confirm, d.confirm)
		bottom.Add(d.ok)
	}
	title := newText(o.Title, SizeSubheading, RoleInk, true)
	parts := []fyne.CanvasObject{title, o.Content}
	if o.Cancel != "" || o.Confirm != "" {
		parts = append(parts, Pad(4, 0, 0, 0, bottom))
	}
	return PadAll(20, Fill(GapLarge, 1, parts...))
}

// Close closes the dialog without confirming.
func (d *Dialog) Close() {
	if d.hide() && d.options.OnClosed != nil {
		d.options.OnClosed()
	}
}

// Fit sizes the dialog again after its content grew or shrank.
func (d *Dialog) Fit() {
	if d.overlay != nil {
		d.overlay.Refresh()
	}
}

// Confirm does what the confirming button does.
func (d *Dialog) Confirm() { d.confirm() }

// SetConfirmEnabled switches the confirming button.
func (d *Dialog) SetConfirmEnabled(on bool) {
	if d.ok != nil {
		d.ok.SetEnabled(on)
	}
}

func (d *Dialog) confirm() {
	d.canvas.Unfocus() // a field still being typed in commits first
	if d.options.OnOK != nil && !d.options.OnOK() {
		return
	}
	d.hide()
}

func (d *Dialog) hide() bool {
	for i, x := range openDialogs {
		if x == d {
			openDialogs = append(openDialogs[:i:i], openDialogs[i+1:]...)
			above := dialogsOn(d.canvas, openDialogs[i:])
			if len(above) == 0 {
				d.canvas.SetOnTypedKey(d.oldKey)
			} else {
				above[0].oldKey = d.oldKey // opened by this one, it stays
			}
			d.canvas.Overlays().Remove(d.overlay) // and all above it, by the toolkit
			for _, x := range above {
				d.canvas.Overlays().Add(x.overlay)
			}
			return true
		}
	}
	return false
}

// dialogsOn are those of a canvas.
func dialogsOn(c fyne.Canvas, all []*Dialog) []*Dialog {
	var out []*Dialog
	for _, x := range all {
		if x.canvas == c {
			out = append(out, x)
		}
	}
	return out
}

func (d *Dialog) key(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		d.Close()
	case fyne.KeyReturn, fyne.KeyEnter:
		if d.ok != nil && !d.ok.Disabled() {
			d.confirm()
		}
	}
}

// overlay covers the window with a veil and centres the sheet.
type overlay struct {
	widget.BaseWidget
	d     *Dialog
	sheet *fyne.Container
}

// MouseDown keeps clicks beside the sheet from reaching what lies below.
func (o *overlay) MouseDown(*desktop.MouseEvent) {}

// MouseUp is part of desktop.Mouseable.
func (o *overlay) MouseUp(*desktop.MouseEvent) {}

func (o *overlay) layerInside() fyne.CanvasObject { return o.sheet }

func (o *overlay) CreateRenderer() fyne.WidgetRenderer {
	veil := canvas.NewRectangle(color.Transparent)
	ground := raised(o)
	d := &drawn{objects: []fyne.CanvasObject{veil, ground, o.sheet}}
	d.min = func() fyne.Size { return o.sheet.MinSize() }
	d.layout = func(s fyne.Size) {
		veil.Resize(s)
		size := o.sheetSize(s)
		x, y := (s.Width-size.Width)/2, (s.Height-size.Height)*0.42
		place(ground, x, y, size.Width, size.Height)
		place(o.sheet, x, y, size.Width, size.Height)
	}
	d.refresh = func() {
		veil.FillColor = color.NRGBA{R: 20, G: 18, B: 12, A: 0x73}
		veil.Refresh()
		face, _ := ground.Objects[1].(*canvas.Rectangle)
		face.FillColor, face.StrokeColor = Colour(o, RoleCard), Colour(o, RoleHairline)
		d.layout(o.Size())
	}
	return d.start()
}

// sheetSize fits the content and never leaves the window.
func (o *overlay) sheetSize(window fyne.Size) fyne.Size {
	f := factorOf(o.Theme())
	w := o.d.options.Width
	if w == 0 {
		w = 480
	}
	least := o.sheet.MinSize()
	w = fyne.Min(fyne.Max(w*f, least.Width), window.Width-32)
	h := heightFor(o.sheet.Objects[0], w)
	if o.d.options.Height > 0 {
		h = fyne.Max(o.d.options.Height*f, least.Height)
	}
	return fyne.NewSize(w, fyne.Min(h, window.Height-32))
}

// Confirm asks a question with two buttons; danger colours the confirming one.
func Confirm(w fyne.Window, title, message, ok, cancel string, danger bool, then func()) *Dialog {
	return ShowDialog(w, DialogOptions{
		Title: title, Content: NewText(message), Confirm: ok, Cancel: cancel, Danger: danger, Width: 440,
		OnOK: func() bool { timing.Do(then); return true },
	})
}

// ShowProblem tells what went wrong, where, and what to do about it.
func ShowProblem(w fyne.Window, what, where, hint, ok string) *Dialog {
	body := Rows(GapSmall)
	if where != "" {
		body.Add(newText(where, SizeBody, RoleMuted, false))
	}
	if hint != "" {
		body.Add(NewText(hint))
	}
	icon := NewIcon("error", RoleError, 28)
	row := Stretch(GapLarge, 1, container.NewVBox(icon), body)
	return ShowDialog(w, DialogOptions{Title: what, Content: row, Confirm: ok, Width: 480})
}
