package food

import (
	"strings"
	"unicode"
)

// foldings take marks off Latin letters; two-letter ones are written out.
var foldings = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ã': "a", 'ä': "a", 'å': "a", 'ā': "a", 'ă': "a", 'ą': "a", 'æ': "ae",
	'ç': "c", 'ć': "c", 'č': "c", 'ď': "d", 'ð': "d", 'đ': "d",
	'è': "e", 'é': "e", 'ê': "e", 'ë': "e", 'ē': "e", 'ė': "e", 'ę': "e", 'ě': "e",
	'ğ': "g", 'ì': "i", 'í': "i", 'î': "i", 'ï': "i", 'ī': "i", 'ı': "i", 'ł': "l", 'ľ': "l",
	'ñ': "n", 'ń': "n", 'ň': "n", 'ò': "o", 'ó': "o", 'ô': "o", 'õ': "o", 'ö': "o", 'ø': "o", 'ō': "o", 'ő': "o", 'œ': "oe",
	'ř': "r", 'ś': "s", 'š': "s", 'ş': "s", 'ș': "s", 'ß': "ss", 'ť': "t", 'ț': "t", 'þ': "th",
	'ù': "u", 'ú': "u", 'û': "u", 'ü': "u", 'ū': "u", 'ů': "u", 'ű': "u", 'ý': "y", 'ÿ': "y",
	'ź': "z", 'ž': "z", 'ż': "z",
}

// fold lowers s, takes marks off letters and drops apostrophes, so that
// "Crème" and "creme", "goat's" and "goats" are the same.
func fold(s string) string {
	plain := true
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= 0x80 || c == '\'' || c >= 'A' && c <= 'Z' {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	var b strings.Builder
	b.Grow(len(s))
	for _, r := range s {
		switch {
		case r == '\'' || r == '’' || r == '‘' || unicode.Is(unicode.Mn, r):
		case r < 0x80:
			b.WriteByte(byte(unicode.ToLower(r)))
		default:
			r = unicode.ToLower(r)
			if to, ok := foldings[r]; ok {
				b.WriteString(to)
			} else {
				b.WriteRune(r)
			}
		}
	}
	return b.String()
}

// eachWord calls f with every word of an already folded text: letters and
// digits, everything else parts words.
func eachWord(s string, f func(w string)) {
	start := -1
	for i, r := range s {
		word := r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r >= 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r))
		switch {
		case word && start < 0:
			start = i
		case !word && start >= 0:
			f(s[start:i])
			start = -1
		}
	}
	if start >= 0 {
		f(s[start:])
	}
}

// singular gives the form that one and many share. It need not be a word, only
// the same for both: "tomatoes" and "tomato", "leaves" and "leaf".
func singular(w string) string {
	n := len(w)
	switch {
	case n < 4 || w[n-1] != 's':
		return w
	case strings.HasSuffix(w, "ss"), strings.HasSuffix(w, "us"), strings.HasSuffix(w, "is"), strings.HasSuffix(w, "as") && n < 5:
		return w
	case strings.HasSuffix(w, "leaves"), strings.HasSuffix(w, "loaves"), strings.HasSuffix(w, "halves"), strings.HasSuffix(w, "calves"):
		return w[:n-3] + "f"
	case strings.HasSuffix(w, "ies") && n > 4:
		return w[:n-3] + "y"
	case strings.HasSuffix(w, "oes"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "xes"), strings.HasSuffix(w, "sses"):
		return w[:n-2]
	}
	return w[:n-1]
}
