package claims

import (
	"math"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

// basisKey is the last part of the key of a basis.
func basisKey(b Basis) string {
	switch b {
	case PerReference:
		return "reference"
	case PerServing:
		return "serving"
	case Per50g:
		return "50g"
	case Per100g:
		return "100g"
	case Per100:
		return "100"
	}
	return "itself"
}

// quantity writes an amount with its unit, to one place more than tables show
// for grams, so that a figure just past a limit does not look as if at it.
func quantity(n food.Nutrient, v float64) string {
	return words.Trim(v, words.Decimals(n.Unit())+1) + " " + n.Unit()
}

// Phrase names the term: "low fat".
func (t Term) Phrase() words.Phrase { return words.P("claims.term." + string(t)) }

// Phrase names the verdict.
func (v Verdict) Phrase() words.Phrase {
	switch v {
	case May:
		return words.P("claims.verdict.may")
	case MayNot:
		return words.P("claims.verdict.may-not")
	}
	return words.P("claims.verdict.cannot-decide")
}

// Phrase says where the authority's rules come from in short: "US", "EU".
func (a Authority) Phrase() words.Phrase { return words.P("claims.authority." + string(a)) }

// Phrase says what kind of dish it is.
func (k Kind) Phrase() words.Phrase {
	switch k {
	case MainDish:
		return words.P("claims.kind.main-dish")
	case Meal:
		return words.P("claims.kind.meal")
	}
	return words.P("claims.kind.food")
}

// Phrase names the dish category.
func (c Category) Phrase() words.Phrase { return words.P("claims.category." + c.Key) }

// Phrase asks the cook the question.
func (q Question) Phrase() words.Phrase { return words.P("claims.ask." + string(q)) }

// Why says in one sentence by which number the verdict came about:
// "2.8 g of fat in 100 g; the limit is at most 3 g".
func (res *Result) Why() words.Phrase {
	if len(res.Because) == 0 {
		return words.P("claims.why.unknown", "")
	}
	switch res.Because[0] {
	case ByFigure:
		return res.figure()
	case Unknown:
		return words.P("claims.why.unknown", res.missingWords())
	case AlreadyLow:
		return words.P("claims.why.already-low", nutrientName(res.Rule.Nutrient))
	case TooLight:
		return words.P("claims.why.too-light", words.Grams(res.Number.High), words.Grams(res.Threshold))
	case AsAnswered:
		return words.P("claims.why.answer")
	case OtherDish:
		return words.P("claims.why.other-dish")
	}
	return words.P("claims.why.not-defined")
}

// missingWords lists each missing thing once.
func (res *Result) missingWords() string {
	var said []string
	seen := map[string]bool{}
	for _, m := range res.Missing {
		text := m.Phrase().String()
		if m.Original {
			text = words.Say("claims.missing.of-original", text)
		}
		if !seen[text] {
			seen[text] = true
			said = append(said, text)
		}
	}
	return words.Join(said)
}

// figure says the deciding number beside its limit. A range shows the end that
// decided.
func (res *Result) figure() words.Phrase {
	number := res.deciding()
	what := res.what()
	where := words.Say("claims.basis." + basisKey(res.Basis))
	op := words.Say("claims.op." + opKey(res.Op))
	limit := words.Trim(res.Threshold, 1)
	shown, unit := res.beside(math.Abs(number)), " "+res.Nutrient.Unit()
	percent := " %"
	switch res.Measure {
	case Reduction, SumReduction:
		if math.IsInf(number, -1) {
			return words.P("claims.why.none-before", what)
		}
		if number < 0 {
			return words.P("claims.why.rise", shown+percent, what, where, op, limit+percent)
		}
		return words.P("claims.why.reduction", shown+percent, what, where, op, limit+percent)
	case EnergyShare, SumShare:
		return words.P("claims.why.share", shown+percent, what, op, limit+percent)
	case DailyShare:
		return words.P("claims.why.daily", shown+percent, what, where, op, limit+percent)
	case DailyGain:
		return words.P("claims.why.gain", res.signed(number)+percent, what, where, op, limit+percent)
	case Difference:
		return words.P("claims.why.difference", res.signed(number)+unit, what, where, op, limit+unit)
	case Per100kcal:
		return words.P("claims.why.per-kcal", shown+unit, what, op, limit+unit)
	}
	return words.P("claims.why.amount", shown+unit, what, where, op, limit+unit)
}

// what names what was measured.
func (res *Result) what() string {
	switch res.Measure {
	case Sum, SumShare, SumReduction:
		return words.Say("claims.sum")
	}
	return nutrientName(res.Nutrient)
}

// beside writes a figure with as many places as it takes not to look the same
// as the limit when it is not: 24.96, never 25.0, against 25.
func (res *Result) beside(v float64) string {
	places := 1
	if res.Measure == Amount || res.Measure == Sum || res.Measure == Per100kcal {
		places = words.Decimals(res.Nutrient.Unit()) + 1
	}
	for !near(v, res.Threshold) && places < 6 && words.Trim(v, places) == words.Trim(res.Threshold, places) {
		places++
	}
	return words.Trim(v, places)
}

func (res *Result) signed(v float64) string {
	if v < 0 {
		return words.Minus + res.beside(-v)
	}
	return res.beside(v)
}

// deciding is the end of the range that met or missed the limit.
func (res *Result) deciding() float64 {
	upper := res.Op == Below || res.Op == AtMost
	if upper == (res.Verdict == May) {
		return res.Number.High
	}
	return res.Number.Low
}

func opKey(o Op) string {
	switch o {
	case Below:
		return "below"
	case AtMost:
		return "at-most"
	case AtLeast:
		return "at-least"
	}
	return "above"
}
