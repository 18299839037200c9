package sheets

import (
	"strings"
	"testing"

	"parewell/analysis/meals"
	"parewell/recipes"
	"parewell/recipes/food"
)

// TestSaltAndKilojoules: the gratin has 20 mg of sodium a serving, 0.05 g of
// salt; A adds a gram of table salt for two, 38,758 mg in 100 g: 0.52 g.
func TestSaltAndKilojoules(t *testing.T) {
	b, _ := gratin(t)
	brief := b.Recipe("recipe").Brief
	brief.Targets = append(brief.Targets, recipes.Target{Nutrient: food.Sodium, Amount: 400})
	b = do(t, b, recipes.SetBrief("recipe", brief), recipes.Set(SaltSetting, yes), recipes.Set(KJSetting, yes))
	x := NewBench(b, b.Recipe("recipe"))
	s := x.Sheet(Options{})
	if s.Rows[0].Key != "energy_kj" || s.Rows[1].Key != "energy_kcal" {
		t.Errorf("first %q, then %q", s.Rows[0].Key, s.Rows[1].Key)
	}
	salt := row(t, s, "sodium_mg")
	if salt.Label.Text != "salt, g" || salt.Label.Sub != "at most 1 g" || salt.Cells[0].Text != "0.05" || salt.Cells[1].Text != "0.52" || !strings.HasPrefix(salt.Cells[1].Sub, "+0.47") {
		t.Errorf("salt %+v", salt)
	}
	if got := row(t, s, SlipsKey).Cells[1].Text; !strings.Contains(got, "salt +0.47 g") {
		t.Errorf("got worse: %q", got)
	}
	if got := UnitsOf(b).BriefText(b.Recipe("recipe").Brief); !strings.Contains(got, "salt at most 1 g") {
		t.Errorf("the brief says %q", got)
	}
	if d := x.Detail("sodium_mg", 1, PerServing); d.Title != "Salt in A, per serving: 0.52 g" || !strings.Contains(d.Text, "209 mg of sodium") {
		t.Errorf("%+v", d)
	}
	if m := x.MakeUp(food.Sodium, 1, PerServing); m.Rows[0].Value != "0.48 g" {
		t.Errorf("most of it %+v", m.Rows[0])
	}
}

// said is all that stands in a sheet's headings and labels.
func said(s Sheet) string {
	var out []string
	for _, c := range s.Columns {
		out = append(out, c.Title, c.Sub)
	}
	for _, r := range s.Rows {
		out = append(out, r.Label.Text, r.Label.Sub)
	}
	return strings.Join(out, "\n")
}

// TestEveryPageGoesByTheSettings: where kJ lead and salt is wanted, no page has
// kcal first or speaks of sodium; figures are those of the Versions page.
func TestEveryPageGoesByTheSettings(t *testing.T) {
	b, _ := gratin(t)
	b = do(t, b, recipes.Set(SaltSetting, yes), recipes.Set(KJSetting, yes),
		recipes.AddMeal("supper", "Supper"), recipes.AddDish("supper", "recipe", b.Versions("recipe")[0].ID, 1))
	r, u := b.Recipe("recipe"), UnitsOf(b)
	x, plate := NewBench(b, r), meals.In(b).Of("supper")
	l, err := NewLedger(b, r)
	if err != nil {
		t.Fatal(err)
	}
	ledger := func(n food.Nutrient) Sheet {
		v, err := l.View(LedgerAsk{Nutrient: n})
		if err != nil {
			t.Fatal(err)
		}
		return v.Sheet
	}
	dishes := u.MealDishes(plate, food.EnergyKcal).Sheet
	for _, c := range []struct {
		name string
		is   string
		has  string
	}{
		{"recipes", said(Library(b)), "kJ a serving"},
		{"original", said(x.Ingredients()), "energy\nkJ\nsalt\ng"},
		{"swaps", said(x.Swaps().Sheet), "salt"},
		{"swaps under their versions", x.Swaps().Under, "kJ a serving"},
		{"one swap", said(x.SwapDetail(b.Swaps("recipe")[0], nil).Parts), "salt\ng"},
		{"foods held", said(HeldFoods(b)), "salt\ng"},
		{"foods found", said(u.Foods(nil)), "energy\nkJ"},
		{"keep or drop, energy", said(ledger(u.Of(food.EnergyKcal))), "kJ"},
		{"keep or drop, salt", said(ledger(food.Sodium)), "salt, g"},
		{"meals", said(MealList(b, meals.In(b))), "kJ"},
		{"a meal's dishes", said(dishes), "energy, kJ"},
		{"a meal's salt", said(u.MealDishes(plate, food.Sodium).Sheet), "salt, g"},
		{"paste", x.numbersLine(), "kJ"},
		{"where it comes from", u.SourceTitle(food.Sodium) + u.SourceName(food.Sodium), "salt"},
	} {
		if !strings.Contains(c.is, c.has) || strings.Contains(c.is, "kcal") || strings.Contains(c.is, "sodium") {
			t.Errorf("%s: no %q, or what should not be, in\n%s", c.name, c.has, c.is)
		}
	}
	for name, first := range map[string]string{
		"a meal's numbers": u.MealNumbers(plate, true, nil).Rows[0].Key, "a food": u.FoodFigures(b.Foods()[0]).Rows[0].Key,
		"an ingredient": x.lineFigures(0, 0).Rows[0].Key,
	} {
		if first != "energy_kj" {
			t.Errorf("%s: %s leads", name, first)
		}
	}
	want := row(t, x.Sheet(Options{}), "energy_kj").Cells[1].Text
	if got := dishes.Rows[0].Cells[MealAfter].Text; got != want {
		t.Errorf("a meal of one serving says %s kJ, Versions %s", got, want)
	}
	if got := row(t, x.Swaps().Sheet, "total.sodium_mg").Cells[0].Text; got != "0.52" {
		t.Errorf("salt of A under the swaps: %s", got)
	}
}

// TestASmallChangeSaysSo: 20 g less of a counted 100 g is 40 kcal a serving of
// which the count may be off by a fifth, 8; 1 g of 100 g is less than what a
// change of food by a stated default may be off.
func TestASmallChangeSaysSo(t *testing.T) {
	b, r := gratin(t)
	if got := NewBench(b, r).surely(1, food.EnergyKcal); got != "" {
		t.Errorf("half the butter: %q", got)
	}
	l := *r.Lines[1]
	l.ID, l.GramsFrom, l.Text = "", recipes.GramsDefault, "99 g food butter"
	l.Grams = 99
	s := &recipes.Swap{ID: "other", Recipe: "recipe", Name: "another", Ops: []recipes.Op{{Kind: recipes.OpExchange, Line: "butter", Share: 1, Lines: []*recipes.Line{&l}}}}
	b = do(t, b, recipes.AddVersion("recipe", "b", "", ""), recipes.AddSwap(s, nil, "b"))
	x := NewBench(b, b.Recipe("recipe"))
	if d := x.Detail("energy_kcal", 2, PerServing); !strings.Contains(d.Text, "–2 is less than") {
		t.Errorf("%q", d.Text)
	}
}
