package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"
)

// longest is how many letters of a name or title a figure keeps; more could not
// be read in any size, and measuring them would take seconds.
const longest = 160

// oneLine makes a person's text fit for a figure: no breaks, no runs of blanks,
// not endless.
func oneLine(text string) string {
	if r := []rune(text); len(r) > 4*longest {
		text = string(r[:4*longest])
	}
	text = strings.Join(strings.Fields(text), " ")
	if r := []rune(text); len(r) > longest {
		text = string(r[:longest-1]) + "…"
	}
	return text
}

// frame leaves a margin, writes the title at the top left in at most two lines,
// and returns the room that is left.
func (s *sheet) frame(title string) vg.Rectangle {
	r := s.room(title)
	h := s.lineOf(s.titlePen())
	for i, line := range s.titleLines(title) {
		s.write(s.titlePen(), r.Min.X, s.Max.Y-s.pt(6)-h*(vg.Length(i)+0.5), 0, line)
	}
	return r
}

func (s *sheet) titleLines(title string) []string {
	w := s.Max.X - s.Min.X - 2*s.pt(6)
	n := 2
	if s.Max.Y-s.Min.Y < 240 {
		n = 1 // a low figure has no room to spare
	}
	return s.wrap(s.titlePen(), title, w, n)
}

// rowLabel names a row: style is the version's place in the sets of colours and
// markers, -1 the original.
type rowLabel struct {
	letter, name string
	style        int
}

func rowLabels(vs []ChangeVersion) []rowLabel {
	out := make([]rowLabel, len(vs))
	for i, v := range vs {
		out[i] = rowLabel{oneLine(v.Letter), oneLine(v.Name), styleOf(v.Letter, i)}
	}
	return out
}

// gutter is the column of row names at the left of a figure.
type gutter struct {
	rows  []rowLabel
	marks vg.Length // room of marker and letter
	names vg.Length // room of the names, 0 if they are left out
}

// gutter plans the column: names get at most a third of the width w, and none
// where that is too little to read.
func (s *sheet) gutter(rows []rowLabel, w vg.Length) gutter {
	g := gutter{rows: rows, marks: s.pt(11)}
	var letter, name vg.Length
	for _, r := range rows {
		letter = max(letter, s.width(s.headPen(), r.letter))
		name = max(name, s.width(s.bodyPen(), r.name))
	}
	if letter > 0 {
		g.marks += letter + s.pt(5)
	}
	most := min(w*0.27, s.pt(190))
	if name > 0 && most >= s.pt(66) && w >= s.pt(330) {
		g.names = min(name, most) + s.pt(2)
	}
	return g
}

func (g gutter) width() vg.Length { return g.marks + g.names }

// draw names row i around y, in as many lines as its height takes.
func (g gutter) draw(s *sheet, i int, x, y, height vg.Length) {
	r := g.rows[i]
	if r.style >= 0 {
		s.marker(r.style, vg.Point{X: x + s.pt(4), Y: y}, s.pt(3.6))
		s.write(s.headPen(), x+s.pt(11), y, 0, s.fit(s.headPen(), r.letter, g.marks-s.pt(11)))
	}
	if g.names == 0 {
		return
	}
	h := s.lineOf(s.bodyPen())
	lines := s.wrap(s.bodyPen(), r.name, g.names, max(1, min(3, int(height/h))))
	top := y + h*vg.Length(len(lines)-1)/2
	for k, line := range lines {
		s.write(s.bodyPen(), x+g.marks, top-h*vg.Length(k), 0, line)
	}
}

// key is one entry of a legend.
type key struct {
	label string
	style swatch
}

// legend writes the keys in rows from the top left of r and returns how high
// they are; with s.dry nothing is drawn.
func (s *sheet) legend(r vg.Rectangle, keys []key, dry bool) vg.Length {
	p := s.smallPen()
	p.color = s.inks.ink
	h, side := s.pt(13), s.pt(8.5)
	x, y := r.Min.X, r.Max.Y-h/2
	for _, k := range keys {
		label := s.fit(p, k.label, r.Max.X-r.Min.X-side-s.pt(4))
		w := side + s.pt(4) + s.width(p, label)
		if x > r.Min.X && x+w > r.Max.X {
			x, y = r.Min.X, y-h
		}
		if !dry {
			box := vg.Rectangle{Min: vg.Point{X: x, Y: y - side/2}, Max: vg.Point{X: x + side, Y: y + side/2}}
			s.swatch(box, k.style)
			s.write(p, x+side+s.pt(4), y, 0, label)
		}
		x += w + s.pt(13)
	}
	return r.Max.Y - (y - h/2)
}

// swatch fills r as a bar of that style would be.
func (s *sheet) swatch(r vg.Rectangle, st swatch) {
	s.bar(r, bar{style: st})
	s.bars--
}
