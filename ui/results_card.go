package ui

import (
	"context"

	"fyne.io/fyne/v2"

	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// tastingResults shows what a closed tasting came to: one sentence first, the
// chart under it, numbers and tasters when asked for. What takes long is worked
// out beside the window.
type tastingResults struct {
	w       *Window
	id      recipes.ID
	book    *recipes.Book // r is of, or is being made of
	r       *sheets.Results
	asked   string // which of what was scored
	numbers bool   // the figures are asked for

	head           *parts.Text
	more, notes    *fyne.Container
	picker         *parts.Picker
	kind           *parts.Segmented
	toggle, export *parts.Button
	trouble        *parts.Text
	caption        *parts.Text
	picture, low   *parts.ChartView // low is for a chart of one row
	figures        *fyne.Container
	panel          *tasterPanel
	tools          *fyne.Container
	rows           *fyne.Container
	grown          func() // told when the card may need another height; may be nil
}

// Keys of the charts of scores.
const (
	chartScores = "scores"
	chartSpread = "spread"
)

// Heights of a chart of results at text factor 1; the lower one is for a single row.
const (
	resultsChartHigh = 270
	resultsChartLow  = 170
)

func newTastingResults(w *Window) *tastingResults {
	c := &tastingResults{w: w, head: parts.NewText(""), trouble: parts.NewCaption(""), caption: parts.NewCaption("")}
	c.head.Bold, c.head.Scale = true, parts.SizeSubheading
	c.more, c.notes, c.figures = parts.Rows(4), parts.Rows(4), parts.Rows(parts.GapMedium)
	c.picker = parts.NewPicker(nil, "", "", func(s parts.Suggestion) { c.asked = s.Key; c.lay() })
	c.kind = parts.NewSegmented([]parts.Suggestion{
		{Key: chartScores, Text: words.Say("results.chart.scores")}, {Key: chartSpread, Text: words.Say("results.chart.spread")},
	}, chartScores, func(string) { c.lay() })
	c.toggle = parts.NewButton(parts.Plain, "target", words.Say("results.numbers"), func() { c.numbers = !c.numbers; c.lay() })
	c.export = parts.NewButton(parts.Plain, "export", words.Say("recipe.export"), c.write)
	c.export.SetTip(words.Say("results.export"))
	c.picture, c.low = c.newPicture(resultsChartHigh), c.newPicture(resultsChartLow)
	c.panel = newTasterPanel(c)
	for name, o := range map[string]fyne.CanvasObject{
		"results.asked": c.picker, "results.kind": c.kind, "results.numbers": c.toggle, "results.export": c.export, "results.chart": c.picture,
	} {
		w.pin(name, o)
	}
	c.tools = parts.Flow(parts.GapMedium, c.picker, c.kind, c.toggle, c.export)
	card := parts.NewPanel(parts.GapLarge, parts.Rows(parts.GapMedium, c.head, c.more, c.notes, c.tools, c.trouble, c.picture, c.low, c.caption))
	c.rows = parts.Rows(parts.GapLarge, card, c.figures, c.panel.card)
	return c
}

func (c *tastingResults) newPicture(high float32) *parts.ChartView {
	v := parts.NewChartView(fyne.NewSize(240, high*c.w.factor), nil)
	v.OnMenu = func(at fyne.Position) {
		parts.ShowMenu(v, at, parts.MenuItem{Icon: "export", Label: words.Say("results.export"), Do: c.write})
	}
	return v
}

func (c *tastingResults) view() fyne.CanvasObject { return c.rows }

// show brings in a tasting; the same one again changes only what has changed.
func (c *tastingResults) show(t *recipes.Tasting) {
	if t.ID != c.id {
		c.id, c.r, c.book, c.asked, c.numbers = t.ID, nil, nil, "", false
	}
	if c.book != c.w.book() {
		c.book = c.w.book()
		c.gather(t.ID)
	}
	c.lay()
}

// gather works the results out beside the window; what was shown before stays
// until then.
func (c *tastingResults) gather(id recipes.ID) {
	desk.Background(c.w.desk, "results", func(_ context.Context, b *recipes.Book) *sheets.Results {
		if b.Tasting(id) == nil {
			return nil
		}
		return sheets.NewResults(b, id)
	}, func(r *sheets.Results) {
		if r != nil && c.id == id {
			c.r = r
			c.lay()
		}
	})
}

// lay puts the results into the card.
func (c *tastingResults) lay() {
	r := c.r
	for _, o := range []fyne.CanvasObject{c.more, c.notes, c.tools, c.figures, c.panel.card} {
		visible(o, r != nil)
	}
	if r == nil {
		c.head.SetText(words.Say("keep.working"))
		for _, o := range []fyne.CanvasObject{c.picture, c.low, c.trouble, c.caption} {
			o.Hide()
		}
		c.refresh()
		return
	}
	c.showTools()
	c.showSays()
	c.showChart()
	c.showFigures()
	c.panel.show()
	c.refresh()
}

func (c *tastingResults) refresh() {
	c.rows.Refresh()
	if c.grown != nil {
		c.grown()
	}
}

// showTools offers what there is to look at.
func (c *tastingResults) showTools() {
	var items []parts.Suggestion
	for _, a := range c.r.Asked() {
		items = append(items, parts.Suggestion{Key: a, Text: c.r.AskedName(a)})
	}
	if len(items) > 0 {
		c.picker.SetItems(items)
		if c.asked == "" || !has(items, c.asked) {
			c.asked = items[0].Key
		}
		c.picker.SetKey(c.asked)
	}
	rated := c.r.Kind() == sheets.ResultsRated
	visible(c.picker, len(items) > 1)
	visible(c.kind, rated && !c.r.IsRight(c.asked))
	key := "results.numbers"
	if c.numbers {
		key = "results.numbers.hide"
	}
	c.toggle.SetText(words.Say(key))
	visible(c.toggle, len(c.r.Numbers(c.asked)) > 0)
	visible(c.export, c.r.Kind() != sheets.ResultsNone)
	c.tools.Refresh()
}

func has(items []parts.Suggestion, key string) bool {
	for _, i := range items {
		if i.Key == key {
			return true
		}
	}
	return false
}

// showSays puts the answer, what stands behind it, and what is to be known.
func (c *tastingResults) showSays() {
	said := c.r.Says(c.asked)
	c.head.SetText(said.Head)
	c.more.Objects, c.notes.Objects = nil, nil
	for _, s := range said.More {
		c.more.Add(parts.NewText(s))
	}
	for _, s := range said.Notes {
		t := parts.NewCaption(s)
		c.notes.Add(parts.Stretch(parts.GapSmall, 1, parts.NewIcon("info", parts.RoleMuted, 15), t))
	}
	visible(c.more, len(said.More) > 0)
	visible(c.notes, len(said.Notes) > 0)
	c.more.Refresh()
	c.notes.Refresh()
}

// figure prepares a chart of the results; false where there is none to draw.
func (c *tastingResults) figure(kind, asked, title string) (*charts.Figure, error, bool) {
	switch c.r.Kind() {
	case sheets.ResultsRated:
		if c.r.IsRight(asked) {
			f, err := charts.JustRightChart(c.r.RightsData(asked, title))
			return f, err, true
		}
		if kind == chartSpread {
			f, err := charts.SpreadChart(c.r.SpreadData(asked, title))
			return f, err, true
		}
		f, err := charts.ScoresChart(c.r.ScoresData(asked, title))
		return f, err, true
	case sheets.ResultsTrays:
		if d, ok := c.r.CountData(title); ok {
			f, err := charts.RightChart(d)
			return f, err, true
		}
	case sheets.ResultsHome:
		if d, ok := c.r.HomeData(title); ok {
			f, err := charts.HomeChart(d)
			return f, err, true
		}
	}
	return nil, nil, false
}

// showChart draws what is chosen, or says why it cannot be drawn.
func (c *tastingResults) showChart() {
	fig, err, some := c.figure(c.kind.Key(), c.asked, "")
	at, other := c.picture, c.low
	if c.r.Kind() == sheets.ResultsTrays {
		at, other = c.low, c.picture
	}
	visible(at, some && err == nil)
	other.Hide()
	visible(c.trouble, err != nil)
	if err != nil {
		c.trouble.SetText(sheets.Sentence(err))
	} else if some {
		drawFigure(at, fig)
	}
	c.caption.SetText(words.Say("results.home.chart"))
	visible(c.caption, some && c.r.Kind() == sheets.ResultsHome)
}

// showFigures puts the tables of numbers where they are asked for.
func (c *tastingResults) showFigures() {
	c.figures.Objects = nil
	visible(c.figures, c.numbers)
	if !c.numbers {
		return
	}
	for _, s := range c.r.Numbers(c.asked) {
		m := parts.NewMatrix()
		m.Whole, m.WholeRow = true, true
		d := matrixOf(s.Sheet)
		d.Columns[0].Min, d.Columns[0].Max = 120, 420
		m.SetData(d)
		c.w.pin("results.table."+s.Title, m)
		c.figures.Add(parts.NewTableCard(s.Title, s.Caption, m))
	}
	c.figures.Refresh()
}

// write asks which charts are saved, the one in sight before all, and whether the
// numbers are, too.
func (c *tastingResults) write() {
	if c.r == nil {
		return
	}
	r, key := c.r, sheets.FigureScores
	switch {
	case c.asked != "" && c.kind.Key() == chartSpread && !r.IsRight(c.asked):
		key = sheets.FigureSpread + c.asked
	case c.asked != "":
		key += ":" + c.asked
	}
	ask := sheets.FiguresAsk{Of: sheets.FiguresOfTasting, Recipe: r.Tasting.Recipe, Tasting: r.Tasting.ID}
	of := c.w.setChoice(r.Figures(exportWidth), key, ask, func(wide float64) (*sheets.FigureSet, error) { return r.Figures(wide), nil })
	of.title, of.table = words.Say("results.export.title"), words.Say("results.export.csv")
	c.w.saveFigures(of)
}
