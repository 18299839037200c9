package book

import (
	"regexp"
	"strings"

	"parewell/recipes/words"
)

// noBreak is a space at which no line ends.
const noBreak = "\u00a0"

var (
	// figureForm is a number with the unit or sign that belongs to it.
	figureForm = regexp.MustCompile(`([0-9½¼¾⅓⅔⅛⅜⅝⅞]) (%|°[CF]|kcal|kJ|[kmµ]?g|[mcd]?l|[mc]m|oz|lb|tsp|tbsp|cups?|litres?|inch(?:es)?|minutes?|hours?|days?|heures?|jours?|pots?|cuissons?|tasters|personnes|points?|portions?)(\W|$)`)
	// fallForm is a number below zero: a dash that belongs to what follows.
	fallForm = regexp.MustCompile(`(^|[\s(])–([0-9])`)
)

// kept has no line end between a number and its unit, or behind the sign of a
// number. That sign is a real minus here: a line may end behind a dash and not
// behind a minus (Unicode Standard Annex 14, classes BA and PR), and the fonts of
// documents have it.
func kept(s string) string { return unbroken(fallForm.ReplaceAllString(s, "$1\u2212$2")) }

// unbroken has no line end between a number and its unit.
func unbroken(s string) string { return figureForm.ReplaceAllString(s, "$1"+noBreak+"$2$3") }

// oneLine has single spaces for line ends and runs of spaces; spaces that hold
// together stay.
func oneLine(s string) string {
	return strings.Join(words.Breakable(s), " ")
}
