package measure

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Number is an amount as a cook writes it. High is the upper end of a range,
// 0 when there is none; Low is the lower end or the amount itself.
type Number struct {
	Low, High float64
}

// Range tells whether two ends were written.
func (n Number) Range() bool { return n.High > n.Low }

// Value returns the amount, the middle of a range.
func (n Number) Value() float64 {
	if n.Range() {
		return (n.Low + n.High) / 2
	}
	return n.Low
}

var vulgar = map[rune]float64{
	'½': 1.0 / 2, '⅓': 1.0 / 3, '⅔': 2.0 / 3, '¼': 1.0 / 4, '¾': 3.0 / 4,
	'⅕': 1.0 / 5, '⅖': 2.0 / 5, '⅗': 3.0 / 5, '⅘': 4.0 / 5, '⅙': 1.0 / 6, '⅚': 5.0 / 6,
	'⅐': 1.0 / 7, '⅛': 1.0 / 8, '⅜': 3.0 / 8, '⅝': 5.0 / 8, '⅞': 7.0 / 8, '⅑': 1.0 / 9, '⅒': 1.0 / 10,
}

var numberWords = map[string]float64{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
	"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20,
	"half": 0.5, "quarter": 0.25, "third": 1.0 / 3, "dozen": 12, "couple": 2, "few": 3,
}

// ReadNumber reads the amount at the start of s and returns what follows it,
// spaces trimmed; false when s starts with no amount. It knows fractions (1/2,
// ½, 1 1/2, 1½, 1-1/2), decimals, ranges (2-3, 2–3, "2 to 3", "2 or 3") and
// number words up to twelve ("half a", "a dozen", "two and a half"). A comma
// is a thousands mark only between 1-999 and exactly three digits before g, ml
// or mg; otherwise it is a decimal mark.
func ReadNumber(s string) (Number, string, bool) {
	low, rest, ok := readOne(s)
	if !ok {
		return Number{}, s, false
	}
	n := Number{Low: low}
	if high, after, ok := readUpper(rest); ok && high > low {
		n.High, rest = high, after
	}
	return n, strings.TrimLeft(rest, " "), true
}

// readUpper reads the second half of a range, with its joining mark or word.
func readUpper(s string) (float64, string, bool) {
	t := strings.TrimLeft(s, " ")
	for _, mark := range []string{"-", "–", "—", "~", "to ", "or "} {
		if after, ok := strings.CutPrefix(t, mark); ok {
			after = strings.TrimLeft(after, " ")
			if mark == "or " && !startsWithDigit(after) && !startsWithNumberWord(after) {
				return 0, s, false
			}
			return readOne(after)
		}
	}
	return 0, s, false
}

// readOne reads one amount without a range.
func readOne(s string) (float64, string, bool) {
	s = strings.TrimLeft(s, " ")
	if startsWithDigit(s) {
		return readDigits(s)
	}
	return readWords(s)
}

