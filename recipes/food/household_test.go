package food_test

import (
	"math"
	"testing"

	"parewell/recipes/food"
)

func TestGramsPerMillilitre(t *testing.T) {
	foods := byCode(t)
	const cup, tbsp, tsp = 236.5882365, 14.78676478125, 4.92892159375
	for _, r := range []struct {
		name, code string
		ml, grams  float64 // volume and what it must weigh
	}{
		// USDA SR26 household weights, within one per cent
		{"olive oil tbsp", "04053", tbsp, 13.5},
		{"olive oil cup", "04053", cup, 216},
		{"olive oil tsp", "04053", tsp, 4.5},
		{"milk cup", "01077", cup, 244},
		{"milk tbsp", "01077", tbsp, 15.25},
		{"heavy cream cup", "01053", cup, 238},
		{"honey tbsp", "19296", tbsp, 21},
		{"flour cup", "20081", cup, 125},
		{"butter tbsp", "01001", tbsp, 14.2},
		{"sugar cup", "19335", cup, 200},
		{"sugar tbsp", "19335", tbsp, 12.5},
		{"soy sauce tbsp", "16123", tbsp, 16},
		{"rice cup", "20044", cup, 185},
		{"agave tsp", "19912", tsp, 6.9},
		{"water litre", "14429", 1000, 1000},
		{"wine bottle", "14096", 750, 746},
	} {
		perMl, from, ok := foods[r.code].GramsPerMillilitre()
		if got := perMl * r.ml; !ok || math.Abs(got-r.grams) > 0.01*r.grams {
			t.Errorf("%s: %.2f g from %q, want %.2f", r.name, got, from, r.grams)
		}
	}
	for _, code := range []string{"11282", "01009", "05062"} { // only "chopped", "shredded", or none
		if _, from, ok := foods[code].GramsPerMillilitre(); ok {
			t.Errorf("%s: a plain volume from %q", foods[code].Name, from)
		}
	}
}

func TestVolumeOf(t *testing.T) {
	foods := byCode(t)
	const cup = 236.5882365
	for _, r := range []struct {
		name, code, prep string
		grams            float64 // of a cup
		exact            bool
	}{
		{"onion chopped", "11282", "finely chopped", 160, true},
		{"onion diced fills a cup as chopped", "11282", "diced", 160, true},
		{"onion sliced", "11282", "sliced", 115, true},
		{"onion, not said", "11282", "", 160, false},
		{"cheddar grated is shredded", "01009", "grated", 113, true},
		{"brown sugar packed", "19334", "packed", 220, true},
		{"icing sugar sifted", "19336", "sifted", 100, true},
		{"icing sugar", "19336", "", 120, true},
		{"cream whipped", "01053", "whipped", 120, true},
	} {
		perMl, from, exact, ok := foods[r.code].VolumeOf(r.prep)
		if got := perMl * cup; !ok || exact != r.exact || math.Abs(got-r.grams) > 0.008*r.grams {
			t.Errorf("%s: %.1f g from %q, exact %v; want %.1f, %v", r.name, got, from, exact, r.grams, r.exact)
		}
	}
	if _, _, _, ok := foods["23093"].VolumeOf("diced"); ok {
		t.Error("stewing beef has no cup in the tables")
	}
}

func TestEachAndHousehold(t *testing.T) {
	foods := byCode(t)
	for _, r := range []struct {
		name, code, unit string // an empty unit is a bare count, a size is "/large"
		grams            float64
		exact            bool
	}{
		{"an onion", "11282", "", 110, true},
		{"a large onion", "11282", "/large", 150, true},
		{"a small onion", "11282", "/small", 70, true},
		{"a large egg", "01123", "/large", 50, true},
		{"an egg", "01123", "", 50, true},
		{"a yolk", "01125", "", 17, true},
		{"a clove of garlic", "11215", "clove", 3, true},
		{"a head of garlic", "11215", "bulb", 40, true},
		{"a carrot", "11124", "", 61, true},
		{"a celery stick", "11143", "stick", 40, false},
		{"a lemon's juice", "09152", "", 48, true},
		{"a lime's juice", "09160", "", 44, true},
		{"a lemon's zest", "09156", "", 6, true},
		{"a bay leaf", "02004", "leaf", 0.2, true},
		{"a spring onion", "11291", "", 15, true},
		{"a rasher", "10123", "rasher", 28, true},
		{"a tin of tomatoes", "11531", "tin", 400, true},
		{"a slice of bread", "18069", "slice", 29, true},
		{"a chicken breast", "05062", "breast", 165, true},
		{"a sprig of thyme", "02049", "sprig", 1, true},
		{"a thumb of ginger", "11216", "thumb", 15, true},
		{"a sheet of gelatine", "19177", "leaf", 2, true},
		{"a stock cube", "06081", "", 4.8, true},
		{"a knob of butter", "01001", "knob", 15, true},
		{"a stick of butter", "01001", "stick", 113, true},
		{"a chilli", "11979", "", 14, true},
		{"a tomato", "11529", "", 123, true},
		{"a potato", "11352", "", 213, true},
		{"an avocado", "09037", "", 201, true},
		{"an anchovy", "15002", "fillet", 4, true},
		{"a prawn", "15270", "", 6, true},
		{"an ear of corn", "11167", "ear", 102, false},
		{"a tortilla", "18364", "", 48, true},
		{"a salmon fillet", "15236", "fillet", 198, true},
		{"a sheet of filo", "18338", "sheet", 19, true},
		{"a bottle of wine", "14106", "bottle", 746, true},
	} {
		f := foods[r.code]
		var m food.Measure
		var exact, ok bool
		switch {
		case r.unit == "":
			m, exact, ok = f.Each("")
		case r.unit[0] == '/':
			m, exact, ok = f.Each(r.unit[1:])
		default:
			m, exact, ok = f.Household(r.unit, "")
		}
		if !ok || m.Grams != r.grams || exact != r.exact {
			t.Errorf("%s: %v g (%s), exact %v, found %v; want %v, %v", r.name, m.Grams, m, exact, ok, r.grams, r.exact)
		}
	}
	if m, exact, _ := foods["01123"].Household("medium", "eu"); m.Grams != 51 || !exact {
		t.Errorf("a British medium egg: %v g, exact %v; want 51", m.Grams, exact)
	}
	if m, exact, _ := foods["01123"].Household("medium", ""); m.Grams != 44 || !exact {
		t.Errorf("an American medium egg: %v g, exact %v; want 44", m.Grams, exact)
	}
	if m, _, ok := foods["23572"].Each(""); ok {
		t.Errorf("ground beef is not counted: %v", m)
	}
	if m, _, ok := foods["04053"].Household("clove", ""); ok {
		t.Errorf("oil has no cloves: %v", m)
	}
}
