package nutrition

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// workedCase is one case of the reference folder's worked-examples.json; each
// names its source, which stands in every failure.
type workedCase struct {
	ID     string `json:"id"`
	Source string `json:"source"`
	Inputs struct {
		WeightChange float64            `json:"weight_change_percent"`
		Ingredients  map[string]float64 `json:"ingredients_g"`
		CanG         float64            `json:"can_g"`
		PreparedG    float64            `json:"prepared_g"`
	} `json:"inputs"`
	Published struct {
		Final      float64            `json:"final_weight_g"`
		Proportion map[string]float64 `json:"proportion"`
	} `json:"published_outputs"`
	Rows  []map[string]any `json:"rows"`
	Cases []map[string]any `json:"cases"`
}

func workedCases(t *testing.T) map[string]workedCase {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "..", "shared", "reference", "nutrition", "worked-examples.json"))
	if err != nil {
		t.Skip("the reference folder holds no nutrition/worked-examples.json")
	}
	var all struct {
		Cases []json.RawMessage `json:"cases"`
	}
	if err := json.Unmarshal(b, &all); err != nil {
		t.Fatal(err)
	}
	out := map[string]workedCase{}
	for _, raw := range all.Cases {
		var head struct {
			ID string `json:"id"`
		}
		if json.Unmarshal(raw, &head) != nil || !wanted[head.ID] {
			continue // cases of other shapes are tested where their subject is
		}
		var c workedCase
		if err := json.Unmarshal(raw, &c); err != nil {
			t.Fatalf("%s: %v", head.ID, err)
		}
		out[c.ID] = c
	}
	return out
}

// wanted are the cases tested here. The others: USDA-specific-Atwater in
// energy_test.go, CFR-relative-claims and US-rounding-vectors in
// analysis/claims, FAO-TEE in analysis/meals, constructed-braise in
// cooking_test.go. PhenolExplorer-RF gives retention of phenols, which no table
// we read holds, so it checks only the formula of a yield turned round;
// constructed-eu-energy needs polyols and organic acids, which no table we read
// tells apart from carbohydrate.
var wanted = map[string]bool{"BJN2023-hollandaise": true, "USDA-soup-6006-6406": true, "USDA-soup-6044-6444": true, "AP-EP-yield": true, "PhenolExplorer-RF": true}

// weighedAt is a kitchen whose dish came out at so many grams.
func weighedAt(l *larder, grams float64) Kitchen {
	return Kitchen{Foods: l.get, Weighed: func(*recipes.Draft) (Weighed, bool) { return Weighed{Mean: grams, Tests: 1}, true }}
}

// TestHollandaise: the weight change applies to the whole dish, and each
// ingredient keeps its grams in it.
func TestHollandaise(t *testing.T) {
	c, ok := workedCases(t)["BJN2023-hollandaise"]
	if !ok {
		t.Fatal("the case is gone")
	}
	names := map[string]string{
		"butter, plain, no added salt": "butter", "pepper, ground, black or white": "pepper", "egg yolk, raw": "egg_yolk",
		"lemon juice, commercial": "lemon_juice", "water, tap": "water",
	}
	l := newLarder(1, 0, 1)
	var lines []*recipes.Line
	var order []string
	raw := 0.0
	for name, g := range c.Inputs.Ingredients {
		lines, order, raw = append(lines, l.line(l.plain(name, nil), g)), append(order, names[name]), raw+g
	}
	a := weighedAt(l, raw*(1+c.Inputs.WeightChange/100)).Of(recipes.Compose(dish(1, lines...), nil, nil))
	cooked, _ := a.CookedGrams()
	if math.Abs(cooked-c.Published.Final) > 5e-4 {
		t.Errorf("%s: cooked weight %v, published %v", c.Source, cooked, c.Published.Final)
	}
	for i := range a.Lines {
		if got, want := a.Lines[i].Eaten/cooked, c.Published.Proportion[order[i]]; math.Abs(got-want) > 6e-6 {
			t.Errorf("%s: %s is %v of a gram, published %v", c.Source, order[i], got, want)
		}
	}
}

