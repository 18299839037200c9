package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// HomeData is what the chart of answers from home shows, date by date.
type HomeData struct {
	Title string
	Dates []HomeDate // in order, at least one
}

// HomeDate is one day's answers: who would have it again and who would not, and
// how much was left: nothing, some, half or more.
type HomeDate struct {
	Label           string // the date in words
	Again, NotAgain int
	Left            [3]int
}

// HomeChart prepares the chart of answers from home from a copy of d, or says in
// a problem.Error what keeps it from being drawn.
func HomeChart(d HomeData) (*Figure, error) {
	if err := checkCount(d.Title, "charts.home.none", "charts.home.many", len(d.Dates), mostItems); err != nil {
		return nil, err
	}
	v := &homeView{title: oneLine(d.Title), dates: append([]HomeDate(nil), d.Dates...)}
	for i, h := range v.dates {
		v.dates[i].Label = oneLine(h.Label)
		if err := checkCounts(d.Title, h.Label, h.Again, h.NotAgain, h.Left[0], h.Left[1], h.Left[2]); err != nil {
			return nil, err
		}
	}
	return &Figure{title: v.title, alt: v.alt(), paint: v.paint}, nil
}

// homeView paints the answers from home: two rows of columns over one line of
// dates, whether they would have it again and how much was left.
type homeView struct {
	title string
	dates []HomeDate
}

func (v *homeView) alt() string {
	out := titled(v.title, words.Say("charts.home.alt"))
	for _, h := range v.dates {
		out = append(out, words.Say("charts.home.alt.date", h.Label, h.Again, h.NotAgain, h.Left[0], h.Left[1], h.Left[2]))
	}
	return strings.Join(out, " ")
}

// homePart is one of the two rows of columns.
type homePart struct {
	head   string
	keys   []string
	fills  []swatch
	counts [][]int
}

// parts are the two rows; what is good lies at the foot, in the darker tone.
func (v *homeView) parts(k *inks) [2]homePart {
	j := k.justFills()
	again := homePart{head: words.Say("charts.home.again.head"), keys: []string{words.Say("charts.home.again"), words.Say("charts.home.not")}}
	again.fills = []swatch{k.versions[0], {fill: k.ground, line: k.ink, edge: k.ink, hatch: rising}}
	left := homePart{head: words.Say("charts.home.left.head"), keys: []string{words.Say("charts.home.left.0"), words.Say("charts.home.left.1"), words.Say("charts.home.left.2")}}
	left.fills = []swatch{k.versions[0], j[3], {fill: k.ground, line: k.ink, edge: k.ink, hatch: crossed}}
	for _, h := range v.dates {
		again.counts = append(again.counts, []int{h.Again, h.NotAgain})
		left.counts = append(left.counts, h.Left[:])
	}
	return [2]homePart{again, left}
}

func (p homePart) most() int {
	m := 1
	for _, c := range p.counts {
		m = max(m, sum(c))
	}
	return m
}

func (v *homeView) paint(s *sheet) {
	parts := v.parts(s.inks)
	var r vg.Rectangle
	var heads [2]vg.Length
	var high vg.Length
	for _, s.scale = range textScales {
		r = s.room(v.title)
		high = r.Max.Y - r.Min.Y - s.footLine(true) - s.pt(8)
		for i, p := range parts {
			heads[i] = s.lineOf(s.headPen()) + s.markLegend(r, p.legend(), true) + s.pt(3)
			high -= heads[i]
		}
		if high >= s.pt(110) {
			break
		}
	}
	s.frame(v.title)
	high = max(high/2, s.pt(4))
	top := r.Max.Y
	var pl panel
	for i, p := range parts {
		s.write(s.headPen(), r.Min.X, top-s.lineOf(s.headPen())/2, 0, s.fit(s.headPen(), p.head, r.Max.X-r.Min.X))
		under := vg.Rectangle{Min: r.Min, Max: vg.Point{X: r.Max.X, Y: top - s.lineOf(s.headPen())}}
		s.markLegend(under, p.legend(), false)
		top -= heads[i]
		pl = v.columns(s, vg.Rectangle{Min: vg.Point{X: r.Min.X, Y: top - high}, Max: vg.Point{X: r.Max.X, Y: top}}, p)
		top -= high + s.pt(8)
	}
	v.labels(s, pl, r)
	s.caption(pl.area.Min.X, pl.area.Min.Y, r.Max.X-pl.area.Min.X, words.Say("charts.home.axis"), words.Say("charts.home.axis.short"))
}

func (p homePart) legend() []markKey {
	var keys []markKey
	for i, name := range p.keys {
		keys = append(keys, fillKey(name, p.fills[i]))
	}
	return keys
}

// columns draws the columns of one part into r with an axis of people.
func (v *homeView) columns(s *sheet, r vg.Rectangle, p homePart) panel {
	a := span{0, float64(p.most()) * 1.06}
	ys := s.uprightAxis(a, r.Max.Y-r.Min.Y, 1, plainTick)
	r.Min.X += s.pt(26)
	n := float64(len(v.dates))
	pl := s.panel(r, -0.5, max(n, 4)-0.5, a.lo, a.hi)
	ys.levelLines(s, pl)
	ys.beside(s, pl)
	half := min(s.pt(17), (pl.x(1)-pl.x(0))*0.36)
	for i, counts := range p.counts {
		at := 0
		for k, c := range counts {
			if c == 0 {
				continue
			}
			box := vg.Rectangle{Min: vg.Point{X: pl.x(float64(i)) - half, Y: pl.y(float64(at))}, Max: vg.Point{X: pl.x(float64(i)) + half, Y: pl.y(float64(at + c))}}
			s.bar(box, bar{style: p.fills[k]})
			v.inside(s, box, c, p.fills[k])
			at += c
		}
	}
	s.rule(s.inks.axis, r.Min.X, r.Min.Y, r.Max.X, r.Min.Y, s.hair(1.34))
	return pl
}

// inside writes a count into its part of a column where there is room.
func (v *homeView) inside(s *sheet, b vg.Rectangle, c int, st swatch) {
	text := words.Number(float64(c), 0)
	if b.Max.Y-b.Min.Y >= s.pt(s.smallPen().size*1.25) && b.Max.X-b.Min.X >= s.width(s.smallPen(), text)+s.pt(5) {
		s.writePatch(s.smallPen(), (b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2, text, st)
	}
}

// labels writes the dates, every one or every so many as they fit; on a line of
// their own they stand clear of each other.
func (v *homeView) labels(s *sheet, pl panel, r vg.Rectangle) {
	y := pl.area.Min.Y - s.pt(3) - s.lineOf(s.smallPen())/2
	var wide vg.Length
	for _, h := range v.dates {
		wide = max(wide, s.width(s.smallPen(), h.Label))
	}
	wide = min(wide, (r.Max.X-r.Min.X)*0.4)
	step := 1
	for vg.Length(step)*(pl.x(1)-pl.x(0)) < wide+s.pt(8) && step < len(v.dates) {
		step++
	}
	end := r.Min.X
	for i := 0; i < len(v.dates); i += step {
		text := s.fit(s.smallPen(), v.dates[i].Label, wide)
		half := s.width(s.smallPen(), text) / 2
		x := max(r.Min.X+half, min(r.Max.X-half, pl.x(float64(i))))
		if x-half < end {
			continue
		}
		s.write(s.smallPen(), x, y, 0.5, text)
		end = x + half + s.pt(5)
	}
}
