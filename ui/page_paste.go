package ui

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// readAfter is how long typing must rest before the text is read again.
const readAfter = 180 * time.Millisecond

// pastePage takes a recipe as text and shows at once what was understood.
type pastePage struct {
	w       *Window
	text    *parts.Entry
	system  *parts.Segmented
	title   *parts.Text
	caption *parts.Text
	facts   *fyne.Container
	table   *parts.Matrix
	tableIn fyne.CanvasObject
	hint    fyne.CanvasObject
	trouble *fyne.Container
	add     *parts.Button
	timer   *time.Timer
	read    readText
}

func (p *pastePage) build() fyne.CanvasObject {
	p.text = parts.NewTextArea("", words.Say("paste.hint"), 12, nil)
	p.text.OnChanged = func(string) { p.later() }
	p.text.OnCut = func(n int) { p.w.status.SetTone(parts.ToneLook, words.Say("paste.cut", words.Number(float64(n), 0))) }
	p.w.pin("paste.text", p.text)
	p.system = parts.NewSegmented([]parts.Suggestion{
		{Key: "us", Text: words.Say("measures.us")},
		{Key: "metric", Text: words.Say("measures.metric")},
		{Key: "imperial", Text: words.Say("measures.imperial")},
	}, "us", func(string) { p.now() })
	p.add = parts.NewButton(parts.Primary, "add", words.Say("paste.add"), p.take)
	p.w.pin("paste.add", p.add)
	cancel := parts.NewButton(parts.Plain, "", words.Say("button.cancel"), func() { p.w.goTo(place{page: pageRecipes}) })
	head := parts.PageHead(words.Say("paste.title"), words.Say("paste.caption"), cancel, p.add)
	spoons := parts.Line(parts.GapSmall, parts.NewCaption(words.Say("paste.measures")), p.system)
	left := parts.NewPanel(parts.GapMedium, parts.Fill(parts.GapSmall, 0, p.text, spoons))
	body := parts.Columns(parts.GapMedium, []float32{2, 3}, left, p.preview())
	return pageBody(head, body)
}

// preview is the right half: what was understood, line by line.
func (p *pastePage) preview() fyne.CanvasObject {
	p.title, p.caption = parts.NewSubheading(""), parts.NewCaption("")
	p.facts = parts.Rows(parts.GapSmall)
	p.trouble = parts.Rows(0)
	p.table = parts.NewMatrix()
	p.tableIn = parts.Fill(parts.GapSmall, 3, p.title, p.caption, p.facts, parts.NewTableCard("", "", p.table))
	p.hint = parts.NewEmptyState(parts.ArtSheet, words.Say("paste.empty"), words.Say("paste.empty.sentence"))
	return parts.Fill(parts.GapSmall, 1, p.trouble, stackOf(p.tableIn, p.hint))
}

// later reads the text once typing rests.
func (p *pastePage) later() {
	if p.timer != nil {
		p.timer.Stop()
	}
	p.timer = time.AfterFunc(readAfter, func() { fyne.Do(p.now) })
}

func (p *pastePage) now() {
	if strings.TrimSpace(p.text.Text) == "" {
		p.read = readText{}
		p.show()
		return
	}
	sys, _ := measure.ParseSystem(p.system.Key()) // the keys are its own words
	p.w.read(p.text.Text, sys, func(r readText) {
		p.read = r
		p.show()
	})
}

func (p *pastePage) show() {
	r := p.read
	if p.text.Text == "" && p.w.at.page == pagePaste {
		parts.OfferFocus(p.w.win.Canvas(), p.text, func() bool { return p.w.at.page == pagePaste })
	}
	p.add.SetEnabled(r.recipe != nil)
	visible(p.tableIn, r.recipe != nil)
	visible(p.hint, r.recipe == nil)
	p.trouble.Objects = nil
	if r.err != nil {
		p.trouble.Add(parts.NewBanner(parts.ToneLook, r.err.Error()))
	}
	p.trouble.Refresh()
	if r.recipe == nil {
		return
	}
	s, err := sheets.UnitsOf(p.w.book()).Preview(r.recipe, r.foods)
	if err != nil {
		p.trouble.Add(parts.NewBanner(parts.ToneError, err.Error()))
		return
	}
	p.title.SetText(s.Title)
	p.caption.SetText(s.Caption)
	p.facts.Objects = nil
	p.facts.Add(parts.NewText(s.Numbers))
	for _, note := range append(s.Notes, sheets.Skipped(r.draft, r.more)...) {
		p.facts.Add(parts.NewCaption(note))
	}
	p.facts.Refresh()
	p.table.SetData(matrixOf(s.Lines))
}

// take adds the recipe and opens it: at its doubts if it has any, else at its
// numbers.
func (p *pastePage) take() {
	r := p.read
	if r.recipe == nil {
		return
	}
	tab := tabVersions
	if sheets.Doubts(r.recipe) > 0 {
		tab = tabOriginal
	}
	p.w.withWorkbook(func() {
		p.w.do(recipes.AddRecipe(r.recipe, r.foods), func(ok bool) {
			if ok {
				p.read = readText{}
				p.text.Set("")
				p.w.goTo(place{page: pageRecipe, recipe: r.recipe.ID, tab: tab})
			}
		})
	})
}
