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

func show1(t *testing.T, size fyne.Size, o fyne.CanvasObject) fyne.Window {
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
	w := show1(t, fyne.NewSize(900, 400), m)
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

func TestMatrixKeyboardMoves(t *testing.T) {
	tests := []struct {
		name     string
		keys     []fyne.KeyName
		row, col int
	}{
		{"down", []fyne.KeyName{fyne.KeyDown}, 1, 0},
		{"up at the top stays", []fyne.KeyName{fyne.KeyUp}, 0, 0},
		{"down skips the section", []fyne.KeyName{fyne.KeyDown, fyne.KeyDown, fyne.KeyDown}, 4, 0},
		{"up skips the section", []fyne.KeyName{fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyUp}, 2, 0},
		{"right", []fyne.KeyName{fyne.KeyRight, fyne.KeyRight}, 0, 2},
		{"left at the edge stays", []fyne.KeyName{fyne.KeyLeft}, 0, 0},
		{"end", []fyne.KeyName{fyne.KeyEnd}, 0, 4},
		{"home", []fyne.KeyName{fyne.KeyEnd, fyne.KeyHome}, 0, 0},
		{"right at the end stays", []fyne.KeyName{fyne.KeyEnd, fyne.KeyRight}, 0, 4},
		{"page up goes back to the top", []fyne.KeyName{fyne.KeyPageDown, fyne.KeyPageUp}, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			useClock(t)
			m, w := newTestMatrix(t, 40, 4)
			w.Canvas().Focus(m)
			keys(m, tt.keys...)
			if row, col := m.Selected(); row != tt.row || col != tt.col {
				t.Errorf("selected %d,%d, want %d,%d", row, col, tt.row, tt.col)
			}
		})
	}
}

func TestMatrixControlHomeEnd(t *testing.T) {
	useClock(t)
	m, w := newTestMatrix(t, 40, 4)
	w.Canvas().Focus(m)
	end := &desktop.CustomShortcut{KeyName: fyne.KeyEnd, Modifier: fyne.KeyModifierShortcutDefault}
	m.TypedShortcut(end)
	if row, col := m.Selected(); row != 40 || col != 4 {
		t.Errorf("Ctrl+End selected %d,%d, want 40,4", row, col)
	}
	if m.Scroll().Y == 0 {
		t.Error("the last row was not brought into sight")
	}
	home := &desktop.CustomShortcut{KeyName: fyne.KeyHome, Modifier: fyne.KeyModifierShortcutDefault}
	m.TypedShortcut(home)
	if row, col := m.Selected(); row != 0 || col != 0 || m.Scroll().Y != 0 {
		t.Errorf("Ctrl+Home selected %d,%d at %v, want 0,0 at the top", row, col, m.Scroll())
	}
}

func TestMatrixPageDownMovesAPage(t *testing.T) {
	useClock(t)
	m, w := newTestMatrix(t, 60, 4)
	w.Canvas().Focus(m)
	keys(m, fyne.KeyPageDown)
	row, _ := m.Selected()
	if page := int(m.room().Height / m.rowHeight(0)); row < page-4 || row > page {
		t.Errorf("page down selected row %d of a page of %d", row, page)
	}
}

func TestMatrixMouseSelects(t *testing.T) {
	useClock(t)
	m, w := newTestMatrix(t, 10, 4)
	var heard [2]int
	m.OnSelect = func(r, c int) { heard = [2]int{r, c} }
	pressCell(m, 2, 3, 10, desktop.MouseButtonPrimary)
	if heard != [2]int{2, 3} || w.Canvas().Focused() != m {
		t.Errorf("heard %v, focus %T", heard, w.Canvas().Focused())
	}
	if f := m.panes[paneBody].frame; !f.Visible() || f.StrokeWidth != 2 || f.StrokeColor != Colour(m, RoleAccent) {
		t.Error("the selected cell has no accent frame of 2")
	}
	pressCell(m, 3, 1, 10, desktop.MouseButtonPrimary) // the section
	if heard != [2]int{2, 3} {
		t.Errorf("a section was selected: %v", heard)
	}
}

