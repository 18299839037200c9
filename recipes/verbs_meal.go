package recipes

import (
	"math"
	"slices"
	"strings"

	"parewell/recipes/words"
)

// Meal returns the meal or day with the ID, nil if there is none.
func (b *Book) Meal(id ID) *Meal { return b.meals[id] }

func (b *Book) mustMeal(id ID) (*Meal, error) {
	if m := b.Meal(id); m != nil {
		return m, nil
	}
	return nil, gone("error.meal-gone")
}

// AddMeal adds an empty meal after all others.
func AddMeal(id ID, name string) Verb { return addMeal(id, name, "did.add-meal", false) }

// AddDay adds an empty day after all others; meals are put into it by
// PutMeal.
func AddDay(id ID, name string) Verb { return addMeal(id, name, "did.add-day", true) }

func addMeal(id ID, name, key string, day bool) Verb {
	return func(b *Book) (Change, error) {
		m := &Meal{
			ID: id, Name: strings.TrimSpace(name), Day: day,
			Order: nextOrder(b.Meals(), func(x *Meal) float64 { return x.Order }),
		}
		e := newEdits(b, "", key, m.Name)
		e.put(m)
		return e.done()
	}
}

// editMeal is the shape of every verb that changes one meal; change gets a copy
// whose lists it may alter.
func editMeal(id ID, key string, args []any, change func(b *Book, m *Meal) error) Verb {
	return func(b *Book) (Change, error) {
		m, err := b.mustMeal(id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, "", key, append([]any{m.Name}, args...)...)
		c := *m
		c.Dishes, c.Meals = slices.Clone(m.Dishes), slices.Clone(m.Meals)
		if err := change(b, &c); err != nil {
			return Change{}, err
		}
		e.put(&c)
		return e.done()
	}
}

// RenameMeal gives a meal or day another name.
func RenameMeal(id ID, name string) Verb {
	return editMeal(id, "did.name-meal", []any{strings.TrimSpace(name)}, func(_ *Book, m *Meal) error {
		m.Name = strings.TrimSpace(name)
		return nil
	})
}

// RemoveMeal removes a meal or day and takes it out of the days that list it;
// undo brings all of it back.
func RemoveMeal(id ID) Verb {
	return func(b *Book) (Change, error) {
		m, err := b.mustMeal(id)
		if err != nil {
			return Change{}, err
		}
		e := newEdits(b, "", "did.remove-meal", m.Name)
		for _, d := range b.mealsWith(id) {
			c := *d
			c.Meals = slices.DeleteFunc(slices.Clone(d.Meals), func(x ID) bool { return x == id })
			if len(c.Meals) == 0 {
				c.Meals = nil
			}
			e.put(&c)
		}
		e.drop(m)
		return e.done()
	}
}

// mealsWith returns the days that list a meal.
func (b *Book) mealsWith(id ID) []*Meal {
	var out []*Meal
	for _, m := range b.Meals() {
		if slices.Contains(m.Meals, id) {
			out = append(out, m)
		}
	}
	return out
}

// MoveMeal puts a meal or day one place earlier or later in the list of its
// own kind.
func MoveMeal(id ID, later bool) Verb {
	return func(b *Book) (Change, error) {
		m, err := b.mustMeal(id)
		if err != nil {
			return Change{}, err
		}
		all := slices.DeleteFunc(b.Meals(), func(x *Meal) bool { return x.Day != m.Day })
		at := slices.IndexFunc(all, func(x *Meal) bool { return x.ID == id })
		to := beside(at, later, len(all))
		e := newEdits(b, "", "did.move-meal", m.Name)
		if to == at {
			return e.done()
		}
		all[at], all[to] = all[to], all[at]
		for i, x := range all {
			c := *x
			c.Order = float64(i + 1)
			e.put(&c)
		}
		return e.done()
	}
}

