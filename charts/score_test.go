package charts

import (
	"bytes"
	"fmt"
	"math"
	"sort"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/recorder"

	"parewell/recipes/words"
)

// figureNames are the names of the figures in a fixed order.
func figureNames(fs map[string]*Figure) []string {
	var out []string
	for name := range fs {
		out = append(out, name)
	}
	sort.Strings(out)
	return out
}

func TestScoreFiguresWriteTheirNamesAndNumbers(t *testing.T) {
	fs := scoreFigures(t, 5)
	for _, row := range []struct {
		figure string
		want   []string
	}{
		{"scores", []string{"Original", "strained yogurt for half the cream", "7.1 (6.5 to 7.6)", "n 24", "n 20", "your limit, 0.5 below the original", "mean and 95 % range", "6.5"}},
		{"spread", []string{"Original", "B", "10", "mean", "n 24", "dislike extremely", "9"}},
		{"just", []string{"much too little", "just right", "67 %", "8 %", "25 %", "n 24"}},
		{"map", []string{"strained yogurt for half the cream", "crumb toasted dry", "drops too much", "liked less, how much is not settled", "your limit, 0.5 lost", "lighter by: Calories, kcal", "–0.4"}},
		{"fall", []string{"Original", "684 kcal", "–143 kcal", "359 kcal", "not from a swap", "–6 kcal", "Liking: effect", "–1.1", "drops too much"}},
		{"front", []string{"best within your limit: ", "predicted, not cooked: picked as best of 128, expect less", "tasted", "your limit, 0.5 lost"}},
		{"right", []string{"9 of 24", "14 of 24", "a difference is shown", "not settled", "what guessing gets", "the fewest that show a difference", "13"}},
		{"home", []string{"Would they have it again?", "again", "not again", "How much was left?", "half or more", "5 Mar 2026", "from memory, not blind"}},
		{"days", []string{"Calories", "2310 kcal (116 %), over", "1985 kcal (99 %)", "22.0 g (73 %), short", "at least 30.0 g", "with version B", "target"}},
		{"daysabs", []string{"2310 kcal, over", "1985 kcal", "at most 2000 kcal"}},
	} {
		s, _ := sheetOf(fs[row.figure], 1100, 460, ScreenLight)
		got := written(s)
		for _, want := range row.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: no %q in %s", row.figure, want, got)
			}
		}
		if strings.Contains(got, "[charts") || strings.Contains(fs[row.figure].Alt(), "[charts") {
			t.Errorf("%s: a sentence is missing", row.figure)
		}
	}
}

// scoreSizes are the sizes figures are looked at in.
var scoreSizes = [][2]float64{{320, 200}, {360, 300}, {480, 240}, {640, 280}, {640, 480}, {900, 400}, {1100, 460}, {1400, 600}, {1400, 260}}

func TestScoreFiguresStandClearAndInside(t *testing.T) {
	for _, n := range []int{1, 2, 5, 9, 30} {
		fs := scoreFigures(t, n)
		for name, f := range longNamed(t, n) {
			fs["long "+name] = f
		}
		for _, name := range figureNames(fs) {
			for _, size := range scoreSizes {
				for _, look := range []Look{ScreenLight, Print} {
					at := fmt.Sprintf("%s, %d items, %v, look %d", name, n, size, look)
					s, rec := sheetOf(fs[name], size[0], size[1], look)
					checkClear(t, at, s)
					checkInside(t, at, s, rec)
				}
			}
		}
	}
}

