package manuscript

import (
	"strings"
	"sync"
	"unicode"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-fonts/liberation/liberationserifbold"
	"codeberg.org/go-fonts/liberation/liberationserifitalic"
	"codeberg.org/go-fonts/liberation/liberationserifregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"parewell/recipes/words"
)

// Paper is a size of paper, in points.
type Paper struct {
	Key           string
	Width, Height float64
}

// The papers that are printed on. Source: ISO 216 (210 x 297 mm); ASME Y14.1
// size A (8.5 x 11 inches).
var (
	A4     = Paper{"a4", 210 / 25.4 * 72, 297 / 25.4 * 72}
	Letter = Paper{"letter", 8.5 * 72, 11 * 72}
)

// Document is pages ready to be printed.
type Document struct {
	Title string
	Pages []Page
}

// Page is one printed page: what stands where, in points from its top left.
type Page struct {
	Paper    Paper
	Texts    []Text
	Rules    []Rule
	Pictures []Picture
}

// Picture is a PNG image in a frame; X and Y are its top left.
type Picture struct {
	X, Y, Width, Height float64
	PNG                 []byte
}

// Text is one line of text; X is its left end and Y its baseline.
type Text struct {
	X, Y, Size float64
	Bold, Grey bool
	Face       Face
	Text       string
}

// Rule is a straight line, level or upright.
type Rule struct {
	X1, Y1, X2, Y2, Width float64
	Grey                  bool
}

// Words returns all text of the page, one piece a line, for tests and for
// reading aloud.
func (p *Page) Words() string {
	var out []string
	for _, t := range p.Texts {
		out = append(out, t.Text)
	}
	return strings.Join(out, "\n")
}

// Face is what text is set in: the zero Face is that of papers one works from.
type Face int

// The faces there are.
const (
	Sans  Face = iota
	Serif      // of a book
	Italic
)

// face is a font parsed for measuring, with its name inside a file.
type face struct {
	font        *sfnt.Font
	data        []byte
	name, style string
}

// faces are the fonts there are, each parsed when it is first used.
var faces = func() (out [5]func() *face) {
	for i, f := range []face{
		{name: "Liberation Sans", data: liberationsansregular.TTF},
		{name: "Liberation Sans", style: "B", data: liberationsansbold.TTF},
		{name: "Liberation Serif", data: liberationserifregular.TTF},
		{name: "Liberation Serif", style: "B", data: liberationserifbold.TTF},
		{name: "Liberation Serif", style: "I", data: liberationserifitalic.TTF},
	} {
		out[i] = sync.OnceValue(func() *face {
			var err error
			if f.font, err = sfnt.Parse(f.data); err != nil {
				panic(err) // embedded at build time: a fault here is a programmer's
			}
			return &f
		})
	}
	return out
}()

// in returns the font of a face; there is no bold Italic.
func (f Face) in(bold bool) *face {
	switch {
	case f == Italic:
		return faces[4]()
	case bold:
		return faces[2*int(f)+1]()
	}
	return faces[2*int(f)]()
}

// typing measures text in a face and keeps the buffer that takes; one
// goroutine's.
type typing struct {
	Face Face
	buf  sfnt.Buffer
}

// width returns how wide a line is set, in points.
func (t *typing) width(text string, size float64, bold bool) float64 {
	f := t.Face.in(bold).font
	em := fixed.Int26_6(f.UnitsPerEm()) << 6
	var w fixed.Int26_6
	for _, r := range text {
		if g, err := f.GlyphIndex(&t.buf, r); err == nil {
			if a, err := f.GlyphAdvance(&t.buf, g, em, 0); err == nil {
				w += a
			}
		}
	}
	return float64(w) / float64(em) * size
}

// printable makes a person's text fit for the page: one line, and a question
// mark for what the fonts have no sign for.
func (t *typing) printable(text string) string {
	var b strings.Builder
	for _, r := range strings.Join(words.Breakable(text), " ") {
		switch g, err := t.Face.in(false).font.GlyphIndex(&t.buf, r); {
		case unicode.In(r, unicode.Cf, unicode.Mn, unicode.Cc) && (err != nil || g == 0):
			// joiners and variation selectors say nothing by themselves
		case err != nil || g == 0 || r > 0xFFFF:
			b.WriteByte('?')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// wrap breaks text into lines no wider than w; a word wider than that is cut.
func (t *typing) wrap(text string, size, w float64, bold bool) []string {
	var out []string
	line := ""
	for _, word := range words.Breakable(t.printable(text)) {
		for t.width(word, size, bold) > w {
			if line != "" {
				out, line = append(out, line), ""
			}
			n := t.fits(word, size, w, bold)
			out, word = append(out, word[:n]), word[n:]
		}
		next := strings.TrimSpace(line + " " + word)
		if line != "" && t.width(next, size, bold) > w {
			out, next = append(out, line), word
		}
		line = next
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// fits returns how many bytes of a word go into a width, at least one letter.
func (t *typing) fits(word string, size, w float64, bold bool) int {
	n := 0
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && t.width(word[:end], size, bold) > w {
			break
		}
		n = end
	}
	return n
}

// oneLine cuts text to a width with an ellipsis.
func (t *typing) oneLine(text string, size, w float64, bold bool) string {
	text = t.printable(text)
	if t.width(text, size, bold) <= w {
		return text
	}
	n := t.fits(text, size, w-t.width("…", size, bold), bold)
	return strings.TrimRight(text[:n], " ,;") + "…"
}
