package charts

import (
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

func must(tb testing.TB, f *Figure, err error) *Figure {
	tb.Helper()
	if err != nil {
		tb.Fatal(err)
	}
	return f
}

// sampleScores is an invented tasting of the original and n versions.
func sampleScores(n int) ScoresData {
	d := ScoresData{Title: "Leek and smoked haddock gratin: liking by version", Attribute: "Liking", Limit: 0.5}
	d.Rows = append(d.Rows, ScoreRow{Name: "Original", Original: true, Mean: 7.3, Low: 6.8, High: 7.8, N: 24})
	for i := range n {
		m := []float64{7.1, 6.4, 7.5, 5.9, 6.9, 7.0, 6.1, 7.2}[i%8]
		d.Rows = append(d.Rows, ScoreRow{Letter: string(rune('A' + i)), Name: sampleNames[i%8], Mean: m, Low: m - 0.6, High: m + 0.55, N: 24 - i})
	}
	return d
}

func sampleSpread(n int) SpreadData {
	d := SpreadData{Title: "How many gave each score", Attribute: "Liking", Ends: [2]string{"dislike extremely", "like extremely"}}
	d.Rows = append(d.Rows, SpreadRow{Name: "Original", Original: true, Counts: [9]int{0, 0, 0, 1, 2, 4, 8, 7, 2}})
	for i := range n {
		r := SpreadRow{Letter: string(rune('A' + i)), Name: sampleNames[i%8]}
		for k := range r.Counts {
			r.Counts[k] = (i*5+k*k*3+k)%7*k/5 + k/4
		}
		d.Rows = append(d.Rows, r)
	}
	return d
}

func sampleJust(n int) JustRightData {
	d := JustRightData{Title: "Saltiness: too little, just right, too much"}
	d.Rows = append(d.Rows, JustRightRow{Name: "Original", Original: true, Counts: [5]int{0, 2, 16, 5, 1}})
	for i := range n {
		d.Rows = append(d.Rows, JustRightRow{Letter: string(rune('A' + i)), Name: sampleNames[i%8], Counts: [5]int{i % 4, 3 + i%5, 14 - i, 4 - i%3, i % 2}})
	}
	return d
}

var swapNames = []string{
	"strained yogurt for half the cream", "less butter", "half the cheese, stronger", "crumb toasted dry", "salt down by a quarter",
	"milk thickened with cornflour", "olive oil for butter", "more leek, less potato", "smoked paprika", "poached, not fried",
}

// sampleMap is invented: some tasted, two always served together, some not tasted.
func sampleMap(n int) SwapMapData {
	d := SwapMapData{Title: "Keep or drop: what each swap takes off and does to liking", Nutrient: "Calories", Unit: "kcal", Attribute: "Liking", Limit: 0.5}
	effects := []float64{-0.15, -0.32, -1.1, 0.35, -0.62, -0.2, -0.2, math.NaN(), 0.05, math.NaN()}
	wide := []float64{0.28, 0.25, 0.4, 0.3, 0.35, 0.5, 0.5, 0, 0.6, 0}
	savings := []float64{143, 62, 88, 24, 2, 71, 35, 18, -3, 51}
	verdicts := []Verdict{Within, SmallDrop, TooMuch, LikedMore, LessUnsettled, Tied, Tied, NotTasted, NotEnough, NotTasted}
	for i := range n {
		k := i % 10
		m := MapSwap{Name: swapNames[k], Saving: savings[k] + 9*float64(i/10), Effect: effects[k] + 0.17*float64(i/10), Verdict: verdicts[k]}
		m.Low, m.High = m.Effect-wide[k], m.Effect+wide[k]
		if k == 5 || k == 6 {
			m.Group = i/10 + 1
		}
		d.Swaps = append(d.Swaps, m)
	}
	return d
}

func sampleFall(n int) WaterfallData {
	d := WaterfallData{Title: "From the original to B, swap by swap", Nutrient: "Calories", Unit: "kcal", Attribute: "liking", Limit: 0.5, Original: 684}
	at := d.Original
	for _, m := range sampleMap(n).Swaps {
		st := WaterfallStep{Name: m.Name, Change: -m.Saving / float64(1+n/10), Effect: m.Effect, Low: m.Low, High: m.High, Verdict: m.Verdict, Group: m.Group}
		at += st.Change
		d.Steps = append(d.Steps, st)
	}
	d.Version = WaterfallEnd{Letter: "B", Name: "yogurt, less butter", Amount: at - 6, Effect: -0.9, Low: -1.4, High: -0.4, Verdict: TooMuch}
	return d
}

func sampleFrontier(n int) FrontierData {
	d := FrontierData{Title: "Best trade-offs: calories against liking", Nutrient: "Calories", Unit: "kcal", Attribute: "Liking", Limit: 0.5, Considered: 128}
	for i := range n {
		f := float64(i) / float64(max(n-1, 1))
		o := FrontierOption{Name: swapNames[i%10], Saving: 40 + 260*f, Effect: 0.15 - 1.1*f*f + 0.25*float64(i%3-1)*f, Tasted: i%3 == 1}
		o.Low = o.Effect - 0.2 - 0.35*f
		if o.Tasted {
			o.Letter, o.Name = string(rune('A'+i/3%8)), sampleNames[i/3%8]
			o.Low = o.Effect - 0.3
		}
		o.High = 2*o.Effect - o.Low
		o.Best = i == n/2
		d.Options = append(d.Options, o)
	}
	return d
}

func sampleRight(n int) RightData {
	d := RightData{Title: "Can they tell it from the original?"}
	for i := range n {
		d.Rows = append(d.Rows, RightRow{Letter: string(rune('A' + i%8)), Name: []string{"odd one out", "two pairs", "match the sample"}[i%3], Right: 9 + i*5%13, N: 24, Chance: []float64{1.0 / 3, 1.0 / 3, 0.5}[i%3], Needed: []int{13, 13, 18}[i%3], AtMost: []int{6, -1, 9}[i%3]})
	}
	return d
}

func sampleHome(n int) HomeData {
	d := HomeData{Title: "Taken home: version B"}
	for i := range n {
		d.Dates = append(d.Dates, HomeDate{strconv.Itoa(1+i%28) + " Mar 2026", 3 + i%4, 2 - i%3, [3]int{2 + i%3, 1 + i%2, i % 3}})
	}
	return d
}

func sampleDays(n int) DaysData {
	d := DaysData{Title: "A day before and after", Before: "with the original", After: "with version B"}
	for i := range n {
		k := i % 6
		d.Nutrients = append(d.Nutrients, DayNutrient{
			[]string{"Calories", "Saturated fat", "Sodium", "Protein", "Fibre", "Added sugars"}[k], []string{"kcal", "g", "mg", "g", "g", "g"}[k],
			[]float64{2310, 31.2, 2980, 78, 19.5, math.NaN()}[k], []float64{1985, 21.4, 2240, 82, 22, 18}[k], []float64{2000, 22, 2300, 75, 30, math.NaN()}[k], k < 3,
		})
	}
	return d
}

// scoreFigures are all figures of this file's kind with about n items each.
func scoreFigures(tb testing.TB, n int) map[string]*Figure {
	out := map[string]*Figure{}
	add := func(name string, f *Figure, err error) { out[name] = must(tb, f, err) }
	f, err := ScoresChart(sampleScores(min(n, 8)))
	add("scores", f, err)
	f, err = SpreadChart(sampleSpread(min(n, 8)))
	add("spread", f, err)
	f, err = JustRightChart(sampleJust(min(n, 8)))
	add("just", f, err)
	f, err = SwapMap(sampleMap(n))
	add("map", f, err)
	f, err = Waterfall(sampleFall(n))
	add("fall", f, err)
	f, err = FrontierChart(sampleFrontier(n))
	add("front", f, err)
	f, err = RightChart(sampleRight(min(n, mostSamples)))
	add("right", f, err)
	f, err = HomeChart(sampleHome(n))
	add("home", f, err)
	f, err = DaysChart(sampleDays(n))
	add("days", f, err)
	d := sampleDays(n)
	d.Absolute = true
	f, err = DaysChart(d)
	add("daysabs", f, err)
	return out
}

// TestScoreSamples writes the figures for a person to look at; those for print
// are grey already, the screen's come a second time without their colour.
func TestScoreSamples(t *testing.T) {
	dir := os.Getenv("CHART_SAMPLES")
	if dir == "" {
		t.Skip("set CHART_SAMPLES to a folder to get the sample figures")
	}
	for _, n := range []int{1, 5, 9, 30} {
		for name, f := range scoreFigures(t, n) {
			for look, l := range map[string]Look{"light": ScreenLight, "dark": ScreenDark, "print": Print} {
				for _, size := range []image.Point{{640, 300}, {1100, 460}, {320, 200}} {
					img, err := f.Draw(size.X, size.Y, 1, l)
					if err != nil {
						t.Fatal(err)
					}
					base := filepath.Join(dir, name+"-"+strconv.Itoa(n)+"-"+look+"-"+strconv.Itoa(size.X))
					save(t, base+".png", func(w io.Writer) error { return png.Encode(w, img) })
					if l == ScreenLight {
						save(t, base+"-grey.png", func(w io.Writer) error { return png.Encode(w, greyed(img)) })
					}
				}
			}
			save(t, filepath.Join(dir, name+"-"+strconv.Itoa(n)+".pdf"), func(w io.Writer) error { return f.WritePDF(w, 160, 75) })
		}
	}
}

func greyed(img image.Image) image.Image {
	out := image.NewGray(img.Bounds())
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out
}
