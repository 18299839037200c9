package charts

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/tiff"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgeps"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"

	"parewell/recipes/words"
)

// The sizes and resolutions that are written.
const (
	minMM, maxMM   = 20, 1000
	minDPI, maxDPI = 50, 1200
)

// The PDF writer would note the time of day and write tables in chance order;
// fixed here once, the same figure gives the same bytes.
func init() {
	day := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	fpdf.SetDefaultCreationDate(day)
	fpdf.SetDefaultModificationDate(day)
	fpdf.SetDefaultCatalogSort(true)
}

// WritePNG writes the figure for print, widthMM by heightMM millimetres at dpi
// dots per inch, which the file states. Nothing is written unless all is well,
// and then with a single call of w.Write; the same holds for every writer here.
func (f *Figure) WritePNG(w io.Writer, widthMM, heightMM float64, dpi int) error {
	img, err := f.page(widthMM, heightMM, dpi)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return f.problem("charts.failed", "charts.failed.hint", err)
	}
	return f.out(w, withDensity(b.Bytes(), dpi))
}

// WriteTIFF writes the same as WritePNG as a TIFF file with lossless Deflate.
func (f *Figure) WriteTIFF(w io.Writer, widthMM, heightMM float64, dpi int) error {
	img, err := f.page(widthMM, heightMM, dpi)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := tiff.Encode(&b, img, &tiff.Options{Compression: tiff.Deflate, Predictor: true}); err != nil {
		return f.problem("charts.failed", "charts.failed.hint", err)
	}
	data, err := withResolution(b.Bytes(), dpi)
	if err != nil {
		return f.problem("charts.failed", "charts.failed.hint", err)
	}
	return f.out(w, data)
}

// page draws the figure for print; grey figures come as 8-bit grey, a third of
// the bytes and what a printer of black and white books asks for.
func (f *Figure) page(widthMM, heightMM float64, dpi int) (image.Image, error) {
	if dpi < minDPI || dpi > maxDPI {
		return nil, f.problem("charts.size.dpi", "charts.size.hint", nil, minDPI, maxDPI)
	}
	if err := f.checkMM(widthMM, heightMM); err != nil {
		return nil, err
	}
	dots := func(mm float64) int { return int(math.Round(mm / 25.4 * float64(dpi))) }
	img, err := f.raster(dots(widthMM), dots(heightMM), dpi, f.look())
	if err != nil {
		return nil, err
	}
	return toGrey(img), nil
}

// toGrey returns img as 8-bit grey if it has no colour, else img itself.
func toGrey(img draw.Image) image.Image {
	rgba, ok := img.(*image.RGBA)
	if !ok {
		return img
	}
	grey := image.NewGray(rgba.Rect)
	for i := range grey.Pix {
		p := rgba.Pix[4*i : 4*i+4 : 4*i+4]
		if p[0] != p[1] || p[1] != p[2] || p[3] != 0xff {
			return img
		}
		grey.Pix[i] = p[0]
	}
	return grey
}

// WriteSVG writes the figure as SVG, text as outlines, with title and text
// alternative for screen readers. The same figure always gives the same bytes.
func (f *Figure) WriteSVG(w io.Writer, widthMM, heightMM float64) error {
	if err := f.checkMM(widthMM, heightMM); err != nil {
		return err
	}
	c := vgsvg.New(points(widthMM), points(heightMM))
	if err := f.on(c, 0, f.look()); err != nil {
		return err
	}
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return f.problem("charts.failed", "charts.failed.hint", err)
	}
	return f.out(w, f.withSpoken(b.Bytes()))
}

// withSpoken puts title and description into an SVG document.
func (f *Figure) withSpoken(svg []byte) []byte {
	start := bytes.Index(svg, []byte("<svg "))
	open := bytes.Index(svg[start:], []byte(">")) + start
	var b bytes.Buffer
	b.WriteString("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg role=\"img\" ")
	b.Write(svg[start+len("<svg ") : open+1])
	for _, part := range [][2]string{{"title", f.title}, {"desc", f.PaperAlt()}} {
		if part[1] == "" {
			continue
		}
		b.WriteString("\n<" + part[0] + ">")
		_ = xml.EscapeText(&b, []byte(part[1])) // a bytes.Buffer takes every write
		b.WriteString("</" + part[0] + ">")
	}
	b.Write(svg[open+1:])
	return b.Bytes()
}

// WritePDF writes the figure as a PDF of exactly one page of that size. The same
// figure always gives the same bytes.
func (f *Figure) WritePDF(w io.Writer, widthMM, heightMM float64) error {
	if err := f.checkMM(widthMM, heightMM); err != nil {
		return err
	}
	c := vgpdf.New(points(widthMM), points(heightMM))
	if err := f.on(c, 0, f.look()); err != nil {
		return err
	}
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return f.problem("charts.failed", "charts.failed.hint", err)
	}
	return f.out(w, b.Bytes())
}

// WriteEPS writes the figure as encapsulated PostScript. A bounding box is made of
// whole points, so it is rounded outward; the exact size stands beside it.
func (f *Figure) WriteEPS(w io.Writer, widthMM, heightMM float64) error {
	if err := f.checkMM(widthMM, heightMM); err != nil {
		return err
	}
	wide, high := points(widthMM), points(heightMM)
	c := vgeps.New(wide, high)
	if err := f.on(c, 0, f.look()); err != nil {
		return err
	}
	var b bytes.Buffer
	if _, err := c.WriteTo(&b); err != nil {
		return f.problem("charts.failed", "charts.failed.hint", err)
	}
	return f.out(w, withHeader(b.Bytes(), float64(wide), float64(high)))
}

// withHeader replaces the comments at the head of an EPS file: the library's
// first line is malformed and it notes the time of day.
func withHeader(eps []byte, wide, high float64) []byte {
	const end = "%%EndComments\n"
	_, body, _ := bytes.Cut(eps, []byte(end))
	head := fmt.Sprintf("%%!PS-Adobe-3.0 EPSF-3.0\n%%%%BoundingBox: 0 0 %d %d\n%%%%HiResBoundingBox: 0 0 %.4f %.4f\n%%%%LanguageLevel: 2\n%%%%Pages: 1\n%s",
		int(math.Ceil(wide-1e-6)), int(math.Ceil(high-1e-6)), wide, high, end)
	return append(append([]byte(head), body...), "%%EOF\n"...)
}

func points(mm float64) vg.Length { return vg.Length(mm) * vg.Millimeter }

func (f *Figure) checkMM(widthMM, heightMM float64) error {
	for _, v := range []float64{widthMM, heightMM} {
		if !(v >= minMM && v <= maxMM) { // NaN too
			return f.problem("charts.size.mm", "charts.size.hint", nil, minMM, maxMM)
		}
	}
	return nil
}

// out hands the finished file over.
func (f *Figure) out(w io.Writer, data []byte) error {
	if _, err := w.Write(data); err != nil {
		return f.problem("charts.write", "charts.write.hint", fmt.Errorf("%s: %w", words.Say("charts.file"), err))
	}
	return nil
}
