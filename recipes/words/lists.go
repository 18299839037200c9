package words

import "strings"

// List says a key whose sentence is several, with " | " between them: the words
// along a scale, the answers of a question.
func List(key string) []string {
	parts := strings.Split(Say(key), "|")
	for i, p := range parts {
		parts[i] = strings.TrimSpace(p)
	}
	return parts
}
