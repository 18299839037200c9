package archive

import (
	"slices"
	"strings"

	"parewell/recipes"
)

var recipesSheet = &sheet{
	"recipes.csv",
	[]string{
		"recipe_id", "recipe", "edition", "servings", "servings_high", "servings_from", "makes", "measures", "category",
		"technique", "minutes", "keep", "cut", "helping_g", "limit", "headnote", "source",
	},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			r.add(text(x.ID), text(x.Title), whole(x.Edition), exact(x.Servings), number(x.ServingsHigh), text(x.ServingsFrom),
				text(x.Makes), text(x.Measures), text(x.Category), text(x.Dish.Method), number(x.Dish.Minutes),
				text(x.Brief.Keep), text(x.Brief.Cut), number(x.Brief.Helping), number(x.Brief.Limit), text(x.Headnote), text(x.Source))
		}
	},
}

var linesSheet = &sheet{
	"ingredients.csv",
	[]string{
		"recipe_id", "recipe", "line_id", "place", "line_kind", "section", "text", "ingredient", "preparation", "amount", "high", "unit",
		"grams", "grams_from", "as_bought", "food", "inside_recipe_id", "inside_version_id", "state", "part_eaten", "technique", "minutes",
		"doubts", "settled", "note",
	},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			for i, l := range x.Lines {
				r.add(append([]string{text(x.ID), text(x.Title), text(l.ID), whole(i + 1)}, lineCells(l)...)...)
			}
		}
	},
}

// lineWidth is how many cells lineCells gives.
const lineWidth = 21

// lineCells are the cells of a line from its kind on.
func lineCells(l *recipes.Line) []string {
	grams := ""
	if l.Known() {
		grams = exact(l.Grams)
	}
	var doubts []recipes.DoubtKind
	for _, x := range l.Doubts {
		doubts = append(doubts, x.Kind)
	}
	var inside recipes.SubRecipe
	if l.Sub != nil {
		inside = *l.Sub
	}
	return []string{
		text(l.Kind), text(l.Section), text(l.Text), text(l.Name), text(l.Prep), number(l.Amount), number(l.High), text(l.Unit),
		grams, text(l.GramsFrom), yes(l.AsBought), text(l.Food.String()), text(inside.Recipe), text(inside.Version), text(l.State),
		exact(l.PartEaten), text(l.Technique.Method), number(l.Technique.Minutes), list(doubts), yes(l.Settled), text(l.Note),
	}
}

var stepsSheet = &sheet{
	"steps.csv",
	[]string{"recipe_id", "recipe", "step_id", "place", "text"},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			for i, s := range x.Steps {
				r.add(text(x.ID), text(x.Title), text(s.ID), whole(i+1), text(s.Text))
			}
		}
	},
}

var targetsSheet = &sheet{
	"targets.csv",
	[]string{"recipe_id", "recipe", "nutrient", "bound", "target"},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			for _, t := range x.Brief.Targets {
				bound := "at most"
				if t.AtLeast {
					bound = "at least"
				}
				r.add(text(x.ID), text(x.Title), t.Nutrient.Key(), bound, exact(t.Amount))
			}
		}
	},
}

var swapsSheet = &sheet{
	"swaps.csv",
	[]string{
		"recipe_id", "recipe", "swap_id", "swap", "swap_kind", "ladder", "strength", "on_in", "idea", "function", "works_in", "fails_when", "note",
	},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			for _, s := range d.Swaps(x.ID) {
				var on []string
				for _, v := range d.Versions(x.ID) {
					if v.Has(s.ID) {
						on = append(on, v.Letter)
					}
				}
				r.add(text(x.ID), text(x.Title), text(s.ID), text(s.Name), text(s.Sort()), text(s.Ladder), number(s.Strength), list(on),
					text(s.Idea), text(s.Function), text(s.WorksIn), text(s.FailsWhen), text(s.Note))
			}
		}
	},
}

