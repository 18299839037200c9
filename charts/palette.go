package charts

import (
	"image/color"
	"math"
)

// Look says for what the figure is drawn.
type Look int

// The looks. Print is black, white and greys on white paper: it loses nothing
// in a black and white book.
const (
	ScreenLight Look = iota
	ScreenDark
	Print
	proofLook // the screen's colours, which its canvas turns to greys
)

// Versions is how many versions have a colour, a marker and a hatch of their own.
const Versions = 8

func hex(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xff}
}

// The eight colours of each look were searched so that every pair stays apart
// for full and for lacking colour sight and each stands at 3:1 or more from
// the ground; palette_test.go holds both.
var (
	lightVersions = [Versions]uint32{0x236C57, 0xC8800D, 0x5D91E7, 0x6B2E14, 0x413E96, 0xAD8A52, 0x918DAF, 0x4A1F4A}
	darkVersions  = [Versions]uint32{0x90CEAC, 0xCDA629, 0x6EE5F9, 0xA36328, 0xAA9AFC, 0xD4E995, 0x607D65, 0x4892A8}
	printVersions = [Versions]uint32{0x3A3A3A, 0xFFFFFF, 0xA8A8A8, 0xFFFFFF, 0x6E6E6E, 0xFFFFFF, 0xD6D6D6, 0xFFFFFF}
)

// VersionColours returns the colours of versions A to H in a look; on paper
// they are the greys under the hatches. The caller owns the slice.
func VersionColours(l Look) []color.NRGBA {
	set := lightVersions
	switch l {
	case ScreenDark:
		set = darkVersions
	case Print:
		set = printVersions
	}
	out := make([]color.NRGBA, Versions)
	for i, v := range set {
		out[i] = hex(v)
	}
	return out
}

// inks are the colours of one look. All are opaque: an EPS file knows no
// transparency.
type inks struct {
	ground, ink, muted, grid, axis color.NRGBA
	versions                       [Versions]swatch
	original                       swatch
	text                           float64 // text size against the screen's
	file                           bool    // for a file: what was only predicted is not shown
}

// swatch is how an area is filled: colour, hatch, and the lines round it.
type swatch struct {
	fill, line, edge color.NRGBA
	hatch            hatch
}

// inksOf returns the inks of a look; grounds and text match the window's cards.
func inksOf(l Look) *inks {
	k := &inks{ground: hex(0xFFFDF9), ink: hex(0x24251F), muted: hex(0x615C50), grid: hex(0xE5DFD3), axis: hex(0x8C8677), text: 1}
	switch l {
	case ScreenDark:
		k = &inks{ground: hex(0x21241F), ink: hex(0xEDE9DF), muted: hex(0xB5AF9F), grid: hex(0x383B34), axis: hex(0x8A887B), text: 1}
	case Print:
		k = &inks{ground: hex(0xFFFFFF), ink: hex(0x000000), muted: hex(0x3C3C3C), grid: hex(0xD2D2D2), axis: hex(0x4A4A4A), text: 0.86}
	}
	if l == proofLook {
		k.text, k.ground = 0.86, greyOf(k.ground)
	}
	k.file = l == Print || l == proofLook
	for i, c := range VersionColours(l) {
		k.versions[i] = swatch{fill: c, line: mix(c, k.ground, 0.55), edge: c, hatch: hatches[i]}
		if l == Print {
			k.versions[i].line, k.versions[i].edge = printLine(c), k.ink
		}
	}
	k.original = swatch{fill: mix(k.ink, k.ground, 0.72), edge: mix(k.ink, k.ground, 0.4)}
	return k
}

// paper says whether the look is the one for print.
func (k *inks) paper() bool { return k.ground == hex(0xFFFFFF) }

// dark says whether the ground is dark.
func (k *inks) dark() bool { return k.ground.R < 0x80 }

// printLine is the hatch colour that shows on a grey: white on dark, black on light.
func printLine(c color.NRGBA) color.NRGBA {
	if c.R < 0x80 {
		return hex(0xFFFFFF)
	}
	return hex(0x000000)
}

// mix returns a with the given part of b in it.
func mix(a, b color.NRGBA, part float64) color.NRGBA {
	f := func(x, y uint8) uint8 { return uint8(float64(x)*(1-part) + float64(y)*part + 0.5) }
	return color.NRGBA{R: f(a.R, b.R), G: f(a.G, b.G), B: f(a.B, b.B), A: 0xff}
}

// partTones are the fills of ingredients, apart from the versions' colours:
// light and dark take turns, so that neighbours part without a hatch.
var (
	lightParts = [...]uint32{0x2F5D50, 0xE3B75F, 0x8FB3A2, 0x9C5B3B, 0xD9D2C0, 0x5F6F8C, 0xEFE8DA}
	darkParts  = [...]uint32{0x8CCBB0, 0xC9922E, 0x3F6B5B, 0xE5A17F, 0x57574D, 0x93A5CB, 0x3A3D36}
	printParts = [...]uint32{0x3A3A3A, 0xFFFFFF, 0x9A9A9A, 0xFFFFFF, 0xDCDCDC, 0x6A6A6A, 0xFFFFFF}
	partHatch  = [...]hatch{solid, rising, solid, dotted, solid, falling, solid}
)

// part returns the fill of ingredient i of a stack.
func (k *inks) part(i int) swatch {
	set := lightParts
	switch {
	case k.ground == hex(0xFFFFFF):
		set = printParts
	case k.ground.R < 0x80:
		set = darkParts
	}
	i %= len(set)
	st := swatch{fill: hex(set[i]), hatch: partHatch[i]}
	st.line = mix(st.fill, k.ground, 0.45)
	if k.ground == hex(0xFFFFFF) {
		st.line = printLine(st.fill)
	}
	return st
}

// contrast returns the ratio of the lighter to the darker of two colours, 1 to 21.
// Source: WCAG 2.2, definitions of contrast ratio and relative luminance.
func contrast(a, b color.NRGBA) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(c color.NRGBA) float64 {
	f := func(v uint8) float64 {
		u := float64(v) / 255
		if u <= 0.04045 {
			return u / 12.92
		}
		return math.Pow((u+0.055)/1.055, 2.4)
	}
	return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
}
