package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/analysis/meals"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// mealsPage lists meals and days at the left; of the chosen one it shows the
// dishes with their versions and servings, what all of it holds before and
// after, and for a day how that stands against a target.
type mealsPage struct {
	w    *Window
	book *recipes.Book // the table is of
	all  *meals.Table
	at   recipes.ID // the meal chosen, "" for none
	of   food.Nutrient

	shown recipes.ID // the meal the page showed last

	list    *parts.Matrix
	ids     []recipes.ID // by row of the list, "" for headings
	dishes  *parts.Matrix
	sheet   sheets.MealSheet
	numbers *parts.Matrix
	more    *parts.Check
	add     *parts.Entry
	name    *parts.Entry
	caption *parts.Text
	target  *targetLine
	stack   *fyne.Container
	empty   fyne.CanvasObject
	lonely  fyne.CanvasObject // there are no recipes to make meals of
	full    fyne.CanvasObject
	detail  *fyne.Container
	layout  *mealLayout
}

func newMealsPage(w *Window) page { return &mealsPage{w: w} }

func (p *mealsPage) build() fyne.CanvasObject {
	day := p.w.pin("meals.new-day", parts.NewButton(parts.Quiet, "add", words.Say("meals.new-day"), func() { p.newMeal(true) }))
	meal := p.w.pin("meals.new-meal", parts.NewButton(parts.Primary, "add", words.Say("meals.new-meal"), func() { p.newMeal(false) }))
	p.buildList()
	p.buildDishes()
	p.buildNumbers()
	p.empty = parts.NewPanel(parts.GapMedium, parts.NewEmptyState(parts.ArtPlate, words.Say("meals.empty"), words.Say("meals.empty.sentence"),
		p.w.pin("meals.empty.add", parts.NewButton(parts.Quiet, "add", words.Say("meals.new-meal"), func() { p.newMeal(false) }))))
	p.lonely = parts.NewPanel(parts.GapMedium, parts.NewEmptyState(parts.ArtPot, words.Say("meals.empty"), words.Say("meals.empty.recipes"),
		p.w.pin("meals.empty.paste", parts.NewButton(parts.Quiet, "add", words.Say("recipes.paste"), func() { p.w.goTo(place{page: pagePaste}) }))))
	p.full = container.New(mealsLayout{p.w}, parts.NewTableCard("", "", p.list), p.buildDetail())
	p.stack = stackOf(p.full, p.empty, p.lonely)
	return pageBody(parts.PageHead(words.Say("nav.meals"), words.Say("meals.caption"), day, meal), p.stack)
}

// buildDetail lays out everything about the chosen meal.
func (p *mealsPage) buildDetail() fyne.CanvasObject {
	p.name, p.caption = parts.NewEntry("", words.Say("meals.name.hint"), p.named), parts.NewCaption("")
	p.name.OnSubmitted = func(string) { p.w.win.Canvas().Focus(p.add) }
	p.w.pin("meals.name", p.name)
	remove := p.w.pin("meals.remove", parts.NewButton(parts.Plain, "delete", words.Say("meals.remove"), func() { p.remove(p.at) }))
	p.target = newTargetLine(p)
	head := container.New(headLayout{p.w}, p.name, p.caption, p.target.set, remove)
	p.add = parts.NewSuggestEntry("", "", p.suggest, p.pick)
	p.add.OnSubmitted = p.submit
	p.w.pin("meals.add", p.add)
	tools := parts.Stretch(parts.GapMedium, 0, parts.Pad(4, 0, 0, 0, parts.NewCaption(words.Say("meals.numbers.hint"))), p.more)
	p.layout = &mealLayout{p: p}
	p.detail = container.New(p.layout, head, p.target.view,
		parts.NewTableCard("", "", p.dishes), p.add, tools, parts.NewTableCard("", "", p.numbers))
	scroll := parts.Scrolled(parts.PadAll(mealEdge, p.detail))
	p.dishes.Outer, p.numbers.Outer = scroll, scroll
	return scroll
}

