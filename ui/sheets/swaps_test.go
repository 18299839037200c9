package sheets

import (
	"math"
	"strings"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
)

// did runs verbs on a book.
func did(t testing.TB, b *recipes.Book, verbs ...recipes.Verb) *recipes.Book {
	t.Helper()
	for _, v := range verbs {
		c, err := v(b)
		if err != nil {
			t.Fatal(err)
		}
		if b, err = b.With(c); err != nil {
			t.Fatal(err)
		}
	}
	return b
}

// less is a swap that uses a share less of a line.
func less(id recipes.ID, line recipes.ID, share float64) *recipes.Swap {
	return &recipes.Swap{ID: id, Recipe: "recipe", Name: string(id), Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: line, Factor: 1 - share}}}
}

func TestSwapsSheet(t *testing.T) {
	b, r := gratin(t)
	s := NewBench(b, r).Swaps()
	sw := row(t, s.Sheet, "half")
	// (400 - 200) / 2 = 100 kcal less a serving; sodium (387.58 - 10) / 2 more
	if got := sw.Cells[s.Figures].Text; got != "–100" {
		t.Errorf("alone %q", got)
	}
	if got := sw.Cells[s.Figures].Tip; got != "–100 (–33 %) kcal" {
		t.Errorf("tip %q", got)
	}
	if sw.Cells[0].Tick != TickOn {
		t.Error("A should have the swap on")
	}
	if sw.Label.Mark != Look || !strings.HasPrefix(sw.Label.Sub, "sodium +") {
		t.Errorf("a swap that raises sodium should say so: %+v", sw.Label)
	}
	if s.Columns[0].Sub != "200" || s.Columns[0].Letter != "A" {
		t.Errorf("heading %+v, want A with its 200 kcal", s.Columns[0])
	}
	for i, x := range s.Rows {
		if !x.Band && len(x.Cells) != len(s.Columns) {
			t.Errorf("row %s has %d cells for %d columns", x.Key, len(x.Cells), len(s.Columns))
		}
		if (s.Swaps[i] != nil) != (x.Key == "half") {
			t.Errorf("row %s stands for %v", x.Key, s.Swaps[i])
		}
	}
	if got := row(t, s.Sheet, "total.energy_kcal"); got.Cells[0].Text != "200" || !strings.Contains(got.Label.Sub, "300") {
		t.Errorf("total %+v", got)
	}
}

func TestStrengthsStandUnderOneHeading(t *testing.T) {
	b, r := gratin(t)
	strong, weak := less("strong", "milk", .5), less("weak", "milk", .25)
	strong.Ladder, weak.Ladder, strong.Strength, weak.Strength = "m", "m", 50, 25
	b = did(t, b, recipes.AddSwap(strong, nil, "a"), recipes.AddSwap(less("other", "milk", .1), nil, ""), recipes.AddSwap(weak, nil, ""))
	s := NewBench(b, r).Swaps()
	var keys []string
	for i, x := range s.Rows {
		if !x.Band && !strings.Contains(x.Key, ".") {
			keys = append(keys, x.Key)
		}
		if s.Inside[i] != (x.Key == "strong" || x.Key == "weak") {
			t.Errorf("row %s inside: %v", x.Key, s.Inside[i])
		}
	}
	if got := strings.Join(keys, " "); got != "half ladder:m weak strong other" {
		t.Errorf("rows %s", got)
	}
	cell := row(t, s.Sheet, "weak").Cells[0]
	if cell.Tick != TickOff || !strings.Contains(cell.Tip, "strong") {
		t.Errorf("an either/or box does not say so: %+v", cell)
	}
	x := NewBench(b, r)
	if got := x.Unticked(b.Version("recipe", "a"), weak); got != "strong" {
		t.Errorf("ticking weak unticks %q", got)
	}
	if got := x.EitherOr(weak); len(got) != 1 || got[0].ID != "strong" {
		t.Errorf("either/or %v", got)
	}
}

