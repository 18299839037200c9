package charts

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// panel is one plot in data units that fills its rectangle exactly: axes and
// texts round it are the figure's own.
type panel struct {
	*plot.Plot
	s    *sheet
	area draw.Canvas
}

// panel makes a plot of the data range over r.
func (s *sheet) panel(r vg.Rectangle, xmin, xmax, ymin, ymax float64) panel {
	p := plot.New()
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = xmin, xmax, ymin, ymax
	return panel{p, s, draw.Canvas{Canvas: s.Canvas.Canvas, Rectangle: r}}
}

// draw draws the plotters over the panel one after another. They may be any of
// gonum's: the panel's data range stays as made.
func (p panel) draw(ps ...plot.Plotter) {
	for _, one := range ps {
		one.Plot(p.area, p.Plot)
	}
}

// x and y return where a value lies on the sheet.
func (p panel) x(v float64) vg.Length { return p.area.X(p.X.Norm(v)) }
func (p panel) y(v float64) vg.Length { return p.area.Y(p.Y.Norm(v)) }

// grid draws thin upright lines at ticks and a stronger one at zero.
type grid struct {
	s     *sheet
	ticks []float64
}

// Plot draws the lines from bottom to top of c.
func (g grid) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	for _, v := range g.ticks {
		if v != 0 {
			g.s.rule(g.s.inks.grid, tx(v), c.Min.Y, tx(v), c.Max.Y, g.s.hair(1))
		}
	}
}

// zeroLine draws the line bars start from, over their ends.
type zeroLine struct{ s *sheet }

// Plot draws the line from bottom to top of c.
func (z zeroLine) Plot(c draw.Canvas, p *plot.Plot) {
	tx, _ := p.Transforms(&c)
	z.s.rule(z.s.inks.axis, tx(0), c.Min.Y, tx(0), c.Max.Y, z.s.hair(1.34))
}

// steps are the distances between ticks that a person counts in easily.
var steps = []float64{1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 2500, 5000}

// ticksOver returns the closest round values over lo to hi, widened to whole
// steps where from..to has the room, whose labels fit beside each other. Zero is
// always one of them; it may be the only one.
func ticksOver(lo, hi, from, to float64, fit func([]float64) bool) []float64 {
	for _, step := range steps {
		if (hi-lo)/step > 40 {
			continue
		}
		var out []float64
		for k := math.Floor(lo/step + 1e-9); k <= math.Ceil(hi/step-1e-9); k++ {
			if v := k * step; v >= from-1e-9 && v <= to+1e-9 {
				out = append(out, v)
			}
		}
		if fit(out) {
			return out
		}
	}
	return []float64{0}
}

// reach is what a bar and its label need round zero: the data ends, and the
// room for text beyond each end in points.
type reach struct {
	lo, hi        float64
	before, after vg.Length
}

// fitScale returns how many points a data unit can take so that every bar and
// its label fit in width w, and how far from the left edge zero then lies.
// least is the smallest range shown, so that tiny changes do not look large.
func fitScale(w vg.Length, rs []reach, least float64) (unit, zero vg.Length) {
	sides := func(u vg.Length) (left, right vg.Length) {
		for _, r := range rs {
			left = max(left, vg.Length(-r.lo)*u+r.before)
			right = max(right, vg.Length(r.hi)*u+r.after)
		}
		return left, right
	}
	low, high := vg.Length(0), w/vg.Length(least)
	for range 50 {
		mid := (low + high) / 2
		if l, r := sides(mid); l+r <= w {
			low = mid
		} else {
			high = mid
		}
	}
	left, right := sides(low)
	if left+right <= 0 {
		return low, w / 2
	}
	return low, left + (w-left-right)*left/(left+right)
}
