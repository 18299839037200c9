package ui

import (
	"strings"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// buildDishes makes the table of what a meal or day is made of.
func (p *mealsPage) buildDishes() {
	m := parts.NewMatrix()
	m.OnEdit = p.typed
	m.OnPick = func(row, col int, s parts.Suggestion) {
		if at := p.dishAt(row); at >= 0 && col-1 == sheets.MealVersion {
			d := p.plate().Meal.Dishes[at]
			p.setDish(at, recipes.MealDish{Recipe: d.Recipe, Version: recipes.ID(s.Key), Servings: d.Servings})
		}
	}
	m.Suggest = p.versions
	m.OnActivate = func(row, _ int) { p.open(row) }
	m.OnDelete = func(row, _ int) { p.takeOut(row) }
	m.OnMenu = p.dishMenu
	p.dishes = m
	p.w.pin("meals.dishes", m)
}

// showDishes fills the table with the nutrient chosen.
func (p *mealsPage) showDishes() {
	plate := p.plate()
	p.sheet = sheets.UnitsOf(p.w.book()).MealDishes(plate, p.of)
	d := matrixOf(p.sheet.Sheet)
	d.Columns[0].Min, d.Columns[0].Max = 120, 120 // names take what is spare
	d.Columns[1+sheets.MealVersion].Min, d.Columns[1+sheets.MealVersion].Max = 80, 90
	dressChanges(&d, 1+sheets.MealAfter, func(int) food.Nutrient { return p.of })
	if p.layout.tight {
		withoutBars(&d, 1+sheets.MealAfter)
	}
	for r := range d.Rows {
		if d.Rows[r].Key == sheets.TotalKey {
			d.Rows[r].Kind = parts.RowTotal
		}
		if at := p.sheet.Stands[r].Dish; at >= 0 {
			d.Rows[r].Cells[1+sheets.MealServings].EditText = words.Trim(plate.Dishes[at].Servings, 3)
		}
	}
	d.Empty = words.Say("meals.no-dish")
	if plate.Meal.Day {
		d.Empty = words.Say("meals.no-meal")
	}
	p.dishes.SetData(d)
}

// withoutBars takes the bars off a column; their colours stay.
func withoutBars(d *parts.MatrixData, col int) {
	for r := range d.Rows {
		c := &d.Rows[r].Cells[col]
		switch {
		case c.Bar < 0:
			c.Trend = parts.TrendLighter
		case c.Bar > 0:
			c.Trend = parts.TrendHeavier
		}
		c.Bar = 0
	}
}

// dishAt is the place of a row's dish in the meal, -1 for meals and the sum.
func (p *mealsPage) dishAt(row int) int {
	if row < 0 || row >= len(p.sheet.Stands) {
		return -1
	}
	return p.sheet.Stands[row].Dish
}

// mealAt is the meal a row of a day stands for, "" for dishes and the sum.
func (p *mealsPage) mealAt(row int) recipes.ID {
	if row < 0 || row >= len(p.sheet.Stands) {
		return ""
	}
	return p.sheet.Stands[row].Meal
}

// typed takes a version or servings typed over; an emptied field takes the dish
// out, as Delete does.
func (p *mealsPage) typed(row, col int, text string) {
	at := p.dishAt(row)
	if at < 0 {
		return
	}
	d := p.plate().Meal.Dishes[at]
	switch {
	case strings.TrimSpace(text) == "":
		p.takeOut(row)
		return
	case col-1 == sheets.MealServings:
		n, ok := reading.Number(text)
		if !ok {
			p.w.problem(sheets.Wrongly("meals.servings.wrong", text))
			return
		}
		d.Servings = n
	default:
		v, ok := sheets.ReadVersion(p.book, d.Recipe, text)
		if !ok {
			p.w.problem(sheets.Wrongly("meals.version.wrong", text))
			return
		}
		d.Version = v
	}
	p.setDish(at, d)
}

func (p *mealsPage) setDish(at int, now recipes.MealDish) {
	if was := p.plate().Meal.Dishes[at]; was != now {
		p.w.do(recipes.SetDish(p.at, at, was, now))
	}
}

// versions completes the version of a dish; what stands there narrows nothing.
func (p *mealsPage) versions(row, col int, typed string) []parts.Suggestion {
	at := p.dishAt(row)
	if at < 0 || col-1 != sheets.MealVersion {
		return nil
	}
	d := &p.plate().Dishes[at]
	if typed == sheets.VersionName(d.Version()) {
		typed = ""
	}
	var out []parts.Suggestion
	for _, f := range sheets.MealVersions(p.book, p.all, d.MealDish.Recipe, typed) {
		out = append(out, parts.Suggestion{Text: f.Text, Detail: f.Detail, Key: string(f.Version)})
	}
	return out
}

// open goes to the meal of a row, or to the recipe of its dish.
func (p *mealsPage) open(row int) {
	if id := p.mealAt(row); id != "" {
		p.at = id
		p.show()
		p.w.win.Canvas().Focus(fyne.Focusable(p.list))
		return
	}
	if at := p.dishAt(row); at >= 0 {
		p.w.goTo(place{page: pageRecipe, recipe: p.plate().Meal.Dishes[at].Recipe, tab: tabVersions})
	}
}

// takeOut takes the dish or meal of a row out.
func (p *mealsPage) takeOut(row int) {
	if id := p.mealAt(row); id != "" {
		p.w.do(recipes.TakeMeal(p.at, id))
	}
	if at := p.dishAt(row); at >= 0 {
		p.w.do(recipes.RemoveDish(p.at, at, p.plate().Meal.Dishes[at]))
	}
}

// move puts the dish or meal of a row one place up or down; it stays chosen.
func (p *mealsPage) move(row int, later bool) {
	if id := p.mealAt(row); id != "" {
		p.w.do(recipes.MoveInDay(p.at, id, later))
		return
	}
	at, to := p.dishAt(row), row-1
	if later {
		to = row + 1
	}
	if at < 0 || p.dishAt(to) < 0 {
		return
	}
	_, col := p.dishes.Selected()
	p.w.do(recipes.MoveDish(p.at, at, p.plate().Meal.Dishes[at], later), func(ok bool) {
		if ok {
			p.dishes.Select(to, col)
		}
	})
}

// dishMenu is the context menu of a row of the table.
func (p *mealsPage) dishMenu(row, col int, at fyne.Position) {
	dish, meal := p.dishAt(row), p.mealAt(row)
	if dish < 0 && meal == "" {
		return
	}
	p.dishes.Select(row, col)
	open := parts.MenuItem{Icon: "open", Label: words.Say("meals.open"), Do: func() { p.open(row) }}
	if dish >= 0 {
		open.Label = words.Say("meals.open-recipe")
	}
	items := []parts.MenuItem{open}
	if dish >= 0 {
		items = append(items, p.versionItems(dish)...)
	}
	items = append(items, parts.MenuItem{},
		parts.MenuItem{Icon: "up", Label: words.Say("meals.earlier"), Do: func() { p.move(row, false) }},
		parts.MenuItem{Icon: "down", Label: words.Say("meals.later"), Do: func() { p.move(row, true) }},
		parts.MenuItem{Icon: "remove", Label: words.Say("meals.take-out"), Do: func() { p.takeOut(row) }})
	parts.ShowMenu(p.dishes, at, items...)
}

// versionItems offer the versions a dish may be eaten as.
func (p *mealsPage) versionItems(at int) []parts.MenuItem {
	d := p.plate().Meal.Dishes[at]
	items := []parts.MenuItem{{}}
	for _, f := range sheets.MealVersions(p.book, p.all, d.Recipe, "") {
		items = append(items, parts.MenuItem{
			Icon: "versions", Label: words.Say("meals.eat-as", f.Text), Disabled: f.Version == d.Version,
			Do: func() {
				p.setDish(at, recipes.MealDish{Recipe: d.Recipe, Version: f.Version, Servings: d.Servings})
			},
		})
	}
	return items
}

// suggest completes what may be put into the meal.
func (p *mealsPage) suggest(typed string) []parts.Suggestion {
	if strings.TrimSpace(typed) == "" {
		return nil
	}
	var out []parts.Suggestion
	for _, f := range p.find(typed) {
		out = append(out, parts.Suggestion{Text: f.Text, Detail: f.Detail, Key: f.Key()})
	}
	return out
}

func (p *mealsPage) find(typed string) []sheets.Found {
	return sheets.FindForMeal(p.book, p.all, p.plate().Meal, typed)
}

// pick puts what was chosen from the list into the meal.
func (p *mealsPage) pick(s parts.Suggestion) {
	if f, ok := sheets.FoundOf(s.Key); ok {
		p.put(f)
	}
}

// submit takes Enter in the field: the first thing that matches is put in, as
// the list under the field has it.
func (p *mealsPage) submit(text string) {
	if strings.TrimSpace(text) == "" {
		return
	}
	if found := p.find(text); len(found) > 0 {
		p.put(found[0])
		return
	}
	p.w.problem(sheets.Wrongly("meals.pick", text))
}

// put adds a found thing to the meal, a dish as one serving, and empties the
// field for the next.
func (p *mealsPage) put(f sheets.Found) {
	p.add.Set("")
	if f.Meal != "" {
		p.w.do(recipes.PutMeal(p.at, f.Meal))
		return
	}
	p.w.do(recipes.AddDish(p.at, f.Recipe, f.Version, 1))
}
