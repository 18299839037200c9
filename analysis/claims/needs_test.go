package claims

import (
	"strings"
	"testing"

	"parewell/recipes/food"
)

// Above a disclosure level a claim points to the nutrition information
// (101.13(h)); at the level it does not.
func TestDisclosureLevels(t *testing.T) {
	for _, row := range []struct {
		section string
		kind    Kind
		n       food.Nutrient
		level   float64
	}{
		{"101.13(h)(1)", SingleFood, fat, 13},
		{"101.13(h)(1)", SingleFood, sat, 4},
		{"101.13(h)(1)", SingleFood, chol, 60},
		{"101.13(h)(1)", SingleFood, na, 480},
		{"101.13(h)(3)", MainDish, fat, 19.5},
		{"101.13(h)(3)", MainDish, sat, 6},
		{"101.13(h)(3)", MainDish, chol, 90},
		{"101.13(h)(3)", MainDish, na, 720},
		{"101.13(h)(2)", Meal, fat, 26},
		{"101.13(h)(2)", Meal, sat, 8},
		{"101.13(h)(2)", Meal, chol, 120},
		{"101.13(h)(2)", Meal, na, 960},
	} {
		for _, v := range []float64{row.level - tiny, row.level, row.level + tiny} {
			f := facts(nil, amounts{row.n: v, fat: 5})
			if row.kind != SingleFood {
				f = dish(row.kind, nil, amounts{row.n: v, fat: 10})
			}
			if row.n == fat {
				f.Version.PerServing[fat] = Exactly(v)
			}
			if got := needed(Disclosures(f), NeedDisclosure); got != (v > row.level) {
				t.Errorf("%s, %s %g: disclosed %v", row.section, row.n.Key(), v, got)
			}
		}
	}
	small := facts(nil, amounts{fat: 27, kcal: 300})
	small.Category = Category{Key: "x", Grams: 15}
	small.Version = full(15, amounts{fat: 3.9, kcal: 60})
	if needed(Disclosures(small), NeedDisclosure) {
		t.Error("3.9 g in 15 g is 13 g in 50 g: not above")
	}
	small.Version = full(15, amounts{fat: 3.91, kcal: 60})
	if !needed(Disclosures(small), NeedDisclosure) {
		t.Error("3.91 g in 15 g is above 13 g in 50 g")
	}
	small.Version.PerServing[fat] = Value{1, 9}
	if !needed(Disclosures(small), NeedDisclosureUnsure) {
		t.Error("an unknown amount of fat leaves the disclosure unsure")
	}
}

// said puts the needs of a result into words.
func said(r *Result) string {
	var all []string
	for _, n := range r.Needs {
		all = append(all, n.Phrase("the original").String())
	}
	return strings.Join(all, " | ")
}

