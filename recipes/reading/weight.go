package reading

import (
	"strconv"
	"strings"

	"parewell/recipes/measure"
)

// finishQuantity turns a leading quantity into an amount: second measures,
// packs ("400 g tin"), what stands in brackets.
func finishQuantity(q quantity, rest string, sys measure.System) (amount, string) {
	a := amount{found: true, num: q.num, unit: q.unit, grams: q.grams, ml: q.ml, cm: q.cm}
	rest = a.secondMeasure(rest, sys)
	t := rest
	for _, size := range []string{"large ", "small ", "medium ", "whole "} {
		t = strings.TrimPrefix(t, size)
	}
	if u, after, ok := readUnit(t); ok && q.unit.Kind != measure.Length && (u.Kind == measure.Pack || packedPiece(u, q)) {
		a.num, a.unit, a.per, a.note = measure.Number{Low: 1}, u, q.grams, q.text
		rest = after
	} else if ok && q.unit.Kind == measure.Length && (u.Kind == measure.Piece || u.Word == "knob") {
		a.num, a.unit = measure.Number{Low: 1}, u
		rest = after
	}
	rest = strings.TrimLeft(rest, " ")
	if inner, after, ok := leadingParen(rest); ok && a.inBrackets(inner, sys) {
		rest = strings.TrimLeft(after, " ")
	}
	return a, dropOf(a.eachAhead(rest))
}

// packedPiece tells that a weight before a piece word is that piece's:
// "250 g ball mozzarella", "320 g sheet puff pastry", "25g bunch coriander".
func packedPiece(u *measure.Unit, q quantity) bool {
	if q.unit.Kind != measure.Mass {
		return false
	}
	switch u.Word {
	case "ball", "sheet", "loaf", "bunch", "piece", "round", "head", "rack", "slice", "link", "square", "fillet", "cube":
		return true
	}
	return false
}

// secondMeasure reads "/4oz", "| 12 fl oz", "or 240 ml" after a first measure:
// a weight wins over a volume, the first weight over the second.
func (a *amount) secondMeasure(s string, sys measure.System) string {
	for range 3 {
		t, joint := cutAny(strings.TrimLeft(s, " "), "/", "|", "or", "=", ";", "–", "-", ",")
		q, rest, ok := readQuantity(dropLead(t), sys)
		if !ok || !q.sized() || joint == "" && !startsDigit(t) {
			return s
		}
		if joint == "," && (q.grams == 0 || a.grams > 0) {
			return s
		}
		a.weighIn(q)
		s = rest
	}
	return s
}

// weighIn takes a further measure of the same thing.
func (a *amount) weighIn(q quantity) {
	if q.grams > 0 && a.grams == 0 && !fluidOunces(quantity{ml: a.ml}, q) {
		a.grams, a.note = q.grams, q.text
	}
	if q.ml > 0 && (a.ml == 0 || metric(q.unit) && a.unit != nil && !metric(a.unit)) {
		a.ml = q.ml
		if a.grams == 0 {
			a.note = q.text
		}
	}
}

// inBrackets reads what a bracket says about weight or volume; false when it
// says nothing of the kind. Packs hold their bracket each, other things share
// it unless it says "each".
func (a *amount) inBrackets(inner string, sys measure.System) bool {
	text := dropLead(strings.TrimSpace(inner))
	text, _ = cutAny(text, "total weight", "total", "net weight", "drained weight", "weighing", "weight", "from", "each", "1 x", "1x", "of")
	text = strings.TrimLeft(dropLead(text), ": ")
	q, tail, ok := readQuantity(text, sys)
	if !ok {
		return a.weightBeside(inner, sys)
	}
	if q.unit.Kind == measure.Length {
		return a.lengthInBrackets(q)
	}
	low := strings.ToLower(inner)
	if !measureTail(strings.ToLower(strings.Trim(tail, " .,;"))) {
		return false
	}
	if second, _, ok := readQuantity(strings.TrimLeft(tail, " /|,;or-"), sys); ok && second.grams > 0 && q.grams == 0 && !fluidOunces(q, second) {
		q = second
	}
	if d, ok := drainedIn(low, sys); ok {
		q = d
		a.drained = true
	}
	a.takeBracket(q, low)
	return true
}

