package reading

import (
	"strings"
	"unicode"
)

// isPicture tells pictures that stand in pasted text as bullets or between
// facts. Stars stay: they tell a rating from a title.
func isPicture(r rune) bool {
	switch {
	case r < 0x2190, r == '★', r == '☆', r == '⭐':
		return false
	case r >= 0x1F3FB && r <= 0x1F3FF: // skin colours belong to the picture before
		return true
	}
	return unicode.Is(unicode.So, r)
}

// unpictured puts a bullet for each run of pictures.
func unpictured(s string) string {
	if strings.IndexFunc(s, isPicture) < 0 {
		return s
	}
	var b strings.Builder
	in := false
	for _, r := range s {
		switch {
		case isPicture(r):
			if !in {
				b.WriteString(" • ")
			}
			in = true
		case r == '\ufe0f' || r == '\u200d':
		default:
			b.WriteRune(r)
			in = false
		}
	}
	return b.String()
}

// tabulated parts the cells of a pasted table: a tab, a bar or a row of dots
// between a name and its amount becomes a dash, so that it reads as a list
// written the other way round. Other tabs and bars are left alone.
func tabulated(s string) string {
	for _, mark := range []string{"\t", " | "} {
		head, tail, ok := strings.Cut(strings.Trim(s, "| \t"), mark)
		if ok && !strings.Contains(tail, mark) && hasLetter(head) && startsDigit(strings.TrimSpace(tail)) && !startsDigit(strings.TrimSpace(head)) && !looksServing(head+" "+tail) && isFurniture(head) == "" {
			return strings.TrimSpace(head) + " - " + strings.TrimSpace(tail)
		}
	}
	if i := strings.Index(s, "..."); i > 0 {
		head, tail := strings.TrimSpace(s[:i]), strings.TrimLeft(s[i:], ". ")
		if hasLetter(head) && startsDigit(tail) {
			return head + " - " + tail
		}
	}
	return s
}