func TestMatrixMenuAndHeader(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 10, 4)
	var menu [2]int
	header := -1
	m.OnMenu = func(r, c int, _ fyne.Position) { menu = [2]int{r, c} }
	m.OnHeader = func(c int) { header = c }
	pressCell(m, 1, 2, 10, desktop.MouseButtonSecondary)
	if row, col := m.Selected(); menu != [2]int{1, 2} || row != 1 || col != 2 {
		t.Errorf("menu at %v, selected %d,%d", menu, row, col)
	}
	pressCell(m, -1, 3, 10, desktop.MouseButtonPrimary)
	pressCell(m, -1, 2, 10, desktop.MouseButtonSecondary)
	if header != 3 || menu != [2]int{-1, 2} {
		t.Errorf("header %d, menu %v", header, menu)
	}
}

func TestMatrixDoublePress(t *testing.T) {
	tests := []struct {
		name  string
		pause time.Duration
		want  int
	}{{"quick", 200 * time.Millisecond, 1}, {"slow", 900 * time.Millisecond, 0}}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c := useClock(t)
			m, _ := newTestMatrix(t, 10, 4)
			opened := 0
			m.OnActivate = func(int, int) { opened++ }
			pressCell(m, 1, 0, 10, desktop.MouseButtonPrimary)
			c.pass(tt.pause)
			pressCell(m, 1, 0, 10, desktop.MouseButtonPrimary)
			if opened != tt.want {
				t.Errorf("opened %d times, want %d", opened, tt.want)
			}
		})
	}
}

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
	w := show1(t, fyne.NewSize(600, 300), m)
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

func TestMatrixSetDataKeepsPlace(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 60, 4)
	m.Select(40, 2)
	m.SetScroll(fyne.NewPos(0, 700))
	heard := false
	m.OnSelect = func(int, int) { heard = true }
	d := figures(60, 4)
	d.Rows = append([]Row{{Key: "new", Cells: []Cell{{Text: "new"}}}}, d.Rows...)
	d.Columns = append(d.Columns[:1:1], append([]Column{{Key: "x", Title: "X"}}, d.Columns[1:]...)...)
	m.SetData(d)
	if row, col := m.Selected(); row != 41 || col != 3 {
		t.Errorf("selected %d,%d, want the same row and column at 41,3", row, col)
	}
	if m.Scroll().Y != 700 || heard {
		t.Errorf("scrolled to %v, OnSelect heard %v", m.Scroll(), heard)
	}
	m.SetData(MatrixData{Columns: d.Columns})
	if row, _ := m.Selected(); row != -1 || m.Scroll().Y != 0 {
		t.Errorf("an empty table has row %d selected at %v", row, m.Scroll())
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

func TestMatrixSetDataTouchesOnlyWhatChanged(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 8, 3)
	before := texts(m.panes[paneBody])
	d := figures(8, 3)
	d.Rows[1].Cells[1].Text = "777"
	m.SetData(d)
	after := texts(m.panes[paneBody])
	if after["777"] == nil || after["100"] != nil {
		t.Fatal("the new figure is not on screen")
	}
	for s, o := range before {
		if s != "100" && after[s] != o {
			t.Errorf("%q was drawn anew", s)
		}
	}
	if after["777"] != before["100"] {
		t.Error("the changed cell did not reuse its text")
	}
}

func TestMatrixDigitsLineUp(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 3, 2)
	words := texts(m.panes[paneBody])
	a, b := words["0"], words["200"]
	if a.Position().X+a.Size().Width != b.Position().X+b.Size().Width || a.Alignment != fyne.TextAlignTrailing {
		t.Errorf("figures end at %v and %v", a.Position().X+a.Size().Width, b.Position().X+b.Size().Width)
	}
	s, u := words["–1 (–0 %)"], words["–2 (–0 %)"]
	if s.Position().X+s.Size().Width != u.Position().X+u.Size().Width {
		t.Error("changes do not end at one line")
	}
}

