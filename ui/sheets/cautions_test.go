package sheets

import (
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
)

// TestCautionsNameTheirSourceOnce: chicken and egg have one source, which is
// named once; the ingredient's own field says its own.
func TestCautionsNameTheirSourceOnce(t *testing.T) {
	b, r := gratin(t)
	if got := NewBench(b, r).CautionLine(0); got != "" {
		t.Errorf("milk and butter: %q", got)
	}
	add := func(id recipes.ID, group, name string) recipes.Verb {
		f := &food.Food{Ref: food.Ref{Source: "usda", Release: "sr28", Code: string(id)}, Name: name, Group: group, State: food.Raw}
		return recipes.AddLine("recipe", &recipes.Line{ID: id, Text: name, Name: name, Grams: 100, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}, "end", []*food.Food{f})
	}
	b = do(t, b, add("hen", "poultry", "chicken thigh, raw"), add("egg", "eggs", "egg, whole, raw"))
	x := NewBench(b, b.Recipe("recipe"))
	line := x.CautionLine(0)
	if !strings.Contains(line, "74 °C") || !strings.Contains(line, "71 °C") || strings.Count(line, "foodsafety.gov") != 1 {
		t.Errorf("%q", line)
	}
	if d := x.Detail("hen", 1, PerServing); !strings.Contains(d.Text, "74 °C") || strings.Contains(d.Text, "71 °C") {
		t.Errorf("the chicken's field: %q", d.Text)
	}
	if d := x.Detail("milk", 1, PerServing); strings.Contains(d.Text, "°C") {
		t.Errorf("the milk's field: %q", d.Text)
	}
	if d := x.Detail(DishWeightKey, 0, PerServing); !strings.Contains(d.Text, "74 °C") {
		t.Errorf("the dish's: %q", d.Text)
	}
}
