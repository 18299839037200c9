package parts

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// cellView draws one cell from plain canvas objects, made when first needed and
// reused for other cells as the table scrolls.
type cellView struct {
	lines  []*canvas.Text
	sub    *canvas.Text
	icon   *canvas.Image
	bar    *canvas.Rectangle
	zero   *canvas.Rectangle
	box    *canvas.Rectangle
	tick   [2]*canvas.Line
	strike *canvas.Line

	shown   Cell // what is drawn now
	align   Align
	kind    RowKind
	area    fyne.Position // where it was drawn
	size    fyne.Size
	valid   bool
	objects []fyne.CanvasObject
}

// box in which a cell is drawn.
type frame struct{ x, y, w, h float32 }

// draw brings the view in line with a cell and says whether it had to. Nothing
// happens when it already shows just that.
func (v *cellView) draw(m *Matrix, cell *Cell, col int, kind RowKind, align Align, f frame) bool {
	at, size := fyne.NewPos(f.x, f.y), fyne.NewSize(f.w, f.h)
	if v.valid && v.shown == *cell && v.kind == kind && v.align == align && v.area == at && v.size == size {
		return false
	}
	v.shown, v.kind, v.align, v.area, v.size, v.valid = *cell, kind, align, at, size, true
	v.objects = v.objects[:0]
	if kind == RowSection {
		v.drawSection(m, cell, col, f)
	} else {
		v.drawPlain(m, cell, col, align, f)
	}
	return true
}

func (v *cellView) drawSection(m *Matrix, cell *Cell, col int, f frame) {
	g := &m.geo
	in := frame{f.x + cellPad*g.factor, f.y + 3*g.factor, f.w - 2*cellPad*g.factor, f.h - 3*g.factor}
	if col == 0 && cell.Text != "" {
		name := cut(cell.Text, in.w, g.small, true)
		v.line(m, 0, name, g.small, true, RoleMuted, in, fyne.TextAlignLeading)
		after := textWidth(name, g.small, true) + subGap*g.factor
		in.x, in.w = in.x+after, in.w-after
	}
	if cell.Sub != "" {
		short := *cell
		short.Sub = cut(cell.Sub, in.w, g.small, false)
		v.drawSub(m, &short, RoleMuted, in, fyne.TextAlignLeading)
	}
}

func (v *cellView) drawPlain(m *Matrix, cell *Cell, col int, align Align, f frame) {
	g := &m.geo
	in := frame{f.x + cellPad*g.factor, f.y, f.w - 2*cellPad*g.factor, f.h}
	in.x += float32(cell.Indent) * indent * g.factor
	in.w -= float32(cell.Indent) * indent * g.factor
	if g.bars[col] {
		v.drawBar(m, cell, col, align, in)
	}
	text := v.splitSub(m, cell, col, align, in)
	if cell.Tick != TickNone {
		text = v.drawTick(m, cell, align, text)
	}
	v.drawText(m, cell, align, text)
}

// splitSub draws the second run in its sub-column and returns what is left for
// the text. Where the column starts at the left, the pair starts there too and
// the figures still line up at the right of theirs.
func (v *cellView) splitSub(m *Matrix, cell *Cell, col int, align Align, in frame) frame {
	g := &m.geo
	figures := align == AlignEnd || cell.Sub != ""
	if !figures || g.sub[col] == 0 && !g.bars[col] && m.data.align(-1, col) == AlignEnd {
		return in
	}
	block := m.blockWidth(col)
	x := in.x
	if m.data.align(-1, col) == AlignEnd {
		x = in.x + in.w - block
	}
	if col == 0 { // the units after a name sit at the column's end
		if cell.Sub == "" {
			return in
		}
		v.drawSub(m, cell, v.subRole(cell), frame{in.x, in.y, in.w, in.h}, fyne.TextAlignTrailing)
		return frame{in.x, in.y, in.w - subGap*g.factor - textWidth(cell.Sub, g.small, false), in.h}
	}
	if cell.Sub != "" {
		sx := x + g.value[col] + subGap*g.factor
		v.drawSub(m, cell, v.subRole(cell), frame{sx, in.y, g.sub[col], in.h}, fyne.TextAlignTrailing)
	}
	return frame{x, in.y, g.value[col], in.h}
}

// blockWidth is figures, changes and bars of a column together.
func (m *Matrix) blockWidth(col int) float32 {
	g := &m.geo
	w := g.value[col]
	if g.sub[col] > 0 {
		w += subGap*g.factor + g.sub[col]
	}
	if g.bars[col] {
		w += (subGap + barWidth) * g.factor
	}
	return w
}

