package ui

import (
	"context"
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/charts/book"
	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// printedPage is the page of one recipe as it stands in the book: at the left
// the sheets of paper, at the right what is printed and what is still open.
type printedPage struct {
	w        *Window
	sheets   *fyne.Container // the paper
	papers   []*parts.ChartView
	high     float32 // of the paper, in its width
	scroll   *container.Scroll
	state    *parts.Text // how many sheets, or what is wrong
	moved    *parts.Text // why its energy is not that of the Versions page
	save     *parts.Button
	charts   *parts.Button
	out      *parts.Panel // says that the recipe is left out
	version  *parts.Picker
	title    *parts.Entry
	headnote *parts.Entry
	words    *fyne.Container
	notes    *printNotes
	open     *fyne.Container
	style    *printStyle
	main     *fyne.Container // the paper with what stands over it
	side     *container.Scroll
	cards    *fyne.Container
	recipe   recipes.ID
	made     *setPage // what is in sight
}

// setPage is a page set for paper, with what is open about it.
type setPage struct {
	of     book.Choice
	script *book.Manuscript
	pages  []manuscript.Page
	err    error
}

func newPrintedPage(w *Window) page { return &printedPage{w: w} }

func (p *printedPage) build() fyne.CanvasObject {
	p.recipe, p.made, p.papers = "", nil, nil // what is built anew is shown anew
	p.sheets = parts.Rows(parts.GapLarge)
	p.state = parts.NewCaption("")
	p.save = parts.NewButton(parts.Primary, "export", words.Say("printed.save"), p.savePage)
	p.charts = parts.NewButton(parts.Quiet, "chart", words.Say("printed.charts"), p.saveCharts)
	p.w.pin("printed.save", p.save)
	p.w.pin("printed.charts", p.charts)
	into := parts.NewButton(parts.Quiet, "add", words.Say("printed.into"), func() { p.choose(func(x *recipes.Print) { x.LeftOut = false }) })
	p.w.pin("printed.into", into)
	p.out = parts.NewBanner(parts.ToneLook, words.Say("printed.out"), into)
	p.scroll = parts.Scrolled(parts.Pad(2, 12, parts.GapLarge, 2, p.sheets))
	p.moved = parts.NewCaption("")
	p.moved.Hide()
	p.main = parts.Fill(parts.GapSmall, 3, parts.HeadRow(p.state, p.charts, p.save), p.out, p.moved, p.scroll)
	p.open = parts.Rows(parts.GapSmall)
	p.style = newPrintStyle(p.w)
	p.notes = newPrintNotes(p)
	p.cards = parts.Rows(parts.GapMedium,
		parts.NewCard(words.Say("printed.what"), "", p.chosen()),
		parts.NewPanel(parts.GapLarge, p.open),
		p.notes.card,
		parts.NewCard(words.Say("printed.how"), words.Say("printed.all"), p.style.view))
	p.side = parts.Scrolled(parts.Pad(0, 10, 0, 0, p.cards))
	return sideBySide(p.main, p.side)
}

// chosen is what of the recipe is printed, and the words above it.
func (p *printedPage) chosen() fyne.CanvasObject {
	p.version = parts.NewPicker(nil, "", "", func(s parts.Suggestion) {
		p.choose(func(x *recipes.Print) { x.Version = recipes.ID(s.Key) })
	})
	p.headnote = parts.NewTextArea("", words.Say("printed.headnote.hint"), 5, func(text string) {
		p.w.do(recipes.SetHeadnote(p.w.at.recipe, text))
	})
	p.headnote.OnChanged = func(string) { p.showWords() }
	p.title = parts.NewEntry("", "", func(text string) {
		p.choose(func(x *recipes.Print) { x.Title = text })
	})
	p.title.OnChanged = func(string) { p.showWords() }
	p.words = parts.Rows(parts.GapSmall)
	p.w.pin("printed.version", p.version)
	p.w.pin("printed.title", p.title)
	p.w.pin("printed.headnote", p.headnote)
	return parts.Rows(parts.GapSmall,
		parts.NewCaption(words.Say("printed.version")), p.version,
		parts.NewCaption(words.Say("printed.title")), p.title,
		parts.NewCaption(words.Say("printed.headnote")), p.headnote, p.words)
}

// printChoices are the versions of a recipe to choose from.
func printChoices(b *recipes.Book, r *recipes.Recipe) []parts.Suggestion {
	var out []parts.Suggestion
	for _, c := range sheets.PrintChoices(b, r) {
		out = append(out, parts.Suggestion{Key: c.Key, Text: c.Name})
	}
	return out
}

// choose keeps a changed choice of what is printed of the recipe.
func (p *printedPage) choose(change func(*recipes.Print)) {
	x := p.w.recipe().Print
	change(&x)
	p.w.do(recipes.SetPrint(p.w.at.recipe, x))
}

func (p *printedPage) show() {
	r := p.w.recipe()
	if p.recipe != r.ID {
		p.recipe, p.made = r.ID, nil
		p.scroll.ScrollToTop()
	}
	p.headnote.Set(r.Headnote)
	p.title.Set(book.TitleOf(r))
	p.notes.show(r)
	p.version.SetItems(printChoices(p.w.book(), r))
	p.version.SetKey(sheets.PrintChosen(p.w.book(), r))
	visible(p.out, r.Print.LeftOut)
	p.style.show(p.w.book())
	p.showWords()
	if p.made == nil {
		p.state.SetText(words.Say("printed.making"))
	}
	p.save.SetEnabled(p.made != nil && p.made.err == nil)
	p.charts.SetEnabled(p.made != nil && p.made.err == nil)
	of := book.ChoiceOf(p.w.book(), r)
	desk.Background(p.w.desk, "printed page", func(_ context.Context, b *recipes.Book) *setPage { return setOf(b, of, p.w.now()) }, p.arrived)
}

// setOf sets the page of a choice for paper.
func setOf(b *recipes.Book, of book.Choice, day time.Time) *setPage {
	out := &setPage{of: of}
	out.script, out.err = book.ManuscriptOf(b, b.Setting(book.SettingTitle), []book.Choice{of}, book.OptionsOf(b), day)
	if out.err == nil {
		out.pages, out.err = out.script.Pages[0].Sheets()
	}
	return out
}

// arrived shows a page that has been set, unless the cook is elsewhere by now.
func (p *printedPage) arrived(made *setPage) {
	r := p.w.recipe()
	if r == nil || made.of.Recipe != r.ID {
		return
	}
	p.made = made
	p.save.SetEnabled(made.err == nil)
	p.charts.SetEnabled(made.err == nil)
	if made.err != nil {
		p.state.SetText(words.Say("printed.trouble", made.err.Error()))
		return
	}
	p.state.SetText(sheets.SheetsOf(made.script.Pages[0], len(made.pages), len(made.script.Report)))
	p.showMoved(made.script.Pages[0])
	p.showSheets(made.pages)
	p.showOpen(made.script.Report)
	p.cards.Refresh()
	p.side.Refresh()
}

// showMoved says over the paper why its energy is not that of the Versions page.
func (p *printedPage) showMoved(of *book.Page) {
	said := sheets.PrintMoved(of)
	p.moved.SetText(said)
	visible(p.moved, said != "")
	p.main.Refresh()
}

// paperMost is how wide a sheet of paper is shown at the most: its letters are then
// a little larger than the window's own.
const paperMost = 880

// showSheets puts the sheets of paper below each other; those that are there
// already are painted anew in their place, so that nothing jumps.
func (p *printedPage) showSheets(pages []manuscript.Page) {
	high := float32(pages[0].Paper.Height / pages[0].Paper.Width)
	if high != p.high {
		p.high, p.papers, p.sheets.Objects = high, nil, nil
	}
	if n := len(pages); len(p.papers) > n {
		p.papers, p.sheets.Objects = p.papers[:n], p.sheets.Objects[:n]
	}
	for i := range pages {
		if i < len(p.papers) {
			p.papers[i].SetDraw(paintOf(&pages[i]))
			continue
		}
		sheet := parts.NewChartView(fyne.NewSize(200, 200), paintOf(&pages[i]))
		p.papers = append(p.papers, sheet)
		p.sheets.Add(parts.Sheet(high, paperMost*parts.Factor(p.scroll), parts.NewPanel(1, sheet)))
	}
	p.w.pin("printed.sheet", p.papers[0])
	p.sheets.Refresh()
	p.scroll.Refresh()
}

// paintOf paints a sheet at the size it has on the screen.
func paintOf(x *manuscript.Page) parts.DrawChart {
	return func(wide, _ int, _ float32, _ bool) image.Image {
		img, err := x.Image(float64(wide) / x.Paper.Width)
		if err != nil {
			return nil // the file it is saved to says so
		}
		return img
	}
}

// showWords checks the words above the recipe as they stand in the field.
func (p *printedPage) showWords() {
	p.words.Objects = nil
	for _, h := range sheets.HeadnoteOf(p.w.book(), p.w.recipe(), p.title.Text+". "+p.headnote.Text) {
		p.words.Add(headBanner(h))
	}
	p.words.Refresh()
	p.cards.Refresh()
}

// showOpen lists what is open, each with the way to its place.
func (p *printedPage) showOpen(open []book.Open) {
	p.open.Objects = []fyne.CanvasObject{parts.NewSubheading(words.Say("printed.open"))}
	if len(open) == 0 {
		p.open.Add(parts.NewMetChip(true, words.Say("printed.open.none")))
	} else {
		p.open.Add(parts.NewCaption(words.Say("printed.open.count", len(open))))
	}
	for i := range open {
		x := open[i]
		p.open.Add(openRow(p.w, &x, "", "printed.open:"+string(x.Kind)))
	}
	p.open.Refresh()
}