// fluidOunces tells that "oz" beside a volume means fluid ounces: 60 ml/2 oz.
func fluidOunces(volume, weight quantity) bool {
	if weight.unit.Word != "oz" || volume.ml <= 0 {
		return false
	}
	per := volume.ml / weight.num.Value()
	return per > 24 && per < 31
}

// weightBeside finds a weight after a measure that is none: "(1 stick/115 g)".
func (a *amount) weightBeside(inner string, sys measure.System) bool {
	parts := strings.FieldsFunc(inner, func(r rune) bool { return r == '/' || r == '|' || r == ',' || r == ';' || r == '=' })
	for _, p := range parts[min(1, len(parts)):] {
		q, tail, ok := readQuantity(dropLead(strings.TrimSpace(p)), sys)
		if ok && q.grams > 0 && strings.Trim(tail, " .") == "" && startsDigit(strings.TrimSpace(inner)) {
			a.takeBracket(q, strings.ToLower(inner))
			return true
		}
	}
	return false
}

func (a *amount) lengthInBrackets(q quantity) bool {
	if a.unit == nil || a.unit.Kind != measure.Piece || q.num.Low > 30 {
		return false
	}
	a.cm = q.cm * a.num.Value()
	return true
}

// takeBracket sets the weight or volume of the whole amount from a bracket.
func (a *amount) takeBracket(q quantity, low string) {
	each := hasAny(low, "each", "apiece", "per") || a.unit != nil && a.unit.Kind == measure.Pack && !hasAny(low, "total", "in all", "altogether")
	if a.grams > 0 && !a.drained { // the first weight stands
		return
	}
	if n := a.num.Value(); each && a.sizeless() {
		a.times(q)
		return
	} else if each && n > 0 {
		a.times(q)
		return
	}
	if q.grams > 0 {
		a.grams, a.note = q.grams, q.text
	} else if q.ml > 0 && a.grams == 0 && (a.ml == 0 || metric(q.unit)) {
		a.ml, a.note = q.ml, q.text
	}
}

// metric tells litres from cups and pints: the surer of two volumes.
func metric(u *measure.Unit) bool {
	switch u.Word {
	case "ml", "cl", "dl", "l":
		return true
	}
	return false
}

// looseWeight finds a weight that stands in a counted line without brackets:
// "1 whole chicken, about 3 1/2 lb", "4 steaks, 150 g each". It returns the
// line without it.
func (a *amount) looseWeight(s string, sys measure.System) string {
	if !a.found || a.grams > 0 || a.ml > 0 || !a.sizeless() {
		return s
	}
	for i := 1; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' || s[i-1] != ' ' && s[i-1] != ',' {
			continue
		}
		q, rest, ok := readQuantity(s[i:], sys)
		if !ok || q.grams == 0 && (q.ml == 0 || a.unit == nil) {
			continue
		}
		head := strings.TrimRight(s[:i], " ,-–")
		for _, w := range []string{"about", "approximately", "approx.", "approx", "around", "roughly", "weighing", "of", "at", "total", "each", "total weight", "(or)", "~", "weighing about"} {
			if cutHead, ok := cutEnd(head, w); ok {
				head = cutHead
			}
		}
		low := strings.ToLower(rest)
		a.takeBracket(q, low)
		rest, _ = cutAny(rest, "each", "apiece", "in total", "total weight", "total", "per piece")
		return joinRest(strings.TrimRight(head, " ,"), rest)
	}
	return s
}

// cutEnd removes a word from the end of s.
func cutEnd(s, word string) (string, bool) {
	if len(s) <= len(word) || !strings.EqualFold(s[len(s)-len(word):], word) || isWordByte(s[len(s)-len(word)-1]) {
		return s, false
	}
	return strings.TrimRight(s[:len(s)-len(word)], " ,-–"), true
}

