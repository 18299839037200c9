package charts

import "gonum.org/v1/plot/vg"

// apartFor says how far apart two marks have to stand across; 0 for any.
type apartFor func(i, j int) vg.Length

// spread moves marks that would lie on one another aside, keeping their order and
// their heights, within lo and hi.
func spread(at []vg.Point, need apartFor, lo, hi vg.Length) []vg.Point {
	out := append([]vg.Point(nil), at...)
	for range 120 {
		moved := false
		for i := range out {
			for j := i + 1; j < len(out); j++ {
				a, b := &out[i], &out[j]
				if b.X < a.X || b.X == a.X && at[j].X < at[i].X {
					a, b = b, a
				}
				if gap := need(i, j) - (b.X - a.X); gap > 0.05 {
					a.X, b.X, moved = max(lo, a.X-gap/2), min(hi, b.X+gap/2), true
				}
			}
		}
		if !moved {
			break
		}
	}
	return out
}

// leader shows where a mark that was moved aside belongs: a short upright line
// there, and a thin one to the mark.
func (s *sheet) leader(from, to vg.Point, r vg.Length) {
	if d := to.X - from.X; d < s.pt(0.6) && d > -s.pt(0.6) {
		return
	}
	s.rule(s.inks.axis, from.X, from.Y-r*0.6, from.X, from.Y+r*0.6, s.hair(1))
	s.slant(s.inks.axis, from, to, s.hair(1))
}
