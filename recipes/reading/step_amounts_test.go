package reading

import (
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/measure"
)

func stepLines(by float64, texts ...string) []StepLine {
	var out []StepLine
	for _, text := range texts {
		l := ReadLine(text, Options{System: measure.Metric})
		out = append(out, StepLine{l, by, by})
	}
	return out
}

func TestAmountsInAStepGoWithTheirIngredients(t *testing.T) {
	lines := stepLines(0.46, "50 g butter", "300 ml whole milk", "2 large eggs", "3 tbsp plain flour", "4 cloves garlic", "600 g chicken thighs", "1 tsp baking powder", "200 g grated Cheddar")
	for _, row := range []struct{ name, text, want, loose string }{
		{"as written", "Melt the 50 g of butter.", "Melt the 23 g of butter.", ""},
		{"a part of it", "Melt 20g of the softened butter, then add the rest.", "Melt 9g of the softened butter, then add the rest.", ""},
		{"after the name", "Add the butter (50 g) and stir.", "Add the butter (23 g) and stir.", ""},
		{"two measures", "Melt 50 g (2 oz) butter and 50 g/2 oz Cheddar.", "Melt 23 g (0.92 oz) butter and 23 g/0.92 oz Cheddar.", ""},
		{"a range", "Stir in 100-150 ml of the milk.", "Stir in 46–69 ml of the milk.", ""},
		{"a word", "Stir in a tablespoon of the flour.", "Stir in 0.46 tablespoon of the flour.", ""},
		{"singular", "Stir in 2 tablespoons of flour.", "Stir in ⅞ tablespoon of flour.", ""},
		{"counted", "Beat the 2 eggs with the four cloves of garlic.", "Beat the ⅞ eggs with the 1¾ cloves of garlic.", ""},
		{"by another word", "Brown 300 g chicken.", "Brown 138 g chicken.", ""},
		{"a part, no amount", "Melt half the butter, add ½ of the milk and beat for 10 minutes.", "", ""},
		{"times, heat, pans", "Bake at 200 C (180C fan, 400 °F, gas mark 6) for 25 minutes in a 2-litre dish or a 900 g loaf tin, 20 cm wide.", "", ""},
		{"pieces", "Cut the chicken into 8 pieces, shape into 30 g balls, and top each with 2 tbsp milk.", "", ""},
		{"not on the list", "Add 100 ml boiling water.", "", "100 ml"},
		{"some of both", "Add 100 ml boiling water and the 50 g butter.", "Add 100 ml boiling water and the 23 g butter.", "100 ml"},
		{"a sentence's end", "Add 50 g. Butter the dish.", "", "50 g"},
		{"each of two", "Add 100 g each of the butter and Cheddar.", "Add 46 g each of the butter and Cheddar.", ""},
		{"little", "A pinch of salt, a knob of butter, 2 pinches of flour.", "", ""},
		{"a glass", "Pour into a glass.", "", ""},
		{"nothing", "", "", ""},
	} {
		got, loose, _ := ScaleStep(row.text, lines, 0.46, measure.Metric)
		if row.want == "" {
			row.want = row.text
		}
		if got != row.want || strings.Join(loose, ", ") != row.loose {
			t.Errorf("%s: %q, loose %q", row.name, got, loose)
		}
		if same, loose, _ := ScaleStep(row.text, stepLines(1, "50 g butter"), 1, measure.Metric); same != row.text || loose != nil {
			t.Errorf("%s, as often as written: %q, loose %q", row.name, same, loose)
		}
	}
}

// TestStepsOfADraft has a version that halves one of two butters.
func TestStepsOfADraft(t *testing.T) {
	line := func(text string) *recipes.Line { return ReadLine(text, Options{System: measure.Metric}) }
	d := &recipes.Draft{
		Lines: []recipes.DraftLine{{Line: line("60 g butter"), Scale: 0.5}, {Line: line("20 g butter"), Scale: 1}, {Line: line("500 ml cream"), Scale: 0}, {Line: line("40 g oil"), Scale: 1}},
		Steps: []recipes.DraftStep{
			{ID: "a", Texts: []string{"Melt the 60 g butter."}},
			{ID: "b", Texts: []string{"Melt 10 g butter."}},
			{ID: "c", Texts: []string{"Warm the 30 g butter."}, Swaps: []recipes.ID{"s"}},
			{ID: "d", Texts: []string{"Add 500 ml cream and 40 g oil."}},
			{ID: "e", Texts: []string{"Gone."}, Dropped: true},
		},
	}
	for _, row := range []struct {
		whole float64
		want  string
	}{
		{1, "Melt the 30 g butter.  / Melt 10 g butter. in this step, check 10 g against the list / Warm the 30 g butter.  / Add 500 ml cream and 40 g oil. "},
		{2, "Melt the 60 g butter.  / Melt 10 g butter. amounts in this step are for the whole recipe / Warm the 60 g butter.  / Add 500 ml cream and 80 g oil. in this step 500 ml is for the whole recipe"},
	} {
		var got []string
		for _, s := range DraftSteps(d, row.whole, measure.Metric) {
			got = append(got, strings.Join(s.Texts, "|")+" "+s.Note())
		}
		if text := strings.Join(got, " / "); text != row.want {
			t.Errorf("%g times:\n%s\nwant\n%s", row.whole, text, row.want)
		}
	}
}

func FuzzScaleStep(f *testing.F) {
	f.Add("Melt the 50 g (2 oz) butter, ½ of 1 lb 4 oz flour and a tablespoon of é½milk.", 0.46)
	f.Add("2-3 x 400 g tins 1/2–3 tbsp. Each 100 °C\xff 5-a-day", 3.0)
	lines := stepLines(0.46, "50 g butter", "2 eggs")
	f.Fuzz(func(t *testing.T, text string, by float64) {
		if !(by > 0.01 && by < 200) {
			return
		}
		if got, _, _ := ScaleStep(text, lines, by, measure.Metric); len(got) > 4*len(text)+20 {
			t.Errorf("%q became %q", text, got)
		}
	})
}