func (v *cellView) subRole(cell *Cell) fyne.ThemeColorName {
	switch {
	case cell.Trend == TrendLighter, cell.Trend == TrendAuto && cell.Bar < 0:
		return RoleLighter
	case cell.Trend == TrendHeavier, cell.Trend == TrendAuto && cell.Bar > 0:
		return RoleHeavier
	}
	return RoleMuted
}

func (v *cellView) drawSub(m *Matrix, cell *Cell, role fyne.ThemeColorName, f frame, a fyne.TextAlign) {
	if v.sub == nil {
		v.sub = canvas.NewText("", nil)
	}
	g := &m.geo
	v.sub.Alignment = a
	styleText(v.sub, cell.Sub, g.small, false, m, role)
	top, h := f.y+(firstLine(g, f.h)-lineHeight(g.small))/2, lineHeight(g.small)
	if v.kind == RowSection {
		top = f.y + (f.h-h)/2
	} else {
		top += baselineDrop(g)
	}
	place(v.sub, f.x, top, f.w, h)
	v.objects = append(v.objects, v.sub)
}

// baselineDrop sets small text on the baseline of the body text beside it.
func baselineDrop(g *geometry) float32 { return (g.line - lineHeight(g.small)) * 0.28 }

// firstLine is the height of the part of a row its first line is centred in.
func firstLine(g *geometry, h float32) float32 {
	return fyne.Min(h, float32(int(g.line+11*g.factor)))
}

// drawBar draws the change bar: left of a hairline for lighter, right for heavier.
func (v *cellView) drawBar(m *Matrix, cell *Cell, col int, align Align, in frame) {
	if cell.Bar == 0 {
		return
	}
	g := &m.geo
	if v.bar == nil {
		v.bar, v.zero = canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	}
	x := in.x + m.blockWidth(col) - barWidth*g.factor
	if m.data.align(-1, col) == AlignEnd {
		x = in.x + in.w - barWidth*g.factor
	}
	half := barWidth * g.factor / 2
	share := float32(max(-1, min(1, cell.Bar)))
	length := fyne.Max(1.5, half*abs(share))
	role, left := RoleLighter, x+half-length
	if share > 0 {
		role, left = RoleHeavier, x+half
	}
	h := 8 * g.factor
	top := in.y + (firstLine(g, in.h)-h)/2
	v.bar.CornerRadius = 0
	if length > 4 { // a sliver with round corners looks like a lens
		v.bar.CornerRadius = 1.5
	}
	setFill(v.bar, Colour(m, role))
	setFill(v.zero, Colour(m, RoleOutline))
	place(v.bar, left, top, length, h)
	place(v.zero, x+half-0.5, top-2*g.factor, 1, h+4*g.factor)
	v.objects = append(v.objects, v.bar, v.zero)
}

func abs(x float32) float32 {
	if x < 0 {
		return -x
	}
	return x
}

func setFill(r *canvas.Rectangle, c color.Color) {
	if r.FillColor != c {
		r.FillColor = c
		r.Refresh()
	}
}

// drawTick draws the checkbox and returns the room after it.
func (v *cellView) drawTick(m *Matrix, cell *Cell, align Align, in frame) frame {
	if v.box == nil {
		v.box = canvas.NewRectangle(nil)
		v.box.CornerRadius = 4
		v.tick = [2]*canvas.Line{canvas.NewLine(nil), canvas.NewLine(nil)}
	}
	f := m.geo.factor
	side := tickSide * f
	x := in.x
	if cell.Text == "" && align == AlignCentre {
		x = in.x + (in.w-side)/2
	}
	y := in.y + (firstLine(&m.geo, in.h)-side)/2
	place(v.box, x, y, side, side)
	v.styleTick(m, cell.Tick)
	v.objects = append(v.objects, v.box)
	if cell.Tick == TickDisabled { // a dash: not to be had here
		v.tick[0].Position1, v.tick[0].Position2 = fyne.NewPos(x+side*0.28, y+side/2), fyne.NewPos(x+side*0.72, y+side/2)
		v.objects = append(v.objects, v.tick[0])
	}
	if cell.Tick == TickOn {
		knee := fyne.NewPos(x+side*0.43, y+side*0.70)
		v.tick[0].Position1, v.tick[0].Position2 = fyne.NewPos(x+side*0.24, y+side*0.52), knee
		v.tick[1].Position1, v.tick[1].Position2 = knee, fyne.NewPos(x+side*0.77, y+side*0.31)
		v.objects = append(v.objects, v.tick[0], v.tick[1])
	}
	used := side + (markGap+2)*f
	return frame{in.x + used, in.y, in.w - used, in.h}
}

