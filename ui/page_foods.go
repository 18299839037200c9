package ui

import (
	"context"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// foodsShown is how many foods a search lists.
const foodsShown = 60

// foodsPage searches the foods at hand as the cook types and shows a row whole:
// figures, measures, allergens, where it comes from and which recipes use it.
type foodsPage struct {
	w      *Window
	search *parts.Entry
	count  *parts.Text
	table  *parts.Matrix
	detail *foodDetail
	stack  *fyne.Container
	list   fyne.CanvasObject
	empty  fyne.CanvasObject
	view   *foodsView

	foods *food.Table             // nil until read
	rows  []food.Ref              // by row of the table; zero for a heading
	found map[food.Ref]*food.Food // what the rows stand for
	at    food.Ref                // the row chosen
}

func (p *foodsPage) build() fyne.CanvasObject {
	tables := p.w.pin("foods.tables", parts.NewButton(parts.Quiet, "import", words.Say("foods.tables"), p.w.showTables))
	own := p.w.pin("foods.new", parts.NewButton(parts.Primary, "add", words.Say("foods.new"), p.newFood))
	p.search = parts.NewEntry("", words.Say("foods.search"), nil)
	p.search.OnChanged = func(string) { p.find() }
	p.search.OnSubmitted = func(string) { p.w.win.Canvas().Focus(p.table) }
	p.w.pin("foods.search", p.search)
	p.count = parts.NewCaption("")
	p.buildTable()
	p.detail = newFoodDetail(p)
	p.empty = parts.NewEmptyState(parts.ArtJar, words.Say("foods.empty"), words.Say("foods.empty.sentence"))
	p.list = parts.NewTableCard("", "", p.table)
	p.stack = stackOf(p.list, p.empty)
	p.view = newFoodsView(p.w, p.stack, p.detail.view)
	p.table.Outer = p.view.scroll
	head := parts.PageHead(words.Say("nav.foods"), words.Say("foods.caption"), tables, own)
	return pageBody(head, parts.Fill(parts.GapSmall, 2, p.search, p.count, p.view.box))
}

func (p *foodsPage) buildTable() {
	p.table = parts.NewMatrix()
	p.table.WholeRow, p.table.Stretch = true, true
	p.table.OnSelect = func(row, _ int) { p.choose(p.refAt(row)) }
	p.table.OnActivate = func(row, _ int) { p.activate(p.refAt(row)) }
	p.table.OnDelete = func(row, _ int) { p.remove(p.refAt(row)) }
	p.table.OnMenu = func(row, _ int, at fyne.Position) { p.menu(p.refAt(row), at) }
	p.table.SetData(matrixOf(sheets.UnitsOf(p.w.book()).Foods(nil)))
	p.w.pin("foods.table", p.table)
}

// show lists the foods: those known so far at once, all of them when they are
// read.
func (p *foodsPage) show() {
	if p.foods != nil {
		p.find()
	}
	p.w.withFoods(func(t *food.Table) {
		if t != p.foods {
			p.foods = t
			p.find()
		}
	})
}

// withFoods hands over the foods at hand. They are read off the window's thread:
// the first time after an import that takes a while.
func (w *Window) withFoods(then func(*food.Table)) {
	type read struct {
		table *food.Table
		err   error
	}
	desk.Background(w.desk, "foods at hand", func(context.Context, *recipes.Book) read {
		t, err := w.desk.Foods()
		return read{t, err}
	}, func(r read) {
		if r.err != nil {
			w.problem(r.err)
			return
		}
		then(r.table)
	})
}

// find lists what matches; with nothing typed, the foods the workbook holds.
func (p *foodsPage) find() {
	if p.foods == nil {
		return
	}
	var s sheets.Sheet
	p.found = map[food.Ref]*food.Food{}
	searched := p.search.Text != ""
	if searched {
		hits := p.foods.Search(p.search.Text, foodsShown)
		for _, h := range hits {
			p.found[h.Food.Ref] = h.Food
		}
		s = sheets.UnitsOf(p.w.book()).Foods(hits)
	} else {
		for _, f := range p.w.book().Foods() {
			p.found[f.Ref] = f
		}
		s = sheets.HeldFoods(p.w.book())
	}
	p.fill(s)
	p.count.SetText(sheets.FoodCount(len(p.found), p.foods.Len(), searched))
	nothing := len(p.found) == 0 && !searched
	visible(p.list, !nothing)
	visible(p.empty, nothing)
	p.choose(p.at)
}

func (p *foodsPage) fill(s sheets.Sheet) {
	p.rows = make([]food.Ref, len(s.Rows))
	for i, r := range s.Rows {
		if ref, ok := food.ParseRef(r.Key); ok && !r.Band {
			p.rows[i] = ref
		}
	}
	if p.found[p.at] == nil {
		p.at = food.Ref{}
		for _, ref := range p.rows {
			if !ref.Zero() {
				p.at = ref
				break
			}
		}
	}
	d := matrixOf(s)
	d.Columns[0].Min, d.Columns[0].Max, d.Columns[1].Max = 130, 145, 110
	d.Empty = words.Say("foods.none")
	p.table.SetData(d)
	p.table.SelectKey(p.at.String())
}

func (p *foodsPage) refAt(row int) food.Ref {
	if row < 0 || row >= len(p.rows) {
		return food.Ref{}
	}
	return p.rows[row]
}

// choose shows a food in the column at the right.
func (p *foodsPage) choose(ref food.Ref) {
	f := p.found[ref]
	if f == nil && len(p.found) > 0 {
		return // a heading
	}
	p.at = ref
	p.detail.show(f)
	if shown := f != nil; shown != p.detail.view.Visible() {
		visible(p.detail.view, shown)
		p.view.box.Refresh()
	}
}
