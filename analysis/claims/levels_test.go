package claims

import (
	"testing"

	"parewell/recipes/food"
)

// limitRow is one limit of one rule: the figure of 100 g at the limit passes or
// not, below and above it the other way round as op says. base holds the other
// figures of 100 g the rule looks at.
type limitRow struct {
	section string
	rule    string
	kind    Kind
	n       food.Nutrient
	limit   float64
	op      Op
	base    amounts
	liquid  bool
}

// asText keeps the rows short.
const (
	kcal, fat, sat, chol   = food.EnergyKcal, food.Fat, food.SaturatedFat, food.Cholesterol
	sugars, na, trans      = food.Sugars, food.Sodium, food.TransFat
	fibre, protein         = food.Fibre, food.Protein
	potassium, calcium, fe = food.Potassium, food.Calcium, food.Iron
	addedSugars            = food.AddedSugars
)

var much = amounts{kcal: 1000} // so that no share of the energy is large

var usLimits = []limitRow{
	{"101.60(b)(1)", "us.food.calorie-free", SingleFood, kcal, 5, Below, nil, false},
	{"101.60(b)(2)", "us.food.low-calorie", SingleFood, kcal, 40, AtMost, nil, false},
	{"101.60(b)(3)", "us.dish.low-calorie", MainDish, kcal, 120, AtMost, nil, false},
	{"101.60(b)(3)", "us.dish.low-calorie", Meal, kcal, 120, AtMost, nil, false},
	{"101.62(b)(1)", "us.food.fat-free", SingleFood, fat, 0.5, Below, much, false},
	{"101.62(b)(2)", "us.food.low-fat", SingleFood, fat, 3, AtMost, much, false},
	{"101.62(b)(3)", "us.dish.low-fat", MainDish, fat, 3, AtMost, much, false},
	{"101.62(b)(3), 30 % of 60 kcal is 2 g", "us.dish.low-fat", Meal, fat, 2, AtMost, amounts{kcal: 60}, false},
	{"101.62(b)(6)", "us.food.percent-fat-free", SingleFood, fat, 3, AtMost, much, false},
	{"101.62(b)(6)", "us.dish.percent-fat-free", Meal, fat, 3, AtMost, much, false},
	{"101.62(c)(1)", "us.food.sat-free", SingleFood, sat, 0.5, Below, much, false},
	{"101.62(c)(1), trans", "us.food.sat-free", SingleFood, trans, 0.5, Below, much, false},
	{"101.62(c)(2)", "us.food.low-sat", SingleFood, sat, 1, AtMost, much, false},
	{"101.62(c)(2), 15 % of 48 kcal is 0.8 g", "us.food.low-sat", SingleFood, sat, 0.8, AtMost, amounts{kcal: 48}, false},
	{"101.62(c)(3)", "us.dish.low-sat", MainDish, sat, 1, AtMost, much, false},
	{"101.62(c)(3), less than 10 % of 72 kcal is 0.8 g", "us.dish.low-sat", Meal, sat, 0.8, Below, amounts{kcal: 72}, false},
	{"101.62(d)(1)", "us.food.cholesterol-free", SingleFood, chol, 2, Below, much, false},
	{"101.62(d)(1)(i)(C)", "us.food.cholesterol-free", SingleFood, sat, 2, AtMost, much, false},
	{"101.62(d)(2)(i)(A)", "us.food.low-cholesterol", SingleFood, chol, 20, AtMost, much, false},
	{"101.62(d)(2)(i)(B)", "us.food.low-cholesterol", SingleFood, sat, 2, AtMost, much, false},
	{"101.62(d)(3)", "us.main.low-cholesterol", MainDish, chol, 20, AtMost, much, false},
	{"101.62(d)(3)", "us.meal.low-cholesterol", Meal, chol, 20, AtMost, much, false},
	{"101.62(d)(3)", "us.main.low-cholesterol", MainDish, sat, 2, AtMost, much, false},
	{"101.61(b)(1)", "us.food.sodium-free", SingleFood, na, 5, Below, nil, false},
	{"101.61(b)(2)", "us.food.very-low-sodium", SingleFood, na, 35, AtMost, nil, false},
	{"101.61(b)(3)", "us.dish.very-low-sodium", MainDish, na, 35, AtMost, nil, false},
	{"101.61(b)(4)", "us.food.low-sodium", SingleFood, na, 140, AtMost, nil, false},
	{"101.61(b)(5)", "us.dish.low-sodium", Meal, na, 140, AtMost, nil, false},
	{"101.60(c)(1)", "us.food.sugar-free", SingleFood, sugars, 0.5, Below, nil, false},
	{"101.56(d)(1), low calorie", "us.dish.light", MainDish, kcal, 120, AtMost, amounts{fat: 50}, false},
	{"101.56(d)(1), low fat", "us.dish.light", Meal, fat, 3, AtMost, much, false},
	{"101.56(d)(2)", "us.dish.light-in-sodium", MainDish, na, 140, AtMost, nil, false},
	{"101.54(b)(1), 20 % of 28 g", "us.food.high-fibre", SingleFood, fibre, 5.6, AtLeast, nil, false},
	{"101.54(c)(1), 10 % of 28 g", "us.food.source-fibre", SingleFood, fibre, 2.8, AtLeast, nil, false},
	{"101.54(c)(1), less than 20 %", "us.food.source-fibre", SingleFood, fibre, 5.6, Below, nil, false},
	{"101.54(b)(1), 20 % of 4,700 mg", "us.food.high-potassium", SingleFood, potassium, 940, AtLeast, nil, false},
	{"101.54(c)(1), 10 % of 4,700 mg", "us.food.source-potassium", SingleFood, potassium, 470, AtLeast, nil, false},
	{"101.54(b)(1), 20 % of 1,300 mg", "us.food.high-calcium", SingleFood, calcium, 260, AtLeast, nil, false},
	{"101.54(c)(1), 10 % of 1,300 mg", "us.food.source-calcium", SingleFood, calcium, 130, AtLeast, nil, false},
	{"101.54(b)(1), 20 % of 18 mg", "us.food.high-iron", SingleFood, fe, 3.6, AtLeast, nil, false},
	{"101.54(c)(1), 10 % of 18 mg", "us.food.source-iron", SingleFood, fe, 1.8, AtLeast, nil, false},
	{"101.54(e)(1), 10 % of 28 g", "us.food.more-fibre", SingleFood, fibre, 2.8, AtLeast, nil, false},
	{"101.54(e)(2), 10 % of 28 g", "us.dish.more-fibre", MainDish, fibre, 2.8, AtLeast, nil, false},
	{"101.54(e)(1), 10 % of 4,700 mg", "us.food.more-potassium", SingleFood, potassium, 470, AtLeast, nil, false},
	{"101.54(e)(2), 10 % of 4,700 mg", "us.dish.more-potassium", Meal, potassium, 470, AtLeast, nil, false},
	{"101.54(e)(1), 10 % of 1,300 mg", "us.food.more-calcium", SingleFood, calcium, 130, AtLeast, nil, false},
	{"101.54(e)(2), 10 % of 1,300 mg", "us.dish.more-calcium", MainDish, calcium, 130, AtLeast, nil, false},
	{"101.54(e)(1), 10 % of 18 mg", "us.food.more-iron", SingleFood, fe, 1.8, AtLeast, nil, false},
	{"101.54(e)(2), 10 % of 18 mg", "us.dish.more-iron", MainDish, fe, 1.8, AtLeast, nil, false},
}

