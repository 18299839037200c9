package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// showSelection puts the frame on the selected cell: two units of green when the
// table has the keyboard, a thin line when not.
func (m *Matrix) showSelection() {
	if m.WholeRow {
		m.showSelectedRow()
		return
	}
	for _, k := range []paneKind{paneSide, paneBody} {
		p := m.panes[k]
		row := m.data.selectable(m.sel.row) && m.sel.row < len(m.geo.y)-1
		on := row && (m.sel.col == 0) == k.frozen()
		show(p.frame, on)
		show(p.tint, on || row && m.Follow)
		if row && m.Follow {
			m.tintRow(p, k)
		}
		if !on {
			continue
		}
		f := m.cellFrame(m.sel)
		width, role := float32(1), RoleOutline
		if m.focused {
			width, role = 2, RoleAccent
		}
		c := Colour(m, role)
		if p.frame.StrokeWidth != width || p.frame.StrokeColor != c {
			p.frame.StrokeWidth, p.frame.StrokeColor = width, c
			p.frame.Refresh()
		}
		place(p.frame, f.x, f.y-1, f.w, f.h+1)
		if !m.Follow {
			setFill(p.tint, Colour(m, RoleSelected))
			place(p.tint, f.x, f.y, f.w, f.h-1)
		}
	}
}

// tintRow tints the chosen row across a pane.
func (m *Matrix) tintRow(p *pane, k paneKind) {
	f := m.cellFrame(cellID{m.sel.row, 0})
	width := m.geo.first()
	if !k.frozen() {
		width = fyne.Max(m.geo.right(), m.room().Width)
	}
	setFill(p.tint, Colour(m, RoleSelected))
	place(p.tint, 0, f.y, width, f.h-1)
}

// showSelectedRow tints the row and puts a bar at its start, green when the table
// has the keyboard.
func (m *Matrix) showSelectedRow() {
	on := m.data.selectable(m.sel.row) && m.sel.row < len(m.geo.y)-1
	side, body := m.panes[paneSide], m.panes[paneBody]
	show(side.tint, on)
	show(body.tint, on)
	show(side.frame, on)
	if !on {
		return
	}
	f := m.cellFrame(cellID{m.sel.row, 0})
	m.tintRow(side, paneSide)
	m.tintRow(body, paneBody)
	role := RoleOutline
	if m.focused {
		role = RoleAccent
	}
	setFill(side.frame, Colour(m, role))
	place(side.frame, 0, f.y, 3, f.h-1)
}

// showHover tints the row under the pointer.
func (m *Matrix) showHover() {
	for _, k := range []paneKind{paneSide, paneBody} {
		p := m.panes[k]
		on := m.hover >= 0 && m.hover < len(m.geo.y)-1
		show(p.hover, on)
		if !on {
			continue
		}
		f := m.cellFrame(cellID{m.hover, 0})
		w := m.geo.first()
		if k == paneBody {
			w = fyne.Max(m.geo.right(), m.geo.viewport.Width-m.geo.first())
		}
		setFill(p.hover, Colour(m, RoleHover))
		place(p.hover, 0, f.y, w, f.h-1)
	}
}

// room is the size of the scrolling part.
func (m *Matrix) room() fyne.Size {
	g := &m.geo
	return fyne.NewSize(fyne.Max(g.viewport.Width-g.first(), 0), fyne.Max(g.viewport.Height-g.head, 0))
}

// limit returns the furthest offset.
func (m *Matrix) limit() fyne.Position {
	g, room := &m.geo, m.room()
	x, y := g.right()-room.Width, g.height()-room.Height
	if m.Whole {
		y = 0
	}
	// Room for the thumb, so that it never covers the last row or column.
	if x > 0.5 && y > -thumbSide && !m.Whole {
		y += thumbSide
	}
	return fyne.NewPos(fyne.Max(x, 0), fyne.Max(y, 0))
}

// setOffset scrolls to a content position, kept inside the content.
func (m *Matrix) setOffset(to fyne.Position) {
	lim := m.limit()
	m.offset = fyne.NewPos(fyne.Max(0, fyne.Min(to.X, lim.X)), fyne.Max(0, fyne.Min(to.Y, lim.Y)))
	g := &m.geo
	for k, p := range m.panes {
		at := fyne.NewPos(-m.offset.X, -m.offset.Y)
		size := fyne.NewSize(fyne.Max(g.right(), m.room().Width), fyne.Max(g.height(), m.room().Height))
		if paneKind(k).frozen() {
			at.X, size.Width = 0, g.first()
		}
		if paneKind(k).heading() {
			at.Y, size.Height = 0, g.head
		}
		p.Resize(size)
		p.Move(at)
	}
	m.moveThumbs()
}

// scrollTo scrolls and draws the rows that came into sight.
func (m *Matrix) scrollTo(to fyne.Position) {
	was := m.offset
	m.setOffset(to)
	if m.offset != was {
		m.hint.hide()
		m.drawRows()
		m.repaint()
	}
}

// Scroll returns and SetScroll restores how far the table is scrolled.
func (m *Matrix) Scroll() fyne.Position { return m.offset }

// SetScroll scrolls to a position kept from Scroll.
func (m *Matrix) SetScroll(to fyne.Position) {
	if m.sized {
		m.scrollTo(to)
	} else {
		m.offset = to
	}
}

