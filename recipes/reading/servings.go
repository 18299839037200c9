package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/measure"
)

// servingWords come before the number of servings.
var servingWords = []string{
	"serves about", "serves", "servings:", "servings", "serving:", "serving size:", "feeds", "portions:", "portions", "makes enough for", "enough for", "for",
	"number of servings:", "recipe serves", "recipe makes", "recipe yields", "this recipe serves", "this recipe makes", "yields:", "yields", "yield:", "yield", "makes about", "makes:", "makes",
	"quantity:", "makes approximately", "serving", "people:", "per", "para", "cuts into about", "cuts into", "cut into", "donne",
}

// readServings reads "Serves 4-6", "Makes 12 muffins", "4 servings" into the
// draft; false when the line is no such thing.
func (d *Draft) readServings(s string) bool {
	s = strings.Trim(s, " .*|-–_")
	if strings.HasPrefix(s, "(") && strings.HasSuffix(s, ")") {
		s = strings.Trim(s, "() ")
	}
	if len(s) > 80 {
		return false
	}
	rest, lead := "", ""
	for _, w := range servingWords {
		if r, ok := cut(s, w); ok {
			rest, lead = strings.TrimLeft(r, ": ~"), strings.Trim(w, ":")
			break
		}
	}
	if lead == "serving size" {
		return false
	}
	if _, other, ok := strings.Cut(s, " / "); ok && (lead == "" || lead == "para" || lead == "per") && d.readServings(other) { // said in two languages
		return true
	}
	if lead == "" {
		return d.countedServings(s)
	}
	rest, _ = cutAny(rest, "about", "approximately", "approx.", "approx", "up to", "around", "a generous", "at least")
	n, tail, ok := measure.ReadNumber(rest)
	if !ok || n.Low <= 0 {
		return false
	}
	tail = strings.ToLower(strings.Trim(tail, " .,)("))
	if (lead == "for" || lead == "per" || lead == "para") && !servesPeople(tail) {
		return false
	}
	d.takeServings(orOther(n, tail), tail, lead, strings.Trim(rest, " ."))
	return true
}

// countedServings reads "4 servings", "6 portions", "Serves: 4" without a lead.
func (d *Draft) countedServings(s string) bool {
	n, tail, ok := measure.ReadNumber(s)
	if !ok || n.Low <= 0 {
		return false
	}
	tail = strings.ToLower(strings.Trim(tail, " .,"))
	for _, w := range []string{"servings", "serving", "portions", "people", "serves", "persone", "porzioni", "personnes", "personas", "porciones", "personen"} {
		if rest, ok := cut(tail, w); ok && len(rest) < 12 {
			d.takeServings(n, "", "serves", s)
			return true
		}
	}
	return false
}

func servesPeople(tail string) bool {
	return hasAny(tail, "people", "persons", "person", "servings", "portions", "guests", "adults", "persone", "porzioni", "personnes", "personas", "porciones", "personen")
}

// orOther widens a number of servings by another that a choice names: "2 large
// or 4 small", "4 as a main or 6 as a starter". Which divides the dish is asked.
func orOther(n measure.Number, tail string) measure.Number {
	i := wordIndex(tail, "or")
	if i < 0 || n.Range() {
		return n
	}
	other, _, ok := measure.ReadNumber(strings.TrimLeft(tail[i+len("or"):], " "))
	if !ok || other.Range() || other.Low == n.Low {
		return n
	}
	return measure.Number{Low: min(n.Low, other.Low), High: max(n.Low, other.Low)}
}

// takeServings keeps the number: people or servings divide the dish; things
// made ("12 muffins") are kept as written and divide it too.
func (d *Draft) takeServings(n measure.Number, tail, lead, written string) {
	if d.ServingsFrom == recipes.ServingsStated || d.ServingsFrom == recipes.ServingsRange {
		if !strings.HasPrefix(lead, "serv") {
			if d.Makes == "" {
				d.Makes = written
			}
			return
		}
	}
	first, _, _ := strings.Cut(tail, "(")
	counted := tail != "" && !servesPeople(first) && !strings.HasPrefix(tail, "serving") && (strings.HasPrefix(lead, "make") || strings.HasPrefix(lead, "yield") || strings.Contains(lead, "makes") || strings.Contains(lead, "yields") || lead == "quantity")
	if counted {
		d.Makes = written
		if inner, ok := servesInside(tail); ok {
			d.setServings(inner)
			return
		}
		if inner, ok := piecesInside(tail); ok {
			d.setServings(inner)
			return
		}
		if measuredYield(tail) || n.Low < 2 && !n.Range() {
			return // "makes 1 loaf", "yields 3 cups": no number of servings
		}
	}
	d.setServings(n)
}

func (d *Draft) setServings(n measure.Number) {
	d.Servings, d.ServingsHigh, d.ServingsFrom = n.Low, 0, recipes.ServingsStated
	if n.Range() {
		d.ServingsHigh, d.ServingsFrom = n.High, recipes.ServingsRange
	}
}

// servesInside finds "serves 8" in what follows a number of things made.
func servesInside(tail string) (measure.Number, bool) {
	for _, w := range []string{"serves ", "serving ", "servings: ", "for "} {
		if i := strings.Index(tail, w); i >= 0 {
			if n, _, ok := measure.ReadNumber(tail[i+len(w):]); ok && n.Low > 0 {
				return n, true
			}
		}
	}
	return measure.Number{}, false
}

// piecesInside finds "(10 slices)" or ", 12 slices" after a number of things made.
func piecesInside(tail string) (measure.Number, bool) {
	for _, inner := range strings.FieldsFunc(tail, func(r rune) bool { return r == '(' || r == ')' || r == ',' || r == ';' }) {
		inner, _ = cutAny(strings.TrimSpace(inner), "about", "cuts into", "cut into", "makes", "or")
		n, rest, ok := measure.ReadNumber(inner)
		if ok && n.Low >= 2 && hasAny(rest, "slices", "servings", "portions", "pieces", "squares", "bars", "wedges", "people") {
			return n, true
		}
	}
	return measure.Number{}, false
}

// measuredYield tells a yield in cups, litres or grams, or of one thing.
func measuredYield(tail string) bool {
	u, _, ok := readUnit(tail)
	return ok && u.Kind <= measure.Volume
}
