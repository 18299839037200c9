package ui

import (
	"context"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// bookPage is the whole book: its recipes in order, what they were and are, the
// index, and what does not hold together.
type bookPage struct {
	w        *Window
	view     *parts.Segmented
	list     *parts.Matrix // of the recipes
	other    *parts.Matrix // before and after, index or report
	listCard fyne.CanvasObject
	card     fyne.CanvasObject
	hint     *parts.Text // how to go to an open point
	up, down *parts.Button
	title    *parts.Entry
	state    *parts.Text
	save     *parts.Button
	pages    *parts.Button
	style    *printStyle
	cards    *fyne.Container
	side     *container.Scroll
	ids      []recipes.ID // by row of the list
	made     *book.Manuscript
}

// What the book's page shows.
const (
	bookRecipes   = "recipes"
	bookNutrition = "nutrition"
	bookIndex     = "index"
	bookReport    = "report"
)

func newBookPage(w *Window) page { return &bookPage{w: w} }

func (p *bookPage) build() fyne.CanvasObject {
	p.save = parts.NewButton(parts.Primary, "export", words.Say("bookpage.save"), p.saveBook)
	p.pages = parts.NewButton(parts.Quiet, "print", words.Say("bookpage.pages"), p.savePages)
	p.view = parts.NewSegmented([]parts.Suggestion{
		{Key: bookRecipes, Text: words.Say("bookpage.view.recipes")},
		{Key: bookNutrition, Text: words.Say("bookpage.view.nutrition")},
		{Key: bookIndex, Text: words.Say("bookpage.view.index")},
		{Key: bookReport, Text: words.Say("bookpage.view.report")},
	}, bookRecipes, func(string) { p.fill() })
	p.list = parts.NewMatrix()
	p.list.Stretch = true
	p.list.OnToggle = func(row, _ int) { p.toggle(row) }
	p.list.OnActivate = p.act
	p.list.OnEdit = func(row, _ int, text string) { p.chooseNamed(row, text) }
	p.list.OnPick = func(row, _ int, s parts.Suggestion) { p.choose(row, s.Key) }
	p.list.Suggest = func(row, _ int, _ string) []parts.Suggestion { return p.versions(row) }
	p.list.OnShift = func(_, by int) { p.move(by) }
	p.other = parts.NewMatrix()
	p.other.WholeRow, p.other.Stretch = true, true
	p.other.OnActivate = func(row, _ int) { p.open(row) }
	p.up = parts.NewButton(parts.Plain, "up", words.Say("bookpage.up"), func() { p.move(-1) })
	p.down = parts.NewButton(parts.Plain, "down", words.Say("bookpage.down"), func() { p.move(1) })
	for name, o := range map[string]fyne.CanvasObject{
		"book.save": p.save, "book.pages": p.pages, "book.view": p.view, "book.list": p.list, "book.other": p.other, "book.up": p.up, "book.down": p.down,
	} {
		p.w.pin(name, o)
	}
	p.listCard = parts.Fill(parts.GapSmall, 0, parts.NewTableCard("", "", p.list), parts.NewCaption(words.Say("bookpage.hint")))
	p.hint = parts.NewCaption(words.Say("bookpage.report.hint"))
	p.card = parts.Fill(parts.GapSmall, 0, parts.NewTableCard("", "", p.other), p.hint)
	top := parts.Flow(parts.GapSmall, p.view, p.up, p.down)
	body := parts.Fill(parts.GapSmall, 1, top, sideBySide(stackOf(p.listCard, p.card), p.rightSide())) // the views need all the width in large text
	return pageBody(parts.PageHead(words.Say("nav.book"), words.Say("bookpage.caption"), p.pages, p.save), body)
}

// rightSide is the title of the book and how it is printed.
func (p *bookPage) rightSide() fyne.CanvasObject {
	p.title = parts.NewEntry("", words.Say("bookpage.title.hint"), func(text string) {
		p.w.do(recipes.Set(book.SettingTitle, strings.TrimSpace(text)))
	})
	p.w.pin("book.title", p.title)
	p.state = parts.NewCaption("")
	p.style = newPrintStyle(p.w)
	p.cards = parts.Rows(parts.GapMedium,
		parts.NewCard(words.Say("bookpage.the-book"), "", parts.Rows(parts.GapSmall, parts.NewCaption(words.Say("bookpage.title")), p.title, p.state)),
		parts.NewCard(words.Say("printed.how"), words.Say("printed.all"), p.style.view))
	p.side = parts.Scrolled(parts.Pad(0, 10, 0, 0, p.cards))
	return p.side
}

func (p *bookPage) show() {
	b := p.w.book()
	p.title.Set(b.Setting(book.SettingTitle))
	p.style.show(b)
	p.fill()
	day := p.w.now()
	name := p.bookTitle()
	desk.Background(p.w.desk, "book", func(_ context.Context, b *recipes.Book) bookMade {
		chosen := book.Chosen(b)
		if len(chosen) == 0 {
			return bookMade{}
		}
		m, err := book.ManuscriptOf(b, name, chosen, book.OptionsOf(b), day)
		return bookMade{m, err}
	}, p.arrived)
}

// bookMade is a book put together, nil when no recipe is in it.
type bookMade struct {
	script *book.Manuscript
	err    error
}

func (p *bookPage) arrived(x bookMade) {
	p.made = x.script
	if x.err != nil {
		p.state.SetText(words.Say("bookpage.trouble", x.err.Error()))
	}
	p.fill()
}

// bookTitle is the cook's, else the workbook's name.
func (p *bookPage) bookTitle() string {
	if t := p.w.book().Setting(book.SettingTitle); t != "" {
		return t
	}
	return strings.TrimSuffix(filepath.Base(p.w.view.Path), filepath.Ext(p.w.view.Path))
}

// fill puts what is chosen into the tables.
func (p *bookPage) fill() {
	key := p.view.Key()
	visible(p.listCard, key == bookRecipes)
	visible(p.card, key != bookRecipes)
	visible(p.hint, key == bookReport && p.made != nil && len(p.made.Report) > 0)
	visible(p.up, key == bookRecipes)
	visible(p.down, key == bookRecipes)
	p.save.SetEnabled(p.made != nil)
	p.pages.SetEnabled(p.made != nil)
	s := sheets.BookRecipes(p.w.book(), p.made)
	p.ids = nil
	for _, r := range s.Rows {
		p.ids = append(p.ids, recipes.ID(r.Key))
	}
	d := matrixOf(s)
	d.Columns[1+sheets.BookIn].Align, d.Columns[1+sheets.BookIn].Text = parts.AlignCentre, false
	d.Empty = words.Say("bookpage.empty.sentence")
	p.list.SetData(d)
	p.state.SetText(words.Say("bookpage.empty"))
	if p.made != nil {
		p.state.SetText(words.Say("bookpage.count", len(p.made.Pages), len(p.made.Report)))
	}
	p.fillOther(key)
}

func (p *bookPage) fillOther(key string) {
	if p.made == nil {
		p.other.SetData(parts.MatrixData{Columns: []parts.Column{{Key: "label", Text: true}}, Empty: words.Say("bookpage.empty.sentence")})
		return
	}
	switch key {
	case bookNutrition:
		p.other.SetData(matrixOf(sheets.BookNutrition(p.made)))
	case bookIndex:
		p.other.SetData(matrixOf(sheets.BookIndex(p.made)))
	case bookReport:
		d := matrixOf(sheets.BookReport(p.made))
		d.Columns[0].Max, d.Columns[1].Text, d.Columns[1].Max = 1000, false, 200
		d.Empty = words.Say("printed.open.none")
		p.other.SetData(d)
	}
}

// open goes to the place of a row of the report.
func (p *bookPage) open(row int) {
	if p.view.Key() == bookReport && p.made != nil && row >= 0 && row < len(p.made.Report) {
		p.w.showOpenPoint(&p.made.Report[row])
	}
}

func (p *bookPage) at(row int) *recipes.Recipe {
	if row < 0 || row >= len(p.ids) {
		return nil
	}
	return p.w.book().Recipe(p.ids[row])
}

// act opens a recipe's printed page.
func (p *bookPage) act(row, col int) {
	if r := p.at(row); r != nil && col == 0 {
		p.w.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabPrinted})
	}
}

