package parts

import (
	"math"

	"fyne.io/fyne/v2"
)

// Distances inside the table at factor 1.
const (
	cellPad   float32 = 12
	subGap    float32 = 10
	barWidth  float32 = 34
	markSide  float32 = 15
	tickSide  float32 = 16
	markGap   float32 = 6
	indent    float32 = 16
	minColumn float32 = 56
	maxColumn float32 = 300
	wrapWidth float32 = 240 // what a wrapping cell asks for
	textLimit float32 = 560 // how far a text column grows into spare width
	looseness float32 = 26  // how much every column may loosen up in spare width
)

// geometry is where everything is. Positions are in content coordinates: x of
// column 0 starts at 0, x of column 1 at 0 again, in the scrolling part.
type geometry struct {
	factor, body, small float32 // text factor and sizes
	line                float32 // height of a line of body text

	natural []float32 // width each column asks for, uncapped
	value   []float32 // width of the sub-column of figures
	sub     []float32 // width of the sub-column of changes
	bars    []bool
	wraps   []bool // the column has cells that wrap
	widths  []float32
	x       []float32 // left edge of each column
	y       []float32 // top edge of each row, one more at the end
	head    float32   // height of the header

	viewport fyne.Size // size laid out for
}

func (g *geometry) right() float32 {
	if len(g.widths) < 2 {
		return 0
	}
	last := len(g.widths) - 1
	return g.x[last] + g.widths[last]
}

func (g *geometry) height() float32 { return g.y[len(g.y)-1] }

// first is the width of the frozen column.
func (g *geometry) first() float32 {
	if len(g.widths) == 0 {
		return 0
	}
	return g.widths[0]
}

// measure finds what the columns ask for.
func (m *Matrix) measure() {
	g, n := &m.geo, len(m.data.Columns)
	th := m.Theme()
	g.factor, g.body, g.small = factorOf(th), SizeBody.in(th), SizeCaption.in(th)
	g.line = lineHeight(g.body)
	g.natural, g.value, g.sub = make([]float32, n), make([]float32, n), make([]float32, n)
	g.bars, g.wraps = make([]bool, n), make([]bool, n)
	for c := range n {
		m.measureColumn(c)
	}
	g.head = g.line + 13*g.factor
	for i := range m.data.Columns {
		if m.data.Columns[i].Sub != "" {
			g.head = g.line + lineHeight(g.small) + 14*g.factor
		}
	}
	g.head = float32(int(g.head))
	if m.Headless {
		g.head = 0
	}
}

func (m *Matrix) measureColumn(c int) {
	g, f := &m.geo, m.geo.factor
	var text float32
	for r := range m.data.Rows {
		if m.data.Rows[r].Kind == RowSection {
			continue
		}
		cell := m.data.cell(r, c)
		w := textWidth(cell.Text, g.body, cell.Bold) + m.extras(cell)
		if cell.Wrap {
			g.wraps[c] = true
			w = fyne.Min(w, wrapWidth*f)
		}
		g.sub[c] = fyne.Max(g.sub[c], textWidth(cell.Sub, g.small, false))
		g.bars[c] = g.bars[c] || cell.Bar != 0
		switch {
		case c == 0: // a name and its unit share the line, whatever the others need
			if cell.Sub != "" {
				w += subGap*f + textWidth(cell.Sub, g.small, false)
			}
			text = fyne.Max(text, w)
		case m.data.align(r, c) == AlignEnd || cell.Sub != "":
			g.value[c] = fyne.Max(g.value[c], w)
		default:
			text = fyne.Max(text, w)
		}
	}
	block := g.value[c]
	if g.sub[c] > 0 && c > 0 {
		block += subGap*f + g.sub[c]
	}
	if g.bars[c] {
		block += subGap*f + barWidth*f
	}
	// Rounded up, so that whole widths later cut nothing off.
	g.natural[c] = ceil(fyne.Max(fyne.Max(block, text), m.headerWidth(c)) + 2*cellPad*f)
}

func ceil(x float32) float32 { return float32(math.Ceil(float64(x))) }

// extras is the room marks, ticks and indentation take beside the text.
func (m *Matrix) extras(cell *Cell) float32 {
	w := float32(cell.Indent) * indent
	if cell.Mark != MarkNone {
		w += markSide + markGap
	}
	if cell.Tick != TickNone {
		w += tickSide
		if cell.Text != "" {
			w += markGap + 2
		}
	}
	return w * m.geo.factor
}

func (m *Matrix) headerWidth(c int) float32 {
	col, g := &m.data.Columns[c], &m.geo
	w := textWidth(col.Title, g.body, true)
	if col.Version != nil {
		w += (14 + 5 + 8) * g.factor
		w += textWidth(col.Version.Letter, g.body, true)
	}
	if col.Sorted != SortNone {
		w += 16 * g.factor
	}
	return fyne.Max(w, textWidth(col.Sub, g.small, false))
}

