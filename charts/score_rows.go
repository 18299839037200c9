package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// textScales are the sizes of text a sheet tries, largest first.
var textScales = []float64{1, 0.9, 0.82, 0.74}

// rowNeeds says what a figure of rows needs at the sheet's current text scale.
type rowNeeds struct {
	title string
	rows  []rowLabel
	head  func(body vg.Rectangle) vg.Length // room over the rows
	foot  func(body vg.Rectangle) vg.Length // room under them
	side  func(body vg.Rectangle) vg.Length // room to the right of the values
	least float64                           // height of a row worth having, in lines of text
	most  float64                           // greatest height of a row in points at scale 1
	floor float64                           // least height of a row that is shown at all, in lines; 0 for the usual

	breadth float64 // width of the values worth having, in points at the text's scale; 0 for any
}

// rowStage is the layout of a figure whose rows share a value axis.
type rowStage struct {
	body  vg.Rectangle // under the title
	gut   gutter
	area  vg.Rectangle // of the values
	row   vg.Length    // height of a row
	shown int          // rows that fit; the rest is told in words
	slots int          // the same and a place for those words
}

// rowStage lays out rows in the largest text that leaves them their height.
func (s *sheet) rowStage(n rowNeeds) rowStage {
	var g rowStage
	for _, s.scale = range textScales {
		g = s.rowsAt(n)
		if g.shown == len(n.rows) && g.row >= s.lineOf(s.bodyPen())*vg.Length(n.least) && g.area.Max.X-g.area.Min.X >= s.pt(n.breadth) && !(n.breadth > 0 && g.cut(s)) {
			break
		}
	}
	return g
}

// cut tells that a row's name is not there as a whole.
func (g rowStage) cut(s *sheet) bool {
	for _, r := range g.gut.rows {
		lines := s.wrap(s.bodyPen(), r.name, g.gut.names, max(1, min(3, int(g.row/s.lineOf(s.bodyPen())))))
		if strings.Join(lines, " ") != r.name {
			return true
		}
	}
	return false
}

func (s *sheet) rowsAt(n rowNeeds) rowStage {
	g := rowStage{body: s.room(n.title), shown: len(n.rows)}
	top, bottom := g.body.Max.Y-n.head(g.body), g.body.Min.Y+n.foot(g.body)
	if n.floor == 0 {
		n.floor = 0.95
	}
	if fits := int((top - bottom) / (s.lineOf(s.bodyPen()) * vg.Length(n.floor))); fits < g.shown {
		g.shown = max(fits-1, 0)
	}
	g.slots = max(min(g.shown+1, len(n.rows)), 1)
	g.row = max(1, min((top-bottom)/vg.Length(g.slots), s.pt(n.most)))
	g.gut = s.names(n.rows, g.body.Max.X-g.body.Min.X)
	left := g.body.Min.X + g.gut.width() + s.pt(9)
	right := max(left+s.pt(20), g.body.Max.X-n.side(g.body))
	g.area = vg.Rectangle{Min: vg.Point{X: left, Y: top - g.row*vg.Length(g.slots)}, Max: vg.Point{X: right, Y: top}}
	return g
}

// names plans the column of row names. Unlike the gutter of the change chart it
// keeps them, shortened, on a narrow sheet: an original has no letter to go by.
func (s *sheet) names(rows []rowLabel, w vg.Length) gutter {
	g := gutter{rows: rows}
	var letter, name vg.Length
	marked := false
	for _, r := range rows {
		marked = marked || r.style != styleNone
		letter = max(letter, s.width(s.headPen(), r.letter))
		name = max(name, s.width(s.bodyPen(), r.name))
	}
	if marked {
		g.marks = s.pt(12)
	}
	if letter > 0 {
		g.marks += letter + s.pt(5)
	}
	if name > 0 {
		g.names = min(name, max(w*0.25, min(w*0.34, s.pt(92))), s.pt(230)) + s.pt(2)
	}
	return g
}

// y is the middle of row i.
func (g rowStage) y(i int) vg.Length { return g.area.Max.Y - g.row*(vg.Length(i)+0.5) }

// panel is a plot over the rows with row i at -i.
func (g rowStage) panel(s *sheet, a span) panel {
	return s.panel(g.area, a.lo, a.hi, 0.5-float64(g.slots), 0.5)
}

// drawRows draws title, lines between the rows, markers and names.
func (g rowStage) drawRows(s *sheet, title string) {
	s.frame(title)
	s.rowLines(g.body.Min.X, g.body.Max.X, g.area.Max.Y, g.row, g.slots)
	for i := range g.shown {
		g.gut.draw(s, i, g.body.Min.X, g.y(i), g.row)
		if st := g.gut.rows[i].style; st < 0 && st != styleNone {
			s.rowMark(st, vg.Point{X: g.body.Min.X + s.pt(4), Y: g.y(i)}, s.pt(3.6))
		}
	}
}

// drawRest says how many rows did not fit, over whatever lines run there.
func (g rowStage) drawRest(s *sheet) {
	if left := len(g.gut.rows) - g.shown; left > 0 {
		s.left = true
		text := s.fit(s.smallPen(), words.Say("charts.rows.more", left), g.body.Max.X-g.body.Min.X-s.pt(4))
		s.writeClean(s.smallPen(), g.body.Min.X+s.pt(2), g.y(g.shown), 0, text)
	}
}

// footLine is the height of tick labels, with or without a caption under them.
func (s *sheet) footLine(caption bool) vg.Length {
	h := s.lineOf(s.smallPen()) + s.pt(3)
	if caption {
		h += s.lineOf(s.smallPen()) + s.pt(2)
	}
	return h
}

// caption writes the first of the texts that fits, the last one shortened, on
// the line under the tick labels.
func (s *sheet) caption(x, bottom, w vg.Length, texts ...string) {
	y := bottom - s.pt(5) - s.lineOf(s.smallPen())*1.5
	for i, text := range texts {
		if i == len(texts)-1 {
			text = s.fit(s.smallPen(), text, w)
		}
		if s.width(s.smallPen(), text) <= w {
			s.write(s.smallPen(), x, y, 0, text)
			return
		}
	}
}
