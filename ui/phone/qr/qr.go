// Package qr draws a text as a QR code by ISO/IEC 18004:2015: byte mode,
// versions 1 to 10, error correction level M, the mask with the fewest penalty
// points. That is all a link to a page in the same house needs.
package qr

import (
	"errors"
	"image"
	"image/color"
)

// ErrLong is returned for a text of more than 213 bytes, which is what version
// 10 at level M holds (ISO/IEC 18004:2015, table 7).
var ErrLong = errors.New("the text is too long for a QR code of version 10")

// Quiet is how many light modules stand around the code (ISO/IEC 18004:2015,
// 6.3.8).
const Quiet = 4

// Code is a finished square of modules, without its quiet zone.
type Code struct {
	Version int
	Mask    int
	Size    int // modules a side
	dark    []bool
}

// Encode makes the smallest code that holds text; ErrLong if none does.
func Encode(text string) (*Code, error) {
	v := smallest(len(text))
	if v == 0 {
		return nil, ErrLong
	}
	stream := interleave(v, dataWords(v, text))
	var best *Code
	least := 0
	for mask := range masks {
		g := newGrid(v)
		g.place(stream, mask)
		g.format(mask)
		if p := penalty(g); best == nil || p < least {
			best, least = &Code{Version: v, Mask: mask, Size: g.size, dark: g.dark}, p
		}
	}
	return best, nil
}

// Dark tells whether the module of column x and row y is dark; outside the code
// none is.
func (c *Code) Dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < c.Size && y < c.Size && c.dark[y*c.Size+x]
}

// Image draws the code black on white with its quiet zone, every module a square
// of scale pixels (at least 1). It is never drawn light on dark: many readers do
// not take that.
func (c *Code) Image(scale int) image.Image {
	scale = max(1, scale)
	side := (c.Size + 2*Quiet) * scale
	img := image.NewPaletted(image.Rect(0, 0, side, side), color.Palette{color.White, color.Black})
	for y := range side {
		for x := range side {
			if c.Dark(x/scale-Quiet, y/scale-Quiet) {
				img.SetColorIndex(x, y, 1)
			}
		}
	}
	return img
}
