package sheets

import (
	"strings"
	"testing"

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
	if d := x.Detail("sodium_mg", 1, PerServing); d.Title != "Salt in A, per serving: 0.52 g" || !strings.Contains(d.Text, "209 mg of sodium") {
		t.Errorf("%+v", d)
	}
	if m := x.MakeUp(food.Sodium, 1, PerServing); m.Rows[0].Value != "0.48 g" {
		t.Errorf("most of it %+v", m.Rows[0])
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
