package main

import (
	"io"
	"strings"
	"unicode/utf8"
)

// table is rows of plain text cells that are lined up when written.
type table struct {
	rows  [][]string
	right map[int]bool // columns set flush right
}

func (t *table) row(cells ...string) { t.rows = append(t.rows, cells) }

// write puts the rows down with two blanks between columns and none at the
// end of a line. An empty row is an empty line.
func (t *table) write(w io.Writer) error {
	widths := t.widths()
	var b strings.Builder
	for _, r := range t.rows {
		var line strings.Builder
		for i, cell := range r {
			if i > 0 {
				line.WriteString("  ")
			}
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if t.right[i] {
				line.WriteString(pad + cell)
			} else {
				line.WriteString(cell + pad)
			}
		}
		b.WriteString(strings.TrimRight(line.String(), " "))
		b.WriteByte('\n')
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (t *table) widths() []int {
	var widths []int
	for _, r := range t.rows {
		for i, cell := range r {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	return widths
}
