package ui

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// photoFile writes a photo with a sky, a plate and some crust.
func photoFile(t *testing.T, dir, name string, w, h int) string {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{200, 215, 225, 255}
			dx, dy := float64(x-w/2)/float64(w), float64(y-h/2)/float64(h)
			if d := dx*dx + dy*dy; d < 0.09 {
				c = color.RGBA{205, 150, 70, 255}
			} else if d < 0.14 {
				c = color.RGBA{245, 242, 235, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestPhotosOfATest(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openTests()
	p := k.tests()
	p.table.Select(k.testRow("two"), 0)
	dir := t.TempDir()
	for _, path := range []string{photoFile(t, dir, "a.jpg", 900, 600), photoFile(t, dir, "b.jpg", 400, 600)} {
		n := len(k.book().Test(r.ID, "two").Photos)
		pressPin(k, "tests.add-photo")
		setEntry(k, "file.name", path)
		k.confirm()
		k.until("the photo is kept", func() bool { return len(k.book().Test(r.ID, "two").Photos) == n+1 })
	}
	k.until("thumbnails are read", func() bool { return len(p.card.photos.thumbs) == 2 })
	p.card.scroll.ScrollToBottom()
	k.picture("tests-photos")
	k.takePhoto(p.current(), filepath.Join(dir, "a.jpg"))
	k.until("the same photo is told of", func() bool { return strings.Contains(k.status.Message(), "already") })
	thumb, ok := k.pins["tests.photo"].(*photoThumb)
	if !ok {
		t.Fatal("no thumbnail")
	}
	k.win.Canvas().Focus(thumb)
	k.press(fyne.KeyReturn)
	k.settle()
	k.picture("tests-photo-large")
	pressPin(k, "photo.after")
	pressPin(k, "photo.remove")
	if got := k.book().Test(r.ID, "two").Photos; len(got) != 1 {
		t.Errorf("%d photos are left", len(got))
	}
	k.undo()
	k.settle()
	if got := k.book().Test(r.ID, "two").Photos; len(got) != 2 {
		t.Errorf("after undo there are %d photos", len(got))
	}
	bad := filepath.Join(dir, "bad.jpg")
	if err := os.WriteFile(bad, []byte("no photo"), 0o600); err != nil {
		t.Fatal(err)
	}
	k.takePhoto(p.current(), bad)
	k.until("a bad file is told of", func() bool { return k.win.Canvas().Overlays().Top() != nil })
	k.picture("tests-photo-bad")
}
