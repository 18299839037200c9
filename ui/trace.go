package ui

import (
	"fmt"
	"os"
	"sync"

	"fyne.io/fyne/v2"
)

// tracer writes what the window does, one line an event, to the file that
// PAREWELL_TRACE names: the test that drives the real window reads it. Without
// the variable it does nothing.
type tracer struct {
	mu   sync.Mutex
	file *os.File
	last string
}

func newTracer() *tracer {
	t := &tracer{}
	if path := os.Getenv("PAREWELL_TRACE"); path != "" {
		t.file, _ = os.OpenFile(path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	}
	return t
}

func (t *tracer) on() bool { return t.file != nil }

func (t *tracer) say(format string, args ...any) {
	if t.file == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	fmt.Fprintf(t.file, format+"\n", args...)
}

func (t *tracer) page(w *Window) {
	t.say("page %s %s %s pending=%d undo=%q", w.at.page, w.at.recipe, w.at.tab, w.view.Pending, w.view.Undo)
	t.places(w)
}

func (t *tracer) problem(err error) { t.say("problem %v", err) }

// places writes where everything that has a name stands, in window units: the
// test clicks there instead of guessing.
func (t *tracer) places(w *Window) {
	if t.file == nil {
		return
	}
	for name, o := range w.pins {
		if o == nil || !o.Visible() {
			continue
		}
		p := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
		s := o.Size()
		t.say("at %s %.0f %.0f %.0f %.0f", name, p.X, p.Y, s.Width, s.Height)
	}
}

// pins are the named objects of the page in sight.
type pins map[string]fyne.CanvasObject

// pin names an object for the test that drives the real window, and gives it
// back.
func (w *Window) pin(name string, o fyne.CanvasObject) fyne.CanvasObject {
	if w.pins == nil {
		w.pins = pins{}
	}
	w.pins[name] = o
	return o
}
