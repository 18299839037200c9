package book

import (
	"math"
	"strings"
	"testing"

	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
)

// readLine reads one ingredient as a cook of the system would write it.
func readLine(t *testing.T, text string, s measure.System) (*recipes.Line, *food.Food) {
	t.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		t.Fatal(err)
	}
	table := food.NewTable(foods)
	lines := reading.ReadLines(text, reading.Options{Foods: table, System: s})
	if len(lines) != 1 {
		t.Fatalf("%q is %d lines", text, len(lines))
	}
	return lines[0], table.Get(lines[0].Food)
}

// TestAmountsInHouseStyle: text is what the recipe says, scale what a swap makes
// of it. Sizes: NIST Handbook 44 for US cups and spoons; weights of cups are the
// starter table's.
func TestAmountsInHouseStyle(t *testing.T) {
	for _, r := range []struct {
		name, text string
		from       measure.System
		scale      float64
		metric, us string
	}{
		{"grams as written stay", "225 g caster sugar", measure.Metric, 1, "225 g caster sugar", "1 cup + 2 tbsp caster sugar"},
		{"grams worked out go to ten", "140 g Gruyère, grated", measure.Metric, 2.0 / 3, "95 g Gruyère, grated", "¾ cup + 2 tbsp Gruyère, grated"},
		{"over a hundred to ten", "300 g onions, chopped", measure.Metric, 0.61, "180 g onions, chopped", "6½ oz onions, chopped"},
		{"small ones to the gram", "25 g butter", measure.Metric, 0.33, "8 g butter", "1¾ tsp butter"},
		{"meat goes on the scale", "500 g minced beef", measure.Metric, 1, "500 g minced beef", "1 lb 2 oz minced beef"},
		{"a kilogram", "1.2 kg potatoes", measure.Metric, 1, "1.2 kg potatoes", "2 lb 10 oz potatoes"},
		{"milk is poured", "300 ml whole milk", measure.Metric, 1, "300 ml whole milk", "1¼ cups whole milk"},
		{"a little cream is spooned", "300 ml double cream", measure.Metric, 0.05, "1 tbsp double cream", "1 tbsp double cream"},
		{"a cup of flour is weighed", "1 cup flour", measure.US, 1, "130 g flour", "1 cup flour"},
		{"a cup of milk is measured", "1 cup milk", measure.US, 1, "240 ml milk", "1 cup milk"},
		{"a second measure goes", "1 cup (240 ml) milk", measure.US, 1, "240 ml milk", "1 cup milk"},
		{"a spoon stays a spoon", "1 1/2 tsp salt", measure.US, 1, "1½ tsp salt", "1½ tsp salt"},
		{"part of a spoon, to a real mark", "¾ tsp fine salt", measure.Metric, 0.6, "½ tsp fine salt", "½ tsp fine salt"},
		{"eggs are whole", "4 large eggs", measure.Metric, 0.6, "2 large eggs", "2 large eggs"},
		{"packs are whole", "3 tins chickpeas", measure.Metric, 0.5, "2 tins chickpeas", "2 tins chickpeas"},
		{"half an onion", "1 onion, chopped", measure.Metric, 0.5, "½ onion, chopped", "½ onion, chopped"},
		{"a third of one", "1 onion, chopped", measure.Metric, 0.34, "⅓ onion, chopped", "⅓ onion, chopped"},
		{"a range", "2-3 tbsp olive oil", measure.Metric, 1, "2–3 tbsp olive oil", "2–3 tbsp olive oil"},
		{"no amount", "salt to taste", measure.Metric, 1, "salt to taste", "salt to taste"},
		{"no amount, and less of it", "salt to taste", measure.Metric, 0.5, "50 % of: salt to taste", "50 % of: salt to taste"},
		{"a pinch", "a pinch of nutmeg", measure.Metric, 1, "a pinch of nutmeg", "a pinch of nutmeg"},
		{"juice of a fruit", "juice of 1 lemon", measure.Metric, 1, "juice of 1 lemon", "juice of 1 lemon"},
		{"packs of a size", "2 x 400 g tins chopped tomatoes", measure.Metric, 1, "2 x 400 g tins chopped tomatoes", "2 x 400 g tins chopped tomatoes"},
		{"the cook's bracket is hers", "500 g potatoes, peeled [450 g]", measure.Metric, 1, "500 g potatoes, peeled", "1 lb 2 oz potatoes, peeled"},
	} {
		t.Run(r.name, func(t *testing.T) {
			l, f := readLine(t, r.text, r.from)
			d := &recipes.DraftLine{Line: l, Scale: r.scale, PartEaten: 1}
			in := ingredientOf(d, f, []house{{to: measure.Metric, from: r.from}, {to: measure.US, from: r.from}})
			if got := in.In(0); got != r.metric {
				t.Errorf("metric %q, want %q", got, r.metric)
			}
			if got := in.In(1); got != r.us {
				t.Errorf("US %q, want %q", got, r.us)
			}
		})
	}
}

// TestSpoonsAndCupsStayClose: whatever the volume, what is printed is within
// 15 % from half a teaspoon up, and a real measure.
func TestSpoonsAndCupsStayClose(t *testing.T) {
	for _, h := range []house{{to: measure.US}, {to: measure.Metric}} {
		worst := 0.0
		for ml := 2.5; ml < 3000; ml *= 1.013 {
			a, ok := h.volume(ml)
			if !ok || strings.Contains(a.Text, ".") {
				t.Fatalf("%v ml: %q", ml, a.Text)
			}
			worst = math.Max(worst, math.Abs(a.Ratio-1))
		}
		if worst > 0.15 {
			t.Errorf("%v: off by %.0f %%", h.to, worst*100)
		}
		t.Logf("%v: off by at most %.1f %%", h.to, worst*100)
	}
}

func TestHouseGrams(t *testing.T) {
	for in, want := range map[float64]float64{0.2: 0.5, 2.3: 2.5, 4.9: 5, 12.4: 12, 93.4: 95, 97: 95, 104: 100, 286: 290, 1234: 1230} {
		if got := houseGrams(in); got != want {
			t.Errorf("%v g is printed as %v, want %v", in, got, want)
		}
	}
}
