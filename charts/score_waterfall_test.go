package charts

import (
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/recipes/words"
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
	for want, n := range map[string]int{"+0.03": 1, "–0.20 together": 1, "not tasted": 3, "not told apart": 0} { // one of them in the key
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

// At the widths of a book's column the effects keep intervals and limit in both
// languages, whatever the words beside them; a legend explains what is drawn.
func TestTheWaterfallKeepsItsEffects(t *testing.T) {
	nan := math.NaN()
	d := WaterfallData{Nutrient: "Matières grasses", Unit: "kcal", Attribute: "Overall", Limit: 0.5, Original: 704, Version: WaterfallEnd{Letter: "B", Name: "yogurt and oil", Amount: 540, Effect: -0.16, Low: -0.58, High: 0.27, Verdict: NotEnough}, Steps: []WaterfallStep{
		{Name: "strained yogurt for half the double cream", Change: -95, Effect: 0.03, Low: -0.44, High: 0.49, Verdict: Within},
		{Name: "olive oil for the butter under the leeks", Change: -31, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
		{Name: "crumbs brushed with oil, not butter", Change: -19, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
		{Name: "fat-free soft cheese for two thirds of the double cream", Change: -19, Effect: nan, Low: nan, High: nan, Verdict: AlwaysOn},
	}}
	for _, code := range []string{"en", "fr"} {
		was := words.Current()
		words.Use(words.Find(code))
		f, err := Waterfall(d)
		must(t, f, err)
		for _, mm := range []float64{30, 80, 100, 114, 120, 160} {
			s, rec := sheetOf(f, mm*96/25.4, 65*96/25.4, Print)
			got := written(s)
			limit := strings.Contains(got, words.Trim(0.5, 1)+" ") || strings.Contains(got, strings.TrimSpace(words.Say("charts.map.key.limit", words.Trim(0.5, 2))))
			axis := strings.Contains(got, words.Signed(-0.5, 1)+"|")
			if limit != axis || mm >= 80 && !axis {
				t.Errorf("%s, %v mm: axis %v, limit in the legend %v: %s", code, mm, axis, limit, got)
			}
			if mm >= 80 && strings.Contains(got, "…") {
				t.Errorf("%s, %v mm: cut: %s", code, mm, got)
			}
			checkInside(t, code, s, rec)
			checkClear(t, code, s)
		}
		words.Use(was)
	}
}

// Without a limit the interval against 0 says what there is to say, and a figure
// names the score it goes by.
func TestFiguresOfAScoreWithoutALimit(t *testing.T) {
	d := SwapMapData{Title: "Gratin: what each swap takes off", Nutrient: "Energy", Unit: "kcal", Attribute: "Flavour", Swaps: []MapSwap{
		{Name: "yogurt", Saving: 90, Effect: 0.5, Low: 0.1, High: 0.9, Verdict: NoLimit},
		{Name: "cheese", Saving: 50, Effect: -1, Low: -1.5, High: -0.5, Verdict: NoLimit},
		{Name: "oil", Saving: 20, Effect: 0.1, Low: -0.2, High: 0.4},
	}}
	f, err := SwapMap(d)
	s, _ := sheetOf(must(t, f, err), 640, 400, Print)
	got := written(s)
	for _, want := range []string{"scored higher", "scored lower", "higher or lower is not settled", "(Flavour)", "Flavour: effect"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in %s", want, got)
		}
	}
	for _, not := range []string{"no limit set", "liked more", "your limit"} {
		if strings.Contains(got, not) {
			t.Errorf("%q in %s", not, got)
		}
	}
	if f, err = Waterfall(sampleFall(3)); !strings.Contains(must(t, f, err).Alt(), "on the score for liking") {
		t.Errorf("the waterfall does not name its score: %s", f.Alt())
	}
	if got := ofScore("What each swap does to liking", "Overall liking"); got != "What each swap does to liking" {
		t.Errorf("a title that names its score became %q", got)
	}
}
