package reading

import (
	"strings"

	"parewell/recipes/measure"
)

// startsAmount tells whether cleaned text begins with an amount.
func startsAmount(s string) bool {
	s = stripLabels(s)
	if rest, part := cutPart(s); part != "" {
		s = rest
	}
	a, rest := readAmount(s, measure.US)
	return a.found && strings.TrimSpace(rest) != ""
}

// looksIngredient tells whether a row reads like an ingredient: an amount
// first, or a short phrase that ends in one or in "to taste".
func looksIngredient(raw string) bool {
	s := clean(raw)
	if s == "" || len(s) > 180 || looksServing(s) || isFurniture(s) != "" {
		return false
	}
	if rest, ok := numbered(s); ok && !startsAmount(rest) {
		return false
	}
	if w, rest := firstWord(s); cookingVerbs[fold(w)] && (strings.HasSuffix(s, ".") || strings.HasPrefix(strings.TrimLeft(rest, " "), "with ")) && !startsDigit(s) { // "Sprinkle with salt."
		return false
	}
	if startsAmount(s) {
		return !isSentence(s)
	}
	if _, rest, ok := strings.Cut(s, ": "); ok && strings.Contains(rest, ";") && startsAmount(rest) { // "Slaw: 3 cups cabbage; 1 tsp sugar"
		return true
	}
	if t := turned(s, measure.US); t != s && !isSentence(s) {
		return true
	}
	low := fold(s)
	if hasAny(low, "to taste", "for greasing", "for frying", "for dusting", "to serve", "to garnish", "for deep-frying") {
		return len(strings.Fields(s)) <= 12 && !isSentence(s)
	}
	if len(strings.Fields(s)) <= 6 && !strings.HasSuffix(s, ".") && !timeIn(low) {
		a, _, ok := trailingAmount(s, measure.US)
		return ok && (a.grams > 0 || a.ml > 0 || a.unit != nil)
	}
	return false
}

func looksServing(s string) bool {
	d := &Draft{}
	return d.readServings(s)
}

// cookingVerbs begin method steps.
var cookingVerbs = set(`preheat heat put place mix combine stir whisk beat add pour bake cook boil simmer fry saute roast grill melt bring
chop slice dice peel cut grate season sprinkle serve remove transfer cover drain rinse knead roll spread fold cream sift line grease
make prepare mash blend blitz toss turn reduce let leave allow set return spoon arrange brush coat marinate chill refrigerate divide
strain soak scrape layer scatter garnish drizzle meanwhile in while when once using to with start begin wash trim warm toast brown
carefully gently now next then finally lightly dissolve crack separate bash rub press shape form cool crumble squeeze tip lift fill
check repeat continue working position adjust take finish assemble top ladle tear flip increase lower pulse process snip steam poach stuff wrap deglaze score pat dredge dip shake whizz whiz puree taste pack scramble brown rest saute refresh assemble soften thicken crack ladle bung pop chuck spray`)

// looksStep tells whether a row reads like a method step.
func looksStep(raw string) bool {
	s, num := numbered(raw)
	s = clean(s)
	if stepLabel(clean(raw)) {
		return true
	}
	w, _ := firstWord(s)
	verb := cookingVerbs[fold(w)]
	if num && !startsAmount(s) {
		return true
	}
	if strings.HasSuffix(s, ".") && !startsDigit(s) && len(strings.Fields(s)) >= 5 && hasAny(fold(s), stepWords...) {
		return true
	}
	long := len(strings.Fields(s)) >= 6
	return verb && (long || strings.HasSuffix(s, ".")) && !startsAmount(s) || isSentence(s) && len(s) > 60 && !startsAmount(s) || isSentence(s) && len(s) > 140
}

// stepWords hardly stand in an ingredient that ends in a full stop.
var stepWords = []string{"everything", "until", "together", "well", "hour", "hours", "hrs", "oven", "bowl", "jar", "pot", "it", "them", "all", "overnight"}

// isSentence tells prose from a list entry: a full stop at the end or inside,
// and a verb or enough words.
func isSentence(s string) bool {
	n := len(strings.Fields(s))
	if n < 5 {
		return false
	}
	if strings.HasSuffix(s, ".") && n >= 9 {
		return true
	}
	return n >= 8 && (strings.Contains(s, ". ") && !abbreviates(s)) && hasAny(fold(s), "the", "until", "then", "and", "you", "it", "is")
}

// abbreviates tells that the full stops inside only shorten words ("oz.").
func abbreviates(s string) bool {
	for i := strings.Index(s, ". "); i >= 0; {
		word := lastOf(s[:i])
		word = strings.TrimLeft(word, "(0123456789-/")
		if measure.Lookup(word) == nil && len(word) > 3 {
			return false
		}
		next := strings.Index(s[i+2:], ". ")
		if next < 0 {
			break
		}
		i += 2 + next
	}
	return true
}
