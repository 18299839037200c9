package reading

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/words"
)

// StepLine is an ingredient to which an amount in a method can belong.
type StepLine struct {
	Line *recipes.Line // as written
	By   float64       // how much of what is written there is now
	Part float64       // the same for another amount of it than the one written there
}

// ScaledStep is a step with its amounts as they are now.
type ScaledStep struct {
	ID    recipes.ID
	Texts []string // as in recipes.DraftStep
	Loose []string // amounts, as written, that no ingredient could be found for: they stay
	Whole bool     // all amounts of the step are loose
	Once  bool     // the dish is made once: loose is what a swap may have changed
}

// DraftSteps tells a draft's method with its amounts as they are now: whole is how
// often the dish is made, beside what swaps multiply. Dropped steps are left out.
// A text that a swap brings names the amounts of its version, so what swaps
// multiply is done there only to the amount that the line itself is written with.
func DraftSteps(d *recipes.Draft, whole float64, sys measure.System) []ScaledStep {
	var first, brought []StepLine
	for i := range d.Lines {
		if l := &d.Lines[i]; !l.Gone() {
			first = append(first, StepLine{l.Line, whole * l.Scale, whole * l.Scale})
			brought = append(brought, StepLine{l.Line, whole * l.Scale, whole})
		}
	}
	var out []ScaledStep
	for i := range d.Steps {
		st := &d.Steps[i]
		if st.Dropped {
			continue
		}
		lines := first
		if len(st.Swaps) > 0 {
			lines = brought
		}
		out = append(out, scaledStep(st, lines, whole, sys))
	}
	return out
}

func scaledStep(st *recipes.DraftStep, lines []StepLine, whole float64, sys measure.System) ScaledStep {
	s, tied := ScaledStep{ID: st.ID, Once: whole == 1}, 0
	for _, text := range st.Texts {
		now, loose, n := ScaleStep(text, lines, whole, sys)
		s.Texts, tied = append(s.Texts, now), tied+n
		for _, l := range loose {
			if !slices.Contains(s.Loose, l) {
				s.Loose = append(s.Loose, l)
			}
		}
	}
	s.Whole = tied == 0
	return s
}

// Note says which amounts of a step are not those of what is cooked, "" when all
// are.
func (s *ScaledStep) Note() string {
	switch {
	case len(s.Loose) == 0:
		return ""
	case s.Once:
		return words.Say("reading.step.original", words.Join(s.Loose))
	case s.Whole:
		return words.Say("reading.step.loose-all")
	}
	return words.Say("reading.step.loose", len(s.Loose), words.Join(s.Loose))
}

// ScaleStep tells the amounts of food that a step names anew, each by the
// ingredient beside which it stands. loose are the amounts, as written, for which
// no ingredient is found: they stay, and count as wrong where the dish is made
// whole times with whole other than 1. tied is how many found theirs. Times,
// temperatures, sizes of pans and amounts for each of several pieces are none.
func ScaleStep(text string, lines []StepLine, whole float64, sys measure.System) (scaled string, loose []string, tied int) {
	var b strings.Builder
	done := 0
	for i := 0; i < len(text); {
		a, ok := stepAmountAt(text, i, sys)
		if !ok {
			i++
			continue
		}
		switch by, sort := a.tie(lines); sort {
		case tieNone:
			i++
			continue
		case tieLost:
			if a.measured() && whole != 1 {
				loose = append(loose, text[a.from:a.to])
			}
		case tieTwo:
			loose = append(loose, text[a.from:a.to])
		case tieFound:
			tied++
			if math.Abs(by-1) > 1e-9 {
				b.WriteString(text[done:a.from] + a.times(by))
				done = a.to
			}
		}
		i = a.to
	}
	return b.String() + text[done:], loose, tied
}

// stepAmount is an amount found inside a step.
type stepAmount struct {
	text      string // the whole step
	from, to  int    // where the amount stands in it
	num       measure.Number
	unit      *measure.Unit // nil for a bare count
	gap, word string        // between number and unit, and the unit as written
}

// measured tells that it is a weight or a volume, which is food unless it is a pan.
func (a *stepAmount) measured() bool { return a.unit != nil && a.unit.Kind <= measure.Volume }

// stepAmountAt reads an amount that begins at byte i of a step.
func stepAmountAt(text string, i int, sys measure.System) (stepAmount, bool) {
	s, before := text[i:], lastRune(text[:i])
	if i > 0 && (isWordRune(before) || strings.ContainsRune("'’.,-–:", before)) || s[0] == ' ' || !startsDigit(s) && !numberWord(s) {
		return stepAmount{}, false
	}
	num, rest, ok := measure.ReadNumber(s)
	if !ok || num.Low <= 0 || degrees(rest) || strings.HasPrefix(rest, ":") || strings.HasPrefix(rest, "%") {
		return stepAmount{}, false
	}
	a := stepAmount{text: text, from: i, num: num}
	if q, after, ok := readQuantity(s, sys); ok {
		a.num, a.unit = q.num, q.unit
		a.ends(s, after)
		return a, q.unit.Kind != measure.Length
	}
	if before == '/' || notAnAmount(rest) {
		return stepAmount{}, false
	}
	if u, after, ok := readUnit(rest); ok && u.Kind != measure.Length {
		a.unit = u
		a.ends(s, after)
		return a, u.Kind != measure.Little && !article(s)
	}
	a.ends(s, rest)
	return a, num.Low >= 1 && !article(s) || startsDigit(s) && !relative(rest)
}

