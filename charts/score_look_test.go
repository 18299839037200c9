package charts

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"strings"
	"testing"
)

func TestValueTicks(t *testing.T) {
	wide := func(most int) func([]float64, int) bool {
		return func(ts []float64, _ int) bool { return len(ts) <= most }
	}
	for _, row := range []struct {
		name     string
		a        span
		most     int
		want     string
		decimals int
	}{
		{"scores", span{5, 9}, 5, "[5 6 7 8 9]", 0},
		{"effects", span{-1, 1}, 5, "[-1 -0.5 0 0.5 1]", 1},
		{"large", span{0, 700}, 8, "[0 100 200 300 400 500 600 700]", 0},
	} {
		got, d := valueTicks(row.a, 0, wide(row.most))
		for i := range got {
			got[i] = math.Round(got[i]*1e6) / 1e6
		}
		if fmt.Sprint(got) != row.want || d != row.decimals {
			t.Errorf("%s: %v with %d decimals, want %s with %d", row.name, got, d, row.want, row.decimals)
		}
	}
	if got, _ := valueTicks(span{0, 1}, 0, wide(0)); got != nil {
		t.Errorf("no room: %v", got)
	}
}

// Without colour verdicts are told by shape and by how full they are.
func TestVerdictsAreToldApartInGrey(t *testing.T) {
	for _, look := range []Look{ScreenLight, ScreenDark, Print} {
		k := inksOf(look)
		seen := map[string]Verdict{}
		for _, v := range Verdicts {
			if got := v.Words(); strings.HasPrefix(got, "[") {
				t.Errorf("%s has no words", v)
			}
			fill, edge := k.verdictInks(v)
			if c := contrast(edge, k.ground); c < 3 {
				t.Errorf("look %d: the edge of %s stands at %.1f:1", look, v, c)
			}
			full := contrast(fill, k.ground)
			switch tone := verdictTone(v); {
			case tone == hollowTone && full > 1.05, tone == halfTone && (full < 1.3 || contrast(fill, edge) < 1.6), tone == fullTone && full < 3:
				t.Errorf("look %d: %s is not as full as it should be, %.2f", look, v, full)
			}
			key := fmt.Sprint(verdictShapes[v], verdictTone(v))
			if other, taken := seen[key]; taken {
				t.Errorf("%s and %s look alike without colour", v, other)
			}
			seen[key] = v
		}
	}
}

// Neighbours in a bar are told apart by tone or by pattern.
func TestPartsOfBarsAreToldApartInGrey(t *testing.T) {
	for _, look := range []Look{ScreenLight, ScreenDark, Print} {
		k := inksOf(look)
		home := (&homeView{}).parts(k)
		days := (&daysView{}).fills(k)
		just := k.justFills()
		for name, fills := range map[string][]swatch{"just": just[:], "again": home[0].fills, "left": home[1].fills, "days": days[:]} {
			for i := range fills[1:] {
				a, b := fills[i], fills[i+1]
				if c := contrast(a.fill, b.fill); c < 1.5 && (a.hatch == b.hatch || c < 1.08 && a.hatch == solid) {
					t.Errorf("look %d, %s: %d and %d stand at %.2f:1", look, name, i, i+1, c)
				}
			}
			for i, f := range fills {
				if f.hatch != solid && contrast(f.line, f.fill) < 1.4 {
					t.Errorf("look %d, %s: the hatch of %d does not show", look, name, i)
				}
			}
		}
	}
}

func TestScorePrintsAreGrey(t *testing.T) {
	for name, f := range scoreFigures(t, 9) {
		img, err := f.page(160, 80, 150)
		if err != nil {
			t.Fatal(err)
		}
		if _, ok := img.(*image.Gray); !ok {
			t.Errorf("%s has colour on paper", name)
		}
	}
}

