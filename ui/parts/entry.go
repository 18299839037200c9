package parts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Entry is a field for a line of text, a number or a longer note. What was typed
// is committed by Enter or by leaving the field; Esc brings back what was there.
type Entry struct {
	widget.Entry
	OnCommit func(string)     // text that differs from the last committed one
	OnCut    func(int)        // characters of a paste that did not fit a text area
	OnPick   func(Suggestion) // a row taken from the completion list, after OnCommit
	Width    float32          // least width, 0 for Fyne's own

	committed string
	accept    func(rune) bool
	complete  completer
}

// NewEntry returns a field for a line of text.
func NewEntry(text, hint string, commit func(string)) *Entry {
	e := &Entry{OnCommit: commit}
	e.setUp(e, text, hint)
	return e
}

// NewTextArea returns a field for several lines; Enter makes a new line and only
// leaving the field commits.
func NewTextArea(text, hint string, rows int, commit func(string)) *Entry {
	e := &Entry{OnCommit: commit}
	e.MultiLine, e.Wrapping = true, fyne.TextWrapWord
	e.setUp(e, text, hint)
	e.SetMinRowsVisible(rows)
	return e
}

// NewNumberEntry returns a field that takes digits, a sign, "," and ".", "/" and
// a space (so "1 1/2"); reading the number is up to the caller.
func NewNumberEntry(text, hint string, commit func(string)) *Entry {
	e := &Entry{OnCommit: commit, accept: numberRune, Width: 84}
	e.setUp(e, text, hint)
	return e
}

// NewSuggestEntry returns a field with a completion list while typing. The
// source gives the rows for what is typed so far.
func NewSuggestEntry(text, hint string, source func(string) []Suggestion, pick func(Suggestion)) *Entry {
	e := &Entry{OnPick: pick}
	e.setUp(e, text, hint)
	e.complete.source = source
	return e
}

func numberRune(r rune) bool {
	return r >= '0' && r <= '9' || strings.ContainsRune(",.-–+/ ½¼¾⅓⅔%", r)
}

// setUp fills a field in; self is the widget shown, which may wrap the Entry.
func (e *Entry) setUp(self fyne.Widget, text, hint string) {
	e.ExtendBaseWidget(self)
	e.Text, e.committed = text, text
	e.CursorColumn = len([]rune(text))
	e.PlaceHolder = hint
	e.complete.owner = e
	e.complete.pick = e.taken
	e.OnChanged = func(s string) {
		if hasFocus(e) {
			e.complete.update(s)
		}
	}
}

// Set replaces the text from outside without a commit. A field being typed in
// keeps what the person typed.
func (e *Entry) Set(text string) {
	if hasFocus(e) && e.Text != e.committed {
		return
	}
	e.committed = text
	if e.Text != text {
		e.SetText(text)
	}
}

// MinSize is at least Width wide.
func (e *Entry) MinSize() fyne.Size {
	m := e.Entry.MinSize()
	m.Width = fyne.Max(m.Width, e.Width*factorOf(e.Theme()))
	return m
}

// taken puts a picked row into the field.
func (e *Entry) taken(s Suggestion) {
	old := e.OnChanged
	e.OnChanged = nil // picking is not typing: do not open the list again
	e.SetText(s.Text)
	e.CursorColumn = len([]rune(s.Text))
	e.OnChanged = old
	e.Refresh()
	e.commit()
	if e.OnPick != nil {
		e.OnPick(s)
	}
	// The driver takes the keyboard away after a press on the list.
	timing.Do(func() { focusOn(e) })
}

func (e *Entry) commit() {
	if e.Text == e.committed {
		return
	}
	e.committed = e.Text
	if e.OnCommit != nil {
		e.OnCommit(e.Text)
	}
}

// FocusGained selects a number whole, so that typing replaces it.
func (e *Entry) FocusGained() {
	e.Entry.FocusGained()
	if e.accept != nil && e.Text != "" {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// FocusLost commits.
func (e *Entry) FocusLost() {
	e.Entry.FocusLost()
	e.complete.close()
	e.commit()
}

// AcceptsTab leaves Tab to the window, in a text area too: the keyboard must be
// able to leave every field.
func (e *Entry) AcceptsTab() bool { return false }

// TypedRune filters what a number may hold.
func (e *Entry) TypedRune(r rune) {
	if (e.accept == nil || e.accept(r)) && !typeAtEnd(&e.Entry, r) {
		e.Entry.TypedRune(r)
	}
}

// TypedKey commits on Enter, brings the old text back on Esc, drives the list.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	if e.complete.key(k) {
		return
	}
	switch k.Name {
	case fyne.KeyEscape:
		if e.Text != e.committed {
			e.SetText(e.committed)
			e.complete.close()
			return
		}
		passKey(e, k)
	case fyne.KeyReturn, fyne.KeyEnter:
		if e.MultiLine {
			e.Entry.TypedKey(k)
			return
		}
		e.complete.close()
		e.commit()
		if e.OnSubmitted != nil {
			e.OnSubmitted(e.Text)
			return
		}
		passKey(e, k)
	default:
		e.Entry.TypedKey(k)
	}
}
