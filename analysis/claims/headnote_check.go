package claims

import (
	"math"
	"strings"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Overstated is the reason when the figure does not bear out the words.
const Overstated Because = "overstated"

// Said is a word of a headnote held against the facts. Results has one entry
// for each rule of the word's term; Figure is the check of a stated amount or
// comparison itself, nil for other words. Serving is a comparison's check of a
// serving beside one of the original, where the words around it speak of servings.
type Said struct {
	Found
	Results []Result
	Figure  *Check
	Serving *Check
	Verdict Verdict // of the figure; empty where the results or the advice speak
}

// CheckWords finds the claims in a text and holds each against the facts, by
// the authorities named or by all. A comparison must meet the rule of its term
// and be true to its own number; words no number supports have no results.
func CheckWords(text string, f Facts, authorities ...Authority) []Said {
	results := Judge(f, authorities...)
	if f.Kind == "" {
		f.Kind = SingleFood
	}
	var out []Said
	for _, w := range Words(text) {
		s := Said{Found: w}
		if w.Term != "" {
			s.Results = ofTerm(results, w.Term)
		}
		switch w.Sort {
		case Comparison:
			s.compare(&f)
			if speaksOfServings(text, w.Start) {
				c := f.check(Test{Measure: Reduction, Nutrient: s.Nutrient, Basis: PerServing, Op: AtLeast, Limit: s.Percent})
				s.Serving = &c
			}
		case Stated:
			s.amount(&f)
		case Checkable:
			if w.Term == "percent-fat-free" {
				s.figure(f.check(amount(food.Fat, Per100g, AtMost, 100-w.Percent)))
			}
		}
		out = append(out, s)
	}
	return out
}

func ofTerm(results []Result, t Term) []Result {
	var out []Result
	for _, r := range results {
		if r.Term == t {
			out = append(out, r)
		}
	}
	return out
}

// figure takes the outcome of the words' own number; results that would allow
// a number that is not borne out are withdrawn.
func (s *Said) figure(c Check) {
	s.Figure = &c
	s.Verdict = map[truth]Verdict{yes: May, no: MayNot, open: CannotDecide}[c.outcome]
	for i := range s.Results {
		r := &s.Results[i]
		if r.Verdict != May || c.outcome == yes {
			continue
		}
		r.of(&c)
		r.Needs = nil
		if c.outcome == no {
			r.Because = []Because{Overstated, ByFigure}
		}
	}
}

// compare checks "25 % less fat" for the same amount of food: by the reference
// amount for a food, by 100 g for a dish. A whole per cent may have been
// rounded down, never up: 23.1 % is not 25 %.
func (s *Said) compare(f *Facts) {
	basis := PerReference
	if f.Kind != SingleFood || f.Category.Key == "" {
		basis = Per100g
	}
	s.figure(f.check(Test{Measure: Reduction, Nutrient: s.Nutrient, Basis: basis, Op: AtLeast, Limit: s.Percent}))
}

// amount checks a stated figure against one serving. A plain number is true if
// it is the serving's figure as it stands, or as a US or EU label rounds it.
func (s *Said) amount(f *Facts) {
	if s.Op != "" {
		s.figure(f.check(amount(s.Nutrient, PerServing, s.Op, s.Found.Amount)))
		return
	}
	c := f.check(amount(s.Nutrient, PerServing, AtMost, s.Found.Amount))
	if c.Value.Known() {
		c.Missing, c.outcome = nil, no
		if s.saysSame(c.Value.Low) {
			c.outcome = yes
		}
	} else {
		c.outcome, c.Missing = open, f.missing(&c.Test)
	}
	s.figure(c)
}

// saysSame tells whether the number said is a rounding of the figure: to the
// unit or the place it is said with, or as a US label prints it. Salt is said
// to the tenth of a gram, which is 40 mg of sodium.
func (f Found) saysSame(v float64) bool {
	half := 0.5
	switch {
	case f.Nutrient == food.Sodium && strings.Contains(strings.ToLower(f.Word), "salt"):
		half = 20
	case f.Nutrient.Unit() == "g" && f.Amount != math.Trunc(f.Amount):
		half = 0.05
	}
	return math.Abs(v-f.Amount) <= half+closeTo || near(RoundUS(f.Nutrient, v).Value, f.Amount)
}

// speaksOfServings tells whether the sentence in which byte at stands speaks of
// what one person eats.
func speaksOfServings(text string, at int) bool {
	from := strings.LastIndexAny(text[:at], ".!?;\n") + 1
	to := len(text)
	if i := strings.IndexAny(text[at:], ".!?;\n"); i >= 0 {
		to = at + i
	}
	for _, t := range tokenise(text[from:to]) {
		if servingWords[strings.TrimSuffix(t.word, "s")] {
			return true
		}
	}
	return false
}

var servingWords = map[string]bool{
	"serving": true, "helping": true, "portion": true, "plate": true, "plateful": true, "bowl": true, "bowlful": true,
	"slice": true, "piece": true, "person": true, "each": true, "serve": true,
}

// Says is how the words stand: by their own number, by the rule of their term that
// allows them or else speaks against them, or by what to do about them.
func (s *Said) Says() words.Phrase {
	if s.Figure != nil || len(s.Results) == 0 {
		return s.Phrase()
	}
	of := &s.Results[0]
	for i := range s.Results {
		r := &s.Results[i]
		if r.Verdict == May || r.Verdict == MayNot && of.Verdict == CannotDecide {
			of = r
		}
		if r.Verdict == May {
			break
		}
	}
	return words.P("claims.said.verdict", of.Verdict.Phrase().String(), of.Why().String())
}

// Phrase says how the words' own number stands: "the figure is 23.1 %". That of a
// comparison says for how much of both dishes it holds: rules compare the same
// weight of both, and lighter dishes often weigh less too.
func (s *Said) Phrase() words.Phrase {
	if s.Figure == nil {
		return s.Advice()
	}
	if s.Verdict == CannotDecide {
		r := Result{Missing: s.Figure.Missing}
		return words.P("claims.why.unknown", r.missingWords())
	}
	value := s.Figure.Value.Low
	if s.Verdict == May == (s.Figure.Test.Op == AtMost || s.Figure.Test.Op == Below) {
		value = s.Figure.Value.High
	}
	unit := s.Nutrient.Unit()
	if s.Sort != Comparison {
		return words.P("claims.said.figure", words.Trim(value, 1)+" "+unit)
	}
	shown, where := words.Trim(math.Abs(value), 1)+" %", words.Say("claims.basis."+basisKey(s.Figure.Test.Basis))
	switch {
	case value < 0:
		return words.P("claims.said.more", shown, where, nutrientName(s.Nutrient))
	case s.Serving == nil || !s.Serving.Value.Known() || s.Serving.Value.Low < 0:
		return words.P("claims.said.compared", shown, where, nutrientName(s.Nutrient))
	}
	return words.P("claims.said.helping", shown, where, nutrientName(s.Nutrient), words.Trim(s.Serving.Value.Low, 1)+" %")
}
