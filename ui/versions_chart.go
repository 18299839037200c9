package ui

import (
	"image"

	"fyne.io/fyne/v2"

	"parewell/charts"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// chartCard draws the versions: what changed, or where the calories are.
type chartCard struct {
	w       *Window
	kind    *parts.Segmented
	caption *parts.Text
	picture *parts.ChartView
	view    *parts.Panel
	bench   *sheets.Bench
}

// Keys of the two charts.
const (
	chartChange = "change"
	chartShare  = "share"
)

func newChartCard(w *Window) *chartCard {
	c := &chartCard{w: w, caption: parts.NewCaption("")}
	c.kind = parts.NewSegmented([]parts.Suggestion{
		{Key: chartChange, Text: words.Say("versions.chart.change")},
		{Key: chartShare, Text: words.Say("versions.chart.share")},
	}, chartChange, func(string) { c.draw() })
	c.picture = parts.NewChartView(fyne.NewSize(240, 110), nil)
	c.picture.OnMenu = func(at fyne.Position) {
		parts.ShowMenu(c.picture, at, parts.MenuItem{Icon: "export", Label: words.Say("menu.export"), Do: func() { w.exportChart(c.kind.Key()) }})
	}
	w.pin("versions.chart.kind", c.kind)
	w.pin("versions.chart.picture", c.picture)
	head := parts.Flow(parts.GapMedium, c.kind, c.caption)
	c.view = parts.NewPanel(10, parts.Fill(6, 1, head, c.picture))
	return c
}

// show draws another bench.
func (c *chartCard) show(x *sheets.Bench) {
	c.bench = x
	c.draw()
}

func (c *chartCard) draw() {
	if c.bench == nil || len(c.bench.Versions) < 2 {
		return
	}
	caption := c.bench.ChartCaption()
	c.caption.SetText(caption)
	visible(c.caption, caption != "")
	fig, err := c.figure("")
	if err != nil {
		c.w.problem(err)
		return
	}
	c.picture.Alt = fig.Alt()
	c.picture.SetDraw(func(pxW, pxH int, scale float32, dark bool) image.Image {
		look := charts.ScreenLight
		if dark {
			look = charts.ScreenDark
		}
		return fig.Image(pxW, pxH, float64(scale), look)
	})
}

func (c *chartCard) figure(title string) (*charts.Figure, error) {
	if c.kind.Key() == chartShare {
		return charts.ShareChart(c.bench.ShareData(title))
	}
	return charts.ChangeChart(c.bench.ChangeData(title))
}
