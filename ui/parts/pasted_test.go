package parts

import (
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

func TestPastedTextIsLaidIntoLinesThatCanBeShown(t *testing.T) {
	long := strings.Repeat("leeks and butter ", 12_000)
	for _, row := range []struct {
		name, text, want string
		cut              int
	}{
		{"a recipe", "Soup\n\n2 leeks\n", "Soup\n\n2 leeks\n", 0},
		{"a long recipe stays as it is", strings.Repeat("2 leeks, sliced\n", 1000), strings.Repeat("2 leeks, sliced\n", 1000), 0},
		{"a line without a blank", strings.Repeat("x", 1900), strings.Repeat("x", 300) + "\n" + strings.Repeat("x", 300) + "\n" + strings.Repeat("x", 1300), 0},
		{"too much", strings.Repeat("é\n", 30_000), strings.Repeat("é\n", 20_000), 20_000},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got, cut := inLines(row.text); got != row.want || cut != row.cut {
				t.Errorf("%d characters and %d cut, want %d and %d", utf8.RuneCountInString(got), cut, utf8.RuneCountInString(row.want), row.cut)
			}
		})
	}
	got, cut := inLines(long)
	if cut != len(long)-longestPaste || strings.ReplaceAll(got, "\n", " ") != strings.TrimRight(long[:longestPaste], "") {
		t.Errorf("words were lost or made: %d cut", cut)
	}
	for _, l := range strings.Split(got, "\n") {
		if len(l) > longestLine {
			t.Errorf("a line of %d", len(l))
		}
	}
}

func TestATextAreaSaysWhatItDidNotTake(t *testing.T) {
	test.NewTempApp(t)
	e := NewTextArea("", "", 4, nil)
	cut := 0
	e.OnCut = func(n int) { cut = n }
	board := test.NewClipboard()
	board.SetContent(strings.Repeat("2 leeks\n", 20_000))
	w := test.NewTempWindow(t, e)
	w.Canvas().Focus(e)
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	if utf8.RuneCountInString(e.Text) != longestPaste || cut != 120_000 {
		t.Errorf("%d taken, %d cut", utf8.RuneCountInString(e.Text), cut)
	}
}

func BenchmarkPasteOneLongLine(b *testing.B) {
	test.NewApp()
	e := NewTextArea("", "", 12, nil)
	w := test.NewWindow(e)
	defer w.Close()
	w.Resize(fyne.NewSize(480, 600))
	board := test.NewClipboard()
	board.SetContent(strings.Repeat("leeks and butter ", 12_000))
	for b.Loop() {
		e.SetText("")
		e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	}
}