// TestPartsAddUpToTheChange: the parts of the swaps and of the helping are the
// version's change, and a part that differs from the swap alone is marked.
func TestPartsAddUpToTheChange(t *testing.T) {
	b, r := gratin(t)
	b = did(t, b, recipes.AddSwap(less("more", "butter", .5), nil, "a"), recipes.ServeVersion("recipe", "a", 4))
	x := NewBench(b, r)
	s := x.Swaps()
	for _, n := range SwapFigures {
		sum := s.savings[0].Helping(n).Amount
		for i := range s.savings[0].Swaps {
			sum += s.savings[0].Of(i, n).Amount
		}
		if want := x.Change(1, n).Amount; math.Abs(sum-want) > 1e-9 {
			t.Errorf("%s: parts sum to %v, the change is %v", n.Key(), sum, want)
		}
	}
	// 100 g butter becomes 25 g: 400 kcal less 100; each half gets 150 of the
	// 300, alone 200. Over 2 servings 75 and 100. The whole: 600 becomes 300 for
	// 4, so 300 - 75 = 225 less, 150 of it the swaps', 75 the helping's.
	for key, want := range map[string]string{"sum.swaps": "–150", "sum.helping": "–75", "sum.change": "–225"} {
		if got := row(t, s.Sheet, key).Cells[0].Text; got != want {
			t.Errorf("%s: %s, want %s", key, got, want)
		}
	}
	d := x.SwapDetail(b.Swap("recipe", "more"), nil)
	if !d.Differs || len(d.Parts.Rows) != 2 {
		t.Fatalf("detail %+v", d)
	}
	if a, in := d.Parts.Rows[0].Cells[0], d.Parts.Rows[1].Cells[0]; a.Text != "–100 (–33 %)" || in.Text != "–75 (–25 %)" || in.Mark != Look {
		t.Errorf("alone %+v, in A %+v", a, in)
	}
	if tip := row(t, s.Sheet, "more").Cells[0].Tip; !strings.Contains(tip, "–75") {
		t.Errorf("the box does not say its part: %q", tip)
	}
}

func TestSources(t *testing.T) {
	b, r := gratin(t)
	got := NewBench(b, r).Sources(food.EnergyKcal)
	// butter 400 of 600 kcal, milk 200; over two servings
	if len(got) != 2 || got[0].Line != "butter" || got[0].Value != "67 %" || got[0].Note != "200 kcal" {
		t.Errorf("sources %+v", got)
	}
	if none := NewBench(b, r).Sources(food.Sugars); len(none) != 0 {
		t.Errorf("sources of nothing: %+v", none)
	}
	c := *r.Line("milk")
	c.Food = food.Ref{}
	b = did(t, b, recipes.SetLine("recipe", &c, nil))
	got = NewBench(b, b.Recipe("recipe")).Sources(food.EnergyKcal)
	if last := got[len(got)-1]; last.Line != "milk" || !last.Loud || last.Value != "?" {
		t.Errorf("an unknown source: %+v", last)
	}
}

func TestOpsComeBackFromTheFields(t *testing.T) {
	_, r := gratin(t)
	ops := []recipes.Op{
		{Kind: recipes.OpMultiply, Line: "milk", Factor: 2. / 3},
		{Kind: recipes.OpExchange, Line: "milk", Share: 1. / 3, Lines: []*recipes.Line{{ID: "x", Text: "10 g sand", Grams: 10, GramsFrom: recipes.GramsWeight}}},
		{Kind: recipes.OpRemove, Line: "milk"},
		{Kind: recipes.OpPartEaten, Line: "milk", Part: .123},
		{Kind: recipes.OpTechnique, Line: "milk", Technique: recipes.Technique{Method: "boiled"}},
		{Kind: recipes.OpDish, Technique: recipes.Technique{Method: "baked"}},
		{Kind: recipes.OpStepReplace, Step: "s1", Text: "Melt it."},
		{Kind: recipes.OpStepAdd, Step: "s1", Text: "Wait."},
		{Kind: recipes.OpStepDrop, Step: "s2"},
	}
	for i := range ops {
		d := DraftOp(r, &ops[i])
		got, err := d.Read(r, reading.Options{})
		if err != nil || got.Factor != ops[i].Factor || got.Share != ops[i].Share || got.Part != ops[i].Part || got.Kind != ops[i].Kind || len(got.Lines) != len(ops[i].Lines) {
			t.Errorf("%s: %+v, %v", ops[i].Kind, got, err)
		}
		if text := OpText(r, &ops[i]); text == "" || strings.Contains(text, "[") {
			t.Errorf("%s: said as %q", ops[i].Kind, text)
		}
	}
}