// show brings the page in line with the Book. Nothing is reckoned again while
// the Book is the same.
func (p *mealsPage) show() {
	if p.book != p.w.book() {
		p.book, p.all = p.w.book(), meals.In(p.w.book())
	}
	some, cooks := len(p.book.Meals()) > 0, len(p.book.Recipes()) > 0
	visible(p.full, some)
	visible(p.empty, !some && cooks)
	visible(p.lonely, !some && !cooks)
	if !some {
		p.at = ""
		return
	}
	p.showList()
	p.showMeal()
}

// plate is the meal chosen, nil for none.
func (p *mealsPage) plate() *meals.Plate {
	if p.all == nil {
		return nil // built, not shown yet
	}
	return p.all.Of(p.at)
}

// choose shows another meal or day.
func (p *mealsPage) choose(id recipes.ID) {
	if id != "" && id != p.at {
		p.at = id
		p.showMeal()
	}
}

// showMeal shows what the chosen meal is made of and what it holds.
func (p *mealsPage) showMeal() {
	plate := p.plate()
	if p.shown != p.at { // what was typed was meant for another meal
		p.shown = p.at
		if p.add.Text != "" {
			p.add.SetText("") // even while it has the keyboard
		}
	}
	p.name.Set(plate.Meal.Name)
	p.caption.SetText(sheets.MealCaption(p.book, plate))
	hint := "meals.add-dish"
	if plate.Meal.Day {
		hint = "meals.add-to-day"
	}
	p.add.SetPlaceHolder(words.Say(hint))
	p.target.show(plate)
	p.showDishes()
	p.showNumbers()
	p.detail.Refresh()
}

// showNumbers shows every nutrient before and after.
func (p *mealsPage) showNumbers() {
	plate := p.plate()
	d := matrixOf(sheets.UnitsOf(p.w.book()).MealNumbers(plate, p.more.On(), p.target.offer()))
	d.Empty = words.Say("meals.nothing-held")
	if len(plate.Dishes)+len(plate.Meals) == 0 {
		d.Rows = nil
	}
	dressChanges(&d, 2, func(r int) food.Nutrient { return nutrientOf(d.Rows[r].Key) })
	p.numbers.SetData(d)
	if row, _ := p.numbers.Selected(); row < 0 && len(d.Rows) > 0 {
		p.numbers.SelectKey(p.of.Key())
	}
}

func (p *mealsPage) buildNumbers() {
	p.more = parts.NewCheck(words.Say("meals.all-nutrients"), false, func(bool) {
		p.showNumbers()
		p.detail.Refresh() // as tall as its rows
	})
	p.w.pin("meals.all-nutrients", p.more)
	p.numbers = parts.NewMatrix()
	p.numbers.OnSelect = func(row, _ int) {
		if rows := p.numbers.Data().Rows; row >= 0 && row < len(rows) && nutrientOf(rows[row].Key) != p.of {
			p.of = nutrientOf(rows[row].Key)
			p.showDishes()
		}
	}
	p.w.pin("meals.numbers", p.numbers)
}

// dressChanges lines the figures of a column with changes up at its left, and
// leaves bar and colour to nutrients that are better lighter.
func dressChanges(d *parts.MatrixData, col int, of func(row int) food.Nutrient) {
	for r := range d.Rows {
		row := &d.Rows[r]
		if col < len(row.Cells) && row.Cells[col].Sub != "" {
			d.Columns[col].Align = parts.AlignStart
		}
		if inner[row.Key] {
			row.Cells[0].Indent = 1
		}
		if col < len(row.Cells) && row.Kind != parts.RowSection && !lighterIsBetter[of(r).Key()] {
			row.Cells[col].Bar, row.Cells[col].Trend = 0, parts.TrendNone
		}
	}
}
