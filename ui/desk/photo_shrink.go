package desk

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	_ "image/gif" // photos are read in these formats
	"image/jpeg"
	_ "image/png"

	"golang.org/x/image/draw"
	_ "golang.org/x/image/webp"

	"parewell/recipes/words"
)

// photoQuality is what a stored photo is written with: from it on a larger file
// shows no difference on the page.
const photoQuality = 85

// shrinkPhoto reads a photo and returns it as a JPEG, upright, at most photoSide
// pixels long, on white where it was transparent, and with nothing the camera
// noted. The same bytes always give the same bytes.
func shrinkPhoto(data []byte) ([]byte, error) {
	cfg, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, errors.New(words.Say(photoTrouble(data, err)))
	}
	if float64(cfg.Width)*float64(cfg.Height) > photoPixels || cfg.Width < 1 || cfg.Height < 1 {
		return nil, errors.New(words.Say("photo.pixels", cfg.Width, cfg.Height))
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, errors.New(words.Say("photo.damaged"))
	}
	var out bytes.Buffer
	err = jpeg.Encode(&out, upright(fitted(img, photoSide), orientation(data)), &jpeg.Options{Quality: photoQuality})
	return out.Bytes(), err
}

// photoTrouble is the key of what to say of a file that is no photo we read.
func photoTrouble(data []byte, err error) string {
	switch {
	case len(data) == 0:
		return "photo.empty"
	case len(data) > 12 && string(data[4:8]) == "ftyp":
		return "photo.heic"
	case !errors.Is(err, image.ErrFormat):
		return "photo.damaged"
	}
	return "photo.unknown"
}

// fitted returns the picture on white with its long side at most most pixels.
func fitted(img image.Image, most int) *image.RGBA {
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if long := max(w, h); long > most {
		w, h = max(1, (w*most+long/2)/long), max(1, (h*most+long/2)/long)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	if w == b.Dx() && h == b.Dy() {
		draw.Draw(out, out.Rect, img, b.Min, draw.Over)
	} else {
		draw.CatmullRom.Scale(out, out.Rect, img, b, draw.Over, nil)
	}
	return out
}

// upright turns and mirrors a picture as its orientation asks.
// Source: Exif 2.32 (CIPA DC-008), tag 0x0112: where row 0 and column 0 lie.
func upright(img *image.RGBA, orientation int) *image.RGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	at := map[int]func(x, y int) (int, int){ // where a pixel of the result comes from
		2: func(x, y int) (int, int) { return w - 1 - x, y },
		3: func(x, y int) (int, int) { return w - 1 - x, h - 1 - y },
		4: func(x, y int) (int, int) { return x, h - 1 - y },
		5: func(x, y int) (int, int) { return y, x },
		6: func(x, y int) (int, int) { return y, h - 1 - x },
		7: func(x, y int) (int, int) { return w - 1 - y, h - 1 - x },
		8: func(x, y int) (int, int) { return w - 1 - y, x },
	}[orientation]
	if at == nil {
		return img
	}
	size := image.Rect(0, 0, w, h)
	if orientation >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	out := image.NewRGBA(size)
	for y := range size.Max.Y {
		for x := range size.Max.X {
			sx, sy := at(x, y)
			copy(out.Pix[out.PixOffset(x, y):][:4], img.Pix[img.PixOffset(sx, sy):][:4])
		}
	}
	return out
}

// orientation finds the orientation a photo states, 1 (upright) when none.
func orientation(data []byte) int {
	if o := orientationIn(exifOf(data)); o >= 1 && o <= 8 {
		return o
	}
	return 1
}

// exifOf cuts the Exif block out of a JPEG, PNG or WebP file; nil without one.
func exifOf(data []byte) []byte {
	switch {
	case bytes.HasPrefix(data, []byte{0xFF, 0xD8}):
		return exifInJPEG(data[2:])
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return chunk(data[8:], "eXIf", func(b []byte) (string, int, int) {
			return string(b[4:8]), int(binary.BigEndian.Uint32(b)), 4
		})
	case len(data) > 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		found := chunk(data[12:], "EXIF", func(b []byte) (string, int, int) {
			n := int(binary.LittleEndian.Uint32(b[4:]))
			return string(b[:4]), n, n & 1
		})
		return bytes.TrimPrefix(found, []byte("Exif\x00\x00"))
	}
	return nil
}

// exifInJPEG walks the segments before the picture.
// Source: ITU-T T.81 annex B; Exif 2.32, section 4.7.2 (APP1).
func exifInJPEG(data []byte) []byte {
	for len(data) >= 4 && data[0] == 0xFF {
		if data[1] == 0xFF { // a fill byte
			data = data[1:]
			continue
		}
		n := int(binary.BigEndian.Uint16(data[2:]))
		if data[1] == 0xDA || n < 2 || n+2 > len(data) {
			return nil
		}
		if body := data[4 : n+2]; data[1] == 0xE1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return body[6:]
		}
		data = data[n+2:]
	}
	return nil
}

// chunk finds a chunk by name in a file made of them; head reads the eight
// bytes before a chunk and says its name, its length and what follows it.
func chunk(data []byte, name string, head func([]byte) (name string, length, after int)) []byte {
	for len(data) >= 8 {
		found, n, after := head(data)
		if n < 0 || n > len(data)-8 {
			return nil
		}
		if found == name {
			return data[8 : 8+n]
		}
		data = data[min(8+n+after, len(data)):]
	}
	return nil
}

// orientationIn reads tag 0x0112 of the first directory of an Exif block, 0
// when it has none. Source: TIFF 6.0, section 2.
func orientationIn(exif []byte) int {
	if len(exif) < 8 {
		return 0
	}
	var order binary.ByteOrder = binary.LittleEndian
	if string(exif[:2]) == "MM" {
		order = binary.BigEndian
	}
	at := int64(order.Uint32(exif[4:]))
	if at+2 > int64(len(exif)) {
		return 0
	}
	entries := exif[at+2:]
	for range order.Uint16(exif[at:]) {
		if len(entries) < 12 {
			return 0
		}
		if order.Uint16(entries) == 0x0112 && order.Uint16(entries[2:]) == 3 { // SHORT
			return int(order.Uint16(entries[8:]))
		}
		entries = entries[12:]
	}
	return 0
}
