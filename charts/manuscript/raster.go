package manuscript

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Image draws the page as it will be printed, white paper and all: so many
// pixels a point. It is for the screen; on paper goes the PDF. Errors: a picture
// that is no PNG.
func (p *Page) Image(scale float64) (*image.RGBA, error) {
	img := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(p.Paper.Width*scale)), int(math.Ceil(p.Paper.Height*scale))))
	draw.Draw(img, img.Bounds(), image.White, image.Point{}, draw.Src)
	for i := range p.Pictures {
		if err := p.Pictures[i].draw(img, scale); err != nil {
			return nil, problem.Wrap(err, "", words.Say("print.failed"), "")
		}
	}
	for _, r := range p.Rules {
		r.draw(img, scale)
	}
	pens := map[pen]font.Face{}
	for _, t := range p.Texts {
		if err := t.draw(img, scale, pens); err != nil {
			return nil, problem.Wrap(err, "", words.Say("print.failed"), "")
		}
	}
	return img, nil
}

func (x *Picture) draw(on *image.RGBA, scale float64) error {
	src, err := png.Decode(bytes.NewReader(x.PNG))
	if err != nil {
		return err
	}
	to := image.Rect(int(math.Round(x.X*scale)), int(math.Round(x.Y*scale)), int(math.Round((x.X+x.Width)*scale)), int(math.Round((x.Y+x.Height)*scale)))
	xdraw.CatmullRom.Scale(on, to, src, src.Bounds(), draw.Over, nil)
	return nil
}

// draw draws a line whose width is covered exactly, so that a thin one is pale
// and not gone.
func (r Rule) draw(on *image.RGBA, scale float64) {
	half := r.Width / 2
	x1, x2 := math.Min(r.X1, r.X2), math.Max(r.X1, r.X2)
	y1, y2 := math.Min(r.Y1, r.Y2), math.Max(r.Y1, r.Y2)
	if r.Y1 == r.Y2 {
		y1, y2 = y1-half, y2+half
	} else {
		x1, x2 = x1-half, x2+half
	}
	ink := uint8(0)
	if r.Grey {
		ink = greyLine
	}
	x1, x2, y1, y2 = x1*scale, x2*scale, y1*scale, y2*scale
	for y := int(math.Floor(y1)); float64(y) < y2; y++ {
		down := covered(y, y1, y2)
		for x := int(math.Floor(x1)); float64(x) < x2; x++ {
			blend(on, x, y, ink, down*covered(x, x1, x2))
		}
	}
}

// covered is the part of pixel i between from and to.
func covered(i int, from, to float64) float64 {
	return math.Max(0, math.Min(float64(i+1), to)-math.Max(float64(i), from))
}

// blend puts so much of a grey ink on a pixel.
func blend(on *image.RGBA, x, y int, ink uint8, part float64) {
	if !image.Pt(x, y).In(on.Rect) {
		return
	}
	c := on.RGBAAt(x, y)
	mix := func(under uint8) uint8 { return uint8(math.Round(float64(under)*(1-part) + float64(ink)*part)) }
	on.SetRGBA(x, y, color.RGBA{mix(c.R), mix(c.G), mix(c.B), 255})
}

// pen is a font at a size in pixels.
type pen struct {
	size float64
	of   *face
}

func (t Text) draw(on *image.RGBA, scale float64, pens map[pen]font.Face) error {
	key := pen{t.Size * scale, t.Face.in(t.Bold)}
	face, ok := pens[key]
	if !ok {
		var err error
		face, err = opentype.NewFace(key.of.font, &opentype.FaceOptions{Size: key.size, DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			return err
		}
		pens[key] = face
	}
	ink := color.Gray{Y: 0}
	if t.Grey {
		ink.Y = greyInk
	}
	d := font.Drawer{Dst: on, Src: image.NewUniform(ink), Face: face, Dot: fixed.Point26_6{X: fixed.Int26_6(t.X * scale * 64), Y: fixed.Int26_6(t.Y * scale * 64)}}
	var typing typing
	em := fixed.Int26_6(key.of.font.UnitsPerEm()) << 6
	x := t.X * scale
	for _, r := range t.Text { // each sign where the PDF puts it: no kerning
		d.Dot.X = fixed.Int26_6(math.Round(x * 64))
		d.DrawString(string(r))
		if g, err := key.of.font.GlyphIndex(&typing.buf, r); err == nil {
			if a, err := key.of.font.GlyphAdvance(&typing.buf, g, em, font.HintingNone); err == nil {
				x += float64(a) / float64(em) * key.size
			}
		}
	}
	return nil
}
