package reading

import (
	"strings"

	"parewell/recipes/measure"
)

// turnMarks stand between a name and its amount in lists written the other way
// round: "Carrots - 2, diced", "Flour: 1 cup, sifted".
var turnMarks = []string{" - ", " – ", " — ", ": ", ", "}

// turned puts a line that gives its name first the usual way round: "Cannellini
// beans - 1 (15 oz) can, drained" is "1 (15 oz) can Cannellini beans, drained".
// Other lines come back as they are.
func turned(s string, sys measure.System) string {
	for _, mark := range turnMarks {
		i := strings.Index(s, mark)
		if i <= 0 {
			continue
		}
		name, rest := strings.TrimSpace(s[:i]), strings.TrimSpace(s[i+len(mark):])
		if !hasLetter(name) || startsDigit(name) || startsAmount(name) || strings.ContainsAny(name, ",(") || len(wordsOf(name)) > 5 {
			return s
		}
		head, tail := amountPart(rest)
		a, left := readAmount(head+" "+name, sys)
		if !a.found || a.cm > 0 || !onlyPrepared(left, name) {
			return s
		}
		return head + " " + name + tail
	}
	return s
}

// onlyPrepared tells whether what is left of an amount is the name, with no more
// than a word or two of preparation before it: "chopped parsley".
func onlyPrepared(left, name string) bool {
	left = strings.TrimSpace(left)
	if len(left) < len(name) || !strings.EqualFold(left[len(left)-len(name):], name) {
		return false
	}
	for _, w := range strings.Fields(left[:len(left)-len(name)]) {
		if !preparing[fold(strings.Trim(w, ",."))] {
			return false
		}
	}
	return true
}

// amountPart parts "1 (15 oz) can, drained" at the first comma outside brackets.
func amountPart(s string) (head, tail string) {
	depth := 0
	for i := 0; i < len(s); i++ {
		switch s[i] {
		case '(':
			depth++
		case ')':
			depth--
		case ',':
			if depth <= 0 && (i+1 == len(s) || s[i+1] == ' ') {
				return s[:i], s[i:]
			}
		}
	}
	return s, ""
}
