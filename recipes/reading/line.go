package reading

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
)

// lineReader gathers what one ingredient line says.
type lineReader struct {
	opt   Options
	line  *recipes.Line
	notes notes
	amt   amount
	say   phrase
	food  *food.Food // nil: none matched
}

// ReadLine reads one ingredient line. It always returns a line; what it could
// not find stands in Doubts, and grams that nothing gives are unknown, never
// zero. Reading the line's own Text again gives the same line. The line has no
// ID; IDs come with the recipe.
func ReadLine(text string, opt Options) *recipes.Line {
	text = clean(text)
	r := &lineReader{opt: opt, line: &recipes.Line{Text: text, Section: opt.Section, PartEaten: 1, GramsFrom: recipes.GramsUnknown}}
	if !hasLetter(text) {
		r.doubt(recipes.DoubtNoFood)
		return r.line
	}
	parts := splitLine(text, opt)
	r.parse(parts[0])
	if len(parts) > 1 { // a line holds one ingredient: the first of them
		r.doubt(recipes.DoubtChoice, parts...)
	}
	r.matchFood()
	r.weigh()
	r.drain()
	r.judgeState()
	r.judgeCooking()
	r.judgePart()
	r.override()
	r.finish()
	return r.line
}

// parse divides the text into notes, amount and phrase.
func (r *lineReader) parse(text string) {
	s, n := cutNotes(text)
	r.notes = n
	s = stripNumber(stripLabels(s))
	s = r.stripSection(s)
	s = turned(s, r.opt.System)
	s, part := cutPart(s)
	r.amt, s = readAmount(s, r.opt.System)
	if part == "" {
		s, part = cutPart(s)
	}
	if !r.amt.found {
		if a, rest, ok := trailingAmount(s, r.opt.System); ok {
			r.amt, s = a, rest
		}
	}
	r.say = readPhrase(s, &r.amt, r.opt.System)
	r.say.part = part
	r.say.readPart(r.amt.found && r.amt.unit == nil || part != "")
	r.unlend()
	l := r.line
	l.Name, l.Prep = r.say.name, r.say.prep
	if r.amt.found {
		l.Amount = r.amt.num.Low
		if r.amt.num.Range() {
			l.High = r.amt.num.High
			r.doubt(recipes.DoubtRange)
		}
		l.Unit = r.unitWord()
	}
}

// unitWord is the line's canonical unit: the unit's word, else the size.
func (r *lineReader) unitWord() string {
	if r.amt.unit != nil {
		return r.amt.unit.Word
	}
	return r.amt.size
}

// stripLabels takes "Optional:" and the like off the front.
func stripLabels(s string) string {
	for {
		rest, w := cutAny(s, "optional:", "optional -", "optional", "for serving:", "to serve:", "for garnish:", "garnish:", "topping:", "ingredients:", "plus:", "and", "(optional)")
		if w == "" || rest == "" {
			return s
		}
		s = rest
	}
}

// stripNumber takes a list number off: "1. 2 cups flour", "2) 3 eggs".
func stripNumber(s string) string {
	i := 0
	for i < len(s) && i < 3 && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	if i == 0 || i+1 >= len(s) || s[i] != '.' && s[i] != ')' || s[i+1] != ' ' {
		return s
	}
	if rest := strings.TrimSpace(s[i+1:]); startsAmount(rest) {
		return rest
	}
	return s
}

// stripSection takes "Marinade:" and the like off an amount; what it announces
// counts as the line's heading.
func (r *lineReader) stripSection(s string) string {
	head, rest, ok := strings.Cut(s, ":")
	if !ok || !startsAmount(strings.TrimSpace(rest)) {
		return s
	}
	low := fold(strings.TrimSpace(head))
	if !partNames[low] && !strings.HasPrefix(low, "for ") {
		return s
	}
	if r.opt.Section == "" {
		r.opt.Section = strings.TrimSpace(head)
	}
	return strings.TrimSpace(rest)
}

func (r *lineReader) doubt(kind recipes.DoubtKind, args ...string) {
	for i := range r.line.Doubts {
		if r.line.Doubts[i].Kind == kind {
			return
		}
	}
	r.line.Doubts = append(r.line.Doubts, recipes.Doubt{Kind: kind, Args: args})
}

// undoubt removes what a bracket note or the cook's memory has settled.
func (r *lineReader) undoubt(kinds ...recipes.DoubtKind) {
	kept := r.line.Doubts[:0]
	for _, d := range r.line.Doubts {
		settled := false
		for _, k := range kinds {
			settled = settled || d.Kind == k
		}
		if !settled {
			kept = append(kept, d)
		}
	}
	r.line.Doubts = kept
}

// override lets the bracket notes have the last word.
func (r *lineReader) override() {
	l, n := r.line, &r.notes
	if n.grams > 0 {
		l.Grams, l.GramsFrom, l.GramsNote, l.AsBought = n.grams, recipes.GramsTyped, n.amountRaw, false
		r.undoubt(recipes.DoubtAmount, recipes.DoubtToTaste, recipes.DoubtRange, recipes.DoubtDefault, recipes.DoubtMeasure, recipes.DoubtPack, recipes.DoubtDrained)
	}
	if n.eaten >= 0 {
		l.PartEaten = n.eaten
		r.undoubt(recipes.DoubtPartEaten)
	}
	if n.technique.Method != "" {
		l.Technique = n.technique
	}
	if n.state != "" {
		l.State = n.state
		r.undoubt(recipes.DoubtState)
	}
	if n.asBought {
		l.AsBought = true
	}
	if len(n.other) > 0 {
		l.Note = strings.Join(n.other, "; ")
	}
}

// finish names a line that has no name left and rounds float dust off.
func (r *lineReader) finish() {
	l := r.line
	if strings.TrimSpace(l.Name) == "" {
		l.Name = l.Text
	}
	if l.Grams > MostGrams {
		l.GramsFrom, l.GramsNote = recipes.GramsUnknown, ""
		r.doubt(recipes.DoubtTooMuch)
	}
	if l.GramsFrom == recipes.GramsUnknown {
		l.Grams = 0
	} else {
		l.Grams = roundGrams(l.Grams)
	}
	if len(l.Doubts) == 0 {
		l.Doubts = nil
	}
}
