package claims

import "parewell/recipes/food"

// Pages on which the EU figures were seen.
const (
	euTable   = "bryantresearch.co.uk/foodlaw, table of permitted nutrition claims"
	euSodium  = "GS1 web vocabulary, nutritional claim types, low and very low sodium"
	euGreek   = "diaitologos.com, conditions of the sugars-free and sodium-free claims"
	euSheet   = "docsbay.net, nutrition claims worksheet"
	euFinland = "ruokavirasto.fi, source of protein"
	euSpain   = "anefp.org, conditions of the light claim"
	remember  = "from memory"
)

// eu makes a rule of the Annex to Regulation (EC) 1924/2006. A source of
// remember makes its status FromMemory.
func eu(id string, term Term, n food.Nutrient, source string, w []Way, needs ...NeedCode) Rule {
	r := Rule{
		ID: "eu." + id, Term: term, Authority: EU, Nutrient: n, Ways: w,
		Section: "Regulation (EC) 1924/2006, Annex", Status: Confirmed, Source: source, Needs: needs,
	}
	if source == remember {
		r.Status = FromMemory
	}
	return r
}

// per100 is an amount for 100 g of a solid or 100 ml of a liquid.
func per100(n food.Nutrient, limit, liquid float64) Test {
	return Test{Measure: Amount, Nutrient: n, Basis: Per100, Op: AtMost, Limit: limit, LiquidLimit: liquid}
}

func sum100(limit, liquid float64) Test {
	return Test{Measure: Sum, Nutrient: food.SaturatedFat, Basis: Per100, Op: AtMost, Limit: limit, LiquidLimit: liquid}
}

// notHigher asks that a nutrient has not risen above the original.
func notHigher(n food.Nutrient) Test {
	return Test{Measure: Difference, Nutrient: n, Basis: Per100, Op: AtLeast}
}

func euRules() []Rule {
	return append(append(euLevels(), euSources()...), euCuts()...)
}

func euLevels() []Rule {
	const kcal, fat, sat, sugars, na = food.EnergyKcal, food.Fat, food.SaturatedFat, food.Sugars, food.Sodium
	sumShare := Test{Measure: SumShare, Nutrient: sat, Op: AtMost, Limit: 10}
	energyFree := eu("energy-free", "calorie-free", kcal, euTable, ways(all(per100(kcal, 4, 4))))
	energyFree.LiquidOnly = true
	return []Rule{
		energyFree,
		eu("low-energy", "low-calorie", kcal, euTable, ways(all(per100(kcal, 40, 20)))),
		eu("fat-free", "fat-free", fat, euTable, ways(all(per100(fat, 0.5, 0.5)))),
		eu("low-fat", "low-fat", fat, euTable, ways(all(per100(fat, 3, 1.5)))),
		banned(eu("percent-fat-free", "percent-fat-free", fat, euTable, nil)),
		banned(eu("all-fat-free", "all-fat-free", fat, euTable, nil)),
		eu("sat-free", "sat-free", sat, euTable, ways(all(sum100(0.1, 0.1)))),
		eu("low-sat", "low-sat", sat, euTable, ways(all(sum100(1.5, 0.75), sumShare))),
		banned(eu("low-cholesterol", "low-cholesterol", food.Cholesterol, euTable, nil)),
		banned(eu("cholesterol-free", "cholesterol-free", food.Cholesterol, euTable, nil)),
		eu("sugars-free", "sugar-free", sugars, euGreek, ways(all(per100(sugars, 0.5, 0.5)))),
		eu("low-sugars", "low-sugar", sugars, euTable, ways(all(per100(sugars, 5, 2.5)))),
		eu("no-added-sugars", "no-added-sugar", food.AddedSugars, remember,
			ways(all(amount(food.AddedSugars, PerServing, AtMost, 0), asked(AskNoSweetener))), NeedNaturalSugars),
		eu("sodium-free", "sodium-free", na, euGreek, ways(all(per100(na, 5, 5)))),
		eu("very-low-sodium", "very-low-sodium", na, euSodium, ways(all(per100(na, 40, 40)))),
		eu("low-sodium", "low-sodium", na, euSodium, ways(all(per100(na, 120, 120)))),
		eu("no-added-salt", "no-salt-added", na, euSheet, ways(all(asked(AskNoSalt), per100(na, 120, 120)))),
	}
}

func banned(r Rule) Rule {
	r.NotDefined = true
	return r
}

func euSources() []Rule {
	const fibre, protein = food.Fibre, food.Protein
	fibreWays := func(grams, forEnergy float64) []Way {
		return ways(
			all(Test{Measure: Amount, Nutrient: fibre, Basis: Per100g, Op: AtLeast, Limit: grams}),
			all(Test{Measure: Per100kcal, Nutrient: fibre, Op: AtLeast, Limit: forEnergy}))
	}
	return []Rule{
		eu("source-fibre", "source-fibre", fibre, remember, fibreWays(3, 1.5)),
		eu("high-fibre", "high-fibre", fibre, euSheet, fibreWays(6, 3)),
		eu("source-protein", "source-protein", protein, euFinland, ways(all(share(protein, AtLeast, 12)))),
		eu("high-protein", "high-protein", protein, remember, ways(all(share(protein, AtLeast, 20)))),
	}
}