// An operation that brings in several ingredients has a row for each.
var operationsSheet = &sheet{
	"swap operations.csv",
	[]string{
		"recipe_id", "recipe", "swap_id", "swap", "place", "operation", "line_id", "line", "step_id", "share", "factor", "part_eaten_becomes",
		"technique_becomes", "minutes_become", "state_becomes", "step_text",
		"new_line_id", "line_kind", "section", "text", "ingredient", "preparation", "amount", "high", "unit", "grams", "grams_from", "as_bought", "food",
		"inside_recipe_id", "inside_version_id", "state", "part_eaten", "technique", "minutes", "doubts", "settled", "note",
	},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			for _, s := range d.Swaps(x.ID) {
				for i := range s.Ops {
					head := append([]string{text(x.ID), text(x.Title), text(s.ID), text(s.Name), whole(i + 1)}, opCells(x, &s.Ops[i])...)
					operationRows(r, head, s.Ops[i].Lines)
				}
			}
		}
	},
}

func operationRows(r *rows, head []string, lines []*recipes.Line) {
	if len(lines) == 0 {
		r.add(append(head, make([]string, 1+lineWidth)...)...)
	}
	for _, l := range lines {
		r.add(append(append(slices.Clone(head), text(l.ID)), lineCells(l)...)...)
	}
}

// opCells are the cells of an operation up to the ingredients it brings in; those
// its kind does not use are empty.
func opCells(x *recipes.Recipe, o *recipes.Op) []string {
	line, share, factor, part := "", "", "", ""
	if l := x.Line(o.Line); l != nil {
		line = l.Text
	}
	switch o.Kind {
	case recipes.OpExchange:
		share = exact(o.Share)
	case recipes.OpMultiply:
		factor = exact(o.Factor)
	case recipes.OpPartEaten:
		part = exact(o.Part)
	}
	return []string{
		text(o.Kind), text(o.Line), text(line), text(o.Step), share, factor, part,
		text(o.Technique.Method), number(o.Technique.Minutes), text(o.State), text(o.Text),
	}
}

var versionsSheet = &sheet{
	"versions.csv",
	[]string{"recipe_id", "recipe", "version_id", "version", "name", "servings", "swaps", "swap_ids", "note"},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			for _, v := range d.Versions(x.ID) {
				var names []string
				for _, s := range d.On(v) {
					names = append(names, strings.ReplaceAll(s.Name, ";", ","))
				}
				r.add(text(x.ID), text(x.Title), text(v.ID), text(v.Letter), text(v.Name), number(v.Servings), list(names), list(v.Swaps), text(v.Note))
			}
		}
	},
}

var testsSheet = &sheet{
	"tests.csv",
	[]string{
		"recipe_id", "recipe", "test_id", "test", "version_id", "version", "date", "cook", "full_dish_g", "empty_dish_g", "left_over_g",
		"cooked_g", "servings", "celsius", "minutes", "weighed_g", "other_weights_g", "notes", "went_well", "went_badly", "next_time", "set_aside", "photos",
	},
	func(d *data, r *rows) {
		for _, x := range d.Recipes() {
			for _, b := range d.Batches(x.ID) {
				cooked := ""
				if g, ok := b.CookedGrams(); ok {
					cooked = exact(g)
				}
				r.add(text(x.ID), text(x.Title), text(b.ID), whole(b.Number), text(b.Version), text(d.letter(x.ID, b.Version)), text(b.Date), text(b.Cook),
					number(b.FullDish), number(b.Dish), number(b.LeftOver), cooked, number(b.Servings), number(b.Celsius), number(b.Minutes),
					pairs(b.AsCooked, exact), pairs(b.Extra, exact), text(b.Notes), text(b.WentWell), text(b.WentBad), text(b.NextTime),
					text(b.SetAside), list(b.Photos))
			}
		}
	},
}

// letter is a version's, "original" for none.
func (d *data) letter(recipe, version recipes.ID) string {
	if version == "" {
		return "original"
	}
	if v := d.Version(recipe, version); v != nil {
		return v.Letter
	}
	return ""
}
