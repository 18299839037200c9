package sheets

import (
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// TestCostRow is worked by hand: 200 g of milk at 1.00 a kilogram and 100 g of
// butter at 10.00 are 1.20 for two, 0.60 each; A halves the butter: 0.35, and
// its salt has no price.
func TestCostRow(t *testing.T) {
	b, r := gratin(t)
	do := func(v recipes.Verb) {
		c, err := v(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	for _, x := range NewBench(b, r).Sheet(Options{}).Rows {
		if x.Key == CostKey {
			t.Fatal("a cost is shown though no price was given")
		}
	}
	ref := func(code string) food.Ref { return food.Ref{Source: "test", Release: "1", Code: code} }
	do(recipes.SetPrice(ref("milk"), &recipes.Price{Money: 1, Grams: 1000}))
	do(recipes.SetPrice(ref("butter"), &recipes.Price{Money: 10, Grams: 1000}))
	do(recipes.Set(MoneySetting, "€"))
	cost := row(t, NewBench(b, r).Sheet(Options{}), CostKey)
	if cost.Cells[0].Text != "0.60" || cost.Cells[1].Text != "at least 0.35" || cost.Cells[1].Sub != "" || cost.Label.Sub != "€" {
		t.Errorf("cost %+v of %+v", cost.Cells, cost.Label)
	}
	do(recipes.SetPrice(ref("salt"), &recipes.Price{Money: 1, Grams: 1000}))
	if c := row(t, NewBench(b, r).Sheet(Options{}), CostKey).Cells[1]; c.Text != "0.35" || c.Sub != "–0.25" {
		t.Errorf("with salt priced: %+v", c)
	}
}

// TestSure is worked by hand: both lines weigh by a scale (2 %), so the
// original's 300 kcal may be off by the root of (100·2 %)² + (200·2 %)² = 4.5;
// A's change of 100 kcal by 2 % of what differs, which is more than its band.
func TestSure(t *testing.T) {
	b, r := gratin(t)
	s := NewBench(b, r).Sheet(Options{Sure: true})
	if got := row(t, s, "energy_kcal").Cells[0].Text; got != "300 ± 4" {
		t.Errorf("original %q", got)
	}
	if c := row(t, s, SureKey).Cells[1]; c.Mark == Look || c.Text != "may be off by 2" {
		t.Errorf("A %+v", c)
	}
}

func TestEnergyBasisIsNamed(t *testing.T) {
	b, r := gratin(t)
	c, err := recipes.Set(BasisSetting, "eu")(b)
	if err != nil {
		t.Fatal(err)
	}
	if b, err = b.With(c); err != nil {
		t.Fatal(err)
	}
	s := NewBench(b, r).Sheet(Options{})
	if got := row(t, s, "energy_kcal").Label.Text; got != "energy, kcal (EU factors)" {
		t.Errorf("label %q", got)
	}
}
