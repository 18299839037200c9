// Package effects works out what one idea or swap would do to a dish before it
// is taken: every nutrient, what it makes worse, and the allergens the dish
// gains and loses; and which ingredients to look at first.
package effects

import (
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

// Effect is what one swap does to the original by itself.
type Effect struct {
	Swap    *recipes.Swap
	Changes [food.NutrientCount]nutrition.Change // per serving; lighter is negative
	Slips   []nutrition.Slip                     // what it makes worse by a tenth or more

	// Allergens of the whole dish: Added it did not hold before, MayAdd depend
	// on the product, Lost it no longer holds. Unrecorded names new ingredients
	// whose allergens nobody has recorded: unknown, never free.
	Added, MayAdd, Lost food.Allergen
	Unrecorded          []string
}

// Of works out a swap on the original of a recipe. foods must find the foods
// the swap brings too (see With). More swaps on a line than can be shared out
// is the only error, and one swap never meets it.
func Of(r *recipes.Recipe, s *recipes.Swap, foods nutrition.Foods) (*Effect, error) {
	alone, err := nutrition.Alone(r, s, foods)
	if err != nil {
		return nil, err
	}
	e := &Effect{Swap: s}
	for n := range e.Changes {
		e.Changes[n] = alone.Of(0, food.Nutrient(n))
	}
	before := recipes.Compose(r, nil, nil)
	e.Slips = nutrition.Slips(nutrition.Of(before, foods), func(n food.Nutrient) nutrition.Change { return e.Changes[n] })
	e.allergens(before, recipes.Compose(r, nil, []*recipes.Swap{s}), foods)
	return e, nil
}

// With finds foods not yet pinned beside those that are.
func With(foods nutrition.Foods, extra []*food.Food) nutrition.Foods {
	return func(ref food.Ref) *food.Food {
		if f := foods(ref); f != nil {
			return f
		}
		for _, f := range extra {
			if f != nil && f.Ref == ref {
				return f
			}
		}
		return nil
	}
}

// allergens compares the dish before and after.
func (e *Effect) allergens(before, after *recipes.Draft, foods nutrition.Foods) {
	had, mayHave, _ := dishAllergens(before, foods)
	has, may, open := dishAllergens(after, foods)
	e.Added = has &^ had
	e.MayAdd = may &^ (had | mayHave | has)
	e.Lost = (had | mayHave) &^ (has | may)
	e.Unrecorded = open
}

// dishAllergens gathers the allergens of what a draft holds; open names the
// lines swaps brought whose allergens are not recorded.
func dishAllergens(d *recipes.Draft, foods nutrition.Foods) (sure, may food.Allergen, open []string) {
	for i := range d.Lines {
		l := &d.Lines[i]
		if l.Gone() || l.Line.Food.Zero() {
			continue
		}
		f := foods(l.Line.Food)
		if f == nil || !f.Allergens.Recorded {
			if l.Swap != "" {
				open = append(open, l.Line.Text)
			}
		}
		if f != nil {
			sure |= f.Allergens.Contains
			may |= f.Allergens.Depends
		}
	}
	return sure, may, open
}
