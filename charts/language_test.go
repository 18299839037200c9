package charts

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"parewell/recipes/words"
)

// speakFrench returns what gives English back.
func speakFrench() (back func()) {
	was := words.Current()
	words.Use(words.Find("fr"))
	return func() { words.Use(was) }
}

// TestFrenchFiguresStandClearAndInside: French is longer, and still nothing runs
// into another or leaves its figure, and at the width of a text column nothing is
// cut that English has whole.
func TestFrenchFiguresStandClearAndInside(t *testing.T) {
	for _, n := range []int{1, 5, 9} {
		english := languageFigures(t, n)
		cut := map[string]int{}
		eachSize(english, func(at string, f *Figure, w, h float64) {
			s, _ := sheetOf(f, w, h, Print)
			cut[at] = strings.Count(written(s), "…")
		})
		back := speakFrench()
		french := languageFigures(t, n)
		eachSize(french, func(at string, f *Figure, w, h float64) {
			s, rec := sheetOf(f, w, h, Print)
			checkClear(t, at, s)
			checkInside(t, at, s, rec)
			if got := written(s); w >= 640 && strings.Count(got, "…") > cut[at] {
				t.Errorf("%s, %d items: %s", at, n, got)
			}
		})
		for name, f := range french {
			if f.Alt() == english[name].Alt() {
				t.Errorf("%s is not said in French", name)
			}
		}
		back()
	}
}

// eachSize has act look at every figure in every size.
func eachSize(fs map[string]*Figure, act func(at string, f *Figure, w, h float64)) {
	for _, name := range figureNames(fs) {
		for _, size := range scoreSizes {
			act(fmt.Sprintf("%s, %v", name, size), fs[name], size[0], size[1])
		}
	}
}

// languageFigures are a figure of every sort with n items.
func languageFigures(t *testing.T, n int) map[string]*Figure {
	t.Helper()
	fs := scoreFigures(t, n)
	fs["change"], fs["share"] = mustChange(t, sampleData(min(n, Versions))), mustShare(t, sampleShare(min(n, Versions)))
	return fs
}

// TestANarrowWaterfallKeepsItsNumbers: at the width of a narrow column the number
// that swaps share keeps its sign beside its axis, and the head is whole.
func TestANarrowWaterfallKeepsItsNumbers(t *testing.T) {
	nan := math.NaN()
	for _, language := range []string{"en", "fr"} {
		if language == "fr" {
			defer speakFrench()()
		}
		f, err := Waterfall(WaterfallData{Nutrient: "Fat", Unit: "g", Attribute: "overall", Limit: 0.5, Original: 46, Version: WaterfallEnd{Letter: "B", Amount: 40, Effect: nan, Low: nan, High: nan}, Steps: []WaterfallStep{
			{Name: "oil", Change: -4, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
			{Name: "crumbs", Change: -2, Effect: -0.2, Low: -0.7, High: 0.2, Verdict: Tied, Group: 1},
		}})
		s, rec := sheetOf(must(t, f, err), 302, 190, Print)
		got := strings.Split(written(s), "|")
		for _, want := range []string{words.Signed(-0.2, 1), words.Say("charts.fall.effect", "Overall")} {
			if count(got, want) != 1 {
				t.Errorf("%s: no %q in %v", language, want, got)
			}
		}
		checkClear(t, language, s)
		checkInside(t, language, s, rec)
	}
}
