package manuscript

// column is one of a table. Its share is of the table's width.
type column struct {
	head  string
	share float64
	right bool // numbers
	blank bool // to write in: a line under what is given
	bold  bool
	box   bool // to tick
}

// cells is one row; struck is crossed out.
type cells struct {
	text   []string
	struck bool
}

const (
	tableSize = 9.0
	cellGap   = 10.0
	cellLead  = tableSize * 1.24
	tickBox   = 9.0
)

// table sets rows under heads that are repeated on every page it needs. A row is
// never parted. Of what is set above on the same page, so much is kept.
func (f *flow) table(cols []column, rows []cells) {
	widths := f.widths(cols)
	f.need(f.headsHeight(cols, widths) + f.rowHeight(cols, widths, rows, 0))
	outer := f.again
	f.heads(cols, widths)
	f.again = func() {
		if outer != nil {
			outer()
		}
		f.heads(cols, widths)
	}
	for i := range rows {
		h := f.rowHeight(cols, widths, rows, i)
		f.need(h)
		f.row(cols, widths, rows[i], h)
	}
	f.again = outer
	f.y += 8
}

// widths shares the width of the page out among columns.
func (f *flow) widths(cols []column) []float64 {
	out, total := make([]float64, len(cols)), 0.0
	for _, c := range cols {
		total += c.share
	}
	for i, c := range cols {
		out[i] = c.share / total * (f.wide() - cellGap*float64(len(cols)-1))
	}
	return out
}

// tableHeight is that of a whole table on one page.
func (f *flow) tableHeight(cols []column, rows []cells) float64 {
	widths := f.widths(cols)
	h := f.headsHeight(cols, widths) + 8
	for i := range rows {
		h += f.rowHeight(cols, widths, rows, i)
	}
	return h
}

func (f *flow) headsHeight(cols []column, widths []float64) float64 {
	n := 1
	for i, c := range cols {
		n = max(n, len(f.wrap(c.head, smallSize, widths[i], true)))
	}
	return float64(n)*smallSize*1.2 + 5
}

// heads sets the names of the columns, standing on a line.
func (f *flow) heads(cols []column, widths []float64) {
	h := f.headsHeight(cols, widths)
	x := marginSide
	for i, c := range cols {
		lines := f.wrap(c.head, smallSize, widths[i], true)
		for j, l := range lines {
			y := f.y + h - 6 - float64(len(lines)-1-j)*smallSize*1.2
			if c.right {
				f.putRight(f.now(), x+widths[i], y, smallSize, true, false, l)
			} else {
				f.put(f.now(), x, y, smallSize, true, false, l)
			}
		}
		x += widths[i] + cellGap
	}
	f.y += h
	f.now().rule(marginSide, f.y-2, marginSide+f.wide(), f.y-2, thick, false)
}

func (f *flow) rowHeight(cols []column, widths []float64, rows []cells, i int) float64 {
	n := 1
	if i < len(rows) {
		for c, text := range rows[i].text {
			n = max(n, len(f.wrap(text, tableSize, widths[c], cols[c].bold)))
		}
	}
	h := float64(n)*cellLead + 4
	for _, c := range cols {
		if c.blank {
			h = max(h, 20) // room to write by hand
		}
	}
	return h
}

// row sets one row and a fine line under it.
func (f *flow) row(cols []column, widths []float64, r cells, h float64) {
	p, x := f.now(), marginSide
	for i, c := range cols {
		base := f.y + tableSize + 1.5
		if c.box {
			p.box(x, base-tickBox+1, tickBox, tickBox, thin)
		}
		for _, l := range f.wrap(r.text[i], tableSize, widths[i], c.bold) {
			at := x
			if c.right {
				at = x + widths[i] - f.width(l, tableSize, c.bold)
			}
			f.put(p, at, base, tableSize, c.bold, r.struck, l)
			if r.struck {
				p.rule(at, base-tableSize*0.3, at+f.width(l, tableSize, c.bold), base-tableSize*0.3, thin, false)
			}
			base += cellLead
		}
		if c.blank && r.text[i] == "" {
			p.rule(x, f.y+h-3, x+widths[i], f.y+h-3, thin, false)
		}
		x += widths[i] + cellGap
	}
	f.y += h
	if !anyBlank(cols) {
		p.rule(marginSide, f.y-1, marginSide+f.wide(), f.y-1, 0.3, true)
	}
}

func anyBlank(cols []column) bool {
	for _, c := range cols {
		if c.blank {
			return true
		}
	}
	return false
}
