package claims

import (
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// What is not known.
type What string

// What can be missing.
const (
	NoFigure   What = "figure"   // a nutrient: Missing.Nutrient, with the ingredients it hides in
	NoWeight   What = "weight"   // the weight of a serving
	NoDensity  What = "density"  // what a cup of the dish weighs
	NoCategory What = "category" // no dish category is chosen
	NoQuality  What = "quality"  // how much of the protein counts
	NoOriginal What = "original" // there is nothing to compare with
	NoAnswer   What = "answer"   // Missing.Question
)

// Missing is one thing that would have to be known. Lines are the ingredients
// to look at; Original tells that it is the original's.
type Missing struct {
	What     What
	Nutrient food.Nutrient
	Question Question
	Original bool
	Lines    Lines
}

// Phrase says what is missing: "the sugars", "what a cup of it weighs".
func (m Missing) Phrase() words.Phrase {
	switch m.What {
	case NoFigure:
		return words.P("claims.missing."+string(m.What), nutrientName(m.Nutrient))
	case NoAnswer:
		return words.P("claims.ask." + string(m.Question))
	}
	return words.P("claims.missing." + string(m.What))
}

func nutrientName(n food.Nutrient) string { return words.Say("nutrient." + n.Key()) }

// missing lists what keeps a test open.
func (f *Facts) missing(t *Test) []Missing {
	if t.Measure == Asked {
		return []Missing{{What: NoAnswer, Question: t.Question}}
	}
	compares := t.Measure == Reduction || t.Measure == SumReduction || t.Measure == Difference || t.Measure == DailyGain
	if (compares || t.OnOriginal) && !f.Original.Known {
		return []Missing{{What: NoOriginal}}
	}
	out := f.missingOn(t, t.OnOriginal)
	if compares {
		out = append(out, f.missingOn(t, true)...)
	}
	return out
}

// looseShare is how much of a figure may be open before it is named beside
// something that is not known at all: a seasoning that was not weighed moves
// the weight of a serving by a twentieth at most.
const looseShare = 0.1

// loose tells a figure that is all but known.
func loose(v Value) bool { return v.Low > (1-looseShare)*v.High }

// missingOn lists what one side lacks for a test. What is all but known is named
// only where nothing else is missing: it is seldom what a verdict waits for.
func (f *Facts) missingOn(t *Test, original bool) []Missing {
	all := f.lacking(t, original)
	s := f.side(original)
	out := make([]Missing, 0, len(all))
	for _, m := range all {
		if m.What == NoFigure && loose(s.PerServing[m.Nutrient]) || m.What == NoWeight && loose(s.Serving) {
			continue
		}
		out = append(out, m)
	}
	if len(out) == 0 {
		return all
	}
	return out
}

// lacking lists all that is not known to the last gram.
func (f *Facts) lacking(t *Test, original bool) []Missing {
	s := f.side(original)
	var out []Missing
	for _, n := range used(t) {
		if t.Measure != Weight && !s.PerServing[n].Known() {
			out = append(out, Missing{What: NoFigure, Nutrient: n, Original: original, Lines: s.Gaps[n]})
		}
	}
	if t.Nutrient == food.Protein && (t.Measure == DailyShare || t.Measure == DailyGain) && !(s.Quality > 0) {
		out = append(out, Missing{What: NoQuality, Original: original})
	}
	if t.Basis == OfItself || t.Basis == PerServing && t.Measure != Weight {
		return out
	}
	if !s.Serving.Known() {
		out = append(out, Missing{What: NoWeight, Original: original, Lines: s.Unweighed})
	}
	switch grams, _ := f.grams(s, t.Basis); {
	case grams.Known():
	case t.Basis == PerReference && f.Category.ML == 0:
		out = append(out, Missing{What: NoCategory})
	default:
		out = append(out, Missing{What: NoDensity, Original: original})
	}
	return out
}

// used lists the nutrients a test reads.
func used(t *Test) []food.Nutrient {
	switch t.Measure {
	case Sum, SumReduction:
		return []food.Nutrient{food.SaturatedFat, food.TransFat}
	case SumShare:
		return []food.Nutrient{food.SaturatedFat, food.TransFat, food.EnergyKcal}
	case EnergyShare, Per100kcal:
		return []food.Nutrient{t.Nutrient, food.EnergyKcal}
	}
	return []food.Nutrient{t.Nutrient}
}