// beside is the place before or after at, or at itself at an end of n places.
func beside(at int, later bool, n int) int {
	to := at - 1
	if later {
		to = at + 1
	}
	if to < 0 || to >= n {
		return at
	}
	return to
}

// AddDish puts so many servings of a recipe's version into a meal, after its
// other dishes; an empty version is the original.
func AddDish(meal, recipe, version ID, servings float64) Verb {
	return func(b *Book) (Change, error) {
		r, err := b.mustRecipe(recipe)
		if err != nil {
			return Change{}, err
		}
		return editMeal(meal, "did.add-dish", []any{r.Title}, func(_ *Book, m *Meal) error {
			m.Dishes = append(m.Dishes, MealDish{Recipe: recipe, Version: version, Servings: servings})
			return nil
		})(b)
	}
}

// SetDish changes the dish at a place of a meal from was to now. It is refused
// when the dish there is not was any more.
func SetDish(meal ID, at int, was, now MealDish) Verb {
	return editDish(meal, at, was, "did.set-dish", func(m *Meal) { m.Dishes[at] = now })
}

// RemoveDish takes the dish at a place out of a meal. It is refused when the
// dish there is not was any more.
func RemoveDish(meal ID, at int, was MealDish) Verb {
	return editDish(meal, at, was, "did.remove-dish", func(m *Meal) {
		m.Dishes = slices.Delete(m.Dishes, at, at+1)
		if len(m.Dishes) == 0 {
			m.Dishes = nil
		}
	})
}

// MoveDish puts the dish at a place of a meal one place earlier or later. It is
// refused when the dish there is not was any more.
func MoveDish(meal ID, at int, was MealDish, later bool) Verb {
	return editDish(meal, at, was, "did.move-dish", func(m *Meal) {
		to := beside(at, later, len(m.Dishes))
		m.Dishes[at], m.Dishes[to] = m.Dishes[to], m.Dishes[at]
	})
}

// editDish is the shape of verbs on the dish at a place.
func editDish(meal ID, at int, was MealDish, key string, change func(m *Meal)) Verb {
	return func(b *Book) (Change, error) {
		title := ""
		if r := b.Recipe(was.Recipe); r != nil {
			title = r.Title
		}
		return editMeal(meal, key, []any{title}, func(_ *Book, m *Meal) error {
			if at < 0 || at >= len(m.Dishes) || m.Dishes[at] != was {
				return gone("error.dish-gone")
			}
			change(m)
			return nil
		})(b)
	}
}

// PutMeal puts a meal into a day, after its other meals.
func PutMeal(day, meal ID) Verb {
	return editDay(day, meal, "did.put-meal", func(m *Meal) error {
		m.Meals = append(m.Meals, meal)
		return nil
	})
}

// TakeMeal takes a meal out of a day; the meal itself stays.
func TakeMeal(day, meal ID) Verb {
	return editDay(day, meal, "did.take-meal", func(m *Meal) error {
		at := slices.Index(m.Meals, meal)
		if at < 0 {
			return gone("error.meal-not-in-day")
		}
		m.Meals = slices.Delete(m.Meals, at, at+1)
		if len(m.Meals) == 0 {
			m.Meals = nil
		}
		return nil
	})
}

// MoveInDay puts a meal one place earlier or later in a day.
func MoveInDay(day, meal ID, later bool) Verb {
	return editDay(day, meal, "did.move-in-day", func(m *Meal) error {
		at := slices.Index(m.Meals, meal)
		if at < 0 {
			return gone("error.meal-not-in-day")
		}
		to := beside(at, later, len(m.Meals))
		m.Meals[at], m.Meals[to] = m.Meals[to], m.Meals[at]
		return nil
	})
}

// editDay is the shape of verbs on a meal in a day.
func editDay(day, meal ID, key string, change func(m *Meal) error) Verb {
	return func(b *Book) (Change, error) {
		x, err := b.mustMeal(meal)
		if err != nil {
			return Change{}, err
		}
		return editMeal(day, key, []any{x.Name}, func(_ *Book, m *Meal) error { return change(m) })(b)
	}
}

