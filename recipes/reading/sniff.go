package reading

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"

	"parewell/recipes/problem"
)

// maxFile is the largest file that is read as a recipe.
const maxFile = 4 << 20

// Read reads a file of recipes, whatever it is: schema.org JSON-LD, a saved
// web page, or text (UTF-8, UTF-16 or Windows-1252, any line ends). name is the
// file's name for messages. A file that holds no recipe is a *problem.Error.
func Read(data []byte, name string, opt Options) ([]*Draft, error) {
	if name != "" {
		opt.Where = name
	}
	if len(data) > maxFile {
		return nil, problem.New(opt.Where, "the file is larger than 4 MB", "save the recipe alone, as text or as a web page without pictures")
	}
	text, err := decode(data, opt.Where)
	if err != nil {
		return nil, err
	}
	switch kindOf(text) {
	case "json":
		return ReadJSONLD([]byte(text), opt)
	case "html":
		return readPage([]byte(text), opt)
	}
	d, err := ReadText(text, opt)
	if err != nil {
		return nil, err
	}
	return []*Draft{d}, nil
}

// decode turns bytes into text; an empty or binary file is an error.
func decode(data []byte, where string) (string, error) {
	if len(bytes.TrimSpace(data)) == 0 {
		return "", problem.New(where, "the file is empty", "choose the file that holds the recipe")
	}
	if isBinary(data) {
		return "", problem.New(where, "this is no text, web page or JSON file", "open it in its own program, copy the recipe's text and paste it")
	}
	switch {
	case bytes.HasPrefix(data, []byte{0xef, 0xbb, 0xbf}):
		return strings.ToValidUTF8(string(data[3:]), ""), nil
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		return wide(data[2:], binary.LittleEndian), nil
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return wide(data[2:], binary.BigEndian), nil
	case looksWide(data, 1):
		return wide(data, binary.LittleEndian), nil
	case looksWide(data, 0):
		return wide(data, binary.BigEndian), nil
	case utf8.Valid(data):
		return string(data), nil
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil {
		return strings.ToValidUTF8(string(data), ""), nil
	}
	return string(out), nil
}

// looksWide tells UTF-16 without a mark: nearly every second byte, from
// offset at, is zero.
func looksWide(data []byte, at int) bool {
	n := min(len(data), 400)
	zero, other := 0, 0
	for i := 0; i+1 < n; i += 2 {
		if data[i+at] == 0 {
			zero++
		}
		if data[i+1-at] == 0 {
			other++
		}
	}
	return n > 8 && zero*10 > n*4 && other == 0
}

func wide(data []byte, order binary.ByteOrder) string {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return strings.ToValidUTF8(string(utf16.Decode(units)), "")
}

// isBinary tells files of other programs by their first bytes or by control
// characters no text has.
func isBinary(data []byte) bool {
	for _, magic := range []string{"%PDF", "PK\x03\x04", "\x89PNG", "\xff\xd8\xff", "GIF8", "\xd0\xcf\x11\xe0", "SQLite format", "{\\rtf", "\x1f\x8b", "RIFF", "\x7fELF", "MZ\x90"} {
		if bytes.HasPrefix(data, []byte(magic)) {
			return true
		}
	}
	if bytes.HasPrefix(data, []byte{0xff, 0xfe}) || bytes.HasPrefix(data, []byte{0xfe, 0xff}) || looksWide(data, 0) || looksWide(data, 1) {
		return false
	}
	n := min(len(data), 8192)
	odd := 0
	for _, b := range data[:n] {
		if b < 9 || b > 13 && b < 27 || b == 0x7f {
			odd++
		}
	}
	return odd*200 > n
}

// kindOf tells JSON, HTML and text apart by their looks.
func kindOf(text string) string {
	t := strings.TrimLeft(text, " \t\r\n\ufeff")
	if strings.HasPrefix(t, "{") || strings.HasPrefix(t, "[") && !strings.HasPrefix(t, "[ ]") && !strings.HasPrefix(t, "[x]") && strings.ContainsAny(t, "{\"") {
		return "json"
	}
	low := strings.ToLower(t[:min(len(t), 4096)])
	for _, mark := range []string{"<!doctype html", "<html", "<head", "<body", "<script", "<div", "<article", "<meta", "<!--"} {
		if strings.HasPrefix(low, mark) || strings.HasPrefix(t, "<") && strings.Contains(low, mark) {
			return "html"
		}
	}
	if strings.Contains(strings.ToLower(t), "application/ld+json") {
		return "html"
	}
	return "text"
}
