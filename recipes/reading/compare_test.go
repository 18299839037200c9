package reading

import (
	"math"
	"os"
	"testing"

	"parewell/recipes"
	"parewell/recipes/measure"
)

// original reads a recipe of testdata with readable IDs.
func original(t *testing.T, file string) *recipes.Recipe {
	t.Helper()
	return recipeOf(t, readFile(t, file))
}

func readFile(t *testing.T, file string) string {
	t.Helper()
	b, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func recipeOf(t *testing.T, text string) *recipes.Recipe {
	t.Helper()
	n := 0
	return draftOf(t, text).Recipe(func() recipes.ID { n++; return recipes.ID("id" + string(rune('A'+n))) })
}

func draftOf(t *testing.T, text string) *Draft {
	t.Helper()
	d, err := ReadText(text, Options{Foods: table(t), System: measure.Metric})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestSameDraftGivesNoSwap(t *testing.T) {
	for _, r := range recipeFiles {
		if swaps := Differences(original(t, r.file), draftOf(t, readFile(t, r.file)), table(t)); len(swaps) != 0 {
			t.Errorf("%s: %+v", r.file, swaps)
		}
	}
}

const gratin = `Gratin
Serves 4
60 g butter
300 ml double cream
40 g plain flour
1 tsp salt
100 g cheddar
500 g potatoes
Method
1. Melt the butter in a wide pan and stir in the flour.
2. Pour in the cream and simmer until thick.
3. Bake with the cheese on top until brown.`

const lighter = `Gratin
Serves 4
20 g butter
150 ml double cream
150 g strained yogurt
40 g plain flour
500 g potatoes
50 g Parmesan
2 tbsp chopped chives
Method
1. Melt the butter in a wide pan and stir in the flour.
2. Pour in the cream and simmer until thick. Off the heat stir in the yogurt.
3. Bake with the cheese on top until brown.
4. Scatter with the chives and serve at once.`

func TestDifferences(t *testing.T) {
	r := recipeOf(t, gratin)
	got := map[string]recipes.Swap{}
	for _, s := range Differences(r, draftOf(t, lighter), table(t)) {
		got[s.Name] = s
		if s.ID != "" || s.Recipe != r.ID {
			t.Errorf("%s: id %q of %q", s.Name, s.ID, s.Recipe)
		}
	}
	for _, want := range []struct {
		name string
		kind recipes.OpKind
		line string
	}{
		{"butter 60 g to 20 g", recipes.OpMultiply, "60 g butter"},
		{"strained yogurt for half the double cream", recipes.OpExchange, "300 ml double cream"},
		{"no salt", recipes.OpRemove, "1 tsp salt"},
		{"Parmesan for cheddar", recipes.OpExchange, "100 g cheddar"},
		{"chives added", recipes.OpAdd, ""},
		{"step 2 rewritten", recipes.OpStepReplace, ""},
		{"a new step after step 3", recipes.OpStepAdd, ""},
	} {
		s, ok := got[want.name]
		if !ok {
			t.Errorf("%q is missing", want.name)
			continue
		}
		delete(got, want.name)
		op := s.Ops[0]
		if op.Kind != want.kind || want.line != "" && r.Line(op.Line).Text != want.line {
			t.Errorf("%s: %+v", want.name, op)
		}
	}
	for name := range got {
		t.Errorf("%q was not asked for", name)
	}
}

// The proposed swaps, all on, must compose to the lighter recipe's amounts.
func TestDifferencesCompose(t *testing.T) {
	r := recipeOf(t, gratin)
	d := draftOf(t, lighter)
	var on []*recipes.Swap
	for i, s := range Differences(r, d, table(t)) {
		s.ID = recipes.ID("swap" + string(rune('a'+i)))
		on = append(on, &s)
	}
	want := map[string]float64{}
	for _, l := range d.Lines {
		want[l.Food.Code] += l.Grams
	}
	got := map[string]float64{}
	for _, l := range recipes.Compose(r, nil, on).Lines {
		if g, ok := l.Grams(); ok && g > 0 {
			got[l.Line.Food.Code] += g
		}
	}
	for code, g := range want {
		if math.Abs(got[code]-g) > 0.01 {
			t.Errorf("%s: %.2f g, want %.2f", code, got[code], g)
		}
		delete(got, code)
	}
	for code, g := range got {
		t.Errorf("%s: %.2f g too many", code, g)
	}
}

func TestDroppedAndFirstSteps(t *testing.T) {
	r := recipeOf(t, gratin)
	swaps := Differences(r, draftOf(t, `Gratin
60 g butter
300 ml double cream
40 g plain flour
1 tsp salt
100 g cheddar
500 g potatoes
Method
1. Warm six deep bowls.
2. Melt the butter in a wide pan and stir in the flour.
3. Bake with the cheese on top until brown.`), table(t))
	if len(swaps) != 2 || swaps[0].Name != "without step 2" || swaps[0].Ops[0].Kind != recipes.OpStepDrop || swaps[1].Name != "a new first step" {
		t.Errorf("%+v", swaps)
	}
}
