package desk

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/problem"
)

// corners4 is a picture of w by h with red, green, blue and white quarters:
// top left, top right, bottom left, bottom right.
func corners4(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{255, 255, 255, 255}
			switch {
			case x < w/2 && y < h/2:
				c = color.RGBA{220, 0, 0, 255}
			case y < h/2:
				c = color.RGBA{0, 200, 0, 255}
			case x < w/2:
				c = color.RGBA{0, 0, 220, 255}
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

// named says which quarter's colour a pixel has.
func named(c color.Color) string {
	r, g, b, _ := c.RGBA()
	r, g, b = r>>8, g>>8, b>>8
	switch {
	case r > 180 && g > 180 && b > 180:
		return "white"
	case r > 150 && g < 90 && b < 90:
		return "red"
	case g > 130 && r < 90 && b < 90:
		return "green"
	case b > 150 && r < 90 && g < 90:
		return "blue"
	}
	return "mixed"
}

// quarters names the colours of an image's quarters in reading order.
func quarters(img image.Image) string {
	b := img.Bounds()
	x0, x1, y0, y1 := b.Min.X+b.Dx()/4, b.Min.X+b.Dx()*3/4, b.Min.Y+b.Dy()/4, b.Min.Y+b.Dy()*3/4
	return strings.Join([]string{named(img.At(x0, y0)), named(img.At(x1, y0)), named(img.At(x0, y1)), named(img.At(x1, y1))}, " ")
}

// exif is an Exif block with an orientation and a telling remark.
func exif(order binary.AppendByteOrder, o int) []byte {
	b := []byte("II*\x00")
	if order == binary.AppendByteOrder(binary.BigEndian) {
		b = []byte("MM\x00*")
	}
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, 2)
	for _, e := range []struct{ tag, kind, value uint16 }{{0x010E, 2, 0}, {0x0112, 3, uint16(o)}} {
		b = order.AppendUint16(b, e.tag)
		b = order.AppendUint16(b, e.kind)
		b = order.AppendUint32(b, 1)
		b = order.AppendUint16(b, e.value)
		b = order.AppendUint16(b, 0)
	}
	return append(b, "secret place"...)
}

func asJPEG(t testing.TB, img image.Image, exif []byte) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	if exif == nil {
		return b.Bytes()
	}
	body := append([]byte("Exif\x00\x00"), exif...)
	head := binary.BigEndian.AppendUint16([]byte{0xFF, 0xD8, 0xFF, 0xE1}, uint16(len(body)+2))
	return append(append(head, body...), b.Bytes()[2:]...)
}

// Where the quarters must end up is worked out by hand from the tag's table:
// 6 says that row 0 of the file is the right side of the scene and column 0 its
// top, so the file's top left (red) is the scene's top right.
func TestPhotosStandUpright(t *testing.T) {
	for _, row := range []struct {
		o    int
		want string
	}{
		{1, "red green blue white"},
		{2, "green red white blue"},
		{3, "white blue green red"},
		{4, "blue white red green"},
		{5, "red blue green white"},
		{6, "blue red white green"},
		{7, "white green blue red"},
		{8, "green white red blue"},
		{0, "red green blue white"},
		{9, "red green blue white"},
	} {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			small, err := shrinkPhoto(asJPEG(t, corners4(80, 40), exif(order, row.o)))
			if err != nil {
				t.Fatal(err)
			}
			img, err := jpeg.Decode(bytes.NewReader(small))
			if err != nil {
				t.Fatal(err)
			}
			wide := img.Bounds().Dx() == 80
			if got := quarters(img); got != row.want || wide == (row.o >= 5 && row.o <= 8) {
				t.Errorf("orientation %d: %s, %v", row.o, got, img.Bounds())
			}
			if bytes.Contains(small, []byte("secret")) || bytes.Contains(small, []byte("Exif")) {
				t.Errorf("orientation %d: what the camera noted was kept", row.o)
			}
		}
	}
}

