package book

import (
	"io"

	"parewell/charts/manuscript"
	"parewell/recipes/words"
)

// Measures of a page in points.
const (
	pdfSide    = 52.0
	pdfTop     = 52.0
	pdfFoot    = 50.0
	pdfGap     = 24.0 // between the columns
	pdfSize    = 10.4 // of the text
	pdfLeading = 1.33 // of the size
)

// WritePDF writes the page for its paper, text as text and the fonts inside.
// The same page gives the same bytes. Nothing is written unless all is well.
func (p *Page) WritePDF(w io.Writer) error {
	pages, err := p.Sheets()
	if err != nil {
		return err
	}
	d := manuscript.Document{Title: p.Title, Pages: pages}
	return d.WritePDF(w)
}

// Sheets sets the page on as many sheets of its paper as it needs. Errors: its
// chart cannot be drawn.
func (p *Page) Sheets() ([]manuscript.Page, error) {
	s := newSetter(p.Paper())
	if err := s.recipe(p); err != nil {
		return nil, err
	}
	s.foot(p.Title, 0)
	return s.pages, nil
}

// pdfSetter sets pages one after another.
type pdfSetter struct {
	manuscript.Ruler
	paper manuscript.Paper
	pages []manuscript.Page
}

func newSetter(paper manuscript.Paper) *pdfSetter {
	s := &pdfSetter{paper: paper}
	s.Face = manuscript.Serif
	return s
}

func (s *pdfSetter) wide() float64   { return s.paper.Width - 2*pdfSide }
func (s *pdfSetter) bottom() float64 { return s.paper.Height - pdfFoot }

// sheet returns the n-th page, made if it is not there.
func (s *pdfSetter) sheet(n int) *manuscript.Page {
	for len(s.pages) <= n {
		s.pages = append(s.pages, manuscript.Page{Paper: s.paper})
	}
	return &s.pages[n]
}

// strip is one piece of a column, never parted; with keep it stays with what
// follows.
type strip struct {
	high float64
	keep bool
	draw func(p *manuscript.Page, x, y float64) // y is its top
}

// spot is a place: a page and how far down it.
type spot struct {
	page int
	y    float64
}

// flow sets strips down a column from a place and returns where they end.
func (s *pdfSetter) flow(strips []strip, x float64, at spot) spot {
	spots, end := s.place(strips, at)
	for i, to := range spots {
		strips[i].draw(s.sheet(to.page), x, to.y)
	}
	return end
}

// place finds where each strip of a column goes, and where the last one ends.
func (s *pdfSetter) place(strips []strip, at spot) (spots []spot, end spot) {
	for i := range strips {
		need := 0.0
		for j := i; j < len(strips); j++ {
			need += strips[j].high
			if !strips[j].keep {
				break
			}
		}
		if at.y+need > s.bottom() && at.y > pdfTop+1 {
			at = spot{at.page + 1, pdfTop}
		}
		spots = append(spots, at)
		at.y += strips[i].high
	}
	return spots, at
}

// twoColumns sets strips down the left half of a page, then the right, and on to
// the next page.
func (s *pdfSetter) twoColumns(strips []strip, at spot) {
	top, right := at.y, false
	half := (s.wide() + pdfGap) / 2
	for i := range strips {
		need := strips[i].high
		for j := i; j+1 < len(strips) && strips[j].keep; j++ {
			need += strips[j+1].high
		}
		if at.y+need > s.bottom() && at.y > top {
			if right {
				at.page, top = at.page+1, pdfTop
			}
			right, at.y = !right, top
		}
		x := pdfSide
		if right {
			x += half
		}
		strips[i].draw(s.sheet(at.page), x, at.y)
		at.y += strips[i].high
	}
}

// recipe sets a page: the head over both columns, what goes in beside how, the
// rest under them, shared out so that little is parted and no room is left unused.
func (s *pdfSetter) recipe(p *Page) error {
	at := s.flow(s.head(p), pdfSide, spot{len(s.pages), pdfTop})
	d := s.newDesk(p)
	best := d.best(at)
	if err := d.drawn(best); err != nil {
		return err
	}
	left := s.flow(d.column(best.left, d.leftWide, best.high), pdfSide, at)
	right := s.flow(d.column(best.right, d.rightWide, best.high), pdfSide+d.leftWide+pdfGap, at)
	s.flow(d.under(best, later(left, right)), pdfSide, later(left, right).down(underGap))
	return nil
}

// down is so far under a place.
func (a spot) down(by float64) spot { return spot{a.page, a.y + by} }

func later(a, b spot) spot {
	if a.page > b.page || a.page == b.page && a.y > b.y {
		return a
	}
	return b
}

// head is the title with what stands under it.
func (s *pdfSetter) head(p *Page) []strip {
	out := s.lines(p.Title, 24, true, false, s.wide(), 0, 3)
	if v := p.versionLine(); v != "" {
		out = append(out, s.lines(v, 10.4, false, true, s.wide(), 0, 6)...)
	}
	if p.Headnote != "" {
		s.Face = manuscript.Italic
		out = append(out, s.lines(p.Headnote, 11.6, false, false, s.wide(), 2, 7)...)
		s.Face = manuscript.Serif
	}
	out = append(out, s.lines(p.yieldLine(), pdfSize, true, false, s.wide(), 0, 0)...)
	return append(out, s.rule(s.wide(), 8, 1))
}

