package parts

import (
	"testing"

	"fyne.io/fyne/v2"
)

// TestWordsKeepTheirBlanksWhereLinesBreak types long texts letter by letter
// into fields of many widths: wherever the line breaks, the text is as typed.
func TestWordsKeepTheirBlanksWhereLinesBreak(t *testing.T) {
	const text = "120 g + 100 g strained yogurt + 2.7 g cornflour, whisked in off the heat"
	e := NewTextArea("", "", 4, nil)
	w := inWindow(t, fyne.NewSize(400, 200), e)
	for width := float32(90); width < 380; width += 3 {
		w.Canvas().Unfocus()
		e.Set("")
		e.CursorRow, e.CursorColumn = 0, 0
		e.Resize(fyne.NewSize(width, 150))
		w.Canvas().Focus(e)
		for _, r := range text {
			w.Canvas().Focused().TypedRune(r)
		}
		if e.Text != text {
			t.Fatalf("%v wide: %q", width, e.Text)
		}
	}
}
