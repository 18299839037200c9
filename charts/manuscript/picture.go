package manuscript

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/color"
	"image/draw"
	"image/png"

	"codeberg.org/go-pdf/fpdf"
)

// plates are the pictures of one file. The PDF writer puts pictures in order of
// their width in pixels and those of one width in chance order; so each gets a
// width of its own, by blank columns at its right.
type plates struct {
	pdf   *fpdf.Fpdf
	made  map[[sha256.Size]byte]plate
	taken map[int]bool
}

// plate is one picture in the file; grown is its width over the original's.
type plate struct {
	name  string
	grown float64
}

// print puts a page's pictures on paper; one that several pages have is in the
// file once.
func (p *plates) print(page *Page) error {
	for _, x := range page.Pictures {
		made, err := p.of(x.PNG)
		if err != nil {
			return err
		}
		p.pdf.ImageOptions(made.name, x.X, x.Y, x.Width*made.grown, x.Height, false, fpdf.ImageOptions{ImageType: "PNG"}, 0, "")
	}
	return nil
}

// of is the plate of a PNG image, made on its first use.
func (p *plates) of(data []byte) (plate, error) {
	sum := sha256.Sum256(data)
	if made, ok := p.made[sum]; ok {
		return made, nil
	}
	head, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return plate{}, err
	}
	wide := head.Width
	for p.taken[wide] {
		wide++
	}
	if data, err = widened(data, wide-head.Width); err != nil {
		return plate{}, err
	}
	made := plate{hex.EncodeToString(sum[:]), float64(wide) / float64(head.Width)}
	p.made[sum], p.taken[wide] = made, true
	p.pdf.RegisterImageOptionsReader(made.name, fpdf.ImageOptions{ImageType: "PNG"}, bytes.NewReader(data))
	return made, nil
}

// widened adds so many blank columns to a PNG image.
func widened(data []byte, columns int) ([]byte, error) {
	if columns == 0 {
		return data, nil
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	old := img.Bounds()
	wider := image.NewRGBA(image.Rect(0, 0, old.Dx()+columns, old.Dy()))
	draw.Draw(wider, wider.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(wider, old.Sub(old.Min), img, old.Min, draw.Over)
	var b bytes.Buffer
	err = png.Encode(&b, wider)
	return b.Bytes(), err
}
