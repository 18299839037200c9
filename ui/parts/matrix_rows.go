package parts

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// rowView draws one row across both panes.
type rowView struct {
	cells []*cellView
	line  [2]*canvas.Rectangle // hairline under the row: frozen, scrolling
	band  [2]*canvas.Rectangle // ground of sections, totals and shaded rows
}

func newRowView() *rowView {
	v := &rowView{}
	for i := range 2 {
		v.line[i], v.band[i] = canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	}
	return v
}

// draw brings a row in line with the data and says whether anything changed.
func (v *rowView) draw(m *Matrix, r int) bool {
	g, changed := &m.geo, false
	kind := m.data.Rows[r].Kind
	for len(v.cells) < len(m.data.Columns) {
		v.cells = append(v.cells, &cellView{})
		changed = true
	}
	for c := range m.data.Columns {
		f := m.cellFrame(cellID{r, c})
		if kind == RowSection && c == 0 {
			f.w = fyne.Max(f.w, 10)
		}
		if v.cells[c].draw(m, m.data.cell(r, c), c, kind, m.data.align(r, c), f) {
			changed = true
		}
	}
	y, bottom := g.y[r], g.y[r+1]
	v.ground(m, 0, frame{0, y, g.first(), bottom - y}, kind != RowPlain || m.Follow && r%2 == 1)
	v.ground(m, 1, frame{0, y, fyne.Max(g.right(), g.viewport.Width-g.first()), bottom - y}, kind != RowPlain || m.Follow && r%2 == 1)
	return changed
}

func (v *rowView) ground(m *Matrix, i int, f frame, shaded bool) {
	setFill(v.line[i], Colour(m, RoleHairline))
	place(v.line[i], f.x, f.y+f.h-1, f.w, 1)
	show(v.band[i], shaded)
	if shaded {
		setFill(v.band[i], Colour(m, RoleZebra))
		place(v.band[i], f.x, f.y, f.w, f.h)
	}
}

// visible is the range of rows to draw, from inclusive to exclusive, a little
// beyond the edges so that small scrolls find rows ready.
func (m *Matrix) visible() (from, to int) {
	n := len(m.data.Rows)
	if n == 0 {
		return 0, 0
	}
	if m.Whole {
		return 0, n
	}
	top := fyne.Max(m.offset.Y-1, 0)
	from = max(m.rowAt(fyne.Min(top, m.geo.height()-1)), 0)
	to = from
	for to < n && m.geo.y[to] < m.offset.Y+m.geo.viewport.Height-m.geo.head {
		to++
	}
	return from, to
}

// drawRows draws the rows in sight, reusing views of rows that left it.
func (m *Matrix) drawRows() {
	from, to := m.visible()
	changed := false
	for r, v := range m.views {
		if r < from || r >= to {
			delete(m.views, r)
			m.pool = append(m.pool, v)
			changed = true
		}
	}
	for r := from; r < to; r++ {
		v := m.views[r]
		if v == nil {
			v = m.takeView()
			m.views[r] = v
			changed = true
		}
		if v.draw(m, r) {
			changed = true
		}
	}
	if changed {
		m.listObjects(from, to)
	}
	m.showSelection()
	m.showHover()
}

func (m *Matrix) takeView() *rowView {
	if n := len(m.pool); n > 0 {
		v := m.pool[n-1]
		m.pool = m.pool[:n-1]
		return v
	}
	return newRowView()
}

// forgetViews makes every view draw again, for another theme.
func (m *Matrix) forgetViews() {
	for _, v := range m.views {
		m.pool = append(m.pool, v)
	}
	m.views = map[int]*rowView{}
	for _, v := range m.pool {
		for _, c := range v.cells {
			c.valid = false
		}
	}
	m.headed = headed{}
}

// listObjects gathers what the two panes paint, from back to front.
func (m *Matrix) listObjects(from, to int) {
	side, body := m.panes[paneSide], m.panes[paneBody]
	side.objects, body.objects = side.objects[:0], body.objects[:0]
	for r := from; r < to; r++ {
		v := m.views[r]
		side.objects = append(side.objects, v.band[0], v.line[0])
		body.objects = append(body.objects, v.band[1], v.line[1])
	}
	side.objects = append(side.objects, side.hover, side.tint)
	body.objects = append(body.objects, body.hover, body.tint)
	for r := from; r < to; r++ {
		for c := range m.data.Columns {
			if c == 0 {
				side.objects = append(side.objects, m.views[r].cells[c].objects...)
			} else {
				body.objects = append(body.objects, m.views[r].cells[c].objects...)
			}
		}
	}
	side.objects = append(side.objects, side.frame)
	body.objects = append(body.objects, body.frame)
	m.repaint()
}

