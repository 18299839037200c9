package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

// contextWindow knows whether the drawing context is current, as the window of a
// real screen does.
type contextWindow struct {
	fyne.Window
	current, closing bool
}

func (w *contextWindow) RunWithContext(f func()) {
	if !w.closing {
		w.current = true
		f()
		w.current = false
	}
}

// The toolkit gives up pictures while the theme changes; without a context the
// driver keeps them for good.
func TestThemeChangesWithTheDrawingContextCurrent(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	w := &contextWindow{Window: k.win}
	k.win = w
	changes := 0
	k.app.Settings().AddListener(func(fyne.Settings) {
		changes++
		if !w.current && !w.closing {
			t.Error("the theme changed without a context")
		}
	})
	k.setTheme(true, 1.2)
	k.setTheme(true, 1.2) // nothing to change
	w.closing = true
	k.setTheme(false, 1.2)
	k.settle()
	if changes != 2 || k.dark {
		t.Errorf("%d changes of theme, dark %v", changes, k.dark)
	}
}