func TestWhatStandsBesideATerm(t *testing.T) {
	small, _ := CategoryByKey("dressing")
	for _, row := range []struct {
		name   string
		f      Facts
		rule   string
		wanted string // a part of what is said
		absent string
	}{
		{"the comparison, both amounts", facts(amounts{fat: 8}, amounts{fat: 4}), "us.food.reduced-fat", "50 % less fat than the original; from 8 g to 4 g in a serving", "See"},
		{"the per cent never overstates", facts(amounts{kcal: 300}, amounts{kcal: 200.5}), "us.food.reduced-calorie", "33 % less energy", "34"},
		{"a dish is compared in 100 g", dish(MainDish, amounts{na: 2100}, amounts{na: 1500}), "us.dish.reduced-sodium", "28 % less sodium than the original; from 700 mg to 500 mg in 100 g", ""},
		{"light names energy and fat", facts(amounts{kcal: 300, fat: 8}, amounts{kcal: 200, fat: 4}), "us.food.light", "33 % less energy", ""},
		{"light names fat too", facts(amounts{kcal: 300, fat: 8}, amounts{kcal: 200, fat: 4}), "us.food.light", "50 % less fat", ""},
		{"light by fat may hold more energy", facts(amounts{kcal: 100, fat: 8}, amounts{kcal: 110, fat: 4}), "us.food.light", "10 % more energy", ""},
		{"see the nutrition information", facts(amounts{fat: 40, kcal: 500}, amounts{fat: 20, kcal: 400}), "us.food.reduced-fat", "See nutrition information for fat content", ""},
		{"a light meal says which", dish(Meal, nil, amounts{kcal: 300, fat: 6}), "us.dish.light", "say which is meant: low calorie and low fat", ""},
		{"a light meal by one", dish(Meal, nil, amounts{kcal: 900, fat: 6}), "us.dish.light", "say which is meant: low fat", "low calorie"},
		{"EU light says why", facts(amounts{fat: 20, na: 100}, amounts{fat: 10, na: 70}), "eu.light", "say what makes it so: less fat and less salt", ""},
		{"per cent fat free is cut down", facts(amounts{fat: 9, kcal: 90}, amounts{fat: 2.2, kcal: 90}), "us.food.percent-fat-free", "at most 97 % fat free", ""},
		{"low of itself", facts(amounts{na: 100}, amounts{na: 90}), "us.food.low-sodium", "the original meets it too", ""},
		{"low by the recipe", facts(amounts{na: 200}, amounts{na: 90}), "us.food.low-sodium", "", "the original meets it too"},
		{"saturated fat with fat and cholesterol", facts(amounts{sat: 8, fat: 20, kcal: 300}, amounts{sat: 3, fat: 12, chol: 30, kcal: 200}), "us.food.reduced-sat", "contains 12 g of fat in a serving | contains 30 mg of cholesterol", ""},
		{"saturated fat with next to none", facts(amounts{sat: 8, fat: 20, kcal: 300}, amounts{sat: 1, fat: 3, chol: 1, kcal: 200}), "us.food.reduced-sat", "", "contains"},
		{"fibre with the fat", facts(nil, amounts{fibre: 6, fat: 3.1}), "us.food.high-fibre", "contains 3.1 g of fat", ""},
		{"fibre in a low fat food", facts(nil, amounts{fibre: 6, fat: 3}), "us.food.high-fibre", "", "contains"},
		{"sugar free is not low calorie", facts(amounts{kcal: 100}, amounts{kcal: 90}), "us.food.sugar-free", "not a low calorie food", ""},
		{"sugar free and low calorie", facts(amounts{kcal: 100}, amounts{kcal: 40}), "us.food.sugar-free", "", "not a low calorie food"},
		{"light in sodium", facts(amounts{na: 800, kcal: 90}, amounts{na: 400}), "us.food.light-in-sodium", "one size and style", ""},
	} {
		got := ruling(t, row.f, row.rule)
		if got.Verdict != May {
			t.Errorf("%s: %s (%s)", row.name, got.Verdict, got.Why())
		}
		text := said(&got)
		if !strings.Contains(text, row.wanted) || row.absent != "" && strings.Contains(text, row.absent) {
			t.Errorf("%s: %q", row.name, text)
		}
	}
	// Three reference amounts in a serving: the limit is printed (101.13(p)(1)).
	f := Compared(full(90, nil), full(90, amounts{na: 252}))
	f.Category = small
	f.Category.Grams = 31
	if got := ruling(t, f, "us.food.low-sodium"); !strings.Contains(said(&got), "140 mg or less in the reference amount") {
		t.Errorf("a large serving: %s, %q", got.Verdict, said(&got))
	}
}

