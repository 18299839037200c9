package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// passKey hands a key nobody wanted to the dialog the object is in, so that Esc
// closes it and Enter confirms it wherever the keyboard is.
func passKey(o fyne.CanvasObject, k *fyne.KeyEvent) {
	c := fyne.CurrentApp().Driver().CanvasForObject(o)
	if c == nil {
		return
	}
	if d := dialogOn(c); d != nil {
		d.key(k)
	} else if f := c.OnTypedKey(); f != nil {
		f(k)
	}
}

// passShortcut hands the window a shortcut that an object has no use for: the
// driver asks nobody else once an object that takes shortcuts has the keyboard.
func passShortcut(o fyne.CanvasObject, s fyne.Shortcut) {
	if c, ok := fyne.CurrentApp().Driver().CanvasForObject(o).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

// modifiers returns the modifier keys held down, none where the driver cannot say.
func modifiers() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// leaver is a field with typed text that is not committed yet.
type leaver interface{ leave() }

// CommitEdits commits what is being typed on a canvas. Clicking a button leaves
// the keyboard in the field, so every command starts with this; our own buttons
// do it by themselves, menu items must.
func CommitEdits(c fyne.Canvas) {
	if c == nil {
		return
	}
	if f, ok := c.Focused().(leaver); ok {
		f.leave()
	}
}

func (e *Entry) leave() {
	e.complete.close()
	e.commit()
}

func (e *editorEntry) leave() { e.ed.end(true, nil, MoveNone) }
