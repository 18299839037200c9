package claims

import "parewell/recipes/food"

// Sources of the US figures: the 2015 annual edition of 21 CFR part 101 was
// read for each of them.
const (
	cfr101  = "21 CFR part 101, 2015 annual edition"
	cfrMeat = "9 CFR 317.362(e), 2015 annual edition; poultry 381.462 from memory"
)

var (
	foods  = []Kind{SingleFood}
	dishes = []Kind{MainDish, Meal}
)

// The least cuts of 21 CFR 101.56, .60, .61 and .62, in per cent.
const (
	quarter = 25
	third   = 100.0 / 3
	half    = 50
)

func amount(n food.Nutrient, basis Basis, op Op, limit float64) Test {
	return Test{Measure: Amount, Nutrient: n, Basis: basis, Op: op, Limit: limit}
}

func ofOriginal(t Test) Test {
	t.OnOriginal = true
	return t
}

func share(n food.Nutrient, op Op, percent float64) Test {
	return Test{Measure: EnergyShare, Nutrient: n, Op: op, Limit: percent}
}

func lessBy(n food.Nutrient, basis Basis, percent float64) Test {
	return Test{Measure: Reduction, Nutrient: n, Basis: basis, Op: AtLeast, Limit: percent}
}

func asked(q Question) Test { return Test{Measure: Asked, Question: q} }

func all(tests ...Test) Way { return Way{Tests: tests} }

func labelled(label string, tests ...Test) Way { return Way{Label: label, Tests: tests} }

func ways(w ...Way) []Way { return w }

// us makes a confirmed US rule from its id, section and ways.
func us(id string, term Term, kinds []Kind, n food.Nutrient, section string, w []Way, needs ...NeedCode) Rule {
	return Rule{
		ID: id, Term: term, Authority: US, Kinds: kinds, Nutrient: n, Ways: w,
		Section: "21 CFR " + section, Status: Confirmed, Source: cfr101, Needs: needs,
	}
}

// reduced makes the pair of "reduced" rules of a nutrient: per reference
// amount for foods, per 100 g for dishes, neither where the original is low.
func reduced(id string, term Term, n food.Nutrient, forFood, forDish string, low string, needs ...NeedCode) []Rule {
	needs = append([]NeedCode{NeedReference}, needs...)
	pair := []Rule{
		us("us.food."+id, term, foods, n, forFood, ways(all(lessBy(n, PerReference, quarter))), needs...),
		us("us.dish."+id, term, dishes, n, forDish, ways(all(lessBy(n, Per100g, quarter))), needs...),
	}
	for i := range pair {
		pair[i].Relative = true
	}
	if low != "" {
		pair[0].NotIfOriginal = []string{"us.food." + low}
		pair[1].NotIfOriginal = []string{"us.dish." + low}
	}
	return pair
}

func usEnergyRules() []Rule {
	const n = food.EnergyKcal
	list := []Rule{
		us("us.food.calorie-free", "calorie-free", foods, n, "101.60(b)(1)",
			ways(all(amount(n, PerReference, Below, 5), amount(n, PerServing, Below, 5))), NeedInherent),
		us("us.food.low-calorie", "low-calorie", foods, n, "101.60(b)(2)",
			ways(all(amount(n, PerReference, AtMost, 40), amount(n, Per50g, AtMost, 40))), NeedInherent, NeedCriteria),
		us("us.dish.low-calorie", "low-calorie", dishes, n, "101.60(b)(3)",
			ways(all(amount(n, Per100g, AtMost, 120))), NeedInherent),
	}
	return append(list, reduced("reduced-calorie", "reduced-calorie", n, "101.60(b)(4)", "101.60(b)(5)", "low-calorie")...)
}

