package charts

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// shapeMark draws a marker shape filled and edged, so that a hollow one is told
// from a solid one without colour.
func (s *sheet) shapeMark(shape int, c vg.Point, r vg.Length, fill, edge color.NRGBA) {
	p := shapeAt(shape, c, r)
	s.SetColor(fill)
	s.Fill(p)
	if edge == fill {
		return
	}
	s.SetColor(edge)
	s.SetLineWidth(max(s.hair(1.34), s.pt(1.1)))
	s.Stroke(p)
}

// originalMark is the original's own sign: a ring with a dot, apart from every
// version's marker.
func (s *sheet) originalMark(c vg.Point, r vg.Length) {
	s.shapeMark(0, c, r*1.05, s.inks.ground, s.inks.ink)
	s.shapeMark(0, c, r*0.45, s.inks.ink, s.inks.ink)
}

// rowMark draws the marker of a row: a version's, the original's, or a small
// bar for a dish that is neither.
func (s *sheet) rowMark(style int, c vg.Point, r vg.Length) {
	switch {
	case style >= 0:
		s.marker(style, c, r)
	case style == styleOriginal:
		s.originalMark(c, r)
	default:
		s.shapeMark(1, c, r*0.9, s.inks.ground, s.inks.muted)
	}
}

// Styles of rows that are no version.
const (
	styleOriginal = -1
	styleOther    = -2
	styleNone     = -3 // neither marker nor letter
)

// rowInk is the colour a row's marks are drawn in.
func (s *sheet) rowInk(style int) color.NRGBA {
	if style >= 0 {
		return s.inks.versions[style].edge
	}
	return s.inks.ink
}

// rowFill is how a row's areas are filled.
func (s *sheet) rowFill(style int) swatch {
	if style >= 0 {
		return s.inks.versions[style]
	}
	return s.inks.original
}

// strips are rectangles of one colour filled in a single call, which is what
// many small ones cost most.
type strips struct {
	s    *sheet
	path vg.Path
}

// rule adds an upright or level line of width w.
func (b *strips) rule(x0, y0, x1, y1, w vg.Length) {
	r := b.s.ruleRect(x0, y0, x1, y1, w)
	pts := corners(r)
	b.path.Move(pts[0])
	for _, p := range pts[1:] {
		b.path.Line(p)
	}
	b.path.Close()
}

func (b *strips) fill(c color.NRGBA) {
	if len(b.path) == 0 {
		return
	}
	b.s.SetColor(c)
	b.s.Fill(b.path)
}

// dashLine draws an upright or level dashed line as filled strips, which no
// renderer blurs.
func (s *sheet) dashLine(c color.NRGBA, from, to vg.Point, w vg.Length) {
	on, off := s.pt(4), s.pt(2.6)
	b := strips{s: s}
	if from.X == to.X {
		for y := from.Y; y < to.Y; y += on + off {
			b.rule(from.X, y, from.X, min(y+on, to.Y), w)
		}
	} else {
		for x := from.X; x < to.X; x += on + off {
			b.rule(x, from.Y, min(x+on, to.X), from.Y, w)
		}
	}
	b.fill(c)
}

// interval draws a level line from x0 to x1 with caps; an end that is cut by
// the axis has none.
func (s *sheet) interval(c color.NRGBA, x0, x1, y, cap vg.Length, within [2]vg.Length) {
	w := s.hair(1.6)
	lo, hi := max(x0, within[0]), min(x1, within[1])
	if hi <= lo {
		return
	}
	s.rule(c, lo, y, hi, y, w)
	if lo == x0 {
		s.rule(c, lo, y-cap, lo, y+cap, s.hair(1.34))
	}
	if hi == x1 {
		s.rule(c, hi, y-cap, hi, y+cap, s.hair(1.34))
	}
}

// uprightInterval is the same from y0 up to y1.
func (s *sheet) uprightInterval(c color.NRGBA, x, y0, y1, cap vg.Length, within [2]vg.Length) {
	w := s.hair(1.34)
	lo, hi := max(y0, within[0]), min(y1, within[1])
	if hi <= lo {
		return
	}
	s.rule(c, x, lo, x, hi, w)
	if lo == y0 {
		s.rule(c, x-cap, lo, x+cap, lo, w)
	}
	if hi == y1 {
		s.rule(c, x-cap, hi, x+cap, hi, w)
	}
}

// slant draws a thin line between two points.
func (s *sheet) slant(c color.NRGBA, a, b vg.Point, w vg.Length) {
	s.StrokeLines(draw.LineStyle{Color: c, Width: w}, []vg.Point{a, b})
}
