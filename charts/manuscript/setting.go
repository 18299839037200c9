package manuscript

import (
	"parewell/recipes/words"
)

// Measures of a test sheet in points.
const (
	marginSide  = 44.0 // room for a clip or a punch
	marginTop   = 40.0
	marginFoot  = 38.0
	columnGap   = 22.0
	gramsWide   = 46.0 // the column of the recipe's grams
	blankWide   = 62.0 // the column to write in
	badge       = 36.0 // the square with the version's letter
	noteLines   = 4    // at the least
	noteLine    = 20.0 // from one written line to the next
	blankRow    = 29.0 // a row of blanks
	lineHeight  = 1.32 // of the size
	thin, thick = 0.5, 1.0
)

// textSizes are tried from the largest: the first at which a sheet fits on one
// page is used, and readSize when none does.
var textSizes = []float64{10.5, 10, 9.5, 9, 8.5, 8}

const readSize = 9.5

// setter sets one sheet.
type setter struct {
	typing
	paper Paper
	sheet *TestSheet
	size  float64
	pages []Page
}

// row is one piece of a column: it is never parted from one page to the next.
type row struct {
	height float64
	draw   func(p *Page, x, y float64) // y is its top
}

func setSheet(paper Paper, sheet *TestSheet) []Page {
	s := &setter{paper: paper, sheet: sheet}
	room := paper.Height - marginFoot - s.headHeight()
	for _, s.size = range textSizes {
		left, right := s.columns()
		if s.tall(left, right) <= room-s.blanksHeight(noteLines) {
			s.page(left, right, true)
			return s.pages
		}
	}
	s.size = readSize
	left, right := s.columns()
	for last := false; !last; {
		last = s.tall(left, right) <= room-s.blanksHeight(noteLines)
		l, r := left, right
		if !last {
			l, r = s.fill(left, room), s.fill(right, room)
		}
		s.page(l, r, last)
		left, right = left[len(l):], right[len(r):]
	}
	s.number()
	return s.pages
}

// tall is the height of the taller column with its heading.
func (s *setter) tall(left, right []row) float64 {
	return max(height(left), height(right)) + s.headingHeight()
}

// headingHeight is that of a column's heading.
func (s *setter) headingHeight() float64 { return s.size * 2 }

func height(rows []row) float64 {
	h := 0.0
	for _, r := range rows {
		h += r.height
	}
	return h
}

// fill takes as many rows as fit under a heading, at least one of what there is.
func (s *setter) fill(rows []row, room float64) []row {
	h := s.headingHeight()
	for i, r := range rows {
		if h += r.height; h > room && i > 0 {
			return rows[:i]
		}
	}
	return rows
}

func (s *setter) wide() float64 { return s.paper.Width - 2*marginSide }

// columnWidths are those of ingredients and method; without a method the
// ingredients have the page.
func (s *setter) columnWidths() (left, right float64) {
	if len(s.sheet.Steps) == 0 {
		return s.wide(), 0
	}
	left = (s.wide() - columnGap) * 0.53
	return left, s.wide() - columnGap - left
}

// columns sets ingredients and method at the present size, without headings.
func (s *setter) columns() (left, right []row) {
	lw, rw := s.columnWidths()
	for _, in := range s.sheet.Ingredients {
		left = append(left, s.ingredient(in, lw))
	}
	for i, step := range s.sheet.Steps {
		right = append(right, s.step(i+1, step, rw)...)
	}
	return left, right
}

// heading is the bold line at the top of a column; over the ingredients it
// names the two columns of weights.
func (s *setter) heading(p *Page, x, y, w float64, text string, weights bool) {
	base := y + s.size*1.2
	s.put(p, x, base, s.size, true, false, text)
	if weights {
		small := s.size * 0.85
		s.putRight(p, x+w-blankWide-8, base, small, true, words.Say("print.recipe"))
		s.putRight(p, x+w, base, small, true, words.Say("print.as-cooked"))
	}
	p.rule(x, base+4, x+w, base+4, thick, false)
}

