package reading

import (
	"strings"

	"parewell/recipes/measure"
)

// amount is everything a line says about how much.
type amount struct {
	found   bool
	num     measure.Number // how many of unit, size or pack
	unit    *measure.Unit  // nil for a bare count
	size    string         // "large", "medium" ...
	each    bool           // "½ tsp each cumin and coriander"
	grams   float64        // a stated weight of all of it; 0 none
	ml      float64        // a stated volume of all of it; 0 none
	cm      float64        // a stated length; 0 none
	note    string         // how grams or ml came about
	drained bool           // the stated weight is the drained one
	little  bool           // "a little oil"
	per     float64        // grams of one stated inside a count ("2 x 400 g"); 0 none
}

// leadWords before an amount change nothing.
var leadWords = []string{
	"about", "approximately", "approx.", "approx", "around", "roughly", "up to", "at least", "scant", "generous", "good", "heaped",
	"heaping", "level", "rounded", "circa", "ca.", "c.", "just over", "just under", "a good", "a generous", "a scant", "a heaped",
	"a heaping", "a rounded", "a level", "an additional", "additional", "another", "the", "your", "optional:", "plus", "+", "~", "≈",
	"more than", "nearly", "almost", "use", "you'll need", "packed", "lightly packed", "firmly packed", "loosely packed",
}

// sizeWords say how big a counted thing is; longer ones first.
var sizeWords = []struct{ text, size string }{
	{"extra-large", "extra large"},
	{"extra large", "extra large"},
	{"xl", "extra large"},
	{"very large", "extra large"},
	{"jumbo", "jumbo"},
	{"medium-sized", "medium"},
	{"medium-size", "medium"},
	{"medium to large", "large"},
	{"medium/large", "large"},
	{"small to medium", "medium"},
	{"small/medium", "medium"},
	{"medium", "medium"},
	{"med.", "medium"},
	{"med", "medium"},
	{"average", "medium"},
	{"large-sized", "large"},
	{"large", "large"},
	{"lg.", "large"},
	{"lg", "large"},
	{"big", "large"},
	{"very small", "small"},
	{"small-sized", "small"},
	{"small", "small"},
	{"sm.", "small"},
	{"mini", "small"},
	{"thick", ""},
	{"thin", ""},
	{"thickly cut", ""},
}

// plainWords stand between a number and its unit and change nothing.
var plainWords = []string{
	"heaped", "heaping", "rounded", "level", "scant", "generous", "good", "whole", "full", "fat", "plump", "packed", "lightly packed",
	"firmly packed", "loosely packed", "additional", "more", "of", "standard", "standard-size", "ready-to-use", "fresh", "nice", "decent",
	"thumb-sized", "thumb-size", "thumb sized", "walnut-sized", "walnut-size", "finger-length", "flat", "good-sized", "good-size", "extra", "healthy", "fluid",
}

// readAmount reads the amount at the start of s and returns the rest.
func readAmount(s string, sys measure.System) (amount, string) {
	s = dropLead(s)
	if a, rest, ok := bareAmount(s); ok {
		return a, rest
	}
	if a, rest, ok := dashedPack(s, sys); ok {
		return a, rest
	}
	if q, rest, ok := readQuantity(s, sys); ok {
		return finishQuantity(q, rest, sys)
	}
	num, rest, ok := measure.ReadNumber(s)
	if !ok || notAnAmount(rest) || powerOfTen(rest) {
		return amount{}, s
	}
	a := amount{found: true, num: num}
	if after, w := cutAny(rest, "a", "an"); w != "" && num.Low < 1 { // "½ a 400 g tin"
		rest = after
	}
	rest = a.afterNumber(rest, sys)
	return a, dropOf(rest)
}

// notAnAmount tells that a number belongs to what follows: "7-spice", "2%
// milk", "80/20 beef", "0% yogurt", "5-a-day".
func notAnAmount(rest string) bool {
	return strings.HasPrefix(rest, "%") || strings.HasPrefix(rest, "/") || strings.HasPrefix(rest, "-") && !strings.HasPrefix(rest, "- ") || strings.HasPrefix(rest, "°")
}

// powerOfTen tells that a number goes on in a way no cook writes: "1e308 g".
func powerOfTen(rest string) bool {
	if rest == "" || rest[0] != 'e' && rest[0] != 'E' {
		return false
	}
	return startsDigit(strings.TrimLeft(rest[1:], "+-"))
}