func usFatRules() []Rule {
	const fat, sat, trans = food.Fat, food.SaturatedFat, food.TransFat
	fatFree := all(amount(fat, PerReference, Below, 0.5), amount(fat, PerServing, Below, 0.5))
	dishFree := all(amount(fat, PerServing, Below, 0.5))
	low := all(amount(fat, PerReference, AtMost, 3), amount(fat, Per50g, AtMost, 3))
	dishLow := all(amount(fat, Per100g, AtMost, 3), share(fat, AtMost, 30))
	entirely := []Test{amount(fat, Per100g, Below, 0.5), asked(AskNoFat)}
	list := []Rule{
		us("us.food.fat-free", "fat-free", foods, fat, "101.62(b)(1)", ways(fatFree), NeedInherent, NeedAsterisk),
		us("us.dish.fat-free", "fat-free", dishes, fat, "101.62(b)(1)", ways(dishFree), NeedInherent, NeedAsterisk),
		us("us.food.low-fat", "low-fat", foods, fat, "101.62(b)(2)", ways(low), NeedInherent, NeedCriteria),
		us("us.dish.low-fat", "low-fat", dishes, fat, "101.62(b)(3)", ways(dishLow), NeedInherent),
		us("us.food.percent-fat-free", "percent-fat-free", foods, fat, "101.62(b)(6)", ways(low), NeedPercentFatFree),
		us("us.dish.percent-fat-free", "percent-fat-free", dishes, fat, "101.62(b)(6)", ways(dishLow), NeedPercentFatFree),
		us("us.food.all-fat-free", "all-fat-free", foods, fat, "101.62(b)(6)(iii)", ways(all(append(fatFree.Tests[:2:2], entirely...)...))),
		us("us.dish.all-fat-free", "all-fat-free", dishes, fat, "101.62(b)(6)(iii)", ways(all(append(dishFree.Tests[:1:1], entirely...)...))),
		us("us.food.sat-free", "sat-free", foods, sat, "101.62(c)(1)", ways(all(
			amount(sat, PerReference, Below, 0.5), amount(sat, PerServing, Below, 0.5),
			amount(trans, PerReference, Below, 0.5), amount(trans, PerServing, Below, 0.5))), NeedFatAndCholesterol, NeedInherent, NeedAsterisk),
		us("us.dish.sat-free", "sat-free", dishes, sat, "101.62(c)(1)",
			ways(all(amount(sat, PerServing, Below, 0.5), amount(trans, PerServing, Below, 0.5))), NeedFatAndCholesterol, NeedInherent, NeedAsterisk),
		us("us.food.low-sat", "low-sat", foods, sat, "101.62(c)(2)",
			ways(all(amount(sat, PerReference, AtMost, 1), share(sat, AtMost, 15))), NeedFatAndCholesterol, NeedInherent),
		us("us.dish.low-sat", "low-sat", dishes, sat, "101.62(c)(3)",
			ways(all(amount(sat, Per100g, AtMost, 1), share(sat, Below, 10))), NeedFatAndCholesterol, NeedInherent),
	}
	list = append(list, reduced("reduced-fat", "reduced-fat", fat, "101.62(b)(4)", "101.62(b)(5)", "low-fat")...)
	return append(list, reduced("reduced-sat", "reduced-sat", sat, "101.62(c)(4)", "101.62(c)(5)", "low-sat", NeedFatAndCholesterol)...)
}

func usSodiumRules() []Rule {
	const n = food.Sodium
	list := []Rule{
		us("us.food.sodium-free", "sodium-free", foods, n, "101.61(b)(1)",
			ways(all(amount(n, PerReference, Below, 5), amount(n, PerServing, Below, 5))), NeedInherent, NeedAsterisk),
		us("us.dish.sodium-free", "sodium-free", dishes, n, "101.61(b)(1)",
			ways(all(amount(n, PerServing, Below, 5))), NeedInherent, NeedAsterisk),
		us("us.food.very-low-sodium", "very-low-sodium", foods, n, "101.61(b)(2)",
			ways(all(amount(n, PerReference, AtMost, 35), amount(n, Per50g, AtMost, 35))), NeedInherent, NeedCriteria),
		us("us.dish.very-low-sodium", "very-low-sodium", dishes, n, "101.61(b)(3)",
			ways(all(amount(n, Per100g, AtMost, 35))), NeedInherent),
		us("us.food.low-sodium", "low-sodium", foods, n, "101.61(b)(4)",
			ways(all(amount(n, PerReference, AtMost, 140), amount(n, Per50g, AtMost, 140))), NeedInherent, NeedCriteria),
		us("us.dish.low-sodium", "low-sodium", dishes, n, "101.61(b)(5)",
			ways(all(amount(n, Per100g, AtMost, 140))), NeedInherent),
		us("us.no-salt-added", "no-salt-added", nil, n, "101.61(c)(2)",
			ways(all(asked(AskNoSalt), Test{Measure: Difference, Nutrient: n, Basis: Per100g, Op: Above})), NeedNotSodiumFree),
		us("us.lightly-salted", "lightly-salted", nil, n, "101.56(g)",
			ways(all(asked(AskHalfSalt))), NeedReference, NeedNotLowSodium),
	}
	return append(list, reduced("reduced-sodium", "reduced-sodium", n, "101.61(b)(6)", "101.61(b)(7)", "low-sodium")...)
}

