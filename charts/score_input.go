package charts

import (
	"errors"
	"math"
	"strings"

	"parewell/analysis/ledger"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// hugest is the largest size of a number a figure takes: no serving holds ten
// million of anything, and more digits would not fit beside a mark.
const hugest = 1e7

// mostItems is how many swaps, dates or nutrients a figure takes; more could
// not be told apart in any size.
const mostItems = 60

// fault is what keeps a figure from being drawn, in a person's words.
func fault(title, key string, args ...any) error {
	return problem.Wrap(errors.New("charts: "+key), oneLine(title), words.Say(key, args...), words.Say(key+".hint"))
}

// checkSizes refuses numbers too large to write; NaN stands for not known and
// is taken.
func checkSizes(title, name string, vs ...float64) error {
	for _, v := range vs {
		if math.Abs(v) > hugest {
			return fault(title, "charts.value.huge", oneLine(name))
		}
	}
	return nil
}

// checkInterval refuses an interval whose ends are the wrong way round or that
// leaves out its own middle. What is not known is taken.
func checkInterval(title, name string, low, mid, high float64) error {
	if err := checkSizes(title, name, low, mid, high); err != nil {
		return err
	}
	const slack = 1e-9 // of rounding
	if low > high+slack || low > mid+slack || mid > high+slack {
		return fault(title, "charts.interval", oneLine(name))
	}
	return nil
}

// checkCount refuses less than one and more than most items.
func checkCount(title, none, many string, n, most int) error {
	switch {
	case n == 0:
		return fault(title, none)
	case n > most:
		return fault(title, many, n, most)
	}
	return nil
}

// sum adds up counts.
func sum(counts []int) int {
	n := 0
	for _, c := range counts {
		n += c
	}
	return n
}

// mostPeople is how many answers a figure counts.
const mostPeople = 100000

// checkCounts refuses counts of people that cannot be.
func checkCounts(title, name string, counts ...int) error {
	for _, c := range counts {
		if c < 0 || c > mostPeople {
			return fault(title, "charts.count", oneLine(name))
		}
	}
	return nil
}

// amountOf says an amount with its unit; NaN is said to be not known.
func amountOf(v float64, unit string) string {
	if !finite(v) {
		return words.Say("charts.not_known")
	}
	return withUnitOf(words.Number(v, words.Decimals(unit)), unit)
}

// changeOf says a signed amount with its unit.
func changeOf(v float64, unit string) string {
	if !finite(v) {
		return words.Say("charts.not_known")
	}
	return withUnitOf(words.Signed(v, words.Decimals(unit)), unit)
}

func withUnitOf(number, unit string) string {
	if unit == "" {
		return number
	}
	return words.Say("charts.amount", number, unit)
}

// scoreText says a score with its interval where it has one.
func scoreText(mid, low, high float64) string {
	if !finite(mid) {
		return words.Say("charts.not_known")
	}
	if !finite(low) || !finite(high) {
		return words.Number(mid, 1)
	}
	return words.Say("charts.scores.interval", words.Number(mid, 1), words.Number(low, 1), words.Number(high, 1))
}

// EffectPlaces are the decimals an effect on a score is written with, in tables
// and figures alike.
func EffectPlaces(low, high, limit float64) int {
	return ledger.Places(ledger.Interval{Low: low, High: high}, limit)
}

// effectText says an effect on a score, to so many decimals, with its interval where
// it has one.
func effectText(mid, low, high float64, d int) string {
	if !finite(mid) {
		return words.Say("charts.not_known")
	}
	if !finite(low) || !finite(high) {
		return words.Signed(mid, d)
	}
	return words.Say("charts.scores.interval", words.Signed(mid, d), words.Signed(low, d), words.Signed(high, d))
}

// shareText says a count as whole per cent of n.
func shareText(count, n int) string {
	if n == 0 {
		return words.Unknown
	}
	return words.Number(100*float64(count)/float64(n), 0) + " %"
}

// Semicolons sets texts in a row with the language's semicolon between them; ""
// for none.
func Semicolons(texts []string) string {
	if len(texts) == 0 {
		return ""
	}
	out := texts[0]
	for _, text := range texts[1:] {
		out = words.Say("charts.alt.two", out, text)
	}
	return out
}

// ofScore is a title that says which score the figure goes by, where it does not
// name it already: a figure of one score is taken for that of another otherwise.
func ofScore(title, attribute string) string {
	title, attribute = oneLine(title), oneLine(attribute)
	if title == "" || attribute == "" {
		return title
	}
	for _, word := range strings.Fields(strings.ToLower(attribute)) {
		if len(word) > 3 && strings.Contains(strings.ToLower(title), word) {
			return title
		}
	}
	return words.Say("charts.titled", title, attribute)
}

// titled puts the title before the sentences of a text alternative.
func titled(title string, sentences ...string) []string {
	if title == "" {
		return sentences
	}
	return append([]string{words.Say("charts.alt.title", title)}, sentences...)
}
