package sheets

import (
	"slices"
	"strings"

	"parewell/analysis/meals"
	"parewell/recipes"
	"parewell/recipes/words"
)

// Found is something that can be put into a meal: a recipe's version, or for a
// day a meal.
type Found struct {
	Text, Detail    string
	Meal            recipes.ID // of a meal
	Recipe, Version recipes.ID // of a dish; an empty version is the original
}

// Key tells a found thing apart from all others.
func (f Found) Key() string {
	if f.Meal != "" {
		return mealKey(f.Meal)
	}
	return "dish:" + string(f.Recipe) + "/" + string(f.Version)
}

// FoundOf reads a key back; Text and Detail stay empty. False for any other
// text.
func FoundOf(key string) (Found, bool) {
	if id, ok := strings.CutPrefix(key, mealKey("")); ok {
		return Found{Meal: recipes.ID(id)}, id != ""
	}
	dish, ok := strings.CutPrefix(key, "dish:")
	recipe, version, whole := strings.Cut(dish, "/")
	return Found{Recipe: recipes.ID(recipe), Version: recipes.ID(version)}, ok && whole && recipe != ""
}

// mostFound is how many things a search lists.
const mostFound = 12

// FindForMeal searches what can be put into a meal or day: every typed word
// begins a word of the name, in any order; names with the most words typed in
// full come first. A day is offered meals before dishes, those it has left out.
func FindForMeal(b *recipes.Book, t *meals.Table, into *recipes.Meal, typed string) []Found {
	var out []Found
	if into.Day {
		for _, m := range b.Meals() {
			if !m.Day && !slices.Contains(into.Meals, m.ID) && matches(m.Name, typed) {
				out = append(out, Found{Text: m.Name, Meal: m.ID})
			}
		}
	}
	for _, r := range b.Recipes() {
		for _, v := range append([]*recipes.Version{nil}, b.Versions(r.ID)...) {
			f := Found{Text: words.Say("meals.dish-version", r.Title, VersionName(v)), Recipe: r.ID}
			if v != nil {
				f.Version = v.ID
			}
			if matches(f.Text, typed) {
				out = append(out, f)
			}
		}
	}
	slices.SortStableFunc(out, func(x, y Found) int { return inFull(y.Text, typed) - inFull(x.Text, typed) })
	out = out[:min(len(out), mostFound)]
	for i := range out {
		out[i].Detail = UnitsOf(b).detailOf(t, &out[i])
	}
	return out
}

// detailOf says how much energy a found thing holds.
func (u Units) detailOf(t *meals.Table, f *Found) string {
	if f.Meal != "" {
		return words.Say("meals.energy-meal", u.energy(t.Of(f.Meal).After.Figure))
	}
	return words.Say("meals.energy-serving", u.energy(t.Account(f.Recipe, f.Version).PerServing))
}

// inFull counts the typed words that are words of the name.
func inFull(name, typed string) int {
	n, in := 0, strings.Fields(strings.ToLower(name))
	for _, w := range strings.Fields(strings.ToLower(typed)) {
		if slices.Contains(in, w) {
			n++
		}
	}
	return n
}

// matches tells whether every typed word begins a word of the name.
func matches(name, typed string) bool {
	in := strings.Fields(strings.ToLower(name))
next:
	for _, w := range strings.Fields(strings.ToLower(typed)) {
		for _, have := range in {
			if strings.HasPrefix(have, w) {
				continue next
			}
		}
		return false
	}
	return true
}

// MealVersions are the original and the versions of a dish's recipe, with the
// energy of a serving; typed narrows them down.
func MealVersions(b *recipes.Book, t *meals.Table, recipe recipes.ID, typed string) []Found {
	var out []Found
	for _, v := range append([]*recipes.Version{nil}, b.Versions(recipe)...) {
		f := Found{Text: VersionName(v), Recipe: recipe}
		if v != nil {
			f.Version = v.ID
		}
		if matches(f.Text, typed) {
			f.Detail = UnitsOf(b).detailOf(t, &f)
			out = append(out, f)
		}
	}
	return out
}

// ReadVersion reads a version typed into a meal's table: its letter, the start
// of its name, or the word for the original. False when that names none, or
// more than one.
func ReadVersion(b *recipes.Book, recipe recipes.ID, typed string) (recipes.ID, bool) {
	typed = strings.TrimSpace(typed)
	for _, v := range b.Versions(recipe) {
		if strings.EqualFold(v.Letter, typed) || strings.EqualFold(VersionName(v), typed) {
			return v.ID, true
		}
	}
	var found []recipes.ID
	if typed != "" && matches(words.Say("meals.original"), typed) {
		found = append(found, "")
	}
	for _, v := range b.Versions(recipe) {
		if typed != "" && matches(v.Name, typed) {
			found = append(found, v.ID)
		}
	}
	if len(found) != 1 {
		return "", false
	}
	return found[0], true
}
