package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// RightData is what the chart of right answers shows: tests in which tasters
// had to find the sample that is another (odd one out, two pairs and so on).
type RightData struct {
	Title string
	Rows  []RightRow // 1 to 12
}

// RightRow is one test: Right of N answers were right, guessing alone gets the
// part Chance. Needed is the least number that shows a difference (0: none
// does), AtMost the most that shows the samples to be alike enough (below 0: not
// asked, or none does).
type RightRow struct {
	Letter, Name   string // "B", "against the original, odd one out"
	Right, N       int
	Chance         float64
	Needed, AtMost int
}

// RightChart prepares the chart of right answers from a copy of d, or says in a
// problem.Error what keeps it from being drawn.
func RightChart(d RightData) (*Figure, error) {
	if err := checkCount(d.Title, "charts.right.none", "charts.scores.many", len(d.Rows), mostSamples); err != nil {
		return nil, err
	}
	v := &rightView{title: oneLine(d.Title), data: append([]RightRow(nil), d.Rows...)}
	for i, r := range v.data {
		name := sampleName(r.Letter, r.Name)
		if err := checkCounts(d.Title, name, r.Right, r.N, max(r.Needed, 0)); err != nil {
			return nil, err
		}
		if r.Right > r.N || !(r.Chance > 0 && r.Chance < 1) {
			return nil, fault(d.Title, "charts.right.wrong", name)
		}
		row := rowLabel{oneLine(r.Letter), oneLine(r.Name), styleNone}
		if r.Letter != "" {
			row.style = styleOf(row.letter, i)
		}
		v.rows = append(v.rows, row)
		v.most = max(v.most, r.N)
	}
	return &Figure{title: v.title, alt: v.alt(), paint: v.paint}, nil
}

// rightView paints the chart of right answers.
type rightView struct {
	title string
	rows  []rowLabel
	data  []RightRow
	most  int // answers in the largest test
}

// shown says what the test has shown, never more than it has.
func (r RightRow) shown() string {
	switch {
	case r.N == 0:
		return words.Say("charts.right.nobody")
	case r.Needed > 0 && r.Right >= r.Needed:
		return words.Say("charts.right.different")
	case r.AtMost >= 0 && r.Right <= r.AtMost:
		return words.Say("charts.right.alike")
	}
	return words.Say("charts.right.open")
}

// note is what the test has shown, with what it would have needed.
func (r RightRow) note() string {
	if r.Needed > 0 && r.N > 0 {
		return words.Say("charts.right.note", r.shown(), r.Needed)
	}
	return r.shown()
}

// result says right answers of all.
func (r RightRow) result() string { return words.Say("charts.right.of", r.Right, r.N) }

// guess is how many right answers guessing alone gets.
func (r RightRow) guess() float64 { return r.Chance * float64(r.N) }

