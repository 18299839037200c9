package charts

import (
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"
)

var sampleNames = []string{
	"strained yogurt for half the cream", "yogurt, less butter", "milk thickened with cornflour and a little mustard",
	"less cheese, more crumb", "all four together", "salt down by a quarter", "as D, with smoked paprika", "olive oil",
}

// sampleData is an invented dish with n versions.
func sampleData(n int) ChangeData {
	d := ChangeData{Title: "Leek and smoked haddock gratin: what each version takes off", Panels: []ChangePanel{
		{Label: "Calories", Unit: "kcal", Original: 684}, {Label: "Fat", Unit: "g", Original: 43.1}, {Label: "Sodium", Unit: "mg", Original: 1240},
	}}
	share := [][]float64{{-.21, -.335, -.25, -.12, -.41, -.01, .06, 0}, {-.34, -.46, -.31, -.2, -.58, 0, .04, -.08}, {.05, -.08, -.19, -.11, -.27, -.25, .12, -.02}}
	for i := range n {
		d.Versions = append(d.Versions, ChangeVersion{string(rune('A' + i)), sampleNames[i]})
		for k := range d.Panels {
			p := &d.Panels[k]
			c := Change{Amount: share[k][i] * p.Original, Percent: share[k][i] * 100, Known: true}
			p.Changes = append(p.Changes, c)
		}
	}
	if n > 2 { // one unknown, two known on one side only
		d.Panels[2].Changes[2] = Change{Amount: math.NaN(), Percent: math.NaN(), Bound: "unknown"}
		d.Panels[0].Changes[n-1].Bound = "at_most"
		d.Panels[1].Changes[0].Bound = "at_least"
	}
	return d
}

func sampleShare(n int) ShareData {
	d := ShareData{Title: "Where the calories are", Unit: "kcal", Versions: append([]ChangeVersion{{"", "Original"}}, sampleData(n).Versions...)}
	base := map[string]float64{"double cream": 243, "butter": 98, "mature cheese": 121, "smoked haddock": 87, "breadcrumbs": 62, "potatoes": 41, "leeks": 18, "flour": 9, "oil": 5}
	for _, name := range []string{"double cream", "butter", "mature cheese", "smoked haddock", "breadcrumbs", "potatoes", "leeks", "flour", "oil"} {
		p := SharePart{Name: name}
		for i := 0; i <= n; i++ {
			p.Amounts = append(p.Amounts, base[name]*(1-0.09*float64((i*7+len(name))%8)*math.Min(1, float64(i))))
		}
		d.Parts = append(d.Parts, p)
	}
	return d
}

func mustChange(tb testing.TB, d ChangeData) *Figure {
	tb.Helper()
	f, err := ChangeChart(d)
	if err != nil {
		tb.Fatal(err)
	}
	return f
}

func mustShare(tb testing.TB, d ShareData) *Figure {
	tb.Helper()
	f, err := ShareChart(d)
	if err != nil {
		tb.Fatal(err)
	}
	return f
}

// TestSamples writes the figures to the folder named by CHART_SAMPLES for a
// person to look at, in every look and kind of file.
func TestSamples(t *testing.T) {
	dir := os.Getenv("CHART_SAMPLES")
	if dir == "" {
		t.Skip("set CHART_SAMPLES to a folder to get the sample figures")
	}
	for _, n := range []int{1, 2, 4, 8} {
		for name, f := range map[string]*Figure{"change": mustChange(t, sampleData(n)), "share": mustShare(t, sampleShare(n))} {
			for look, l := range map[string]Look{"light": ScreenLight, "dark": ScreenDark, "print": Print} {
				for _, size := range []image.Point{{640, 280}, {1200, 420}, {320, 200}} {
					img, err := f.Draw(size.X, size.Y, 1, l)
					if err != nil {
						t.Fatal(err)
					}
					save(t, filepath.Join(dir, fmt.Sprintf("%s-%d-%s-%d.png", name, n, look, size.X)), func(w io.Writer) error { return png.Encode(w, img) })
				}
			}
			base := filepath.Join(dir, fmt.Sprintf("%s-%d", name, n))
			save(t, base+".pdf", func(w io.Writer) error { return f.WritePDF(w, 160, 75) })
			save(t, base+".eps", func(w io.Writer) error { return f.WriteEPS(w, 160, 75) })
			save(t, base+".svg", func(w io.Writer) error { return f.WriteSVG(w, 160, 75) })
			save(t, base+".tif", func(w io.Writer) error { return f.WriteTIFF(w, 160, 75, 300) })
			save(t, base+"-300.png", func(w io.Writer) error { return f.WritePNG(w, 160, 75, 300) })
		}
	}
}

func save(t *testing.T, name string, write func(io.Writer) error) {
	t.Helper()
	f, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := write(f); err != nil {
		t.Fatal(err)
	}
}