func usSugarRules() []Rule {
	const n, added = food.Sugars, food.AddedSugars
	undefined := us("us.low-sugar", "low-sugar", nil, n, "101.60(c)", nil)
	undefined.NotDefined = true
	list := []Rule{
		us("us.food.sugar-free", "sugar-free", foods, n, "101.60(c)(1)",
			ways(all(amount(n, PerReference, Below, 0.5), amount(n, PerServing, Below, 0.5))), NeedNotLowCalorie, NeedAsterisk),
		us("us.dish.sugar-free", "sugar-free", dishes, n, "101.60(c)(1)",
			ways(all(amount(n, PerServing, Below, 0.5))), NeedNotLowCalorie, NeedAsterisk),
		us("us.no-added-sugar", "no-added-sugar", nil, added, "101.60(c)(2)", ways(all(
			amount(added, PerServing, AtMost, 0), asked(AskNoSweetener),
			ofOriginal(amount(added, PerServing, Above, 0)))), NeedNotLowCalorie, NeedSeePanel),
		undefined,
	}
	return append(list, reduced("reduced-sugar", "reduced-sugar", n, "101.60(c)(5)", "101.60(c)(6)", "")...)
}

// usLightRules: "light" by fat or, where less than half the energy is fat, by
// energy. By fat needs no test of the share, because a cut of half the fat is
// enough on either side of it.
func usLightRules() []Rule {
	const kcal, fat, na = food.EnergyKcal, food.Fat, food.Sodium
	light := us("us.food.light", "light", foods, kcal, "101.56(b)", ways(
		labelled("fat", lessBy(fat, PerReference, half)),
		labelled("energy", lessBy(kcal, PerReference, third), share(fat, Below, 50))), NeedReference)
	light.Relative, light.NotIfOriginal = true, []string{"us.food.low-fat", "us.food.low-calorie"}
	bySodium := us("us.food.light-by-sodium", "light", foods, na, "101.56(c)(1)", ways(labelled("sodium",
		lessBy(na, PerReference, half),
		ofOriginal(amount(kcal, PerReference, AtMost, 40)),
		ofOriginal(amount(fat, PerReference, AtMost, 3)))), NeedReference)
	bySodium.Relative, bySodium.NotIfOriginal = true, []string{"us.food.low-sodium"}
	inSodium := us("us.food.light-in-sodium", "light-in-sodium", foods, na, "101.56(c)(2)",
		ways(all(lessBy(na, PerReference, half))), NeedReference, NeedSameType)
	inSodium.Relative, inSodium.NotIfOriginal = true, []string{"us.food.low-sodium"}
	return []Rule{
		light, bySodium, inSodium,
		us("us.dish.light", "light", dishes, kcal, "101.56(d)(1)", ways(
			labelled("low-calorie", amount(kcal, Per100g, AtMost, 120)),
			labelled("low-fat", amount(fat, Per100g, AtMost, 3), share(fat, AtMost, 30))), NeedLightMeans),
		us("us.dish.light-in-sodium", "light-in-sodium", dishes, na, "101.56(d)(2)",
			ways(all(amount(na, Per100g, AtMost, 140))), NeedSameType),
	}
}
