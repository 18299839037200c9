package reading

import (
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"parewell/recipes"
	"parewell/recipes/measure"
)

// tieSort is what an amount in a step belongs to.
type tieSort int

const (
	tieNone  tieSort = iota // it is no amount of food
	tieLost                 // no ingredient is found
	tieTwo                  // two ingredients that now go by different factors
	tieFound                // one
)

// Words about which an amount in a step turns.
var (
	// beforeName stand between an amount and the ingredient's name.
	beforeName = []string{"each", "of", "the", "your", "a", "an", "more", "extra", "further", "other", "remaining", "reserved", "rest"}
	// afterName end the words in which an ingredient's name is looked for.
	afterName = []string{
		"and", "with", "into", "to", "in", "over", "until", "till", "for", "or", "on", "onto", "from", "then", "at", "plus", "but", "while", "if",
		"as", "per", "each", "using", "through", "by", "between", "is", "are", "has", "have", "will", "should",
	}
	// vessels make a weight or volume before them the size of a pan.
	vessels = []string{
		"dish", "pan", "tin", "bowl", "saucepan", "pot", "casserole", "jug", "mould", "mold", "ramekin", "tray", "jar", "basin", "case", "skillet",
		"cooker", "oven", "terrine", "kettle", "stockpot", "bottle", "bag",
	}
	// pieceWords make an amount before them that of one piece.
	pieceWords = []string{"portion", "piece", "ball", "patty", "serving", "helping", "round", "log", "strip", "chunk", "cube", "steak"}
	// forEach make an amount in their clause that of one of several.
	forEach = []string{"each", "every", "per", "apiece", "a head", "a piece", "a person", "at a time"}
)

// nameWords is how many words after an amount can name its ingredient.
const nameWords = 6

// tie finds the ingredient an amount belongs to, and by what it goes.
func (a *stepAmount) tie(lines []StepLine) (by float64, sort tieSort) {
	window, each := nameAfter(pastSecond(a.text[a.to:]))
	if !each && a.ofEach() {
		return 0, tieNone
	}
	found := bestLines(window, lines, a.measured())
	if found == nil && a.measured() {
		found = bestLines(nameBefore(a.text[:a.from]), lines, false)
	}
	switch {
	case found != nil:
		return a.factor(found)
	case a.measured() && !article(a.text[a.from:]) && !sized(window):
		return 0, tieLost
	}
	return 0, tieNone
}

// factor is what the lines go by; those written with the very amount come first
// where they differ.
func (a *stepAmount) factor(found []StepLine) (float64, tieSort) {
	each := func(l *StepLine) float64 {
		if a.writtenIn(l.Line) {
			return l.By
		}
		return l.Part
	}
	if exact := slices.DeleteFunc(slices.Clone(found), func(l StepLine) bool { return !a.writtenIn(l.Line) }); len(exact) > 0 {
		found = exact
	}
	by := each(&found[0])
	for i := range found {
		if math.Abs(each(&found[i])-by) > 1e-9 {
			return 0, tieTwo
		}
	}
	return by, tieFound
}

// writtenIn tells whether a line is written with this very amount.
func (a *stepAmount) writtenIn(l *recipes.Line) bool {
	same := measure.Lookup(l.Unit) == a.unit || a.unit == nil && l.Unit == ""
	return same && l.Amount > 0 && math.Abs(l.Amount-a.num.Low) <= 0.01*l.Amount
}

// ofEach tells that the amount's clause speaks of each of several things.
func (a *stepAmount) ofEach() bool {
	from := strings.LastIndexAny(a.text[:a.from], ".;:,") + 1
	to := len(a.text)
	if i := strings.IndexAny(a.text[a.to:], ".;:,"); i >= 0 {
		to = a.to + i
	}
	return hasAny(fold(a.text[from:to]), forEach...)
}

// sized tells that what follows an amount makes it the size of a vessel or of one
// piece.
func sized(window []string) bool {
	return len(window) > 0 && (slices.Contains(vessels, window[len(window)-1]) || slices.Contains(pieceWords, window[0]))
}

// pastSecond passes over the same amount in another measure: "(2 oz)", "/8 oz".
func pastSecond(s string) string {
	for {
		t := strings.TrimLeft(s, " (/")
		q, rest, ok := readQuantity(t, measure.Metric)
		if !ok || !q.sized() || t == strings.TrimLeft(s, " ") {
			return s
		}
		s = strings.TrimLeft(rest, ")")
	}
}

// nameAfter are the folded singular words after an amount in which its name can
// stand; each tells that "each" comes first: so much of every thing named.
func nameAfter(s string) (out []string, each bool) {
	s = strings.TrimLeft(s, " )")
	for leading := true; len(out) < nameWords; {
		word, rest := firstWord(s)
		if word == "" {
			return out, each
		}
		w := fold(word)
		switch {
		case leading && slices.Contains(beforeName, w):
			each = each || w == "each"
		case startsDigit(w) && w[0] < utf8.RuneSelf, slices.Contains(afterName, w):
			return out, each
		default:
			leading = false
			for _, x := range strings.Split(w, "-") {
				out = append(out, singular(x))
			}
		}
		s = strings.TrimLeft(rest, " ")
		if rest != "" && rest[0] != ' ' {
			return out, each
		}
	}
	return out, each
}

// nameBefore are the last words before an amount that follows the name: "the
// butter (50 g)", "butter, 50 g". None where something else stands between.
func nameBefore(s string) []string {
	t := strings.TrimRight(s, " ")
	if t == "" || !strings.ContainsRune("(,:", lastRune(t)) {
		return nil
	}
	t = strings.TrimRight(t, "(,: ")
	if i := strings.LastIndexAny(t, ".;:,()"); i >= 0 {
		t = t[i+1:]
	}
	all := keyWords(t)
	return all[max(0, len(all)-3):]
}

// bestLines are the ingredients that a few words name best, nil for none. A name
// is found by its last word ("flour" for plain flour), and where any will do by
// the last of the words ("chicken" for chicken thighs).
func bestLines(window []string, lines []StepLine, anyWord bool) []StepLine {
	var best []StepLine
	top := 0
	for _, l := range lines {
		switch n := likeness(window, l.Line, anyWord); {
		case n == 0 || n < top:
		case n > top:
			best, top = []StepLine{l}, n
		default:
			best = append(best, l)
		}
	}
	return best
}

// likeness counts for how well words name an ingredient; 0 for not at all.
func likeness(window []string, l *recipes.Line, anyWord bool) int {
	name := keyWords(l.Name)
	if len(name) == 0 || len(window) == 0 {
		return 0
	}
	common := 0
	for _, w := range name {
		if slices.Contains(window, w) {
			common++
		}
	}
	n := common*10 - (len(name) - common)
	at := slices.Index(window, name[len(name)-1])
	switch {
	case at >= 0 && (anyWord || at < 3):
		return 1000 + n
	case anyWord && slices.Contains(name, window[len(window)-1]):
		return 100 + n
	}
	return 0
}
