package tables

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// plain makes a readable name of a published one: lower case, one blank after a
// comma, and where all of it is in capitals the shortened words written out.
func plain(published string) string {
	capitals := !strings.ContainsFunc(published, unicode.IsLower)
	s := strings.ToLower(published)
	if !capitals {
		return spaced(s)
	}
	var b strings.Builder
	b.Grow(2 * len(s))
	blade := strings.HasPrefix(s, "beef") || strings.HasPrefix(s, "pork") || strings.HasPrefix(s, "lamb") || strings.HasPrefix(s, "veal")
	for i := 0; i < len(s); {
		n := wordAt(s, i)
		if n == 0 {
			_, n = utf8.DecodeRuneInString(s[i:])
			if s[i] == '&' {
				b.WriteString(" and ")
			} else {
				b.WriteString(s[i : i+n])
			}
			i += n
			continue
		}
		w := s[i : i+n]
		if i > 0 && s[i-1] == '"' { // 1/8"FAT
			b.WriteByte(' ')
		}
		i += n
		switch long, ok := shortened[w]; {
		case i < len(s) && s[i] == '/' && (w == "w" || w == "wo"):
			b.WriteString(map[string]string{"w": " with ", "wo": " without "}[w])
			i++
		case w == "bld" && blade:
			b.WriteString("blade")
		case ok:
			b.WriteString(long)
		default:
			b.WriteString(w)
		}
	}
	return spaced(b.String())
}

// wordAt is how many bytes of s from i on are one word: a letter, then letters,
// digits and apostrophes. Digits that stand before letters are no part of one.
func wordAt(s string, i int) int {
	letter := func(c byte) bool { return c >= 'a' && c <= 'z' }
	if !letter(s[i]) || i > 0 && (s[i-1] >= 0x80 || s[i-1] == '\'') {
		return 0
	}
	n := i
	for n < len(s) && (letter(s[n]) || s[n] == '\'' || s[n] >= '0' && s[n] <= '9') {
		n++
	}
	if n < len(s) && s[n] >= 0x80 { // half of a word with a mark on it
		return 0
	}
	return n - i
}

// spaced puts one blank between words and after commas, and none before them.
func spaced(s string) string {
	var b strings.Builder
	b.Grow(len(s) + 8)
	gap := false
	for i := 0; i < len(s); i++ {
		switch c := s[i]; c {
		case ' ', '\t':
			gap = b.Len() > 0
		case ',':
			if b.Len() > 0 {
				b.WriteByte(c)
				gap = true
			}
		default:
			if gap {
				b.WriteByte(' ')
				gap = false
			}
			b.WriteByte(c)
		}
	}
	return strings.TrimRight(b.String(), ", ")
}
