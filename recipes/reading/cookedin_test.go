package reading

import (
	"testing"

	"parewell/recipes"
)

func TestCookedIn(t *testing.T) {
	for _, row := range []struct {
		name  string
		steps []string
		want  recipes.Technique
	}{
		{"a time in the last step", []string{"Melt the butter.", "Tip into a dish and bake 45 minutes."}, recipes.Technique{Method: "baked", Minutes: 45}},
		{"the longer of two", []string{"Simmer the potatoes for 15 minutes. Drain.", "Bake at 200C for 25 minutes until golden."}, recipes.Technique{Method: "baked", Minutes: 25}},
		{"a range is its middle", []string{"Bake for 35-45 minutes."}, recipes.Technique{Method: "baked", Minutes: 40}},
		{"hours and minutes", []string{"Cover; braise for 1 hour 20 minutes."}, recipes.Technique{Method: "braised", Minutes: 80}},
		{"an hour and a half", []string{"Simmer, covered, 1½ hours."}, recipes.Technique{Method: "simmered", Minutes: 90}},
		{"no time", []string{"Bake until golden."}, recipes.Technique{Method: "baked"}},
		{"a time before the word is not its own", []string{"After 10 minutes, stir and simmer until thick."}, recipes.Technique{}},
		{"a baking dish bakes nothing", []string{"Grease a baking dish.", "Chill for 30 minutes."}, recipes.Technique{}},
		{"a temperature is no time", []string{"Roast at 180 degrees."}, recipes.Technique{Method: "roasted"}},
		{"nothing", nil, recipes.Technique{}},
		{"no dish cooks that long", []string{"Bake 999999 hours."}, recipes.Technique{Method: "baked"}},
	} {
		got, said, ok := CookedIn(row.steps)
		if got != row.want || ok != (row.want.Method != "") || ok == (said == "") {
			t.Errorf("%s: %+v from %q, want %+v", row.name, got, said, row.want)
		}
	}
}
