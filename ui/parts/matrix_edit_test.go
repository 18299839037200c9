package parts

import (
	"fmt"
	"runtime"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// typing finds the open field of an edit.
func typing(t *testing.T, w fyne.Window) *editorEntry {
	t.Helper()
	e, ok := w.Canvas().Focused().(*editorEntry)
	if !ok {
		t.Fatalf("no field has the keyboard but %T", w.Canvas().Focused())
	}
	return e
}

func TestMatrixEdit(t *testing.T) {
	type edit struct {
		row, col int
		text     string
	}
	tests := []struct {
		name string
		do   func(m *Matrix, e *editorEntry)
		want []edit
		row  int
		col  int
	}{
		{"enter commits and goes down", func(_ *Matrix, e *editorEntry) { e.SetText(" 12,5 "); keys(e, fyne.KeyReturn) }, []edit{{1, 1, "12,5"}}, 2, 1},
		{"tab commits and goes right", func(_ *Matrix, e *editorEntry) { e.SetText("7"); keys(e, fyne.KeyTab) }, []edit{{1, 1, "7"}}, 1, 2},
		{"escape drops", func(_ *Matrix, e *editorEntry) { e.SetText("7"); keys(e, fyne.KeyEscape) }, nil, 1, 1},
		{"the same text is no edit", func(_ *Matrix, e *editorEntry) { keys(e, fyne.KeyReturn) }, nil, 2, 1},
		{"another cell commits", func(m *Matrix, e *editorEntry) {
			e.SetText("9")
			pressCell(m, 0, 2, 10, desktop.MouseButtonPrimary)
		}, []edit{{1, 1, "9"}}, 0, 2},
		{"the wheel commits", func(m *Matrix, e *editorEntry) {
			e.SetText("9")
			m.wheel(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -30)})
		}, []edit{{1, 1, "9"}}, 1, 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			m, w := newTestMatrix(t, 40, 4)
			var got []edit
			m.OnEdit = func(r, c int, s string) { got = append(got, edit{r, c, s}) }
			m.Select(1, 1)
			w.Canvas().Focus(m)
			keys(m, fyne.KeyReturn)
			tt.do(m, typing(t, w))
			if fmt.Sprint(got) != fmt.Sprint(tt.want) {
				t.Errorf("edits %v, want %v", got, tt.want)
			}
			if row, col := m.Selected(); row != tt.row || col != tt.col {
				t.Errorf("selected %d,%d, want %d,%d", row, col, tt.row, tt.col)
			}
			if m.editor.Open() {
				t.Error("the field is still open")
			}
		})
	}
}

