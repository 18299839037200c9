package parts

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Matrix is the table of the app: a header row and a first column that stay in
// place, cells with figures, changes, bars, ticks and marks, sections, editing
// in place and the whole keyboard. It draws only the rows in sight, so thousands
// are fine. Set the callbacks before it is shown; all are optional.
type Matrix struct {
	widget.BaseWidget

	OnSelect   func(row, col int)
	OnEdit     func(row, col int, text string)      // an edit in place was finished, text changed
	OnPick     func(row, col int, s Suggestion)     // instead of OnEdit when a completion was taken
	OnToggle   func(row, col int)                   // Space or a click on a tick
	OnActivate func(row, col int)                   // Enter or double click where nothing is edited
	OnHeader   func(col int)                        // click on a column's header
	OnMenu     func(row, col int, at fyne.Position) // secondary click or Menu key; row -1 is the header
	OnType     func(row, col int, r rune) bool      // a sign typed where nothing is edited; false lets it look for a row
	OnDelete   func(row, col int)                   // Delete where nothing is edited
	OnShift    func(row, by int)                    // Ctrl+Up (-1) and Ctrl+Down (1): the row is to change its place
	Suggest    func(row, col int, text string) []Suggestion
	Outer      fyne.Scrollable // gets the wheel at the ends of the table
	Whole      bool            // as tall as its content; the page scrolls, not the table
	Headless   bool            // no header row
	WholeRow   bool            // the selection is a row, not a cell: for lists
	Stretch    bool            // text columns take all spare width: for lists
	Follow     bool            // every other row shaded, the chosen cell's row tinted: for long rows of figures

	data   MatrixData
	geo    geometry
	sized  bool // geometry is valid for the data
	offset fyne.Position

	sel     cellID
	hover   int // row under the pointer, -1 for none
	focused bool
	typed   typeAhead
	press   lastPress
	editor  *Editor
	editing cellID
	editKey string // key of the row being edited
	hint    tipper

	panes  [4]*pane // by paneKind
	views  map[int]*rowView
	pool   []*rowView
	headed headed
	bars   [2]*scrollThumb // vertical, horizontal
	drawer *matrixRenderer
	probe  probe
}

type cellID struct{ row, col int }

// NewMatrix returns an empty table with nothing selected.
func NewMatrix() *Matrix {
	m := &Matrix{sel: cellID{-1, 0}, hover: -1, views: map[int]*rowView{}, editing: cellID{-1, -1}}
	for k := range m.panes {
		m.panes[k] = newPane(m, paneKind(k))
	}
	m.bars[0], m.bars[1] = newThumb(m, true), newThumb(m, false)
	m.ExtendBaseWidget(m)
	return m
}

// Data returns what the table shows. The caller must not change it.
func (m *Matrix) Data() MatrixData { return m.data }

// Selected returns the selected cell; row -1 when there is none.
func (m *Matrix) Selected() (row, col int) { return m.sel.row, m.sel.col }

// SelectedKey returns the key of the selected row, empty when there is none.
func (m *Matrix) SelectedKey() string {
	if !m.data.selectable(m.sel.row) {
		return ""
	}
	return m.data.Rows[m.sel.row].Key
}

// SetData shows new data, touching only what differs. The selection stays on the
// row with the same key and the column with the same key (or number) and the
// scroll position stays, so that an update never moves the ground under a person.
func (m *Matrix) SetData(d MatrixData) {
	old := m.data
	m.data = d
	m.probe.valid = false
	m.keepSelection(&old)
	if !m.sized || m.drawer == nil {
		return // drawn when it is first laid out
	}
	same := sameColumns(old.Columns, d.Columns) && len(old.Rows) == len(d.Rows)
	if same && m.unchanged(&old) {
		return
	}
	m.relayout()
}

func (m *Matrix) unchanged(old *MatrixData) bool {
	for r := range m.data.Rows {
		if !sameRow(&old.Rows[r], &m.data.Rows[r]) {
			return false
		}
	}
	return old.Empty == m.data.Empty
}

