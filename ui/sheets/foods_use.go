package sheets

import (
	"math"
	"slices"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// FoodUse is one ingredient that uses a food: of a recipe's original, or
// brought by a swap.
type FoodUse struct {
	Recipe *recipes.Recipe
	Swap   *recipes.Swap // nil for the original
	Line   *recipes.Line
}

// eachLine visits every ingredient of a Book.
func eachLine(b *recipes.Book, visit func(FoodUse)) {
	for _, r := range b.Recipes() {
		for _, l := range r.Lines {
			visit(FoodUse{r, nil, l})
		}
		for _, s := range b.Swaps(r.ID) {
			for i := range s.Ops {
				for _, l := range s.Ops[i].Lines {
					visit(FoodUse{r, s, l})
				}
			}
		}
	}
}

// FoodUses returns the ingredients that use a food, in the order of the recipes.
func FoodUses(b *recipes.Book, ref food.Ref) []FoodUse {
	var out []FoodUse
	eachLine(b, func(u FoodUse) {
		if u.Line.Food == ref {
			out = append(out, u)
		}
	})
	return out
}

func usedFoods(b *recipes.Book) map[food.Ref]bool {
	used := map[food.Ref]bool{}
	eachLine(b, func(u FoodUse) { used[u.Line.Food] = true })
	return used
}

// UsesSheet lists where a food is used, a row an ingredient, in the order of
// uses; it has no header.
func UsesSheet(uses []FoodUse) Sheet {
	s := Sheet{Columns: []Column{{Key: "line", Index: -1}}}
	for _, u := range uses {
		as := u.Line.Text
		if u.Swap != nil {
			as = words.Say("foods.in-swap", as, u.Swap.Name)
		}
		s.Rows = append(s.Rows, Row{
			Key: string(u.Recipe.ID) + "/" + string(u.Line.ID), Label: Cell{Text: u.Recipe.Title, Bar: noBar(), Wrap: true},
			Cells: []Cell{{Text: as, Muted: true, Bar: noBar(), Wrap: true}},
		})
	}
	return s
}

// UserTitles names the recipes of uses, each once.
func UserTitles(uses []FoodUse) []string {
	var out []string
	for _, u := range uses {
		if !slices.Contains(out, u.Recipe.Title) {
			out = append(out, u.Recipe.Title)
		}
	}
	return out
}

// usersOf are the recipes that a food is in: those of its uses and those that
// have one of them as an ingredient.
func usersOf(b *recipes.Book, uses []FoodUse) []recipes.ID {
	in := map[recipes.ID]bool{}
	for _, u := range uses {
		in[u.Recipe.ID] = true
	}
	for grew := true; grew; {
		grew = false
		eachLine(b, func(u FoodUse) {
			if u.Line.Sub != nil && in[u.Line.Sub.Recipe] && !in[u.Recipe.ID] {
				in[u.Recipe.ID], grew = true, true
			}
		})
	}
	var out []recipes.ID
	for _, r := range b.Recipes() {
		if in[r.ID] {
			out = append(out, r.ID)
		}
	}
	return out
}

// effectFigures are what the effect of a changed food is shown in.
var effectFigures = []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium}

// Effect is what a change of the Book does to the recipes with some uses of a
// food: under each recipe's name its original and versions whose figures differ,
// per serving. Energy is always shown, other figures where one differs.
type Effect struct {
	Sheet   Sheet
	Recipes int // with a figure that differs
}

// EffectOf sets two Books side by side; uses are those of the first.
func EffectOf(before, after *recipes.Book, uses []FoodUse) Effect {
	var e Effect
	var pairs []effectPair
	for _, id := range usersOf(before, uses) {
		x, y := NewBench(before, before.Recipe(id)), NewBench(after, after.Recipe(id))
		differs := false
		for i := range x.Accounts {
			if p := (effectPair{x, y, i}); slices.ContainsFunc(effectFigures, p.differs) {
				pairs, differs = append(pairs, p), true
			}
		}
		if differs {
			e.Recipes++
		}
	}
	e.Sheet = effectSheet(pairs)
	return e
}

