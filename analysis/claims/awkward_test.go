package claims

import (
	"math"
	"testing"

	"parewell/recipes/food"
)

// A reference amount of 30 g or less, or of 2 tablespoons or less, must pass
// for 50 g as well (101.60(b)(2)(i)(B), 101.61(b)(2), (4), 101.62(b)(2), (d)(2)).
func TestSmallReferenceAmounts(t *testing.T) {
	for _, row := range []struct {
		name string
		cat  Category
		per  float64 // g per ml
		rule string
		has  amounts // in 100 g
		want Verdict
	}{
		{"dressing, 30 g: 12 g fat in 100 g is 6 g in 50 g", Category{Key: "x", Grams: 30}, 0, "us.food.low-fat", amounts{fat: 10, kcal: 200}, MayNot},
		{"dressing, 30 g: 6 g in 100 g is 3 g in 50 g", Category{Key: "x", Grams: 30}, 0, "us.food.low-fat", amounts{fat: 6, kcal: 200}, May},
		{"dressing, 30 g: 6.01 g in 100 g", Category{Key: "x", Grams: 30}, 0, "us.food.low-fat", amounts{fat: 6.01, kcal: 200}, MayNot},
		{"31 g: 6.01 g in 100 g is 1.9 g", Category{Key: "x", Grams: 31}, 0, "us.food.low-fat", amounts{fat: 6.01, kcal: 200}, May},
		{"condiment, 15 ml of 1.1 g: 280 mg in 100 g is 140 in 50 g", Category{Key: "x", ML: 15}, 1.1, "us.food.low-sodium", amounts{na: 280}, May},
		{"condiment, 15 ml of 1.1 g: 281 mg in 100 g", Category{Key: "x", ML: 15}, 1.1, "us.food.low-sodium", amounts{na: 281}, MayNot},
		{"2 tablespoons are small", Category{Key: "x", ML: 30}, 1, "us.food.low-calorie", amounts{kcal: 81}, MayNot},
		{"31 ml are not", Category{Key: "x", ML: 31}, 1, "us.food.low-calorie", amounts{kcal: 81}, May},
		{"very low sodium, 70 mg in 100 g", Category{Key: "x", Grams: 15}, 0, "us.food.very-low-sodium", amounts{na: 70}, May},
		{"very low sodium, 71 mg in 100 g", Category{Key: "x", Grams: 15}, 0, "us.food.very-low-sodium", amounts{na: 71}, MayNot},
		{"cholesterol, 41 mg in 100 g", Category{Key: "x", Grams: 30}, 0, "us.food.low-cholesterol", amounts{chol: 41}, MayNot},
		{"saturated fat has no rule of 50 g", Category{Key: "x", Grams: 30}, 0, "us.food.low-sat", amounts{sat: 3, kcal: 400, fat: 20}, May},
		{"fat free has none either", Category{Key: "x", Grams: 30}, 0, "us.food.fat-free", amounts{fat: 1.5, kcal: 400}, May},
	} {
		f := Compared(full(20, scaled(row.has, 0.2)), full(20, scaled(row.has, 0.2)))
		f.Category, f.Version.GramsPerML, f.Original.GramsPerML = row.cat, row.per, row.per
		if got := ruling(t, f, row.rule); got.Verdict != row.want {
			t.Errorf("%s: %s, want %s (%s)", row.name, got.Verdict, row.want, got.Why())
		}
	}
}

// A cut may not be claimed where the original is low already (101.13(j)(3)).
func TestNoCutFromWhatIsLowAlready(t *testing.T) {
	for _, row := range []struct {
		rule    string
		kind    Kind
		n       food.Nutrient
		low     float64
		besides amounts
	}{
		{"us.food.reduced-fat", SingleFood, fat, 3, amounts{kcal: 300}},
		{"us.dish.reduced-fat", MainDish, fat, 3, amounts{kcal: 300}},
		{"us.food.reduced-calorie", SingleFood, kcal, 40, nil},
		{"us.dish.reduced-calorie", Meal, kcal, 120, nil},
		{"us.food.reduced-sodium", SingleFood, na, 140, nil},
		{"us.dish.reduced-sodium", MainDish, na, 140, nil},
		{"us.food.reduced-sat", SingleFood, sat, 1, amounts{kcal: 300, fat: 9}},
		{"us.food.reduced-cholesterol", SingleFood, chol, 20, nil},
		{"us.meal.reduced-cholesterol", Meal, chol, 20, nil},
		{"us.food.light-in-sodium", SingleFood, na, 140, amounts{kcal: 300}},
	} {
		for _, step := range []struct {
			from float64
			want Verdict
		}{{row.low, MayNot}, {row.low + tiny, May}} {
			before, after := with(row.besides, row.n, step.from), with(row.besides, row.n, step.from/2)
			f := facts(before, after)
			if row.kind != SingleFood {
				f = dish(row.kind, scaled(before, 3), scaled(after, 3))
			}
			got := ruling(t, f, row.rule)
			if got.Verdict != step.want {
				t.Errorf("%s from %g: %s, want %s (%s)", row.rule, step.from, got.Verdict, step.want, got.Why())
			}
			if got.Verdict == MayNot && got.Because[0] != AlreadyLow {
				t.Errorf("%s from %g: because %v, want already low", row.rule, step.from, got.Because)
			}
		}
	}
}

