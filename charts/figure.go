package charts

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"

	"gonum.org/v1/plot/vg"
	vgdraw "gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Figure is a drawing prepared from a snapshot of data. It never changes, so
// it can be drawn from several goroutines at once.
type Figure struct {
	title string
	alt   string
	paper string // the text alternative of a file, where paper shows less than the screen; else ""
	paint func(*sheet)
	proof bool // files show the colours of the screen in greys
}

// Noting is the figure with more to be said in its text alternative, such as how
// far to trust it.
func (f *Figure) Noting(notes ...string) *Figure {
	out := *f
	for _, n := range notes {
		out.alt += " " + n
		if out.paper != "" {
			out.paper += " " + n
		}
	}
	return &out
}

// Proof is the figure whose files show the colours of the screen in greys: what
// is left of them in a black and white copy. It is laid out as for print.
func (f *Figure) Proof() *Figure {
	out := *f
	out.proof = true
	return &out
}

// look is what files of the figure are drawn for.
func (f *Figure) look() Look {
	if f.proof {
		return proofLook
	}
	return Print
}

// Title returns the figure's title; it may be empty.
func (f *Figure) Title() string { return f.title }

// Alt returns the text alternative: what the figure shows, with its numbers.
func (f *Figure) Alt() string { return f.alt }

// PaperAlt returns the text alternative of the figure as files hold it. It is
// Alt but for figures that leave on the screen what must not be printed.
func (f *Figure) PaperAlt() string {
	if f.paper != "" {
		return f.paper
	}
	return f.alt
}

// Image draws the figure pxW by pxH device pixels large for the screen; scale is
// device pixels a screen unit (1 on a plain screen, 2 on a dense one), so text
// keeps its size when the figure grows. A figure that cannot be drawn gives the
// bare ground; Draw says why.
func (f *Figure) Image(pxW, pxH int, scale float64, look Look) image.Image {
	img, err := f.Draw(pxW, pxH, scale, look)
	if err != nil {
		return bare(pxW, pxH, look)
	}
	return img
}

// Draw is Image with the reason when the figure cannot be drawn.
func (f *Figure) Draw(pxW, pxH int, scale float64, look Look) (image.Image, error) {
	if math.IsNaN(scale) || scale < 0.25 || scale > 8 {
		scale = 1
	}
	// The canvas takes whole dots per inch: lengths are derived from the rounded
	// number, or the image would be a pixel too large or too small.
	return f.raster(pxW, pxH, int(math.Round(96*scale)), look)
}

// maxPixels bounds a drawing in memory: 120 million, A3 at 600 dots per inch.
const maxPixels = 120e6

func (f *Figure) raster(pxW, pxH, dpi int, look Look) (draw.Image, error) {
	if pxW < 1 || pxH < 1 || float64(pxW)*float64(pxH) > maxPixels {
		return nil, f.problem("charts.size.pixels", "charts.size.hint", nil, pxW, pxH)
	}
	px := vg.Length(72 / float64(dpi))
	c := vgimg.NewWith(vgimg.UseWH(vg.Length(pxW)*px, vg.Length(pxH)*px), vgimg.UseDPI(dpi),
		vgimg.UseBackgroundColor(inksOf(look).ground))
	if err := f.on(c, px, look); err != nil {
		return nil, err
	}
	return c.Image(), nil
}

// on paints the figure over the whole canvas. The plotting library panics on
// what it cannot draw; that becomes an error here and nowhere else.
func (f *Figure) on(c vg.CanvasSizer, px vg.Length, look Look) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = f.problem("charts.failed", "charts.failed.hint", fmt.Errorf("drawing: %v", r))
		}
	}()
	if look == proofLook {
		c = greyCanvas{c}
	}
	f.sheet(&outline{CanvasSizer: c}, px, look)
	return nil
}

// sheet paints the figure on a fresh sheet and returns it.
func (f *Figure) sheet(c vg.CanvasSizer, px vg.Length, look Look) *sheet {
	s := &sheet{Canvas: vgdraw.New(c), inks: inksOf(look), px: px, scale: 1, widths: map[measured]vg.Length{}}
	s.FillPolygon(s.inks.ground, corners(s.Rectangle))
	f.paint(s)
	return s
}

func (f *Figure) problem(what, hint string, cause error, args ...any) error {
	if cause == nil {
		cause = errors.New("charts: " + what)
	}
	return problem.Wrap(cause, f.title, words.Say(what, args...), words.Say(hint))
}

// bare is an empty ground of the size asked for, at least one pixel.
func bare(pxW, pxH int, look Look) image.Image {
	if float64(pxW)*float64(pxH) > maxPixels {
		pxW, pxH = 1, 1
	}
	img := image.NewRGBA(image.Rect(0, 0, max(pxW, 1), max(pxH, 1)))
	draw.Draw(img, img.Bounds(), image.NewUniform(color.NRGBA(inksOf(look).ground)), image.Point{}, draw.Src)
	return img
}
