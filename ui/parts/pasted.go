package parts

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// What a text area takes from the clipboard at once. The toolkit measures a
// wrapped line again for each row it makes, so its work grows with the square of
// a line's length: 200 kB in one line would hold the window up for minutes.
const (
	longestLine  = 1500 // a paragraph of a method is shorter
	brokenLine   = 300  // rows of what is longer
	longestPaste = 40_000
)

// TypedShortcut takes a paste into a text area in lines that can be shown, and
// no more than anybody pastes of one recipe; OnCut hears how much stayed out.
// Keys for the window go on to it.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	if p, ok := s.(*fyne.ShortcutPaste); ok && e.MultiLine && p.Clipboard != nil {
		text, cut := inLines(p.Clipboard.Content())
		e.Entry.TypedShortcut(&fyne.ShortcutPaste{Clipboard: pasteText(text)})
		if cut > 0 && e.OnCut != nil {
			e.OnCut(cut)
		}
		return
	}
	typeShortcut(&e.Entry, e, s)
}

// typeShortcut gives a shortcut to a field, and those made of other keys than
// copy, cut and paste to the window as well: it has none that a field knows.
func typeShortcut(field *widget.Entry, shown fyne.CanvasObject, s fyne.Shortcut) {
	field.TypedShortcut(s)
	if _, ok := s.(*desktop.CustomShortcut); ok {
		passShortcut(shown, s)
	}
}

// pasteText is a clipboard that holds one text and keeps nothing.
type pasteText string

// Content is the text.
func (c pasteText) Content() string { return string(c) }

// SetContent keeps nothing.
func (pasteText) SetContent(string) {}

// inLines breaks lines that are too long at a blank, or where there is none in
// the middle, and cuts off what is too much; cut counts the characters left out.
func inLines(text string) (fit string, cut int) {
	if len(text) <= longestLine {
		return text, 0
	}
	all := []rune(text)
	if len(all) > longestPaste {
		cut = len(all) - longestPaste
		all = all[:longestPaste]
	}
	var b strings.Builder
	for len(all) > 0 {
		end, next := lineEnd(all)
		b.WriteString(string(all[:end]))
		if next < len(all) || end < next {
			b.WriteByte('\n')
		}
		all = all[next:]
	}
	return b.String(), cut
}

// lineEnd finds where the first line of text ends and the next begins.
func lineEnd(text []rune) (end, next int) {
	blank := 0 // the last one that a broken line may end at
	for i, r := range text {
		switch {
		case r == '\n':
			return i, i + 1
		case i >= longestLine && blank > 0:
			return blank, blank + 1
		case i >= longestLine:
			return brokenLine, brokenLine
		case i <= brokenLine && unicode.IsSpace(r):
			blank = i
		}
	}
	return len(text), len(text)
}