func TestScoreFilesOfEveryKind(t *testing.T) {
	for name, f := range scoreFigures(t, 5) {
		var png, tif, svg, pdf, eps bytes.Buffer
		for kind, err := range map[string]error{
			"png": f.WritePNG(&png, 120, 60, 150), "tiff": f.WriteTIFF(&tif, 120, 60, 150), "svg": f.WriteSVG(&svg, 120, 60),
			"pdf": f.WritePDF(&pdf, 120, 60), "eps": f.WriteEPS(&eps, 120, 60),
		} {
			if err != nil {
				t.Errorf("%s as %s: %v", name, kind, err)
			}
		}
		if !strings.Contains(svg.String(), "<desc>") || strings.Contains(svg.String(), "<text") || strings.Contains(pdf.String(), "/Font <</") {
			t.Errorf("%s: no text alternative, or text in a font the reader may not have", name)
		}
		var again bytes.Buffer
		if err := f.WritePDF(&again, 120, 60); err != nil || !bytes.Equal(again.Bytes(), pdf.Bytes()) {
			t.Errorf("%s: two files differ, %v", name, err)
		}
	}
}

func TestScoreDataIsCopied(t *testing.T) {
	d, m, w := sampleScores(2), sampleMap(5), sampleFall(5)
	fs := []*Figure{must2(t)(ScoresChart(d)), must2(t)(SwapMap(m)), must2(t)(Waterfall(w))}
	order := m.Swaps[3].Name
	var before []string
	for _, f := range fs {
		s, _ := sheetOf(f, 900, 400, ScreenLight)
		before = append(before, written(s))
	}
	if m.Swaps[3].Name != order || len(w.Steps) != 5 {
		t.Error("the caller's data were changed")
	}
	d.Rows[1].Mean, m.Swaps[0].Name, w.Steps[0].Change = 2, "other", 99
	for i, f := range fs {
		s, _ := sheetOf(f, 900, 400, ScreenLight)
		if written(s) != before[i] {
			t.Errorf("figure %d changed with the caller's data", i)
		}
	}
}

func TestVerdictsFitTheirEffect(t *testing.T) {
	nan := math.NaN()
	for _, row := range []struct {
		name   string
		said   Verdict
		effect float64
		want   Verdict
	}{
		{"judged", Within, -0.1, Within},
		{"nothing said of an effect", "", -0.1, NoLimit},
		{"nothing said, nothing tasted", "", nan, NotTasted},
		{"judged without an effect", TooMuch, nan, NotTasted},
		{"tied without a joint effect", Tied, nan, Tied},
		{"never left out", AlwaysOn, nan, AlwaysOn},
		{"too few to work anything out", NotEnough, nan, NotEnough},
	} {
		if got := row.said.given(row.effect, math.NaN(), math.NaN()); got != row.want {
			t.Errorf("%s: %s, want %s", row.name, got, row.want)
		}
	}
}

// A swap that was never left out has no effect, and is not called untasted.
func TestAlwaysOnIsSaidOnTheMapAndTheWaterfall(t *testing.T) {
	nan := math.NaN()
	m := SwapMapData{Swaps: []MapSwap{{Name: "less butter", Saving: 30, Effect: nan, Low: nan, High: nan, Verdict: AlwaysOn}}}
	w := WaterfallData{Attribute: "liking", Original: 100, Version: WaterfallEnd{Letter: "A", Amount: 70, Effect: 0.1, Low: -0.1, High: 0.3, Verdict: Within}, Steps: []WaterfallStep{{Name: "less butter", Change: -30, Effect: nan, Verdict: AlwaysOn}}}
	for name, f := range map[string]*Figure{"map": must2(t)(SwapMap(m)), "waterfall": must2(t)(Waterfall(w))} {
		s, _ := sheetOf(f, 900, 400, ScreenLight)
		if got := written(s) + f.Alt(); !strings.Contains(got, "never left out") || strings.Contains(got, "not tasted") {
			t.Errorf("%s: %s", name, got)
		}
	}
}