// longNamed are figures whose names are uncommonly long.
func longNamed(tb testing.TB, n int) map[string]*Figure {
	long := "an uncommonly long name with Worcestershiresauceandmore, and some more of it, "
	out := map[string]*Figure{}
	sc, m, w, fr, dy := sampleScores(min(n, 8)), sampleMap(n), sampleFall(n), sampleFrontier(n), sampleDays(n)
	for i := range sc.Rows {
		sc.Rows[i].Name = long + sc.Rows[i].Name
	}
	for i := range m.Swaps {
		m.Swaps[i].Name, w.Steps[i].Name, fr.Options[i].Name, dy.Nutrients[i].Label = long, long, long, long
	}
	f, err := ScoresChart(sc)
	out["scores"] = must(tb, f, err)
	f, err = SwapMap(m)
	out["map"] = must(tb, f, err)
	f, err = Waterfall(w)
	out["fall"] = must(tb, f, err)
	f, err = FrontierChart(fr)
	out["front"] = must(tb, f, err)
	f, err = DaysChart(dy)
	out["days"] = must(tb, f, err)
	return out
}

// checkInside fails where anything drawn leaves the sheet.
func checkInside(t *testing.T, name string, s *sheet, rec *recorder.Canvas) {
	t.Helper()
	const slack = 1.5 // points: control points of curves and the edge of a pixel
	for _, a := range rec.Actions {
		var path vg.Path
		switch a := a.(type) {
		case *recorder.Fill:
			path = a.Path
		case *recorder.Stroke:
			path = a.Path
		}
		for _, c := range path {
			for _, p := range append([]vg.Point{c.Pos}, c.Control...) {
				if c.Type == vg.CloseComp {
					continue
				}
				if !(p.X >= s.Min.X-slack && p.X <= s.Max.X+slack && p.Y >= s.Min.Y-slack && p.Y <= s.Max.Y+slack) {
					t.Errorf("%s: something is drawn at %v, outside %v", name, p, s.Max)
					return
				}
			}
		}
	}
}

func TestScoreFiguresThatCannotBeDrawn(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	e := func(_ *Figure, err error) error { return err }
	row := ScoreRow{Name: "x", Mean: 5, Low: 4, High: 6, N: 3}
	for name, err := range map[string]error{
		"no scores":                e(ScoresChart(ScoresData{})),
		"too many samples":         e(ScoresChart(ScoresData{Rows: make([]ScoreRow, 30)})),
		"mean off the scale":       e(ScoresChart(ScoresData{Rows: []ScoreRow{{Mean: 10, Low: nan, High: nan}}})),
		"interval wrong way round": e(ScoresChart(ScoresData{Rows: []ScoreRow{{Mean: 5, Low: 6, High: 4}}})),
		"endless interval":         e(ScoresChart(ScoresData{Rows: []ScoreRow{{Mean: 5, Low: -inf, High: 6}}})),
		"less than nobody":         e(ScoresChart(ScoresData{Rows: []ScoreRow{{Mean: 5, Low: 4, High: 6, N: -1}}})),
		"scale upside down":        e(ScoresChart(ScoresData{Scale: [2]float64{9, 1}, Rows: []ScoreRow{row}})),
		"confidence":               e(ScoresChart(ScoresData{Percent: 100, Rows: []ScoreRow{row}})),
		"endless limit":            e(ScoresChart(ScoresData{Limit: inf, Rows: []ScoreRow{row}})),
		"spread of nothing":        e(SpreadChart(SpreadData{})),
		"spread below zero":        e(SpreadChart(SpreadData{Rows: []SpreadRow{{Counts: [9]int{-1}}}})),
		"just of nothing":          e(JustRightChart(JustRightData{})),
		"just of too many":         e(JustRightChart(JustRightData{Rows: []JustRightRow{{Counts: [5]int{math.MaxInt}}}})),
		"map of nothing":           e(SwapMap(SwapMapData{})),
		"map of too many":          e(SwapMap(SwapMapData{Swaps: make([]MapSwap, 61)})),
		"map of a strange verdict": e(SwapMap(SwapMapData{Swaps: []MapSwap{{Verdict: "lovely"}}})),
		"map without end":          e(SwapMap(SwapMapData{Swaps: []MapSwap{{Saving: inf}}})),
		"map of huge numbers":      e(SwapMap(SwapMapData{Swaps: []MapSwap{{Saving: 1e300}}})),
		"fall of nothing":          e(Waterfall(WaterfallData{})),
		"fall of an unknown":       e(Waterfall(WaterfallData{Original: 5, Steps: []WaterfallStep{{Change: nan}}})),
		"fall from an unknown":     e(Waterfall(WaterfallData{Original: nan, Steps: []WaterfallStep{{Change: 1}}})),
		"front of nothing":         e(FrontierChart(FrontierData{})),
		"front of an unknown":      e(FrontierChart(FrontierData{Options: []FrontierOption{{Effect: nan}}})),
		"front of two best":        e(FrontierChart(FrontierData{Options: []FrontierOption{{Best: true}, {Best: true}}})),
		"front low above":          e(FrontierChart(FrontierData{Options: []FrontierOption{{Effect: 0, Low: 1}}})),
		"right of nothing":         e(RightChart(RightData{})),
		"more right than answers":  e(RightChart(RightData{Rows: []RightRow{{Right: 5, N: 4, Chance: 0.5}}})),
		"no chance":                e(RightChart(RightData{Rows: []RightRow{{Right: 1, N: 4, Chance: nan}}})),
		"home of nothing":          e(HomeChart(HomeData{})),
		"home below zero":          e(HomeChart(HomeData{Dates: []HomeDate{{Again: -1}}})),
		"home of too many":         e(HomeChart(HomeData{Dates: make([]HomeDate, 61)})),
		"days of nothing":          e(DaysChart(DaysData{})),
		"days below zero":          e(DaysChart(DaysData{Nutrients: []DayNutrient{{Before: -1}}})),
		"days without end":         e(DaysChart(DaysData{Nutrients: []DayNutrient{{Before: inf}}})),
	} {
		t.Run(name, func(t *testing.T) { isProblem(t, err) })
	}
}

