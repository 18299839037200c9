package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// closedTasting shows how a tasting ended, and its scores by what was served.
type closedTasting struct {
	w              *Window
	t              *recipes.Tasting
	title, caption *parts.Text
	facts          *fyne.Container
	scores, picked *parts.Matrix
	pickedCard     fyne.CanvasObject
	pickedSays     *fyne.Container
	scroll         *container.Scroll
	corrected      *parts.Matrix // what was corrected since
	correctedCard  fyne.CanvasObject
	results        *tastingResults
	body           *fyne.Container
}

func (p *closedTasting) build() fyne.CanvasObject {
	p.title, p.caption = parts.NewSubheading(""), parts.NewCaption("")
	p.caption.SetText(words.Say("tastings.closed.caption"))
	late := p.w.pin("tastings.late", parts.NewButton(parts.Plain, "edit", words.Say("tastings.late.enter"), func() { p.w.lateScores(p.t) }))
	scores := p.w.pin("tastings.scores.save", parts.NewButton(parts.Quiet, "export", words.Say("tastings.scores.file"), func() { p.w.writeScores(p.t) }))
	swaps := p.w.pin("tastings.swaps.save", parts.NewButton(parts.Quiet, "export", words.Say("tastings.swaps.file"), func() { p.w.writeSwaps(p.t) }))
	p.facts = parts.Rows(4)
	p.scores, p.picked = p.table("tastings.scores"), p.table("tastings.picked")
	p.pickedSays = parts.Rows(4)
	p.pickedCard = parts.Rows(parts.GapSmall, p.pickedSays, parts.NewTableCard(words.Say("tastings.picked.title"), "", p.picked))
	p.corrected = p.table("tastings.corrected")
	p.correctedCard = parts.NewTableCard(words.Say("tastings.corrected"), words.Say("tastings.corrected.caption"), p.corrected)
	p.body = parts.Rows(parts.GapLarge, p.facts)
	p.results = newTastingResults(p.w)
	p.results.grown = func() { p.body.Refresh() }
	p.body.Add(p.results.view())
	p.body.Add(p.correctedCard)
	p.body.Add(p.pickedCard)
	p.body.Add(parts.NewTableCard(words.Say("tastings.scores.title"), "", p.scores))
	p.scroll = parts.Scrolled(parts.Pad(mealEdge, mealEdge, mealEdge, mealEdge, p.body))
	p.scores.Outer, p.picked.Outer, p.corrected.Outer = p.scroll, p.scroll, p.scroll
	head := parts.Rows(parts.GapSmall, parts.Rows(2, p.title, p.caption), parts.Flow(parts.GapSmall, scores, swaps, late))
	return parts.Fill(parts.GapSmall, 1, parts.Pad(0, mealEdge, 0, mealEdge, head), p.scroll)
}

func (p *closedTasting) table(pin string) *parts.Matrix {
	m := parts.NewMatrix()
	m.Whole, m.WholeRow = true, true
	m.SetData(oneColumn())
	p.w.pin(pin, m)
	return m
}

func (p *closedTasting) show(t *recipes.Tasting) {
	if p.t == nil || p.t.ID != t.ID {
		p.scroll.ScrollToTop() // not where the last one was left
	}
	p.t = t
	p.title.SetText(sheets.TastingTitle(t))
	p.facts.Objects = nil
	for _, f := range sheets.ClosedFacts(p.w.book(), t) {
		p.facts.Add(parts.NewText(f))
	}
	d := matrixOf(sheets.Corrections(p.w.book(), t))
	d.Columns[0].Min, d.Columns[0].Max = 110, 150
	p.corrected.SetData(d)
	visible(p.correctedCard, len(d.Rows) > 0)
	s, err := sheets.ScoresByVersion(p.w.book(), t)
	p.w.problemOrNil(err)
	d = matrixOf(s)
	d.Columns[0].Min, d.Columns[0].Max = 90, 140
	d.Empty = words.Say("tastings.scores.none")
	p.scores.SetData(d)
	picked, err := sheets.Picked(p.w.book(), t)
	p.w.problemOrNil(err)
	d = matrixOf(picked)
	d.Columns[0].Min, d.Columns[0].Max = 90, 140
	p.picked.SetData(d)
	p.pickedSays.Objects = nil
	for _, s := range sheets.PickedSays(p.w.book(), t) {
		p.pickedSays.Add(parts.NewText(s))
	}
	visible(p.pickedCard, len(d.Rows) > 0)
	p.results.show(t)
	p.body.Refresh()
}

// lateScores takes scores of a closed tasting, by code: corrections, each with
// its reason.
func (w *Window) lateScores(t *recipes.Tasting) {
	g := newScoreGrid(w)
	form := parts.NewForm()
	why := parts.NewEntry("", words.Say("tastings.late.why.hint"), nil)
	row := form.Row(words.Say("tastings.late.why"), why, "", words.Say("tastings.late.why.help"))
	why.OnSubmitted = func(string) { g.begin(-1) }
	g.why = func() string {
		reason := strings.TrimSpace(why.Text)
		if row.SetError(""); reason == "" {
			row.SetError(words.Say("tastings.late.why.first"))
		}
		return reason
	}
	g.show(t)
	g.say(parts.RoleMuted, words.Say("tastings.grid.hint"))
	w.pin("tastings.late.grid", g.table)
	w.pin("tastings.late.why", why)
	w.pin("tastings.late.where", g.where)
	file := parts.NewButton(parts.Quiet, "import", words.Say("tastings.read"), nil)
	w.pin("tastings.late.file", file)
	d := parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tastings.late.enter"), First: why, Width: 860, Height: 600, Cancel: words.Say("button.close"),
		Content: parts.Fill(parts.GapSmall, 3, parts.Stretch(parts.GapMedium, 0, parts.NewText(words.Say("tastings.late.help")), file), form, g.where,
			parts.NewTableCard("", "", g.table)),
	})
	file.OnPress = func() {
		if reason := g.why(); reason != "" {
			d.Close()
			w.readScores(t, reason)
		} else {
			w.win.Canvas().Focus(why)
		}
	}
}