// TestSoupsMadeUpWithWater: nutrients stay, the weight grows; the published
// prepared rows come out within the rounding of both rows.
func TestSoupsMadeUpWithWater(t *testing.T) {
	key := map[string]food.Nutrient{
		"Energy_Kcal": food.EnergyKcal, "Protein_(g)": food.Protein, "Lipid_Tot_(g)": food.Fat, "Carbohydrates_(g)": food.Carbohydrate,
		"Sodium_(mg)": food.Sodium, "Potassium_(mg)": food.Potassium, "FA_Sat_(g)": food.SaturatedFat,
	}
	tested := 0
	for _, id := range []string{"USDA-soup-6006-6406", "USDA-soup-6044-6444"} {
		c := workedCases(t)[id]
		for _, row := range c.Rows {
			n, ok := key[row["nutrient"].(string)]
			if within, said := row["within_published_rounding"].(bool); !ok || said && !within {
				continue
			}
			l := newLarder(1, 0, 1)
			conc := row["concentrate_per_100g"].(float64)
			soup := l.plain("soup", map[food.Nutrient]float64{n: conc})
			water := l.plain("water", nil)
			r := dish(1, l.line(soup, c.Inputs.CanG), l.line(water, c.Inputs.PreparedG-c.Inputs.CanG))
			got := l.of(r, nil).Per100g(n).Amount
			if want := row["published_prepared_per_100g"].(float64); math.Abs(got-want) > rounding(want)+rounding(conc)*c.Inputs.CanG/c.Inputs.PreparedG {
				t.Errorf("%s: %s %v, published %v", c.Source, n.Key(), got, want)
			}
			tested++
		}
	}
	if tested < 10 {
		t.Errorf("only %d figures were tested", tested)
	}
}

// rounding is half a step of a published figure: of whole ones where it is
// printed whole, else of hundredths.
func rounding(published float64) float64 {
	if published == math.Trunc(published) {
		return 0.51
	}
	return 0.0051
}

// TestAsPurchasedAndEdible: EP = AP x yield, by a line as bought.
func TestAsPurchasedAndEdible(t *testing.T) {
	c := workedCases(t)["AP-EP-yield"]
	if len(c.Cases) == 0 {
		t.Fatal("the case is gone")
	}
	for _, x := range c.Cases {
		l := newLarder(1, 0, 1)
		f := l.plain("food", nil)
		f.Edible = x["yield_factor"].(float64)
		bought, edible := x["AP_lb"], x["published_EP_lb"]
		if bought == nil {
			bought, edible = x["published_AP_lb"], x["EP_lb"]
		}
		line := l.line(f, bought.(float64))
		line.AsBought = true
		if got, _ := l.of(dish(1, line), nil).RawGrams(); math.Abs(got-edible.(float64)) > 0.005 {
			t.Errorf("%s: %v of %v, published %v", x["item"], got, bought, edible)
		}
	}
}

// TestTrueRetention: content after over content before, times the yield.
func TestTrueRetention(t *testing.T) {
	c := workedCases(t)["PhenolExplorer-RF"]
	for _, x := range c.Rows {
		l := newLarder(1, 0, 1)
		before, after := x["before_mg_100g"].(float64), x["after_mg_100g"].(float64)
		yield, published := x["yield_factor"].(float64), x["published_RF"].(float64)
		raw := l.plain("raw", map[food.Nutrient]float64{food.Potassium: before})
		a := weighedAt(l, 100*yield).Of(recipes.Compose(dish(1, l.line(raw, 100)), nil, nil))
		got := after / a.Per100g(food.Potassium).Amount
		if math.Abs(got-published) > 0.0101 { // two published figures are cut, not rounded
			t.Errorf("%s: %v retained, published %v (%s)", x["food"], got, published, c.Source)
		}
	}
}
