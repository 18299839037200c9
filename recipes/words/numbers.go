package words

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// Minus is the sign of a fall: an en dash, as wide as a digit and in every font.
const Minus = "–"

// Unknown stands where a number is not known.
const Unknown = "?"

// Number formats v with exactly decimals places in the current language's
// marks; a value that rounds to zero has no sign. NaN gives Unknown.
func Number(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Unknown
	}
	s := strconv.FormatFloat(math.Abs(v), 'f', decimals, 64)
	whole, frac, _ := strings.Cut(s, ".")
	l := Current()
	out := group(whole, l.Thousands)
	if frac != "" {
		out += l.Decimal + frac
	}
	if v < 0 && strings.Trim(s, "0.") != "" {
		return Minus + out
	}
	return out
}

// group puts mark between groups of three digits from five digits on, so that
// 1000-9999 stay together as on a printed page.
func group(digits, mark string) string {
	if len(digits) < 5 || mark == "" {
		return digits
	}
	var b strings.Builder
	for i, r := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteString(mark)
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Trim formats v with at most decimals places and no trailing zeros.
func Trim(v float64, decimals int) string {
	s := Number(v, decimals)
	if decimals == 0 || !strings.Contains(s, Current().Decimal) {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), Current().Decimal)
}

// Field formats v for a field to type over: at most decimals places, no trailing
// zeros, no marks between thousands, which would be read as decimals. Where the
// decimal mark is a comma three places get a nought more: the reader takes a
// comma before exactly three digits and grams for a mark between thousands.
func Field(v float64, decimals int) string {
	l := Current()
	s := strings.ReplaceAll(Trim(v, decimals), l.Thousands, "")
	if _, places, ok := strings.Cut(s, l.Decimal); ok && l.Decimal == "," && len(places) == 3 {
		s += "0"
	}
	return s
}

// Signed formats a change: "+12.0", "–143", and "0" when it rounds to zero.
func Signed(v float64, decimals int) string {
	s := Number(v, decimals)
	if v > 0 && strings.Trim(s, "0.,") != "" {
		return "+" + s
	}
	return s
}

// Percent formats a signed share of a hundred, "–21 %".
func Percent(v float64) string { return Signed(v, 0) + " %" }

// Share formats a part of one as whole per cent, "8 %"; below one per cent
// with one decimal.
func Share(part float64) string {
	p := part * 100
	if p > 0 && p < 1 {
		return Number(p, 1) + " %"
	}
	return Number(p, 0) + " %"
}

// Grams formats a weight for the eye: 0.4 g, 12.5 g, 143 g, 1.25 kg.
func Grams(g float64) string {
	switch a := math.Abs(g); {
	case math.IsNaN(g):
		return Unknown
	case a >= 1000:
		return Trim(g/1000, 2) + " kg"
	case a >= 20:
		return Number(g, 0) + " g"
	}
	return Trim(g, 1) + " g"
}

// Decimals returns how many places a nutrient of the unit is shown with:
// grams one, all others none.
func Decimals(unit string) int {
	if unit == "g" {
		return 1
	}
	return 0
}

// fractions are the kitchen's, by nearest twenty-fourth.
var fractions = map[int]string{3: "⅛", 6: "¼", 8: "⅓", 9: "⅜", 12: "½", 15: "⅝", 16: "⅔", 18: "¾", 21: "⅞"}

// Fraction formats an amount as a cook writes it: 1½, ⅔, 3; decimals where no
// kitchen fraction lies within 0.02.
func Fraction(v float64) string {
	whole := math.Floor(v + 1e-9)
	rest := v - whole
	n := int(math.Round(rest * 24))
	if math.Abs(rest*24-float64(n)) > 0.5 {
		return Trim(v, 2)
	}
	switch f, ok := fractions[n]; {
	case n == 0:
		return Number(whole, 0)
	case n == 24:
		return Number(whole+1, 0)
	case !ok:
		return Trim(v, 2)
	case whole == 0:
		return f
	default:
		return Number(whole, 0) + f
	}
}

// Day formats a date for the notebook: "4 Mar 2026".
func Day(t time.Time) string {
	return Say("day-of-month", t.Day()) + " " + Say("month."+strconv.Itoa(int(t.Month()))) + " " + strconv.Itoa(t.Year())
}

// DayOf writes a date that begins a text such as 2026-02-28 as Day does; a text
// that does not begin with one stays as it is.
func DayOf(date string) string {
	t, err := time.Parse(time.DateOnly, date[:min(len(date), len(time.DateOnly))])
	if err != nil {
		return date
	}
	return Day(t)
}

// Clock formats a time of day, "14:05".
func Clock(t time.Time) string { return t.Format("15:04") }

// Join lists words: "a", "a and b", "a, b and c".
func Join(items []string) string {
	switch n := len(items); n {
	case 0:
		return ""
	case 1:
		return items[0]
	default:
		return strings.Join(items[:n-1], ", ") + " " + Say("and") + " " + items[n-1]
	}
}
