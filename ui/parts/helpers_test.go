package parts

import (
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// testClock is a timing whose clock and delays a test moves by hand.
type testClock struct {
	now     time.Time
	waiting []*waiter
}

type waiter struct {
	at   time.Time
	f    func()
	gone bool
}

func useClock(t *testing.T) *testClock {
	t.Helper()
	c := &testClock{now: time.Date(2024, 5, 1, 12, 0, 0, 0, time.UTC)}
	restore := UseTiming(Timing{
		Do: func(f func()) { f() },
		After: func(d time.Duration, f func()) func() {
			w := &waiter{at: c.now.Add(d), f: f}
			c.waiting = append(c.waiting, w)
			return func() { w.gone = true }
		},
		Go:  func(f func()) { f() },
		Now: func() time.Time { return c.now },
	})
	t.Cleanup(restore)
	return c
}

// pass moves the clock and runs what became due.
func (c *testClock) pass(d time.Duration) {
	c.now = c.now.Add(d)
	due := c.waiting
	c.waiting = nil
	for _, w := range due {
		switch {
		case w.gone:
		case w.at.After(c.now):
			c.waiting = append(c.waiting, w)
		default:
			w.f()
		}
	}
}

func inWindow(t *testing.T, size fyne.Size, o fyne.CanvasObject) fyne.Window {
	t.Helper()
	a := test.NewTempApp(t)
	a.Settings().SetTheme(NewTheme(false, 1))
	w := a.NewWindow("test")
	w.SetPadded(false)
	w.SetContent(WithLayer(o))
	w.Resize(size)
	t.Cleanup(w.Close)
	return w
}

// figures is a table of rows by columns of editable figures with a section in
// front of row 3.
func figures(rows, cols int) MatrixData {
	d := MatrixData{Columns: []Column{{Key: "name", Title: "Ingredient"}}}
	for c := range cols {
		d.Columns = append(d.Columns, Column{Key: fmt.Sprint("c", c), Title: fmt.Sprint("Version ", c), Version: &VersionMark{c, VersionLetter(c)}})
	}
	for r := range rows {
		if r == 3 {
			d.Rows = append(d.Rows, Row{Key: "section", Kind: RowSection, Cells: []Cell{{Text: "Steps"}}})
		}
		row := Row{Key: fmt.Sprint("r", r), Cells: []Cell{{Text: fmt.Sprintf("%c name %d", 'a'+r%26, r), Sub: "g"}}}
		for c := range cols {
			row.Cells = append(row.Cells, Cell{Text: fmt.Sprint(100*r + c), Sub: fmt.Sprintf("–%d (–%d %%)", r, c), Bar: -0.3, Align: AlignEnd, Editable: true})
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

func newTestMatrix(t *testing.T, rows, cols int) (*Matrix, fyne.Window) {
	t.Helper()
	m := NewMatrix()
	w := inWindow(t, fyne.NewSize(900, 400), m)
	m.SetData(figures(rows, cols))
	return m, w
}

// pressCell presses a mouse button on a cell, dx into it.
func pressCell(m *Matrix, row, col int, dx float32, button desktop.MouseButton) {
	p, f := m.panes[paneBody], m.cellFrame(cellID{row, col})
	switch {
	case row < 0 && col == 0:
		p = m.panes[paneCorner]
	case row < 0:
		p = m.panes[paneHead]
	case col == 0:
		p = m.panes[paneSide]
	}
	e := &desktop.MouseEvent{Button: button}
	e.Position = fyne.NewPos(f.x+dx, f.y+f.h/2)
	p.MouseDown(e)
	p.MouseUp(e)
}

func keys(o fyne.Focusable, names ...fyne.KeyName) {
	for _, n := range names {
		o.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// texts gathers the words on screen in a pane.
func texts(p *pane) map[string]*canvas.Text {
	out := map[string]*canvas.Text{}
	for _, o := range p.objects {
		if x, ok := o.(*canvas.Text); ok {
			out[x.Text] = x
		}
	}
	return out
}
