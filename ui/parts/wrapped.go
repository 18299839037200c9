package parts

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// typeAtEnd types a letter at the end of a wrapped field and says whether it
// did. The toolkit hides a blank on which a line breaks and then counts the end
// of the text before it, so that the next word would be typed in front of the
// blank. Only that case is handled here.
func typeAtEnd(e *widget.Entry, r rune) bool {
	if !e.MultiLine || e.Disabled() || e.SelectedText() != "" {
		return false
	}
	text := []rune(e.Text)
	at := e.CursorTextOffset()
	if at < 0 || at >= len(text) || strings.Trim(string(text[at:]), " ") != "" {
		return false
	}
	e.SetText(string(text) + string(r))
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	return true
}