func TestFieldsAreRead(t *testing.T) {
	_, r := gratin(t)
	for _, c := range []struct {
		name string
		d    OpDraft
		want func(recipes.Op) float64
		is   float64
		err  string
	}{
		{"less by a share", OpDraft{Do: UseLess, Line: "milk", Value: "–25 %"}, factor, .75, ""},
		{"half", OpDraft{Do: UseLess, Line: "milk", Value: "half"}, factor, .5, ""},
		{"to a weight", OpDraft{Do: UseLess, Line: "milk", Value: "50 g"}, factor, .25, ""},
		{"times", OpDraft{Do: UseLess, Line: "milk", Value: "× 0.4"}, factor, .4, ""},
		{"to nothing", OpDraft{Do: UseLess, Line: "milk", Value: "0"}, factor, 0, "leave out"},
		{"nonsense", OpDraft{Do: UseLess, Line: "milk", Value: "!!"}, factor, 0, "!!"},
		{"no ingredient", OpDraft{Do: UseLess, Value: "half"}, factor, 0, "ingredient"},
		{"part eaten", OpDraft{Do: EatPart, Line: "milk", Value: "10 %"}, func(o recipes.Op) float64 { return o.Part }, .1, ""},
		{"too large a share", OpDraft{Do: EatPart, Line: "milk", Value: "120 %"}, factor, 0, "120 %"},
		{"nothing to replace it with", OpDraft{Do: ReplaceWith, Line: "milk", Value: "50 %", Lines: []LineDraft{{}}}, factor, 0, "at least one"},
		{"a food nobody knows", OpDraft{Do: ReplaceWith, Line: "milk", Value: "50 %", Lines: []LineDraft{{Text: "20 g qwzx"}}}, factor, 0, "qwzx"},
		{"a step without words", OpDraft{Do: StepReads, Step: "s1", Text: " "}, factor, 0, "step"},
		{"no step", OpDraft{Do: StepGone}, factor, 0, "step"},
	} {
		got, err := c.d.Read(r, reading.Options{})
		switch {
		case c.err != "":
			if err == nil || !strings.Contains(err.Error(), c.err) {
				t.Errorf("%s: %v, want a sentence with %q", c.name, err, c.err)
			}
		case err != nil:
			t.Errorf("%s: %v", c.name, err)
		case math.Abs(c.want(got)-c.is) > 1e-9:
			t.Errorf("%s: %v, want %v", c.name, c.want(got), c.is)
		}
	}
}

func factor(o recipes.Op) float64 { return o.Factor }

func TestStrengths(t *testing.T) {
	_, r := gratin(t)
	sw := less("s", "milk", .15)
	if !HasStrengths(sw) || math.Abs(Strength(sw)-.15) > 1e-9 {
		t.Errorf("strength %v", Strength(sw))
	}
	more := StrengthOf(r, sw, "t", .4)
	if more.ID != "t" || more.Ops[0].Factor != .6 || more.Ladder != LadderOf(sw) || more.Name != "40 % less food milk" {
		t.Errorf("stronger %+v", more)
	}
	if sw.Ops[0].Factor != .85 {
		t.Error("the first was changed")
	}
	if HasStrengths(&recipes.Swap{Ops: []recipes.Op{{Kind: recipes.OpRemove, Line: "milk"}}}) {
		t.Error("leaving out has no strengths")
	}
}

func TestDraft(t *testing.T) {
	b, r := gratin(t)
	all := Proposals([]recipes.Swap{*less("", "milk", .5), *less("", "butter", .5)}, func() func() recipes.ID {
		n := 0
		return func() recipes.ID { n++; return recipes.ID(rune('a' + n)) }
	}())
	if len(all) != 2 || all[0].Swap.ID == all[1].Swap.ID {
		t.Fatalf("proposals %+v", all)
	}
	// all on: 600 kcal becomes 300, over 2 servings 150
	if s := (Units{}).DraftOf(r, b.Food, all, 0); !strings.Contains(s.Total, "150 kcal") || s.Rows[0].Cells[1].Text != "–50" || s.Rows[1].Cells[1].Text != "–100" {
		t.Errorf("%s; %+v", s.Total, s.Rows)
	}
	all[1].On = false
	if s := (Units{}).DraftOf(r, b.Food, all, 4); !strings.Contains(s.Total, "125 kcal") { // 500 over 4
		t.Error(s.Total)
	}
	joined, ok := JoinProposals(all, 1)
	if !ok || len(joined) != 1 || len(joined[0].Swap.Ops) != 2 || !joined[0].On {
		t.Errorf("joined %+v", joined)
	}
	if _, ok := JoinProposals(all, 0); ok {
		t.Error("the first was joined with nothing")
	}
	gone := []Proposal{all[0], {Swap: &recipes.Swap{ID: "z", Ops: []recipes.Op{{Kind: recipes.OpRemove, Line: "milk"}}}}}
	if _, ok := JoinProposals(gone, 1); ok {
		t.Error("either/or swaps were joined")
	}
}

func TestBoundsOfAShortChange(t *testing.T) {
	for _, c := range []struct {
		bound nutrition.Bound
		want  string
	}{{nutrition.Exact, "–12"}, {nutrition.AtLeast, "~–12"}, {nutrition.AtMost, "~–12"}, {nutrition.NotSure, "?"}} {
		if got := (Units{}).as(food.EnergyKcal).short(nutrition.Change{Amount: -12, Bound: c.bound}); got != c.want {
			t.Errorf("%s: %s, want %s", c.bound, got, c.want)
		}
	}
}
