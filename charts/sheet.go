package charts

import (
	"image/color"
	"math"
	"strings"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// faces are the two fonts of every figure, parsed once: Liberation Sans, which
// has minus, at-least and arrow signs and digits of one width.
var faces = sync.OnceValue(func() [2]*opentype.Font {
	regular, err := opentype.Parse(liberationsansregular.TTF)
	if err != nil {
		panic(err) // embedded at build time: a fault here is a programmer's
	}
	bold, err := opentype.Parse(liberationsansbold.TTF)
	if err != nil {
		panic(err)
	}
	return [2]*opentype.Font{regular, bold}
})

// sheet is the surface a figure is painted on: a canvas in points with its
// origin at the bottom left, the inks of the look, and the size of a pixel.
type sheet struct {
	draw.Canvas
	inks  *inks
	px    vg.Length // one device pixel; 0 in vector files
	scale float64   // text size multiplier, 1 unless the sheet is small
	texts []textBox // what was written and where, for the tests
	bars  int       // bars drawn, for the tests
	left  bool      // something had no room, and the sheet says so

	widths map[measured]vg.Length
}

// textBox is one written line and the room it takes.
type textBox struct {
	text string
	box  vg.Rectangle
}

// pen is how text is written.
type pen struct {
	size  float64 // points at scale 1
	bold  bool
	color color.NRGBA
}

func (s *sheet) titlePen() pen { return pen{12, true, s.inks.ink} }
func (s *sheet) headPen() pen  { return pen{9.75, true, s.inks.ink} }
func (s *sheet) bodyPen() pen  { return pen{9, false, s.inks.ink} }
func (s *sheet) smallPen() pen { return pen{8.25, false, s.inks.muted} }

// lineOf returns the height of a line of text, in points.
func (s *sheet) lineOf(p pen) vg.Length { return s.pt(p.size * 1.3) }

// pt turns a length at text scale 1 into points on this sheet.
func (s *sheet) pt(v float64) vg.Length { return vg.Length(v * s.scale * s.inks.text) }

func (s *sheet) face(p pen) font.Face {
	f := font.Face{Face: faces()[0], Font: font.Font{Typeface: "Liberation", Variant: "Sans", Size: s.pt(p.size)}}
	if p.bold {
		f.Face, f.Font.Weight = faces()[1], 700
	}
	return f
}

// measured is the key under which a width is kept.
type measured struct {
	text string
	size vg.Length
	bold bool
}

// width returns how wide the text is written with p, in points. Planning asks
// for the same texts again and again, so widths are kept.
func (s *sheet) width(p pen, text string) vg.Length {
	k := measured{text, s.pt(p.size), p.bold}
	w, ok := s.widths[k]
	if !ok {
		f := s.face(p)
		w = f.Width(text)
		s.widths[k] = w
	}
	return w
}

// The height of capitals and the depth of descenders of Liberation Sans, in
// parts of the size (from its OS/2 table, 1409 and 431 of 2048).
const capHeight, descent = 0.688, 0.21

// write puts one line of text with its capitals centred on y. align says which
// part of it lies at x: 0 the left end, 0.5 the middle, 1 the right end.
func (s *sheet) write(p pen, x, y vg.Length, align float64, text string) vg.Rectangle {
	f := s.face(p)
	w := s.width(p, text)
	x -= w * vg.Length(align)
	base := s.snap(y - f.Font.Size*capHeight/2)
	if text != "" {
		s.SetColor(p.color)
		s.FillString(f, vg.Point{X: x, Y: base}, text)
	}
	box := vg.Rectangle{Min: vg.Point{X: x, Y: base - f.Font.Size*descent}, Max: vg.Point{X: x + w, Y: base + f.Font.Size*0.73}}
	if text != "" {
		s.texts = append(s.texts, textBox{text, box})
	}
	return box
}

// fit shortens text with an ellipsis until it is no wider than w; "" if not
// even three letters fit.
func (s *sheet) fit(p pen, text string, w vg.Length) string {
	if s.width(p, text) <= w {
		return text
	}
	r := []rune(text)
	for n := len(r) - 1; n >= 3; n-- {
		if short := strings.TrimRight(string(r[:n]), " ,;") + "…"; s.width(p, short) <= w {
			return short
		}
		if n > 60 {
			n = n * 2 / 3
		}
	}
	return ""
}

// wrap breaks text into at most lines lines no wider than w; what is left over
// is cut with an ellipsis.
func (s *sheet) wrap(p pen, text string, w vg.Length, lines int) []string {
	var out []string
	fields := strings.Fields(text)
	for len(fields) > 0 {
		if len(out) == lines-1 {
			return append(out, s.fit(p, strings.Join(fields, " "), w))
		}
		n := 1
		for n < len(fields) && s.width(p, strings.Join(fields[:n+1], " ")) <= w {
			n++
		}
		out = append(out, s.fit(p, strings.Join(fields[:n], " "), w))
		fields = fields[n:]
	}
	return out
}

// snap moves a length to the nearest edge of a pixel, so that bars and lines
// are sharp on the screen; vector files keep it.
func (s *sheet) snap(v vg.Length) vg.Length {
	if s.px == 0 {
		return v
	}
	return vg.Length(math.Round(float64(v/s.px))) * s.px
}

// hair returns the width of a thin line times k: whole pixels on the screen.
func (s *sheet) hair(k float64) vg.Length {
	w := vg.Length(0.75 * k * s.inks.text)
	if s.px == 0 {
		return w
	}
	return max(s.snap(w), s.px)
}

// fillRect fills r, snapped to pixels.
func (s *sheet) fillRect(c color.NRGBA, r vg.Rectangle) {
	r = s.snapRect(r)
	s.FillPolygon(c, corners(r))
}

func (s *sheet) snapRect(r vg.Rectangle) vg.Rectangle {
	return vg.Rectangle{
		Min: vg.Point{X: s.snap(r.Min.X), Y: s.snap(r.Min.Y)},
		Max: vg.Point{X: s.snap(r.Max.X), Y: s.snap(r.Max.Y)},
	}
}

func corners(r vg.Rectangle) []vg.Point {
	return []vg.Point{r.Min, {X: r.Min.X, Y: r.Max.Y}, r.Max, {X: r.Max.X, Y: r.Min.Y}}
}

// rule draws an upright or level line of width w as a filled strip, which no
// renderer blurs.
func (s *sheet) rule(c color.NRGBA, x0, y0, x1, y1, w vg.Length) {
	s.FillPolygon(c, corners(s.ruleRect(x0, y0, x1, y1, w)))
}

// ruleRect is the strip of such a line, on whole pixels.
func (s *sheet) ruleRect(x0, y0, x1, y1, w vg.Length) vg.Rectangle {
	r := vg.Rectangle{Min: vg.Point{X: s.snap(x0), Y: s.snap(y0)}, Max: vg.Point{X: s.snap(x1), Y: s.snap(y1)}}
	if x0 == x1 {
		r.Min.X = s.snap(x0 - w/2)
		r.Max.X = r.Min.X + w
	} else {
		r.Min.Y = s.snap(y0 - w/2)
		r.Max.Y = r.Min.Y + w
	}
	return r
}

// dashed strokes the outline of r in dashes.
func (s *sheet) dashed(c color.NRGBA, r vg.Rectangle, w vg.Length) {
	r = s.snapRect(r)
	in := vg.Rectangle{Min: vg.Point{X: r.Min.X + w/2, Y: r.Min.Y + w/2}, Max: vg.Point{X: r.Max.X - w/2, Y: r.Max.Y - w/2}}
	pts := corners(in)
	s.StrokeLines(draw.LineStyle{Color: c, Width: w, Dashes: []vg.Length{s.pt(2.4), s.pt(1.8)}}, append(pts, pts[0]))
	s.SetLineDash(nil, 0)
}