// What is not known is drawn as such, and never as a number.
func TestUnknownScoresAreSaid(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		name string
		fig  func() (*Figure, error)
		want string
	}{
		{"no scores of a sample", func() (*Figure, error) {
			return ScoresChart(ScoresData{Attribute: "Liking", Rows: []ScoreRow{{Letter: "A", Mean: nan, Low: nan, High: nan}}})
		}, "not known"},
		{"one taster", func() (*Figure, error) {
			return ScoresChart(ScoresData{Rows: []ScoreRow{{Letter: "A", Mean: 7, Low: nan, High: nan, N: 1}}})
		}, "7.0|n 1"},
		{"nobody found it just right or else", func() (*Figure, error) {
			return JustRightChart(JustRightData{Rows: []JustRightRow{{Letter: "A"}}})
		}, "nobody scored it"},
		{"nobody gave a score", func() (*Figure, error) {
			return SpreadChart(SpreadData{Rows: []SpreadRow{{Letter: "A"}}})
		}, "?|n 0"},
		{"only untasted swaps", func() (*Figure, error) {
			return SwapMap(SwapMapData{Swaps: []MapSwap{{Name: "olive oil", Saving: nan, Effect: nan, Low: nan, High: nan}}})
		}, "not tasted"},
		{"a step not tasted", func() (*Figure, error) {
			return Waterfall(WaterfallData{Attribute: "liking", Original: 5, Version: WaterfallEnd{Amount: 4, Effect: nan}, Steps: []WaterfallStep{{Change: -1, Effect: nan}}})
		}, "not tasted"},
		{"nobody answered", func() (*Figure, error) {
			return RightChart(RightData{Rows: []RightRow{{Letter: "A", Chance: 0.5, Needed: 0, AtMost: -1}}})
		}, "nobody answered"},
		{"a day not known", func() (*Figure, error) {
			return DaysChart(DaysData{Nutrients: []DayNutrient{{Label: "Salt", Unit: "g", Before: nan, After: 3, Target: 6}}})
		}, "not known"},
	} {
		t.Run(row.name, func(t *testing.T) {
			f, err := row.fig()
			s, rec := sheetOf(must(t, f, err), 640, 280, ScreenLight)
			if got := written(s); !strings.Contains(got, row.want) {
				t.Errorf("no %q in %s", row.want, got)
			}
			checkInside(t, row.name, s, rec)
			checkClear(t, row.name, s)
		})
	}
}

