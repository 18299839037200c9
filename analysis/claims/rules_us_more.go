package claims

import "parewell/recipes/food"

// fatLevel is the fat above which a cholesterol claim needs more: 13 g for a
// food, 19.5 for a main dish, 26 for a meal (21 CFR 101.62(d)).
func fatLevel(k Kind) []Test {
	switch k {
	case MainDish:
		return []Test{amount(food.Fat, PerServing, AtMost, 19.5)}
	case Meal:
		return []Test{amount(food.Fat, PerServing, AtMost, 26)}
	}
	return []Test{amount(food.Fat, PerReference, AtMost, 13), amount(food.Fat, PerServing, AtMost, 13), amount(food.Fat, Per50g, AtMost, 13)}
}

// cholesterolWays gives the three ways to "free" and "low": little fat; or the
// cholesterol cut by a quarter; or the original just as low of itself.
func cholesterolWays(k Kind, basis Basis, claim, fatter []Test, inherent Test) []Way {
	join := func(a []Test, b ...Test) []Test { return append(a[:len(a):len(a)], b...) }
	return ways(
		all(join(claim, fatLevel(k)...)...),
		all(join(fatter, lessBy(food.Cholesterol, basis, quarter))...),
		all(join(fatter, ofOriginal(inherent))...),
	)
}

func usCholesterolRules() []Rule {
	const ch, sat = food.Cholesterol, food.SaturatedFat
	free := []Test{amount(ch, PerReference, Below, 2), amount(ch, PerServing, Below, 2), amount(sat, PerReference, AtMost, 2)}
	low := []Test{amount(ch, PerReference, AtMost, 20), amount(ch, Per50g, AtMost, 20), amount(sat, PerReference, AtMost, 2)}
	list := []Rule{
		us("us.food.cholesterol-free", "cholesterol-free", foods, ch, "101.62(d)(1)",
			cholesterolWays(SingleFood, PerReference, free, free, amount(ch, PerReference, Below, 2)), NeedFatAmount, NeedInherent, NeedAsterisk),
		us("us.food.low-cholesterol", "low-cholesterol", foods, ch, "101.62(d)(2)",
			cholesterolWays(SingleFood, PerReference, low, low, amount(ch, PerReference, AtMost, 20)), NeedFatAmount, NeedInherent, NeedCriteria),
	}
	for _, k := range dishes {
		list = append(list, dishCholesterol(k)...)
	}
	cut := reduced("reduced-cholesterol", "reduced-cholesterol", ch, "101.62(d)(4)", "101.62(d)(5)", "low-cholesterol", NeedFatAmount)
	cut[0].Ways[0].Tests = append(cut[0].Ways[0].Tests, amount(sat, PerReference, AtMost, 2))
	cut[1].Ways[0].Tests = append(cut[1].Ways[0].Tests, amount(sat, Per100g, AtMost, 2))
	byMeal := cut[1]
	cut[1].Kinds, cut[1].ID, cut[1].NotIfOriginal = []Kind{MainDish}, "us.main.reduced-cholesterol", []string{"us.main.low-cholesterol"}
	byMeal.Kinds, byMeal.ID, byMeal.NotIfOriginal = []Kind{Meal}, "us.meal.reduced-cholesterol", []string{"us.meal.low-cholesterol"}
	return append(append(list, cut...), byMeal)
}

// dishCholesterol: for a fat dish "free" asks for less than 2 g of saturated
// fat where a lean one may have 2 g (101.62(d)(1)(ii)(C)).
func dishCholesterol(k Kind) []Rule {
	const ch, sat = food.Cholesterol, food.SaturatedFat
	name := map[Kind]string{MainDish: "us.main.", Meal: "us.meal."}[k]
	kind := []Kind{k}
	free := []Test{amount(ch, PerServing, Below, 2), amount(sat, PerServing, AtMost, 2)}
	fatter := []Test{amount(ch, PerServing, Below, 2), amount(sat, PerServing, Below, 2)}
	low := []Test{amount(ch, Per100g, AtMost, 20), amount(sat, Per100g, AtMost, 2)}
	return []Rule{
		us(name+"cholesterol-free", "cholesterol-free", kind, ch, "101.62(d)(1)",
			cholesterolWays(k, Per100g, free, fatter, amount(ch, PerServing, Below, 2)), NeedFatAmount, NeedInherent, NeedAsterisk),
		us(name+"low-cholesterol", "low-cholesterol", kind, ch, "101.62(d)(3)",
			cholesterolWays(k, Per100g, low, low, amount(ch, Per100g, AtMost, 20)), NeedFatAmount, NeedInherent),
	}
}

