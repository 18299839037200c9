package claims

import (
	"parewell/analysis/nutrition"
	"parewell/recipes"
)

// mlOfCup is the cup of reference amounts (21 CFR 101.9(b)(5)(viii)).
const mlOfCup = 240

// OfRecipe draws the facts about a version of the Book, twice: on the tables'
// own energy for the United States, on the EU's factors for the EU and Codex.
func OfRecipe(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) (us, eu Facts) {
	return ofRecipe(b, r, v, nutrition.TableEnergy), ofRecipe(b, r, v, nutrition.EUEnergy)
}

func ofRecipe(b *recipes.Book, r *recipes.Recipe, v *recipes.Version, basis nutrition.EnergyBasis) Facts {
	k := nutrition.In(b)
	k.Basis = basis
	original, version := k.Of(b.Draft(r, nil)), k.Of(b.Draft(r, v))
	nutrition.CommonBasis([]*nutrition.Account{original, version})
	return FactsOf(original, version, dishOf(r.Says, basis))
}

// JudgeRecipe judges every term for a version: by US rules on US facts, by EU
// and Codex rules on theirs.
func JudgeRecipe(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) []Result {
	us, eu := OfRecipe(b, r, v)
	return append(Judge(us, US), Judge(eu, EU, Codex)...)
}

// dishOf reads what the cook said; a dish not chosen has no reference amount.
func dishOf(s recipes.Says, basis nutrition.EnergyBasis) Dish {
	d := Dish{Kind: Kind(s.Kind), Liquid: s.Liquid, Basis: basis, Answers: map[Question]Answer{}}
	d.Category, _ = CategoryByKey(s.Dish)
	d.OriginalGramsPerML = s.CupG / mlOfCup
	d.VersionGramsPerML = d.OriginalGramsPerML
	if s.CupGVer > 0 {
		d.VersionGramsPerML = s.CupGVer / mlOfCup
	}
	for q, a := range s.Answers {
		d.Answers[Question(q)] = Answer(a)
	}
	return d
}

// Questions are what the cook may be asked, in order.
var Questions = []Question{AskNoSweetener, AskNoSalt, AskNoFat, AskHalfSalt, AskComponent}
