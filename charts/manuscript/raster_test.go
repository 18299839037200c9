package manuscript

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// samplePage has a text of each kind, lines both ways and a picture.
func samplePage(t *testing.T) Page {
	p := Page{Paper: A4, Texts: []Text{
		{X: 60, Y: 90, Size: 24, Bold: true, Text: "Leek and haddock gratin"},
		{X: 60, Y: 130, Size: 10, Text: "Boil the potatoes for 8 minutes, until a knife goes in; ½ tsp salt, 190 °C."},
		{X: 60, Y: 150, Size: 10, Grey: true, Text: "Weighed after baking: 2.07 kg. AVATo We"},
	}, Rules: []Rule{{X1: 60, Y1: 160, X2: 500, Y2: 160, Width: 1}, {X1: 300, Y1: 170, X2: 300, Y2: 400, Width: 0.5, Grey: true}}}
	p.Pictures = []Picture{{X: 60, Y: 420, Width: 120, Height: 120, PNG: square(t, 40, color.Gray{120})}}
	return p
}

// TestImageIsThePDF holds the picture of a page against the PDF of it as
// Poppler's pdftoppm paints it, in blocks of six pixels: how dark each is.
func TestImageIsThePDF(t *testing.T) {
	paint, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed (Debian: poppler-utils)")
	}
	p := samplePage(t)
	d := Document{Title: "sample", Pages: []Page{p}}
	name := filepath.Join(t.TempDir(), "a.pdf")
	var b bytes.Buffer
	if err := d.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(paint, "-r", "144", "-png", "-singlefile", name, name).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	data, err := os.ReadFile(name + ".png")
	if err != nil {
		t.Fatal(err)
	}
	theirs, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	ours, err := p.Image(2)
	if err != nil {
		t.Fatal(err)
	}
	const side = 6
	worst, inked := 0.0, 0
	for y := 0; y+side < min(ours.Rect.Dy(), theirs.Bounds().Dy()); y += side {
		for x := 0; x+side < min(ours.Rect.Dx(), theirs.Bounds().Dx()); x += side {
			a, b := darkness(ours, x, y, side), darkness(theirs, x, y, side)
			if b > 0.1 {
				inked++
			}
			worst = math.Max(worst, math.Abs(a-b))
		}
	}
	if inked < 200 || worst > 0.25 {
		t.Errorf("%d blocks with ink; one differs by %.2f of black", inked, worst)
	}
}

// darkness is how much of a block is ink, 0 to 1.
func darkness(img image.Image, x, y, side int) float64 {
	sum := 0.0
	for dy := range side {
		for dx := range side {
			g := color.GrayModel.Convert(img.At(x+dx, y+dy)).(color.Gray)
			sum += 1 - float64(g.Y)/255
		}
	}
	return sum / float64(side*side)
}

// TestImageShowsAll: each thing on a page leaves ink where it stands, and none
// outside the paper is touched.
func TestImageShowsAll(t *testing.T) {
	p := samplePage(t)
	p.Rules = append(p.Rules, Rule{X1: -50, Y1: 10, X2: 9000, Y2: 10, Width: 1})
	img, err := p.Image(1.5)
	if err != nil {
		t.Fatal(err)
	}
	if img.Rect.Dx() != int(math.Ceil(A4.Width*1.5)) || img.Rect.Dy() != int(math.Ceil(A4.Height*1.5)) {
		t.Errorf("%v", img.Rect)
	}
	white := image.NewRGBA(img.Rect)
	draw.Draw(white, white.Rect, image.White, image.Point{}, draw.Src)
	for _, x := range p.Texts {
		at := image.Rect(int(x.X*1.5), int((x.Y-x.Size)*1.5), int((x.X+60)*1.5), int(x.Y*1.5))
		if bytes.Equal(img.SubImage(at).(*image.RGBA).Pix[:at.Dx()*4], white.SubImage(at).(*image.RGBA).Pix[:at.Dx()*4]) && darkness(img, at.Min.X, at.Min.Y, at.Dy()) == 0 {
			t.Errorf("%q left no ink", x.Text)
		}
	}
	if g := img.RGBAAt(int(120*1.5), int(480*1.5)); g.R != 120 {
		t.Errorf("the picture is %v", g)
	}
	if d := darkness(img, 300, 14, 2); d < 0.4 {
		t.Errorf("the line across is %.2f dark", d)
	}
	p.Pictures[0].PNG = []byte("no picture")
	if _, err := p.Image(1); err == nil {
		t.Error("a picture that is none")
	}
}

// TestFacesOfADocument: only the fonts that are used are in a file, and each sets
// its own widths.
func TestFacesOfADocument(t *testing.T) {
	d := Document{Pages: []Page{{Paper: A4, Texts: []Text{
		{Size: 9, Text: "plain"}, {Size: 9, Face: Serif, Bold: true, Text: "bold"}, {Size: 9, Face: Italic, Text: "leaning"}, {Size: 9, Text: "plain again"},
	}}}}
	var got []string
	for _, f := range d.faces() {
		got = append(got, f.name+" "+f.style)
	}
	if want := "Liberation Sans |Liberation Serif B|Liberation Serif I"; strings.Join(got, "|") != want {
		t.Errorf("%q, want %q", got, want)
	}
	widths := map[float64]bool{}
	for _, f := range []Face{Sans, Serif, Italic} {
		var r Ruler
		r.Face = f
		widths[r.Width("Smoked haddock", 10, false)] = true
	}
	if len(widths) != 3 {
		t.Errorf("widths %v of three faces", widths)
	}
}