const annex = "1924/2006 Annex"

var euLimits = []limitRow{
	{annex, "eu.low-energy", SingleFood, kcal, 40, AtMost, nil, false},
	{annex + ", liquid", "eu.low-energy", SingleFood, kcal, 20, AtMost, nil, true},
	{annex + ", liquid", "eu.energy-free", SingleFood, kcal, 4, AtMost, nil, true},
	{annex, "eu.fat-free", SingleFood, fat, 0.5, AtMost, nil, false},
	{annex, "eu.low-fat", MainDish, fat, 3, AtMost, nil, false},
	{annex + ", liquid", "eu.low-fat", SingleFood, fat, 1.5, AtMost, nil, true},
	{annex, "eu.sat-free", SingleFood, sat, 0.1, AtMost, amounts{fat: 10}, false},
	{annex, "eu.low-sat", SingleFood, sat, 1.5, AtMost, amounts{kcal: 1000, fat: 10}, false},
	{annex + ", trans counts", "eu.low-sat", SingleFood, trans, 0.5, AtMost, amounts{kcal: 1000, fat: 10, sat: 1}, false},
	{annex + ", liquid", "eu.low-sat", SingleFood, sat, 0.75, AtMost, amounts{kcal: 1000, fat: 10}, true},
	{annex + ", 10 % of 90 kcal is 1 g", "eu.low-sat", SingleFood, sat, 1, AtMost, amounts{kcal: 90, fat: 10}, false},
	{annex, "eu.sugars-free", SingleFood, sugars, 0.5, AtMost, nil, false},
	{annex, "eu.low-sugars", Meal, sugars, 5, AtMost, nil, false},
	{annex + ", liquid", "eu.low-sugars", SingleFood, sugars, 2.5, AtMost, nil, true},
	{annex, "eu.sodium-free", SingleFood, na, 5, AtMost, nil, false},
	{annex, "eu.very-low-sodium", SingleFood, na, 40, AtMost, nil, false},
	{annex, "eu.low-sodium", SingleFood, na, 120, AtMost, nil, false},
	{annex + ", 3 g in 100 g", "eu.source-fibre", SingleFood, fibre, 3, AtLeast, amounts{kcal: 500}, false},
	{annex + ", 1.5 g in 100 kcal", "eu.source-fibre", SingleFood, fibre, 0.75, AtLeast, amounts{kcal: 50}, false},
	{annex + ", 6 g in 100 g", "eu.high-fibre", SingleFood, fibre, 6, AtLeast, amounts{kcal: 500}, false},
	{annex + ", 3 g in 100 kcal", "eu.high-fibre", SingleFood, fibre, 1.5, AtLeast, amounts{kcal: 50}, false},
	{annex + ", 12 % of 100 kcal is 3 g", "eu.source-protein", SingleFood, protein, 3, AtLeast, amounts{kcal: 100}, false},
	{annex + ", 20 % of 100 kcal is 5 g", "eu.high-protein", SingleFood, protein, 5, AtLeast, amounts{kcal: 100}, false},
}

