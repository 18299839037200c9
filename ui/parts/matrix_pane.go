package parts

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

type paneKind int

const (
	paneCorner paneKind = iota // header of the frozen column
	paneHead                   // header of the others
	paneSide                   // the frozen column
	paneBody                   // the others
)

func (k paneKind) frozen() bool  { return k == paneCorner || k == paneSide }
func (k paneKind) heading() bool { return k == paneCorner || k == paneHead }

// pane is a quarter of the table: it holds the canvas objects of its cells, in
// content coordinates, and takes the mouse for them.
type pane struct {
	widget.BaseWidget
	m       *Matrix
	kind    paneKind
	hover   *canvas.Rectangle
	tint    *canvas.Rectangle // ground of the selected cell
	frame   *canvas.Rectangle // border of the selected cell
	objects []fyne.CanvasObject
}

func newPane(m *Matrix, k paneKind) *pane {
	p := &pane{m: m, kind: k}
	p.hover, p.tint, p.frame = canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent), canvas.NewRectangle(color.Transparent)
	p.frame.CornerRadius = 3
	for _, r := range []*canvas.Rectangle{p.hover, p.tint, p.frame} {
		r.Hide()
	}
	p.ExtendBaseWidget(p)
	return p
}

// paneRenderer only hands out the list the Matrix keeps.
type paneRenderer struct{ p *pane }

func (p *pane) CreateRenderer() fyne.WidgetRenderer { return paneRenderer{p} }
func (r paneRenderer) Destroy()                     {}
func (r paneRenderer) Layout(fyne.Size)             {}
func (r paneRenderer) MinSize() fyne.Size           { return fyne.Size{} }
func (r paneRenderer) Refresh()                     {}
func (r paneRenderer) Objects() []fyne.CanvasObject { return r.p.objects }

// spot finds the cell under the pointer; row -1 in the header.
func (p *pane) spot(at fyne.Position) (cellID, bool) {
	col := p.m.columnAt(at.X, p.kind.frozen())
	if p.kind.heading() {
		return cellID{-1, col}, col >= 0
	}
	row := p.m.rowAt(at.Y)
	return cellID{row, col}, row >= 0 && col >= 0
}

// MouseDown acts on the press: a tap would wait for a double tap and be lost when
// the pointer slips.
func (p *pane) MouseDown(e *desktop.MouseEvent) {
	m := p.m
	m.typed = typeAhead{}
	m.hint.hide()
	id, ok := p.spot(e.Position)
	if !ok {
		m.closeEditor()
		m.takeFocus()
		return
	}
	switch {
	case e.Button == desktop.MouseButtonSecondary:
		m.menuAt(id, e.AbsolutePosition)
	case p.kind.heading():
		if m.OnHeader != nil {
			m.closeEditor()
			m.OnHeader(id.col)
		}
	default:
		m.pressed(id, e.Position.X-m.cellFrame(id).x)
	}
}

// MouseUp is part of desktop.Mouseable.
func (p *pane) MouseUp(*desktop.MouseEvent) {}

// MouseIn is part of desktop.Hoverable.
func (p *pane) MouseIn(e *desktop.MouseEvent) { p.MouseMoved(e) }

// MouseMoved tints the row and waits to show a tip.
func (p *pane) MouseMoved(e *desktop.MouseEvent) {
	id, ok := p.spot(e.Position)
	if !ok {
		p.MouseOut()
		return
	}
	p.m.setHover(id.row)
	p.m.restOn(p, id)
}

// MouseOut is part of desktop.Hoverable.
func (p *pane) MouseOut() {
	p.m.setHover(-1)
	p.m.press.tip = cellID{-2, -2}
	p.m.hint.hide()
}

// clip shows a part of a pane and takes the wheel.
type clip struct {
	widget.BaseWidget
	m *Matrix
	p *pane
}

func newClip(m *Matrix, p *pane) *clip {
	c := &clip{m: m, p: p}
	c.ExtendBaseWidget(c)
	return c
}

// Scrolled moves the table; what it cannot use goes to the page.
func (c *clip) Scrolled(e *fyne.ScrollEvent) { c.m.wheel(e) }

func (c *clip) CreateRenderer() fyne.WidgetRenderer { return onlyChild{c.p} }

// holder shows a whole pane without clipping it.
type holder struct {
	widget.BaseWidget
	p *pane
}

func newHolder(p *pane) *holder {
	h := &holder{p: p}
	h.ExtendBaseWidget(h)
	return h
}