func startsWithDigit(s string) bool {
	r, n := utf8.DecodeRuneInString(s)
	if _, ok := vulgar[r]; ok || isDigit(r) {
		return true
	}
	next, _ := utf8.DecodeRuneInString(s[n:])
	return r == '.' && isDigit(next)
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

// readDigits reads a number in figures: plain, decimal, fraction or mixed.
func readDigits(s string) (float64, string, bool) {
	if v, rest, ok := readFraction(s); ok {
		return timesDozen(v, rest)
	}
	whole, rest, ok := readDecimal(s)
	if !ok || math.IsInf(whole, 0) {
		return 0, s, false
	}
	if whole != math.Trunc(whole) {
		return whole, rest, true
	}
	for _, joint := range []string{"", " ", "-", "–", " and ", " & ", "+", " + "} {
		if after, ok := strings.CutPrefix(rest, joint); ok {
			after = strings.TrimLeft(after, " ")
			if f, tail, ok := readFraction(after); ok && f < 1 {
				return whole + f, tail, true
			}
		}
	}
	if v, rest, ok := addAndAHalf(whole, rest); ok && v > whole {
		return v, rest, true
	}
	return timesDozen(whole, rest)
}

// addAndAHalf reads "and a half" after a whole number.
func addAndAHalf(whole float64, rest string) (float64, string, bool) {
	t := strings.TrimLeft(rest, " ")
	for _, w := range []struct {
		text string
		part float64
	}{{"and a half", 0.5}, {"and a quarter", 0.25}, {"and three quarters", 0.75}, {"and three-quarters", 0.75}} {
		if after, ok := cutWord(t, w.text); ok {
			return whole + w.part, after, true
		}
	}
	return whole, rest, true
}

// readFraction reads ½ or 1/2; denominators are the kitchen's, so that "80/20"
// is no fraction.
func readFraction(s string) (float64, string, bool) {
	r, n := utf8.DecodeRuneInString(s)
	if v, ok := vulgar[r]; ok {
		return v, s[n:], true
	}
	top, rest := cutDigits(s)
	if top == "" || len(top) > 2 {
		return 0, s, false
	}
	rest, ok := strings.CutPrefix(strings.TrimLeft(rest, " "), "/")
	if !ok {
		return 0, s, false
	}
	bottom, rest := cutDigits(strings.TrimLeft(rest, " "))
	a, _ := strconv.Atoi(top)
	b, _ := strconv.Atoi(bottom)
	switch b {
	case 2, 3, 4, 5, 6, 8, 10, 12, 16, 32:
		if a > 0 && a < 4*b && len(top) == 1 || a == 10 || a == 11 && b == 12 {
			return float64(a) / float64(b), rest, true
		}
		if len(top) == 2 && a%10 < b && a%10 > 0 { // "11/2": a pasted 1½ that lost its space
			return float64(a/10) + float64(a%10)/float64(b), rest, true
		}
	}
	return 0, s, false
}

// readDecimal reads figures with a decimal point or comma, or a thousands comma.
func readDecimal(s string) (float64, string, bool) {
	whole, rest := cutDigits(s)
	if len(whole) > 7 {
		return 0, s, false
	}
	whole, rest = joinGroups(whole, rest)
	mark, n := utf8.DecodeRuneInString(rest)
	if mark == '.' || mark == ',' {
		frac, after := cutDigits(rest[n:])
		switch {
		case frac == "" || len(frac) > 9:
		case mark == ',' && thousands(whole, frac, after):
			return parse(whole+frac, s, after)
		default:
			return parse(whole+"."+frac, s, after)
		}
	}
	return parse(whole, s, rest)
}

// joinGroups takes in further groups of three digits that a space at which no
// line ends sets apart, as numbers of 10 000 and more are shown in French. An
// ordinary space is none: "2 400 g tins" are two.
func joinGroups(whole, rest string) (string, string) {
	if len(whole) > 3 || strings.HasPrefix(whole, "0") {
		return whole, rest
	}
	for {
		r, n := utf8.DecodeRuneInString(rest)
		if r != '\u00a0' && r != '\u202f' {
			return whole, rest
		}
		group, after := cutDigits(rest[n:])
		if len(group) != 3 || len(whole) > 6 {
			return whole, rest
		}
		whole, rest = whole+group, after
	}
}

func parse(figures, s, rest string) (float64, string, bool) {
	v, err := strconv.ParseFloat(figures, 64)
	if err != nil {
		return 0, s, false
	}
	return v, rest, true
}

// thousands is DESIGN section 4's rule for a comma.
func thousands(whole, frac, after string) bool {
	if len(frac) != 3 || len(whole) < 1 || len(whole) > 3 || whole[0] == '0' {
		return false
	}
	word := strings.TrimLeft(after, " ")
	if i := strings.IndexFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }); i >= 0 {
		word = word[:i]
	}
	u := Lookup(word)
	return u != nil && (u.Word == "g" || u.Word == "ml" || u.Word == "mg")
}