func (m *Matrix) keepSelection(old *MatrixData) {
	if m.sel.row < 0 {
		return
	}
	if old.selectable(m.sel.row) {
		m.sel.row = sameKeyRow(m.data.Rows, old.Rows[m.sel.row].Key, m.sel.row)
	}
	if m.sel.col < len(old.Columns) {
		m.sel.col = sameKeyColumn(m.data.Columns, old.Columns[m.sel.col].Key, m.sel.col)
	}
	m.sel.row = m.nearest(min(m.sel.row, len(m.data.Rows)-1), 1)
}

func sameKeyRow(rows []Row, key string, fallback int) int {
	if key == "" {
		return fallback
	}
	for i := range rows {
		if rows[i].Key == key {
			return i
		}
	}
	return fallback
}

func sameKeyColumn(columns []Column, key string, fallback int) int {
	for i := range columns {
		if key != "" && columns[i].Key == key {
			return i
		}
	}
	return max(0, min(fallback, len(columns)-1))
}

// nearest returns the first row from r on, in a direction, that can be selected,
// else the nearest the other way, else -1.
func (m *Matrix) nearest(r, direction int) int {
	for i := r; i >= 0 && i < len(m.data.Rows); i += direction {
		if m.data.selectable(i) {
			return i
		}
	}
	for i := r; i >= 0 && i < len(m.data.Rows); i -= direction {
		if m.data.selectable(i) {
			return i
		}
	}
	return -1
}

// Select moves the selection and brings it into sight; OnSelect hears of it when
// it changed. A row out of range selects nothing.
func (m *Matrix) Select(row, col int) {
	to := cellID{m.nearest(row, 1), max(0, min(col, len(m.data.Columns)-1))}
	if row < 0 || row >= len(m.data.Rows) {
		to = cellID{-1, 0}
	}
	changed := to != m.sel
	m.sel = to
	m.reveal()
	m.showSelection()
	if changed && m.OnSelect != nil && to.row >= 0 {
		m.OnSelect(to.row, to.col)
	}
}

// SelectKey selects the row with a key in the column selected now.
func (m *Matrix) SelectKey(key string) {
	if i := sameKeyRow(m.data.Rows, key, -1); i >= 0 {
		m.Select(i, m.sel.col)
	}
}

// HeightFor is the height of the whole table at a width, header included.
func (m *Matrix) HeightFor(width float32) float32 {
	if !m.Whole {
		return m.MinSize().Height
	}
	if m.sized && m.geo.viewport.Width == width {
		return m.fullHeight(width)
	}
	if m.probe.width != width || !m.probe.valid {
		kept := m.geo // the table on screen stays as it is
		m.measure()
		m.fitColumns(width)
		m.stackRows()
		m.probe = probe{width: width, height: m.fullHeight(width), valid: true}
		m.geo = kept
	}
	return m.probe.height
}

// probe remembers the height at a width the table does not have.
type probe struct {
	width, height float32
	valid         bool
}

func (m *Matrix) fullHeight(width float32) float32 {
	h := m.geo.head + fyne.Max(m.geo.height(), m.emptyHeight())
	if m.geo.first()+m.geo.right() > width+0.5 {
		h += thumbSide
	}
	return h
}

func (m *Matrix) emptyHeight() float32 {
	if len(m.data.Rows) == 0 && m.data.Empty != "" {
		return 3 * m.geo.line
	}
	return 0
}

// relayout measures, places and draws again, after data, size or theme changed.
func (m *Matrix) relayout() {
	if m.drawer == nil || m.Size().Width <= 0 {
		return
	}
	m.measure()
	m.fitColumns(m.Size().Width)
	m.stackRows()
	m.sized = true
	m.geo.viewport = m.Size()
	m.drawer.place(m.Size())
	m.setOffset(m.offset)
	m.drawHeader()
	m.drawRows()
	m.followEdit()
}

// matrixRenderer lays the four panes out.
type matrixRenderer struct {
	m       *Matrix
	ground  *canvas.Rectangle
	head    *canvas.Rectangle
	rule    *canvas.Rectangle // under the header
	side    *canvas.Rectangle // right of the frozen column
	empty   *canvas.Text
	clips   [4]*clip
	holders [4]*holder
	objects []fyne.CanvasObject
}

