package claims

import (
	"math"

	"parewell/recipes/food"
	"parewell/recipes/words"
)

// NeedCode names a statement that must stand beside a term.
type NeedCode string

// Needs. Sources: 21 CFR 101.13(e), (h), (j)(2), (p); 101.54(d); 101.56; 101.60
// (c); 101.61(c); 101.62(b)-(d); Regulation (EC) 1924/2006 Annex.
const (
	NeedReference         NeedCode = "reference"           // what it is compared with, by how much, both amounts
	NeedDisclosure        NeedCode = "disclosure"          // see nutrition information for ... content
	NeedDisclosureUnsure  NeedCode = "disclosure-unsure"   // whether that must be said is not known
	NeedInherent          NeedCode = "inherent"            // the original meets it too: speak of all such dishes
	NeedCriteria          NeedCode = "criteria"            // a serving is over the limit: print the limit and its amount
	NeedAsterisk          NeedCode = "asterisk"            // an ingredient that is the thing itself needs a footnote
	NeedFatAmount         NeedCode = "fat-amount"          // grams of fat in a serving
	NeedFatUnlessLow      NeedCode = "fat-unless-low"      // the same, unless the dish is low fat
	NeedFatAndCholesterol NeedCode = "fat-and-cholesterol" // both amounts in a serving
	NeedNotLowCalorie     NeedCode = "not-low-calorie"     // not a low or reduced calorie food
	NeedNotSodiumFree     NeedCode = "not-sodium-free"     // not a sodium free food
	NeedNotLowSodium      NeedCode = "not-low-sodium"      // not a low sodium food
	NeedSeePanel          NeedCode = "see-panel"           // see nutrition information for sugar and calories
	NeedLightMeans        NeedCode = "light-means"         // whether light means low fat, low calorie or both
	NeedSameType          NeedCode = "same-type"           // "light" and "in sodium" in one type
	NeedPercentFatFree    NeedCode = "percent-fat-free"    // the per cent that may be printed
	NeedWhy               NeedCode = "why"                 // what makes it light or energy-reduced
	NeedNaturalSugars     NeedCode = "natural-sugars"      // contains naturally occurring sugars
)

// Need is a statement to print beside a term. Which fields count depends on the
// code: Percent is cut to whole per cent so that it never overstates; Before
// and After are for Basis (a serving, or 100 g for main dishes and meals).
type Need struct {
	Code     NeedCode
	Nutrient food.Nutrient
	Percent  float64
	Before   float64
	After    float64
	Limit    float64
	Basis    Basis
	Labels   []string
}

// needs lists what must stand beside the term of a rule that holds.
func (f *Facts) needs(r *Rule, res *Result) []Need {
	var out []Need
	for _, code := range r.Needs {
		out = append(out, f.need(code, r, res)...)
	}
	if r.Authority == US {
		out = append(out, f.disclosures()...)
	}
	return out
}

func (f *Facts) need(code NeedCode, r *Rule, res *Result) []Need {
	one := []Need{{Code: code, Nutrient: r.Nutrient}}
	switch code {
	case NeedReference:
		return f.references(r, res)
	case NeedInherent:
		return when(f.meets(r, f.ofOriginal()) && f.Original.Known, one)
	case NeedCriteria:
		return f.criteria(r, res)
	case NeedFatAmount:
		return when(!allHold(f.tryTests(fatLevel(f.Kind))), f.fatStatement(code))
	case NeedFatUnlessLow:
		return when(!f.meetsID("low-fat"), f.fatStatement(code))
	case NeedFatAndCholesterol:
		return f.fatAndCholesterol(r)
	case NeedNotLowCalorie:
		return when(!f.meetsID("low-calorie") && !f.reducedCalorie(), one)
	case NeedNotSodiumFree:
		return when(!f.meetsID("sodium-free"), one)
	case NeedNotLowSodium:
		return when(!f.meetsID("low-sodium"), one)
	case NeedLightMeans, NeedWhy:
		one[0].Labels = res.Labels()
		return one
	case NeedPercentFatFree:
		one[0].Percent = math.Floor(100 - f.amount(&f.Version, food.Fat, Per100g).High + closeTo)
		return one
	case NeedAsterisk:
		return when(!near(f.Version.PerServing[r.Nutrient].High, 0), one)
	}
	return one
}

