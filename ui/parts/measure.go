package parts

import (
	"slices"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
)

// Shaping a string costs tens of microseconds; adding up the advances of its
// characters costs nanoseconds and is right to a fraction of a pixel in the
// embedded font, which is enough to size columns, cut and wrap.
type face struct {
	size float32
	bold bool
}

// faceWidths are the advances of one size: a table for Latin, a map for the rest.
type faceWidths struct {
	latin [384]float32
	other map[rune]float32
	line  float32
}

var faces = map[face]*faceWidths{}

func faceOf(size float32, bold bool) *faceWidths {
	k := face{size, bold}
	w := faces[k]
	if w == nil {
		w = &faceWidths{other: map[rune]float32{}, line: fyne.MeasureText("Ag", size, fyne.TextStyle{Bold: bold}).Height}
		faces[k] = w
	}
	return w
}

func (w *faceWidths) advance(r rune, size float32, bold bool) float32 {
	if r >= 0 && int(r) < len(w.latin) {
		if w.latin[r] == 0 {
			w.latin[r] = measured(r, size, bold)
		}
		return w.latin[r]
	}
	a, ok := w.other[r]
	if !ok {
		a = measured(r, size, bold)
		w.other[r] = a
	}
	return a
}

// measured takes ten of a character, so that rounding does not add up.
func measured(r rune, size float32, bold bool) float32 {
	return fyne.MeasureText(strings.Repeat(string(r), 10), size, fyne.TextStyle{Bold: bold}).Width / 10
}

func advance(r rune, size float32, bold bool) float32 {
	return faceOf(size, bold).advance(r, size, bold)
}

// textWidth returns the width of one line of text in Fyne's units.
func textWidth(s string, size float32, bold bool) float32 {
	if s == "" {
		return 0
	}
	var w float32
	f := faceOf(size, bold)
	for _, r := range s {
		w += f.advance(r, size, bold)
	}
	return w
}

// lineHeight returns the height of one line of text of that size.
func lineHeight(size float32) float32 { return faceOf(size, false).line }

// cut shortens a line to fit width, ending it with an ellipsis; a width that
// holds no character gives an empty string.
func cut(s string, width, size float32, bold bool) string {
	if textWidth(s, size, bold) <= width+0.5 {
		return s
	}
	left := width - advance('…', size, bold)
	if left < 0 {
		return ""
	}
	for i, r := range s {
		a := advance(r, size, bold)
		if a > left {
			return strings.TrimRight(s[:i], " ,;") + "…"
		}
		left -= a
	}
	return s
}

// wrap breaks text into lines that fit width, at spaces where it can and inside
// a word where one word is wider than the line. It returns at least one line.
func wrap(s string, width, size float32, bold bool) []string {
	var lines []string
	for para := range strings.SplitSeq(s, "\n") {
		lines = append(lines, wrapParagraph(para, width, size, bold)...)
	}
	return lines
}

func wrapParagraph(s string, width, size float32, bold bool) []string {
	var lines []string
	line, used := "", float32(0)
	space := advance(' ', size, bold)
	for _, word := range unitsKept(strings.FieldsFunc(s, unicode.IsSpace)) {
		w := textWidth(word, size, bold)
		if line != "" && used+space+w > width+0.5 {
			lines, line, used = append(lines, line), "", 0
		}
		for w > width+0.5 && len([]rune(word)) > 1 {
			head := fitting(word, width, size, bold)
			lines, word = append(lines, head), word[len(head):]
			w = textWidth(word, size, bold)
		}
		if line != "" {
			line, used = line+" ", used+space
		}
		line, used = line+word, used+w
	}
	return append(lines, line)
}

// units are what stands behind a number on the same line.
var units = []string{"%", "g", "kg", "mg", "ml", "l", "cm", "mm", "°C", "°F", "kcal", "kJ", "min", "h"}

// unitsKept joins a number and its unit into one word, which is not broken where
// they meet.
func unitsKept(words []string) []string {
	out := words[:0]
	for _, w := range words {
		if n := len(out); n > 0 && slices.Contains(units, strings.TrimRight(w, ".,;:)”")) {
			if last := out[n-1][len(out[n-1])-1]; last >= '0' && last <= '9' {
				out[n-1] += " " + w
				continue
			}
		}
		out = append(out, w)
	}
	return out
}

// fitting returns the longest start of a word that fits, at least one character.
func fitting(word string, width, size float32, bold bool) string {
	var used float32
	for i, r := range word {
		used += advance(r, size, bold)
		if used > width+0.5 && i > 0 {
			return word[:i]
		}
	}
	return word
}
