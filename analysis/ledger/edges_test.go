package ledger

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/recipes/words"
)

// TestEqualsAreOrderedBySimplicity: four swaps that are worth exactly the same,
// one of which saves nothing.
func TestEqualsAreOrderedBySimplicity(t *testing.T) {
	e := &Evidence{Beta: make([]float64, 4), DF: 30, ResidualSD: 1, Limit: 0.5}
	for i := range 4 {
		kcal := Saving{Amount: float64(8 * (i % 2)), Known: true} // exact in binary
		e.Swaps = append(e.Swaps, SwapFact{ID: fmt.Sprint(i), Name: fmt.Sprint("swap ", i), Savings: map[string]Saving{EnergyKey: kcal}})
		e.Cov = append(e.Cov, make([]float64, 4))
	}
	for v, on := range oneByOne(4) {
		e.Versions = append(e.Versions, VersionFact{ID: fmt.Sprint("v", v), On: on, Servings: 9, Pots: 1})
	}
	got, err := Best(context.Background(), e, Goal{Nutrient: EnergyKey, Keep: 20})
	if err != nil {
		t.Fatal(err)
	}
	if got.Considered != 15 || len(got.Ranked) != 15 || len(got.Frontier) != 1 {
		t.Fatalf("%d considered, %d ranked, %d on the frontier", got.Considered, len(got.Ranked), len(got.Frontier))
	}
	for i, c := range got.Ranked[1:] {
		before := got.Ranked[i]
		if c.Saving.Amount > before.Saving.Amount || c.Saving == before.Saving && len(c.Swaps) < len(before.Swaps) {
			t.Errorf("rank %d: %v after %v", i+1, c.Swaps, before.Swaps)
		}
	}
	if f := got.Frontier[0]; !slices.Equal(f.Swaps, []int{0, 1, 2, 3}) || got.ForLimit == nil || !slices.Equal(got.ForLimit.Swaps, f.Swaps) {
		t.Errorf("of equals the tasted one is not picked: %v", f.Swaps)
	}
	if !got.Frontier[0].Printable() || got.Ranked[slices.IndexFunc(got.Ranked, func(c Combo) bool { return c.Standing != StandsTasted })].Printable() {
		t.Error("what was not tasted may not be printed, what was may")
	}
}

// TestTheBetterKnownVersionSpeaks for two with the same swaps.
func TestTheBetterKnownVersionSpeaks(t *testing.T) {
	a := VersionFact{ID: "a", Servings: 3}
	for name, r := range map[string]struct {
		b    VersionFact
		want bool
	}{
		"more servings": {VersionFact{ID: "b", Servings: 4}, true},
		"fewer":         {VersionFact{ID: "b", Servings: 2, Cooked: true}, false},
		"cooked":        {VersionFact{ID: "b", Servings: 3, Cooked: true}, true},
		"earlier ID":    {VersionFact{ID: "A", Servings: 3}, true},
		"later ID":      {VersionFact{ID: "b", Servings: 3}, false},
	} {
		if better(r.b, a) != r.want {
			t.Error(name)
		}
	}
}

func TestTPoint(t *testing.T) {
	// Quantiles of Student's t and of the normal; those of t found again by
	// bisection on Simpson's rule over the density.
	for df, want := range map[float64]float64{1: 6.313751514675044, 5: 2.015048373333024, 22: 1.717144374380243, 115: 1.658211830197886, math.Inf(1): 1.644853626951472} {
		if got := tPoint(0.95, df); math.Abs(got-want) > 1e-9 {
			t.Errorf("df %v: %.12f, want %.12f", df, got, want)
		}
	}
	for _, df := range []float64{0, -1, math.NaN()} {
		if !math.IsNaN(tPoint(0.95, df)) {
			t.Errorf("df %v has a point", df)
		}
	}
}

// TestWordsOfEveryCase: each sentence is whole, and a phrase without a key is
// returned where there is nothing to say.
func TestWordsOfEveryCase(t *testing.T) {
	nan := math.NaN()
	whole := func(name string, p words.Phrase, part string) {
		t.Helper()
		if s := p.String(); strings.ContainsAny(s, "[{") || !strings.Contains(s, part) {
			t.Errorf("%s: %q", name, s)
		}
	}
	whole("first", (&Gain{Name: "x", Before: nan, After: 0.4}).Says(), "within about 0.4 points")
	whole("settles", (&Gain{Name: "x", Before: 0.8, After: 0.4, Settles: true, Effect: -0.05}).Says(), "enough to settle")
	whole("narrows", (&Gain{Name: "x", Before: 0.8, After: 0.4}).Says(), "from within 0.80 points to within about 0.40")
	whole("open", (&Gain{Name: "x", Before: nan, After: nan}).Says(), "would stay open")
	whole("no scores", why("x", NotEnough, unknown, 0.5, 0), "not been worked out")
	whole("no range", why("x", NotEnough, Interval{-0.3, nan, nan, nan}, 0.5, 0), "too few servings")
	whole("no limit", why("x", LessUnsettled, Interval{-0.4, 0.1, -0.6, -0.2}, 0, 0), "Set a limit")
	whole("joint", (&Verdict{Name: "x", Kind: Tied, Ties: []string{"y"}, Joint: Interval{-0.7, 0.2, -1, -0.4}, Limit: 0.5}).Explain(), "together they change liking by –0.7")
	whole("not at all", More{NotWithPanel: true}.note(), "would not settle")
	whole("one evening", More{Servings: 24, Evenings: 1, Tasters: 12}.note(), "one evening with your 12 tasters")
	whole("promised", promise("ledger.next.promised", &Combo{Names: []string{"x", "y"}, Interval: Interval{0.2, 0.3, -0.3, 0.7}, BestOf: 12}), "best of 12")
	whole("pot", (&Whole{Pots: 1}).PotsNote(), "1 pot.")
	for name, p := range map[string]words.Phrase{
		"same as before": (&Gain{Before: 0.4, After: 0.4}).Says(), "no pots": (&Verdict{}).PotsNote(), "no more": (&Whole{}).MoreNote(),
		"no cost": (&Verdict{LostPer100: nan}).LostNote(), "no warning": (&Whole{}).Warning(),
	} {
		if p.Key != "" {
			t.Errorf("%s: %q", name, p)
		}
	}
	if more := (&model{e: &Evidence{}}).more(unknown, 0.5); more != (More{}) {
		t.Errorf("nobody to ask: %+v", more)
	}
}

// What 100 kcal cost is said to two figures, with its range.
func TestWhatACostOfLikingIsKnownTo(t *testing.T) {
	for name, c := range map[string]struct {
		v    Verdict
		want string
	}{
		"some":   {Verdict{LostPer100: 4.2913, LostLow: 2.8, LostHigh: 5.77}, "4.3 points of liking lost for 100 kcal taken off (90 % range 2.8 to 5.8)."},
		"much":   {Verdict{LostPer100: 12.3, LostLow: 1.2, LostHigh: 23.4}, "12 points of liking lost for 100 kcal taken off (90 % range 1 to 23)."},
		"little": {Verdict{LostPer100: 0.4213, LostLow: 0.1, LostHigh: 0.74}, "0.42 points of liking lost for 100 kcal taken off (90 % range 0.10 to 0.74)."},
		"gained": {Verdict{LostPer100: -1.26, LostLow: -2.02, LostHigh: -0.5}, "1.3 points of liking gained for 100 kcal taken off (90 % range 0.5 to 2.0)."},
	} {
		if got := c.v.LostNote().String(); got != c.want {
			t.Errorf("%s: %q", name, got)
		}
	}
}
