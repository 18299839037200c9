package charts

import (
	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// planeNeeds says what a figure with two value axes needs.
type planeNeeds struct {
	title        string
	x, y         span
	xText, yText []string // what the axes are, the fullest first
	keys         []markKey
	strip        bool // a band under the values for what has no y
	list         bool // a column at the right for a numbered list
}

// plane is the layout of a figure with two value axes.
type plane struct {
	body, area, strip, list vg.Rectangle
	pl                      panel
	xs, ys                  axis
}

// plane lays the figure out in the largest text that leaves the values room.
func (s *sheet) plane(n planeNeeds) plane {
	var g plane
	for _, s.scale = range textScales {
		g = s.planeAt(n)
		if g.area.Max.Y-g.area.Min.Y >= s.pt(150) && g.area.Max.X-g.area.Min.X >= s.pt(250) {
			break
		}
	}
	return g
}

func (s *sheet) planeAt(n planeNeeds) plane {
	g := plane{body: s.room(n.title)}
	h := s.lineOf(s.smallPen())
	top := g.body.Max.Y - s.markLegend(g.body, n.keys, true) - h - s.pt(3)
	bottom := g.body.Min.Y + s.footLine(true)
	right := g.body.Max.X
	if n.list && right-g.body.Min.X >= s.pt(330) {
		w := (right - g.body.Min.X) * 0.36
		g.list = vg.Rectangle{Min: vg.Point{X: right - w, Y: g.body.Min.Y}, Max: vg.Point{X: right, Y: top + h}}
		right -= w + s.pt(14)
	}
	if n.strip {
		g.strip = vg.Rectangle{Min: vg.Point{Y: bottom}, Max: vg.Point{X: right, Y: bottom + s.pt(15)}}
		bottom += s.pt(15)
	}
	top = max(top, bottom+s.pt(10))
	g.ys = s.uprightAxis(n.y, top-bottom, 0.1, signedTick)
	left := min(g.body.Min.X+g.ys.width(s)+s.pt(7), right-s.pt(20))
	g.strip.Min.X = left
	g.area = vg.Rectangle{Min: vg.Point{X: left, Y: bottom}, Max: vg.Point{X: right, Y: top}}
	g.xs = s.levelAxis(n.x, right-left, 0, plainTick)
	g.pl = s.panel(g.area, n.x.lo, n.x.hi, n.y.lo, n.y.hi)
	return g
}

// drawPlane draws title, legend, axes and lines.
func (s *sheet) drawPlane(g plane, n planeNeeds) {
	s.frame(n.title)
	s.markLegend(g.body, n.keys, false)
	foot := g.area.Min.Y
	if n.strip {
		foot = g.strip.Min.Y
	}
	for _, v := range g.xs.ticks {
		s.rule(s.inks.grid, g.pl.x(v), foot, g.pl.x(v), g.area.Max.Y, s.hair(1))
	}
	g.ys.levelLines(s, g.pl)
	for _, v := range []float64{0} {
		if v >= n.y.lo && v <= n.y.hi {
			s.rule(s.inks.axis, g.area.Min.X, g.pl.y(v), g.area.Max.X, g.pl.y(v), s.hair(1.34))
		}
		if v > n.x.lo && v < n.x.hi {
			s.rule(s.inks.axis, g.pl.x(v), foot, g.pl.x(v), g.area.Max.Y, s.hair(1))
		}
	}
	low := s.panel(vg.Rectangle{Min: vg.Point{X: g.area.Min.X, Y: foot}, Max: g.area.Max}, n.x.lo, n.x.hi, 0, 1)
	g.xs.under(s, low, g.body.Min.X, g.area.Max.X+s.pt(10))
	g.ys.beside(s, g.pl)
	s.caption(g.area.Min.X, foot, g.area.Max.X-g.area.Min.X, n.xText...)
	s.above(g, n.yText)
}

// above writes what the upright axis is, over it: turned text is hard to read.
func (s *sheet) above(g plane, texts []string) {
	w := g.area.Max.X - g.body.Min.X
	for i, text := range texts {
		if i == len(texts)-1 {
			text = s.fit(s.smallPen(), text, w)
		}
		if s.width(s.smallPen(), text) <= w {
			s.write(s.smallPen(), g.body.Min.X, g.area.Max.Y+s.lineOf(s.smallPen())*0.5+s.pt(2), 0, text)
			return
		}
	}
}

// levelLimit draws the dashed line of the limit over the width of the values.
func (s *sheet) levelLimit(g plane, at float64) {
	if at >= g.pl.Y.Min && at <= g.pl.Y.Max {
		s.dashLine(s.inks.ink, vg.Point{X: g.area.Min.X, Y: g.pl.y(at)}, vg.Point{X: g.area.Max.X, Y: g.pl.y(at)}, s.hair(1.6))
	}
}

// within is the upright range of the values, where intervals are cut.
func (g plane) within() [2]vg.Length { return [2]vg.Length{g.area.Min.Y, g.area.Max.Y} }

// listItem is one line of a numbered list beside a plane: its name, the figures
// under it, and the one figure that stays when there is no room for them.
type listItem struct{ name, figures, short string }

// numbered writes a numbered list into r and, under it, how many had no room.
func (s *sheet) numbered(r vg.Rectangle, items []listItem) {
	name, small := s.lineOf(s.bodyPen()), s.lineOf(s.smallPen())
	n := vg.Length(len(items))
	step, two := name+small+s.pt(3), true
	if room := r.Max.Y - r.Min.Y; n*step > room {
		step, two = max(name*0.92, min(name*1.25, room/n)), false
	}
	fit := len(items)
	if n*step > r.Max.Y-r.Min.Y+s.pt(1) {
		fit = max(0, int((r.Max.Y-r.Min.Y-small)/step))
	}
	for i, it := range items[:fit] {
		s.numberedItem(r, r.Max.Y-name/2-step*vg.Length(i), i, it, two)
	}
	if fit < len(items) {
		text := s.fit(s.smallPen(), words.Say("charts.rows.more", len(items)-fit), r.Max.X-r.Min.X)
		s.write(s.smallPen(), r.Min.X, r.Min.Y+small*0.4, 0, text)
	}
}

// numberedItem writes one line of the list, or two.
func (s *sheet) numberedItem(r vg.Rectangle, y vg.Length, i int, it listItem, two bool) {
	x := r.Min.X + s.width(s.bodyPen(), "00") + s.pt(6)
	room := r.Max.X - x
	s.write(s.bodyPen(), x-s.pt(6), y, 1, itemNumber(i))
	if two {
		below := y - (s.lineOf(s.bodyPen())+s.lineOf(s.smallPen()))/2
		s.write(s.smallPen(), x, below, 0, s.fit(s.smallPen(), it.figures, room))
	} else {
		room -= s.width(s.smallPen(), it.short) + s.pt(8)
		s.write(s.smallPen(), r.Max.X, y, 1, it.short)
	}
	s.write(s.bodyPen(), x, y, 0, s.fit(s.bodyPen(), it.name, room))
}