// ends notes where the amount stops that s begins with, and its unit as written.
func (a *stepAmount) ends(s, rest string) {
	rest = unspaced(a.text, rest)
	if a.unit != nil {
		a.gap, a.word = unitAsWritten(s)
		if strings.HasSuffix(a.word, ".") && startsSentence(rest) {
			a.word, rest = strings.TrimSuffix(a.word, "."), "."+rest
		}
	}
	a.to = len(a.text) - len(rest)
}

// startsSentence tells that a stop before rest ends a sentence.
func startsSentence(rest string) bool {
	t := strings.TrimLeft(rest, " ")
	return t == "" || unicode.IsUpper(firstRune(t))
}

// relative tells that a part of what is at hand is meant: "½ of the butter".
func relative(rest string) bool {
	_, w := cutAny(strings.TrimLeft(rest, " "), "of", "the", "your", "this", "that")
	return w != ""
}

// unspaced gives back the spaces that a reader has passed over before rest, so
// that the end of what was read is the end of a word.
func unspaced(text, rest string) string {
	end := len(strings.TrimRight(text[:len(text)-len(rest)], " "))
	return text[end:]
}

// unitAsWritten is the word after the number of s and what stands between them.
func unitAsWritten(s string) (gap, word string) {
	_, rest, _ := measure.ReadNumber(s)
	_, after, ok := readUnit(rest)
	if !ok {
		return "", ""
	}
	word = rest[:len(rest)-len(after)]
	if number := s[:len(s)-len(rest)]; strings.HasSuffix(number, " ") {
		gap = " "
	}
	return gap, strings.TrimRight(word, " ")
}

func article(s string) bool {
	_, w := cutAny(s, "a", "an")
	return w != ""
}

// numberWord tells that s begins with a word that numbers begin with.
func numberWord(s string) bool {
	_, w := cutAny(s, "a", "an", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "half", "quarter", "three-quarters", "two-thirds")
	return w != ""
}

// degrees tells that what follows a number makes it a temperature or a time.
func degrees(rest string) bool {
	t := strings.TrimLeft(rest, " -–")
	if strings.HasPrefix(t, "°") || strings.HasPrefix(t, "º") {
		return true
	}
	word, _ := letters(t)
	switch strings.ToLower(word) {
	case "c", "f", "deg", "degree", "degrees", "celsius", "fahrenheit", "fan", "sec", "secs", "second", "seconds", "day", "days", "night", "week", "weeks", "times", "x":
		return true
	}
	return minutesPer(strings.ToLower(word)) > 0
}

// times writes the amount so many times over, in the unit it was written in.
func (a *stepAmount) times(by float64) string {
	amount := a.figure(a.num.Low * by)
	if a.num.Range() {
		if high := a.figure(a.num.High * by); high != amount {
			amount += "–" + high
		}
	}
	most := max(a.num.Low, a.num.High)
	if a.word == "" {
		return amount
	}
	gap := a.gap
	if article(a.text[a.from:]) || !startsDigit(a.text[a.from:]) {
		gap = " "
	}
	return amount + gap + counted(a.word, most, most*by)
}

// figure is a number as a scale or a spoon shows it.
func (a *stepAmount) figure(v float64) string {
	if a.unit != nil && (a.unit.Word == "g" || a.unit.Word == "ml") {
		switch {
		case v >= 10:
			return words.Number(v, 0)
		case v >= 1:
			return words.Trim(math.Round(v*2)/2, 1)
		}
		return words.Trim(v, 2)
	}
	if a.unit != nil && a.unit.Kind <= measure.Volume && (a.unit.Kind == measure.Mass || a.unit.Word == "l" || a.unit.Word == "dl" || a.unit.Word == "cl") {
		return words.Trim(v, 2)
	}
	for _, step := range []float64{1, 0.5, 0.25, 1. / 3, 0.125} {
		if near := math.Round(v/step) * step; near > 0 && math.Abs(near-v) <= 0.05*v {
			return words.Fraction(near)
		}
	}
	return words.Trim(v, 2)
}

// counted puts a unit's English word into the plural or back where the number
// crosses one; abbreviations stay.
func counted(word string, was, now float64) string {
	u := measure.Lookup(word)
	switch {
	case u == nil || len(word) < 4 || (was > 1) == (now > 1):
	case now > 1 && measure.Lookup(word+"s") == u:
		return word + "s"
	case now <= 1 && strings.HasSuffix(word, "s") && measure.Lookup(strings.TrimSuffix(word, "s")) == u && !strings.EqualFold(word, "tbsps"):
		return strings.TrimSuffix(word, "s")
	}
	return word
}
