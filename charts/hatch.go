package charts

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// hatch is a pattern over a fill; every version has its own.
type hatch int

const (
	solid hatch = iota
	rising
	falling
	crossed
	level
	upright
	dotted
	squared
)

// hatches by version, A to H; neighbours differ most.
var hatches = [Versions]hatch{solid, rising, dotted, crossed, level, falling, upright, squared}

// hatchFill returns the dots of the hatch within r as one path to fill, empty
// for the line hatches.
func (h hatch) hatchFill(r vg.Rectangle, step vg.Length) vg.Path {
	var p vg.Path
	if h != dotted {
		return p
	}
	rad := step * 0.19
	odd := false
	for y := r.Min.Y + step/2; y < r.Max.Y-rad; y += step * 0.75 {
		x := r.Min.X + step/2
		if odd {
			x += step / 2
		}
		for ; x < r.Max.X-rad; x += step {
			circle(&p, vg.Point{X: x, Y: y}, rad)
		}
		odd = !odd
	}
	return p
}

// hatchLines returns the lines of the hatch within r as one path to stroke,
// so that a bar costs one drawing call.
func (h hatch) hatchLines(r vg.Rectangle, step vg.Length) vg.Path {
	var p vg.Path
	if h == rising || h == crossed {
		diagonals(&p, r, step, false)
	}
	if h == falling || h == crossed {
		diagonals(&p, r, step, true)
	}
	if h == level || h == squared {
		for y := r.Min.Y + step/2; y < r.Max.Y; y += step * 0.8 {
			segment(&p, r.Min.X, y, r.Max.X, y)
		}
	}
	if h == upright || h == squared {
		for x := r.Min.X + step/2; x < r.Max.X; x += step * 0.8 {
			segment(&p, x, r.Min.Y, x, r.Max.Y)
		}
	}
	return p
}

// diagonals adds 45 degree lines, cut at the edges of r.
func diagonals(p *vg.Path, r vg.Rectangle, step vg.Length, down bool) {
	w, h := r.Max.X-r.Min.X, r.Max.Y-r.Min.Y
	for d := -h + step/2; d < w; d += step * math.Sqrt2 * 0.8 {
		x0, x1 := max(d, 0), min(d+h, w)
		y0, y1 := x0-d, x1-d
		if down {
			y0, y1 = h-y0, h-y1
		}
		segment(p, r.Min.X+x0, r.Min.Y+y0, r.Min.X+x1, r.Min.Y+y1)
	}
}

func segment(p *vg.Path, x0, y0, x1, y1 vg.Length) {
	p.Move(vg.Point{X: x0, Y: y0})
	p.Line(vg.Point{X: x1, Y: y1})
}

// circle adds a circle of four cubic curves; 0.5523 is their best fit
// (common practice, no source). Arcs are avoided: the PDF writer draws them twice.
func circle(p *vg.Path, c vg.Point, r vg.Length) {
	at := func(x, y vg.Length) vg.Point { return vg.Point{X: c.X + x*r, Y: c.Y + y*r} }
	const k = 0.5523
	p.Move(at(1, 0))
	p.CubeTo(at(1, k), at(k, 1), at(0, 1))
	p.CubeTo(at(-k, 1), at(-1, k), at(-1, 0))
	p.CubeTo(at(-1, -k), at(-k, -1), at(0, -1))
	p.CubeTo(at(k, -1), at(1, -k), at(1, 0))
	p.Close()
}
