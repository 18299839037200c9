package sheets

import (
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
// uses.
func UsesSheet(uses []FoodUse) Sheet {
	s := Sheet{Corner: words.Say("library.recipe"), Columns: []Column{{Key: "line", Title: words.Say("foods.as"), Index: -1}}}
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
// food: one row for each original and version whose figures differ, per serving.
type Effect struct {
	Sheet   Sheet
	Recipes int // with a figure that differs
}

// EffectOf sets two Books side by side; uses are those of the first.
func EffectOf(before, after *recipes.Book, uses []FoodUse) Effect {
	e := Effect{Sheet: Sheet{Corner: words.Say("foods.effect.serving")}}
	for _, n := range effectFigures {
		e.Sheet.Columns = append(e.Sheet.Columns,
			Column{Key: n.Key(), Title: words.Say("nutrient." + n.Key()), Sub: words.Say("foods.effect.now", n.Unit()), Number: true, Index: -1},
			Column{Key: n.Key() + "+", Title: words.Say("foods.effect.then"), Sub: n.Unit(), Number: true, Index: -1})
	}
	for _, id := range usersOf(before, uses) {
		rows := effectRows(NewBench(before, before.Recipe(id)), NewBench(after, after.Recipe(id)))
		if len(rows) > 0 {
			e.Recipes++
			e.Sheet.Rows = append(e.Sheet.Rows, rows...)
		}
	}
	return e
}

func effectRows(x, y *Bench) []Row {
	var out []Row
	for i := range x.Accounts {
		r := Row{Key: string(x.Recipe.ID) + "/" + x.letter(i), Label: Cell{Text: words.Say("foods.effect.of", x.Recipe.Title, x.shortName(i)), Bar: noBar(), Wrap: true}}
		differs := false
		for _, n := range effectFigures {
			was, is := x.Accounts[i].PerServing(n), y.Accounts[i].PerServing(n)
			now := Cell{Text: Amount(is, n), Number: true, Bar: noBar()}
			if c := nutrition.Compare(x.Accounts[i], y.Accounts[i], n); !sameFigure(was, is) {
				differs, now.Sub = true, ChangeText(c, n)
			}
			r.Cells = append(r.Cells, Cell{Text: Amount(was, n), Number: true, Bar: noBar()}, now)
		}
		if differs {
			out = append(out, r)
		}
	}
	return out
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

// shortName is a version's letter, or that it is the original.
func (x *Bench) shortName(i int) string {
	if l := x.letter(i); l != "" {
		return l
	}
	return words.Say("foods.effect.original")
}

// RelinkSheet sets a food's row beside another that could take its place.
func RelinkSheet(from, to *food.Food) Sheet {
	s := Sheet{Corner: words.Say("foods.per-100g-edible"), Columns: []Column{
		{Key: "now", Title: FoodFrom(from), Sub: words.Say("foods.relink.now"), Number: true, Index: -1},
		{Key: "then", Title: FoodFrom(to), Sub: words.Say("foods.relink.then"), Number: true, Index: -1},
	}}
	for _, n := range labelOrder {
		a, okA := from.Per100.Get(n)
		b, okB := to.Per100.Get(n)
		then := exactCell(b, okB)
		if okA && okB && a != b {
			then.Sub = signedTrim(b-a, 2)
		}
		s.Rows = append(s.Rows, Row{Key: n.Key(), Label: text(WithUnit(n)), Cells: []Cell{exactCell(a, okA), then}})
	}
	return s
}

// signedTrim is a change with a sign and no trailing zeros.
func signedTrim(v float64, decimals int) string {
	s := words.Trim(v, decimals)
	if v > 0 && s != "0" {
		return "+" + s
	}
	return s
}