// euCuts are the comparative claims: at least 30 % less for the same amount of
// food, 25 % for salt; saturated fat and sugars with a second condition
// (Regulation (EU) 1047/2012). "Light" follows "reduced" and says by what.
func euCuts() []Rule {
	const kcal, fat, sat, sugars, na = food.EnergyKcal, food.Fat, food.SaturatedFat, food.Sugars, food.Sodium
	energy := all(lessBy(kcal, Per100, 30))
	fatCut := all(lessBy(fat, Per100, 30))
	satCut := all(Test{Measure: SumReduction, Nutrient: sat, Basis: Per100, Op: AtLeast, Limit: 30}, notHigher(food.TransFat))
	sugarCut := all(lessBy(sugars, Per100, 30), notHigher(kcal))
	saltCut := all(lessBy(na, Per100, 25))
	as := func(label string, w Way) Way { return Way{Label: label, Tests: w.Tests} }
	list := []Rule{
		eu("energy-reduced", "reduced-calorie", kcal, euTable, ways(energy), NeedReference, NeedWhy),
		eu("reduced-fat", "reduced-fat", fat, euSpain, ways(fatCut), NeedReference),
		eu("reduced-sat", "reduced-sat", sat, remember, ways(satCut), NeedReference),
		eu("reduced-sugars", "reduced-sugar", sugars, remember, ways(sugarCut), NeedReference),
		eu("reduced-sodium", "reduced-sodium", na, euSpain, ways(saltCut), NeedReference),
		eu("light", "light", kcal, euSpain, ways(
			as("energy", energy), as("fat", fatCut), as("saturated-fat", satCut), as("sugars", sugarCut), as("sodium", saltCut)),
			NeedReference, NeedWhy),
	}
	for i := range list {
		list[i].Relative = true
	}
	return list
}

// codex makes a rule of CXG 23-1997. Its table was not read whole; only the
// figure for energy-free liquids was seen (fao.org/3/w3663e/w3663e07.htm).
func codex(id string, term Term, n food.Nutrient, w []Way, needs ...NeedCode) Rule {
	return Rule{
		ID: "codex." + id, Term: term, Authority: Codex, Nutrient: n, Ways: w,
		Section: "CXG 23-1997, table of conditions", Status: FromMemory, Source: remember, Needs: needs,
	}
}

func codexRules() []Rule {
	const kcal, fat, sat, ch, sugars, na = food.EnergyKcal, food.Fat, food.SaturatedFat, food.Cholesterol, food.Sugars, food.Sodium
	satShare := share(sat, AtMost, 10)
	energyFree := codex("energy-free", "calorie-free", kcal, ways(all(per100(kcal, 4, 4))))
	energyFree.LiquidOnly, energyFree.Status, energyFree.Source = true, Confirmed, "fao.org/3/w3663e/w3663e07.htm"
	list := []Rule{
		energyFree,
		codex("low-energy", "low-calorie", kcal, ways(all(per100(kcal, 40, 20)))),
		codex("fat-free", "fat-free", fat, ways(all(per100(fat, 0.5, 0.5)))),
		codex("low-fat", "low-fat", fat, ways(all(per100(fat, 3, 1.5)))),
		codex("sat-free", "sat-free", sat, ways(all(per100(sat, 0.1, 0.1)))),
		codex("low-sat", "low-sat", sat, ways(all(per100(sat, 1.5, 0.75), satShare))),
		codex("cholesterol-free", "cholesterol-free", ch, ways(all(per100(ch, 5, 5), per100(sat, 1.5, 0.75), satShare))),
		codex("low-cholesterol", "low-cholesterol", ch, ways(all(per100(ch, 20, 10), per100(sat, 1.5, 0.75), satShare))),
		codex("sugars-free", "sugar-free", sugars, ways(all(per100(sugars, 0.5, 0.5)))),
		codex("sodium-free", "sodium-free", na, ways(all(per100(na, 5, 5)))),
		codex("very-low-sodium", "very-low-sodium", na, ways(all(per100(na, 40, 40)))),
		codex("low-sodium", "low-sodium", na, ways(all(per100(na, 120, 120)))),
	}
	return append(list, codexCuts()...)
}

// codexCuts: at least 25 % less, and less by at least the amount that "low"
// allows. "Light" follows "reduced".
func codexCuts() []Rule {
	cuts := []struct {
		id            string
		term          Term
		label         string
		n             food.Nutrient
		least, liquid float64
	}{
		{"reduced-energy", "reduced-calorie", "energy", food.EnergyKcal, 40, 20},
		{"reduced-fat", "reduced-fat", "fat", food.Fat, 3, 1.5},
		{"reduced-sat", "reduced-sat", "saturated-fat", food.SaturatedFat, 1.5, 0.75},
		{"reduced-cholesterol", "reduced-cholesterol", "cholesterol", food.Cholesterol, 20, 10},
		{"reduced-sodium", "reduced-sodium", "sodium", food.Sodium, 120, 120},
	}
	var list []Rule
	var light []Way
	for _, c := range cuts {
		by := Test{Measure: Difference, Nutrient: c.n, Basis: Per100, Op: AtLeast, Limit: c.least, LiquidLimit: c.liquid}
		tests := []Test{lessBy(c.n, Per100, quarter), by}
		list = append(list, codex(c.id, c.term, c.n, ways(all(tests...)), NeedReference))
		light = append(light, labelled(c.label, tests...))
	}
	list = append(list, codex("light", "light", food.EnergyKcal, light, NeedReference, NeedWhy))
	for i := range list {
		list[i].Relative = true
		list[i].Section = "CXG 23-1997, section 6"
	}
	return list
}