// leanest is a set of fat, saturated fat and cholesterol limits on the bases.
func leanest(fat float64, satOp Op, sat, cholesterol float64, bases ...Basis) []Way {
	var tests []Test
	for _, b := range bases {
		tests = append(tests, amount(food.Fat, b, Below, fat), amount(food.SaturatedFat, b, satOp, sat), amount(food.Cholesterol, b, Below, cholesterol))
	}
	return ways(all(tests...))
}

func usLeanRules() []Rule {
	meats := []Rule{
		us("us.food.lean", "lean", foods, food.Fat, "101.62(e)(1)", leanest(10, AtMost, 4.5, 95, PerReference, Per100g)),
		us("us.food.extra-lean", "extra-lean", foods, food.Fat, "101.62(e)(4)", leanest(5, Below, 2, 95, PerReference, Per100g)),
	}
	for i := range meats {
		meats[i].Only = MeatOrFish
		meats[i].Section += "; 9 CFR 317.362(e)"
		meats[i].Source = cfrMeat
	}
	mixed := us("us.mixed.lean", "lean", foods, food.Fat, "101.62(e)(2)", leanest(8, AtMost, 3.5, 80, PerReference))
	mixed.Only = MixedNotCup
	return append(meats, mixed,
		us("us.dish.lean", "lean", dishes, food.Fat, "101.62(e)(3)", leanest(10, AtMost, 4.5, 95, Per100g, PerServing)),
		us("us.dish.extra-lean", "extra-lean", dishes, food.Fat, "101.62(e)(5)", leanest(5, Below, 2, 95, Per100g, PerServing)))
}

// dailyValues are the US reference daily values for adults (21 CFR 101.9(c)(8)
// and (9) as changed by 81 FR 33742, 2016), in each nutrient's unit.
var dailyValues = map[food.Nutrient]float64{
	food.Fat: 78, food.SaturatedFat: 20, food.Cholesterol: 300, food.Carbohydrate: 275, food.Sodium: 2300,
	food.Fibre: 28, food.Protein: 50, food.AddedSugars: 50, food.Calcium: 1300, food.Iron: 18, food.Potassium: 4700,
}

// DailyValue returns the US daily value of a nutrient in its own unit; false
// where there is none.
func DailyValue(n food.Nutrient) (float64, bool) {
	v, ok := dailyValues[n]
	return v, ok
}

// sources are the nutrients a cook may call a dish rich in.
var sources = []struct {
	nutrient food.Nutrient
	name     string
}{
	{food.Protein, "protein"},
	{food.Fibre, "fibre"},
	{food.Potassium, "potassium"},
	{food.Calcium, "calcium"},
	{food.Iron, "iron"},
}

func usSourceRules() []Rule {
	var list []Rule
	daily := func(m Measure, n food.Nutrient, b Basis, op Op, limit float64) Test {
		return Test{Measure: m, Nutrient: n, Basis: b, Op: op, Limit: limit}
	}
	for _, s := range sources {
		n := s.nutrient
		var needs []NeedCode
		if n == food.Fibre {
			needs = []NeedCode{NeedFatUnlessLow}
		}
		more := append([]NeedCode{NeedReference}, needs...)
		list = append(list,
			us("us.food.high-"+s.name, Term("high-"+s.name), foods, n, "101.54(b)(1)",
				ways(all(daily(DailyShare, n, PerReference, AtLeast, 20))), needs...),
			us("us.dish.high-"+s.name, Term("high-"+s.name), dishes, n, "101.54(b)(2)", ways(all(asked(AskComponent))), needs...),
			us("us.food.source-"+s.name, Term("source-"+s.name), foods, n, "101.54(c)(1)",
				ways(all(daily(DailyShare, n, PerReference, AtLeast, 10), daily(DailyShare, n, PerReference, Below, 20))), needs...),
			us("us.dish.source-"+s.name, Term("source-"+s.name), dishes, n, "101.54(c)(2)", ways(all(asked(AskComponent))), needs...),
			us("us.food.more-"+s.name, Term("more-"+s.name), foods, n, "101.54(e)(1)",
				ways(all(daily(DailyGain, n, PerReference, AtLeast, 10))), more...),
			us("us.dish.more-"+s.name, Term("more-"+s.name), dishes, n, "101.54(e)(2)",
				ways(all(daily(DailyGain, n, Per100g, AtLeast, 10))), more...))
	}
	return list
}