func TestMatrixWidths(t *testing.T) {
	useClock(t)
	narrow := MatrixData{Columns: []Column{{Title: "Name"}, {Title: "A", Align: AlignEnd}}, Rows: []Row{{Cells: []Cell{{Text: "Cream"}, {Text: "1"}}}}}
	m := NewMatrix()
	m.SetData(narrow)
	w := show1(t, fyne.NewSize(1200, 300), m)
	if m.geo.widths[1] > 100 || m.geo.first()+m.geo.right() > 400 {
		t.Errorf("a small table was stretched to %v", m.geo.widths)
	}
	if m.bars[0].Visible() || m.bars[1].Visible() {
		t.Error("a small table has scroll bars")
	}
	m.SetData(figures(40, 12))
	w.Resize(fyne.NewSize(700, 300))
	if !m.bars[0].Visible() || !m.bars[1].Visible() {
		t.Error("a large table has no scroll bars")
	}
	m.Select(0, 12)
	if m.Scroll().X == 0 || m.panes[paneSide].Position().X != 0 {
		t.Errorf("scrolled to %v with the first column at %v", m.Scroll(), m.panes[paneSide].Position())
	}
	if m.panes[paneHead].Position().X != m.panes[paneBody].Position().X {
		t.Error("the header did not move with the body")
	}
}

func TestMatrixDrawsOnlyRowsInSight(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 5000, 4)
	if n := len(m.views); n > 20 {
		t.Errorf("%d rows are drawn of 5,000", n)
	}
	m.SetScroll(fyne.NewPos(0, 100000))
	if n := len(m.views); n > 20 {
		t.Errorf("%d rows are drawn after scrolling", n)
	}
	row := m.rowAt(m.offset.Y + 5)
	if texts(m.panes[paneSide])[m.data.cell(row, 0).Text] == nil {
		t.Errorf("row %d is not on screen", row)
	}
}

func TestMatrixWrapGrowsTheRow(t *testing.T) {
	useClock(t)
	long := "Sweat the leeks in the butter for twelve minutes, lid on, until they are soft but have not taken any colour at all; season."
	d := MatrixData{Columns: []Column{{Title: "Step"}, {Title: "Original"}, {Title: "A"}}, Rows: []Row{{Cells: []Cell{{Text: "1"}, {Text: long, Wrap: true}, {Text: "="}}}, {Cells: []Cell{{Text: "2"}, {Text: "Serve."}}}}}
	m := NewMatrix()
	m.Whole = true
	m.SetData(d)
	show1(t, fyne.NewSize(520, 400), m)
	if m.rowHeight(0) < 2*m.rowHeight(1) {
		t.Errorf("heights %v and %v: the long step did not wrap", m.rowHeight(0), m.rowHeight(1))
	}
	if h := m.HeightFor(520); h != m.geo.head+m.rowHeight(0)+m.rowHeight(1) {
		t.Errorf("whole height %v", h)
	}
	if wide := m.HeightFor(2000); wide >= m.HeightFor(520) {
		t.Errorf("no shorter when wide: %v", wide)
	}
}

func TestMatrixWheelEndsGoOutside(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 40, 2)
	outer := &wheelCounter{}
	m.Outer = outer
	m.wheel(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -50)})
	if m.Scroll().Y != 50 || outer.n != 0 {
		t.Errorf("scrolled to %v, outside heard %d", m.Scroll(), outer.n)
	}
	m.SetScroll(fyne.NewPos(0, 0))
	m.wheel(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 50)})
	if outer.n != 1 {
		t.Errorf("the page heard %d wheel turns, want 1", outer.n)
	}
}

type wheelCounter struct {
	fyne.Scrollable
	n int
}

