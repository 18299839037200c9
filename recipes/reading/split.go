package reading

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/measure"
)

// ReadLines reads one written line that may name several ingredients: "½ tsp
// each cumin and coriander", "salt and pepper", "zest and juice of 2 limes".
// Each becomes a line whose Text can be read again by itself; the Note of
// split lines keeps what was written.
func ReadLines(text string, opt Options) []*recipes.Line {
	parts := splitLine(clean(text), opt)
	out := make([]*recipes.Line, len(parts))
	for i, p := range parts {
		out[i] = ReadLine(p, opt)
		if len(parts) > 1 {
			out[i].Note = clean(text)
		}
	}
	return out
}

// splitLine returns the texts of the ingredients a line names.
func splitLine(text string, opt Options) []string {
	if parts := splitList(text, opt); parts != nil {
		return parts
	}
	if parts := splitZestAndJuice(text); parts != nil {
		return parts
	}
	if parts := splitEach(text, opt); parts != nil {
		return parts
	}
	if parts := splitSeasoning(text); parts != nil {
		return parts
	}
	if parts := splitPlus(text, opt); parts != nil {
		return parts
	}
	if parts := splitServed(text, opt); parts != nil {
		return parts
	}
	return []string{text}
}

// splitList parts several ingredients written in one row: "3 cups cabbage; ¼ cup
// mayonnaise; 1 tsp sugar", or three and more with commas, each with its amount.
func splitList(text string, opt Options) []string {
	if strings.Contains(text, "[") {
		return nil
	}
	for _, by := range []struct {
		mark  string
		least int
	}{{"; ", 2}, {", ", 3}} {
		list, tail := listOf(text, by.mark)
		if len(list) < by.least {
			continue
		}
		if head, rest, ok := strings.Cut(list[0], ": "); ok && startsAmount(rest) && len(wordsOf(head)) <= 3 {
			list[0] = rest
		}
		if slices.ContainsFunc(list, func(s string) bool { return !wholeIngredient(s, opt) }) {
			continue
		}
		for i := range list {
			list[i] += tail
		}
		return list
	}
	return nil
}

// listOf parts a row at a mark and at "and" before a figure; what only says how
// all of it is prepared ("all finely chopped") comes back as tail.
func listOf(text, mark string) (list []string, tail string) {
	for _, part := range strings.Split(text, mark) {
		part = strings.TrimSpace(part)
		rest, _ := cutAny(part, "all", "both", "each")
		if len(list) > 0 && describes(rest) {
			tail += ", " + rest
			continue
		}
		if i := strings.LastIndex(part, " and "); i > 0 && startsDigit(part[i+len(" and "):]) && mark == ", " {
			list = append(list, part[:i])
			part = part[i+len(" and "):]
		}
		part, _ = cutAny(part, "and")
		list = append(list, part)
	}
	return list, tail
}

// wholeIngredient tells an amount with a name of its own.
func wholeIngredient(s string, opt Options) bool {
	s = strings.TrimSpace(s)
	s, _ = cutAny(s, "and")
	if !startsDigit(s) || strings.Count(s, "(") != strings.Count(s, ")") {
		return false
	}
	a, name := readAmount(s, opt.System)
	return a.found && a.cm == 0 && hasLetter(name) && !describes(name) && measure.Lookup(strings.TrimSpace(name)) == nil && !timeIn(fold(name))
}

// splitZestAndJuice parts "zest and juice of 2 limes" into its two foods.
func splitZestAndJuice(text string) []string {
	bare, n := cutNotes(text)
	rest, part := cutPart(bare)
	if part == "" {
		_, fruit := readAmount(bare, 0)
		low := fold(fruit)
		if !hasAny(low, "zest and juice", "juice and zest", "juiced and zested", "zested and juiced", "juice and grated zest", "grated zest and juice", "finely grated zest and juice", "zest & juice") || citrusIn(low) == "" || n.food != "" {
			return nil
		}
		head, _, found := strings.Cut(bare, ",")
		if !found {
			return nil
		}
		rest, part = strings.TrimSpace(head), "zest and juice"
	}
	if !splitsZest(part) || citrusIn(fold(rest)) == "" || len(n.other) > 0 || n.grams > 0 {
		return nil
	}
	return []string{"juice of " + rest, "zest of " + rest}
}

