package charts

import (
	"math"
	"strings"
	"testing"

	"parewell/recipes/words"
)

// gratinMap is like the map of the demo's gratin: ten swaps with long names, six
// of them at or near nothing saved.
func gratinMap() SwapMapData {
	nan := math.NaN()
	not := func(name string, saving float64) MapSwap {
		return MapSwap{Name: name, Saving: saving, Effect: nan, Low: nan, High: nan, Verdict: NotTasted}
	}
	return SwapMapData{Nutrient: "Energy", Unit: "kcal", Attribute: "Overall", Limit: 0.5, Swaps: []MapSwap{
		not("fat-free soft cheese for two thirds of the double cream", 114),
		{Name: "strained yogurt for half the double cream", Saving: 95, Effect: 0.03, Low: -0.44, High: 0.49, Verdict: Within},
		{Name: "a third less Gruyère, and no Parmesan", Saving: 48, Effect: -2.1, Low: -2.8, High: -1.4, Verdict: TooMuch},
		{Name: "olive oil for the butter under the leeks", Saving: 30, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
		{Name: "crumbs brushed with oil, not butter", Saving: 18, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
		not("fresh haddock for half the smoked", 14), not("low-fat milk (1 %) for the whole milk", 10), not("15 % less fine salt", 0),
		{Name: "25 % less fine salt", Saving: 0, Effect: 0.1, Low: -0.7, High: 0.8, Verdict: NotEnough},
		not("40 % less fine salt", 0),
	}}
}

// Every name of the map is whole at the widths of a book's column, at its mark or
// in the list of numbers, and nothing lies on anything.
func TestTheMapNamesEverySwap(t *testing.T) {
	for _, code := range []string{"en", "fr"} {
		was := words.Current()
		words.Use(words.Find(code))
		f := must2(t)(SwapMap(gratinMap()))
		for _, wide := range []float64{80, 100, 114, 120, 160, 210} {
			high := f.HighMM(wide, math.Round(wide*0.62))
			s, rec := sheetOf(f, wide*96/25.4, high*96/25.4, Print)
			got := written(s)
			flat := strings.ReplaceAll(got, "|", " ")
			for _, m := range gratinMap().Swaps {
				if !strings.Contains(flat, m.Name) {
					t.Errorf("%s, %v by %v mm: %q is not whole in %s", code, wide, high, m.Name, got)
				}
			}
			if strings.Contains(got, "…") || high > wide*1.4 {
				t.Errorf("%s, %v by %v mm: %s", code, wide, high, got)
			}
			checkInside(t, code, s, rec)
			checkClear(t, code, s)
		}
		words.Use(was)
	}
}

// Marks that would lie on one another are moved aside and told apart; each stays
// at its height and in its order.
func TestCrowdedMarksAreToldApart(t *testing.T) {
	v := &mapView{gratinMap().clone()}
	f := must2(t)(SwapMap(gratinMap()))
	s, _ := sheetOf(f, 450, 330, Print)
	n := v.needs()
	g := s.plane(n)
	v.settle(s, &g)
	r := s.markSize()
	moved := 0
	for i := range v.d.Swaps {
		if d := v.at(g, i).X - v.lies(g, i).X; d > 0.6 || d < -0.6 {
			moved++
		}
		for j := range i {
			a, b := v.at(g, i), v.at(g, j)
			if math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) < 1.9*float64(r) {
				t.Errorf("%q lies on %q", v.d.Swaps[i].Name, v.d.Swaps[j].Name)
			}
		}
		if v.at(g, i).Y != v.lies(g, i).Y {
			t.Errorf("%q is at another height", v.d.Swaps[i].Name)
		}
	}
	if moved == 0 || moved > 5 {
		t.Errorf("%d marks were moved", moved)
	}
}