const cxg = "CXG 23-1997"

var codexLimits = []limitRow{
	{cxg, "codex.energy-free", SingleFood, kcal, 4, AtMost, nil, true},
	{cxg, "codex.low-energy", SingleFood, kcal, 40, AtMost, nil, false},
	{cxg + ", liquid", "codex.low-energy", SingleFood, kcal, 20, AtMost, nil, true},
	{cxg, "codex.fat-free", SingleFood, fat, 0.5, AtMost, nil, false},
	{cxg, "codex.low-fat", SingleFood, fat, 3, AtMost, nil, false},
	{cxg + ", liquid", "codex.low-fat", SingleFood, fat, 1.5, AtMost, nil, true},
	{cxg, "codex.sat-free", SingleFood, sat, 0.1, AtMost, nil, false},
	{cxg, "codex.low-sat", SingleFood, sat, 1.5, AtMost, much, false},
	{cxg + ", 10 % of 90 kcal", "codex.low-sat", SingleFood, sat, 1, AtMost, amounts{kcal: 90}, false},
	{cxg, "codex.cholesterol-free", SingleFood, chol, 5, AtMost, much, false},
	{cxg, "codex.low-cholesterol", SingleFood, chol, 20, AtMost, much, false},
	{cxg + ", liquid", "codex.low-cholesterol", SingleFood, chol, 10, AtMost, much, true},
	{cxg, "codex.sugars-free", SingleFood, sugars, 0.5, AtMost, nil, false},
	{cxg, "codex.sodium-free", SingleFood, na, 5, AtMost, nil, false},
	{cxg, "codex.very-low-sodium", SingleFood, na, 40, AtMost, nil, false},
	{cxg, "codex.low-sodium", SingleFood, na, 120, AtMost, nil, false},
}

