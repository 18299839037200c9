package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// foodsShown is how many foods a search lists.
const foodsShown = 60

// foodsPage searches the table of foods as the cook types and shows a row
// whole: figures, measures, allergens and where it comes from.
type foodsPage struct {
	w      *Window
	search *parts.Entry
	table  *parts.Matrix
	detail *fyne.Container
	side   fyne.CanvasObject
	found  []*food.Food
	count  *parts.Text
}

func (p *foodsPage) build() fyne.CanvasObject {
	p.search = parts.NewEntry("", words.Say("foods.search"), nil)
	p.search.OnChanged = func(string) { p.find() }
	p.w.pin("foods.search", p.search)
	p.table = parts.NewMatrix()
	p.table.OnSelect = func(row, _ int) { p.pick(row) }
	p.w.pin("foods.table", p.table)
	p.count = parts.NewCaption("")
	p.detail = parts.Rows(parts.GapSmall)
	p.side = parts.NewCard("", "", parts.Scrolled(p.detail))
	main := parts.Fill(parts.GapMedium, 2, p.search, p.count, parts.NewTableCard("", "", p.table))
	return pageBody(parts.PageHead(words.Say("nav.foods"), words.Say("foods.caption")), sideBySide(main, p.side))
}

func (p *foodsPage) show() {
	p.find()
	p.w.win.Canvas().Focus(p.search)
}

// find lists what matches; with nothing typed, the workbook's own foods.
func (p *foodsPage) find() {
	table, err := p.w.desk.Foods()
	if err != nil {
		p.w.problem(err)
		return
	}
	p.found = nil
	var hits []food.Hit
	if p.search.Text == "" {
		for _, f := range p.w.book().Foods() {
			hits = append(hits, food.Hit{Food: f})
		}
	} else {
		hits = table.Search(p.search.Text, foodsShown)
	}
	for _, h := range hits {
		p.found = append(p.found, h.Food)
	}
	d := matrixOf(sheets.Foods(hits))
	d.Empty = words.Say("foods.none")
	p.table.SetData(d)
	p.count.SetText(sheets.FoodCount(len(hits), table.Len(), p.search.Text != ""))
	if len(p.found) > 0 {
		p.showFood(p.found[0])
	}
	visible(p.side, len(p.found) > 0)
}

func (p *foodsPage) pick(row int) {
	if row >= 0 && row < len(p.found) {
		p.showFood(p.found[row])
	}
}

// showFood fills the column at the right with everything about one food.
func (p *foodsPage) showFood(f *food.Food) {
	p.detail.Objects = nil
	p.detail.Add(parts.NewSubheading(f.Name))
	for _, block := range sheets.FoodDetail(f) {
		p.detail.Add(parts.NewSection(block.Title))
		for _, line := range block.Lines {
			p.detail.Add(parts.NewText(line))
		}
	}
	p.detail.Refresh()
}