// splitEach parts "1 tsp each cumin, coriander and paprika".
func splitEach(text string, opt Options) []string {
	low := strings.ToLower(text)
	i := wordIndex(low, "each")
	if i < 0 || len(low) != len(text) || strings.Contains(text, "[") {
		return nil
	}
	head := strings.TrimSpace(text[:i])
	a, rest := readAmount(head, opt.System)
	if !a.found {
		return nil
	}
	list := strings.TrimSpace(text[i+len("each"):])
	list = strings.TrimLeft(list, ": ")
	list, _ = cutAny(list, "of", "of the")
	if strings.Trim(rest, " :") != "" { // "salt and pepper, 1 tsp each" is read by its name
		return nil
	}
	names := splitNames(list)
	if len(names) < 2 {
		return nil
	}
	out := make([]string, len(names))
	for j, n := range names {
		out[j] = strings.TrimSpace(strings.TrimRight(head, ": ")) + " " + n
	}
	return out
}

// splitServed parts "lime wedges and jasmine rice, to serve" where the whole is
// no food and both halves are.
func splitServed(text string, opt Options) []string {
	low := strings.ToLower(text)
	if opt.Foods == nil || len(low) != len(text) || strings.Contains(text, "[") || startsAmount(text) {
		return nil
	}
	if parts := servedList(text, low, opt); parts != nil {
		return parts
	}
	i := strings.Index(low, " and ")
	if i <= 0 {
		return nil
	}
	for _, mark := range servedMarks {
		at := wordIndex(low, mark)
		if at < i {
			continue
		}
		left := strings.TrimSpace(text[:i])
		right := strings.TrimRight(text[i+5:at], " ,(")
		whole, _, _ := opt.Foods.Match(left + " and " + right)
		a, _, _ := opt.Foods.Match(left)
		b, _, _ := opt.Foods.Match(right)
		if whole.Food == nil && a.Food != nil && b.Food != nil {
			return []string{left + ", " + mark, right + ", " + mark}
		}
	}
	return nil
}

// servedMarks say that what stands before goes to the table with the dish.
var servedMarks = []string{"to serve", "for serving", "to garnish", "for garnish", "for garnishing", "to finish", "for topping", "to top"}

// servedList parts "shredded cheddar, sour cream and scallions, for serving"
// where every part of the list is a food.
func servedList(text, low string, opt Options) []string {
	if strings.ContainsAny(text, "(:") {
		return nil
	}
	for _, mark := range servedMarks {
		at := wordIndex(low, mark)
		if at <= 0 || strings.Trim(low[at+len(mark):], " .") != "" {
			continue
		}
		names := splitNames(strings.TrimRight(text[:at], " ,"))
		if len(names) < 3 {
			return nil
		}
		out := make([]string, len(names))
		for i, n := range names {
			bare, _ := stripFront(n, "")
			if best, _, _ := opt.Foods.Match(bare); best.Food == nil {
				return nil
			}
			out[i] = n + ", " + mark
		}
		return out
	}
	return nil
}

// splitPlus parts "2 eggs plus 1 yolk" and "1 cup flour, plus 2 tbsp for
// dusting": a further amount of another thing, or of the same for another use.
func splitPlus(text string, opt Options) []string {
	low := strings.ToLower(text)
	if len(low) != len(text) || strings.ContainsAny(text, "[") {
		return nil
	}
	for _, mark := range []string{" plus ", " + ", " and ", " mixed with ", " mixed w/ ", " dissolved in ", " whisked with ", " stirred into "} {
		i := strings.Index(low, mark)
		if i <= 0 || strings.Count(low[:i], "(") != strings.Count(low[:i], ")") {
			continue
		}
		left, right := strings.TrimRight(text[:i], " ,;"), strings.TrimSpace(text[i+len(mark):])
		if mark == " and " && !startsDigit(right) {
			continue
		}
		a, name := readAmount(left, opt.System)
		b, other := readAmount(right, opt.System)
		if a.found && b.found && a.unit == nil && measure.Lookup(strings.TrimSpace(name)) != nil && hasLetter(other) { // "1 stick plus 2 tbsp butter"
			return []string{left + " " + other, right}
		}
		if !a.found || !b.found || !hasLetter(name) || b.little || !startsAmount(left) || describes(name) {
			continue
		}
		if b.unit == nil && b.size == "" && b.grams == 0 && !startsDigit(right) && !strings.HasPrefix(strings.ToLower(right), "one ") {
			continue
		}
		var p phrase
		rest := p.cutPurpose("  " + other)
		if strings.Trim(rest, " ,") == "" || describes(rest) || strings.EqualFold(strings.TrimSpace(rest), "extra") {
			var q phrase
			plain, _ := splitPrep(q.cutPurpose(name))
			written := strings.TrimSpace(strings.TrimSuffix(right, other))
			right = written + " " + plain + ", " + strings.TrimLeft(other, " ,")
		}
		return []string{left, strings.TrimRight(right, " ,")}
	}
	return nil
}

