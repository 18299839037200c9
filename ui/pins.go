package ui

import "fyne.io/fyne/v2"

// pins are the named objects of the pages built so far: tests press and type
// by these names instead of guessing where things stand.
type pins map[string]fyne.CanvasObject

// pin names an object and gives it back.
func (w *Window) pin(name string, o fyne.CanvasObject) fyne.CanvasObject {
	if w.pins == nil {
		w.pins = pins{}
	}
	w.pins[name] = o
	return o
}
