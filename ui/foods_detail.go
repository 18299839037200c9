package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// foodDetail is everything about one food, with what can be done with it.
type foodDetail struct {
	p         *foodsPage
	name      *parts.Text
	source    *parts.Text
	doubts    *fyne.Container
	edit      *parts.Button
	removes   *parts.Button
	start     *parts.Button
	relink    *parts.Button
	usedHead  fyne.CanvasObject
	used      *parts.Matrix
	usedCard  fyne.CanvasObject
	unused    *parts.Text
	figures   *parts.Matrix
	kitchen   *parts.Text
	kitchens  fyne.CanvasObject
	allergens *parts.Text
	price     *priceFields
	rows      *fyne.Container
	view      *fyne.Container
	uses      []sheets.FoodUse
}

func newFoodDetail(p *foodsPage) *foodDetail {
	d := &foodDetail{p: p, name: parts.NewSubheading(""), source: parts.NewCaption(""), doubts: parts.Rows(parts.GapSmall)}
	button := func(name, icon, key string, kind parts.ButtonKind, press func()) *parts.Button {
		b := parts.NewButton(kind, icon, words.Say(key), press)
		p.w.pin("foods."+name, b)
		return b
	}
	d.edit = button("edit", "edit", "foods.edit", parts.Quiet, func() { p.editFood(p.at) })
	d.removes = button("remove", "delete", "foods.remove", parts.Plain, func() { p.remove(p.at) })
	d.start = button("start", "copy", "foods.start", parts.Quiet, func() { p.startFrom(p.at) })
	d.relink = button("relink", "swaps", "foods.relink", parts.Quiet, func() { p.relink(p.at) })
	d.buildTables()
	d.kitchen, d.allergens = parts.NewText(""), parts.NewText("")
	d.kitchens = parts.Rows(6, parts.NewSection(words.Say("foods.measures")), d.kitchen)
	d.unused = parts.NewCaption(words.Say("foods.unused"))
	d.usedHead = parts.NewSection(words.Say("foods.used"))
	d.usedCard = parts.NewTableCard("", "", d.used)
	d.price = newPriceFields(p.w, food.Ref{})
	d.rows = parts.Rows(parts.GapMedium,
		parts.Rows(3, d.name, d.source), parts.Flow(parts.GapSmall, d.edit, d.start, d.relink, d.removes), d.doubts,
		parts.Rows(6, d.usedHead, d.unused, d.usedCard), d.price.view,
		parts.NewTableCard("", "", d.figures), d.kitchens,
		parts.Rows(6, parts.NewSection(words.Say("foods.allergens")), d.allergens))
	scroll := parts.Scrolled(parts.PadAll(parts.GapLarge, d.rows))
	d.used.Outer, d.figures.Outer = scroll, scroll
	d.view = parts.PadAll(0, parts.NewPanel(1, scroll))
	return d
}

func (d *foodDetail) buildTables() {
	d.used = parts.NewMatrix()
	d.used.Headless, d.used.WholeRow, d.used.Stretch, d.used.Whole = true, true, true, true
	d.used.OnActivate = func(row, _ int) { d.open(row) }
	d.used.OnMenu = func(row, _ int, at fyne.Position) {
		parts.ShowMenu(d.used, at, parts.MenuItem{Icon: "open", Label: words.Say("foods.open-use"), Do: func() { d.open(row) }})
	}
	d.used.SetData(matrixOf(sheets.UsesSheet(nil)))
	d.figures = parts.NewMatrix()
	d.figures.WholeRow, d.figures.Stretch, d.figures.Whole = true, true, true
	d.figures.SetData(matrixOf(sheets.UnitsOf(d.p.w.book()).FoodFigures(&food.Food{})))
	d.p.w.pin("foods.used", d.used)
	d.p.w.pin("foods.figures", d.figures)
}

// show fills the column with a food, nil for none.
func (d *foodDetail) show(f *food.Food) {
	if f == nil {
		return
	}
	book := d.p.w.book()
	d.name.SetText(f.Name)
	d.source.SetText(sheets.FoodSource(f))
	d.uses = sheets.FoodUses(book, f.Ref)
	own := sheets.Own(f)
	visible(d.edit, own)
	visible(d.removes, own)
	visible(d.relink, len(d.uses) > 0)
	d.showDoubts(f, own)
	used := matrixOf(sheets.UsesSheet(d.uses))
	used.Columns[0].Min, used.Columns[0].Max, used.Columns[1].Max = 110, 130, 140
	d.used.SetData(used)
	visible(d.usedCard, len(d.uses) > 0)
	visible(d.unused, len(d.uses) == 0)
	figures := matrixOf(sheets.UnitsOf(d.p.w.book()).FoodFigures(f))
	figures.Columns[0].Min = 130
	d.figures.SetData(figures)
	visible(d.price.view, book.Food(f.Ref) != nil) // a price is of a food the workbook holds
	d.price.show(f.Ref)
	said := sheets.FoodMeasures(f)
	d.kitchen.SetText(sheets.Lines(said))
	visible(d.kitchens, len(said) > 0)
	d.allergens.SetText(sheets.AllergenText(f.Allergens))
	d.rows.Refresh()
	d.view.Refresh()
}

