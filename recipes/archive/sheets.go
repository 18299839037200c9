package archive

import (
	"encoding/csv"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// sheet is one CSV file: UTF-8, "," between cells, "." for decimals, rows ending
// in CR LF (RFC 4180), a header line with the names of the columns. A cell is
// empty where nothing is known; yes is 1 and no 0. Several things in one cell are
// parted by "; ".
type sheet struct {
	name    string // of the file; without its ending it is the key of its description
	columns []string
	rows    func(*data, *rows)
}

// sheets are all of them, in the order the guide lists them.
var sheets = []*sheet{
	recipesSheet, linesSheet, stepsSheet, targetsSheet, swapsSheet, operationsSheet, versionsSheet, testsSheet,
	foodsSheet, tablesSheet, choicesSheet,
	tastersSheet, tastingsSheet, seatsSheet, samplesSheet, servingsSheet, scoresSheet,
	mealsSheet, dishesSheet, settingsSheet, notebookSheet,
}

// data is a workbook's contents as the sheets read them.
type data struct {
	*recipes.Book
	contents workbook.Contents
}

// newData leaves out what is sealed, so that no sheet can tell it.
func newData(c workbook.Contents) *data {
	open, _ := sealed(c.Entities)
	return &data{recipes.NewBook(open), c}
}

// rows takes rows and keeps the first error.
type rows struct {
	out *csv.Writer
	err error
}

func (r *rows) add(cells ...string) {
	if r.err == nil {
		r.err = r.out.Write(cells)
	}
}

func (s *sheet) write(w io.Writer, d *data) error {
	r := &rows{out: csv.NewWriter(w)}
	r.out.UseCRLF = true
	r.add(s.columns...)
	s.rows(d, r)
	r.out.Flush()
	if r.err == nil {
		r.err = r.out.Error()
	}
	return r.err
}

// text keeps a text from being run as a formula: spreadsheets do that to a cell
// that starts with = + - @, a tab or a return. An apostrophe in front shows it as
// text.
func text[T ~string](t T) string {
	s := string(t)
	if s == "" || !strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return s
	}
	return "'" + s
}

// list puts texts into one cell.
func list[T ~string](all []T) string {
	out := make([]string, len(all))
	for i, t := range all {
		out[i] = string(t)
	}
	return text(strings.Join(out, "; "))
}

// exact writes a number as it is kept; what is no number is empty.
func exact(v float64) string {
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if strings.HasSuffix(s, "Inf") || s == "NaN" {
		return ""
	}
	return s
}

// number is exact for what is not stated when it is 0.
func number(v float64) string {
	if v == 0 {
		return ""
	}
	return exact(v)
}

func whole(n int) string { return strconv.Itoa(n) }

// given is whole for what is not stated when it is 0.
func given(n int) string {
	if n == 0 {
		return ""
	}
	return whole(n)
}

func yes(b bool) string {
	if b {
		return "1"
	}
	return "0"
}

// pairs puts a map into one cell: "name=value; name=value", by name.
func pairs[K ~string, V any](m map[K]V, value func(V) string) string {
	var out []string
	for _, k := range slices.Sorted(maps.Keys(m)) {
		out = append(out, string(k)+"="+value(m[k]))
	}
	return text(strings.Join(out, "; "))
}

func same[T ~string](t T) string { return string(t) }

// writeGuide tells people what is in the folder: every file and every column.
func writeGuide(w io.Writer, people bool) error {
	var b strings.Builder
	line := func(s string) { b.WriteString(s + "\r\n") }
	line(words.Say("archive.guide"))
	if people {
		line(words.Say("archive.guide.people"))
	} else {
		line(words.Say("archive.guide.no-people"))
	}
	for _, s := range sheets {
		line("")
		line(s.name + ": " + words.Say("archive.sheet."+strings.TrimSuffix(s.name, ".csv")))
		for _, c := range s.columns {
			if key := "archive.column." + strings.ReplaceAll(c, " ", "-"); words.Current().Has(key) {
				line("  " + c + ": " + words.Say(key))
			}
		}
	}
	_, err := io.WriteString(w, strings.ReplaceAll(strings.ReplaceAll(b.String(), "\r\n", "\n"), "\n", "\r\n"))
	return err
}