// "Light" turns on where half the energy comes from fat (101.56(b)).
func TestLightByFatAndByEnergy(t *testing.T) {
	for _, row := range []struct {
		name          string
		before, after amounts
		want          Verdict
	}{
		{"half from fat, energy cut by 40 %, fat by 40 %", amounts{kcal: 300, fat: 20}, amounts{kcal: 180, fat: 10.8}, MayNot},
		{"exactly half the energy from fat counts as fat", amounts{kcal: 300, fat: 15}, amounts{kcal: 180, fat: 10}, MayNot},
		{"just under half, energy cut by a third", amounts{kcal: 270, fat: 15}, amounts{kcal: 180, fat: 9.99}, May},
		{"under half, energy cut by 33.3 % only", amounts{kcal: 300, fat: 10}, amounts{kcal: 200.1, fat: 8}, MayNot},
		{"under half, fat cut by half", amounts{kcal: 300, fat: 10}, amounts{kcal: 280, fat: 5}, May},
		{"over half, fat cut by half", amounts{kcal: 300, fat: 30}, amounts{kcal: 200, fat: 15}, May},
		{"over half, fat cut by 49.9 %", amounts{kcal: 300, fat: 30}, amounts{kcal: 150, fat: 15.03}, MayNot},
		{"the original is low fat and low calorie", amounts{kcal: 40, fat: 3}, amounts{kcal: 20, fat: 1}, MayNot},
		{"low fat alone does not bar it", amounts{kcal: 41, fat: 3}, amounts{kcal: 20, fat: 1}, May},
	} {
		if got := ruling(t, facts(row.before, row.after), "us.food.light"); got.Verdict != row.want {
			t.Errorf("%s: %s, want %s (%s)", row.name, got.Verdict, row.want, got.Why())
		}
	}
	if got := ruling(t, facts(amounts{na: 1000, kcal: 41, fat: 3}, amounts{na: 500}), "us.food.light-by-sodium"); got.Verdict != MayNot {
		t.Errorf("plain light by sodium from 41 kcal: %s", got.Verdict)
	}
	if got := ruling(t, facts(amounts{na: 1000, kcal: 40, fat: 3.1}, amounts{na: 500}), "us.food.light-by-sodium"); got.Verdict != MayNot {
		t.Errorf("plain light by sodium from 3.1 g of fat: %s", got.Verdict)
	}
}

// A main dish weighs at least 6 ounces a serving, a meal 10 (101.13(l), (m)).
func TestMainDishesAndMealsHaveALeastWeight(t *testing.T) {
	for _, row := range []struct {
		kind  Kind
		grams float64
		want  Verdict
	}{
		{MainDish, 170.0971, MayNot},
		{MainDish, 170.0972, May},
		{Meal, 283.4952, MayNot},
		{Meal, 283.4953, May},
	} {
		f := Compared(full(row.grams, nil), full(row.grams, amounts{kcal: row.grams, fat: row.grams / 100}))
		f.Kind = row.kind
		got := ruling(t, f, "us.dish.low-fat")
		if got.Verdict != row.want {
			t.Errorf("%s of %g g: %s (%s)", row.kind, row.grams, got.Verdict, got.Why())
		}
		if row.want == MayNot && got.Because[0] != TooLight {
			t.Errorf("%s of %g g: because %v", row.kind, row.grams, got.Because)
		}
		if eu := ruling(t, f, "eu.low-fat"); eu.Verdict != May {
			t.Errorf("the EU has no least weight: %s", eu.Verdict)
		}
	}
}