func (p *bookPage) toggle(row int) {
	if r := p.at(row); r != nil {
		x := r.Print
		x.LeftOut = !x.LeftOut
		p.w.do(recipes.SetPrint(r.ID, x))
	}
}

func (p *bookPage) versions(row int) []parts.Suggestion {
	if r := p.at(row); r != nil {
		return printChoices(p.w.book(), r)
	}
	return nil
}

func (p *bookPage) choose(row int, key string) {
	if r := p.at(row); r != nil {
		x := r.Print
		x.Version = recipes.ID(key)
		p.w.do(recipes.SetPrint(r.ID, x))
	}
}

// chooseNamed takes a version by its typed letter or name.
func (p *bookPage) chooseNamed(row int, text string) {
	r := p.at(row)
	if r == nil {
		return
	}
	if key, ok := sheets.PrintNamed(p.w.book(), r, text); ok {
		p.choose(row, key)
		return
	}
	p.w.problem(sheets.Wrongly("bookpage.version.wrong", text))
}

// move puts the recipe in the marked row one place up or down.
func (p *bookPage) move(by int) {
	row, _ := p.list.Selected()
	to := row + by
	if p.at(row) == nil || p.at(to) == nil {
		return
	}
	before := recipes.ID("")
	if by < 0 {
		before = p.ids[to]
	} else if to+1 < len(p.ids) {
		before = p.ids[to+1]
	}
	p.w.do(recipes.MoveRecipe(p.ids[row], before))
}

// saveBook asks where the whole book goes and in which forms.
func (p *bookPage) saveBook() {
	if p.made == nil {
		return
	}
	files := exportFiles(p.made.BookFiles())
	p.w.saveForms(words.Say("bookpage.save.title"), []string{"docx", "pdf", "html", "md", "csv"}, files, nil, func(name string) bool {
		return slices.ContainsFunc(files, func(f desk.ExportFile) bool { return f.Name == name })
	})
}

// savePages asks which recipes' pages and figures are saved and how.
func (p *bookPage) savePages() {
	if p.made == nil {
		return
	}
	made, w := p.made, p.w
	of := figureChoice{title: words.Say("bookpage.save.pages.title"), list: words.Say("figures.recipes"), marked: -1, alone: words.Say("figures.alone")}
	for _, page := range made.Pages {
		of.names = append(of.names, page.FileName())
	}
	of.make = func(b *recipes.Book, wide float64, o book.FigureOptions, chosen []int) ([]book.File, error) {
		some := *made
		some.Pages = pagesOf(made, chosen)
		return some.RecipeFiles(b, wide, o)
	}
	of.apart = func(language string, chosen []int) [][]string {
		if chosen == nil {
			return [][]string{w.printArgs(language, nil)}
		}
		var out [][]string
		for _, page := range pagesOf(made, chosen) {
			out = append(out, w.printArgs(language, page))
		}
		return out
	}
	w.saveFigures(of)
}

// pagesOf are some pages of a book, all of them with nil.
func pagesOf(m *book.Manuscript, chosen []int) []*book.Page {
	if chosen == nil {
		return m.Pages
	}
	var out []*book.Page
	for _, n := range chosen {
		out = append(out, m.Pages[n])
	}
	return out
}
