// Package delimited opens files of rows as spreadsheets save them: comma, or
// semicolon or tab with decimal comma, with or without a byte-order mark.
package delimited

import (
	"bytes"
	"encoding/csv"
)

// Open returns a reader of the rows, which may be of any length, and whether
// figures have a decimal comma. Its rows are those of the file, blank ones left
// out; a blank before a cell is dropped unless cells are parted by tabs, where it
// would swallow empty ones.
func Open(data []byte) (rows *csv.Reader, decimalComma bool) {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	rows = csv.NewReader(bytes.NewReader(data))
	rows.Comma, decimalComma = delimiter(data)
	rows.FieldsPerRecord, rows.TrimLeadingSpace = -1, rows.Comma != '\t'
	return rows, decimalComma
}

// delimiter finds what parts the columns: whichever of the three the first line
// has most of.
func delimiter(data []byte) (sep rune, decimalComma bool) {
	first, _, _ := bytes.Cut(data, []byte("\n"))
	commas, semis, tabs := bytes.Count(first, []byte(",")), bytes.Count(first, []byte(";")), bytes.Count(first, []byte("\t"))
	switch {
	case semis > commas && semis >= tabs:
		return ';', true
	case tabs > commas:
		return '\t', true
	}
	return ',', false
}
