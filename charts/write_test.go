package charts

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"

	"golang.org/x/image/tiff"
)

func TestPNGStatesItsSize(t *testing.T) {
	for _, dpi := range []int{150, 300, 600} {
		var b bytes.Buffer
		if err := mustChange(t, sampleData(2)).WritePNG(&b, 80, 40, dpi); err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(bytes.NewReader(b.Bytes()))
		if err != nil {
			t.Fatal(err)
		}
		if got, want := img.Bounds().Dx(), int(math.Round(80/25.4*float64(dpi))); got != want {
			t.Errorf("%d dpi: %d wide, want %d", dpi, got, want)
		}
		at := bytes.Index(b.Bytes(), []byte("pHYs"))
		if at < 0 {
			t.Fatal("no pHYs chunk")
		}
		perMetre := binary.BigEndian.Uint32(b.Bytes()[at+4:])
		if got := int(math.Round(float64(perMetre) * 0.0254)); got != dpi || b.Bytes()[at+12] != 1 {
			t.Errorf("states %d dpi, want %d", got, dpi)
		}
	}
}

func TestTIFFStatesItsSizeAndIsDeflated(t *testing.T) {
	var b bytes.Buffer
	if err := mustChange(t, sampleData(2)).WriteTIFF(&b, 80, 40, 600); err != nil {
		t.Fatal(err)
	}
	cfg, err := tiff.DecodeConfig(bytes.NewReader(b.Bytes()))
	if err != nil || cfg.Width != 1890 || cfg.Height != 945 || cfg.ColorModel != color.GrayModel {
		t.Errorf("%+v, %v", cfg, err)
	}
	if b.Len() > 1890*945/4 {
		t.Errorf("%d bytes: not compressed", b.Len())
	}
	le, data := binary.LittleEndian, b.Bytes()
	dir := int(le.Uint32(data[4:]))
	for i := range int(le.Uint16(data[dir:])) {
		entry := data[dir+2+12*i:]
		if tag := le.Uint16(entry); tag == 282 || tag == 283 {
			if at := le.Uint32(entry[8:]); le.Uint32(data[at:]) != 600 || le.Uint32(data[at+4:]) != 1 {
				t.Errorf("tag %d is %d/%d", tag, le.Uint32(data[at:]), le.Uint32(data[at+4:]))
			}
		}
	}
}

func TestPDFIsOnePageOfThatSize(t *testing.T) {
	for _, size := range [][2]float64{{160, 75}, {60, 200}, {300, 20}, {20, 20}} {
		var b bytes.Buffer
		if err := mustChange(t, sampleData(8)).WritePDF(&b, size[0], size[1]); err != nil {
			t.Fatal(err)
		}
		if n := len(regexp.MustCompile(`/Type /Page\b[^s]`).FindAll(b.Bytes(), -1)); n != 1 {
			t.Errorf("%v: %d pages", size, n)
		}
		if !bytes.Contains(b.Bytes(), []byte("/Count 1")) || bytes.Contains(b.Bytes(), []byte("/Font <</")) {
			t.Errorf("%v: not one page without fonts", size)
		}
	}
}

func TestEPSHasAWholeBoundingBoxAndNoClock(t *testing.T) {
	var b bytes.Buffer
	if err := mustChange(t, sampleData(3)).WriteEPS(&b, 160, 75); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	if !strings.HasPrefix(text, "%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 454 213\n%%HiResBoundingBox: 0 0 453.5433 212.5984\n") {
		t.Errorf("head is %q", text[:80])
	}
	b.Reset()
	if err := mustChange(t, sampleData(3)).WriteEPS(&b, 150, 78); err != nil { // 425.2 by 221.1 points
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "%%BoundingBox: 0 0 426 222\n") {
		t.Errorf("the box is not rounded outward: %q", b.String()[:120])
	}
	if strings.Contains(text, "CreationDate") || strings.Contains(text, ") show") || !strings.HasSuffix(text, "%%EOF\n") {
		t.Error("a date, text in a font, or no end")
	}
}

func TestSVGIsWellFormedAndSpeaks(t *testing.T) {
	d := sampleData(3)
	d.Title = `Cheese & <leek> "gratin"`
	f := mustChange(t, d)
	var b bytes.Buffer
	if err := f.WriteSVG(&b, 160, 75); err != nil {
		t.Fatal(err)
	}
	dec := xml.NewDecoder(bytes.NewReader(b.Bytes()))
	var title, desc string
	paths := 0
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		switch el.Name.Local {
		case "title":
			_ = dec.DecodeElement(&title, &el)
		case "desc":
			_ = dec.DecodeElement(&desc, &el)
		case "path":
			paths++
		case "text":
			t.Error("text in a font the reader may not have")
		}
	}
	if title != d.Title || desc != f.Alt() || paths < 50 {
		t.Errorf("title %q, alt %q, %d paths", title, desc, paths)
	}
}

func TestFilesAreTheSameEveryTime(t *testing.T) {
	for name, write := range map[string]func(*Figure, io.Writer) error{
		"svg":  func(f *Figure, w io.Writer) error { return f.WriteSVG(w, 160, 75) },
		"pdf":  func(f *Figure, w io.Writer) error { return f.WritePDF(w, 160, 75) },
		"eps":  func(f *Figure, w io.Writer) error { return f.WriteEPS(w, 160, 75) },
		"png":  func(f *Figure, w io.Writer) error { return f.WritePNG(w, 80, 40, 150) },
		"tiff": func(f *Figure, w io.Writer) error { return f.WriteTIFF(w, 80, 40, 150) },
	} {
		t.Run(name, func(t *testing.T) {
			var a, b bytes.Buffer
			if err := errors.Join(write(mustShare(t, sampleShare(4)), &a), write(mustShare(t, sampleShare(4)), &b)); err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(a.Bytes(), b.Bytes()) {
				t.Error("two runs differ")
			}
		})
	}
	var p bytes.Buffer
	if err := mustChange(t, sampleData(2)).WritePDF(&p, 160, 75); err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(p.Bytes(), []byte("D:20000101000000")) {
		t.Error("the PDF notes the time of day")
	}
}

func TestPrintIsGrey(t *testing.T) {
	for name, f := range map[string]*Figure{"change": mustChange(t, sampleData(8)), "share": mustShare(t, sampleShare(8))} {
		img, err := f.page(120, 80, 150)
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := img.(*image.Gray); !ok {
			t.Errorf("%s has colour on paper", name)
		}
	}
}

type refusing struct{ calls int }

func (r *refusing) Write([]byte) (int, error) { r.calls++; return 0, errors.New("disk full") }

func TestWriterFaults(t *testing.T) {
	f := mustChange(t, sampleData(2))
	r := &refusing{}
	isProblem(t, f.WritePNG(r, 80, 40, 150))
	if r.calls != 1 {
		t.Errorf("%d writes, want one", r.calls)
	}
	for name, err := range map[string]error{
		"too small": f.WritePDF(r, 5, 40), "not a number": f.WriteSVG(r, math.NaN(), 40), "too large": f.WriteEPS(r, 160, 1e9),
		"dpi": f.WritePNG(r, 80, 40, 3), "too many dots": f.WriteTIFF(r, 1000, 1000, 1200),
	} {
		t.Run(name, func(t *testing.T) { isProblem(t, err) })
	}
	if r.calls != 1 {
		t.Error("something was written in spite of a bad size")
	}
}
