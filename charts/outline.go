package charts

import (
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// outline is a canvas that draws text as filled glyph outlines, so that PDF,
// EPS and SVG files need no fonts and every sign of the font is right. Curves
// are made cubic here, because the PDF and EPS writers bend quadratic ones wrongly.
type outline struct {
	vg.CanvasSizer
	buf sfnt.Buffer
}

// FillString fills the outlines of s with its first baseline point at pt.
func (o *outline) FillString(f font.Face, pt vg.Point, s string) {
	units := f.Face.UnitsPerEm()
	em := fixed.Int26_6(units) << 6
	k := f.Font.Size / vg.Length(units) / 64
	var path vg.Path
	var last sfnt.GlyphIndex
	for i, r := range s {
		g, err := f.Face.GlyphIndex(&o.buf, r)
		if err != nil {
			continue
		}
		if kern, err := f.Face.Kern(&o.buf, last, g, em, 0); i > 0 && err == nil {
			pt.X += vg.Length(kern) * k
		}
		if segs, err := f.Face.LoadGlyph(&o.buf, g, em, nil); err == nil {
			addGlyph(&path, segs, pt, k)
		}
		if step, err := f.Face.GlyphAdvance(&o.buf, g, em, 0); err == nil {
			pt.X += vg.Length(step) * k
		}
		last = g
	}
	if len(path) > 0 {
		o.Fill(path)
	}
}

// addGlyph adds the closed outlines of one glyph at pt, k points a font unit.
func addGlyph(path *vg.Path, segs sfnt.Segments, pt vg.Point, k vg.Length) {
	at := func(q fixed.Point26_6) vg.Point {
		return vg.Point{X: pt.X + vg.Length(q.X)*k, Y: pt.Y - vg.Length(q.Y)*k}
	}
	var pen vg.Point
	for i, sg := range segs {
		end := at(sg.Args[0])
		switch sg.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				path.Close()
			}
			path.Move(end)
		case sfnt.SegmentOpLineTo:
			path.Line(end)
		case sfnt.SegmentOpQuadTo:
			c := end
			end = at(sg.Args[1])
			path.CubeTo(toward(pen, c), toward(end, c), end)
		case sfnt.SegmentOpCubeTo:
			c := end
			end = at(sg.Args[2])
			path.CubeTo(c, at(sg.Args[1]), end)
		}
		pen = end
	}
	if len(segs) > 0 {
		path.Close()
	}
}

// toward returns the point two thirds of the way from p to c: the control point
// of the cubic curve that equals a quadratic one.
func toward(p, c vg.Point) vg.Point {
	return vg.Point{X: p.X + (c.X-p.X)*2/3, Y: p.Y + (c.Y-p.Y)*2/3}
}
