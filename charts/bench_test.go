package charts

import (
	"image/color"
	"image/png"
	"io"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

func BenchmarkScreen(b *testing.B) {
	for name, f := range map[string]*Figure{"change": mustChange(b, sampleData(4)), "share": mustShare(b, sampleShare(4))} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := f.Draw(900, 400, 1, ScreenLight); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkPNG300(b *testing.B) {
	f := mustChange(b, sampleData(4))
	b.Run("figure", func(b *testing.B) {
		for b.Loop() {
			if err := f.WritePNG(io.Discard, 160, 75, 300); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("floor", func(b *testing.B) {
		for b.Loop() {
			floor(b, sampleData(4), 160, 75, 300)
		}
	})
}

// floor draws the same data with gonum/plot as it comes: three bar charts side
// by side with names, titles and amounts, no hatches, no layout of our own.
func floor(tb testing.TB, d ChangeData, wMM, hMM float64, dpi int) {
	plot.DefaultFont = font.Font{Typeface: "Liberation", Variant: "Sans"}
	plotter.DefaultFont = plot.DefaultFont
	c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(vg.Length(wMM)*vg.Millimeter, vg.Length(hMM)*vg.Millimeter), vgimg.UseDPI(dpi))}
	whole := draw.New(c)
	tiles := draw.Tiles{Rows: 1, Cols: len(d.Panels), PadX: 12, PadTop: 6, PadBottom: 6, PadLeft: 6, PadRight: 6}
	for k, panel := range d.Panels {
		p := plot.New()
		p.Title.Text = panel.Label
		p.X.Label.Text = "change per serving, % of the original"
		p.Add(plotter.NewGrid())
		var names []string
		labels := plotter.XYLabels{}
		for i, ch := range panel.Changes {
			names = append(names, d.Versions[i].Letter+" "+d.Versions[i].Name)
			v := 0.0
			if ch.isKnown() {
				v = ch.Percent
			}
			bar, err := plotter.NewBarChart(plotter.Values{v}, 18)
			if err != nil {
				tb.Fatal(err)
			}
			bar.Horizontal, bar.XMin, bar.Color = true, float64(i), color.Gray{Y: uint8(40 + 50*i)}
			p.Add(bar)
			labels.XYs = append(labels.XYs, plotter.XY{X: v, Y: float64(i)})
			labels.Labels = append(labels.Labels, ch.label(panel.Unit, withUnit))
		}
		l, err := plotter.NewLabels(labels)
		if err != nil {
			tb.Fatal(err)
		}
		p.Add(l)
		p.NominalY(names...)
		p.Draw(tiles.At(whole, k, 0))
	}
	if err := png.Encode(io.Discard, c.Image()); err != nil {
		tb.Fatal(err)
	}
}
