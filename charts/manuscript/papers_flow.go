package manuscript

import (
	"parewell/recipes/words"
)

// flow sets one part of the papers down its pages.
type flow struct {
	typing
	paper Paper
	part  Part
	title string
	pages []Page
	y     float64 // where the next thing begins
	tight float64 // points by which a row of a ballot is lower
	again func()  // what is set at the top of a page that goes on, nil for nothing
}

// bodySize and smallSize are the letters of the papers.
const (
	bodySize  = 9.5
	smallSize = 8.0
	footBase  = 20.0 // from the foot of the page to the line of its number
)

func (f *flow) wide() float64   { return f.paper.Width - 2*marginSide }
func (f *flow) bottom() float64 { return f.paper.Height - marginFoot }
func (f *flow) now() *Page      { return &f.pages[len(f.pages)-1] }

// open starts a page with its head: the day and the part; on the kitchen's in
// bold who it is not for.
func (f *flow) open() {
	f.pages = append(f.pages, Page{Paper: f.paper})
	p := f.now()
	f.put(p, marginSide, marginTop+8, smallSize, false, true, f.title+" · "+f.part.Name())
	f.y = marginTop + 14
	if f.part.Kitchen() {
		mark := words.Say("papers.kitchen-only")
		w := f.width(mark, bodySize, true)
		p.box(f.paper.Width-marginSide-w-12, marginTop-0.5, w+12, 15, thick)
		f.put(p, f.paper.Width-marginSide-w-6, marginTop+10.5, bodySize, true, false, mark)
		f.y += 4
	}
	f.y += 8
	if f.again != nil {
		f.again()
	}
}

// need opens a page unless so much room is left.
func (f *flow) need(h float64) {
	if len(f.pages) == 0 || f.y+h > f.bottom() {
		f.open()
	}
}

func (f *flow) put(p *Page, x, y, size float64, bold, grey bool, text string) {
	p.Texts = append(p.Texts, Text{X: x, Y: y, Size: size, Bold: bold, Grey: grey, Text: f.printable(text)})
}

func (f *flow) putRight(p *Page, x, y, size float64, bold, grey bool, text string) {
	f.put(p, x-f.width(f.printable(text), size, bold), y, size, bold, grey, text)
}

func (f *flow) putMiddle(p *Page, x, y, size float64, bold, grey bool, text string) {
	f.put(p, x-f.width(f.printable(text), size, bold)/2, y, size, bold, grey, text)
}

// heading sets a bold line with room for so much below it on the same page.
func (f *flow) heading(text string, size, below float64) {
	lines := f.wrap(text, size, f.wide(), true)
	f.need(float64(len(lines))*size*lineHeight + below)
	for _, l := range lines {
		f.put(f.now(), marginSide, f.y+size, size, true, false, l)
		f.y += size * lineHeight
	}
	f.y += size * 0.25
}

// para sets a paragraph over the width of the page.
func (f *flow) para(text string, size float64, bold, grey bool) {
	for _, l := range f.wrap(text, size, f.wide(), bold) {
		f.need(size * lineHeight)
		f.put(f.now(), marginSide, f.y+size, size, bold, grey, l)
		f.y += size * lineHeight
	}
	f.y += size * 0.4
}

// blankLine is a label with a line to write on, up to a width.
func (f *flow) blankLine(x, base, w float64, label, given string) {
	p := f.now()
	f.put(p, x, base, smallSize, false, true, label)
	from := x + f.width(f.printable(label), smallSize, false) + 5
	if given != "" {
		f.put(p, from, base, bodySize, true, false, f.oneLine(given, bodySize, x+w-from, true))
		return
	}
	p.rule(from, base+2.5, x+w, base+2.5, thin, false)
}

// number writes on each page from one on which of how many it is, within the
// part (or one ballot).
func (f *flow) number(from int, what string) {
	pages := f.pages[from:]
	for i := range pages {
		p := &pages[i]
		base := f.paper.Height - footBase
		page := words.Say("print.page", i+1, len(pages))
		room := f.wide() - f.width(page, smallSize, false) - 12
		f.put(p, marginSide, base, smallSize, false, true, f.oneLine(what, smallSize, room, false))
		f.putRight(p, f.paper.Width-marginSide, base, smallSize, false, true, page)
	}
}

// dashes is a level line to fold or cut along.
func (p *Page) dashes(x1, x2, y float64) {
	for x := x1; x < x2; x += 6 {
		p.rule(x, y, min(x+3, x2), y, thin, false)
	}
}
