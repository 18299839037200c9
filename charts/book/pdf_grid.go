package book

import (
	"parewell/charts/manuscript"
)

// grid sets a table; its head row stays with the first row under it. Columns
// share the width by their longest words and texts.
func (s *pdfSetter) grid(b *block, wide float64) []strip {
	size := pdfSize - 0.6
	cols := s.columns(b, size, wide)
	var out []strip
	for n, row := range b.rows {
		out = append(out, s.gridRow(b, n, row, cols, size, wide))
	}
	whole := len(out) <= wholeTable
	for i := range out[:len(out)-1] {
		out[i].keep = whole || i == 0
	}
	if len(out) > 1 {
		out[len(out)-1].high += 4
	}
	if b.text != "" {
		out[len(out)-1].keep = true
		out = append(out, s.lines(b.text, sized(styleSmall), false, true, wide, 0, 2)...)
	}
	return out
}

// wholeTable is the most rows of a table that is never parted.
const wholeTable = 13

// cellGap parts columns.
const cellGap = 8.0

// columns shares the width: each column gets what its longest line asks for;
// where that is too much the widest gives way.
func (s *pdfSetter) columns(b *block, size, wide float64) []float64 {
	out := make([]float64, len(b.rows[0]))
	sum := 0.0
	for i := range out {
		for n, row := range b.measured() {
			out[i] = max(out[i], s.Width(row[i], size, n == 0)+s.inset(b, n, i))
		}
		out[i] += cellGap
		sum += out[i]
	}
	widest := 0
	for i := range out {
		if out[i] > out[widest] {
			widest = i
		}
	}
	switch {
	case sum > wide:
		out[widest] = max(out[widest]-(sum-wide), wide/float64(len(out))/1.5)
	case len(b.right) > 1 && b.right[1]: // figures stand at the right edge
		out[0] += wide - sum
	default:
		out[len(out)-1] += wide - sum
	}
	return out
}

func (s *pdfSetter) inset(b *block, n, i int) float64 {
	if i == 0 && n < len(b.inside) && b.inside[n] {
		return 9
	}
	return 0
}

func (s *pdfSetter) gridRow(b *block, n int, row []string, cols []float64, size, wide float64) strip {
	cells, most := make([][]string, len(row)), 1
	for i, text := range row {
		cells[i] = s.Wrap(text, size, cols[i]-cellGap-s.inset(b, n, i)+0.01, n == 0)
		most = max(most, len(cells[i]))
	}
	step := size * 1.3
	high := float64(most)*step + 3.4
	return strip{high: high, draw: func(p *manuscript.Page, x, y float64) {
		at := x
		for i, lines := range cells {
			for k, line := range lines {
				left := at + s.inset(b, n, i)
				if b.right[i] {
					left = at + cols[i] - s.Width(line, size, n == 0)
				}
				p.Texts = append(p.Texts, manuscript.Text{X: left, Y: y + 1.2 + size + float64(k)*step, Size: size, Bold: n == 0, Face: s.Face, Text: line})
			}
			at += cols[i]
		}
		r := manuscript.Rule{X1: x, Y1: y + high, X2: x + wide, Y2: y + high, Width: 0.4, Grey: true}
		if n == 0 {
			r.Width, r.Grey = 0.9, false
		}
		p.Rules = append(p.Rules, r)
	}}
}
