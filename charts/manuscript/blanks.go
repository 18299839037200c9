package manuscript

import (
	"math"
	"strings"

	"parewell/recipes/words"
)

// headHeight is where the columns begin.
func (s *setter) headHeight() float64 {
	return marginTop + max(badge, float64(len(s.titleLines()))*titleStep+14) + 40
}

const titleSize, titleStep = 17.0, 20.0

func (s *setter) titleLines() []string {
	lines := s.wrap(s.sheet.Title, titleSize, s.wide()-badge-14, true)
	if len(lines) > 2 {
		rest := strings.Join(lines[1:], " ")
		lines = []string{lines[0], s.oneLine(rest, titleSize, s.wide()-badge-14, true)}
	}
	return lines
}

// head is the version's letter in a square, the title, and blanks for which
// test this is, when, and by whom.
func (s *setter) head(p *Page) {
	x := marginSide + badge + 14
	p.box(marginSide, marginTop, badge, badge, thick)
	letter, size := s.sheet.Letter, 24.0
	if letter == "" {
		letter, size = words.Say("print.original-mark"), 11
	}
	w := s.width(letter, size, true)
	s.put(p, marginSide+(badge-w)/2, marginTop+badge/2+size*0.35, size, true, false, letter)
	y := marginTop + 15
	for _, line := range s.titleLines() {
		s.put(p, x, y, titleSize, true, false, line)
		y += titleStep
	}
	s.put(p, x, y-2, 10, false, true, s.oneLine(s.subtitle(), 10, s.wide()-badge-14, false))
	y = s.headHeight() - 16
	third := (s.wide() - 2*columnGap) / 3
	for i, key := range []string{"print.test", "print.date", "print.cook"} {
		s.blank(p, marginSide+float64(i)*(third+columnGap), y, third, words.Say(key), "")
	}
}

// subtitle is "Version B: yogurt and oil · serves 6".
func (s *setter) subtitle() string {
	name := words.Say("original")
	switch {
	case s.sheet.Letter != "" && s.sheet.Name != "":
		name = words.Say("print.version-name", s.sheet.Letter, s.sheet.Name)
	case s.sheet.Letter != "":
		name = words.Say("print.version", s.sheet.Letter)
	}
	return name + " · " + s.sheet.Serves
}

// blank is a small label with a line to write on up to a width, and a unit at
// the end of it.
func (s *setter) blank(p *Page, x, base, w float64, label, unit string) {
	const size = 9.0
	s.put(p, x, base, size, false, true, label)
	end := x + w
	if unit != "" {
		s.putRight(p, end, base, size, true, unit)
		end -= s.width(unit, size, false) + 4
	}
	p.rule(x+s.width(label, size, false)+5, base+2.5, end, base+2.5, thin, false)
}

// weighed are the blanks under the columns: a label and a unit each.
var weighed = [][2]string{
	{"print.full", "print.g"},
	{"print.dish", "print.g"},
	{"print.left", "print.g"},
	{"print.servings", ""},
	{"print.temperature", "print.degrees"},
	{"print.in", ""},
	{"print.out", ""},
	{"print.minutes", ""},
}

// blanksHeight is what weights and notes need with so many lines to write on.
func (s *setter) blanksHeight(lines int) float64 {
	return 12 + 2*blankRow + 24 + float64(lines)*noteLine
}

// blanks fills the page from y down: weights, heat and times in two rows, then
// notes in three columns to the foot.
func (s *setter) blanks(p *Page, y float64) {
	y += 8
	p.rule(marginSide, y, marginSide+s.wide(), y, thick, false)
	quarter := (s.wide() - 3*14) / 4
	for i, b := range weighed {
		unit := ""
		if b[1] != "" {
			unit = words.Say(b[1])
		}
		x := marginSide + float64(i%4)*(quarter+14)
		s.blank(p, x, y+float64(i/4+1)*blankRow-5, quarter, words.Say(b[0]), unit)
	}
	y += 2*blankRow + 24
	foot := s.paper.Height - marginFoot
	third := (s.wide() - 2*columnGap) / 3
	for i, key := range []string{"print.well", "print.bad", "print.next"} {
		x := marginSide + float64(i)*(third+columnGap)
		s.put(p, x, y-6, 9.5, true, false, words.Say(key))
		for n := range int(math.Floor((foot - y) / noteLine)) {
			at := y + float64(n+1)*noteLine - 4
			p.rule(x, at, x+third, at, thin, true)
		}
	}
}
