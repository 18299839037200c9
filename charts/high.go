package charts

import (
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"
)

// trial is a canvas of a size that nothing is kept of but the texts.
type trial struct {
	*recorder.Canvas
	w, h vg.Length
}

// Size returns the size of the canvas in points.
func (t trial) Size() (w, h vg.Length) { return t.w, t.h }

// HighMM returns the least height in millimetres, from least to one and a half
// times the width, at which the figure writes all its names whole on paper of
// that width; least where no height does.
func (f *Figure) HighMM(wideMM, least float64) float64 {
	for h := least; h <= max(least, wideMM*1.5); h += 4 {
		if f.wholeAt(wideMM, h) {
			return h
		}
	}
	return least
}

// wholeAt tells that nothing is cut or left out at a size on paper.
func (f *Figure) wholeAt(wideMM, highMM float64) (whole bool) {
	defer func() { // the plotting library panics on what it cannot draw
		if recover() != nil {
			whole = false
		}
	}()
	s := f.sheet(&outline{CanvasSizer: trial{&recorder.Canvas{}, points(wideMM), points(highMM)}}, 0, Print)
	for _, t := range s.texts {
		if strings.Contains(t.text, "…") {
			return false
		}
	}
	return !s.left
}