func TestMatrixTypingStartsEdit(t *testing.T) {
	useClock(t)
	m, w := newTestMatrix(t, 10, 4)
	m.Select(1, 1)
	w.Canvas().Focus(m)
	m.TypedRune('4')
	e := typing(t, w)
	test.Type(e, "2")
	if e.Text != "42" {
		t.Errorf("typed %q, want 42", e.Text)
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(e)
	f := m.cellFrame(cellID{1, 1})
	cell := fyne.CurrentApp().Driver().AbsolutePositionForObject(m.panes[paneBody]).AddXY(f.x, f.y-1)
	if at != cell || e.Size().Height < f.h {
		t.Errorf("field at %v of %v, cell at %v of %v", at, e.Size(), cell, f)
	}
}

func TestMatrixEditFollowsItsRow(t *testing.T) {
	useClock(t)
	m, w := newTestMatrix(t, 10, 4)
	m.OnEdit = func(r, _ int, s string) {
		if key := m.Data().Rows[r].Key; key != "r1" || s != "55" {
			t.Errorf("edit of %q: %q", key, s)
		}
	}
	m.Select(1, 1)
	w.Canvas().Focus(m)
	keys(m, fyne.KeyF2)
	e := typing(t, w)
	before := fyne.CurrentApp().Driver().AbsolutePositionForObject(e)
	d := figures(10, 4)
	d.Rows = append([]Row{{Key: "new", Cells: []Cell{{Text: "new"}}}}, d.Rows...)
	m.SetData(d)
	after := fyne.CurrentApp().Driver().AbsolutePositionForObject(e)
	if after.Y <= before.Y {
		t.Errorf("the field stayed at %v although its row moved down", after)
	}
	e.SetText("55")
	keys(e, fyne.KeyReturn)
	m.Select(2, 1)
	keys(m, fyne.KeyF2)
	m.SetData(MatrixData{Columns: d.Columns, Rows: d.Rows[:1]})
	if m.editor.Open() {
		t.Error("the field is open although its row has gone")
	}
}

func TestMatrixCompletion(t *testing.T) {
	useClock(t)
	m, w := newTestMatrix(t, 10, 4)
	m.Suggest = func(_, _ int, s string) []Suggestion {
		return []Suggestion{{Text: s + " cream", Key: "1"}, {Text: s + " milk", Key: "2"}}
	}
	picked := ""
	m.OnPick = func(r, c int, s Suggestion) { picked = fmt.Sprintf("%d %d %s", r, c, s.Key) }
	m.OnEdit = func(int, int, string) { t.Error("a picked row is no typed edit") }
	m.Select(1, 1)
	w.Canvas().Focus(m)
	m.TypedRune('s')
	e := typing(t, w)
	test.Type(e, "o")
	keys(e, fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	if picked != "1 1 2" {
		t.Errorf("picked %q, want the second row at 1,1", picked)
	}
	if w.Canvas().Focused() != m {
		t.Errorf("the keyboard went to %T", w.Canvas().Focused())
	}
}

func TestMatrixTicks(t *testing.T) {
	useClock(t)
	d := MatrixData{Columns: []Column{{Title: "Swap"}, {Align: AlignCentre}, {}}, Rows: []Row{{Cells: []Cell{
		{Text: "Yogurt"}, {Tick: TickOff}, {Tick: TickOn, Text: "with words"},
	}}, {Cells: []Cell{{Text: "Oil"}, {Tick: TickDisabled}, {}}}}}
	m := NewMatrix()
	m.SetData(d)
	w := inWindow(t, fyne.NewSize(600, 300), m)
	var got []string
	m.OnToggle = func(r, c int) { got = append(got, fmt.Sprint(r, c)) }
	w.Canvas().Focus(m)
	m.Select(0, 1)
	m.TypedRune(' ')
	pressCell(m, 0, 1, 30, desktop.MouseButtonPrimary)
	pressCell(m, 0, 2, 16, desktop.MouseButtonPrimary)
	pressCell(m, 0, 2, 60, desktop.MouseButtonPrimary) // on the words: selects only
	pressCell(m, 1, 1, 30, desktop.MouseButtonPrimary) // disabled
	if fmt.Sprint(got) != "[0 1 0 1 0 2]" {
		t.Errorf("toggled %v", got)
	}
}

func TestMatrixTypeAhead(t *testing.T) {
	c := useClock(t)
	m, w := newTestMatrix(t, 30, 2)
	w.Canvas().Focus(m)
	for _, step := range []struct {
		typed string
		pause time.Duration
		want  string
	}{{"c", 0, "r2"}, {"c", 2 * time.Second, "r28"}, {"c", 2 * time.Second, "r2"}, {"b name 27", 2 * time.Second, "r27"}} {
		c.pass(step.pause)
		for _, r := range step.typed {
			m.TypedRune(r)
		}
		if got := m.SelectedKey(); got != step.want {
			t.Errorf("typing %q selected %s, want %s", step.typed, got, step.want)
		}
	}
}

func TestMatrixDeleteCopyPaste(t *testing.T) {
	useClock(t)
	m, w := newTestMatrix(t, 10, 3)
	var edits []string
	deleted := 0
	m.OnEdit = func(r, c int, s string) { edits = append(edits, fmt.Sprintf("%d,%d=%s", r, c, s)) }
	m.OnDelete = func(int, int) { deleted++ }
	w.Canvas().Focus(m)
	m.Select(1, 1)
	m.TypedShortcut(&fyne.ShortcutCopy{})
	keys(m, fyne.KeyDelete)
	m.Select(2, 2)
	m.TypedShortcut(&fyne.ShortcutPaste{})
	m.Select(2, 0)
	keys(m, fyne.KeyDelete)
	m.TypedShortcut(&fyne.ShortcutPaste{})
	if fmt.Sprint(edits) != "[1,1= 2,2=100 –1 (–0 %)]" || deleted != 1 {
		t.Errorf("edits %v, deleted %d", edits, deleted)
	}
}

// A field that was edited in lets go of what it edited: the toolkit keeps the
// field's lines and words, and what hangs on them, for as long as the program runs.
func TestEditLeavesNothingBehind(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 3, 2)
	rows := []struct {
		name string
		end  func(*Editor)
	}{
		{"kept", func(ed *Editor) { ed.Close(true) }},
		{"dropped", func(ed *Editor) { ed.Close(false) }},
	}
	for _, r := range rows {
		gone := make(chan bool, 1)
		ed := func() *Editor {
			page := &[1 << 16]byte{}
			runtime.AddCleanup(page, func(c chan bool) { c <- true }, gone)
			uses := func() { page[0]++ }
			return OpenEditor(m, fyne.NewPos(4, 4), fyne.NewSize(90, 24), Edit{
				Text: "1", Source: func(string) []Suggestion { uses(); return nil },
				Done: func(string, *Suggestion, Move) { uses() }, Cancel: uses,
			})
		}()
		r.end(ed)
		if ed.holder.Content == fyne.CanvasObject(ed.entry) {
			t.Errorf("%s: the theme over the field still holds it", r.name)
		}
		runtime.GC()
		select {
		case <-gone:
		case <-time.After(10 * time.Second):
			t.Errorf("%s: the field still holds what it edited", r.name)
		}
		runtime.KeepAlive(ed)
	}
}

// asked counts what a canvas is asked to give the keyboard to.
type asked struct {
	fyne.Canvas
	n int
}

func (a *asked) Focus(o fyne.Focusable) { a.n++; a.Canvas.Focus(o) }

// What has gone from the window while it was being worked with is not offered the
// keyboard, though the driver still knows its canvas: the toolkit would complain on
// standard error.
func TestWhatHasGoneTakesNoKeys(t *testing.T) {
	rows := []struct {
		name string
		o    fyne.Focusable
	}{
		{"a table", NewMatrix()},
		{"a choice", NewPicker(nil, "", "", nil)},
		{"a field", NewEntry("", "", nil)},
	}
	for _, r := range rows {
		body := container.NewStack(r.o.(fyne.CanvasObject))
		w := inWindow(t, fyne.NewSize(400, 300), Pad(8, 8, 8, 8, body))
		c := &asked{Canvas: w.Canvas()}
		Focus(c, r.o)
		if c.n != 1 || c.Focused() != r.o {
			t.Errorf("%s in the window: asked %d times, %T has the keyboard", r.name, c.n, c.Focused())
		}
		c.Unfocus()
		body.RemoveAll()
		Focus(c, r.o)
		if c.n != 1 {
			t.Errorf("%s that has gone was offered the keyboard", r.name)
		}
	}
}
