package parts

import (
	"testing"

	"fyne.io/fyne/v2"
)

// A menu opened by a press has the keyboard once the driver took it away from
// what was pressed: Esc leaves it.
func TestEscapeLeavesAMenu(t *testing.T) {
	useClock(t)
	b := NewButton(Quiet, "", "More", nil)
	w := inWindow(t, fyne.NewSize(400, 300), Rows(0, b))
	var later []func()
	old := timing.Do
	timing.Do = func(f func()) { later = append(later, f) }
	defer func() { timing.Do = old }()
	ShowMenuUnder(b, MenuItem{Label: "One", Do: func() {}})
	w.Canvas().Unfocus()
	for _, f := range later {
		f()
	}
	f := w.Canvas().Focused()
	if f == nil || w.Canvas().Overlays().Top() == nil {
		t.Fatal("the menu has no keyboard")
	}
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.Canvas().Overlays().Top() != nil {
		t.Error("the menu stays after Esc")
	}
}

// Rows that are followed across many columns: every other one shaded, the chosen
// one tinted from end to end.
func TestTheChosenRowCanBeFollowed(t *testing.T) {
	useClock(t)
	m := NewMatrix()
	m.Follow = true
	inWindow(t, fyne.NewSize(900, 300), m)
	m.SetData(figures(6, 4))
	m.Select(1, 2)
	if !m.views[1].band[1].Visible() || m.views[2].band[1].Visible() {
		t.Error("not every other row is shaded")
	}
	for _, k := range []paneKind{paneSide, paneBody} {
		if tint := m.panes[k].tint; !tint.Visible() || tint.Size().Width < 100 {
			t.Errorf("pane %d: the row is tinted over %v", k, tint.Size())
		}
	}
	if w := m.panes[paneBody].frame.Size().Width; w >= m.panes[paneBody].tint.Size().Width {
		t.Errorf("the cell's frame is as wide as the row: %v", w)
	}
}
