package sheets

import "strings"

// HasWords tells whether a text holds every word typed, in any order and case.
func HasWords(text, typed string) bool {
	text = strings.ToLower(text)
	for _, w := range strings.Fields(strings.ToLower(typed)) {
		if !strings.Contains(text, w) {
			return false
		}
	}
	return true
}

// Paragraphs are a text's lines.
func Paragraphs(text string) []string { return strings.Split(text, "\n") }