func TestEveryLevelJustBelowAtAndJustAbove(t *testing.T) {
	for _, list := range [][]limitRow{usLimits, euLimits, codexLimits} {
		for _, row := range list {
			for _, step := range []struct {
				name string
				v    float64
				want bool
			}{
				{"just below", row.limit - tiny, row.op == Below || row.op == AtMost},
				{"at", row.limit, row.op == AtMost || row.op == AtLeast},
				{"just above", row.limit + tiny, row.op == Above || row.op == AtLeast},
			} {
				got := ruling(t, row.facts(step.v), row.rule)
				want := MayNot
				if step.want {
					want = May
				}
				if got.Verdict != want {
					t.Errorf("%s, %s, %s, %s %s %g: %s, want %s (%s)", row.section, row.rule, row.kind, row.n.Key(), step.name, row.limit, got.Verdict, want, got.Why())
				}
			}
		}
	}
}

func (row *limitRow) facts(v float64) Facts {
	figures := with(row.base, row.n, v)
	f := facts(nil, figures)
	if row.kind != SingleFood {
		f = dish(row.kind, nil, scaled(figures, 3))
	}
	if row.liquid {
		f.Liquid, f.Original.GramsPerML, f.Version.GramsPerML = true, 1, 1
	}
	return f
}

// Limits for one serving of a main dish or meal, whatever it weighs.
var dishLimits = []limitRow{
	{"101.62(b)(1)", "us.dish.fat-free", MainDish, fat, 0.5, Below, much, false},
	{"101.62(c)(1)", "us.dish.sat-free", Meal, sat, 0.5, Below, much, false},
	{"101.62(c)(1)", "us.dish.sat-free", Meal, trans, 0.5, Below, much, false},
	{"101.62(d)(1)(i)(A)", "us.main.cholesterol-free", MainDish, chol, 2, Below, much, false},
	{"101.62(d)(1)(i)(C)", "us.meal.cholesterol-free", Meal, sat, 2, AtMost, much, false},
	{"101.62(d)(1)(ii)(C), over 19.5 g of fat", "us.main.cholesterol-free", MainDish, sat, 2, Below, amounts{fat: 20, kcal: 900}, false},
	{"101.62(d)(1)(ii)(C), over 26 g of fat", "us.meal.cholesterol-free", Meal, sat, 2, Below, amounts{fat: 27, kcal: 900}, false},
	{"101.61(b)(1)", "us.dish.sodium-free", Meal, na, 5, Below, nil, false},
	{"101.60(c)(1)", "us.dish.sugar-free", MainDish, sugars, 0.5, Below, nil, false},
	{"101.62(d)(1), meal", "us.meal.cholesterol-free", Meal, chol, 2, Below, much, false},
}

func TestLevelsOfADishAreForItsServing(t *testing.T) {
	for _, row := range dishLimits {
		for _, v := range []float64{row.limit - tiny, row.limit, row.limit + tiny} {
			got := ruling(t, dish(row.kind, nil, with(row.base, row.n, v)), row.rule)
			if may := compare(v, row.op, row.limit); may != (got.Verdict == May) {
				t.Errorf("%s, %s at %g: %s (%s)", row.section, row.rule, v, got.Verdict, got.Why())
			}
		}
	}
}