// Extreme but possible numbers.
func TestExtremeScoresStandClear(t *testing.T) {
	m := sampleMap(3)
	m.Swaps[0].Saving, m.Swaps[1].Saving = hugest, -hugest
	m.Swaps[2].Effect, m.Swaps[2].Low, m.Swaps[2].High = 8, -hugest, hugest
	w := sampleFall(3)
	w.Steps[0].Change, w.Steps[1].Change = hugest, -hugest
	d := sampleDays(3)
	d.Nutrients[0].After, d.Nutrients[1].Target = hugest, 1e-6
	same := sampleMap(30)
	for i := range same.Swaps {
		same.Swaps[i].Saving, same.Swaps[i].Effect, same.Swaps[i].Low, same.Swaps[i].High = 5, 0, 0, 0
	}
	sc := sampleScores(2)
	sc.Rows[1].Low, sc.Rows[1].High = -3000, 5000
	r := sampleRight(1)
	r.Rows[0].N, r.Rows[0].Needed = mostPeople, mostPeople
	var fs []*Figure
	for _, build := range []func() (*Figure, error){
		func() (*Figure, error) { return SwapMap(m) },
		func() (*Figure, error) { return Waterfall(w) },
		func() (*Figure, error) { return DaysChart(d) },
		func() (*Figure, error) { return SwapMap(same) },
		func() (*Figure, error) { return ScoresChart(sc) },
		func() (*Figure, error) { return RightChart(r) },
	} {
		f, err := build()
		fs = append(fs, must(t, f, err))
	}
	for i, f := range fs {
		for _, size := range scoreSizes {
			s, rec := sheetOf(f, size[0], size[1], Print)
			checkClear(t, fmt.Sprint(i, size), s)
			checkInside(t, fmt.Sprint(i, size), s, rec)
		}
	}
}

func TestScoreAltsStateTheNumbers(t *testing.T) {
	fs := scoreFigures(t, 9)
	for figure, want := range map[string][]string{
		"scores":  {"A strained yogurt for half the cream: 7.1 (6.5 to 7.6); 24 scored.", "Your limit is 0.5 below the original, at 6.8."},
		"spread":  {"Original, mean 7.0, 24 scored, how many gave each: 9: 2; 8: 7;"},
		"just":    {"Original, 24 answered: much too little: 0; a little too little: 2; just right: 16; a little too much: 5; much too much: 1."},
		"map":     {"strained yogurt for half the cream: –143 kcal; effect –0.15 (–0.43 to +0.13); within your limit.", "It cannot be told from olive oil for butter", "more leek, less potato: –18 kcal; effect not known; not tasted."},
		"fall":    {"from the original (684 kcal) to B yogurt, less butter (238 kcal).", "half the cheese, stronger: –88 kcal; effect –1.10 (–1.50 to –0.70); drops too much.", "All together: effect –0.90"},
		"front":   {"This is the best within your limit.", "predicted, not cooked: picked as best of 128, expect less"},
		"right":   {"A odd one out: 9 of 24 right; guessing gets 8; not settled. A difference needs 13. At most 6 show them to be alike enough."},
		"home":    {"1 Mar 2026: 3 again, 2 not again; left: nothing 2, some 1, half or more 0."},
		"days":    {"Calories (at most 2000 kcal): before 2310 kcal (116 %), over, after 1985 kcal (99 %)."},
		"daysabs": {"Added sugars (no target): before not known, after 18.0 g."},
	} {
		for _, w := range want {
			if !strings.Contains(fs[figure].Alt(), w) {
				t.Errorf("%s: no %q in %s", figure, w, fs[figure].Alt())
			}
		}
	}
}

