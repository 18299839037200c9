package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"parewell/analysis/meals"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// buildList makes the list of days and meals.
func (p *mealsPage) buildList() {
	m := parts.NewMatrix()
	m.WholeRow, m.Stretch = true, true
	m.OnSelect = func(row, _ int) { p.choose(p.listed(row)) }
	m.OnActivate = func(int, int) { p.rename() }
	m.OnDelete = func(row, _ int) { p.remove(p.listed(row)) }
	m.OnMenu = p.listMenu
	m.SetData(matrixOf(sheets.MealList(p.w.book(), meals.In(p.w.book())))) // a list that stretches needs its columns from the start
	p.list = m
	p.w.pin("meals.list", m)
}

// listed is the meal of a row, "" for a heading.
func (p *mealsPage) listed(row int) recipes.ID {
	if row < 0 || row >= len(p.ids) {
		return ""
	}
	return p.ids[row]
}

// showList fills the list; the first meal is chosen when the chosen one has
// gone.
func (p *mealsPage) showList() {
	s := sheets.MealList(p.book, p.all)
	was := slices.Index(p.ids, p.at)
	p.ids = keysOf(s)
	if !slices.Contains(p.ids, p.at) || p.at == "" {
		p.at = p.nearest(was)
	}
	d := matrixOf(s)
	d.Columns[0].Min, d.Columns[0].Max = 90, 110 // it takes what is spare
	dressChanges(&d, 1, func(int) food.Nutrient { return food.EnergyKcal })
	p.list.SetData(d)
	p.list.SelectKey(string(p.at))
}

// nearest is the meal at a row of the list, or the last above it, or the first
// there is.
func (p *mealsPage) nearest(row int) recipes.ID {
	for r := min(row, len(p.ids)-1); r >= 0; r-- {
		if p.ids[r] != "" {
			return p.ids[r]
		}
	}
	for _, id := range p.ids {
		if id != "" {
			return id
		}
	}
	return ""
}

// newMeal adds a meal or day with a name to be typed over.
func (p *mealsPage) newMeal(day bool) {
	id, add := p.w.newID(), recipes.AddMeal
	if day {
		add = recipes.AddDay
	}
	p.w.do(add(id, sheets.NewMealName(p.w.book(), day)), func(ok bool) {
		if ok && p.w.book().Meal(id) != nil && p.w.at.page == pageMeals {
			p.at = id
			p.show()
			p.rename()
		}
	})
}

// rename gives the name of the chosen meal the keyboard, to be typed over.
func (p *mealsPage) rename() {
	p.w.win.Canvas().Focus(p.name)
	p.name.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// named takes a new name; an emptied one brings the old one back.
func (p *mealsPage) named(text string) {
	if strings.TrimSpace(text) == "" {
		p.name.Set(p.plate().Meal.Name)
		return
	}
	p.w.do(recipes.RenameMeal(p.at, text))
}

// remove takes a meal out; undo brings it back, so nothing is asked.
func (p *mealsPage) remove(id recipes.ID) {
	if id != "" {
		p.w.do(recipes.RemoveMeal(id))
	}
}

// listMenu is the context menu of a meal in the list.
func (p *mealsPage) listMenu(row, _ int, at fyne.Position) {
	id := p.listed(row)
	if id == "" {
		return
	}
	p.list.Select(row, 0)
	parts.ShowMenu(p.list, at,
		parts.MenuItem{Icon: "note", Label: words.Say("meals.rename"), Do: p.rename},
		parts.MenuItem{Icon: "up", Label: words.Say("meals.earlier"), Do: func() { p.w.do(recipes.MoveMeal(id, false)) }},
		parts.MenuItem{Icon: "down", Label: words.Say("meals.later"), Do: func() { p.w.do(recipes.MoveMeal(id, true)) }},
		parts.MenuItem{},
		parts.MenuItem{Icon: "delete", Label: words.Say("meals.remove"), Do: func() { p.remove(id) }})
}
