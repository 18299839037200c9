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

// Version colours. They start from two published colour-blind-safe qualitative
// sets (Okabe and Ito, "Color Universal Design", 2008; Tol, "Colour schemes",
// technical note SRON/EPS/TN/09-002, muted scheme) and were moved until any two
// stay at least 20 CIE76 units apart for normal sight and for protanopia,
// deuteranopia and tritanopia simulated after Machado, Oliveira and Fernandes
// (2009), at 3:1 or more against every ground of ours. The test holds both.
var (
	versionsLight = [8]uint32{0x3340B0, 0xCA6800, 0x113300, 0xAE6982, 0x468AC3, 0x787242, 0x62133F, 0x3D0D62}
	versionsDark  = [8]uint32{0x5B91D3, 0xF2804C, 0x62DC8C, 0xF5A7D1, 0xF1F8E4, 0xEED840, 0xA58878, 0x8D75FF}
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

// shapes are outlines in a 24 by 24 box, one per version colour; the original's
// ring is apart. Each differs from its neighbours by outline, not by size only.
var shapes = [8]string{
	"M4 4H20V20H4Z",
	polygon(3, -90, 11.5, 14),
	polygon(4, 0, 11.5, 12),
	polygon(3, 90, 11.5, 10),
	polygon(6, 0, 10.5, 12),
	star(5, 11.8, 5.4),
	"M8.5 2H15.5V8.5H22V15.5H15.5V22H8.5V15.5H2V8.5H8.5Z",
	polygon(5, -90, 11.2, 12.8),
}

const ringShape = "M12 2A10 10 0 0 1 22 12A10 10 0 0 1 12 22A10 10 0 0 1 2 12A10 10 0 0 1 12 2Z" +
	"M12 6A6 6 0 0 0 6 12A6 6 0 0 0 12 18A6 6 0 0 0 18 12A6 6 0 0 0 12 6Z"

func polygon(n int, start, r, cy float64) string {
	var b strings.Builder
	for i := range n {
		a := (start + 360*float64(i)/float64(n)) * math.Pi / 180
		fmt.Fprintf(&b, "%c%.2f %.2f", "ML"[min(i, 1)], 12+r*math.Cos(a), cy+r*math.Sin(a))
	}
	return b.String() + "Z"
}

func star(n int, outer, inner float64) string {
	var b strings.Builder
	for i := range 2 * n {
		r := outer
		if i%2 == 1 {
			r = inner
		}
		a := (-90 + 180*float64(i)/float64(n)) * math.Pi / 180
		fmt.Fprintf(&b, "%c%.2f %.2f", "ML"[min(i, 1)], 12+r*math.Cos(a), 12.6+r*math.Sin(a))
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