// repaint asks for a new frame without throwing away the painted text, which a
// Refresh of the pane would do.
func (m *Matrix) repaint() { canvas.Refresh(m.panes[paneBody].frame) }

// headed is what the header on screen was drawn for.
type headed struct {
	columns []Column
	widths  []float32
	head    float32
	valid   bool
}

// drawHeader draws the header cells; they are few and change rarely.
func (m *Matrix) drawHeader() {
	g := &m.geo
	if m.headed.valid && sameColumns(m.headed.columns, m.data.Columns) && slices.Equal(m.headed.widths, g.widths) && m.headed.head == g.head {
		return
	}
	m.headed = headed{columns: m.data.Columns, widths: g.widths, head: g.head, valid: true}
	for _, k := range []paneKind{paneCorner, paneHead} {
		m.panes[k].objects = m.panes[k].objects[:0]
	}
	for c := range m.data.Columns {
		p := m.panes[paneHead]
		if c == 0 {
			p = m.panes[paneCorner]
		}
		p.objects = append(p.objects, m.headerCell(c)...)
	}
	m.repaint()
}

// headerCell draws marker, letter, title, arrow and the second line of a header.
func (m *Matrix) headerCell(c int) []fyne.CanvasObject {
	g, col := &m.geo, &m.data.Columns[c]
	f := m.cellFrame(cellID{-1, c})
	in := frame{f.x + cellPad*g.factor, 6 * g.factor, f.w - 2*cellPad*g.factor, g.line}
	if col.Sub == "" {
		in.y = (g.head - g.line) / 2
	}
	var objects []fyne.CanvasObject
	title := cut(col.Title, in.w-m.headerExtras(col), g.body, true)
	total := textWidth(title, g.body, true) + m.headerExtras(col)
	x := in.x
	switch m.data.align(-1, c) {
	case AlignEnd:
		x = in.x + in.w - total
	case AlignCentre:
		x = in.x + (in.w-total)/2
	}
	if col.Version != nil {
		objects, x = m.headerMarker(col.Version, x, in)
	}
	objects = append(objects, m.headerText(title, x, in.y, g.body, true, RoleInk))
	if col.Sorted != SortNone {
		objects = append(objects, m.sortArrow(col.Sorted, x+textWidth(title, g.body, true)+3, in))
	}
	if col.Sub != "" {
		objects = append(objects, m.headerSub(c, in))
	}
	return objects
}

func (m *Matrix) headerExtras(col *Column) float32 {
	var w float32
	if col.Version != nil {
		w += (14 + 8) * m.geo.factor
		if col.Version.Letter != "" {
			w += 5*m.geo.factor + textWidth(col.Version.Letter, m.geo.body, true)
		}
	}
	if col.Sorted != SortNone {
		w += 16 * m.geo.factor
	}
	return w
}

func (m *Matrix) headerMarker(v *VersionMark, x float32, in frame) ([]fyne.CanvasObject, float32) {
	g := &m.geo
	side := 14 * g.factor
	img := newIconImage()
	img.Resource = markerResource(v.Index, IsDark(m.Theme()))
	place(img, x, in.y+(g.line-side)/2, side, side)
	x += side + 8*g.factor
	if v.Letter == "" {
		return []fyne.CanvasObject{img}, x
	}
	letter := m.headerText(v.Letter, x-3*g.factor, in.y, g.body, true, RoleInk)
	return []fyne.CanvasObject{img, letter}, x + 5*g.factor + textWidth(v.Letter, g.body, true)
}

func (m *Matrix) headerText(s string, x, y, size float32, bold bool, role fyne.ThemeColorName) *canvas.Text {
	t := canvas.NewText("", nil)
	styleText(t, s, size, bold, m, role)
	place(t, x, y, textWidth(s, size, bold)+2, lineHeight(size))
	return t
}

func (m *Matrix) sortArrow(s Sorted, x float32, in frame) fyne.CanvasObject {
	img, name := newIconImage(), "up"
	if s == SortDown {
		name = "down"
	}
	side := 13 * m.geo.factor
	setIcon(img, name, Colour(m, RoleAccent))
	place(img, x, in.y+(m.geo.line-side)/2+1, side, side)
	return img
}

func (m *Matrix) headerSub(c int, in frame) fyne.CanvasObject {
	g := &m.geo
	s := cut(m.data.Columns[c].Sub, in.w, g.small, false)
	w := textWidth(s, g.small, false)
	x := in.x
	switch m.data.align(-1, c) {
	case AlignEnd:
		x = in.x + in.w - w
	case AlignCentre:
		x = in.x + (in.w-w)/2
	}
	return m.headerText(s, x, in.y+g.line, g.small, false, RoleMuted)
}
