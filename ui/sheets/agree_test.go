package sheets

import (
	"strings"
	"testing"

	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
)

// TestRoundedApart: 300.6 to 200.2 is shown as 301 to 200 and –100, and the cell
// says why; where the shown numbers agree it says nothing.
func TestRoundedApart(t *testing.T) {
	for _, row := range []struct {
		name        string
		milk, share float64
		want        string
	}{
		{"apart by one", 201.2, .498, "from 300.6 to 200.2 is –100.4"},
		{"in step", 200, .5, ""},
	} {
		b, r := gratin(t)
		s := *b.Swap("recipe", "half")
		s.Ops = []recipes.Op{{Kind: recipes.OpMultiply, Line: "butter", Factor: row.share}}
		b = do(t, b, recipes.SetLine("recipe", r.Line("milk").WithGrams(row.milk), nil), recipes.EditSwap(&s, nil))
		x := NewBench(b, b.Recipe("recipe"))
		tip := x.numberRow(food.EnergyKcal, Options{}, 1).Cells[1].Tip
		if got := strings.Contains(tip, "before rounding"); got != (row.want != "") || !strings.Contains(tip, row.want) {
			t.Errorf("%s: the tip says %q", row.name, tip)
		}
	}
}

// TestChartSaysAtLeast: what the table calls "at least" the chart does not call
// unknown.
func TestChartSaysAtLeast(t *testing.T) {
	b, r := gratin(t)
	salt := *r.Line("milk")
	salt.ID, salt.Text, salt.Name = "more", "milk to taste", "more milk"
	salt.Grams, salt.GramsFrom = 0, recipes.GramsUnknown
	b = do(t, b, recipes.AddLine("recipe", &salt, "end", nil))
	x := NewBench(b, b.Recipe("recipe"))
	fig, err := charts.ChangeChart(x.ChangeData(""))
	if err != nil {
		t.Fatal(err)
	}
	if alt := fig.Alt(); !strings.Contains(alt, "original at least 300 kcal") {
		t.Errorf("the chart says %q", alt)
	}
}

// TestImpossibleFoods: 150 g of fat in 100 g is said loudly wherever it is used.
func TestImpossibleFoods(t *testing.T) {
	b, r := gratin(t)
	butter := *b.Food(r.Line("butter").Food)
	butter.Ref = food.Ref{Source: "own", Release: "1", Code: "odd"}
	cell := func(fat float64) Cell {
		f := butter
		f.Per100.Set(food.Fat, fat)
		now := do(t, b, recipes.SetLine("recipe", r.Line("butter").WithFood(&f), []*food.Food{&f}))
		return NewBench(now, now.Recipe("recipe")).Ingredients().Rows[1].Cells[OrigFood]
	}
	if c := cell(150); c.Mark != Wrong || !strings.Contains(c.Tip, "No food can hold this") {
		t.Errorf("150 g in 100 g: %+v", c)
	}
	if c := cell(40); c.Mark == Wrong {
		t.Errorf("40 g in 100 g: %+v", c)
	}
}
