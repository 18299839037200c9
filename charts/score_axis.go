package charts

import (
	"math"

	"gonum.org/v1/plot/vg"

	"parewell/recipes/words"
)

// span is a range of values on an axis.
type span struct{ lo, hi float64 }

// take widens the span to a value; what is no number is passed over.
func (a *span) take(vs ...float64) {
	for _, v := range vs {
		if finite(v) {
			a.lo, a.hi = min(a.lo, v), max(a.hi, v)
		}
	}
}

// emptySpan takes in nothing yet.
func emptySpan() span { return span{math.Inf(1), math.Inf(-1)} }

// atLeast widens the span round its middle to a width; an empty one starts at 0.
func (a *span) atLeast(width float64) {
	if a.lo > a.hi {
		*a = span{}
	}
	if gap := width - (a.hi - a.lo); gap > 0 {
		a.lo, a.hi = a.lo-gap/2, a.hi+gap/2
	}
}

// grown is the span with a part of its width more at both ends.
func (a span) grown(part float64) span {
	d := (a.hi - a.lo) * part
	return span{a.lo - d, a.hi + d}
}

// valueTicks are round values within a, as close as fits allows, with the
// decimals their labels need. There may be none.
func valueTicks(a span, least float64, fits func(ticks []float64, decimals int) bool) ([]float64, int) {
	for power := math.Floor(math.Log10((a.hi - a.lo) / 30)); power < 12; power++ {
		for _, m := range []float64{1, 2, 5} {
			step := m * math.Pow(10, power)
			if step < least*(1-1e-9) || (a.hi-a.lo)/step > 30 {
				continue
			}
			decimals := max(0, int(-power))
			var out []float64
			for k := math.Ceil(a.lo/step - 1e-9); k*step <= a.hi+step*1e-9; k++ {
				out = append(out, k*step+0) // plus 0: no minus zero
			}
			if fits(out, decimals) {
				return out, decimals
			}
		}
	}
	return nil, 0
}

// axis is one labelled axis: its ticks and how a tick is written.
type axis struct {
	ticks []float64
	text  func(float64) string
}

// plainTick and signedTick write ticks with so many decimals.
func plainTick(decimals int) func(float64) string {
	return func(v float64) string { return words.Number(v, decimals) }
}

func signedTick(decimals int) func(float64) string {
	return func(v float64) string {
		if math.Abs(v) < 1e-9 {
			return words.Number(0, 0)
		}
		return words.Signed(v, decimals)
	}
}

// levelAxis is the axis of x over w points whose labels stand clear; least is
// the smallest step.
func (s *sheet) levelAxis(a span, w vg.Length, least float64, form func(int) func(float64) string) axis {
	at := func(v float64) vg.Length { return vg.Length((v-a.lo)/(a.hi-a.lo)) * w }
	ticks, d := valueTicks(a, least, func(ts []float64, d int) bool {
		end := vg.Length(math.Inf(-1))
		for _, v := range ts {
			half := s.width(s.smallPen(), form(d)(v)) / 2
			if at(v)-half < end+s.pt(13) {
				return false
			}
			end = at(v) + half
		}
		return true
	})
	return axis{ticks, form(d)}
}

// uprightAxis is the same of y over h points.
func (s *sheet) uprightAxis(a span, h vg.Length, least float64, form func(int) func(float64) string) axis {
	ticks, d := valueTicks(a, least, func(ts []float64, _ int) bool {
		return len(ts) < 2 || vg.Length((ts[1]-ts[0])/(a.hi-a.lo))*h >= s.lineOf(s.smallPen())*1.9
	})
	return axis{ticks, form(d)}
}

// width is the room of the widest label.
func (a axis) width(s *sheet) vg.Length {
	var w vg.Length
	for _, v := range a.ticks {
		w = max(w, s.width(s.smallPen(), a.text(v)))
	}
	return w
}

// under writes the labels of x under a panel, kept within left and right.
func (a axis) under(s *sheet, p panel, left, right vg.Length) {
	y := p.area.Min.Y - s.pt(3) - s.lineOf(s.smallPen())/2
	for _, v := range a.ticks {
		half := s.width(s.smallPen(), a.text(v)) / 2
		s.write(s.smallPen(), max(left+half, min(right-half, p.x(v))), y, 0.5, a.text(v))
	}
}

// beside writes the labels of y to the left of a panel.
func (a axis) beside(s *sheet, p panel) {
	for _, v := range a.ticks {
		s.write(s.smallPen(), p.area.Min.X-s.pt(5), p.y(v), 1, a.text(v))
	}
}

// levelLines draws thin level lines at the ticks of y.
func (a axis) levelLines(s *sheet, p panel) {
	for _, v := range a.ticks {
		s.rule(s.inks.grid, p.area.Min.X, p.y(v), p.area.Max.X, p.y(v), s.hair(1))
	}
}
