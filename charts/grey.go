package charts

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// greyCanvas is a canvas that turns every colour into the grey of its lightness.
type greyCanvas struct{ vg.CanvasSizer }

// SetColor sets the grey of c.
func (g greyCanvas) SetColor(c color.Color) { g.CanvasSizer.SetColor(greyOf(c)) }

// greyOf is the grey of a colour, as a copier would see it.
func greyOf(c color.Color) color.NRGBA {
	y := color.GrayModel.Convert(c).(color.Gray).Y // the model makes nothing else
	return color.NRGBA{R: y, G: y, B: y, A: 0xff}
}