// Predictions are for the screen: neither drawn nor told in a file.
func TestPredictionsAreNotPrinted(t *testing.T) {
	d := sampleFrontier(9)
	d.Options[0].Name = "a cake never baked"
	f := must2(t)(FrontierChart(d))
	screen, _ := sheetOf(f, 1100, 460, ScreenLight)
	paper, _ := sheetOf(f, 1100, 460, Print)
	if !strings.Contains(written(screen), "a cake never baked") || !strings.Contains(written(screen), "predicted") {
		t.Error("the screen lacks what was predicted")
	}
	if got := written(paper); strings.Contains(got, "never baked") || strings.Contains(got, "predicted") || !strings.Contains(got, "B yogurt, less butter") {
		t.Errorf("paper says %s", got)
	}
	var b bytes.Buffer
	if err := f.WriteSVG(&b, 160, 75); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "never baked") || !strings.Contains(b.String(), "yogurt, less butter") {
		t.Error("the file tells of a prediction, or not of a version")
	}
	d.Options = d.Options[:1]
	paper, _ = sheetOf(must2(t)(FrontierChart(d)), 640, 280, Print)
	if !strings.Contains(written(paper), words.Say("charts.front.paper")) {
		t.Error("an empty page does not say why")
	}
}

func must2(tb testing.TB) func(*Figure, error) *Figure {
	return func(f *Figure, err error) *Figure { return must(tb, f, err) }
}

// A number that does not fit is not left out in silence.
func TestWhatDoesNotFitIsSaid(t *testing.T) {
	fs := scoreFigures(t, 30)
	for figure, want := range map[string]string{"days": "more: there is no room", "fall": "small swaps", "map": "names left out", "front": "names left out"} {
		s, _ := sheetOf(fs[figure], 320, 200, ScreenLight)
		if !strings.Contains(written(s), want) {
			t.Errorf("%s: no %q in %s", figure, want, written(s))
		}
	}
}

// Joined steps lose nothing of the sum.
func TestWaterfallAddsUp(t *testing.T) {
	d := sampleFall(30).clone()
	for n := 1; n <= len(d.Steps); n++ {
		at := d.Original
		steps := d.most(n)
		for _, st := range steps {
			at += st.Change
		}
		if len(steps) != n || math.Abs(at-d.Version.Amount) > 1e-6 {
			t.Errorf("%d steps of %d end at %v, want %v", len(steps), n, at, d.Version.Amount)
		}
	}
}

func TestEdgeOfTradeOffs(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		name string
		os   []FrontierOption
		want []int
	}{
		{"none", nil, nil},
		{"one", []FrontierOption{{Saving: 5, Low: -1}}, []int{0}},
		{"a worse one saves less", []FrontierOption{{Saving: 9, Low: -1}, {Saving: 5, Low: -2}}, []int{0}},
		{"a better one saves less", []FrontierOption{{Saving: 9, Low: -1}, {Saving: 5, Low: 0}}, []int{0, 1}},
		{"same saving, better low end", []FrontierOption{{Saving: 9, Low: -1}, {Saving: 9, Low: 0}}, []int{1}},
		{"no low end counts by the effect", []FrontierOption{{Saving: 9, Low: -1}, {Saving: 5, Effect: 0.5, Low: nan}}, []int{0, 1}},
	} {
		if got := edge(row.os); fmt.Sprint(got) != fmt.Sprint(row.want) {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		}
	}
}

func TestRightAnswersSayNoMoreThanIsShown(t *testing.T) {
	for _, row := range []struct {
		name string
		r    RightRow
		want string
	}{
		{"as many as needed", RightRow{Right: 13, N: 24, Needed: 13, AtMost: -1}, "a difference is shown"},
		{"one less", RightRow{Right: 12, N: 24, Needed: 13, AtMost: -1}, "not settled"},
		{"few enough", RightRow{Right: 6, N: 24, Needed: 13, AtMost: 6}, "shown to be alike enough"},
		{"few, but alikeness was not asked", RightRow{Right: 6, N: 24, Needed: 13, AtMost: -1}, "not settled"},
		{"too few people to show a difference", RightRow{Right: 3, N: 3, AtMost: -1}, "not settled"},
		{"nobody", RightRow{AtMost: 0}, "nobody answered"},
	} {
		if got := row.r.shown(); got != row.want {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}