// rule is a line across with room around it.
func (s *pdfSetter) rule(wide, high, width float64) strip {
	return strip{high: high, draw: func(p *manuscript.Page, x, y float64) {
		p.Rules = append(p.Rules, manuscript.Rule{X1: x, Y1: y + high/2, X2: x + wide, Y2: y + high/2, Width: width})
	}}
}

// lines break a text; before and after are room around it.
func (s *pdfSetter) lines(text string, size float64, bold, grey bool, wide, before, after float64) []strip {
	var out []strip
	all, face := s.Wrap(unbroken(text), size, wide, bold), s.Face
	for i, line := range all {
		top, high := 0.0, size*pdfLeading
		if i == 0 {
			top = before
			high += before
		}
		if i == len(all)-1 {
			high += after
		}
		out = append(out, strip{high: high, keep: bold && size > pdfSize, draw: func(p *manuscript.Page, x, y float64) {
			p.Texts = append(p.Texts, manuscript.Text{X: x, Y: y + top + size, Size: size, Bold: bold, Grey: grey, Face: face, Text: line})
		}})
	}
	return out
}

// part is a headed part without its pictures.
func (s *pdfSetter) part(x part, wide float64) []strip {
	out := s.heading(x.head, wide)
	for i := range x.blocks {
		out = append(out, s.block(&x.blocks[i], wide)...)
	}
	return together(out)
}

// littlePart is how tall a part may be that is never parted.
const littlePart = 110.0

// together keeps a little part on one page.
func together(all []strip) []strip {
	high := 0.0
	for _, x := range all {
		high += x.high
	}
	for i := 0; high <= littlePart && i < len(all)-1; i++ {
		all[i].keep = true
	}
	return all
}

// heading is a bold line over a rule.
func (s *pdfSetter) heading(text string, wide float64) []strip {
	const size = 12.4
	out := s.lines(text, size, true, false, wide, 9, 1)
	r := s.rule(wide, 6, 0.6)
	r.keep = true
	return append(out, r)
}

func (s *pdfSetter) block(b *block, wide float64) []strip {
	switch b.kind {
	case paragraph:
		if b.style == stylePart {
			return s.lines(b.text, pdfSize+0.1, true, false, wide, 5, 1)
		}
		small := b.style == styleSmall
		return s.lines(b.text, sized(b.style), false, small, wide, 0, 4)
	case bullets:
		return s.bullets(b, wide)
	case numbers:
		return s.numbered(b, wide)
	case grid:
		return s.grid(b, wide)
	}
	return nil
}

func sized(s style) float64 {
	switch s {
	case styleSmall, styleCaption:
		return 8.4
	case styleNote:
		return 9.6
	}
	return pdfSize
}

// bullets are items with a sign in front; an ingredient hangs its later lines.
func (s *pdfSetter) bullets(b *block, wide float64) []strip {
	size := sized(b.style)
	var out []strip
	sign := "•"
	if b.style == styleLine {
		sign = ""
	}
	for _, item := range b.items {
		out = append(out, s.hanging(sign, item, size, size*1.1, wide, 2.2)...)
	}
	return out
}

func (s *pdfSetter) numbered(b *block, wide float64) []strip {
	var out []strip
	for i, item := range b.items {
		out = append(out, s.hanging(words.Trim(float64(i+1), 0), item, pdfSize, pdfSize*1.9, wide, 4.5)...)
	}
	return out
}

// hanging sets an item behind its sign.
func (s *pdfSetter) hanging(sign, text string, size, indent, wide, after float64) []strip {
	all := s.Wrap(unbroken(text), size, wide-indent, false)
	var out []strip
	for i, line := range all {
		high := size * pdfLeading
		if i == len(all)-1 {
			high += after
		}
		out = append(out, strip{high: high, keep: i == 0 && len(all) > 1, draw: func(p *manuscript.Page, x, y float64) {
			left := x + indent
			switch {
			case i == 0 && sign == "":
				left = x
			case i == 0:
				p.Texts = append(p.Texts, manuscript.Text{X: x, Y: y + size, Size: size, Bold: sign != "•", Grey: sign == "•", Face: s.Face, Text: sign})
			}
			p.Texts = append(p.Texts, manuscript.Text{X: left, Y: y + size, Size: size, Face: s.Face, Text: line})
		}})
	}
	return out
}

// foot numbers pages: from is that of the first.
func (s *pdfSetter) foot(title string, from int) {
	for i := range s.pages {
		p := &s.pages[i]
		text := words.Say("book.page", words.Trim(float64(i+1+from), 0), words.Trim(float64(len(s.pages)+from), 0))
		y := s.paper.Height - 26
		p.Texts = append(p.Texts,
			manuscript.Text{X: pdfSide, Y: y, Size: 7.8, Grey: true, Face: s.Face, Text: s.OneLine(title, 7.8, s.wide()*0.7, false)},
			manuscript.Text{X: s.paper.Width - pdfSide - s.Width(text, 7.8, false), Y: y, Size: 7.8, Grey: true, Face: s.Face, Text: text})
	}
}