func when(ok bool, list []Need) []Need {
	if ok {
		return list
	}
	return nil
}

func allHold(checks []Check) bool { return together(checks) == yes }

// meets tells whether the given facts surely meet a rule.
func (f *Facts) meets(r *Rule, as *Facts) bool {
	var aside Result
	got, _ := as.tryWays(r.Ways, &aside)
	return got == yes
}

// meetsID tells whether the dish surely meets the US rule of its kind.
func (f *Facts) meetsID(name string) bool {
	kind := "us.food."
	if f.Kind != SingleFood {
		kind = "us.dish."
	}
	return f.meets(rulesByID[kind+name], f)
}

// reducedCalorie tells whether the dish may be called reduced calorie.
func (f *Facts) reducedCalorie() bool {
	id := "us.food.reduced-calorie"
	if f.Kind != SingleFood {
		id = "us.dish.reduced-calorie"
	}
	bar, _ := f.barred(rulesByID[id])
	return bar == no && f.meets(rulesByID[id], f)
}

// references gives the comparison to print: of the rule's nutrient, and for
// "light" of energy and fat both (101.56(b)(3)), for EU and Codex "light" of
// whatever made it so.
func (f *Facts) references(r *Rule, res *Result) []Need {
	list := []food.Nutrient{r.Nutrient}
	switch {
	case r.ID == "us.food.light":
		list = []food.Nutrient{food.EnergyKcal, food.Fat}
	case len(r.Ways) > 1 && r.Relative:
		list = nil
		for _, t := range res.Tried {
			if t.outcome == yes {
				list = append(list, t.Checks[0].Test.Nutrient)
			}
		}
	}
	var out []Need
	for _, n := range list {
		out = append(out, f.reference(n))
	}
	return out
}

// reference compares one nutrient with the original for the same amount of
// food. Percent is of the original, NaN where an end is not known.
func (f *Facts) reference(n food.Nutrient) Need {
	basis := PerServing
	if f.Kind != SingleFood {
		basis = Per100g
	}
	cut := reduction(f.Original.PerServing[n], f.Version.PerServing[n], f.WeightRatio)
	need := Need{
		Code: NeedReference, Nutrient: n, Basis: basis, Percent: whole(cut),
		Before: f.amount(&f.Original, n, basis).Number(), After: f.amount(&f.Version, n, basis).Number(),
	}
	return need
}

// whole cuts a reduction (or a rise, when negative) to whole per cent, from the
// end that claims least.
func whole(v Value) float64 {
	switch {
	case math.IsInf(v.Low, 0):
		return math.NaN()
	case v.Low >= 0:
		return math.Floor(v.Low + closeTo)
	case v.High <= 0 && v.Known():
		return math.Ceil(v.High - closeTo)
	}
	return math.NaN()
}

// criteria: where one serving holds more than the limit though the reference
// amount does not, the limit is printed (101.13(p)(1)).
func (f *Facts) criteria(r *Rule, res *Result) []Need {
	t := res.Tried[res.Way].Checks[0].Test
	t.Basis = PerServing
	if c := f.check(t); c.outcome == yes {
		return nil
	}
	return []Need{{Code: NeedCriteria, Nutrient: r.Nutrient, Limit: t.Limit, Basis: PerReference}}
}

// fatStatement gives the grams of fat in a serving, NaN if not known.
func (f *Facts) fatStatement(code NeedCode) []Need {
	return []Need{{Code: code, Nutrient: food.Fat, After: f.Version.PerServing[food.Fat].Number(), Basis: PerServing}}
}

// fatAndCholesterol: a claim about saturated fat stands beside the fat and the
// cholesterol, except where there is next to none of them (101.62(c)).
func (f *Facts) fatAndCholesterol(r *Rule) []Need {
	basis := PerReference
	if f.Kind != SingleFood {
		basis = PerServing
	}
	little := f.check(amount(food.Fat, PerReference, AtMost, 3)).outcome == yes
	if f.Kind != SingleFood {
		little = f.meetsID("low-fat")
	}
	if r.Term == "sat-free" {
		little = f.check(amount(food.Fat, basis, Below, 0.5)).outcome == yes
	}
	var out []Need
	if !little {
		out = append(out, f.fatStatement(NeedFatAmount)...)
	}
	if f.check(amount(food.Cholesterol, basis, Below, 2)).outcome != yes {
		out = append(out, Need{
			Code: NeedFatAndCholesterol, Nutrient: food.Cholesterol,
			After: f.Version.PerServing[food.Cholesterol].Number(), Basis: PerServing,
		})
	}
	return out
}