// showDoubts says what does not fit in the figures of an own food.
func (d *foodDetail) showDoubts(f *food.Food, own bool) {
	d.doubts.Objects = nil
	if own && sheets.Impossible(f) {
		d.doubts.Add(parts.NewBanner(parts.ToneError, words.Say("fault.impossible")))
	}
	if own {
		for _, s := range sheets.FoodDoubts(f) {
			d.doubts.Add(parts.NewBanner(parts.ToneLook, s))
		}
	}
	visible(d.doubts, len(d.doubts.Objects) > 0)
}

// open shows the recipe of a row of the list of uses: where the ingredient
// stands.
func (d *foodDetail) open(row int) {
	if row < 0 || row >= len(d.uses) {
		return
	}
	u := d.uses[row]
	to := place{page: pageRecipe, recipe: u.Recipe.ID, tab: tabOriginal}
	if u.Swap != nil {
		to.tab = tabSwaps
	}
	d.p.w.goTo(to)
}

// activate opens what Enter on a row leads to.
func (p *foodsPage) activate(ref food.Ref) {
	if f := p.found[ref]; f != nil && sheets.Own(f) {
		p.editFood(ref)
		return
	}
	p.startFrom(ref)
}

// menu offers what can be done with a food.
func (p *foodsPage) menu(ref food.Ref, at fyne.Position) {
	f := p.found[ref]
	if f == nil {
		return
	}
	var items []parts.MenuItem
	if sheets.Own(f) {
		items = append(items, parts.MenuItem{Icon: "edit", Label: words.Say("foods.edit"), Do: func() { p.editFood(ref) }})
	}
	items = append(items, parts.MenuItem{Icon: "copy", Label: words.Say("foods.start"), Do: func() { p.startFrom(ref) }})
	if len(sheets.FoodUses(p.w.book(), ref)) > 0 {
		items = append(items, parts.MenuItem{Icon: "swaps", Label: words.Say("foods.relink"), Do: func() { p.relink(ref) }})
	}
	if sheets.Own(f) {
		items = append(items, parts.MenuItem{}, parts.MenuItem{Icon: "delete", Label: words.Say("foods.remove"), Do: func() { p.remove(ref) }})
	}
	parts.ShowMenu(p.table, at, items...)
}

// newFood asks for an own food from nothing.
func (p *foodsPage) newFood() {
	p.w.foodForm(&food.Food{Ref: p.newRef()}, true, p.arrive)
}

func (p *foodsPage) newRef() food.Ref {
	return food.Ref{Source: sheets.OwnSource, Code: string(p.w.newID())}
}

// startFrom asks for an own food that has another's figures at first.
func (p *foodsPage) startFrom(ref food.Ref) {
	if f := p.found[ref]; f != nil {
		p.w.foodForm(sheets.StartOf(f, p.newRef()), true, p.arrive)
	}
}

func (p *foodsPage) editFood(ref food.Ref) {
	if f := p.w.book().Food(ref); f != nil && sheets.Own(f) {
		p.w.foodForm(f, false, p.arrive)
	}
}

func (p *foodsPage) relink(ref food.Ref) {
	if uses := sheets.FoodUses(p.w.book(), ref); len(uses) > 0 {
		p.w.relinkFood(uses, "")
	}
}

// arrive shows a food that was just saved.
func (p *foodsPage) arrive(ref food.Ref) {
	p.at = ref
	if p.search.Text != "" {
		p.search.Set("")
	}
	p.find()
	p.w.win.Canvas().Focus(p.table)
}

// remove takes an own food out, unless something uses it; undo brings it back.
func (p *foodsPage) remove(ref food.Ref) {
	f := p.w.book().Food(ref)
	if f == nil || !sheets.Own(f) {
		return
	}
	if uses := sheets.FoodUses(p.w.book(), ref); len(uses) > 0 {
		parts.ShowProblem(p.w.win, words.Say("foods.in-use", f.Name), "",
			words.Say("foods.in-use.hint", words.Join(sheets.UserTitles(uses))), words.Say("button.close"))
		return
	}
	p.w.do(recipes.RemoveFood(ref))
}
