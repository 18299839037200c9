package ui

import (
	"image"

	"fyne.io/fyne/v2"

	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// Keys of the ledger's charts.
const (
	chartMap   = "map"
	chartFall  = "fall"
	chartFront = "front"
)

// ledgerChartHigh is the height of the chart at text factor 1.
const ledgerChartHigh = 330

// ledgerChart draws the ledger: the map of swaps, one version swap by swap, or
// the trade-offs.
type ledgerChart struct {
	p       *ledgerPage
	kind    *parts.Segmented
	version *parts.Picker
	export  *parts.Button
	trouble *parts.Text
	picture *parts.ChartView
	head    *fyne.Container
	view    *parts.Panel
}

func newLedgerChart(p *ledgerPage) *ledgerChart {
	c := &ledgerChart{p: p, trouble: parts.NewCaption("")}
	c.kind = parts.NewSegmented([]parts.Suggestion{
		{Key: chartMap, Text: words.Say("keep.chart.map")},
		{Key: chartFall, Text: words.Say("keep.chart.fall")},
		{Key: chartFront, Text: words.Say("keep.chart.front")},
	}, chartMap, func(string) { c.show() })
	c.version = parts.NewPicker(nil, "", "", func(parts.Suggestion) { c.show() })
	c.export = parts.NewButton(parts.Plain, "export", words.Say("recipe.export"), p.exportLedger)
	c.export.SetTip(words.Say("results.export"))
	c.version.Width = 210
	c.picture = parts.NewChartView(fyne.NewSize(240, ledgerChartHigh*p.w.factor), nil)
	c.picture.OnMenu = func(at fyne.Position) {
		parts.ShowMenu(c.picture, at, parts.MenuItem{Icon: "export", Label: words.Say("results.export"), Do: p.exportLedger})
	}
	p.w.pin("ledger.chart.kind", c.kind)
	p.w.pin("ledger.chart.version", c.version)
	p.w.pin("ledger.export", c.export)
	p.w.pin("ledger.chart", c.picture)
	c.head = parts.Flow(parts.GapMedium, c.kind, c.version, c.export)
	c.view = parts.NewPanel(10, parts.Rows(6, c.head, c.trouble, c.picture))
	return c
}

// show draws what is chosen, or says why it cannot be drawn.
func (c *ledgerChart) show() {
	v := c.p.view
	if v == nil {
		return
	}
	falls := c.p.l.Falls()
	var items []parts.Suggestion
	for _, x := range falls {
		items = append(items, parts.Suggestion{Key: string(x.ID), Text: sheets.VersionName(x)})
	}
	c.version.SetItems(items)
	if c.p.w.book().Version(c.p.recipe, recipes.ID(c.version.Key())) == nil && len(items) > 0 {
		c.version.SetKey(items[len(items)-1].Key)
	}
	visible(c.version, c.kind.Key() == chartFall && len(items) > 0)
	c.head.Refresh()
	fig, err := c.figure(v, c.kind.Key(), "")
	text := ""
	if err != nil {
		text = sheets.Sentence(err)
	}
	c.trouble.SetText(text)
	visible(c.trouble, err != nil)
	visible(c.picture, err == nil)
	if err != nil {
		return
	}
	drawFigure(c.picture, fig)
}

// drawFigure shows a figure in a view, with text as large as the window's.
func drawFigure(to *parts.ChartView, fig *charts.Figure) {
	to.Alt = fig.Alt()
	factor := float64(parts.Factor(to))
	to.SetDraw(func(pxW, pxH int, scale float32, dark bool) image.Image {
		look := charts.ScreenLight
		if dark {
			look = charts.ScreenDark
		}
		return fig.Image(pxW, pxH, float64(scale)*factor, look)
	})
}

// figure prepares one of the charts from a view.
func (c *ledgerChart) figure(v *sheets.LedgerView, kind, title string) (*charts.Figure, error) {
	switch kind {
	case chartFall:
		d, err := v.FallData(recipes.ID(c.version.Key()), title)
		if err != nil {
			return nil, err
		}
		return charts.Waterfall(d)
	case chartFront:
		if c.p.trades == nil || c.p.trades.Best == nil {
			return charts.FrontierChart(charts.FrontierData{Title: title})
		}
		return charts.FrontierChart(v.FrontData(c.p.trades, title))
	}
	return charts.SwapMap(v.MapData(title))
}

// exportLedger asks which charts are saved, the one in sight before all.
func (p *ledgerPage) exportLedger() {
	kinds := map[string]string{chartMap: sheets.FigureMap, chartFall: sheets.FigureFall + p.chart.version.Key(), chartFront: sheets.FigureFront}
	p.exportCharts(kinds[p.chart.kind.Key()])
}

// exportCharts asks which charts are saved, against the recorded limit and by the score
// and the nutrient in sight: all at first, or the one of a key.
func (p *ledgerPage) exportCharts(key string) {
	if p.view == nil {
		return
	}
	v, t := p.view, p.trades
	set, err := v.Figures(t, exportWidth)
	if err != nil {
		p.w.problem(err)
		return
	}
	ask := sheets.FiguresAsk{Of: sheets.FiguresOfLedger, Recipe: p.recipe, Attribute: v.Ask.Attribute, Nutrient: v.Ask.Nutrient}
	of := p.w.setChoice(set, key, ask, func(wide float64) (*sheets.FigureSet, error) { return v.Figures(t, wide) })
	of.title, of.table = words.Say("results.export.title"), words.Say("results.export.csv")
	if v.Table.WhatIf() {
		of.note = words.Say("keep.export.what-if", words.Trim(p.l.Limit(), 2))
	}
	p.w.saveFigures(of)
}
