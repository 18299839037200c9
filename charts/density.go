package charts

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"math"
)

// withDensity inserts a pHYs chunk, dots per metre, behind the header of a PNG
// file. Source: PNG specification, third edition, sections 5.3 and 11.3.4.3.
func withDensity(file []byte, dpi int) []byte {
	const header = 8 + 25 // signature and IHDR chunk
	perMetre := uint32(math.Round(float64(dpi) / 0.0254))
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	out := make([]byte, 0, len(file)+len(chunk))
	out = append(out, file[:header]...)
	out = append(out, chunk...)
	return append(out, file[header:]...)
}

// withResolution sets both resolutions of a little-endian TIFF file, which the
// encoder always writes as 72. Source: TIFF 6.0, section 8, tags 282 and 283.
func withResolution(file []byte, dpi int) ([]byte, error) {
	le := binary.LittleEndian
	if len(file) < 8 || string(file[:2]) != "II" {
		return nil, errors.New("charts: not a little-endian TIFF")
	}
	dir := int(le.Uint32(file[4:]))
	if dir+2 > len(file) {
		return nil, errors.New("charts: TIFF directory out of place")
	}
	out := append([]byte(nil), file...)
	set := 0
	for i := range int(le.Uint16(file[dir:])) {
		entry := dir + 2 + 12*i
		if tag := le.Uint16(file[entry:]); tag != 282 && tag != 283 {
			continue
		}
		at := le.Uint32(file[entry+8:])
		le.PutUint32(out[at:], uint32(dpi))
		le.PutUint32(out[at+4:], 1)
		set++
	}
	if set != 2 {
		return nil, errors.New("charts: TIFF without resolution")
	}
	return out, nil
}