// TestOrientationOfOtherFormats: a PNG states it in an eXIf chunk, a WebP file
// in an EXIF chunk after the picture.
func TestOrientationOfOtherFormats(t *testing.T) {
	var b bytes.Buffer
	if err := png.Encode(&b, corners4(80, 40)); err != nil {
		t.Fatal(err)
	}
	const head = 8 + 8 + 13 + 4 // signature and IHDR
	x := exif(binary.BigEndian, 6)
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(x)))
	chunk = append(append(append(chunk, "eXIf"...), x...), 0, 0, 0, 0) // its sum is not looked at
	data := append(append(bytes.Clone(b.Bytes()[:head]), chunk...), b.Bytes()[head:]...)
	if o := orientation(data); o != 6 {
		t.Errorf("PNG: %d", o)
	}
	webp := append([]byte("RIFF\x00\x00\x00\x00WEBPVP8 \x03\x00\x00\x00abc\x00EXIF"), binary.LittleEndian.AppendUint32(nil, uint32(len(x)))...)
	if o := orientation(append(webp, x...)); o != 6 {
		t.Errorf("WebP: %d", o)
	}
	for name, bad := range map[string][]byte{
		"nothing": nil, "a start": {0xFF, 0xD8, 0xFF}, "a cut segment": {0xFF, 0xD8, 0xFF, 0xE1, 0xFF, 0xFF, 1},
		"a cut directory": append([]byte{0xFF, 0xD8, 0xFF, 0xE1, 0, 20}, "Exif\x00\x00II*\x00\x08\x00\x00\x00\xFF\xFF"...),
		"a far directory": append([]byte{0xFF, 0xD8, 0xFF, 0xE1, 0, 18}, "Exif\x00\x00II*\x00\xFF\xFF\xFF\xFF\xFF"...),
	} {
		if o := orientation(bad); o != 1 {
			t.Errorf("%s: %d", name, o)
		}
	}
}

func TestPhotosAreMadeSmall(t *testing.T) {
	for _, row := range []struct {
		name               string
		w, h, wantW, wantH int
	}{
		{"wide", 4096, 1024, 2048, 512},
		{"tall", 1000, 3000, 683, 2048},
		{"just fits", 2048, 10, 2048, 10},
		{"small stays", 300, 200, 300, 200},
		{"a thread", 5000, 1, 2048, 1},
	} {
		small, err := shrinkPhoto(asJPEG(t, corners4(row.w, row.h), nil))
		if err != nil {
			t.Fatal(err)
		}
		cfg, format, err := image.DecodeConfig(bytes.NewReader(small))
		if err != nil || format != "jpeg" || cfg.Width != row.wantW || cfg.Height != row.wantH {
			t.Errorf("%s: %dx%d %s %v", row.name, cfg.Width, cfg.Height, format, err)
		}
	}
}

// webpDot is a WebP picture of a single pixel, in the lossless format.
const webpDot = "RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07\x00"

func TestPhotosInOtherFormats(t *testing.T) {
	glass := image.NewNRGBA(image.Rect(0, 0, 8, 8)) // transparent throughout
	var p, g bytes.Buffer
	if err := png.Encode(&p, glass); err != nil {
		t.Fatal(err)
	}
	if err := gif.Encode(&g, corners4(40, 40), nil); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name string
		data []byte
		want string
	}{
		{"a transparent PNG lies on white", p.Bytes(), "white white white white"},
		{"GIF", g.Bytes(), "red green blue white"},
		{"WebP", []byte(webpDot), ""},
	} {
		small, err := shrinkPhoto(row.data)
		if err != nil {
			t.Errorf("%s: %v", row.name, err)
			continue
		}
		img, err := jpeg.Decode(bytes.NewReader(small))
		if err != nil {
			t.Fatal(err)
		}
		if got := quarters(img); row.want != "" && got != row.want {
			t.Errorf("%s: %s", row.name, got)
		}
	}
}

func TestFilesThatAreNoPhotos(t *testing.T) {
	whole := asJPEG(t, corners4(200, 200), nil)
	huge := []byte("GIF89a\xff\xff\xff\xff\x00\x00\x00")
	for _, row := range []struct {
		name string
		data []byte
		want string
	}{
		{"empty", nil, "empty"},
		{"text", []byte("20 g butter, softened"), "no photo"},
		{"cut short", whole[:len(whole)/2], "damaged"},
		{"a broken head", whole[:20], "damaged"},
		{"too many pixels", huge, "65535 by 65535"},
		{"a phone's own format", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic"), "some phones"},
	} {
		_, err := shrinkPhoto(row.data)
		if err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s: %v, want %q", row.name, err, row.want)
		}
	}
}

