package parts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Move says where the keyboard goes after an edit in place.
type Move int

// Enter moves down, Tab right, Shift+Tab left; leaving by the mouse moves nowhere.
const (
	MoveNone Move = iota
	MoveDown
	MoveRight
	MoveLeft
)

// Edit describes an edit in place.
type Edit struct {
	Text      string                    // what the field starts with
	SelectAll bool                      // typing replaces it
	Multi     bool                      // several lines: Enter still ends it, Shift+Enter breaks the line
	Source    func(string) []Suggestion // completion, nil for none
	Done      func(text string, picked *Suggestion, move Move)
	Cancel    func()
}

// Editor is an edit in place: a field floating over what it edits.
type Editor struct {
	edit   Edit
	entry  *editorEntry
	holder *container.ThemeOverride
	layer  *Layer
	ended  bool
}

// OpenEditor opens an edit over a part of an object. It returns nil where the
// window has no layer. Leaving the field keeps what was typed; Esc drops it.
func OpenEditor(over fyne.CanvasObject, pos fyne.Position, size fyne.Size, edit Edit) *Editor {
	l := layerFor(over)
	if l == nil {
		return nil
	}
	ed := &Editor{edit: edit, layer: l}
	e := &editorEntry{ed: ed}
	ed.entry = e
	e.MultiLine = edit.Multi
	if edit.Multi {
		e.Wrapping = fyne.TextWrapWord
	}
	e.ExtendBaseWidget(e)
	e.complete = completer{owner: e, source: edit.Source, pick: func(s Suggestion) {
		e.Text = s.Text
		ed.end(true, &s, MoveDown)
	}}
	e.SetText(edit.Text)
	e.CursorColumn = len([]rune(edit.Text))
	inner := fyne.Max(2, fyne.Min(8, (size.Height-lineHeight(SizeBody.in(themeOf(over))))/2))
	ed.holder = container.NewThemeOverride(e, compact{themeOf(over), inner})
	l.add(ed.holder)
	at := l.at(over).Add(pos)
	place(ed.holder, at.X, at.Y, size.Width, size.Height)
	e.complete.layer, e.complete.on = l, ed.holder
	l.canvas.Focus(e)
	e.OnChanged = e.complete.update
	if edit.SelectAll && edit.Text != "" {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	if !edit.SelectAll && edit.Text != "" {
		e.complete.update(edit.Text)
	}
	return ed
}

// Close ends the edit, keeping what was typed or dropping it.
func (ed *Editor) Close(keep bool) { ed.end(keep, nil, MoveNone) }

// Open says whether the edit is still going on.
func (ed *Editor) Open() bool { return ed != nil && !ed.ended }

// move puts the field over a part of an object again.
func (ed *Editor) move(over fyne.CanvasObject, f frame) {
	at := ed.layer.at(over)
	place(ed.holder, at.X+f.x, at.Y+f.y, f.w, f.h)
}

func (ed *Editor) end(keep bool, picked *Suggestion, move Move) {
	if ed.ended {
		return
	}
	ed.ended = true // first: taking the field away makes it lose the keyboard
	ed.entry.complete.close()
	ed.layer.remove(ed.holder)
	edit := ed.edit
	ed.letGo()
	if keep && edit.Done != nil {
		edit.Done(strings.TrimSpace(ed.entry.Text), picked, move)
	}
	if !keep && edit.Cancel != nil {
		edit.Cancel()
	}
}

// letGo parts the field from what it edited. The toolkit (Fyne 2.7.3) never gives
// up the theme laid over the field's lines and words, and with it whatever can be
// reached from there: after a change of colours, a whole page that is out of use.
func (ed *Editor) letGo() {
	ed.edit = Edit{}
	ed.entry.complete = completer{}
	ed.entry.OnChanged = nil
	ed.holder.Content = canvas.NewRectangle(nil)
	ed.holder.Refresh()
}

type editorEntry struct {
	widget.Entry
	ed       *Editor
	complete completer
}

// AcceptsTab keeps Tab for moving to the next cell.
func (e *editorEntry) AcceptsTab() bool { return true }

// MinSize lets the field be as small as a cell.
func (e *editorEntry) MinSize() fyne.Size { return fyne.NewSize(10, 10) }

// TypedRune types a letter.
func (e *editorEntry) TypedRune(r rune) {
	if !typeAtEnd(&e.Entry, r) {
		e.Entry.TypedRune(r)
	}
}

// TypedShortcut leaves to the window what is for it.
func (e *editorEntry) TypedShortcut(s fyne.Shortcut) { typeShortcut(&e.Entry, e, s) }

func (e *editorEntry) FocusLost() {
	e.Entry.FocusLost()
	e.ed.end(true, nil, MoveNone)
}

func (e *editorEntry) TypedKey(k *fyne.KeyEvent) {
	if e.complete.key(k) {
		return
	}
	shift := modifiers()&fyne.KeyModifierShift != 0
	switch k.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if e.MultiLine && shift {
			e.Entry.TypedKey(k)
			return
		}
		e.ed.end(true, nil, MoveDown)
	case fyne.KeyTab:
		if shift {
			e.ed.end(true, nil, MoveLeft)
			return
		}
		e.ed.end(true, nil, MoveRight)
	case fyne.KeyEscape:
		e.ed.end(false, nil, MoveNone)
	default:
		e.Entry.TypedKey(k)
	}
}
