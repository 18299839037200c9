package sheets

import (
	"math"
	"strconv"
	"strings"
)

// csvNumber writes a number to at most four places, with a point in every
// language; what is not known is empty.
func csvNumber(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', 4, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// csvText keeps a text from being run as a formula by a spreadsheet.
func csvText(s string) string {
	if s == "" || !strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return s
	}
	return "'" + s
}