// photoBench is a desk with a loaf that was cooked twice.
func photoBench(t *testing.T) (*bench, string) {
	t.Helper()
	b := newBenchWithWorkbook(t)
	for _, v := range []recipes.Verb{
		loaf("loaf"),
		recipes.AddTest(&recipes.Batch{ID: "one", Recipe: "loaf", Date: "2026-03-04"}),
		recipes.AddTest(&recipes.Batch{ID: "two", Recipe: "loaf", Date: "2026-03-04"}),
	} {
		if err := b.do(t, v); err != nil {
			t.Fatal(err)
		}
	}
	return b, t.TempDir()
}

func (b *bench) photo(t *testing.T, test recipes.ID, path string) (already bool, err error) {
	t.Helper()
	done := false
	b.AddPhoto("loaf", test, path, func(a bool, e error) { already, err, done = a, e, true })
	for !done {
		b.w.next(t)
	}
	return already, err
}

func TestAPhotoIsKeptOnceAndUndone(t *testing.T) {
	b, dir := photoBench(t)
	path, same := filepath.Join(dir, "crust.jpg"), filepath.Join(dir, "copy.jpg")
	for _, p := range []string{path, same} {
		if err := os.WriteFile(p, asJPEG(t, corners4(300, 200), exif(binary.LittleEndian, 6)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, test := range []recipes.ID{"one", "two"} {
		if already, err := b.photo(t, test, path); already || err != nil {
			t.Fatalf("%s: %v %v", test, already, err)
		}
	}
	one, two := b.Book().Test("loaf", "one"), b.Book().Test("loaf", "two")
	if len(one.Photos) != 1 || len(two.Photos) != 1 || one.Photos[0] != two.Photos[0] {
		t.Fatalf("photos %v and %v should be one block", one.Photos, two.Photos)
	}
	if already, err := b.photo(t, "one", same); !already || err != nil {
		t.Errorf("the same photo again: %v %v", already, err)
	}
	if b.View().Undo != "Added a photo to test 2 of –" {
		t.Errorf("undo says %q", b.View().Undo)
	}
	var img image.Image
	b.Photo(one.Photos[0], 60, func(i image.Image, err error) {
		if err != nil {
			t.Error(err)
		}
		img = i
	})
	for img == nil {
		b.w.next(t)
	}
	if s := img.Bounds().Size(); s != image.Pt(40, 60) || quarters(img) != "blue red white green" {
		t.Errorf("the thumbnail is %v, %s", s, quarters(img))
	}
	if err := b.do(t, WithoutPhoto("loaf", "one", one.Photos[0])); err != nil || len(b.Book().Test("loaf", "one").Photos) != 0 {
		t.Errorf("removed: %v", err)
	}
	b.must(t, b.Undo)
	if got := b.Book().Test("loaf", "one").Photos; len(got) != 1 {
		t.Errorf("after undo there are %d photos", len(got))
	}
	b.must(t, func(then func(error)) { b.Block(one.Photos[0], func(_ []byte, err error) { then(err) }) })
}

func TestBadPhotosLeaveTheTestAlone(t *testing.T) {
	b, dir := photoBench(t)
	text := filepath.Join(dir, "notes.jpg")
	if err := os.WriteFile(text, []byte("not a photo"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name, path string
		test       recipes.ID
	}{
		{"text", text, "one"},
		{"missing", filepath.Join(dir, "none.jpg"), "one"},
		{"a folder", dir, "one"},
	} {
		_, err := b.photo(t, row.test, row.path)
		var p *problem.Error
		if !errors.As(err, &p) || p.What == "" || p.Where != row.path || strings.Contains(p.What, "\n") {
			t.Errorf("%s: %v", row.name, err)
		}
	}
	good := filepath.Join(dir, "good.jpg")
	if err := os.WriteFile(good, asJPEG(t, corners4(30, 20), nil), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := b.photo(t, "gone", good); err == nil {
		t.Error("a photo for a test that is gone was taken")
	}
	if len(b.Book().Test("loaf", "one").Photos) != 0 {
		t.Error("a bad photo was kept")
	}
}

// BenchmarkALargePhoto: a camera's 24 million pixels, which must not keep the cook
// waiting.
func BenchmarkALargePhoto(b *testing.B) {
	data := asJPEG(b, corners4(6000, 4000), nil)
	for b.Loop() {
		if _, err := shrinkPhoto(data); err != nil {
			b.Fatal(err)
		}
	}
}
