package book

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"time"

	"parewell/charts/manuscript"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// WriteDOCX writes the page as a word processor's document (ECMA-376): named
// paragraph styles, real lists, tables with head rows, the chart with its text
// alternative. made stands in its properties. Nothing is written unless all is
// well, and then with a single call of w.Write.
func (p *Page) WriteDOCX(w io.Writer, made time.Time) error {
	d := newDocx(p.Title, p.Paper(), made)
	d.page(p)
	return d.write(w)
}

// docx is a document under way.
type docx struct {
	title string
	paper manuscript.Paper
	made  time.Time
	body  bytes.Buffer
	enc   *xml.Encoder
	lists int  // numbered lists so far; each has numbering of its own
	marks int  // bookmarks so far
	fresh bool // the next paragraph begins a page
	media [][]byte
	err   error
}

func newDocx(title string, paper manuscript.Paper, made time.Time) *docx {
	d := &docx{title: title, paper: paper, made: made}
	d.enc = xml.NewEncoder(&d.body)
	return d
}

// page adds all of a page.
func (d *docx) page(p *Page) {
	for _, x := range p.parts() {
		if x.head != "" {
			d.para(styleHeading, x.head, "", 0)
		}
		for i := range x.blocks {
			b := &x.blocks[i]
			if b.style == styleTitle {
				d.mark(p.anchor(), b)
				continue
			}
			d.block(b)
		}
	}
}

// mark adds a paragraph that links lead to.
func (d *docx) mark(name string, b *block) {
	d.marks++
	d.put(paraX{Style: d.begins(b.style), Start: &markX{ID: d.marks, Name: bookmark(name)}, Runs: []runX{run(b.text)}, End: &markX{ID: d.marks}})
}

// bookmark keeps a name to what bookmarks take: letters, digits, "_", at most 40.
func bookmark(s string) string {
	s = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '_'
	}, s)
	return s[:min(len(s), 40)]
}

func (d *docx) block(b *block) {
	switch b.kind {
	case paragraph:
		d.para(b.style, b.text, "", 0)
	case bullets:
		for _, s := range b.items {
			d.para(b.style, s, bulletList, 0)
		}
	case numbers:
		d.lists++
		for _, s := range b.items {
			d.para(b.style, s, numberList, d.lists)
		}
	case grid:
		d.grid(b)
	case picture:
		d.picture(b)
	case newPage:
		d.fresh = true
	}
}

// begins is a paragraph's style, at the head of a page where one is to begin. A
// break in a paragraph of its own would leave a page empty behind a full one.
func (d *docx) begins(s style) *paraPropsX {
	p := pStyle(s)
	if d.fresh {
		p.NewPage = &struct{}{}
	}
	d.fresh = false
	return p
}

// Kinds of list by the ids of their numbering: 1 is bullets, numbered lists
// follow from 2.
const (
	bulletList = "bullets"
	numberList = "numbers"
)

func (d *docx) para(s style, text, list string, n int) {
	p := paraX{Style: d.begins(s), Runs: []runX{run(text)}}
	switch list {
	case bulletList:
		p.Style.Num = &numX{Num: valInt(1)}
	case numberList:
		p.Style.Num = &numX{Num: valInt(1 + n)}
	}
	d.put(p)
}

func (d *docx) put(v any) {
	if d.err == nil {
		d.err = d.enc.Encode(v)
	}
}

// keptRows is the longest table, in rows, that is not parted at the end of a page:
// one of the nutrition of a serving is not.
const keptRows = 20

// grid adds a table: a head row that is repeated on every page, columns as wide
// as their longest text asks for. A short one stays on one page with its note.
func (d *docx) grid(b *block) {
	wide := d.columnsOf(b)
	t := tableX{Style: tableStyle(), Grid: gridX{}}
	for _, w := range wide {
		t.Grid.Columns = append(t.Grid.Columns, columnX{W: w})
	}
	for n, row := range b.rows {
		r := rowX{Props: rowPropsX{NoSplit: &struct{}{}}}
		if n == 0 {
			r.Props.Head = &struct{}{}
		}
		for i, text := range row {
			p := paraX{Style: pStyle(styleCell), Runs: []runX{run(text)}}
			if n == 0 {
				p.Style.Style.Val = string(styleHead)
			}
			if b.right[i] {
				p.Style.Align = &valX{"right"}
			}
			if len(b.rows) <= keptRows {
				p.Style.KeepNext = &struct{}{}
			}
			if i == 0 && n < len(b.inside) && b.inside[n] {
				p.Style.Indent = &indentX{Left: 240}
			}
			r.Cells = append(r.Cells, cellX{Props: cellPropsX{Width: widthX{W: wide[i], Type: "dxa"}}, Paras: []paraX{p}})
		}
		t.Rows = append(t.Rows, r)
	}
	d.put(t)
	d.para(styleSmall, b.text, "", 0) // two tables without a paragraph between them would be one
}

// columnsOf shares the text's width out, in twentieths of a point.
func (d *docx) columnsOf(b *block) []int {
	long := make([]int, len(b.rows[0]))
	sum := 0
	for i := range long {
		long[i] = 6
		for _, row := range b.measured() {
			long[i] = max(long[i], min(60, len([]rune(row[i]))+3))
		}
		sum += long[i]
	}
	full := d.textWide()
	room := min(full, sum*115) // about a letter each
	out := make([]int, len(long))
	for i, n := range long {
		out[i] = room * n / sum
	}
	return out
}

// Margins of a page in twentieths of a point: 20 mm and 18 mm.
const (
	docxSide = 1134
	docxTop  = 1021
)

// textWide is the width of the text in twentieths of a point.
func (d *docx) textWide() int { return int(d.paper.Width*20+0.5) - 2*docxSide }

// emuPerMM turns millimetres into the drawing's units (ECMA-376 part 1, 20.1.2.1:
// 914,400 to the inch).
const emuPerMM = 36000

// pictureDPI is the resolution of charts in a document.
const pictureDPI = 300

func (d *docx) picture(b *block) {
	var png bytes.Buffer
	if err := b.fig.Figure.WritePNG(&png, figureWide, b.fig.HighMM, pictureDPI); err != nil {
		d.err = err
		return
	}
	d.media = append(d.media, png.Bytes())
	n := len(d.media)
	d.put(paraX{Style: &paraPropsX{Style: valX{string(styleCaption)}, KeepNext: &struct{}{}}, Runs: []runX{{Drawing: drawing(n, b.fig)}}})
	d.para(styleCaption, b.text, "", 0)
}

// write joins the parts.
func (d *docx) write(w io.Writer) error {
	if d.err == nil {
		d.err = d.enc.Flush()
	}
	if d.err != nil {
		return d.err
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, part := range d.parts() {
		if err := d.add(z, part.name, part.data); err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return err
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return problem.Wrap(err, d.title, words.Say("print.failed"), words.Say("print.failed.hint"))
	}
	return nil
}

// add puts a part in; its time is the document's, so that the same page gives
// the same bytes.
func (d *docx) add(z *zip.Writer, name string, data []byte) error {
	h := &zip.FileHeader{Name: name, Method: zip.Deflate, Modified: d.made.UTC().Truncate(2 * time.Second)}
	f, err := z.CreateHeader(h)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return err
}
