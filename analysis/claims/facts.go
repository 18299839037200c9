package claims

import (
	"math"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

// Kind is what the dish is held to be under 21 CFR 101.13(l) and (m).
type Kind string

// Kinds of dish. A main dish and a meal have minimum weights (MainDishGrams,
// MealGrams) and must hold foods of several groups; the cook says which it is.
const (
	SingleFood Kind = "food"
	MainDish   Kind = "main dish"
	Meal       Kind = "meal"
)

// Least weight of a serving, in g: 6 and 10 ounces of 28.349523125 g
// (21 CFR 101.13(m)(1)(i) and (l)(1)(i)).
const (
	MainDishGrams = 6 * 28.349523125
	MealGrams     = 10 * 28.349523125
)

// Answer is what only the cook can say.
type Answer string

// Answers; the empty Answer is a question not answered yet.
const (
	NotAsked Answer = ""
	Yes      Answer = "yes"
	No       Answer = "no"
)

// Side is one serving of the original or of a version.
type Side struct {
	Known      bool                      // false: there is no such dish
	Serving    Value                     // g
	PerServing [food.NutrientCount]Value // in each nutrient's unit
	Gaps       [food.NutrientCount]Lines // the ingredients a figure's unknown part lies in
	Unweighed  Lines                     // ingredients whose weight is not known
	GramsPerML float64                   // g per ml of the finished dish; 0 is unknown
	Quality    float64                   // share of the protein that counts after correction for its quality (0-1); 0 is unknown
}

// Lines are ids of ingredients.
type Lines []recipes.ID

// Facts is what a judgement rests on: the version, the original it is compared
// with, and what the cook said of both.
type Facts struct {
	Original, Version Side
	Category          Category              // gives the reference amount
	Kind              Kind                  // empty counts as SingleFood
	Liquid            bool                  // judged for 100 ml by EU and Codex rules
	Basis             nutrition.EnergyBasis // of the energy on both sides
	// WeightRatio is the original's serving over the version's, which brings
	// two servings to the same weight of food.
	WeightRatio Value
	Answers     map[Question]Answer // what the cook was asked; a missing one is not answered
}

// Dish is what the cook says of a dish, for FactsOf.
type Dish struct {
	Category           Category
	Kind               Kind
	Liquid             bool
	Basis              nutrition.EnergyBasis
	OriginalGramsPerML float64
	VersionGramsPerML  float64
	OriginalQuality    float64
	VersionQuality     float64
	Answers            map[Question]Answer
}

// FactsOf draws the facts from two accounts reckoned in the same energy basis.
// original may be nil, which leaves comparisons undecided.
func FactsOf(original, version *nutrition.Account, d Dish) Facts {
	f := Facts{
		Version: sideOf(version), Category: d.Category, Kind: d.Kind, Liquid: d.Liquid, Basis: d.Basis,
		WeightRatio: Anything, Answers: d.Answers,
	}
	f.Version.GramsPerML, f.Version.Quality = d.VersionGramsPerML, d.VersionQuality
	if original != nil {
		f.Original = sideOf(original)
		f.Original.GramsPerML, f.Original.Quality = d.OriginalGramsPerML, d.OriginalQuality
		f.WeightRatio = weightRatio(original, version, f.Original.Serving, f.Version.Serving)
	}
	return f
}

// SideOf is a serving with the given weight in g and figures; every other
// figure is unknown.
func SideOf(serving float64, figures map[food.Nutrient]float64) Side {
	s := Side{Known: true, Serving: Exactly(serving)}
	for n := range s.PerServing {
		s.PerServing[n] = Anything
	}
	for n, v := range figures {
		s.PerServing[n] = Exactly(v)
	}
	tighten(&s)
	return s
}

// Compared sets two sides with their weights beside each other.
func Compared(original, version Side) Facts {
	return Facts{Original: original, Version: version, WeightRatio: original.Serving.over(version.Serving)}
}

func sideOf(a *nutrition.Account) Side {
	s := Side{Known: true}
	u := unweighedOf(a)
	s.Unweighed = u.lines
	known, whole := a.ServingGrams()
	s.Serving = u.weight(known, whole)
	for n := range s.PerServing {
		figure := a.PerServing(food.Nutrient(n))
		s.PerServing[n] = u.spread(&figure, food.Nutrient(n))
		s.Gaps[n] = append(append(Lines{}, figure.Gaps...), figure.Minor...)
	}
	tighten(&s)
	return s
}

// A seasoning that was not weighed ("salt and pepper to taste") is taken to be
// no more than a twentieth of what was: far more than anyone could eat, and
// still enough to decide what does not turn on it. Common practice, no source.
const (
	seasonings     = "herbs, spices, seasonings" // the group of food.Food
	seasoningShare = 0.05
)

// unknowns is what an account does not know the weight of.
type unknowns struct {
	lines     Lines
	takenOff  map[recipes.ID]bool       // lines that lower what they hold
	seasoning map[recipes.ID]*food.Food // unweighed seasonings
	most      float64                   // g of seasonings in a serving
	lost      bool                      // something taken off was not weighed
}

func unweighedOf(a *nutrition.Account) unknowns {
	u := unknowns{takenOff: map[recipes.ID]bool{}, seasoning: map[recipes.ID]*food.Food{}}
	for i := range a.Lines {
		l, f := &a.Draft.Lines[i], a.Lines[i].Food
		off := l.Line.Kind == recipes.TakenOff
		u.takenOff[l.Line.ID] = off
		if a.Lines[i].Weighed {
			continue
		}
		u.lines = append(u.lines, l.Line.ID)
		u.lost = u.lost || off
		if !off && f != nil && f.Group == seasonings {
			u.seasoning[l.Line.ID] = f
		}
	}
	raw, _ := a.RawGrams()
	u.most = seasoningShare * raw / a.Draft.Servings
	return u
}

// weight is a serving's weight: what is known is the least it can be, unless
// something of unknown weight was taken off.
func (u *unknowns) weight(known float64, whole bool) Value {
	switch {
	case whole && known > 0:
		return Exactly(known)
	case u.lost || !(known > 0):
		return Anything
	case len(u.seasoning) == len(u.lines):
		return Value{known, known + u.most}
	}
	return Value{known, math.Inf(1)}
}

// Limits within which an account leaves a blank to the details (see
// nutrition.Figure, Minor): such a blank is still not zero here.
const (
	minorShare = 0.01
	minorLimit = 0.1
)

// spread turns a figure into the range it lies in. What is unknown in
// something taken off lowers it, all else raises it.
func (u *unknowns) spread(f *nutrition.Figure, n food.Nutrient) Value {
	v := Exactly(max(0, f.Amount))
	slack := max(minorShare*math.Abs(f.Amount), minorLimit)
	for _, id := range f.Minor {
		if u.takenOff[id] {
			v.Low = max(0, f.Amount-slack)
		} else {
			v.High = max(0, f.Amount) + slack
		}
	}
	richest := 0.0 // of the seasonings, in one g
	for _, id := range f.Gaps {
		seasoning := u.seasoning[id]
		switch {
		case u.takenOff[id]:
			v.Low = 0
		case seasoning != nil && seasoning.Per100.Known&(1<<n) != 0:
			richest = max(richest, seasoning.Per100.Value[n]/100)
		default:
			v.High = math.Inf(1)
		}
	}
	v.High += richest * u.most
	return v
}

// tighten uses what contains what: a part is never more than its whole.
func tighten(s *Side) {
	p := &s.PerServing
	under := func(part food.Nutrient, most float64) { p[part].High = max(p[part].Low, min(p[part].High, most)) }
	under(food.SaturatedFat, p[food.Fat].High)
	under(food.TransFat, max(0, p[food.Fat].High-p[food.SaturatedFat].Low))
	under(food.Sugars, p[food.Carbohydrate].High)
	under(food.AddedSugars, p[food.Sugars].High)
}

// weightRatio is the original's serving weight over the version's. The same
// ingredients not weighed on both sides ("salt to taste") pull the ratio of
// what is known towards 1, and no further.
func weightRatio(original, version *nutrition.Account, w0, w1 Value) Value {
	ratio := w0.over(w1)
	if w0.Known() || w1.Known() || !sameUnweighed(original, version) {
		return ratio
	}
	r := div(w0.Low, w1.Low, math.Inf(1))
	return Value{max(ratio.Low, min(1, r)), min(ratio.High, max(1, r))}
}

// sameUnweighed tells whether the same lines are not weighed on both sides, in
// the same amount a serving, and none of them is taken off.
func sameUnweighed(original, version *nutrition.Account) bool {
	a, ok := unweighed(original)
	b, also := unweighed(version)
	if !ok || !also || len(a) != len(b) {
		return false
	}
	for id, share := range a {
		if other, there := b[id]; !there || !near(share, other) {
			return false
		}
	}
	return true
}

// unweighed returns how many of each unweighed line one serving holds; false
// when one is taken off or a cooked weight other than the sum hides them.
func unweighed(a *nutrition.Account) (map[recipes.ID]float64, bool) {
	out := map[recipes.ID]float64{}
	for i := range a.Lines {
		if l := &a.Draft.Lines[i]; !a.Lines[i].Weighed {
			if l.Line.Kind == recipes.TakenOff {
				return nil, false
			}
			out[l.Line.ID] += l.Scale * l.PartEaten / a.Draft.Servings
		}
	}
	return out, a.CookedBy == nutrition.CookedRaw
}