func (w *wheelCounter) Scrolled(*fyne.ScrollEvent) { w.n++ }

func TestMatrixTips(t *testing.T) {
	c := useClock(t)
	d := figures(5, 2)
	d.Rows[0].Cells[1].Tip = "Measured in test 4."
	d.Columns[1].Max = 90
	m := NewMatrix()
	m.SetData(d)
	w := show1(t, fyne.NewSize(700, 300), m)
	l := layerFor(m)
	e := &desktop.MouseEvent{}
	f := m.cellFrame(cellID{0, 1})
	e.Position = fyne.NewPos(f.x+5, f.y+5)
	m.panes[paneBody].MouseIn(e)
	if m.hover != 0 || !m.panes[paneSide].hover.Visible() {
		t.Error("the row under the pointer is not tinted")
	}
	if len(l.sheet.Objects) != 0 {
		t.Error("the tip shows before the pointer rested")
	}
	c.pass(time.Second)
	if len(l.sheet.Objects) != 1 {
		t.Error("no tip after the pointer rested")
	}
	m.panes[paneBody].MouseOut()
	if len(l.sheet.Objects) != 0 || m.hover != -1 {
		t.Error("the tip stayed")
	}
	_ = w
}

func TestMatrixThemeSwitch(t *testing.T) {
	useClock(t)
	m, _ := newTestMatrix(t, 5, 2)
	before := texts(m.panes[paneBody])["100"].Color
	fyne.CurrentApp().Settings().SetTheme(NewTheme(true, 1.4))
	m.Refresh()
	after := texts(m.panes[paneBody])["100"]
	if after.Color == before || after.Color != dark[RoleInk] || after.TextSize != 14*1.4 {
		t.Errorf("colour %v size %v after a switch to dark, 1.4", after.Color, after.TextSize)
	}
}

func BenchmarkMatrixUpdateAll(b *testing.B) {
	m := benchMatrix(b)
	sets := [2]MatrixData{figures(30, 8), figures(30, 8)}
	for r := range sets[1].Rows {
		for c := 1; c < len(sets[1].Rows[r].Cells); c++ {
			sets[1].Rows[r].Cells[c].Text = fmt.Sprint(7*r + c)
			sets[1].Rows[r].Cells[c].Sub = fmt.Sprintf("+%d (+%d %%)", c, r)
		}
	}
	i := 0
	for b.Loop() {
		i++
		m.SetData(sets[i%2])
	}
}

func BenchmarkMatrixUpdateOne(b *testing.B) {
	m := benchMatrix(b)
	sets := [2]MatrixData{figures(30, 8), figures(30, 8)}
	sets[1].Rows[7].Cells[3].Text = "999"
	i := 0
	for b.Loop() {
		i++
		m.SetData(sets[i%2])
	}
}

func BenchmarkMatrixBuild(b *testing.B) {
	a := test.NewTempApp(b)
	a.Settings().SetTheme(NewTheme(false, 1))
	w := a.NewWindow("bench")
	defer w.Close()
	w.Resize(fyne.NewSize(1600, 1200))
	for b.Loop() {
		m := NewMatrix()
		m.SetData(figures(30, 8))
		w.SetContent(WithLayer(m))
	}
}

func BenchmarkMatrixScroll(b *testing.B) {
	m := benchMatrix(b)
	m.SetData(figures(5000, 8))
	y := float32(0)
	for b.Loop() {
		y += 40
		if y > 100000 {
			y = 0
		}
		m.SetScroll(fyne.NewPos(0, y))
	}
}

func benchMatrix(b *testing.B) *Matrix {
	b.Helper()
	a := test.NewTempApp(b)
	a.Settings().SetTheme(NewTheme(false, 1))
	w := a.NewWindow("bench")
	b.Cleanup(w.Close)
	m := NewMatrix()
	m.SetData(figures(30, 8))
	w.SetContent(WithLayer(m))
	w.Resize(fyne.NewSize(1600, 1200))
	return m
}