// checkMeal wants a name, servings above 0, dishes and meals that are there,
// each meal once, and no meal that comes to contain itself.
func (b *Book) checkMeal(m *Meal) error {
	if strings.TrimSpace(m.Name) == "" {
		return refuse("", "error.no-meal-name")
	}
	for _, d := range m.Dishes {
		if err := b.checkDish(m, d); err != nil {
			return err
		}
	}
	if len(m.Meals) > 0 && !m.Day {
		return refuse(m.Name, "error.meal-in-meal")
	}
	for i, id := range m.Meals {
		inner := b.Meal(id)
		if inner == nil {
			return refuse(m.Name, "error.meal-missing")
		}
		if slices.Contains(m.Meals[:i], id) {
			return refuse(m.Name, "error.meal-twice", inner.Name)
		}
	}
	return b.checkMealLoops(m)
}

func (b *Book) checkDish(m *Meal, d MealDish) error {
	r := b.Recipe(d.Recipe)
	if r == nil {
		return refuse(m.Name, "error.dish-no-recipe")
	}
	if d.Version != "" && b.Version(d.Recipe, d.Version) == nil {
		return refuse(m.Name, "error.dish-no-version", r.Title)
	}
	if !(d.Servings > 0) || math.IsInf(d.Servings, 0) {
		return refuse(m.Name, "error.dish-servings", r.Title)
	}
	return nil
}

// checkMealLoops refuses a day that would come to contain itself.
func (b *Book) checkMealLoops(m *Meal) error {
	seen := map[ID]bool{}
	var holds func(ids []ID) bool
	holds = func(ids []ID) bool {
		for _, id := range ids {
			if id == m.ID {
				return true
			}
			if seen[id] {
				continue
			}
			seen[id] = true
			if inner := b.Meal(id); inner != nil && holds(inner.Meals) {
				return true
			}
		}
		return false
	}
	if holds(m.Meals) {
		return refuse(m.Name, "error.meal-loop")
	}
	return nil
}

// checkMealGone refuses to remove a meal that a day still lists.
func (b *Book) checkMealGone(m *Meal) error {
	var days []string
	for _, d := range b.mealsWith(m.ID) {
		days = append(days, d.Name)
	}
	if len(days) > 0 {
		return refuse(m.Name, "error.meal-in-use", words.Join(days))
	}
	return nil
}

// checkVersionGone refuses to remove a version that a meal or another recipe
// still uses. A recipe that goes whole is judged as a recipe.
func (b *Book) checkVersionGone(v *Version) error {
	r := b.Recipe(v.Recipe)
	if r == nil {
		return nil
	}
	if users := b.usersOfVersion(v); len(users) > 0 {
		return refuse(r.Title, "error.version-in-use", v.Letter, words.Join(users))
	}
	return nil
}

// usersOfVersion names the recipes and meals that use a version.
func (b *Book) usersOfVersion(v *Version) []string {
	var out []string
	for _, r := range b.Recipes() {
		if slices.ContainsFunc(b.linesOf(r), func(l *Line) bool {
			return l.Sub != nil && l.Sub.Recipe == v.Recipe && l.Sub.Version == v.ID
		}) {
			out = append(out, r.Title)
		}
	}
	for _, m := range b.Meals() {
		if slices.ContainsFunc(m.Dishes, func(d MealDish) bool { return d.Recipe == v.Recipe && d.Version == v.ID }) {
			out = append(out, m.Name)
		}
	}
	return out
}

// linesOf returns the lines of a recipe and those its swaps bring.
func (b *Book) linesOf(r *Recipe) []*Line {
	out := slices.Clone(r.Lines)
	for _, s := range b.Swaps(r.ID) {
		for i := range s.Ops {
			out = append(out, s.Ops[i].Lines...)
		}
	}
	return out
}
