package claims

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"parewell/recipes/food"
)

func TestRoundUS(t *testing.T) {
	for _, row := range []struct {
		section string
		n       food.Nutrient
		v       float64
		want    string
	}{
		{"101.9(c)(1)", kcal, 4.999, "0"},
		{"101.9(c)(1)", kcal, 5, "5"},
		{"101.9(c)(1), the half goes up", kcal, 47.5, "50"},
		{"101.9(c)(1), just under the half", kcal, 47.499, "45"},
		{"101.9(c)(1)", kcal, 50, "50"},
		{"101.9(c)(1), above 50 by tens", kcal, 50.01, "50"},
		{"101.9(c)(1)", kcal, 54.999, "50"},
		{"101.9(c)(1)", kcal, 55, "60"},
		{"101.9(c)(2)", fat, 0.499, "0"},
		{"101.9(c)(2)", fat, 0.5, "0.5"},
		{"101.9(c)(2)", sat, 0.7499, "0.5"},
		{"101.9(c)(2)", sat, 0.75, "1"},
		{"101.9(c)(2)", fat, 4.749, "4.5"},
		{"101.9(c)(2)", fat, 4.75, "5"},
		{"101.9(c)(2), 5 in neither branch", trans, 5, "5"},
		{"101.9(c)(2)", fat, 5.499, "5"},
		{"101.9(c)(2)", fat, 5.5, "6"},
		{"101.9(c)(3)", chol, 1.999, "0"},
		{"101.9(c)(3)", chol, 2, "less than 5"},
		{"101.9(c)(3)", chol, 5, "less than 5"},
		{"101.9(c)(3)", chol, 5.001, "5"},
		{"101.9(c)(3)", chol, 7.499, "5"},
		{"101.9(c)(3)", chol, 7.5, "10"},
		{"101.9(c)(4)", na, 4.999, "0"},
		{"101.9(c)(4)", na, 5, "5"},
		{"101.9(c)(4)", na, 137.5, "140"},
		{"101.9(c)(4)", na, 140, "140"},
		{"101.9(c)(4)", na, 144.999, "140"},
		{"101.9(c)(4)", na, 145, "150"},
		{"101.9(c)(6)", food.Carbohydrate, 0.499, "0"},
		{"101.9(c)(6)", fibre, 0.5, "less than 1"},
		{"101.9(c)(6)", sugars, 0.999, "less than 1"},
		{"101.9(c)(6)", sugars, 1, "1"},
		{"101.9(c)(6)(iii)", addedSugars, 1.499, "1"},
		{"101.9(c)(7)", protein, 1.5, "2"},
		{"101.9(c)(8), from memory", potassium, 4.9, "0"},
		{"101.9(c)(8), from memory", potassium, 95, "100"},
		{"101.9(c)(8), from memory, under 2 % of 1,300 mg", calcium, 25.9, "0"},
		{"101.9(c)(8), from memory", calcium, 26, "30"},
		{"101.9(c)(8), from memory", fe, 0.36, "0.4"},
		{"101.9(c)(8), from memory", fe, 0.359, "0"},
		{"not known", fat, nan, "?"},
	} {
		got := RoundUS(row.n, row.v)
		if got.Text != row.want {
			t.Errorf("%s, %s %g: %q, want %q", row.section, row.n.Key(), row.v, got.Text, row.want)
		}
		if memory := strings.Contains(row.section, "memory"); memory != (got.Status == FromMemory) && row.n != addedSugars && !math.IsNaN(row.v) {
			t.Errorf("%s, %s: status %q", row.section, row.n.Key(), got.Status)
		}
	}
}

