package manuscript

import (
	"bytes"
	"crypto/sha256"
	"io"
	"slices"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// The lighter inks: text still clear on any office printer, lines that do not
// shout over what is written on them.
const greyInk, greyLine = 90, 150

// WritePDF writes the document as a PDF file with the parts of its fonts that
// it uses. The same document gives the same bytes. Nothing is written unless
// all is well, and then with a single call of w.Write.
func (d *Document) WritePDF(w io.Writer) error {
	if len(d.Pages) == 0 {
		return problem.New(d.Title, words.Say("print.no-pages"), "")
	}
	size := func(p Paper) fpdf.SizeType { return fpdf.SizeType{Wd: p.Width, Ht: p.Height} }
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: size(d.Pages[0].Paper)})
	day := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC) // no time of day in a file
	pdf.SetCreationDate(day)
	pdf.SetModificationDate(day)
	pdf.SetCatalogSort(true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetLang(words.Current().Code)
	pdf.SetTitle(d.Title, true)
	for _, f := range d.faces() {
		pdf.AddUTF8FontFromBytes(f.name, f.style, bytes.Clone(f.data)) // it is written into
	}
	pictures := plates{pdf: pdf, made: map[[sha256.Size]byte]plate{}, taken: map[int]bool{}}
	for i := range d.Pages {
		pdf.AddPageFormat("P", size(d.Pages[i].Paper))
		d.Pages[i].print(pdf)
		if err := pictures.print(&d.Pages[i]); err != nil {
			return problem.Wrap(err, d.Title, words.Say("print.failed"), "")
		}
	}
	var b bytes.Buffer
	if err := pdf.Output(&b); err != nil {
		return problem.Wrap(err, d.Title, words.Say("print.failed"), "")
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return problem.Wrap(err, d.Title, words.Say("print.failed"), words.Say("print.failed.hint"))
	}
	return nil
}

// faces are the fonts the document uses, in the order it first does.
func (d *Document) faces() []*face {
	var out []*face
	for i := range d.Pages {
		for _, t := range d.Pages[i].Texts {
			if f := t.Face.in(t.Bold); !slices.Contains(out, f) {
				out = append(out, f)
			}
		}
	}
	return out
}

// print puts a page's rules and texts on paper.
func (p *Page) print(pdf *fpdf.Fpdf) {
	for _, r := range p.Rules {
		ink := 0
		if r.Grey {
			ink = greyLine
		}
		pdf.SetDrawColor(ink, ink, ink)
		pdf.SetLineWidth(r.Width)
		pdf.Line(r.X1, r.Y1, r.X2, r.Y2)
	}
	for _, t := range p.Texts {
		ink := 0
		if t.Grey {
			ink = greyInk
		}
		f := t.Face.in(t.Bold)
		pdf.SetTextColor(ink, ink, ink)
		pdf.SetFont(f.name, f.style, t.Size)
		pdf.Text(t.X, t.Y, t.Text)
	}
}