// "Lean" needs fat, saturated fat and cholesterol all below, in 100 g and in
// the reference amount or serving (101.62(e); 9 CFR 317.362(e)).
func TestLean(t *testing.T) {
	beef, _ := CategoryByKey("meat-cooked")
	quiche, _ := CategoryByKey("mixed-pieces")
	for _, row := range []struct {
		name string
		kind Kind
		cat  Category
		rule string
		has  amounts // in 100 g
		want Verdict
	}{
		{"fat just below 10 g", SingleFood, beef, "us.food.lean", amounts{fat: 9.999, sat: 4.5, chol: 94.9}, May},
		{"fat at 10 g", SingleFood, beef, "us.food.lean", amounts{fat: 10, sat: 4.5, chol: 94.9}, MayNot},
		{"saturated fat above 4.5 g", SingleFood, beef, "us.food.lean", amounts{fat: 9, sat: 4.501, chol: 90}, MayNot},
		{"cholesterol at 95 mg", SingleFood, beef, "us.food.lean", amounts{fat: 9, sat: 4, chol: 95}, MayNot},
		{"extra: saturated fat at 2 g", SingleFood, beef, "us.food.extra-lean", amounts{fat: 4, sat: 2, chol: 90}, MayNot},
		{"extra: just below all", SingleFood, beef, "us.food.extra-lean", amounts{fat: 4.999, sat: 1.999, chol: 94.999}, May},
		{"extra: fat at 5 g", SingleFood, beef, "us.food.extra-lean", amounts{fat: 5, sat: 1, chol: 90}, MayNot},
		{"a casserole is neither meat nor mixed in pieces", SingleFood, hundred, "us.food.lean", amounts{fat: 1}, MayNot},
		{"quiche: 140 g with 7.99 g of fat", SingleFood, quiche, "us.mixed.lean", scaled(amounts{fat: 7.99, sat: 3.5, chol: 79.9}, 1/1.4), May},
		{"quiche: 140 g with 8 g of fat", SingleFood, quiche, "us.mixed.lean", scaled(amounts{fat: 8, sat: 3.5, chol: 79.9}, 1/1.4), MayNot},
		{"quiche: saturated fat above 3.5 g", SingleFood, quiche, "us.mixed.lean", scaled(amounts{fat: 7, sat: 3.51, chol: 79}, 1/1.4), MayNot},
		{"quiche: cholesterol at 80 mg", SingleFood, quiche, "us.mixed.lean", scaled(amounts{fat: 7, sat: 3, chol: 80}, 1/1.4), MayNot},
		{"meal: a serving of 300 g just below", Meal, hundred, "us.dish.lean", scaled(amounts{fat: 9.99, sat: 4.5, chol: 94.9}, 1.0/3), May},
		{"meal: the serving counts too", Meal, hundred, "us.dish.lean", scaled(amounts{fat: 10, sat: 4, chol: 90}, 1.0/3), MayNot},
		{"meal, extra", Meal, hundred, "us.dish.extra-lean", scaled(amounts{fat: 4.99, sat: 1.99, chol: 94.9}, 1.0/3), May},
		{"meal, extra, saturated fat at 2 g", Meal, hundred, "us.dish.extra-lean", scaled(amounts{fat: 4, sat: 2, chol: 90}, 1.0/3), MayNot},
	} {
		f := facts(nil, row.has)
		if row.kind != SingleFood {
			f = dish(row.kind, nil, scaled(row.has, 3))
		}
		f.Category = row.cat
		if got := ruling(t, f, row.rule); got.Verdict != row.want {
			t.Errorf("%s: %s, want %s (%s)", row.name, got.Verdict, row.want, got.Why())
		}
	}
}

// A rule nobody tested would go unseen: each is in a table, or named here with
// the test that holds it.
func TestEveryRuleIsTested(t *testing.T) {
	tested := map[string]bool{}
	for _, list := range [][]limitRow{usLimits, euLimits, codexLimits, dishLimits} {
		for _, row := range list {
			tested[row.rule] = true
		}
	}
	for _, c := range cuts {
		tested[c.rule] = true
	}
	for _, id := range []string{
		"us.food.lean", "us.food.extra-lean", "us.mixed.lean", "us.dish.lean", "us.dish.extra-lean", // TestLean
		"us.no-added-sugar", "eu.no-added-sugars", "us.no-salt-added", "eu.no-added-salt", "us.lightly-salted", "us.food.all-fat-free", "us.dish.all-fat-free", // TestWhatOnlyTheCookCanSay
		"us.low-sugar", "eu.percent-fat-free", "eu.all-fat-free", "eu.low-cholesterol", "eu.cholesterol-free", // TestTermsThatAreNotDefined
		"us.food.high-protein", "us.food.source-protein", "us.food.more-protein", "us.dish.more-protein", // TestProteinCountsByItsQuality
	} {
		tested[id] = true
	}
	for _, s := range sources { // TestWhatOnlyTheCookCanSay
		tested["us.dish.high-"+s.name], tested["us.dish.source-"+s.name] = true, true
	}
	for _, r := range Rules() {
		if !tested[r.ID] {
			t.Errorf("no test holds %s", r.ID)
		}
		delete(tested, r.ID)
	}
	for id := range tested {
		t.Errorf("a test names %s, which is no rule", id)
	}
}
