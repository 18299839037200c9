package sheets

import (
	"math"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// A holds the butter at 50 of 100 g, "Melt half." and 1 g of salt; see gratin.

func TestWhatGotWorseHasARow(t *testing.T) {
	b, r := gratin(t)
	s := NewBench(b, r).Sheet(Options{})
	c := row(t, s, SlipsKey).Cells
	// sodium 20 to 208.8 mg: +189, +944 %
	if c[0].Text != "" || !strings.Contains(c[1].Text, "sodium +189 mg") || c[1].Mark != Look {
		t.Errorf("slips %+v", c)
	}
	if row(t, s, EffectKey).Cells[1].Text == "" {
		t.Error("the change should be parted into recipe and helping")
	}
}

func TestKindsOfRows(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	for key, want := range map[string]RowKind{
		"energy_kcal": NumberRow, "milk": LineRow, "half.c0": AddedRow, "s1": StepRow, AddLineKey: AddLineRow,
		AddStepKey: AddStepRow, EffectKey: EffectRow, SlipsKey: GotWorseRow, "ingredients": OtherRow, "": OtherRow,
	} {
		if got := x.KindOf(key); got != want {
			t.Errorf("%q is %d, want %d", key, got, want)
		}
	}
}

func TestEditText(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	rows := []struct {
		name, key string
		col       int
		want      string
	}{
		{"as in the original", "milk", 1, "200 g"},
		{"less of it", "butter", 1, "50 g"},
		{"a step as in the original", "s2", 1, "Bake."},
		{"a rewritten step is what it shows", "s1", 1, ""},
		{"an added ingredient is what it shows", "half.c0", 1, ""},
	}
	for _, c := range rows {
		if got := x.EditText(c.key, c.col); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestDetailSaysWhatAFieldHolds(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	rows := []struct {
		name, key string
		col       int
		title     string
		text      []string
	}{
		{"a number", "energy_kcal", 0, "Energy in Original, per serving: 300 kcal", []string{"food butter 67 %", "food milk 33 %", "Misses your brief"}},
		{"sodium as salt", "sodium_mg", 1, "Sodium in A, per serving: 209 mg", []string{"0.5 g of salt"}},
		{"an ingredient", "butter", 1, "50 g food butter in A", []string{"number butter", "200 kcal in the whole dish"}},
		{"an added one", "half.c0", 1, "1 g food salt in A", []string{"number salt"}},
		{"one that is not there", "half.c0", 0, "left out", nil},
		{"a step", "s1", 1, "A", []string{"Melt half."}},
		{"nothing", "", 0, "", []string{"Choose a field"}},
	}
	for _, c := range rows {
		d := x.Detail(c.key, c.col, PerServing)
		if d.Title != c.title {
			t.Errorf("%s: title %q, want %q", c.name, d.Title, c.title)
		}
		for _, want := range c.text {
			if !strings.Contains(d.Text, want) {
				t.Errorf("%s: %q lacks %q", c.name, d.Text, want)
			}
		}
	}
}

func TestMakeUpAddsUp(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	m := x.MakeUp(food.EnergyKcal, 1, PerServing)
	// A: milk 200 kcal, butter 200 kcal, salt 0 of the dish, for two
	if len(m.Rows) != 3 || m.Rows[0].Value != "100 kcal" || m.Rows[0].Note != "50 %" || m.Rows[2].Value != "0 kcal" {
		t.Errorf("rows %+v", m.Rows)
	}
	sum := 0.0
	for _, r := range m.Rows {
		sum += r.Share
	}
	if math.Abs(sum-1) > 1e-9 {
		t.Errorf("shares sum to %v", sum)
	}
	if dish := x.MakeUp(food.EnergyKcal, 1, WholeDish); dish.Rows[0].Value != "200 kcal" {
		t.Errorf("whole dish %+v", dish.Rows[0])
	}
	// 251 g of dish: 200 kcal of 251 g is 80 per 100 g
	if per := x.MakeUp(food.EnergyKcal, 1, Per100g); per.Rows[0].Value != "80 kcal" {
		t.Errorf("per 100 g %+v", per.Rows[0])
	}
}

func TestLineFacts(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	f, ok := x.LineFacts("butter", 1)
	if !ok || f.Title != "100 g food butter" || !strings.Contains(f.Source, "butter") {
		t.Fatalf("facts %+v", f)
	}
	if !strings.Contains(f.Caption, "every version") {
		t.Errorf("caption %q", f.Caption)
	}
	values := ""
	for _, w := range f.Chain {
		values += w.Value + "|"
	}
	if values != "100 g|100 g × 50 % = 50 g|all of it: the weight is not as bought|50 g × 100 % = 50 g|" {
		t.Errorf("weights %q", values)
	}
	energy := row(t, f.Figures, "energy_kcal").Cells
	for i, want := range []string{"400", "200", "100", "50 %"} {
		if energy[i].Text != want {
			t.Errorf("energy %d: %q, want %q", i, energy[i].Text, want)
		}
	}
	if f, ok := x.LineFacts("half.c0", 1); !ok || !strings.Contains(f.Caption, "half the butter") {
		t.Errorf("of a swap: %+v", f)
	}
	if _, ok := x.LineFacts("nowhere", 1); ok {
		t.Error("a line that is nowhere has no facts")
	}
}

func TestChartData(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	d := x.ChangeData("")
	if len(d.Versions) != 1 || len(d.Panels) != 3 || d.Panels[0].Original != 300 || d.Panels[0].Changes[0].Amount != -100 {
		t.Errorf("change %+v", d)
	}
	s := x.ShareData("")
	// milk and butter; the salt has no calories
	if len(s.Versions) != 2 || len(s.Parts) != 2 || s.Parts[1].Amounts[0] != 200 || s.Parts[1].Amounts[1] != 100 {
		t.Errorf("share %+v", s)
	}
	if x.ChartCaption() != "" {
		t.Error("one version needs no caption")
	}
}

func TestChartsTakeEightVersions(t *testing.T) {
	b, r := gratin(t)
	for i := range 9 {
		c, err := recipes.AddVersion(r.ID, recipes.ID(rune('m'+i)), "", "a")(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	x := NewBench(b, b.Recipe(r.ID))
	if n := len(x.ChangeData("").Versions); n != 8 {
		t.Errorf("%d versions charted", n)
	}
	if got := x.ChartCaption(); !strings.Contains(got, "8 of 10") {
		t.Errorf("caption %q", got)
	}
}

func TestBriefFields(t *testing.T) {
	was := recipes.Brief{Keep: "smoke", Limit: .5, Targets: []recipes.Target{
		{Nutrient: food.EnergyKcal, Amount: 500}, {Nutrient: food.Potassium, AtLeast: true, Amount: 600},
	}}
	f := FieldsOf(was)
	if f.Keep != "smoke" || f.Targets[0] != "500" || f.Targets[1] != "" || f.Limit != "0.5" {
		t.Errorf("fields %+v", f)
	}
	back, faults := ReadBrief(f, was)
	if len(faults) != 0 || len(back.Targets) != 2 || back.Limit != .5 || back.Targets[1].Nutrient != food.Potassium {
		t.Errorf("back %+v, %v", back, faults)
	}
	rows := []struct {
		name, key, text string
		field           int // of the targets; -1 helping, -2 limit
		want            float64
	}{
		{"salt", "sodium_mg", "2 g salt", 1, 800},
		{"salt without its name", "sodium_mg", "1.5g", 1, 600},
		{"sodium with its unit", "sodium_mg", "700 mg", 1, 700},
		{"a decimal comma", "saturated_fat_g", "7,5", 2, 7.5},
		{"a word", "energy_kcal", "lots", 0, math.NaN()},
		{"nought", "energy_kcal", "0", 0, math.NaN()},
		{"far too much", "energy_kcal", "50000", 0, math.NaN()},
		{"a helping", HelpingKey, "380", -1, 380},
		{"a helping of tons", HelpingKey, "9000", -1, math.NaN()},
		{"a limit beyond the scale", LimitKey, "9", -2, math.NaN()},
	}
	for _, c := range rows {
		g := FieldsOf(recipes.Brief{})
		read := func(b recipes.Brief) float64 { return b.Helping }
		switch c.field {
		case -1:
			g.Helping = c.text
		case -2:
			g.Limit, read = c.text, func(b recipes.Brief) float64 { return b.Limit }
		default:
			g.Targets[c.field] = c.text
			read = func(b recipes.Brief) float64 {
				if len(b.Targets) == 0 {
					return 0
				}
				return b.Targets[0].Amount
			}
		}
		got, faults := ReadBrief(g, recipes.Brief{})
		if wrong := faults[c.key] != ""; wrong != math.IsNaN(c.want) {
			t.Errorf("%s: faults %v", c.name, faults)
		} else if !wrong && math.Abs(read(got)-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", c.name, read(got), c.want)
		}
	}
	if got := SaltHelp("800"); !strings.HasPrefix(got, "2 g of salt") {
		t.Errorf("help %q", got)
	}
}

// TestTheRecipeAndTheHelpingAreExplained: the row says what its two figures are,
// and a field says them in a sentence with what a serving weighs.
func TestTheRecipeAndTheHelpingAreExplained(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	e := row(t, x.Sheet(Options{}), EffectKey)
	if !strings.Contains(e.Label.Text, "(helping)") || !strings.Contains(e.Label.Text, "serving weighs") {
		t.Errorf("the row is called %q", e.Label.Text)
	}
	c := x.Change(1, food.EnergyKcal)
	for name, said := range map[string]string{"detail": x.Detail(EffectKey, 1, PerServing).Text, "tip": e.Cells[1].Tip} {
		for _, want := range []string{
			words.Signed(c.Recipe, 0) + " kcal is the recipe", words.Signed(c.Portion, 0) + " kcal the helping",
			words.Grams(x.Accounts[1].HelpingGrams()), words.Grams(x.Original().HelpingGrams()), "same weight",
		} {
			if !strings.Contains(said, want) {
				t.Errorf("the %s says %q, not %q", name, said, want)
			}
		}
	}
	if got := x.Detail(EffectKey, 0, PerServing).Text; got != words.Say("tip.effect") {
		t.Errorf("of the original: %q", got)
	}
}