func (h *holder) CreateRenderer() fyne.WidgetRenderer { return onlyChild{h.p} }

type onlyChild struct{ p *pane }

func (r onlyChild) Destroy()                     {}
func (r onlyChild) Layout(fyne.Size)             {}
func (r onlyChild) MinSize() fyne.Size           { return fyne.NewSize(1, 1) }
func (r onlyChild) Refresh()                     {}
func (r onlyChild) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.p} }

// lastPress remembers a press to know a double one, and the cell a tip waits for.
type lastPress struct {
	at  cellID
	on  time.Time
	tip cellID
}

const doublePress = 400 * time.Millisecond

// pressed selects a cell, toggles a tick when the press is on it, and activates
// or edits on the second press.
func (m *Matrix) pressed(id cellID, x float32) {
	m.closeEditor()
	if !m.data.selectable(id.row) {
		m.takeFocus()
		return
	}
	now := timing.Now()
	double := m.press.at == id && !m.press.on.IsZero() && now.Sub(m.press.on) < doublePress
	m.press.at, m.press.on = id, now
	m.takeFocus()
	m.Select(id.row, id.col)
	cell := m.data.cell(id.row, id.col)
	switch {
	case m.onTick(cell, id, x):
		m.press.on = time.Time{}
		m.toggle()
	case double && cell.Editable:
		m.startEdit(m.editText(cell), true)
	case double && m.OnActivate != nil:
		m.press.on = time.Time{}
		m.OnActivate(id.row, id.col)
	}
}

// onTick says whether a press is on the box; a cell with nothing but a box takes
// presses anywhere.
func (m *Matrix) onTick(cell *Cell, id cellID, x float32) bool {
	if cell.Tick == TickNone {
		return false
	}
	if cell.Text == "" {
		return true
	}
	return x < (cellPad+tickSide+float32(cell.Indent)*indent+markGap)*m.geo.factor
}

func (m *Matrix) menuAt(id cellID, at fyne.Position) {
	m.closeEditor()
	m.takeFocus()
	if id.row >= 0 {
		if !m.data.selectable(id.row) {
			return
		}
		m.Select(id.row, id.col)
	}
	if m.OnMenu != nil {
		m.OnMenu(id.row, id.col, at)
	}
}

// takeFocus asks the window who has the keyboard: a table that was put out of the
// window while it had it is never told that it lost it.
func (m *Matrix) takeFocus() {
	if !hasFocus(m) {
		focusOn(m)
	}
}

func (m *Matrix) setHover(row int) {
	if row >= 0 && !m.data.selectable(row) {
		row = -1
	}
	if row != m.hover {
		m.hover = row
		m.showHover()
	}
}

// restOn waits to show the tip of a cell or a header, or the text of a cell that
// was cut short.
func (m *Matrix) restOn(p *pane, id cellID) {
	if m.press.tip == id {
		return
	}
	m.press.tip = id
	m.hint.restAt(p, m.tipOf(id), func() (fyne.Position, fyne.Size) {
		f := m.cellFrame(id)
		return fyne.NewPos(f.x, f.y), fyne.NewSize(f.w, f.h)
	})
}

func (m *Matrix) tipOf(id cellID) string {
	if id.row < 0 {
		return m.data.Columns[id.col].Tip
	}
	cell := m.data.cell(id.row, id.col)
	if cell.Tip == "" && !cell.Wrap && m.wasCut(id, cell) {
		return cell.Text
	}
	return cell.Tip
}

func (m *Matrix) wasCut(id cellID, cell *Cell) bool {
	g := &m.geo
	room := g.widths[id.col] - 2*cellPad*g.factor - m.extras(cell)
	if id.col == 0 && cell.Sub != "" {
		room -= subGap*g.factor + textWidth(cell.Sub, g.small, false)
	}
	return textWidth(cell.Text, g.body, cell.Bold) > room+0.5
}

// cellFrame is where a cell is, in its pane's coordinates; row -1 is the header.
func (m *Matrix) cellFrame(id cellID) frame {
	g := &m.geo
	if id.col < 0 || id.col >= len(g.widths) || id.row >= len(g.y)-1 {
		return frame{}
	}
	f := frame{x: g.x[id.col], w: g.widths[id.col], h: g.head}
	if id.row >= 0 {
		f.y, f.h = g.y[id.row], g.y[id.row+1]-g.y[id.row]
	}
	return f
}