// sizeless tells that the amount counts things, so that "each" makes sense.
func (a *amount) sizeless() bool { return a.unit == nil || a.unit.Kind >= measure.Pack }

// measureTail tells whether what follows a quantity in a bracket keeps it one.
func measureTail(tail string) bool {
	if tail == "" || startsDigit(tail) {
		return true
	}
	for _, w := range []string{
		"each", "total", "in total", "drained", "net", "or", "/", "-", "approx", "weight", "per", "packet", "pack", "package", "can", "tin",
		"jar", "bag", "box", "tub", "carton", "apiece", "altogether", "in all", "plus", "and", "after", "before", "when", "peeled", "prepared", "trimmed", "raw", "uncooked",
		"dry", "dried", "cooked", "|", "cans", "tins", "jars", "packs", "packets", "ready", "prepped", "shelled", "unshelled", "stick", "sticks", "block", "bottle", "piece", "pieces", "bunch", "of", "grated", "chopped", "sliced", "whole", "with", "without", "ish", "+",
	} {
		if _, ok := cut(tail, w); ok {
			return true
		}
	}
	return false
}

// drainedIn finds "240 g drained" or "drained weight 240 g" in a bracket.
func drainedIn(low string, sys measure.System) (quantity, bool) {
	if !hasWord(low, "drained") {
		return quantity{}, false
	}
	for i := 0; i < len(low); i++ {
		if low[i] < '0' || low[i] > '9' || i > 0 && (low[i-1] >= '0' && low[i-1] <= '9' || low[i-1] == '.') {
			continue
		}
		q, rest, ok := readQuantity(low[i:], sys)
		if !ok || q.grams == 0 {
			continue
		}
		after := strings.TrimLeft(rest, " ")
		if strings.HasPrefix(after, "drained") || strings.HasPrefix(after, "when drained") || strings.HasPrefix(after, "net drained") || strings.Contains(low[:i], "drained") {
			return q, true
		}
	}
	return quantity{}, false
}

// trailingAmount finds an amount after a name: "Butter 60g", "Flour: 250 g",
// "Eggs x 2". It returns the name part and the rest after the amount.
func trailingAmount(s string, sys measure.System) (amount, string, bool) {
	for i := 1; i < len(s); i++ {
		if !startsDigit(s[i:]) || isWordByte(s[i-1]) || s[i-1] == '/' || s[i-1] == '.' || s[i-1] == ',' || s[i-1] == '(' && i < 2 {
			continue
		}
		head := strings.TrimRight(s[:i], " :-–(,x×~.")
		if len(head) < 2 || !hasLetter(head) {
			continue
		}
		if s[i] >= 0x80 && !isVulgar(s[i:]) {
			continue
		}
		if a, rest, ok := amountAt(s[i:], sys); ok {
			return a, joinRest(head, rest), true
		}
	}
	return amount{}, s, false
}

// amountAt accepts an amount in the middle of a line when it has a unit, or is
// a number that ends the line.
func amountAt(s string, sys measure.System) (amount, string, bool) {
	a, rest := readAmount(s, sys)
	if !a.found || a.cm > 0 {
		return a, s, false
	}
	bare := a.unit == nil && a.grams == 0 && a.ml == 0
	if bare && strings.Trim(rest, " ).,") != "" && a.size == "" {
		return a, s, false
	}
	return a, strings.TrimLeft(rest, ") "), true
}

// joinRest puts a name and what followed its amount together again.
func joinRest(head, rest string) string {
	rest = strings.TrimLeft(rest, " ")
	if rest == "" || strings.HasPrefix(rest, ",") || strings.HasPrefix(rest, "(") {
		return head + rest
	}
	return head + ", " + rest
}

func isWordByte(b byte) bool {
	return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9'
}

func isVulgar(s string) bool {
	_, _, ok := measure.ReadNumber(s)
	return ok
}

func hasLetter(s string) bool {
	return strings.IndexFunc(s, func(r rune) bool { return isWordRune(r) && (r < '0' || r > '9') }) >= 0
}

// figure writes a number for a note: "2", "0.5", "1.33".
func figure(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', 2, 64), "0"), ".")
}