// The lasagna of 101.60(b)(5) as it is printed: 108 to 83 kcal is no cut of 25 %.
func TestTheLasagnaMayNotBeCalledReduced(t *testing.T) {
	f := dish(MainDish, amounts{kcal: 108 * 4}, amounts{kcal: 83 * 4})
	got := ruling(t, f, "us.dish.reduced-calorie")
	if got.Verdict != MayNot || math.Abs(got.Number.Low-23.148) > 0.001 || got.Threshold != 25 {
		t.Errorf("%s by %.3f against %g", got.Verdict, got.Number.Low, got.Threshold)
	}
}

// Over 13 g of fat a cholesterol claim needs the cholesterol to have been cut,
// or never to have been there, and the fat beside it (101.62(d)(1)(ii)).
func TestCholesterolInFattyFood(t *testing.T) {
	fatty := amounts{fat: 13.01, kcal: 400, sat: 1.5, chol: 1}
	for _, row := range []struct {
		name   string
		before amounts
		after  amounts
		want   Verdict
	}{
		{"13 g of fat is lean enough", amounts{chol: 1.2}, with(fatty, fat, 13), May},
		{"cut by a quarter", amounts{chol: 4}, with(fatty, chol, 1.9), May},
		{"never there", amounts{chol: 1.2}, fatty, May},
		{"there, and not cut enough", amounts{chol: 2.2}, with(fatty, chol, 1.9), MayNot},
	} {
		got := ruling(t, facts(row.before, row.after), "us.food.cholesterol-free")
		if got.Verdict != row.want {
			t.Errorf("%s: %s, want %s (%s)", row.name, got.Verdict, row.want, got.Why())
		}
		if got.Verdict == May && (needed(got.Needs, NeedFatAmount) != (row.after[fat] > 13)) {
			t.Errorf("%s: fat beside it %v", row.name, got.Needs)
		}
	}
}

// A small reference amount is fatty above 13 g in 50 g (101.62(d)(1)(i)).
func TestCholesterolInSmallFattyFood(t *testing.T) {
	for grams, want := range map[float64]Verdict{3.9: May, 3.91: MayNot} { // in 15 g: 13 and 13.03 in 50 g
		f := Compared(full(15, amounts{chol: 3}), full(15, amounts{chol: 1.9, fat: grams, kcal: 60}))
		f.Version.PerServing[chol], f.Original.PerServing[chol] = Exactly(1.9), Exactly(2.4)
		f.Category = Category{Key: "x", Grams: 15}
		if got := ruling(t, f, "us.food.cholesterol-free"); got.Verdict != want {
			t.Errorf("%g g of fat in 15 g: %s (%s)", grams, got.Verdict, got.Why())
		}
	}
}

// A cup of the whipped version weighs less: by the cup it is cut, by the gram
// it is not. The US rule goes by the reference amount, a main dish by 100 g.
func TestACutByVolume(t *testing.T) {
	f := facts(amounts{fat: 20, kcal: 300}, amounts{fat: 20, kcal: 300})
	f.Category = Category{Key: "x", ML: 240}
	f.Original.GramsPerML, f.Version.GramsPerML = 1, 0.7
	if got := ruling(t, f, "us.food.reduced-fat"); got.Verdict != May || !near(got.Number.Low, 30) {
		t.Errorf("%s (%s)", got.Verdict, got.Why())
	}
	if got := ruling(t, f, "eu.reduced-fat"); got.Verdict != MayNot {
		t.Errorf("a solid for the EU goes by weight: %s (%s)", got.Verdict, got.Why())
	}
	f.Liquid = true
	if got := ruling(t, f, "eu.reduced-fat"); got.Verdict != May {
		t.Errorf("a liquid goes by 100 ml: %s (%s)", got.Verdict, got.Why())
	}
}

func needed(list []Need, code NeedCode) bool {
	for _, n := range list {
		if n.Code == code {
			return true
		}
	}
	return false
}

