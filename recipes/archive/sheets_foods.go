package archive

import (
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
)

var foodsSheet = &sheet{
	"foods.csv",
	append([]string{
		"food", "name", "published", "group", "state", "density", "edible", "swells", "allergens_recorded", "contains", "may_contain",
		"price", "price_grams", "food_note",
	}, nutrientColumns()...),
	func(d *data, r *rows) {
		for _, f := range d.Foods() {
			price, grams := "", ""
			if p := d.Price(f.Ref); p != nil {
				price, grams = exact(p.Money), exact(p.Grams)
			}
			cells := []string{
				text(f.String()), text(f.Name), text(f.Published), text(f.Group), text(f.State), number(f.Density), number(f.Edible), number(f.Swells),
				yes(f.Allergens.Recorded), list(f.Allergens.Contains.Keys()), list(f.Allergens.Depends.Keys()), price, grams, text(f.Note),
			}
			for n := food.Nutrient(0); n < food.NutrientCount; n++ {
				cell := ""
				if v, known := f.Per100.Get(n); known {
					cell = exact(v)
				}
				cells = append(cells, cell)
			}
			r.add(cells...)
		}
	},
}

// nutrientColumns are per 100 g and named as everywhere: name and unit.
func nutrientColumns() []string {
	var out []string
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		out = append(out, n.Key())
	}
	return out
}

var tablesSheet = &sheet{
	"tables.csv",
	[]string{"table", "name", "foods", "imported", "table_file"},
	func(d *data, r *rows) {
		for _, e := range d.contents.Entities {
			if x, is := e.(*recipes.Release); is {
				r.add(text(x.Key()), text(x.Name), whole(x.Foods), x.Imported.Format(time.RFC3339), "table-"+x.Block+".csv.gz")
			}
		}
	},
}

var choicesSheet = &sheet{
	"choices.csv",
	[]string{"ingredient", "food", "grams_each"},
	func(d *data, r *rows) {
		for _, e := range d.contents.Entities {
			if x, is := e.(*recipes.Choice); is {
				r.add(text(x.Name), text(x.Food.String()), pairs(x.Grams, exact))
			}
		}
	},
}

var mealsSheet = &sheet{
	"meals.csv",
	[]string{"meal_id", "meal", "whole_day", "meals"},
	func(d *data, r *rows) {
		for _, m := range d.Meals() {
			var names []string
			for _, o := range d.Meals() {
				for _, id := range m.Meals {
					if o.ID == id {
						names = append(names, o.Name)
					}
				}
			}
			r.add(text(m.ID), text(m.Name), yes(m.Day), list(names))
		}
	},
}

var dishesSheet = &sheet{
	"meal dishes.csv",
	[]string{"meal_id", "meal", "recipe_id", "recipe", "version_id", "version", "servings"},
	func(d *data, r *rows) {
		for _, m := range d.Meals() {
			for _, x := range m.Dishes {
				r.add(text(m.ID), text(m.Name), text(x.Recipe), text(d.title(x.Recipe)), text(x.Version), text(d.letter(x.Recipe, x.Version)), exact(x.Servings))
			}
		}
	},
}

// title is a recipe's, "" for one that is not there.
func (d *data) title(recipe recipes.ID) string {
	if r := d.Recipe(recipe); r != nil {
		return r.Title
	}
	return ""
}

var settingsSheet = &sheet{
	"settings.csv",
	[]string{"setting", "value"},
	func(d *data, r *rows) {
		for _, e := range d.contents.Entities {
			if x, is := e.(*recipes.Setting); is {
				r.add(text(x.Name), text(x.Value))
			}
		}
	},
}

var notebookSheet = &sheet{
	"notebook.csv",
	[]string{"number", "at", "origin", "undone", "recipe_id", "recipe", "what"},
	func(d *data, r *rows) {
		for _, e := range d.contents.Notebook {
			r.add(given(int(e.Seq)), e.At.Format(time.RFC3339), text(e.Origin), yes(e.State == recipes.HistoryUndone),
				text(e.Recipe), text(d.title(e.Recipe)), text(e.Label.String()))
		}
	},
}