// Disclosure levels of 21 CFR 101.13(h): above one of them a claim must point
// to the nutrition information.
var disclosureLevels = map[Kind]map[food.Nutrient]float64{
	SingleFood: {food.Fat: 13, food.SaturatedFat: 4, food.Cholesterol: 60, food.Sodium: 480},
	MainDish:   {food.Fat: 19.5, food.SaturatedFat: 6, food.Cholesterol: 90, food.Sodium: 720},
	Meal:       {food.Fat: 26, food.SaturatedFat: 8, food.Cholesterol: 120, food.Sodium: 960},
}

// DisclosureLevel returns the level above which a claim on such a dish must
// point to the nutrition information; false for other nutrients.
func DisclosureLevel(k Kind, n food.Nutrient) (float64, bool) {
	v, ok := disclosureLevels[k][n]
	return v, ok
}

// Disclosures lists the nutrients a US claim on the version must point to, and
// those of which that cannot be told.
func Disclosures(f Facts) []Need {
	if f.Kind == "" {
		f.Kind = SingleFood
	}
	return f.disclosures()
}

func (f *Facts) disclosures() []Need {
	bases := []Basis{PerServing}
	if f.Kind == SingleFood {
		bases = []Basis{PerReference, PerServing, Per50g}
	}
	var out []Need
	for _, n := range []food.Nutrient{food.Fat, food.SaturatedFat, food.Cholesterol, food.Sodium} {
		level := disclosureLevels[f.Kind][n]
		var over truth
		for _, b := range bases {
			if t := amount(n, b, Above, level); f.applies(&t) {
				over = max(over, f.check(t).outcome)
			}
		}
		switch over {
		case yes:
			out = append(out, Need{Code: NeedDisclosure, Nutrient: n, Limit: level})
		case open:
			out = append(out, Need{Code: NeedDisclosureUnsure, Nutrient: n, Limit: level})
		}
	}
	return out
}

// Phrase says the statement as it would be printed; original is the name of
// the dish compared with.
func (n Need) Phrase(original string) words.Phrase {
	key := "claims.need." + string(n.Code)
	switch n.Code {
	case NeedReference:
		return n.referencePhrase(original)
	case NeedDisclosure, NeedDisclosureUnsure, NeedInherent, NeedAsterisk:
		return words.P(key, nutrientName(n.Nutrient))
	case NeedCriteria:
		return words.P(key, quantity(n.Nutrient, n.Limit))
	case NeedFatAmount, NeedFatUnlessLow:
		return words.P("claims.need.contains", quantity(n.Nutrient, n.After), nutrientName(n.Nutrient))
	case NeedFatAndCholesterol:
		return words.P("claims.need.contains", quantity(n.Nutrient, n.After), nutrientName(n.Nutrient))
	case NeedPercentFatFree:
		return words.P(key, words.Number(n.Percent, 0))
	case NeedLightMeans:
		return words.P(key, joined(n.Labels, func(l string) string { return words.Say("claims.term." + l) }))
	case NeedWhy:
		return words.P(key, joined(n.Labels, func(l string) string { return words.Say("claims.by." + l) }))
	}
	return words.P(key)
}

func (n Need) referencePhrase(original string) words.Phrase {
	before, after := quantity(n.Nutrient, n.Before), quantity(n.Nutrient, n.After)
	where := words.Say("claims.basis." + basisKey(n.Basis))
	switch {
	case math.IsNaN(n.Percent):
		return words.P("claims.need.amounts", nutrientName(n.Nutrient), before, after, where, original)
	case n.Percent < 0:
		return words.P("claims.need.reference-more", words.Number(-n.Percent, 0), nutrientName(n.Nutrient), original, before, after, where)
	}
	return words.P("claims.need.reference", words.Number(n.Percent, 0), nutrientName(n.Nutrient), original, before, after, where)
}

func joined(labels []string, say func(string) string) string {
	said := make([]string, len(labels))
	for i, l := range labels {
		said[i] = say(l)
	}
	return words.Join(said)
}