// What no number can say is asked, and no answer decides nothing.
func TestWhatOnlyTheCookCanSay(t *testing.T) {
	sweet, salted := amounts{addedSugars: 10, sugars: 12, na: 400, kcal: 200}, amounts{sugars: 4, na: 100, kcal: 200}
	for _, row := range []struct {
		rule string
		q    Question
	}{
		{"us.no-added-sugar", AskNoSweetener},
		{"eu.no-added-sugars", AskNoSweetener},
		{"us.no-salt-added", AskNoSalt},
		{"eu.no-added-salt", AskNoSalt},
		{"us.lightly-salted", AskHalfSalt},
		{"us.food.all-fat-free", AskNoFat},
	} {
		for answer, want := range map[Answer]Verdict{NotAsked: CannotDecide, Yes: May, No: MayNot} {
			f := facts(sweet, salted)
			f.Answers = map[Question]Answer{row.q: answer}
			got := ruling(t, f, row.rule)
			if got.Verdict != want {
				t.Errorf("%s, answer %q: %s, want %s", row.rule, answer, got.Verdict, want)
			}
			if want == CannotDecide && (len(got.Missing) == 0 || got.Missing[0].Question != row.q) {
				t.Errorf("%s does not ask %s: %v", row.rule, row.q, got.Missing)
			}
		}
	}
	f := dish(Meal, nil, amounts{protein: 90, fat: 0.1})
	for _, s := range sources {
		for _, id := range []string{"us.dish.high-" + s.name, "us.dish.source-" + s.name} {
			if got := ruling(t, f, id); got.Verdict != CannotDecide || got.Missing[0].Question != AskComponent {
				t.Errorf("%s of a whole meal: %s; 101.54(b)(2), (c)(2) ask which food in it", id, got.Verdict)
			}
		}
	}
	f.Answers = map[Question]Answer{AskNoFat: Yes}
	if got := ruling(t, f, "us.dish.all-fat-free"); got.Verdict != May {
		t.Errorf("a meal without fat: %s (%s)", got.Verdict, got.Why())
	}
	f = facts(sweet, with(salted, addedSugars, 0.001))
	f.Answers = map[Question]Answer{AskNoSweetener: Yes}
	if got := ruling(t, f, "us.no-added-sugar"); got.Verdict != MayNot {
		t.Errorf("a trace of added sugar: %s", got.Verdict)
	}
}

// Protein counts after correction for quality: unknown, it decides only "may not".
func TestProteinCountsByItsQuality(t *testing.T) {
	for _, row := range []struct {
		grams, quality float64
		want           Verdict
	}{{9.99, 0, MayNot}, {30, 0, CannotDecide}, {10, 1, May}, {12, 0.8, MayNot}, {12.5, 0.8, May}} {
		f := facts(nil, amounts{protein: row.grams})
		f.Version.Quality = row.quality
		if got := ruling(t, f, "us.food.high-protein"); got.Verdict != row.want {
			t.Errorf("%g g at %g: %s, want %s (%s)", row.grams, row.quality, got.Verdict, row.want, got.Why())
		}
	}
}

func TestSourceAndMoreOfProtein(t *testing.T) {
	for _, row := range []struct {
		grams float64
		rule  string
		want  Verdict
	}{
		{4.999, "us.food.source-protein", MayNot},
		{5, "us.food.source-protein", May},
		{9.999, "us.food.source-protein", May},
		{10, "us.food.source-protein", MayNot},
		{6.999, "us.food.more-protein", MayNot},
		{7, "us.food.more-protein", May},
	} {
		f := facts(amounts{protein: 2}, amounts{protein: row.grams})
		f.Original.Quality, f.Version.Quality = 1, 1
		if got := ruling(t, f, row.rule); got.Verdict != row.want {
			t.Errorf("101.54, %s at %g g: %s (%s)", row.rule, row.grams, got.Verdict, got.Why())
		}
	}
	f := dish(MainDish, amounts{protein: 6}, amounts{protein: 21})
	f.Original.Quality, f.Version.Quality = 1, 1
	if got := ruling(t, f, "us.dish.more-protein"); got.Verdict != May {
		t.Errorf("5 g more in 100 g: %s (%s)", got.Verdict, got.Why())
	}
}

// Terms an authority does not have.
func TestTermsThatAreNotDefined(t *testing.T) {
	for _, id := range []string{"us.low-sugar", "eu.percent-fat-free", "eu.all-fat-free", "eu.low-cholesterol", "eu.cholesterol-free"} {
		if got := ruling(t, facts(nil, nil), id); got.Verdict != MayNot || got.Because[0] != NotDefined {
			t.Errorf("%s: %s because %v", id, got.Verdict, got.Because)
		}
	}
	if got := ruling(t, facts(nil, nil), "eu.energy-free"); got.Because[0] != OtherDish {
		t.Errorf("energy-free for a solid: because %v", got.Because)
	}
}
