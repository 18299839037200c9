// Package meals reckons what one eater has at a meal and over a day, with the
// originals and with the versions chosen, and what energy a day may be held
// against. It says numbers and codes; sentences are made elsewhere.
package meals

import (
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

// Table reckons the meals of one Book. It remembers what it worked out and is
// for one goroutine at a time.
type Table struct {
	book     *recipes.Book
	kitchen  nutrition.Kitchen
	accounts map[served]*nutrition.Account
	plates   map[recipes.ID]*Plate
}

// served names a recipe's version; an empty version is the original.
type served struct{ recipe, version recipes.ID }

// In is the table of a Book, reckoned on its kitchen.
func In(b *recipes.Book) *Table {
	return &Table{
		book: b, kitchen: nutrition.In(b),
		accounts: map[served]*nutrition.Account{}, plates: map[recipes.ID]*Plate{},
	}
}

// Plate is a meal or day reckoned: Before with the original of every dish,
// After with the versions chosen, both of the same servings.
type Plate struct {
	Meal   *recipes.Meal
	Dishes []Dish   // one for each of Meal.Dishes, same order
	Meals  []*Plate // one for each of Meal.Meals, same order
	Before *nutrition.Total
	After  *nutrition.Total
}

// Dish is one dish of a meal: its accounts are of the whole recipe, its totals
// of the servings eaten. Before and After are the same for an original.
type Dish struct {
	recipes.MealDish
	Original *nutrition.Account
	Chosen   *nutrition.Account
	Before   *nutrition.Total
	After    *nutrition.Total
}

// Recipe is the dish's recipe.
func (d *Dish) Recipe() *recipes.Recipe { return d.Original.Draft.Recipe }

// Version is the version chosen, nil for the original.
func (d *Dish) Version() *recipes.Version { return d.Chosen.Draft.Version }

// Change is the chosen version less the original, for the servings eaten.
func (d *Dish) Change(n food.Nutrient) nutrition.Change {
	return nutrition.CompareTotals(d.Before, d.After, n)
}

// Change is the meal or day with the versions chosen less the same with the
// originals.
func (p *Plate) Change(n food.Nutrient) nutrition.Change {
	return nutrition.CompareTotals(p.Before, p.After, n)
}

// Of reckons a meal or day of the Book; nil when the ID names none. The Book
// refuses meals in a circle and dishes without a recipe.
func (t *Table) Of(id recipes.ID) *Plate {
	if p, ok := t.plates[id]; ok {
		return p
	}
	m := t.book.Meal(id)
	if m == nil {
		return nil
	}
	p := &Plate{Meal: m}
	t.plates[id] = p
	var before, after []*nutrition.Total
	for _, d := range m.Dishes {
		x := t.dish(d)
		p.Dishes = append(p.Dishes, x)
		before, after = append(before, x.Before), append(after, x.After)
	}
	for _, inner := range m.Meals {
		x := t.Of(inner)
		p.Meals = append(p.Meals, x)
		before, after = append(before, x.Before), append(after, x.After)
	}
	p.Before, p.After = nutrition.Join(before), nutrition.Join(after)
	return p
}

func (t *Table) dish(d recipes.MealDish) Dish {
	x := Dish{MealDish: d, Original: t.Account(d.Recipe, ""), Chosen: t.Account(d.Recipe, d.Version)}
	x.Before = nutrition.Sum([]nutrition.Part{{Account: x.Original, Servings: d.Servings}})
	x.After = x.Before
	if d.Version != "" {
		x.After = nutrition.Sum([]nutrition.Part{{Account: x.Chosen, Servings: d.Servings}})
	}
	return x
}

// Account reckons a recipe's version, the original for an empty one; each once.
func (t *Table) Account(recipe, version recipes.ID) *nutrition.Account {
	key := served{recipe, version}
	a := t.accounts[key]
	if a == nil {
		a = t.kitchen.Of(t.book.Draft(t.book.Recipe(recipe), t.book.Version(recipe, version)))
		t.accounts[key] = a
	}
	return a
}