func (v *cellView) styleTick(m *Matrix, t Tick) {
	v.box.FillColor, v.box.StrokeColor, v.box.StrokeWidth = Colour(m, RoleCard), Colour(m, RoleOutline), 1.5
	switch t {
	case TickOn:
		v.box.FillColor, v.box.StrokeColor = Colour(m, RoleAccent), Colour(m, RoleAccent)
	case TickDisabled:
		v.box.FillColor, v.box.StrokeColor, v.box.StrokeWidth = Colour(m, RoleHeader), Colour(m, RoleHairline), 1
	}
	v.box.Refresh()
	ink := RoleOnAccent
	if t == TickDisabled {
		ink = RoleOutline
	}
	for _, l := range v.tick {
		l.StrokeColor, l.StrokeWidth = Colour(m, ink), 2
	}
}

var markIcons = map[Mark]struct {
	name string
	role fyne.ThemeColorName
}{
	MarkLook: {"look", RoleLook}, MarkError: {"error", RoleError}, MarkMet: {"met", RoleLighter},
	MarkMissed: {"missed", RoleLook}, MarkAssumed: {"assumed", RoleMuted}, MarkPending: {"pending", RoleMuted},
}

func (v *cellView) drawText(m *Matrix, cell *Cell, align Align, in frame) {
	g := &m.geo
	lines := []string{cell.Text}
	if cell.Wrap {
		lines = wrap(cell.Text, in.w-m.markRoom(cell), g.body, cell.Bold)
	} else {
		lines[0] = cut(cell.Text, in.w-m.markRoom(cell), g.body, cell.Bold)
	}
	width := textWidth(lines[0], g.body, cell.Bold)
	x := in.x + m.markRoom(cell)
	a := fyne.TextAlignLeading
	switch align {
	case AlignEnd:
		a, x = fyne.TextAlignTrailing, in.x+in.w-width
	case AlignCentre:
		if cell.Tick == TickNone {
			a, x = fyne.TextAlignCenter, in.x+(in.w-width)/2
		}
	}
	if cell.Mark != MarkNone {
		v.drawMark(m, cell.Mark, x-m.markRoom(cell), in)
	}
	role := RoleInk
	if cell.Muted || cell.Struck {
		role = RoleMuted
	}
	first := firstLine(g, in.h)
	for i, s := range lines {
		if s != "" {
			left := frame{x, in.y + float32(i)*g.line, fyne.Max(in.x+in.w-x, 1), first}
			if a != fyne.TextAlignLeading {
				left.x, left.w = in.x, in.w
			}
			v.line(m, i, s, g.body, cell.Bold, role, left, a)
		}
	}
	if cell.Struck && width > 0 {
		v.drawStrike(m, x, in.y+first/2+1, width)
	}
}

func (m *Matrix) markRoom(cell *Cell) float32 {
	if cell.Mark == MarkNone {
		return 0
	}
	if cell.Text == "" {
		return markSide * m.geo.factor
	}
	return (markSide + markGap) * m.geo.factor
}

func (v *cellView) drawMark(m *Matrix, mark Mark, x float32, in frame) {
	if v.icon == nil {
		v.icon = newIconImage()
	}
	side := markSide * m.geo.factor
	name, colour := markIcon(m, mark)
	setIcon(v.icon, name, colour)
	place(v.icon, x, in.y+(firstLine(&m.geo, in.h)-side)/2, side, side)
	v.objects = append(v.objects, v.icon)
}

func (v *cellView) drawStrike(m *Matrix, x, y, w float32) {
	if v.strike == nil {
		v.strike = canvas.NewLine(nil)
	}
	v.strike.StrokeColor, v.strike.StrokeWidth = Colour(m, RoleMuted), 1
	v.strike.Position1, v.strike.Position2 = fyne.NewPos(x, y), fyne.NewPos(x+w, y)
	v.objects = append(v.objects, v.strike)
}

// line draws line number i of the text, centred in the height of its frame.
func (v *cellView) line(m *Matrix, i int, s string, size float32, bold bool, role fyne.ThemeColorName, f frame, a fyne.TextAlign) {
	for len(v.lines) <= i {
		v.lines = append(v.lines, canvas.NewText("", nil))
	}
	t := v.lines[i]
	t.Alignment = a
	styleText(t, s, size, bold, m, role)
	h := lineHeight(size)
	place(t, f.x, f.y+(f.h-h)/2, f.w, h)
	v.objects = append(v.objects, t)
}