func dropLead(s string) string {
	for {
		rest, w := cutAny(s, leadWords...)
		if w == "" || rest == "" {
			return s
		}
		if w == "good" && strings.HasPrefix(rest, "-") {
			return s
		}
		s = rest
	}
}

func dropOf(s string) string {
	s = strings.TrimLeft(s, " ")
	if rest, ok := cut(s, "of"); ok {
		s = rest
		if rest, w := cutAny(s, "the", "a", "an", "your"); w != "" {
			s = rest
		}
	}
	return strings.TrimLeft(s, ": ")
}

// bareAmount reads amounts without a number: "pinch of salt", "a little oil",
// "large handful parsley", "bunch of thyme".
func bareAmount(s string) (amount, string, bool) {
	if rest, w := cutAny(s, "a very little", "very little", "a little bit of", "a little", "a bit of", "a touch of", "little"); w != "" {
		return amount{found: true, num: measure.Number{Low: 1}, little: true}, dropOf(rest), true
	}
	t, size := s, ""
	if rest, w := cutAny(t, "a", "an"); w != "" {
		t = rest
	}
	t = skipPlain(t, &size)
	u, rest, ok := readUnit(t)
	if !ok || u.Kind == measure.Mass || u.Kind == measure.Volume || u.Kind == measure.Length {
		return amount{}, s, false
	}
	_, of := cut(strings.TrimLeft(rest, " "), "of")
	if u.Kind != measure.Little && !of && t == s {
		return amount{}, s, false
	}
	if !namesMore(rest) || !of && strings.HasPrefix(strings.TrimLeft(rest, " "), ",") {
		return amount{}, s, false
	}
	if _, w := cutAny(strings.TrimLeft(rest, " "), "with", "over", "the", "on", "in", "into"); w != "" { // "Drizzle over the oil": a step
		return amount{}, s, false
	}
	return amount{found: true, num: measure.Number{Low: 1}, unit: u, size: size}, dropOf(rest), true
}

// skipPlain passes over size words and plain words that a unit follows.
func skipPlain(s string, size *string) string {
	t := s
	for range 3 {
		before := t
		if rest, w := cutAny(t, plainWords...); w != "" && rest != "" {
			t = rest
		}
		for _, z := range sizeWords {
			if rest, ok := cut(t, z.text); ok && rest != "" {
				t = rest
				if z.size != "" {
					*size = z.size
				}
				break
			}
		}
		if t == before {
			break
		}
	}
	return t
}

// dashedPack reads "1 - 14 oz can" and "2- 15oz tins", which are no ranges.
func dashedPack(s string, sys measure.System) (amount, string, bool) {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	if n == 0 || n > 2 {
		return amount{}, s, false
	}
	num, _, _ := measure.ReadNumber(s[:n])
	after := strings.TrimLeft(s[n:], " ")
	tail, ok := strings.CutPrefix(after, "-")
	if !ok {
		return amount{}, s, false
	}
	q, rest, ok := readQuantity(tail, sys)
	if !ok || !q.sized() || q.num.Low < 3 {
		return amount{}, s, false
	}
	u, rest, ok := readUnit(rest)
	if !ok || u.Kind != measure.Pack {
		return amount{}, s, false
	}
	a := amount{found: true, num: num, unit: u}
	a.times(q)
	return a, dropOf(rest), true
}

// times records that the count holds quantity q each.
func (a *amount) times(q quantity) {
	n := a.num.Value()
	a.grams, a.ml, a.cm = n*q.grams, n*q.ml, n*q.cm
	a.per = q.grams
	a.note = q.text
	if a.num.Low != 1 || a.num.Range() {
		a.note = figure(n) + " x " + q.text
	}
}

