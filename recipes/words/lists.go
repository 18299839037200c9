package words

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// List says a key whose sentence is several, with " | " between them: the words
// along a scale, the answers of a question.
func List(key string) []string {
	parts := strings.Split(Say(key), "|")
	for i, p := range parts {
		parts[i] = strings.TrimSpace(p)
	}
	return parts
}

// Capital gives a sentence that begins with a name its capital letter.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// Breakable cuts a text where a line may end: at every space but those that hold
// what is on both sides together. Runs of spaces count as one.
func Breakable(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return r != '\u00a0' && r != '\u202f' && unicode.IsSpace(r) })
}
