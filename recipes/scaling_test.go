package recipes

import (
	"math"
	"slices"
	"testing"
)

func TestPanFactor(t *testing.T) {
	rows := []struct {
		name     string
		from, to Pan
		want     float64
	}{
		{"20 cm round to 23 cm round", Pan{Across: 20}, Pan{Across: 23}, 23.0 * 23 / (20 * 20)},
		{"20 cm square to 20 cm round", Pan{Long: 20, Wide: 20}, Pan{Across: 20}, math.Pi / 4},
		{"depth counts when both have it", Pan{Across: 20, Deep: 4}, Pan{Across: 20, Deep: 6}, 1.5},
		{"one depth alone does not", Pan{Across: 20, Deep: 4}, Pan{Across: 20}, 1},
		{"no pan", Pan{}, Pan{Across: 20}, 0},
	}
	for _, r := range rows {
		if got := PanFactor(r.from, r.to); math.Abs(got-r.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", r.name, got, r.want)
		}
	}
}

func TestScaleLines(t *testing.T) {
	mk := func(amount, grams float64) *Line { return &Line{Amount: amount, Grams: grams, GramsFrom: GramsCount} }
	rows := []struct {
		name          string
		line          *Line
		kind          ScaleSort
		factor        float64
		amount, grams float64
		notes         []ScaleNote
	}{
		{"flour", mk(200, 200), PlainScale, 1.5, 300, 300, nil},
		{"3 eggs by a third more", mk(3, 150), EggScale, 4.0 / 3, 4, 200, nil},
		{"3 eggs for half", mk(3, 150), EggScale, 0.5, 1.5, 75, nil},
		{"3 eggs by a fifth more", mk(3, 150), EggScale, 1.2, 3.5, 175, []ScaleNote{ScaleWhole}},
		{"a tin for a third", mk(1, 400), PackScale, 1.0 / 3, 1, 400, []ScaleNote{ScaleWhole}},
		{"salt for three times", mk(1, 6), SaltScale, 3, 3, 18, []ScaleNote{ScaleSalt}},
		{"salt for a little more", mk(1, 6), SaltScale, 1.2, 1.2, 7.2, nil},
		{"baking powder for half", mk(2, 9.2), LeaveningScale, 0.5, 1, 4.6, []ScaleNote{ScaleLeavening}},
	}
	for _, r := range rows {
		s := ScaleLines([]*Line{r.line}, r.factor, func(*Line) ScaleSort { return r.kind })[0]
		if math.Abs(s.Amount-r.amount) > 1e-9 || math.Abs(s.Grams-r.grams) > 1e-9 || !slices.Equal(s.Notes, r.notes) {
			t.Errorf("%s: %v (%v g) %v, want %v (%v g) %v", r.name, s.Amount, s.Grams, s.Notes, r.amount, r.grams, r.notes)
		}
	}
}

func TestScalingConservesMass(t *testing.T) {
	k := mustKitchen(t, 41, 6)
	for _, f := range []float64{0.5, 1, 1.7, 3} {
		before, after := 0.0, 0.0
		for _, s := range ScaleLines(k.recipe.Lines, f, nil) {
			before += s.Line.Grams
			after += s.Grams
		}
		if math.Abs(after-before*f) > 1e-9 {
			t.Errorf("times %v: %v g of %v", f, after, before)
		}
	}
}