// Every sentence the package can say has its words, and no figure that misses
// its limit is printed as the limit.
func TestEverythingCanBeSaid(t *testing.T) {
	check := func(what, text string) {
		if strings.Contains(text, "[claims") || strings.Contains(text, "[nutrient") || strings.Contains(text, "{") || text == "" {
			t.Errorf("%s: %q", what, text)
		}
	}
	for _, c := range Categories() {
		check(c.Key, c.Phrase().String())
	}
	for _, r := range Rules() {
		check(r.ID, r.Term.Phrase().String())
		check(r.ID, r.Authority.Phrase().String())
	}
	for _, q := range []Question{AskNoSweetener, AskNoSalt, AskNoFat, AskHalfSalt, AskComponent} {
		check(string(q), q.Phrase().String())
	}
	vague := facts(nil, nil)
	for n := range vague.Version.PerServing {
		vague.Version.PerServing[n] = Anything
	}
	light := dish(MainDish, nil, nil)
	light.Version.Serving = Exactly(100)
	for _, f := range []Facts{
		facts(nil, nil), facts(amounts{kcal: 400, fat: 30, sat: 10, na: 900, chol: 90, sugars: 20}, amounts{kcal: 200, fat: 10, sat: 3, na: 400, chol: 40, sugars: 4, fibre: 9, protein: 30}),
		dish(Meal, amounts{kcal: 400}, amounts{kcal: 500}), vague,
		{Version: full(100, nil)},
		light,
	} {
		for _, r := range Judge(f) {
			check(r.Rule.ID, r.Why().String())
			check(r.Rule.ID, r.Verdict.Phrase().String())
			for _, n := range r.Needs {
				check(r.Rule.ID+" "+string(n.Code), n.Phrase("the original").String())
			}
		}
	}
	got := ruling(t, facts(amounts{fat: 10}, amounts{fat: 7.504}), "us.food.reduced-fat")
	if why := got.Why().String(); !strings.Contains(why, "24.96 %") {
		t.Errorf("24.96 %% is said as %q", why)
	}
}

// Each rule has a section, a source and a status; what is remembered says so.
func TestEveryRuleSaysWhereItComesFrom(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		if r.Section == "" || r.Source == "" || r.Status == "" || seen[r.ID] {
			t.Errorf("%s: section %q, source %q, status %q, twice %v", r.ID, r.Section, r.Source, r.Status, seen[r.ID])
		}
		seen[r.ID] = true
		if (r.Source == remember) != (r.Status == FromMemory) {
			t.Errorf("%s: source %q but status %q", r.ID, r.Source, r.Status)
		}
		for _, id := range r.NotIfOriginal {
			if RuleByID(id) == nil {
				t.Errorf("%s names no rule %s", r.ID, id)
			}
		}
	}
	if !seen["us.food.light"] || !seen["eu.light"] || !seen["codex.light"] {
		t.Error("light is missing")
	}
}

// Reference amounts of 101.12(b); what the 2016 rule changed is from memory.
func TestReferenceAmounts(t *testing.T) {
	for key, want := range map[string]Category{
		"mixed-cup":          {ML: 240, Status: Confirmed},
		"mixed-pieces":       {Grams: 140, Status: Confirmed},
		"mixed-pieces-sauce": {Grams: 195, Status: Confirmed},
		"soup":               {Grams: 245, Status: Confirmed},
		"sauce-main":         {Grams: 125, Status: Confirmed},
		"pie":                {Grams: 125, Status: Confirmed},
		"bagel-muffin":       {Grams: 110, Status: FromMemory},
		"ice-cream":          {ML: 160, Status: FromMemory},
		"yogurt":             {Grams: 170, Status: FromMemory},
		"drink":              {ML: 360, Status: FromMemory},
		"sugar":              {Grams: 8, Status: FromMemory},
		"meat-cooked":        {Grams: 85, Status: FromMemory},
	} {
		got, ok := CategoryByKey(key)
		if !ok || got.Grams != want.Grams || got.ML != want.ML || got.Status != want.Status {
			t.Errorf("%s: %+v, want %+v", key, got, want)
		}
	}
	keys := map[string]bool{}
	for _, c := range Categories() {
		if keys[c.Key] || (c.Grams > 0) == (c.ML > 0) || c.Source == "" {
			t.Errorf("category %+v", c)
		}
		keys[c.Key] = true
	}
	for key, want := range map[string]bool{"dressing": true, "dip": true, "butter-oil": true, "avocado": false, "sauce-minor": false, "cheese": true} {
		if c, _ := CategoryByKey(key); c.Small() != want {
			t.Errorf("%s is small: %v", key, c.Small())
		}
	}
}
