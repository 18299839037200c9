package parts

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Version colours, the same as the figures draw. Like the published
// colour-blind-safe qualitative sets (Okabe and Ito, "Color Universal Design",
// 2008; Tol, "Colour schemes", technical note SRON/EPS/TN/09-002) they alternate
// in lightness and keep to hues that stay apart: any two are at least 20 CIE76
// units apart for normal sight and for protanopia, deuteranopia and tritanopia
// simulated after Machado, Oliveira and Fernandes (2009), at 3:1 or more against
// the card. The test holds both.
var (
	versionsLight = [8]uint32{0x236C57, 0xC8800D, 0x5D91E7, 0x6B2E14, 0x413E96, 0xAD8A52, 0x918DAF, 0x4A1F4A}
	versionsDark  = [8]uint32{0x90CEAC, 0xCDA629, 0x6EE5F9, 0xA36328, 0xAA9AFC, 0xD4E995, 0x607D65, 0x4892A8}
)

// VersionColour returns the colour of version number i (0 is A; after the eighth
// they start again). The original, -1, has the colour of ink.
func VersionColour(i int, isDark bool) color.NRGBA {
	p, set := light, versionsLight
	if isDark {
		p, set = dark, versionsDark
	}
	if i < 0 {
		ink, _ := p[RoleInk].(color.NRGBA)
		return ink
	}
	return hex(set[i%len(set)])
}

// VersionLetter returns A for 0, Z for 25, AA for 26; the original, -1, has none.
func VersionLetter(i int) string {
	if i < 0 {
		return ""
	}
	s := ""
	for n := i + 1; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// shapes are outlines in a 24 by 24 box, one per version colour, in the order of
// the figures: disc, square, triangle, diamond, triangle down, plus, hexagon,
// cross. The original's ring is apart.
var shapes = [8]string{
	"M12 2.5A9.5 9.5 0 0 1 12 21.5A9.5 9.5 0 0 1 12 2.5Z",
	"M3.8 3.8H20.2V20.2H3.8Z",
	polygon(3, -90, 12, 14),
	polygon(4, 0, 11.5, 12),
	polygon(3, 90, 12, 10),
	"M8.6 1.6H15.4V8.6H22.4V15.4H15.4V22.4H8.6V15.4H1.6V8.6H8.6Z",
	polygon(6, 0, 10.8, 12),
	"M12 7.2L18 1.2L22.8 6L16.8 12L22.8 18L18 22.8L12 16.8L6 22.8L1.2 18L7.2 12L1.2 6L6 1.2Z",
}

const ringShape = "M12 2A10 10 0 0 1 12 22A10 10 0 0 1 12 2Z" +
	"M12 5.6A6.4 6.4 0 0 0 12 18.4A6.4 6.4 0 0 0 12 5.6Z"

func polygon(n int, start, r, cy float64) string {
	var b strings.Builder
	for i := range n {
		a := (start + 360*float64(i)/float64(n)) * math.Pi / 180
		fmt.Fprintf(&b, "%c%.2f %.2f", "ML"[min(i, 1)], 12+r*math.Cos(a), cy+r*math.Sin(a))
	}
	return b.String() + "Z"
}

// MarkerSVG returns the marker of version i (-1 the original) as a drawing of 24
// by 24 in the version's colour, for legends and paper.
func MarkerSVG(i int, isDark bool) []byte {
	d := ringShape
	if i >= 0 {
		d = shapes[i%len(shapes)]
	}
	return fmt.Appendf(nil, `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24">`+
		`<path fill="%s" d="%s"/></svg>`, css(VersionColour(i, isDark)), d)
}

func markerResource(i int, isDark bool) fyne.Resource {
	key := fmt.Sprintf("marker-%d-%v.svg", i, isDark)
	if r, ok := painted[key]; ok {
		return r
	}
	r := fyne.NewStaticResource(key, MarkerSVG(i, isDark))
	painted[key] = r
	return r
}

// Marker shows which version something belongs to: shape, colour and letter.
type Marker struct {
	widget.BaseWidget
	index  int
	letter string
}

// NewMarker returns the marker of version i (0 is A, -1 the original) with a
// letter beside it; an empty letter shows the shape alone.
func NewMarker(i int, letter string) *Marker {
	m := &Marker{index: i, letter: letter}
	m.ExtendBaseWidget(m)
	return m
}

// Set changes the version and the letter.
func (m *Marker) Set(i int, letter string) {
	m.index, m.letter = i, letter
	m.Refresh()
}

// CreateRenderer is part of fyne.Widget.
func (m *Marker) CreateRenderer() fyne.WidgetRenderer {
	img, text := newIconImage(), canvas.NewText("", nil)
	side := func() float32 { return 14 * factorOf(m.Theme()) }
	d := &drawn{objects: []fyne.CanvasObject{img, text}}
	d.min = func() fyne.Size {
		w, size := side(), SizeBody.in(m.Theme())
		if m.letter != "" {
			w += 5 + textWidth(m.letter, size, true)
		}
		return fyne.NewSize(w, lineHeight(size))
	}
	d.layout = func(s fyne.Size) {
		place(img, 0, (s.Height-side())/2, side(), side())
		place(text, side()+5, 0, s.Width-side()-5, s.Height)
	}
	d.refresh = func() {
		if r := markerResource(m.index, IsDark(m.Theme())); img.Resource != r {
			img.Resource = r
			img.Refresh()
		}
		styleText(text, m.letter, SizeBody.in(m.Theme()), true, m, RoleInk)
	}
	return d.start()
}