func cutDigits(s string) (digits, rest string) {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return s[:i], s[i:]
}

// cutWord cuts word, in any case, from the start of s when a word ends there.
func cutWord(s, word string) (string, bool) {
	if len(s) < len(word) || !strings.EqualFold(s[:len(word)], word) {
		return s, false
	}
	rest := s[len(word):]
	if r, _ := utf8.DecodeRuneInString(rest); rest != "" && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '\'' || r == '’') {
		return s, false
	}
	return rest, true
}

func startsWithNumberWord(s string) bool {
	_, _, ok := readWords(s)
	return ok
}

// phrases are number words of more than one word, longest first.
var phrases = []struct {
	text  string
	value float64
}{
	{"three-quarters of a", 0.75},
	{"three quarters of a", 0.75},
	{"three-quarters", 0.75},
	{"three quarters", 0.75},
	{"two-thirds of a", 2.0 / 3},
	{"two thirds of a", 2.0 / 3},
	{"two-thirds", 2.0 / 3},
	{"two thirds", 2.0 / 3},
	{"one and a half", 1.5},
	{"a half-dozen", 6},
	{"half a dozen", 6},
	{"half-dozen", 6},
	{"half dozen", 6},
	{"a dozen", 12},
	{"one dozen", 12},
	{"two dozen", 24},
	{"a couple of", 2},
	{"a couple", 2},
	{"a good few", 4},
	{"a few", 3},
	{"half of a", 0.5},
	{"half of an", 0.5},
	{"half an", 0.5},
	{"half a", 0.5},
	{"a half", 0.5},
	{"one half", 0.5},
	{"one-half", 0.5},
	{"a quarter of a", 0.25},
	{"a quarter", 0.25},
	{"quarter of a", 0.25},
	{"one quarter", 0.25},
	{"one-quarter", 0.25},
	{"one-third", 1.0 / 3},
	{"one third", 1.0 / 3},
	{"a third of a", 1.0 / 3},
	{"a third", 1.0 / 3},
}

// readWords reads a number in words.
func readWords(s string) (float64, string, bool) {
	if r, _ := utf8.DecodeRuneInString(s); !unicode.IsLetter(r) {
		return 0, s, false
	}
	for _, p := range phrases {
		if rest, ok := cutWord(s, p.text); ok {
			return p.value, rest, true
		}
	}
	i := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })
	word := s
	if i >= 0 {
		word = s[:i]
	}
	v, ok := numberWords[strings.ToLower(word)]
	if !ok {
		return 0, s, false
	}
	rest := s[len(word):]
	if isCompound(rest) {
		return 0, s, false
	}
	if word = strings.ToLower(word); word != "a" && word != "an" && v >= 1 {
		if v, rest, ok := addAndAHalf(v, rest); ok {
			return timesDozen(v, rest)
		}
	}
	return v, rest, true
}

// isCompound tells that the number word is part of a name: "half-fat",
// "five-spice", "half and half"; "two-inch" stays a number.
func isCompound(rest string) bool {
	if after, ok := strings.CutPrefix(rest, "-"); ok {
		for _, w := range []string{"inch", "cm", "ounce", "pound"} {
			if strings.HasPrefix(strings.ToLower(after), w) {
				return false
			}
		}
		return after != "" && !startsWithNumberWord(after)
	}
	t := strings.ToLower(strings.TrimLeft(rest, " "))
	return strings.HasPrefix(t, "and half") || strings.HasPrefix(t, "& half") || strings.HasPrefix(t, "fat ")
}

// timesDozen reads "dozen" after a number word ("three dozen").
func timesDozen(v float64, rest string) (float64, string, bool) {
	for _, w := range []string{"dozen", "doz.", "doz"} {
		if after, ok := cutWord(strings.TrimLeft(rest, " "), w); ok && v < 12 {
			return v * 12, after, true
		}
	}
	return v, rest, true
}
