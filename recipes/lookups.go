package recipes

import (
	"sort"

	"parewell/recipes/food"
)

// Recipe returns the recipe with the ID, nil if there is none.
func (b *Book) Recipe(id ID) *Recipe {
	if d := b.recipes[id]; d != nil {
		return d.recipe
	}
	return nil
}

// Recipes returns all recipes by their place, then title.
func (b *Book) Recipes() []*Recipe {
	out := make([]*Recipe, 0, len(b.recipes))
	for _, d := range b.recipes {
		if d.recipe != nil {
			out = append(out, d.recipe)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		x, y := out[i], out[j]
		if x.Order != y.Order {
			return x.Order < y.Order
		}
		if x.Title != y.Title {
			return x.Title < y.Title
		}
		return x.ID < y.ID
	})
	return out
}

// Swap returns a recipe's swap, nil if there is none.
func (b *Book) Swap(recipe, id ID) *Swap {
	if d := b.recipes[recipe]; d != nil {
		return d.swaps[id]
	}
	return nil
}

// Swaps returns a recipe's swaps by their place.
func (b *Book) Swaps(recipe ID) []*Swap {
	d := b.recipes[recipe]
	if d == nil {
		return nil
	}
	out := make([]*Swap, 0, len(d.swaps))
	for _, s := range d.swaps {
		out = append(out, s)
	}
	sort.Slice(out, func(i, j int) bool { return swapBefore(out[i], out[j]) })
	return out
}

// Version returns a recipe's version, nil if there is none.
func (b *Book) Version(recipe, id ID) *Version {
	if d := b.recipes[recipe]; d != nil {
		return d.versions[id]
	}
	return nil
}

// Versions returns a recipe's versions by their place.
func (b *Book) Versions(recipe ID) []*Version {
	d := b.recipes[recipe]
	if d == nil {
		return nil
	}
	out := make([]*Version, 0, len(d.versions))
	for _, v := range d.versions {
		out = append(out, v)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Order != out[j].Order {
			return out[i].Order < out[j].Order
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// On returns the swaps a version has on, by their place; nil for a nil version.
func (b *Book) On(v *Version) []*Swap {
	if v == nil {
		return nil
	}
	d := b.recipes[v.Recipe]
	if d == nil {
		return nil
	}
	out := make([]*Swap, 0, len(v.Swaps))
	for _, id := range v.Swaps {
		if s := d.swaps[id]; s != nil {
			out = append(out, s)
		}
	}
	sort.Slice(out, func(i, j int) bool { return swapBefore(out[i], out[j]) })
	return out
}

// Draft composes a version of the Book; a nil version gives the original.
func (b *Book) Draft(r *Recipe, v *Version) *Draft { return Compose(r, v, b.On(v)) }

// Food returns a pinned or own food, nil if the Book has none of that number.
func (b *Book) Food(ref food.Ref) *food.Food {
	if f := b.foods[ref]; f != nil {
		return &f.Food
	}
	return nil
}

// Price returns what the cook pays for a food, nil if she has not said.
func (b *Book) Price(ref food.Ref) *Price {
	if f := b.foods[ref]; f != nil {
		return f.Price
	}
	return nil
}

// Foods returns all pinned and own foods by name.
func (b *Book) Foods() []*food.Food {
	out := make([]*food.Food, 0, len(b.foods))
	for _, f := range b.foods {
		out = append(out, &f.Food)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Name != out[j].Name {
			return out[i].Name < out[j].Name
		}
		return out[i].Ref.String() < out[j].Ref.String()
	})
	return out
}

// Choice returns what the cook once decided of a name, nil if nothing.
func (b *Book) Choice(name string) *Choice { return b.choices[name] }

// Batches returns the tests of a recipe by number.
func (b *Book) Batches(recipe ID) []*Batch {
	d := b.recipes[recipe]
	if d == nil {
		return nil
	}
	out := make([]*Batch, 0, len(d.batches))
	for _, x := range d.batches {
		out = append(out, x)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Number != out[j].Number {
			return out[i].Number < out[j].Number
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// Tastings returns all tastings by date, then name.
func (b *Book) Tastings() []*Tasting {
	out := make([]*Tasting, 0, len(b.tastings))
	for _, s := range b.tastings {
		if s.tasting != nil {
			out = append(out, s.tasting)
		}
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Date != out[j].Date {
			return out[i].Date < out[j].Date
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// Servings returns a tasting's servings by ID.
func (b *Book) Servings(tasting ID) []*Serving {
	s := b.tastings[tasting]
	if s == nil {
		return nil
	}
	out := make([]*Serving, 0, len(s.servings))
	for _, x := range s.servings {
		out = append(out, x)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].ID < out[j].ID })
	return out
}

// Samples returns a tasting's samples by code.
func (b *Book) Samples(tasting ID) []*Sample {
	s := b.tastings[tasting]
	if s == nil {
		return nil
	}
	out := make([]*Sample, 0, len(s.samples))
	for _, x := range s.samples {
		out = append(out, x)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Code < out[j].Code })
	return out
}

// Meals returns all meals by their place.
func (b *Book) Meals() []*Meal {
	out := make([]*Meal, 0, len(b.meals))
	for _, m := range b.meals {
		out = append(out, m)
	}
	sort.Slice(out, func(i, j int) bool {
		if out[i].Order != out[j].Order {
			return out[i].Order < out[j].Order
		}
		return out[i].ID < out[j].ID
	})
	return out
}

// Setting returns a workbook setting, "" if it is not set.
func (b *Book) Setting(name string) string {
	if s := b.settings[name]; s != nil {
		return s.Value
	}
	return ""
}

// Served tells whether any tasting has served the recipe's present edition:
// from then on its original, versions and swaps are frozen.
func (b *Book) Served(r *Recipe) bool {
	for _, s := range b.tastings {
		if t := s.tasting; t != nil && t.Recipe == r.ID && t.Edition == r.Edition && t.State != TastingPlanned {
			return true
		}
	}
	return false
}