// The vectors beside the reference data, worked out from the rule's text.
func TestRoundUSVectors(t *testing.T) {
	var file struct {
		Cases []struct {
			ID      string                                `json:"id"`
			Source  string                                `json:"source"`
			Vectors map[string]map[string]json.RawMessage `json:"vectors"`
		} `json:"cases"`
	}
	if err := json.Unmarshal(reference(t, "nutrition/worked-examples.json"), &file); err != nil {
		t.Fatal(err)
	}
	nutrients := map[string][]food.Nutrient{
		"calories": {kcal}, "fat_g": {fat, sat, trans}, "sodium_mg": {na}, "cholesterol_mg": {chol},
		"carb_fibre_sugar_protein_g": {food.Carbohydrate, fibre, sugars, protein},
	}
	checked := 0
	for _, c := range file.Cases {
		for name, vectors := range c.Vectors {
			for text, want := range vectors {
				v, err := strconv.ParseFloat(text, 64)
				if err != nil {
					t.Fatal(err)
				}
				for _, n := range nutrients[name] {
					checked++
					said := strings.Trim(string(want), `"`)
					if w, err := strconv.ParseFloat(said, 64); err == nil {
						said = strconv.FormatFloat(w, 'g', -1, 64)
					}
					if got := RoundUS(n, v).Text; got != said {
						t.Errorf("%s (%s), %s %s: %q, want %q", c.ID, c.Source, n.Key(), text, got, said)
					}
				}
			}
		}
	}
	if checked == 0 {
		t.Error("no vector was found")
	}
}

func TestRoundEU(t *testing.T) {
	const guidance = "EU guidance, December 2012"
	for _, row := range []struct {
		n    food.Nutrient
		v    float64
		want string
	}{
		{kcal, 260.499, "260"},
		{kcal, 260.5, "261"},
		{food.EnergyKJ, 1089.5, "1090"},
		{fat, 0, "0"},
		{fat, 0.5, "<0.5"},
		{fat, 0.501, "0.5"},
		{fat, 0.55, "0.6"},
		{fat, 3.04999, "3.0"},
		{fat, 3.05, "3.1"},
		{fat, 9.94, "9.9"},
		{fat, 9.95, "10"},
		{fat, 10, "10"},
		{fat, 10.499, "10"},
		{fat, 10.5, "11"},
		{protein, 0.3, "<0.5"},
		{fibre, 6.25, "6.3"},
		{sugars, 22.5, "23"},
		{sat, 0.1, "<0.1"},
		{sat, 0.1001, "0.1"},
		{sat, 0.15, "0.2"},
		{sat, 10.4, "10"},
		{na, 5, "<0.01"},
		{na, 5.001, "0.01"},
		{na, 994.9, "0.99"},
		{na, 995, "1.0"},
		{na, 1049.9, "1.0"},
		{na, 1050, "1.1"},
		{potassium, 1234, "1230"},
		{calcium, 123.5, "124"},
		{calcium, 12.34, "12.3"},
		{fe, 1.25, "1.3"},
		{fe, 0, "0"},
		{fat, nan, "?"},
	} {
		if got := RoundEU(row.n, row.v).Text; got != row.want {
			t.Errorf("%s, %s %g: %q, want %q", guidance, row.n.Key(), row.v, got, row.want)
		}
	}
	for v, want := range map[float64]string{0: "0", 0.0125: "<0.01", 0.01251: "0.01", 0.015: "0.02", 0.994: "0.99", 0.995: "1.0", 1: "1.0", 1.049: "1.0", 1.05: "1.1", 2.25: "2.3"} {
		if got := RoundSaltEU(v).Text; got != want {
			t.Errorf("%s, salt %g: %q, want %q", guidance, v, got, want)
		}
	}
	if RoundEU(na, 500).Status != FromMemory || RoundSaltEU(1).Status != Confirmed {
		t.Error("the bands of sodium are from memory, those of salt were seen")
	}
}

func TestRoundDailyValue(t *testing.T) {
	for v, want := range map[float64]string{0.49: "0", 0.5: "1", 12.499: "12", 12.5: "13"} {
		if got := RoundDailyValue(v).Text; got != want {
			t.Errorf("101.9(d)(7)(ii), %g %%: %q, want %q", v, got, want)
		}
	}
}