// afterNumber reads what follows a bare number: packs, sizes, a unit.
func (a *amount) afterNumber(s string, sys measure.System) string {
	s = strings.TrimLeft(s, " ")
	if after, w := cutAny(s, "x", "×"); w != "" && !startsDigit(after) { // "1 x pack of"
		s = after
	}
	for range 4 {
		if rest, ok := a.packSize(s, sys); ok {
			s = rest
			continue
		}
		if u, rest, ok := readUnit(s); ok && u.Kind >= measure.Pack && namesMore(rest) {
			a.unit = u
			return a.afterUnit(rest, sys)
		}
		t := skipPlain(s, &a.size)
		if t == s {
			break
		}
		if u, rest, ok := readUnit(t); ok && u.Kind != measure.Length && namesMore(rest) {
			if u.Kind <= measure.Volume { // "2 heaped tbsp", "4 level cups"
				a.unit = u
				q := quantity{num: a.num, unit: u}
				q.set(sys)
				b, tail := finishQuantity(q, rest, sys)
				b.size = ""
				*a = b
				return tail
			}
			a.unit = u
			return a.afterUnit(rest, sys)
		}
		if _, ok := a.packSizeAhead(t, sys); !ok {
			if a.size != "" {
				s = dropSize(s, a)
			}
			break
		}
		s = t
	}
	return a.eachAhead(s)
}

// namesMore tells that something is left to name after a unit word; "6 whole
// cloves" and "2 fillets, skinned" name the thing itself.
func namesMore(rest string) bool {
	rest = strings.TrimLeft(rest, " .")
	return hasLetter(rest) && !strings.HasPrefix(rest, ",")
}

// dropSize passes over the size words only: "2 large fresh figs" keeps fresh.
func dropSize(s string, a *amount) string {
	for _, z := range sizeWords {
		if rest, ok := cut(s, z.text); ok && z.size == a.size {
			return rest
		}
	}
	return s
}

func (a *amount) packSizeAhead(s string, sys measure.System) (string, bool) {
	b := *a
	return b.packSize(s, sys)
}

// packSize reads the size of one: "x 400 g", "(14-oz)", "14-ounce".
func (a *amount) packSize(s string, sys measure.System) (string, bool) {
	t := s
	for _, x := range []string{"x ", "X ", "× ", "* ", "x", "X", "×", "*", "@ "} {
		if rest, ok := strings.CutPrefix(t, x); ok && (x != "x" && x != "X" || startsDigit(rest)) {
			t = strings.TrimLeft(rest, " ")
			break
		}
	}
	if inner, rest, ok := leadingParen(t); ok {
		q, tail, ok := readQuantity(dropLead(inner), sys)
		if !ok || !sizeTail(tail) || q.unit.Kind == measure.Length && q.num.Low > 30 {
			return s, false
		}
		a.times(q)
		return strings.TrimLeft(rest, " "), true
	}
	if !startsDigit(t) && t == s {
		return s, false
	}
	q, rest, ok := readQuantity(t, sys)
	if !ok {
		return s, false
	}
	a.times(q)
	return rest, true
}

// sizeTail tells whether what follows a quantity inside brackets leaves it a
// size: nothing, "each", "size", another measure.
func sizeTail(tail string) bool {
	tail = strings.ToLower(strings.Trim(tail, " .,;/"))
	if tail == "" || startsDigit(tail) {
		return true
	}
	for _, w := range []string{"each", "size", "or", "total", "drained", "net", "-", "approx", "weight", "per", "packet", "pack", "package", "can", "tin", "jar", "bag", "box"} {
		if _, ok := cut(tail, w); ok {
			return true
		}
	}
	return false
}

// leadingParen cuts a bracket at the start of s.
func leadingParen(s string) (inner, rest string, ok bool) {
	if !strings.HasPrefix(s, "(") {
		return "", s, false
	}
	shut := strings.IndexByte(s, ')')
	if shut < 0 {
		return "", s, false
	}
	return strings.TrimSpace(s[1:shut]), s[shut+1:], true
}

// afterUnit reads a size in brackets after a pack or piece word.
func (a *amount) afterUnit(s string, sys measure.System) string {
	s = strings.TrimLeft(s, " ")
	if inner, rest, ok := leadingParen(s); ok && a.grams == 0 && a.ml == 0 {
		if a.inBrackets(inner, sys) {
			s = strings.TrimLeft(rest, " ")
		}
	}
	if rest, w := cutAny(s, "x", "×", "@"); w != "" && startsDigit(rest) {
		if q, tail, ok := readQuantity(rest, sys); ok {
			a.times(q)
			s = tail
		}
	}
	return a.eachAhead(s)
}

// eachAhead passes over "each" before the name.
func (a *amount) eachAhead(s string) string {
	t := strings.TrimLeft(s, " ")
	if rest, ok := cut(t, "each"); ok && rest != "" && !strings.HasPrefix(rest, ")") && !strings.HasPrefix(rest, ",") {
		a.each = true
		return strings.TrimLeft(rest, ": ")
	}
	return s
}
