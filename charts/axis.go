package charts

import (
	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// rowLines draws thin lines over, between and under n rows.
func (s *sheet) rowLines(x0, x1, top, row vg.Length, n int) {
	for i := 0; i <= n; i++ {
		y := top - row*vg.Length(i)
		s.rule(s.inks.grid, x0, y, x1, y, s.hair(1))
	}
}

// axisLabels writes percent ticks under a panel; a label may reach half the gap
// beyond the panel's edge.
func (s *sheet) axisLabels(p panel, ticks []float64, gap vg.Length) {
	y := p.area.Min.Y - s.pt(3) - s.lineOf(s.smallPen())/2
	for _, v := range ticks {
		text := words.Percent(v)
		if v == 0 {
			text = words.Number(0, 0)
		}
		half := s.width(s.smallPen(), text) / 2
		x := max(p.area.Min.X-gap/2+half, min(p.area.Max.X+gap/2-half, p.x(v)))
		s.write(s.smallPen(), x, y, 0.5, text)
	}
}

// writeClean writes text over a patch of bare ground, so that no grid line runs
// through it.
func (s *sheet) writeClean(p pen, x, y vg.Length, align float64, text string) {
	w, h := s.width(p, text), s.pt(p.size)
	x -= w * vg.Length(align)
	pad := s.pt(1.5)
	s.fillRect(s.inks.ground, vg.Rectangle{Min: vg.Point{X: x - pad, Y: y - h*0.52}, Max: vg.Point{X: x + w + pad, Y: y + h*0.52}})
	s.write(p, x, y, 0, text)
}

// writePatch writes text centred in a filled area: on a patch of the fill where
// a hatch would run through it, in whichever ink stands out.
func (s *sheet) writePatch(p pen, x, y vg.Length, text string, st swatch) {
	p.color = s.inks.ink
	if contrast(s.inks.ground, st.fill) > contrast(s.inks.ink, st.fill) {
		p.color = s.inks.ground
	}
	if st.hatch != solid {
		w, h, pad := s.width(p, text), s.pt(p.size), s.pt(2)
		s.fillRect(st.fill, vg.Rectangle{Min: vg.Point{X: x - w/2 - pad, Y: y - h*0.56}, Max: vg.Point{X: x + w/2 + pad, Y: y + h*0.56}})
	}
	s.write(p, x, y, 0.5, text)
}

// room returns what frame leaves under the title, without drawing.
func (s *sheet) room(title string) vg.Rectangle {
	m := s.pt(6)
	r := vg.Rectangle{Min: vg.Point{X: m, Y: m}, Max: vg.Point{X: s.Max.X - m, Y: s.Max.Y - m}}
	if n := len(s.titleLines(title)); n > 0 {
		r.Max.Y -= s.lineOf(s.titlePen())*vg.Length(n) + s.pt(5)
	}
	return r
}