func (m *Matrix) wheel(e *fyne.ScrollEvent) {
	m.closeEditor()
	was := m.offset
	d := e.Scrolled
	if modifiers()&fyne.KeyModifierShift != 0 && d.DX == 0 {
		d.DX, d.DY = d.DY, 0
	}
	m.scrollTo(m.offset.SubtractXY(d.DX, d.DY))
	if m.offset == was && m.Outer != nil {
		m.Outer.Scrolled(e)
	}
}

// reveal scrolls just enough to show the selected cell.
func (m *Matrix) reveal() {
	if !m.sized || m.sel.row < 0 || m.sel.row >= len(m.geo.y)-1 {
		return
	}
	f, room, to := m.cellFrame(m.sel), m.room(), m.offset
	if f.y < to.Y {
		to.Y = f.y
	} else if f.y+f.h > to.Y+room.Height {
		to.Y = f.y + f.h - room.Height
	}
	if m.sel.row == m.nearest(0, 1) {
		to.Y = 0 // show the section above the first row too
	}
	if m.sel.col > 0 {
		if f.x < to.X || f.w > room.Width {
			to.X = f.x
		} else if f.x+f.w > to.X+room.Width {
			to.X = f.x + f.w - room.Width
		}
	}
	m.scrollTo(to)
}

const thumbSide float32 = 12

// scrollThumb is a slim scroll bar: drag the thumb, press beside it for a page.
type scrollThumb struct {
	widget.BaseWidget
	m        *Matrix
	vertical bool
	hovered  bool
	at, long float32 // place and length of the thumb along the bar
	face     *canvas.Rectangle
}

func newThumb(m *Matrix, vertical bool) *scrollThumb {
	t := &scrollThumb{m: m, vertical: vertical, face: canvas.NewRectangle(color.Transparent)}
	t.ExtendBaseWidget(t)
	t.Hide()
	return t
}

func (t *scrollThumb) CreateRenderer() fyne.WidgetRenderer {
	d := &drawn{objects: []fyne.CanvasObject{t.face}}
	d.min = func() fyne.Size { return fyne.NewSquareSize(thumbSide) }
	d.layout = func(fyne.Size) { t.draw() }
	d.refresh = t.draw
	return d.start()
}

func (t *scrollThumb) draw() {
	thick := float32(5)
	if t.hovered {
		thick = 8
	}
	t.face.CornerRadius = thick / 2
	c := color.NRGBAModel.Convert(Colour(t.m, RoleOutline))
	setFill(t.face, c)
	if t.vertical {
		place(t.face, t.Size().Width-thick-2, t.at, thick, t.long)
	} else {
		place(t.face, t.at, t.Size().Height-thick-2, t.long, thick)
	}
}

func (t *scrollThumb) length() float32 {
	if t.vertical {
		return t.Size().Height
	}
	return t.Size().Width
}

// MouseIn is part of desktop.Hoverable.
func (t *scrollThumb) MouseIn(*desktop.MouseEvent) { t.hovered = true; t.draw() }

// MouseMoved is part of desktop.Hoverable.
func (t *scrollThumb) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is part of desktop.Hoverable.
func (t *scrollThumb) MouseOut() { t.hovered = false; t.draw() }

// MouseDown scrolls a page when the press is beside the thumb.
func (t *scrollThumb) MouseDown(e *desktop.MouseEvent) {
	t.m.closeEditor()
	p, page := e.Position.X, t.m.room().Width
	if t.vertical {
		p, page = e.Position.Y, t.m.room().Height
	}
	switch {
	case p < t.at:
		t.by(-page * 0.9)
	case p > t.at+t.long:
		t.by(page * 0.9)
	}
}

// MouseUp is part of desktop.Mouseable.
func (t *scrollThumb) MouseUp(*desktop.MouseEvent) {}

// Dragged moves the content with the thumb.
func (t *scrollThumb) Dragged(e *fyne.DragEvent) {
	free := t.length() - t.long
	if free <= 0 {
		return
	}
	lim := t.m.limit()
	if t.vertical {
		t.by(e.Dragged.DY / free * lim.Y)
	} else {
		t.by(e.Dragged.DX / free * lim.X)
	}
}

// DragEnd is part of fyne.Draggable.
func (t *scrollThumb) DragEnd() {}

func (t *scrollThumb) by(d float32) {
	if t.vertical {
		t.m.scrollTo(t.m.offset.AddXY(0, d))
	} else {
		t.m.scrollTo(t.m.offset.AddXY(d, 0))
	}
}

func (m *Matrix) placeThumbs(wide, high bool, body frame) {
	show(m.bars[0], high)
	show(m.bars[1], wide)
	place(m.bars[0], body.x+body.w-thumbSide, body.y, thumbSide, fyne.Max(body.h, 1))
	place(m.bars[1], body.x, body.y+body.h-thumbSide, fyne.Max(body.w, 1), thumbSide)
}

func (m *Matrix) moveThumbs() {
	room, lim := m.room(), m.limit()
	for i, t := range m.bars {
		free, limit, offset, seen := t.length(), lim.X, m.offset.X, room.Width
		if i == 0 {
			limit, offset, seen = lim.Y, m.offset.Y, room.Height
		}
		t.long = fyne.Max(28, free*seen/fyne.Max(seen+limit, 1))
		t.at = 0
		if limit > 0 {
			t.at = (free - t.long) * offset / limit
		}
		t.draw()
	}
}
