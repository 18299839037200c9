package reading

import (
	"math"
	"strings"

	"parewell/recipes/measure"
)

// Number reads one plain amount typed into a field ("6", "1½", "2,5"); false
// for anything else, for a range, and for what is not above zero.
func Number(text string) (float64, bool) {
	n, rest, ok := measure.ReadNumber(strings.TrimSpace(text))
	if !ok || rest != "" || n.High != 0 && n.High != n.Low || !(n.Low > 0) || math.IsInf(n.Low, 0) {
		return 0, false
	}
	return n.Low, true
}

// MostGrams is the heaviest ingredient that is believed, a tonne: more is a slip.
const MostGrams = 1e6

// Grams reads a weight typed into a field: a bare number is grams, "1.2 kg" or
// "4 oz" are converted; zero is allowed, volumes, counts and what is over
// MostGrams are not.
func Grams(text string) (float64, bool) {
	text = strings.TrimSpace(text)
	n, rest, ok := measure.ReadNumber(text)
	if !ok || n.High != 0 && n.High != n.Low || n.Low < 0 || math.IsInf(n.Low, 0) {
		return 0, false
	}
	if rest == "" {
		return n.Low, n.Low <= MostGrams
	}
	u := measure.Lookup(strings.TrimSuffix(rest, "."))
	if u == nil || !(u.Grams > 0) {
		return 0, false
	}
	g := n.Low * float64(u.Grams)
	return g, g <= MostGrams
}

// Share reads a part of a whole typed into a field: "35 %" and "35" are per
// cent, "1/3" and "½" are shares. The result lies from 0 to 1.
func Share(text string) (float64, bool) {
	text = strings.TrimSpace(text)
	percent := strings.HasSuffix(text, "%")
	n, rest, ok := measure.ReadNumber(strings.TrimSpace(strings.TrimSuffix(text, "%")))
	if !ok || rest != "" || n.High != 0 && n.High != n.Low {
		return 0, false
	}
	v := n.Low
	if percent || v > 1 || v == 1 && !strings.ContainsAny(text, "/½") {
		v /= 100
	}
	return v, v >= 0 && v <= 1
}
