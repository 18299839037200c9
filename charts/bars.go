package charts

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// barKind says how sure a bar is.
type barKind int

const (
	known    barKind = iota
	bounded          // one end may lie further: dashed round a pale fill
	notKnown         // nothing known: dashed and open
)

// bar lies along the value axis from one value to another, centred on a row.
type bar struct {
	from, to  float64 // values; to is the end that carries the label
	row       float64
	thickness float64 // in rows
	style     swatch
	kind      barKind
	cut       bool       // runs past the axis: drawn with a break near its end
	interval  [2]float64 // low and high end of its uncertainty; both 0: none
}

// bars draws bars in data units, so they follow the axes at any size: level
// ones with values on x, or standing ones with values on y.
type bars struct {
	s        *sheet
	standing bool
	items    []bar
}

// DataRange returns the room of all bars and intervals.
func (b bars) DataRange() (xmin, xmax, ymin, ymax float64) {
	lo, hi, first, last := 0.0, 0.0, math.Inf(1), math.Inf(-1)
	for _, it := range b.items {
		lo, hi = min(lo, it.from, it.to, it.interval[0]), max(hi, it.from, it.to, it.interval[1])
		first, last = min(first, it.row-it.thickness/2), max(last, it.row+it.thickness/2)
	}
	if b.standing {
		return first, last, lo, hi
	}
	return lo, hi, first, last
}

// Plot draws every bar, then its interval.
func (b bars) Plot(c draw.Canvas, p *plot.Plot) {
	tx, ty := p.Transforms(&c)
	at := func(v, row float64) vg.Point {
		if b.standing {
			return vg.Point{X: tx(row), Y: ty(v)}
		}
		return vg.Point{X: tx(v), Y: ty(row)}
	}
	for _, it := range b.items {
		lo, hi := min(it.from, it.to), max(it.from, it.to)
		r := vg.Rectangle{Min: at(lo, it.row-it.thickness/2), Max: at(hi, it.row+it.thickness/2)}
		b.s.bar(r, it)
		if it.cut {
			b.s.breakMark(at(it.to, it.row), it.to > it.from, b.standing, r)
		}
		if it.interval[0] != it.interval[1] {
			b.whisker(at, it)
		}
	}
}

// bar fills one rectangle in the manner of its kind.
func (s *sheet) bar(r vg.Rectangle, it bar) {
	s.bars++
	r = s.snapRect(r)
	if r.Max.X <= r.Min.X || r.Max.Y <= r.Min.Y {
		return
	}
	st := it.style
	switch it.kind {
	case notKnown:
		s.dashed(s.inks.muted, r, s.hair(1))
		return
	case bounded:
		s.fillRect(mix(st.fill, s.inks.ground, 0.62), r)
		s.hatchIn(r, st, mix(st.edge, s.inks.ground, 0.3))
		s.dashed(st.edge, r, s.hair(1.34))
		return
	}
	s.fillRect(st.fill, r)
	s.hatchIn(r, st, st.line)
	if st.edge != st.fill {
		s.box(st.edge, r, s.hair(1))
	}
}

// hatchIn lays the hatch of st over r.
func (s *sheet) hatchIn(r vg.Rectangle, st swatch, c color.NRGBA) {
	step := s.pt(4.6)
	if p := st.hatch.hatchLines(r, step); len(p) > 0 {
		s.SetColor(c)
		s.SetLineWidth(s.pt(0.85))
		s.Stroke(p)
	}
	if p := st.hatch.hatchFill(r, step); len(p) > 0 {
		s.SetColor(c)
		s.Fill(p)
	}
}

// box draws the four sides of r inside it.
func (s *sheet) box(c color.NRGBA, r vg.Rectangle, w vg.Length) {
	in := vg.Rectangle{Min: vg.Point{X: r.Min.X + w/2, Y: r.Min.Y + w/2}, Max: vg.Point{X: r.Max.X - w/2, Y: r.Max.Y - w/2}}
	pts := corners(in)
	var p vg.Path
	p.Move(pts[0])
	for _, q := range pts[1:] {
		p.Line(q)
	}
	p.Close()
	s.SetColor(c)
	s.SetLineWidth(w)
	s.Stroke(p)
}

// breakMark cuts a bar with two slanted gaps near its end: it goes on further
// than the axis shows.
func (s *sheet) breakMark(end vg.Point, grows, standing bool, r vg.Rectangle) {
	way := vg.Length(-1)
	if !grows {
		way = 1
	}
	for _, d := range []float64{5, 9} {
		off := way * s.pt(d)
		lean := s.pt(2)
		line := []vg.Point{{X: end.X + off - lean, Y: r.Min.Y - s.pt(1)}, {X: end.X + off + lean, Y: r.Max.Y + s.pt(1)}}
		if standing {
			line = []vg.Point{{X: r.Min.X - s.pt(1), Y: end.Y + off - lean}, {X: r.Max.X + s.pt(1), Y: end.Y + off + lean}}
		}
		s.StrokeLines(draw.LineStyle{Color: s.inks.ground, Width: s.pt(1.8)}, line)
	}
}

// whisker draws the interval of a bar with caps.
func (b bars) whisker(at func(v, row float64) vg.Point, it bar) {
	st := draw.LineStyle{Color: b.s.inks.ink, Width: b.s.hair(1.34)}
	half := it.thickness / 6
	for _, l := range [][4]float64{
		{it.interval[0], it.row, it.interval[1], it.row},
		{it.interval[0], it.row - half, it.interval[0], it.row + half},
		{it.interval[1], it.row - half, it.interval[1], it.row + half},
	} {
		b.s.StrokeLines(st, []vg.Point{at(l[0], l[1]), at(l[2], l[3])})
	}
}