// ingredient is a line with the recipe's grams and a blank for the actual ones.
func (s *setter) ingredient(in Ingredient, w float64) row {
	textWide := w - gramsWide - blankWide - 14
	if in.Heading {
		textWide = w
	}
	lines := s.wrap(in.Text, s.size, textWide, in.Heading)
	step := s.size * lineHeight
	h := float64(len(lines))*step + s.size*0.62 // room to write by hand
	return row{h, func(p *Page, x, y float64) {
		for i, line := range lines {
			s.put(p, x, y+s.size*1.25+float64(i)*step, s.size, in.Heading, false, line)
		}
		if in.Heading {
			return
		}
		base := y + s.size*1.25
		s.putRight(p, x+w-blankWide-8, base, s.size, false, in.Grams)
		s.putRight(p, x+w, base, s.size*0.85, true, words.Say("print.g"))
		p.rule(x+w-blankWide, base+2.5, x+w-10, base+2.5, thin, false)
	}}
}

// step is a numbered paragraph, a row a line.
func (s *setter) step(n int, text string, w float64) []row {
	indent := s.size * 1.7
	var out []row
	for i, line := range s.wrap(text, s.size, w-indent, false) {
		first := i == 0
		out = append(out, row{s.size * lineHeight, func(p *Page, x, y float64) {
			base := y + s.size
			if first {
				s.put(p, x, base, s.size, true, false, words.Say("print.step", n))
			}
			s.put(p, x+indent, base, s.size, false, false, line)
		}})
	}
	if len(out) > 0 {
		out[len(out)-1].height += s.size * 0.55
	}
	return out
}

// page sets a page's head and columns, and on the last the blanks.
func (s *setter) page(left, right []row, last bool) {
	s.pages = append(s.pages, Page{Paper: s.paper})
	p := &s.pages[len(s.pages)-1]
	s.head(p)
	lw, rw := s.columnWidths()
	bottom := s.headHeight()
	for i, c := range []struct {
		rows []row
		wide float64
		name string
	}{{left, lw, words.Say("print.ingredients")}, {right, rw, words.Say("print.method")}} {
		if len(c.rows) == 0 {
			continue
		}
		x, y := marginSide+float64(i)*(lw+columnGap), s.headHeight()
		s.heading(p, x, y, c.wide, c.name, i == 0)
		y += s.headingHeight()
		for _, r := range c.rows {
			r.draw(p, x, y)
			y += r.height
		}
		bottom = max(bottom, y)
	}
	if last {
		s.blanks(p, bottom)
	}
}

// number says on each page which of how many it is.
func (s *setter) number() {
	for i := range s.pages {
		p := &s.pages[i]
		s.putRight(p, s.paper.Width-marginSide, s.paper.Height-20, 8, true, words.Say("print.page", i+1, len(s.pages)))
	}
}

func (s *setter) put(p *Page, x, y, size float64, bold, grey bool, text string) {
	p.Texts = append(p.Texts, Text{X: x, Y: y, Size: size, Bold: bold, Grey: grey, Text: text})
}

// putRight ends a text at x.
func (s *setter) putRight(p *Page, x, y, size float64, grey bool, text string) {
	s.put(p, x-s.width(text, size, false), y, size, false, grey, text)
}

func (p *Page) rule(x1, y1, x2, y2, width float64, grey bool) {
	p.Rules = append(p.Rules, Rule{X1: x1, Y1: y1, X2: x2, Y2: y2, Width: width, Grey: grey})
}

func (p *Page) box(x, y, w, h, width float64) {
	p.rule(x, y, x+w, y, width, false)
	p.rule(x+w, y, x+w, y+h, width, false)
	p.rule(x+w, y+h, x, y+h, width, false)
	p.rule(x, y+h, x, y, width, false)
}
