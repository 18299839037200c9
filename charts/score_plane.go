package charts

import "gonum.org/v1/plot/vg"

// planeNeeds says what a figure with two value axes needs.
type planeNeeds struct {
	title        string
	x, y         span
	xText, yText []string // what the axes are, the fullest first
	keys         []markKey
	strip        bool       // a band under the values for what has no y
	list         []listItem // a numbered list beside or under the values; nil: none
}

// plane is the layout of a figure with two value axes.
type plane struct {
	body, area, strip, list vg.Rectangle
	pl                      panel
	xs, ys                  axis
	listed                  listPlan
	whole                   bool       // the list has room for all names
	spots                   []vg.Point // where marks stand that were moved aside; nil: none were
}

// plane lays the figure out in the largest text that leaves the values room.
func (s *sheet) plane(n planeNeeds) plane {
	var g plane
	room := func() bool {
		return g.area.Max.Y-g.area.Min.Y >= s.pt(150) && g.area.Max.X-g.area.Min.X >= s.pt(250)
	}
	for _, s.scale = range textScales {
		if g = s.planeAt(n); room() && (n.list == nil || g.whole) {
			return g
		}
	}
	if g.whole {
		return g // the smallest text: all names before wide values
	}
	for _, s.scale = range textScales {
		if g = s.planeAt(n); room() || g.whole {
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
	if n.list != nil {
		right, bottom = s.withList(&g, n.list, top+h, right, bottom)
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