func (v *rightView) alt() string {
	out := titled(v.title, words.Say("charts.right.alt"))
	for i, r := range v.data {
		text := words.Say("charts.right.alt.row", sampleName(r.Letter, v.rows[i].name), r.result(), words.Trim(r.guess(), 1), r.shown())
		if r.Needed > 0 {
			text += " " + words.Say("charts.right.alt.needed", r.Needed)
		}
		if r.AtMost >= 0 {
			text += " " + words.Say("charts.right.alt.most", r.AtMost)
		}
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

func (v *rightView) keys() []markKey {
	needed, most := false, false
	for _, r := range v.data {
		needed, most = needed || r.Needed > 0, most || r.AtMost >= 0
	}
	keys := []markKey{limitKey(words.Say("charts.right.key.guess"), true)}
	if needed {
		keys = append(keys, lineKey(words.Say("charts.right.key.needed"), 3.4))
	}
	if most {
		keys = append(keys, markKey{words.Say("charts.right.key.most"), func(s *sheet, at vg.Point, r vg.Length) {
			s.openTick(at.X, at.Y-r*1.2, at.Y+r*1.2)
		}})
	}
	return keys
}

// openTick is a tick of two thin lines, apart from the full one.
func (s *sheet) openTick(x, y0, y1 vg.Length) {
	half := s.pt(1.6)
	r := vg.Rectangle{Min: vg.Point{X: x - half, Y: y0}, Max: vg.Point{X: x + half, Y: y1}}
	s.fillRect(s.inks.ground, r)
	s.box(s.inks.ink, s.snapRect(r), s.hair(1))
}

// sideWidth is the room for the result and what it shows.
func (v *rightView) sideWidth(s *sheet, w vg.Length) (result, shown vg.Length) {
	for _, r := range v.data {
		result = max(result, s.width(s.headPen(), r.result()))
		shown = max(shown, s.width(s.smallPen(), r.note()))
	}
	return result, min(shown, w*0.3)
}

func (v *rightView) paint(s *sheet) {
	g := s.rowStage(rowNeeds{
		title: v.title, rows: v.rows, least: 2.5, most: 64,
		head: func(b vg.Rectangle) vg.Length { return s.markLegend(b, v.keys(), true) + s.pt(3) },
		foot: func(vg.Rectangle) vg.Length { return s.footLine(true) },
		side: func(b vg.Rectangle) vg.Length {
			a, c := v.sideWidth(s, b.Max.X-b.Min.X)
			return max(a, c) + s.pt(14)
		},
	})
	g.drawRows(s, v.title)
	s.markLegend(g.body, v.keys(), false)
	a := span{0, float64(max(v.most, 1))}
	a.hi *= 1.04
	pl := g.panel(s, a)
	ax := s.levelAxis(a, g.area.Max.X-g.area.Min.X, 1, plainTick)
	pl.draw(grid{s, ax.ticks})
	for i := range g.shown {
		v.row(s, g, pl, i)
	}
	g.drawRest(s)
	ax.under(s, pl, g.area.Min.X-s.pt(8), g.area.Max.X+s.pt(8))
	s.caption(g.area.Min.X, g.area.Min.Y, g.body.Max.X-g.area.Min.X, words.Say("charts.right.axis"), words.Say("charts.right.axis.short"))
}

// row draws test i: a cell an answer, the right ones filled, and what they are
// measured against.
func (v *rightView) row(s *sheet, g rowStage, pl panel, i int) {
	r, y := v.data[i], g.y(i)
	half := min(s.pt(9), g.row*0.24)
	x0, xr, xn := pl.x(0), pl.x(float64(r.Right)), pl.x(float64(r.N))
	st := v.fill(s, v.rows[i].style)
	s.bar(vg.Rectangle{Min: vg.Point{X: x0, Y: y - half}, Max: vg.Point{X: xr, Y: y + half}}, bar{style: st})
	if r.N > 0 {
		all := s.snapRect(vg.Rectangle{Min: vg.Point{X: x0, Y: y - half}, Max: vg.Point{X: xn, Y: y + half}})
		s.box(s.inks.axis, all, s.hair(1))
		v.cells(s, pl, r, all)
		v.marks(s, g, pl, r, y, half)
	}
	x := g.area.Max.X + s.pt(12)
	if g.row < s.lineOf(s.headPen())+s.lineOf(s.smallPen()) {
		s.write(s.headPen(), x, y, 0, r.result())
		return
	}
	s.write(s.headPen(), x, y+s.lineOf(s.smallPen())/2, 0, r.result())
	note := r.note()
	if s.width(s.smallPen(), note) > g.body.Max.X-x {
		note = s.fit(s.smallPen(), r.shown(), g.body.Max.X-x)
	}
	s.write(s.smallPen(), x, y-s.lineOf(s.headPen())/2, 0, note)
}

// fill is the tone of right answers: pale and without a hatch, so that what they
// are measured against shows over them. Rows go by marker and letter.
func (v *rightView) fill(s *sheet, style int) swatch {
	c := mix(s.rowInk(style), s.inks.ground, 0.4)
	if s.inks.paper() {
		c = hex(0xA8A8A8)
	}
	return swatch{fill: c, edge: c}
}

// cells parts the answers where a cell is wide enough to count.
func (v *rightView) cells(s *sheet, pl panel, r RightRow, all vg.Rectangle) {
	if (all.Max.X-all.Min.X)/vg.Length(r.N) < s.pt(4) {
		return
	}
	over, open := strips{s: s}, strips{s: s}
	for k := 1; k < r.N; k++ {
		b := &open
		if k <= r.Right {
			b = &over
		}
		x := pl.x(float64(k))
		b.rule(x, all.Min.Y+s.hair(1), x, all.Max.Y-s.hair(1), s.hair(1))
	}
	over.fill(s.inks.ground)
	open.fill(s.inks.axis)
}

// marks draws what guessing gets, what a difference needs and what shows the
// samples alike, each with its number where the row is high enough.
func (v *rightView) marks(s *sheet, g rowStage, pl panel, r RightRow, y, half vg.Length) {
	over := s.pt(3)
	s.dashLine(s.inks.ink, vg.Point{X: pl.x(r.guess()), Y: y - half - over}, vg.Point{X: pl.x(r.guess()), Y: y + half + over}, s.hair(1.34))
	above := g.row/2-half-over >= s.lineOf(s.smallPen())*0.85
	pen := s.smallPen()
	pen.color = s.inks.ink
	if r.AtMost >= 0 && r.AtMost <= r.N {
		x := pl.x(float64(r.AtMost))
		s.openTick(x, y-half-over, y+half+over)
		if above {
			s.write(pen, x, y-half-over-s.lineOf(pen)*0.42, 0.5, words.Number(float64(r.AtMost), 0))
		}
	}
	if r.Needed > 0 && r.Needed <= r.N {
		x := pl.x(float64(r.Needed))
		s.rule(s.inks.ground, x, y-half-over, x, y+half+over, s.hair(5.6))
		s.rule(s.inks.ink, x, y-half-over, x, y+half+over, s.hair(3.4))
		if above {
			s.write(pen, x, y+half+over+s.lineOf(pen)*0.42, 0.5, words.Number(float64(r.Needed), 0))
		}
	}
}
