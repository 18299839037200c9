package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/measure"
)

// dishWords are the words of a method's steps that cook the whole dish, with the
// way of cooking they name.
var dishWords = []struct{ word, method string }{
	{"bake", "baked"},
	{"roast", "roasted"},
	{"simmer", "simmered"},
	{"stew", "simmered"},
	{"braise", "braised"},
	{"slow-cook", "braised"},
	{"slow cook", "braised"},
	{"grill", "grilled"},
	{"broil", "grilled"},
	{"poach", "poached"},
	{"steam", "steamed"},
	{"microwave", "microwaved"},
	{"deep-fry", "deep-fried"},
}

// CookedIn finds how the steps of a method cook the dish: the longest time that
// a cooking word stands before in one sentence, else the last bake or roast
// without a time (Minutes 0). said is that sentence. false when the steps name
// none. It is a guess to be asked about: a sauce may simmer longer than the
// dish.
func CookedIn(steps []string) (t recipes.Technique, said string, ok bool) {
	for _, step := range steps {
		for _, sentence := range sentencesIn(step) {
			method, after := dishWord(fold(sentence))
			if method == "" {
				continue
			}
			minutes := minutesIn(after)
			untimed := minutes == 0 && t.Minutes == 0 && (method == "baked" || method == "roasted")
			if minutes > 0 && minutes >= t.Minutes || untimed {
				t, said, ok = recipes.Technique{Method: method, Minutes: minutes}, sentence, true
			}
		}
	}
	return t, said, ok
}

// sentencesIn divides a step at full stops, semicolons and the ends of lines.
func sentencesIn(step string) []string {
	var out []string
	for _, line := range strings.FieldsFunc(step, func(r rune) bool { return r == ';' || r == '\n' }) {
		for _, s := range strings.Split(line, ". ") {
			if s = strings.Trim(s, " ."); s != "" {
				out = append(out, s)
			}
		}
	}
	return out
}

// dishWord finds the first cooking word of a folded sentence and what follows.
func dishWord(s string) (method, after string) {
	at := len(s)
	for _, w := range dishWords {
		if i := wordIndex(s, w.word); i >= 0 && i < at {
			at, method, after = i, w.method, s[i+len(w.word):]
		}
	}
	return method, after
}

// mostMinutes is two days, longer than any dish cooks.
const mostMinutes = 2 * 24 * 60

// minutesIn reads the first time of a text, in minutes: "for 45-50 minutes",
// "1 hour 20 minutes", "1½ hours". 0 when there is none.
func minutesIn(s string) float64 {
	for i := 0; i < len(s); i++ {
		if !startsDigit(s[i:]) || i > 0 && isWordByte(s[i-1]) {
			continue
		}
		num, rest, ok := measure.ReadNumber(s[i:])
		if !ok {
			continue
		}
		word, rest := firstWord(strings.TrimLeft(rest, " -"))
		per := minutesPer(fold(word))
		if per == 0 || num.Value()*per > mostMinutes {
			continue
		}
		minutes := num.Value() * per
		if per == 60 && startsDigit(strings.TrimLeft(rest, " ")) {
			minutes += minutesIn(rest)
		}
		return minutes
	}
	return 0
}
