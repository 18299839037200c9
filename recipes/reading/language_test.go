package reading_test

import (
	"math"
	"strings"
	"testing"

	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// TestWhatIsShownCanBeTyped holds the reader to every language: a weight, a
// field or an amount as the window shows it, typed back, is the same number to
// the places it was shown with.
func TestWhatIsShownCanBeTyped(t *testing.T) {
	t.Cleanup(func() { words.Choose("en") })
	values := []float64{0.04, 0.4, 1, 1.125, 1.5, 2.0 / 3, 2.5, 12.25, 12.5, 99.95, 125, 250.25, 999.5, 1000, 1125, 1250, 1999.5, 12345, 12345.5, 123456.75, 999999}
	for _, l := range words.Languages() {
		words.Use(l)
		for _, v := range values {
			if got, ok := reading.Grams(words.Grams(v)); !ok || math.Abs(got-v) > shownTo(v) {
				t.Errorf("%s: %q is read as %g g, %t", l.Code, words.Grams(v), got, ok)
			}
			for decimals := range 4 {
				text := words.Field(v, decimals)
				if text == "0" {
					continue // what rounds to nothing is not typed back
				}
				if got, ok := reading.Number(text); !ok || math.Abs(got-v) > math.Pow10(-decimals)/2+1e-9 {
					t.Errorf("%s: a field's %q is read as %g, %t", l.Code, text, got, ok)
				}
				if got, ok := reading.Grams(text + " g"); !ok || math.Abs(got-v) > math.Pow10(-decimals)/2+1e-9 {
					t.Errorf("%s: a field's %q g is read as %g, %t", l.Code, text, got, ok)
				}
			}
			for _, unit := range []string{" g", " ml"} {
				text := words.Number(v, 0) + unit
				n, rest, ok := measure.ReadNumber(text)
				if !ok || strings.TrimSpace(rest) != strings.TrimSpace(unit) || math.Abs(n.Value()-v) > 0.5 {
					t.Errorf("%s: %q is read as %g, then %q", l.Code, text, n.Value(), rest)
				}
			}
			n, rest, ok := measure.ReadNumber(words.Fraction(v))
			if v >= 10000 {
				continue // counts of ten thousand are in no kitchen: a comma there needs its unit
			}
			if !ok || rest != "" || math.Abs(n.Value()-v) > 0.021 {
				t.Errorf("%s: %q is read as %g, then %q", l.Code, words.Fraction(v), n.Value(), rest)
			}
		}
	}
}

// shownTo is how far a weight as shown may be from what it is.
func shownTo(g float64) float64 {
	switch {
	case g >= 1000:
		return 5 + 1e-9
	case g >= 20:
		return 0.5 + 1e-9
	}
	return 0.05 + 1e-9
}

// TestSpacesInNumbers: only a space at which no line ends joins figures.
func TestSpacesInNumbers(t *testing.T) {
	rows := []struct {
		name, text string
		want       float64
		rest       string
	}{
		{"two tins", "2 400 g tins", 2, "400 g tins"},
		{"one number", "12\u00a0400 g", 12400, "g"},
		{"narrow space", "1\u202f234\u202f567,5 g", 1234567.5, "g"},
		{"four figures are no group", "12\u00a04000 g", 12, "\u00a04000 g"},
		{"nought begins no thousand", "0\u00a0400 g", 0, "\u00a0400 g"},
	}
	for _, r := range rows {
		n, rest, ok := measure.ReadNumber(r.text)
		if !ok || n.Value() != r.want || rest != r.rest {
			t.Errorf("%s: %g, %q, %t", r.name, n.Value(), rest, ok)
		}
	}
}