// splitNames parts a list at commas and "and".
func splitNames(list string) []string {
	list = strings.NewReplacer(" and ", ",", " & ", ",", " + ", ",", ";", ",").Replace(list)
	var out []string
	for _, n := range strings.Split(list, ",") {
		n = strings.TrimSpace(n)
		n, _ = cutAny(n, "and")
		if n == "" || describes(n) && len(out) > 0 {
			continue
		}
		out = append(out, n)
	}
	return out
}

// splitSeasoning parts "salt and pepper", with or without an amount.
func splitSeasoning(text string) []string {
	bare := strings.NewReplacer(" & ", " and ", "&", " and ", " + ", " and ").Replace(text)
	if low := fold(bare); low == "salt, pepper" || low == "pepper, salt" {
		bare = strings.Replace(bare, ", ", " and ", 1)
	}
	low := strings.ToLower(bare)
	if len(low) != len(bare) || strings.Contains(text, "[") {
		return nil
	}
	i := strings.Index(low, " and ")
	if i <= 0 {
		return nil
	}
	left, right := strings.TrimSpace(bare[:i]), strings.TrimSpace(bare[i+5:])
	l, r := fold(left), fold(right)
	switch {
	case endsWithWord(l, "salt") && pepperFirst(r):
	case pepperLast(l) && saltFirst(r):
	default:
		return nil
	}
	head, tail := right, ""
	if j := strings.IndexAny(right, ",("); j > 0 {
		head, tail = strings.TrimSpace(right[:j]), strings.TrimSpace(strings.TrimLeft(right[j:], ", "))
	} else if k := wordIndex(r, "to taste"); k > 0 && len(r) == len(right) {
		head, tail = strings.TrimSpace(right[:k]), right[k:]
	}
	out := []string{left, head}
	if a, _ := readAmount(left, 0); a.found && startsAmount(left) {
		if b, _ := readAmount(head, 0); !b.found { // "1 tsp salt and pepper": the amount is the salt's
			out[1] = head + ", to taste"
			return out
		}
	}
	if tail != "" {
		out[0] += ", " + tail
		out[1] += ", " + tail
	}
	return out
}

func endsWithWord(s, w string) bool { return s == w || strings.HasSuffix(s, " "+w) }

// pepperFirst tells that what follows "salt and" is pepper, the spice.
func pepperFirst(s string) bool {
	s = strings.TrimSpace(s)
	list := wordsOf(s)
	for i, w := range list {
		if w == "pepper" || w == "peppercorns" {
			return i <= 5
		}
		if w != "freshly" && w != "fresh" && w != "ground" && w != "black" && w != "white" && w != "cracked" && w != "milled" && w != "coarsely" && w != "a" && w != "pinch" && w != "of" && w != "tsp" && w != "teaspoon" && !startsDigit(w) {
			return false
		}
	}
	return false
}

func pepperLast(s string) bool { return endsWithWord(s, "pepper") && pepperFirst(s) }

func saltFirst(s string) bool {
	for _, w := range wordsOf(s) {
		switch w {
		case "salt":
			return true
		case "sea", "kosher", "fine", "flaky", "table", "coarse":
		default:
			return false
		}
	}
	return false
}
