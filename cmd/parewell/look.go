//go:build !nowindow && look

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
)

// lookObject is one thing on the screen: a text, an entry or a widget, where
// it stands in the window and how large it is, in pixels.
type lookObject struct {
	Kind string  `json:"kind"` // "text", "entry" or the widget's Go type
	Text string  `json:"text,omitempty"`
	Hint string  `json:"hint,omitempty"` // an entry's placeholder
	X    float32 `json:"x"`
	Y    float32 `json:"y"`
	W    float32 `json:"w"`
	H    float32 `json:"h"`
}

// lookState is what the window shows at one moment.
type lookState struct {
	Title   string       `json:"title"`
	Overlay bool         `json:"overlay"` // a dialog is open; Objects are its own
	Focus   *lookObject  `json:"focus,omitempty"`
	Objects []lookObject `json:"objects"`
}

// startLook keeps the file PAREWELL_LOOK saying what the window shows, so
// that the real-window test can aim its mouse by what a person would read.
func startLook() {
	name := os.Getenv("PAREWELL_LOOK")
	if name == "" {
		return
	}
	go func() {
		last := ""
		for range time.Tick(60 * time.Millisecond) {
			now := ""
			fyne.DoAndWait(func() { now = lookAtWindow() })
			if now != last && replaceFile(name, now) == nil {
				last = now
			}
		}
	}()
}

func lookAtWindow() string {
	windows := fyne.CurrentApp().Driver().AllWindows()
	if len(windows) == 0 {
		return "{}"
	}
	w := windows[0]
	s := lookState{Title: w.Title()}
	root := w.Content()
	if top := w.Canvas().Overlays().Top(); top != nil {
		s.Overlay, root = true, top
	}
	scale := w.Canvas().Scale()
	focused, _ := w.Canvas().Focused().(fyne.CanvasObject)
	full := clip{0, 0, w.Canvas().Size().Width, w.Canvas().Size().Height}
	walk(root, root.Position(), full, func(o fyne.CanvasObject, at fyne.Position, seen clip) {
		t, ok := describe(o, at, seen, scale)
		if ok {
			s.Objects = append(s.Objects, t)
		}
		if o == focused {
			s.Focus = &t
		}
	})
	b, err := json.Marshal(s)
	if err != nil {
		return "{}"
	}
	return string(b)
}

// clip is the part of the window in which something can be seen.
type clip struct{ left, top, right, bottom float32 }

func (c clip) cut(at fyne.Position, size fyne.Size) clip {
	return clip{
		max(c.left, at.X), max(c.top, at.Y),
		min(c.right, at.X+size.Width), min(c.bottom, at.Y+size.Height),
	}
}

func (c clip) empty() bool { return c.right <= c.left || c.bottom <= c.top }

// walk visits what can be seen, parents first. What a scroller hides is left out.
func walk(o fyne.CanvasObject, at fyne.Position, seen clip, visit func(fyne.CanvasObject, fyne.Position, clip)) {
	if o == nil || !o.Visible() {
		return
	}
	own := seen.cut(at, o.Size())
	if own.empty() {
		return
	}
	visit(o, at, own)
	switch x := o.(type) {
	case *fyne.Container:
		for _, child := range x.Objects {
			walk(child, at.Add(child.Position()), seen, visit)
		}
	case fyne.Widget:
		if _, scrolls := o.(fyne.Scrollable); scrolls {
			seen = own
		}
		for _, child := range test.WidgetRenderer(x).Objects() {
			walk(child, at.Add(child.Position()), seen, visit)
		}
	}
}

// describe says what an object is to somebody who looks at the window; false
// for boxes and lines.
func describe(o fyne.CanvasObject, at fyne.Position, seen clip, scale float32) (lookObject, bool) {
	t := lookObject{X: seen.left * scale, Y: seen.top * scale, W: (seen.right - seen.left) * scale, H: (seen.bottom - seen.top) * scale}
	switch x := o.(type) {
	case *canvas.Text:
		t.Kind, t.Text = "text", x.Text
		return t, x.Text != ""
	case interface{ SelectedText() string }: // an entry, or a widget built on one
		t.Kind, t.Text, t.Hint = "entry", field(o, "Text"), field(o, "PlaceHolder")
		return t, true
	}
	t.Kind = fmt.Sprintf("%T", o)
	return t, false
}

// field reads a text field of a widget by its name, also through embedding.
func field(o fyne.CanvasObject, name string) string {
	v := reflect.Indirect(reflect.ValueOf(o))
	if v.Kind() != reflect.Struct {
		return ""
	}
	if f := v.FieldByName(name); f.IsValid() && f.Kind() == reflect.String {
		return f.String()
	}
	return ""
}

// replaceFile writes text whole: a reader never sees half.
func replaceFile(name, text string) error {
	temp := filepath.Join(filepath.Dir(name), "."+filepath.Base(name)+".part")
	if err := os.WriteFile(temp, []byte(text), 0o600); err != nil {
		return err
	}
	return os.Rename(temp, name)
}
