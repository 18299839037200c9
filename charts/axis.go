package charts

import (
	"math"

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

// tickLabel places one percent label: its text, middle and half its width. It
// may reach half the gap beyond the panel's edge.
func (s *sheet) tickLabel(p panel, v float64, gap vg.Length) (text string, x, half vg.Length) {
	text = words.Percent(v)
	if v == 0 {
		text = words.Number(0, 0)
	}
	half = s.width(s.smallPen(), text) / 2
	reach := gap/2 - s.pt(2)
	return text, max(p.area.Min.X-reach+half, min(p.area.Max.X+reach-half, p.x(v))), half
}

// labelsFit says whether the labels of all ticks stand clear of each other.
func (s *sheet) labelsFit(p panel, ticks []float64, gap vg.Length) bool {
	end := vg.Length(math.Inf(-1))
	for _, v := range ticks {
		_, x, half := s.tickLabel(p, v, gap)
		if x-half < end+s.pt(10) {
			return false
		}
		end = x + half
	}
	return true
}

// axisLabels writes percent ticks under a panel.
func (s *sheet) axisLabels(p panel, ticks []float64, gap vg.Length) {
	y := p.area.Min.Y - s.pt(3) - s.lineOf(s.smallPen())/2
	for _, v := range ticks {
		text, x, _ := s.tickLabel(p, v, gap)
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
