package reading

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"parewell/recipes/measure"
)

// quantity is a number with a unit, or several added up: "400 g", "1 lb 4 oz",
// "1 cup plus 2 tbsp".
type quantity struct {
	num   measure.Number
	unit  *measure.Unit // nil when a bare number stands
	grams float64       // of all of it, for weights
	ml    float64       // of all of it, for volumes
	cm    float64       // of all of it, for lengths
	text  string        // as written
}

func (q *quantity) weighs() bool { return q.unit != nil && q.unit.Kind == measure.Mass }
func (q *quantity) fills() bool  { return q.unit != nil && q.unit.Kind == measure.Volume }
func (q *quantity) sized() bool  { return q.weighs() || q.fills() }

// set fills grams, ml or cm from the number and unit.
func (q *quantity) set(sys measure.System) {
	if q.unit == nil {
		return
	}
	v := q.num.Value()
	switch q.unit.Kind {
	case measure.Mass:
		q.grams = v * float64(q.unit.Grams)
	case measure.Volume:
		q.ml = v * float64(q.unit.Millilitres(sys))
	case measure.Length:
		q.cm = v * q.unit.Centimetres
	}
}

// twoWordUnits are tried before single words.
var twoWordUnits = []struct{ text, unit string }{
	{"fl. oz.", "fl oz"},
	{"fl. oz", "fl oz"},
	{"fl oz.", "fl oz"},
	{"fl oz", "fl oz"},
	{"fl.oz.", "fl oz"},
	{"fl.oz", "fl oz"},
	{"fluid ounces", "fl oz"},
	{"fluid ounce", "fl oz"},
	{"fluid oz.", "fl oz"},
	{"fluid oz", "fl oz"},
	{"fl ounces", "fl oz"},
	{"fl ounce", "fl oz"},
	{"table spoons", "tbsp"},
	{"table spoon", "tbsp"},
	{"tea spoons", "tsp"},
	{"tea spoon", "tsp"},
	{"dessert spoons", "dessertspoon"},
	{"dessert spoon", "dessertspoon"},
}

// notUnitBefore are words that make the word before them part of a name:
// "rib eye", "pot roast", "strip steak", "round steak", "glass noodles".
var notUnitBefore = map[string][]string{
	"rib": {"eye", "roast", "steak", "steaks", "chops"}, "pot": {"roast", "stickers", "barley"},
	"strip": {"steak", "steaks", "loin", "sirloin"}, "round": {"steak", "steaks", "roast", "bread", "loaf"},
	"glass": {"noodles", "noodle"}, "stick": {"margarine"}, "clove": {"powder"}, "cloves": {"powder"},
	"leaf": {"lettuce", "spinach", "gelatine"}, "head": {"cheese"}, "stem": {"ginger"}, "can": {"be"}, "bar": {"snacks"},
	"ear": {"mushrooms"}, "block": {"margarine"}, "square": {"sausage"}, "t": {"bone"}, "box": {"grater"},
	"fillet": {"steak", "steaks"}, "filet": {"mignon"}, "ball": {"park"}, "stalk": {"on"},
	"brick": {"cheese"}, "loaf": {"cake"}, "pod": {"peas"}, "spray": {"oil"}, "pack": {"choi"},
	"turn": {"over"}, "tin": {"foil"}, "tube": {"pasta"}, "rack": {"of"}, "bulb": {"fennel"},
}

// readUnit reads a unit word at the start of s, after a space or a dash.
func readUnit(s string) (*measure.Unit, string, bool) {
	t := strings.TrimLeft(s, " ")
	if strings.HasPrefix(t, "-") || strings.HasPrefix(t, "–") {
		_, n := utf8.DecodeRuneInString(t)
		t = strings.TrimLeft(t[n:], " ")
	}
	if strings.HasPrefix(t, "\"") || strings.HasPrefix(t, "”") || strings.HasPrefix(t, "″") {
		_, n := utf8.DecodeRuneInString(t)
		return measure.Lookup("inch"), t[n:], true
	}
	for _, w := range twoWordUnits {
		if rest, ok := cut(t, w.text); ok {
			return measure.Lookup(w.unit), rest, true
		}
	}
	word, rest := letters(t)
	u := measure.Lookup(word)
	if u == nil || word == "" || continues(word, rest) {
		return nil, s, false
	}
	rest = strings.TrimPrefix(rest, ".")
	return u, rest, true
}

// letters cuts the leading letters of s.
func letters(s string) (string, string) {
	i := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsLetter(r) })
	if i < 0 {
		return s, ""
	}
	return s[:i], s[i:]
}

// continues tells that what looked like a unit is the start of a name.
func continues(word, rest string) bool {
	if r, _ := utf8.DecodeRuneInString(rest); r == '\'' || r == '’' {
		return true
	}
	if after, ok := strings.CutPrefix(rest, "-"); ok {
		r, _ := utf8.DecodeRuneInString(after)
		if unicode.IsLetter(r) && !strings.HasPrefix(strings.ToLower(after), "size") {
			return true
		}
	}
	if word == "in" || word == "In" {
		_, ok := cut(strings.TrimLeft(rest, " ."), "piece")
		return !ok
	}
	next, _ := letters(strings.TrimLeft(rest, " "))
	for _, w := range notUnitBefore[strings.ToLower(word)] {
		if strings.EqualFold(next, w) {
			return true
		}
	}
	return false
}

// readQuantity reads a number with a mass, volume or length unit.
func readQuantity(s string, sys measure.System) (quantity, string, bool) {
	num, rest, ok := measure.ReadNumber(s)
	if !ok {
		return quantity{}, s, false
	}
	u, after, ok := readUnit(rest)
	if !ok || u.Kind > measure.Length {
		return quantity{}, s, false
	}
	q := quantity{num: num, unit: u}
	q.set(sys)
	after = q.extend(after, sys)
	q.text = strings.TrimSpace(s[:len(s)-len(after)])
	return q, strings.TrimLeft(after, " "), true
}

// extend adds what belongs to the quantity after its first unit: the upper end
// of a range with its own unit, a smaller unit, "plus 2 tbsp".
func (q *quantity) extend(s string, sys measure.System) string {
	for range 3 {
		t := strings.TrimLeft(s, " ")
		joint := ""
		t, joint = cutAny(t, "plus", "+", "and", "&", "minus", "less", "-", "–", "to")
		if joint == "" && q.unit.Kind != measure.Mass {
			return s
		}
		num, rest, ok := measure.ReadNumber(t)
		if !ok || (joint == "" || joint == "and") && !startsDigit(t) {
			return s
		}
		u, after, ok := readUnit(rest)
		if !ok || u.Kind != q.unit.Kind {
			return s
		}
		next := quantity{num: num, unit: u}
		next.set(sys)
		if joint == "" && next.grams >= q.grams/2 { // "500 g 1 lb": a second measure, not more
			return s
		}
		q.join(next, joint)
		s = after
	}
	return s
}

// join widens a range, adds a part or takes one away.
func (q *quantity) join(next quantity, joint string) {
	have, more := q.grams+q.ml+q.cm, next.grams+next.ml+next.cm
	if have <= 0 {
		return
	}
	scale := 1.0
	switch joint {
	case "-", "–", "to":
		if more <= have {
			return
		}
		q.num.High = q.num.Low * more / have
		scale = (1 + more/have) / 2
	case "minus", "less":
		if more >= have {
			return
		}
		scale = 1 - more/have
		q.num.Low *= scale
	default:
		scale = 1 + more/have
		q.num.Low *= scale
	}
	q.grams *= scale
	q.ml *= scale
	q.cm *= scale
}
