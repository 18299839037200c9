package charts

import "gonum.org/v1/plot/vg"

// markKey is one entry of a legend of marks: what it means and how it is drawn
// about 2r across.
type markKey struct {
	label string
	mark  func(s *sheet, at vg.Point, r vg.Length)
}

// fillKey shows a filled area.
func fillKey(label string, st swatch) markKey {
	return markKey{label, func(s *sheet, at vg.Point, r vg.Length) {
		s.swatch(vg.Rectangle{Min: vg.Point{X: at.X - r, Y: at.Y - r}, Max: vg.Point{X: at.X + r, Y: at.Y + r}}, st)
	}}
}

// limitKey shows the dashed line of the limit.
func limitKey(label string, upright bool) markKey {
	return markKey{label, func(s *sheet, at vg.Point, r vg.Length) {
		a, b := vg.Point{X: at.X - r*1.3, Y: at.Y}, vg.Point{X: at.X + r*1.3, Y: at.Y}
		if upright {
			a, b = vg.Point{X: at.X, Y: at.Y - r*1.3}, vg.Point{X: at.X, Y: at.Y + r*1.3}
		}
		s.dashLine(s.inks.ink, a, b, s.hair(1.6))
	}}
}

// lineKey shows an upright full line.
func lineKey(label string, k float64) markKey {
	return markKey{label, func(s *sheet, at vg.Point, r vg.Length) {
		s.rule(s.inks.ink, at.X, at.Y-r*1.3, at.X, at.Y+r*1.3, s.hair(k))
	}}
}

// markLegend writes the keys in rows from the top left of r and returns how high
// they are; dry nothing is drawn.
func (s *sheet) markLegend(r vg.Rectangle, keys []markKey, dry bool) vg.Length {
	if len(keys) == 0 {
		return 0
	}
	p := s.smallPen()
	p.color = s.inks.ink
	h, half, gap := s.pt(13), s.pt(4.2), s.pt(5)
	x, y := r.Min.X, r.Max.Y-h/2
	for _, k := range keys {
		label := s.fit(p, k.label, r.Max.X-r.Min.X-2*half-gap)
		w := 2*half + gap + s.width(p, label)
		if x > r.Min.X && x+w > r.Max.X {
			x, y = r.Min.X, y-h
		}
		if !dry {
			k.mark(s, vg.Point{X: x + half, Y: y}, half)
			s.write(p, x+2*half+gap, y, 0, label)
		}
		x += w + s.pt(14)
	}
	return r.Max.Y - (y - h/2)
}
