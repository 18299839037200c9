package sheets

import (
	"math"
	"strconv"
	"strings"

	"parewell/analysis/meals"
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// MealList lays out the days and the meals of a Book, each with the energy of
// what was chosen and how that changed. A row's key is the meal's ID.
func MealList(b *recipes.Book, t *meals.Table) Sheet {
	s := Sheet{Corner: words.Say("meals.name"), Columns: []Column{
		{Key: "energy", Title: UnitsOf(b).Of(food.EnergyKcal).Unit(), Number: true, Index: -1},
	}}
	for _, days := range []bool{true, false} {
		var rows []Row
		for _, m := range b.Meals() {
			if m.Day == days {
				rows = append(rows, UnitsOf(b).listRow(t.Of(m.ID)))
			}
		}
		if len(rows) == 0 {
			continue
		}
		key := "meals.meals"
		if days {
			key = "meals.days"
		}
		s.Rows = append(s.Rows, Row{Key: key, Band: true, Label: text(words.Say(key))})
		s.Rows = append(s.Rows, rows...)
	}
	return s
}

func (u Units) listRow(p *meals.Plate) Row {
	c := Cell{Number: true, Bar: noBar()}
	if !empty(p) {
		energy := u.Of(food.EnergyKcal)
		c.Text = u.Amount(p.After.Figure(energy), energy)
		if ch := p.Change(food.EnergyKcal); math.Abs(ch.Percent) >= leastBar {
			c.Sub = words.Percent(ch.Percent)
		}
	}
	return Row{Key: string(p.Meal.ID), Label: Cell{Text: p.Meal.Name, Wrap: true, Bar: noBar()}, Cells: []Cell{c}}
}

func empty(p *meals.Plate) bool { return len(p.Dishes) == 0 && len(p.Meals) == 0 }

// MealRow is what a row of a meal's table stands for: the dish at a place, or a
// meal of a day; Dish is -1 and Meal empty for the sum.
type MealRow struct {
	Dish int
	Meal recipes.ID
}

// MealSheet is a meal's table of dishes with what its rows stand for.
type MealSheet struct {
	Sheet
	Stands []MealRow
}

// Columns of a meal's table.
const (
	MealVersion = iota
	MealServings
	MealBefore
	MealAfter
)

// TotalKey is the key of the row that sums a meal up.
const TotalKey = "total"

// MealDishes lays out what a meal or day is made of, a row a dish or meal, with
// one nutrient before and after, and the sum.
func (u Units) MealDishes(p *meals.Plate, n food.Nutrient) MealSheet {
	n = u.Of(n)
	s := MealSheet{Sheet: Sheet{Corner: words.Say("meals.dish"), Columns: []Column{
		{Key: "version", Title: words.Say("meals.version"), Index: -1},
		{Key: "servings", Title: words.Say("meals.servings"), Number: true, Index: -1},
		{Key: "before", Title: words.Say("meals.before"), Sub: u.Label(n), Number: true, Index: -1},
		{Key: "after", Title: words.Say("meals.after"), Sub: u.Label(n), Number: true, Index: -1},
	}}}
	widest := widestOf(p, n)
	for _, m := range p.Meals {
		label := Cell{Text: m.Meal.Name, Wrap: true, Bar: noBar(), Tip: words.Say("meals.open.tip")}
		holds := Cell{Text: words.Say("meals.holds", len(m.Dishes)), Muted: true, Bar: noBar()}
		s.add(MealRow{Dish: -1, Meal: m.Meal.ID}, Row{Key: mealKey(m.Meal.ID), Label: label, Cells: append([]Cell{holds, text("")}, u.figures(m.Before, m.After, n, widest, m)...)})
	}
	for i := range p.Dishes {
		s.add(MealRow{Dish: i}, u.dishRow(p, i, n, widest))
	}
	if !empty(p) {
		cells := append([]Cell{text(""), text("")}, u.figures(p.Before, p.After, n, widest, p)...)
		for i := range cells {
			cells[i].Strong = true
		}
		s.add(MealRow{Dish: -1}, Row{Key: TotalKey, Label: Cell{Text: sumName(p), Strong: true, Bar: noBar()}, Cells: cells})
	}
	return s
}

func sumName(p *meals.Plate) string {
	if p.Meal.Day {
		return words.Say("meals.sum-day")
	}
	return words.Say("meals.sum-meal")
}

func (s *MealSheet) add(stands MealRow, r Row) {
	s.Rows, s.Stands = append(s.Rows, r), append(s.Stands, stands)
}

func mealKey(id recipes.ID) string { return "meal:" + string(id) }

// DishKey is the key of the row of the dish at a place.
func DishKey(at int) string { return "dish:" + strconv.Itoa(at) }

func (u Units) dishRow(p *meals.Plate, i int, n food.Nutrient, widest float64) Row {
	d := &p.Dishes[i]
	one := &meals.Plate{Meal: p.Meal, Dishes: p.Dishes[i : i+1], Before: d.Before, After: d.After}
	cells := []Cell{
		{Text: VersionName(d.Version()), Editable: true, Bar: noBar(), Tip: words.Say("meals.version.tip")},
		{Text: words.Fraction(d.Servings), Number: true, Editable: true, Bar: noBar()},
	}
	return Row{
		Key: DishKey(i), Label: Cell{Text: d.Recipe().Title, Bar: noBar(), Wrap: true},
		Cells: append(cells, u.figures(d.Before, d.After, n, widest, one)...),
	}
}

// VersionName names a version in a line: "A  lighter crust", "original".
func VersionName(v *recipes.Version) string {
	switch {
	case v == nil:
		return words.Say("meals.original")
	case v.Name == "":
		return v.Letter
	}
	return v.Letter + "  " + v.Name
}

// widestOf is the largest change, in per cent, of any part of a meal: full bar.
func widestOf(p *meals.Plate, n food.Nutrient) float64 {
	w := 1.0
	see := func(c nutrition.Change) {
		if !math.IsNaN(c.Percent) {
			w = math.Max(w, math.Min(math.Abs(c.Percent), 100))
		}
	}
	see(p.Change(n))
	for i := range p.Dishes {
		see(p.Dishes[i].Change(n))
	}
	for _, m := range p.Meals {
		see(m.Change(n))
	}
	return w
}

// figures are the two cells before and after; what is not known is named from
// the dishes of from.
func (u Units) figures(before, after *nutrition.Total, n food.Nutrient, widest float64, from *meals.Plate) []Cell {
	cell := func(t *nutrition.Total) Cell {
		f := t.Figure(n)
		c := Cell{Text: u.Amount(f, n), Number: true, Bar: noBar()}
		if f.AtLeast || f.About {
			c.Tip = words.Say("tip.at-least", gapNames(from, f.Gaps))
		}
		return c
	}
	was, is := cell(before), cell(after)
	ch := nutrition.CompareTotals(before, after, n)
	if ch.Bound != nutrition.Exact || ch.Amount != 0 {
		is.Sub = u.as(n).change(ch)
	}
	if math.Abs(ch.Percent) >= leastBar {
		is.Bar = math.Max(-1, math.Min(1, ch.Percent/widest))
	}
	return []Cell{was, is}
}

// MealNumbers lays out every nutrient of a meal or day before and after; all
// shows more than the leading ones. A row's key is the nutrient's. Energy is
// held against the target, where one is offered.
func (u Units) MealNumbers(p *meals.Plate, all bool, target *meals.Offer) Sheet {
	s := Sheet{Corner: sumName(p), Columns: []Column{
		{Key: "before", Title: words.Say("meals.before"), Number: true, Index: -1},
		{Key: "after", Title: words.Say("meals.after"), Number: true, Index: -1},
	}}
	list := Leading
	if all {
		list = Shown
	}
	list = u.both(list)
	widest := 1.0
	for _, n := range list {
		if c := p.Change(n); !math.IsNaN(c.Percent) {
			widest = math.Max(widest, math.Min(math.Abs(c.Percent), 100))
		}
	}
	slips := nutrition.TotalSlips(p.Before, p.Change)
	for _, n := range list {
		s.Rows = append(s.Rows, u.nutrientRow(p, n, widest, slips, target))
	}
	return s
}

func (u Units) nutrientRow(p *meals.Plate, n food.Nutrient, widest float64, slips []nutrition.Slip, target *meals.Offer) Row {
	cells := u.figures(p.Before, p.After, n, widest, p)
	for _, x := range slips {
		if x.Nutrient == n {
			cells[1].Mark, cells[1].Tip = Look, join(words.Say("meals.slipped", u.slipped([]nutrition.Slip{x})), cells[1].Tip)
		}
	}
	label := text(u.Label(n))
	label.Strong = u.leads(n)
	if n == food.EnergyKcal { // what a target is in
		for i, t := range []*nutrition.Total{p.Before, p.After} {
			cells[i].Strong = u.leads(n)
			markAgainst(&cells[i], t, p, target)
		}
	}
	return Row{Key: n.Key(), Label: label, Cells: cells}
}

// markAgainst marks a day's energy within the target or outside it.
func markAgainst(c *Cell, t *nutrition.Total, p *meals.Plate, target *meals.Offer) {
	if target == nil || target.Reason != meals.Offered || !p.Meal.Day {
		return
	}
	v, _ := target.Judge(t.Figure(food.EnergyKcal))
	c.Mark = map[meals.Verdict]Mark{meals.Within: Met, meals.Over: Missed, meals.Under: Look, meals.CannotTell: Look}[v]
	c.Tip = join(TargetName(*target), c.Tip)
}

// gapNames names the ingredients behind unknowns, each once, in the dishes of a
// meal and in the recipes those use.
func gapNames(p *meals.Plate, ids []recipes.ID) string {
	want := map[recipes.ID]bool{}
	for _, id := range ids {
		want[id] = true
	}
	var out []string
	said := map[string]bool{}
	var walk func(a *nutrition.Account)
	walk = func(a *nutrition.Account) {
		for i := range a.Lines {
			l := a.Draft.Lines[i].Line
			if name := LineName(l); want[l.ID] && !said[name] {
				said[name] = true
				out = append(out, name)
			}
			if a.Lines[i].Sub != nil {
				walk(a.Lines[i].Sub)
			}
		}
	}
	eachDish(p, func(d *meals.Dish) { walk(d.Original); walk(d.Chosen) })
	return words.Join(out)
}

func eachDish(p *meals.Plate, see func(*meals.Dish)) {
	for i := range p.Dishes {
		see(&p.Dishes[i])
	}
	for _, m := range p.Meals {
		eachDish(m, see)
	}
}

// MealCaption says what a meal or day is made of, and in which days a meal is.
func MealCaption(b *recipes.Book, p *meals.Plate) string {
	if p.Meal.Day {
		return words.Say("meals.day-of", len(p.Meals))
	}
	var days []string
	for _, m := range b.Meals() {
		for _, id := range m.Meals {
			if id == p.Meal.ID {
				days = append(days, m.Name)
			}
		}
	}
	if len(days) == 0 {
		return words.Say("meals.in-no-day")
	}
	return words.Say("meals.in-days", words.Join(days))
}

// NewMealName is a name no meal has yet.
func NewMealName(b *recipes.Book, day bool) string {
	key := "meals.new-meal-name"
	if day {
		key = "meals.new-day-name"
	}
	used := map[string]bool{}
	for _, m := range b.Meals() {
		used[strings.ToLower(m.Name)] = true
	}
	for i := 1; ; i++ {
		if name := words.Say(key, i); !used[strings.ToLower(name)] {
			return name
		}
	}
}