// effectPair is one column of a recipe's bench before and after.
type effectPair struct {
	x, y *Bench
	i    int
}

func (p effectPair) differs(n food.Nutrient) bool {
	return !sameFigure(p.x.Accounts[p.i].PerServing(n), p.y.Accounts[p.i].PerServing(n))
}

func effectSheet(pairs []effectPair) Sheet {
	s := Sheet{Corner: words.Say("foods.effect.serving")}
	var shown []food.Nutrient
	u := Units{}
	if len(pairs) > 0 {
		u = pairs[0].x.units
	}
	for _, n := range u.all(effectFigures) {
		as := u.as(n)
		if !u.leads(n) && !slices.ContainsFunc(pairs, func(p effectPair) bool { return p.differs(n) }) {
			continue
		}
		shown = append(shown, n)
		s.Columns = append(s.Columns,
			Column{Key: n.Key(), Title: as.name, Sub: words.Say("foods.effect.now", as.unit), Number: true, Index: -1},
			Column{Key: n.Key() + "+", Title: words.Say("foods.effect.then"), Sub: as.unit, Number: true, Index: -1})
	}
	for k, p := range pairs {
		if k == 0 || pairs[k-1].x != p.x {
			s.Rows = append(s.Rows, Row{Key: string(p.x.Recipe.ID), Label: Cell{Text: p.x.Recipe.Title, Strong: true, Bar: noBar(), Wrap: true}})
		}
		s.Rows = append(s.Rows, p.row(shown))
	}
	return s
}

func (p effectPair) row(shown []food.Nutrient) Row {
	r := Row{Key: string(p.x.Recipe.ID) + "/" + p.x.letter(p.i), Label: Cell{Text: p.x.ColumnName(p.i), Bar: noBar(), Wrap: true}}
	for _, n := range shown {
		a, b := p.x.Accounts[p.i], p.y.Accounts[p.i]
		as := p.x.as(n)
		then := Cell{Text: as.amount(b.PerServing(n)), Number: true, Bar: noBar()}
		if c := nutrition.Compare(a, b, n); p.differs(n) {
			if !p.x.units.leads(n) { // a percentage of each would take too much room
				c.Percent = math.NaN()
			}
			then.Sub = as.change(c)
		}
		r.Cells = append(r.Cells, Cell{Text: as.amount(a.PerServing(n)), Number: true, Bar: noBar()}, then)
	}
	return r
}

func sameFigure(a, b nutrition.Figure) bool {
	return a.Amount == b.Amount && a.AtLeast == b.AtLeast && a.About == b.About && a.Nowhere == b.Nowhere
}

func (x *Bench) letter(i int) string {
	if v := x.Versions[i]; v != nil {
		return v.Letter
	}
	return ""
}

// RelinkSheet sets a food's row beside another that could take its place.
func RelinkSheet(from, to *food.Food) Sheet {
	s := Sheet{Corner: words.Say("foods.relink.corner"), Columns: []Column{
		{Key: "now", Title: FoodFrom(from), Sub: words.Say("foods.relink.now"), Number: true, Index: -1},
		{Key: "then", Title: FoodFrom(to), Sub: words.Say("foods.relink.then"), Number: true, Index: -1},
	}}
	for _, n := range labelOrder {
		a, okA := from.Per100.Get(n)
		b, okB := to.Per100.Get(n)
		then := shortCell(b, okB)
		if okA && okB && a != b {
			then.Sub = signedTrim(b-a, 2)
		}
		s.Rows = append(s.Rows, Row{Key: n.Key(), Label: text(WithUnit(n)), Cells: []Cell{shortCell(a, okA), then}})
	}
	return s
}

// shortCell is exactCell where there is little room.
func shortCell(v float64, known bool) Cell {
	c := exactCell(v, known)
	if !known {
		c.Text = words.Unknown
	}
	return c
}

// signedTrim is a change with a sign and no trailing zeros.
func signedTrim(v float64, decimals int) string {
	s := words.Trim(v, decimals)
	if v > 0 && s != "0" {
		return "+" + s
	}
	return s
}
