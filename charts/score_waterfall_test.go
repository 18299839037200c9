package charts

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// Swaps served together have one effect, drawn once across their rows; what has
// none is said in words and stands nowhere on the axis.
func TestTheWaterfallPlacesOnlyWhatWasTold(t *testing.T) {
	nan := math.NaN()
	d := WaterfallData{Nutrient: "Calories", Unit: "kcal", Attribute: "liking", Limit: 0.5, Original: 700, Version: WaterfallEnd{Letter: "B", Amount: 600, Effect: nan, Low: nan, High: nan}, Steps: []WaterfallStep{
		{Name: "yogurt", Change: -40, Effect: 0.03, Low: -0.44, High: 0.49, Verdict: Within},
		{Name: "oil", Change: -30, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
		{Name: "haddock", Change: -20, Effect: nan, Low: nan, High: nan, Verdict: NotTasted},
		{Name: "crumbs", Change: -10, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
	}}
	f, err := Waterfall(d)
	s, rec := sheetOf(must(t, f, err), 640, 300, ScreenLight)
	got := strings.Split(written(s), "|")
	for want, n := range map[string]int{"+0.03": 1, "–0.2 together": 1, "not tasted": 3, "not told apart": 0} { // one of them in the key
		if c := count(got, want); c != n {
			t.Errorf("%q is written %d times, want %d, in %v", want, c, n, got)
		}
	}
	if a, b := slices.Index(got, "oil"), slices.Index(got, "crumbs"); b != a+1 {
		t.Errorf("swaps served together stand apart: %v", got)
	}
	checkInside(t, "fall", s, rec)
	checkClear(t, "fall", s)
	d.Steps = d.Steps[:3]
	d.Steps[1].Effect, d.Steps[1].Low, d.Steps[1].High, d.Steps[1].Group = nan, nan, nan, 0
	f, err = Waterfall(d)
	if s, _ = sheetOf(must(t, f, err), 640, 300, ScreenLight); !strings.Contains(written(s), "not told apart") {
		t.Errorf("half of what was served together: %s", written(s))
	}
}

func count(all []string, one string) int {
	n := 0
	for _, s := range all {
		if s == one {
			n++
		}
	}
	return n
}
