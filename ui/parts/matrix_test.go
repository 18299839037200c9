package parts

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

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
	w := inWindow(t, fyne.NewSize(1200, 300), m)
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
	inWindow(t, fyne.NewSize(520, 400), m)
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
	w := inWindow(t, fyne.NewSize(700, 300), m)
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

func TestATipGoesWhenThePageScrolls(t *testing.T) {
	c := useClock(t)
	chart := NewChartView(fyne.NewSize(200, 200), nil)
	chart.Alt = "The chart in words."
	page := Scrolled(Rows(0, chart, NewChartView(fyne.NewSize(200, 900), nil)))
	inWindow(t, fyne.NewSize(400, 300), page)
	l := layerFor(chart)
	chart.MouseIn(nil)
	c.pass(time.Second)
	if len(l.sheet.Objects) != 1 {
		t.Fatal("no tip after the pointer rested")
	}
	page.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -60)})
	if len(l.sheet.Objects) != 0 {
		t.Error("the tip stays where the chart was")
	}
	chart.MouseIn(nil)
	page.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -60)})
	c.pass(time.Second)
	if len(l.sheet.Objects) != 0 {
		t.Error("a tip shows for what has scrolled away")
	}
}

func TestASectionsSecondRunStandsBesideItsName(t *testing.T) {
	useClock(t)
	m := NewMatrix()
	inWindow(t, fyne.NewSize(700, 300), m)
	d := figures(5, 2)
	d.Rows[3].Cells[0] = Cell{Text: "Steps", Sub: "as the cook wrote them down in the kitchen that day and the day after"}
	d.Columns[0].Max = 200
	m.SetData(d)
	all := texts(m.panes[paneSide])
	name := all["Steps"]
	for s, x := range all {
		if !strings.HasPrefix(s, "as ") {
			continue
		}
		f := m.cellFrame(cellID{3, 0})
		if end := name.Position().X + fyne.MeasureText("Steps", name.TextSize, name.TextStyle).Width; x.Position().X < end {
			t.Errorf("it starts at %v, the name ends at %v", x.Position().X, end)
		}
		if end := x.Position().X + fyne.MeasureText(s, x.TextSize, x.TextStyle).Width; end > f.x+f.w {
			t.Errorf("%q ends at %v, the column at %v", s, end, f.x+f.w)
		}
		return
	}
	t.Error("it is not drawn")
}
