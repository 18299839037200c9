package charts

import (
	"io"
	"math"
	"testing"
)

// BenchmarkScoreScreen is each figure at the size of a card; the budget is 30 ms.
func BenchmarkScoreScreen(b *testing.B) {
	for _, n := range []int{8, 30} {
		fs := scoreFigures(b, n)
		for _, name := range figureNames(fs) {
			b.Run(name+map[int]string{8: "-8", 30: "-30"}[n], func(b *testing.B) {
				for b.Loop() {
					if _, err := fs[name].Draw(900, 400, 1, ScreenLight); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

func BenchmarkScorePNG300(b *testing.B) {
	fs := scoreFigures(b, 8)
	for _, name := range figureNames(fs) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := fs[name].WritePNG(io.Discard, 160, 75, 300); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// FuzzScoreFigures builds every figure from the same few values: each is drawn,
// or refused with a fault and a mend.
func FuzzScoreFigures(f *testing.F) {
	f.Add(uint8(3), "A", "less butter", "kcal", 143.0, -0.2, -0.5, 0.1, 12, "within", uint16(640), uint16(280))
	f.Add(uint8(30), "", "\x00\n漢字 ½", "", math.NaN(), math.NaN(), math.Inf(-1), 0.0, -1, "", uint16(1), uint16(1))
	f.Add(uint8(1), "Z", "", "g", 1e300, -1e300, 0.0, 1e7, 100000, "not-tasted", uint16(320), uint16(200))
	f.Add(uint8(9), "B", "x", "mg", -1e7, 4.0, math.NaN(), 4.0, 24, "tied", uint16(900), uint16(60))
	f.Fuzz(func(t *testing.T, n uint8, letter, name, unit string, amount, mid, low, high float64, count int, verdict string, w, h uint16) {
		v := Verdict(verdict)
		sc, sp, ju := ScoresData{Title: name, Limit: amount}, SpreadData{Title: name}, JustRightData{Title: name}
		m, wf, fr := SwapMapData{Unit: unit, Limit: high}, WaterfallData{Unit: unit, Original: amount, Attribute: letter, Limit: high}, FrontierData{Unit: unit, Limit: high, Considered: count}
		ri, ho, da := RightData{}, HomeData{}, DaysData{Absolute: n%2 == 0}
		wf.Version = WaterfallEnd{letter, name, amount, mid, low, high, v}
		for i := range int(n % 64) {
			k := float64(i)
			sc.Rows = append(sc.Rows, ScoreRow{letter, name, i == 0, mid, low, high, count})
			sp.Rows = append(sp.Rows, SpreadRow{letter, name, i == 0, [9]int{i, 0, count}})
			ju.Rows = append(ju.Rows, JustRightRow{letter, name, i == 0, i%2 == 1, [5]int{count, 0, i, 1}})
			m.Swaps = append(m.Swaps, MapSwap{name, amount - k, mid, low, high, v, i / 2 % 3})
			wf.Steps = append(wf.Steps, WaterfallStep{name, amount / 7, mid, low, high, v, i / 2 % 3})
			fr.Options = append(fr.Options, FrontierOption{letter, name, amount + k, mid, low, high, i%2 == 0, i == 1})
			ri.Rows = append(ri.Rows, RightRow{letter, name, i, count, 0.5, i + 2, i - 1})
			ho.Dates = append(ho.Dates, HomeDate{name, count, i, [3]int{1, 0, i}})
			da.Nutrients = append(da.Nutrients, DayNutrient{name, unit, amount, high, mid, i%2 == 0})
		}
		for _, build := range []func() (*Figure, error){
			func() (*Figure, error) { return ScoresChart(sc) },
			func() (*Figure, error) { return SpreadChart(sp) },
			func() (*Figure, error) { return JustRightChart(ju) },
			func() (*Figure, error) { return SwapMap(m) },
			func() (*Figure, error) { return Waterfall(wf) },
			func() (*Figure, error) { return FrontierChart(fr) },
			func() (*Figure, error) { return RightChart(ri) },
			func() (*Figure, error) { return HomeChart(ho) },
			func() (*Figure, error) { return DaysChart(da) },
		} {
			fig, err := build()
			if err != nil {
				isProblem(t, err)
				continue
			}
			if _, err := fig.Draw(int(w%1500)+1, int(h%700)+1, 1, Look(n%3)); err != nil {
				t.Errorf("cannot be drawn: %v", err)
			}
		}
	})
}
