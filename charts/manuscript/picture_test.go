package manuscript

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func square(t *testing.T, side int, c color.Color) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, side, side))
	for i := range side * side {
		img.Set(i%side, i/side, c)
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestPicturesOfOneWidth: the same pages give the same bytes whatever pictures
// are on them, and a picture that is on two pages is in the file once.
func TestPicturesOfOneWidth(t *testing.T) {
	var d Document
	for i := range 6 {
		p := Page{Paper: A4}
		for k := range 2 { // a picture of its own, and one that all pages have
			p.Pictures = append(p.Pictures, Picture{X: 50, Y: 50 + 120*float64(k), Width: 100, Height: 100, PNG: square(t, 40, color.Gray{uint8(40 * i * (1 - k))})})
		}
		d.Pages = append(d.Pages, p)
	}
	var one bytes.Buffer
	if err := d.WritePDF(&one); err != nil {
		t.Fatal(err)
	}
	for range 5 {
		var again bytes.Buffer
		if err := d.WritePDF(&again); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(one.Bytes(), again.Bytes()) {
			t.Fatal("the same pages should give the same PDF file")
		}
	}
	if n := bytes.Count(one.Bytes(), []byte("/Subtype /Image")); n != 6 {
		t.Errorf("%d pictures in the file, want 6: black is on every page", n)
	}
	d.Pages[0].Pictures[0].PNG = []byte("no picture")
	if err := d.WritePDF(&one); err == nil || !strings.Contains(err.Error(), "could not be written") {
		t.Errorf("what is no picture: %v", err)
	}
}

// TestAPictureKeepsItsFrame has another program draw a page whose second picture
// is widened, where it is installed: nothing of the blank columns shows.
func TestAPictureKeepsItsFrame(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("pdftoppm is not installed")
	}
	page := Page{Paper: Paper{Width: 300, Height: 200}}
	for i, c := range []color.Color{color.Gray{10}, color.Gray{80}} {
		page.Pictures = append(page.Pictures, Picture{X: 50 + 100*float64(i), Y: 50, Width: 80, Height: 80, PNG: square(t, 10, c)})
	}
	d := Document{Pages: []Page{page}}
	dir := t.TempDir()
	var b bytes.Buffer
	if err := d.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "p.pdf"), b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", "72", "-gray", "-png", "-singlefile", filepath.Join(dir, "p.pdf"), filepath.Join(dir, "p")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	raw, err := os.ReadFile(filepath.Join(dir, "p.png"))
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	dark := func(x int) bool {
		r, _, _, _ := img.At(x, 90).RGBA()
		return r>>8 < 120
	}
	for x, want := range map[int]bool{45: false, 55: true, 125: true, 140: false, 155: true, 225: true, 234: false} {
		if dark(x) != want {
			t.Errorf("dark at %d points: %t, want %t", x, dark(x), want)
		}
	}
}