// fitColumns shares the width out: what each asks for within its limits; spare
// width first to text that was cut, then a little to all; missing width from the
// text columns. What is still spare stays empty at the right.
func (m *Matrix) fitColumns(width float32) {
	g, n := &m.geo, len(m.data.Columns)
	g.widths, g.x = make([]float32, n), make([]float32, n)
	var sum float32
	for c := range n {
		lo, hi := m.limits(c)
		g.widths[c] = fyne.Max(lo, fyne.Min(hi, g.natural[c]))
		sum += g.widths[c]
	}
	if spare := width - sum; spare > 0 {
		m.grow(spare)
	} else {
		m.shrink(-spare)
	}
	var x float32
	for c := range n {
		g.widths[c] = float32(int(g.widths[c])) // whole units keep hairlines sharp
		if c > 0 {
			g.x[c] = x
			x += g.widths[c]
		}
	}
}

func (m *Matrix) limits(c int) (lo, hi float32) {
	col := &m.data.Columns[c]
	lo, hi = col.Min, col.Max
	if lo == 0 {
		lo = minColumn
	}
	if hi == 0 {
		hi = maxColumn
	}
	return lo * m.geo.factor, hi * m.geo.factor
}

// flexible columns hold text that can be cut or wrapped.
func (m *Matrix) flexible(c int) bool {
	return c == 0 || m.data.Columns[c].Text || m.geo.wraps[c]
}

func (m *Matrix) grow(spare float32) {
	g := &m.geo
	for c := range g.widths {
		if want := fyne.Min(m.wanted(c), textLimit*g.factor) - g.widths[c]; m.flexible(c) && want > 0 {
			add := fyne.Min(want, spare)
			g.widths[c] += add
			spare -= add
		}
	}
	if c := m.stretcher(); m.Stretch && spare > 0 && c < len(g.widths) {
		g.widths[c] += spare
		return
	}
	each := fyne.Min(looseness*g.factor, spare/float32(max(len(g.widths), 1)))
	for c := range g.widths {
		g.widths[c] += each
	}
}

// stretcher is the column that takes all spare width of a list: the first marked
// Text, else the frozen one.
func (m *Matrix) stretcher() int {
	for c := range m.data.Columns {
		if m.data.Columns[c].Text {
			return c
		}
	}
	return 0
}

// wanted is the natural width without the cap on wrapping cells.
func (m *Matrix) wanted(c int) float32 {
	g, w := &m.geo, m.geo.natural[c]
	if !g.wraps[c] {
		return w
	}
	for r := range m.data.Rows {
		if cell := m.data.cell(r, c); cell.Wrap {
			w = fyne.Max(w, textWidth(cell.Text, g.body, cell.Bold)+m.extras(cell)+2*cellPad*g.factor)
		}
	}
	return w
}

// shrink takes missing width from the flexible columns, each in proportion to
// what it can give. What cannot be had is scrolled to.
func (m *Matrix) shrink(missing float32) {
	g := &m.geo
	give := make([]float32, len(g.widths))
	var sum float32
	for c := range g.widths {
		if m.flexible(c) {
			give[c] = fyne.Max(0, g.widths[c]-m.floor(c))
			sum += give[c]
		}
	}
	if sum == 0 {
		return
	}
	share := fyne.Min(1, missing/sum)
	for c := range g.widths {
		g.widths[c] -= give[c] * share
	}
}

// floor is how narrow a flexible column may become: its figures and its header
// stay whole, the first column stays readable.
func (m *Matrix) floor(c int) float32 {
	g := &m.geo
	lo, _ := m.limits(c)
	if c == 0 {
		return fyne.Max(lo, fyne.Min(g.widths[c], 250*g.factor))
	}
	whole := fyne.Max(m.blockWidth(c), m.headerWidth(c)) + 2*cellPad*g.factor
	return fyne.Max(fyne.Max(lo, whole), fyne.Min(g.widths[c], 136*g.factor))
}

// stackRows finds the top edge of every row.
func (m *Matrix) stackRows() {
	g := &m.geo
	g.y = make([]float32, len(m.data.Rows)+1)
	for r := range m.data.Rows {
		g.y[r+1] = g.y[r] + m.rowHeight(r)
	}
}

func (m *Matrix) rowHeight(r int) float32 {
	g := &m.geo
	least := float32(int(g.line + 11*g.factor))
	if m.data.Rows[r].Kind == RowSection {
		return least + float32(int(6*g.factor))
	}
	lines := 1
	for c := range m.data.Rows[r].Cells {
		if cell := &m.data.Rows[r].Cells[c]; cell.Wrap && c < len(g.widths) {
			lines = max(lines, len(m.wrapped(cell, c)))
		}
	}
	return least + float32(int(float32(lines-1)*g.line))
}

// wrapped breaks a wrapping cell's text at its column's width.
func (m *Matrix) wrapped(cell *Cell, c int) []string {
	g := &m.geo
	return wrap(cell.Text, g.widths[c]-2*cellPad*g.factor-m.extras(cell), g.body, cell.Bold)
}

// rowAt and columnAt find what is at a content position, -1 for nothing.
func (m *Matrix) rowAt(y float32) int {
	g := &m.geo
	if y < 0 || y >= g.height() {
		return -1
	}
	lo, hi := 0, len(m.data.Rows)-1
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if g.y[mid] <= y {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return lo
}

func (m *Matrix) columnAt(x float32, frozen bool) int {
	g := &m.geo
	if frozen {
		if x >= 0 && x < g.first() {
			return 0
		}
		return -1
	}
	for c := 1; c < len(g.widths); c++ {
		if x >= g.x[c] && x < g.x[c]+g.widths[c] {
			return c
		}
	}
	return -1
}
