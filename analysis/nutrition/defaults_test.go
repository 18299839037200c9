package nutrition

import (
	"math"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// TestPastaWaterShare works the default out again from the study's figures
// (Food Chem 2019;271:479-487) and USDA SR28: salt 38,758 mg of sodium in 100 g,
// spaghetti 20120 to 20121.
func TestPastaWaterShare(t *testing.T) {
	yield := 0.0
	for _, p := range pairs {
		if p.Code == "20120" && p.Method == "boiled, drained" {
			yield = p.Yield
		}
	}
	servings := 454 * yield / 140
	inWater := 36 * 387.58
	d := byKey(t, "pasta-water")
	for _, r := range []struct {
		name      string
		got, want float64
	}{
		{"at the plain strength", 247 * servings / inWater, d.Uptake.Salt},
		{"at twice the salt", 490 * servings / (2 * inWater), d.Uptake.Salt},
		{"rinsed, a third less", 247 * 0.66 * servings / inWater, d.Least.Salt},
		{"the highest at the plain strength", 490 * servings / inWater, d.Most.Salt},
		{"water", 454 * (yield - 1) / 5680, d.Uptake.Water},
	} {
		if math.Abs(r.got-r.want) > 0.002 {
			t.Errorf("%s: %.4f, the default says %.4f", r.name, r.got, r.want)
		}
	}
}

func byKey(t *testing.T, key string) Default {
	t.Helper()
	for _, d := range Defaults {
		if d.Key == key {
			return d
		}
	}
	t.Fatalf("no default %q", key)
	return Default{}
}

// TestBrineShare works the default out again: half a cup of salt is 8 tbsp of
// 18 g (USDA), 1 kg of meat weighs about 740 g cooked.
func TestBrineShare(t *testing.T) {
	inBrine := 8 * 18 * 387.58
	chicken, pork := (353-60)*7.4/inBrine, (245-60)*7.4/inBrine
	if d := byKey(t, "brine"); math.Abs((chicken+pork)/2-d.Uptake.Salt) > 0.003 || chicken > d.Most.Salt || pork < d.Least.Salt {
		t.Errorf("chicken %.3f and pork %.3f, the default says %+v", chicken, pork, d)
	}
}

func TestRangesHoldTheirDefault(t *testing.T) {
	in := func(low, v, high float64) bool { return low <= v && v <= high && low >= 0 && high <= 1 }
	for _, d := range Defaults {
		u, l, m := d.Uptake, d.Least, d.Most
		if !in(d.Low, d.Share, d.High) || !in(l.Water, u.Water, m.Water) || !in(l.Salt, u.Salt, m.Salt) || !in(l.Fat, u.Fat, m.Fat) {
			t.Errorf("%s: %+v", d.Key, d)
		}
	}
}

// TestFryingOil: 600 g of potatoes in a litre of oil (920 g) take up 16.5 % of
// their weight, 99 g of it.
func TestFryingOil(t *testing.T) {
	l := newLarder(1, 0, 1)
	potato := l.plain("potato", map[food.Nutrient]float64{food.Carbohydrate: 17})
	oil := l.plain("oil", map[food.Nutrient]float64{food.Fat: 100})
	r := dish(4, l.line(potato, 600), l.line(oil, 920))
	if a := l.of(r, nil); a.FriedGrams() != 0 {
		t.Error("nothing is fried yet")
	}
	r.Dish = recipes.Technique{Method: "deep-fried"}
	a := l.of(r, nil)
	d := byKey(t, "deep-fried")
	part, ok := d.PartOf(920, a.FriedGrams())
	if !ok || !near(part*920, 99, 1e-9) {
		t.Errorf("%v of 920 g is %v, want 99", part, part*920)
	}
	if part, _ := d.PartOf(50, 600); part != 1 {
		t.Errorf("%v of 50 g: no more than all of it", part)
	}
	if _, ok := d.PartOf(920, 0); ok {
		t.Error("a share of nothing fried")
	}
	if _, ok := byKey(t, "marinade").PartOf(100, 100); ok {
		t.Error("a bath has shares of its own")
	}
}

func TestDefaultsFor(t *testing.T) {
	l := newLarder(1, 0, 1)
	oil := l.plain("oil", map[food.Nutrient]float64{food.Fat: 100})
	rows := []struct {
		name       string
		f          *food.Food
		want, lack string
	}{
		{"oil", oil, "deep-fried", "pasta-water"},
		{"salt", l.plain("salt", nil), "pasta-water", "deep-fried"},
		{"not known", nil, "marinade", "pan-fried"},
	}
	for _, r := range rows {
		has := map[string]bool{}
		for _, d := range DefaultsFor(r.f) {
			has[d.Key] = true
		}
		if !has[r.want] || has[r.lack] {
			t.Errorf("%s: %v", r.name, has)
		}
	}
}