// CreateRenderer is part of fyne.Widget.
func (m *Matrix) CreateRenderer() fyne.WidgetRenderer {
	r := &matrixRenderer{
		m: m, ground: canvas.NewRectangle(nil), head: canvas.NewRectangle(nil), rule: canvas.NewRectangle(nil),
		side: canvas.NewRectangle(nil), empty: canvas.NewText("", nil),
	}
	for k, p := range m.panes {
		r.clips[k], r.holders[k] = newClip(m, p), newHolder(p)
	}
	m.drawer = r
	r.Refresh()
	return r
}

func (r *matrixRenderer) Destroy()                     {}
func (r *matrixRenderer) Objects() []fyne.CanvasObject { return r.objects }

// MinSize is small: a table scrolls. A Whole one asks for all its height.
func (r *matrixRenderer) MinSize() fyne.Size {
	f := factorOf(r.m.Theme())
	least := fyne.NewSize(260*f, 130*f)
	if r.m.Whole && r.m.sized {
		least.Height = r.m.HeightFor(r.m.geo.viewport.Width)
	}
	return least
}

func (r *matrixRenderer) Layout(s fyne.Size) {
	if r.m.sized && r.m.geo.viewport == s {
		return
	}
	r.m.closeEditor()
	r.m.relayout()
}

// Refresh draws everything again with the theme's present colours and sizes.
func (r *matrixRenderer) Refresh() {
	m := r.m
	r.ground.FillColor, r.head.FillColor = Colour(m, RoleCard), Colour(m, RoleHeader)
	r.rule.FillColor, r.side.FillColor = Colour(m, RoleOutline), Colour(m, RoleHairline)
	for _, o := range []fyne.CanvasObject{r.ground, r.head, r.rule, r.side} {
		o.Refresh()
	}
	styleText(r.empty, m.data.Empty, SizeBody.in(m.Theme()), false, m, RoleMuted)
	m.forgetViews()
	m.probe.valid = false
	m.relayout()
}

// place puts the panes, the lines and the scroll thumbs where they belong.
func (r *matrixRenderer) place(s fyne.Size) {
	m, g := r.m, &r.m.geo
	wide := g.first()+g.right() > s.Width+0.5
	high := !m.Whole && g.head+g.height() > s.Height+0.5
	first := fyne.Min(g.first(), s.Width)
	boxes := [4]frame{
		paneCorner: {0, 0, first, g.head},
		paneHead:   {first, 0, s.Width - first, g.head},
		paneSide:   {0, g.head, first, s.Height - g.head},
		paneBody:   {first, g.head, s.Width - first, s.Height - g.head},
	}
	r.objects = append(r.objects[:0], r.ground, r.head)
	for _, k := range []paneKind{paneBody, paneSide, paneHead, paneCorner} {
		b := boxes[k]
		var o fyne.CanvasObject = r.holders[k]
		// A clip is used only when needed: Fyne lets a clip inside a scroll take
		// clicks meant for what covers it.
		if wide || high {
			o = r.clips[k]
		}
		place(o, b.x, b.y, fyne.Max(b.w, 0), fyne.Max(b.h, 0))
		r.objects = append(r.objects, o)
	}
	place(r.ground, 0, 0, s.Width, s.Height)
	place(r.head, 0, 0, s.Width, g.head)
	place(r.rule, 0, g.head-1, s.Width, 1)
	place(r.side, first-1, g.head, 1, fyne.Min(s.Height-g.head, g.height()))
	show(r.side, wide)
	show(r.rule, !m.Headless)
	show(r.empty, len(m.data.Rows) == 0 && m.data.Empty != "")
	styleText(r.empty, m.data.Empty, g.body, false, m, RoleMuted)
	place(r.empty, cellPad*g.factor, g.head+g.line, s.Width, g.line)
	r.objects = append(r.objects, r.rule, r.side, r.empty, m.bars[0], m.bars[1])
	m.placeThumbs(wide, high, boxes[paneBody])
}
