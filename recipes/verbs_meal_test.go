package recipes

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
)

// table is a Book with a recipe that has a version A, a meal of both, a second
// meal and a day of the first.
func mustTable(t *testing.T) *kitchen {
	t.Helper()
	k := mustKitchen(t, 7, 3)
	k.do(t, AddVersion(k.recipe.ID, "a", "lighter", ""))
	k.do(t, AddMeal("supper", " Supper "))
	k.do(t, AddDish("supper", k.recipe.ID, "", 1))
	k.do(t, AddDish("supper", k.recipe.ID, "a", 0.5))
	k.do(t, AddMeal("lunch", "Lunch"))
	k.do(t, AddDay("tuesday", "Tuesday"))
	k.do(t, PutMeal("tuesday", "supper"))
	return k
}

func (k *kitchen) names() []string {
	var out []string
	for _, m := range k.book.Meals() {
		out = append(out, m.Name)
	}
	return out
}

func TestMealVerbs(t *testing.T) {
	k := mustTable(t)
	dish := func(version ID, servings float64) MealDish {
		return MealDish{Recipe: k.recipe.ID, Version: version, Servings: servings}
	}
	rows := []struct {
		name  string
		verb  Verb
		label string
		look  func(b *Book) any
		want  any
	}{
		{"rename", RenameMeal("lunch", " Noon "), "Renamed Lunch to Noon", func(b *Book) any { return b.Meal("lunch").Name }, "Noon"},
		{"another version and helping", SetDish("supper", 1, dish("a", 0.5), dish("", 2)), "Changed Test dish in Supper", func(b *Book) any { return b.Meal("supper").Dishes[1] }, dish("", 2)},
		{"a dish to the front", MoveDish("supper", 1, dish("a", 0.5), false), "Moved Test dish in Supper", func(b *Book) any { return b.Meal("supper").Dishes[0] }, dish("a", 0.5)},
		{"a dish out", RemoveDish("supper", 0, dish("", 1)), "Took Test dish out of Supper", func(b *Book) any { return b.Meal("supper").Dishes }, []MealDish{dish("a", 0.5)}},
		{"a second meal into the day", PutMeal("tuesday", "lunch"), "Put Lunch into Tuesday", func(b *Book) any { return b.Meal("tuesday").Meals }, []ID{"supper", "lunch"}},
		{"a meal out of the day", TakeMeal("tuesday", "supper"), "Took Supper out of Tuesday", func(b *Book) any { return len(b.Meal("tuesday").Meals) }, 0},
		{"a meal removed leaves the day", RemoveMeal("supper"), "Removed Supper", func(b *Book) any { return b.Meal("supper") == nil && b.Meal("tuesday").Meals == nil }, true},
		{"a meal later", MoveMeal("supper", true), "Moved Supper", func(b *Book) any { return b.Meals()[0].Name }, "Lunch"},
		{"the last meal later stays", MoveMeal("lunch", true), "Moved Lunch", func(b *Book) any { return b.Meals()[1].Name }, "Lunch"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			before := k.book
			c, err := r.verb(before)
			if err != nil {
				t.Fatal(err)
			}
			after, err := before.With(c)
			if err != nil {
				t.Fatal(err)
			}
			if got := r.look(after); !reflect.DeepEqual(got, r.want) {
				t.Errorf("got %v, want %v", got, r.want)
			}
			if c.Label.String() != r.label {
				t.Errorf("label %q, want %q", c.Label, r.label)
			}
			back, err := after.With(c.Inverse())
			if err != nil {
				t.Fatalf("undo: %v", err)
			}
			if !reflect.DeepEqual(back.Meals(), before.Meals()) {
				t.Error("undo did not bring back what was there")
			}
		})
	}
}

func TestMealsRefused(t *testing.T) {
	k := mustTable(t)
	k.do(t, AddDay("week", "Week"))
	k.do(t, PutMeal("week", "tuesday"))
	here := MealDish{Recipe: k.recipe.ID, Version: "a", Servings: 0.5}
	more := func(servings float64) MealDish { d := here; d.Servings = servings; return d }
	rows := []struct {
		name string
		verb Verb
		want string
	}{
		{"no name", AddMeal("x", "  "), "needs a name"},
		{"no recipe", AddDish("supper", "none", "", 1), "no longer in the workbook"},
		{"no version", AddDish("supper", k.recipe.ID, "none", 1), "version of “Test dish”"},
		{"no servings", AddDish("supper", k.recipe.ID, "", 0), "above 0"},
		{"servings below 0", SetDish("supper", 1, here, more(-1)), "above 0"},
		{"servings not a number", SetDish("supper", 1, here, more(math.NaN())), "above 0"},
		{"servings without end", SetDish("supper", 1, here, more(math.Inf(1))), "above 0"},
		{"a dish changed since", SetDish("supper", 0, here, more(2)), "changed in the meantime"},
		{"a dish past the end", RemoveDish("supper", 2, here), "changed in the meantime"},
		{"a meal that is gone", RenameMeal("none", "x"), "no longer in the workbook"},
		{"a meal that is not there into a day", PutMeal("tuesday", "none"), "no longer in the workbook"},
		{"a meal twice", PutMeal("tuesday", "supper"), "already"},
		{"a meal into a meal", PutMeal("lunch", "supper"), "put together in a day"},
		{"a day into itself", PutMeal("tuesday", "tuesday"), "cannot contain itself"},
		{"a day into itself by way of another", PutMeal("tuesday", "week"), "cannot contain itself"},
		{"a meal that is not in the day", TakeMeal("tuesday", "lunch"), "no longer in the day"},
		{"a version in a meal", RemoveVersion(k.recipe.ID, "a"), "used in Supper"},
		{"a recipe in a meal", RemoveRecipe(k.recipe.ID), "used by Supper"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			c, err := r.verb(k.book)
			if err == nil {
				_, err = k.book.With(c)
			}
			if err == nil || !strings.Contains(err.Error(), r.want) {
				t.Errorf("got %v, want %q", err, r.want)
			}
		})
	}
}

// A version that a line of another recipe, or of a swap there, names cannot be
// removed either.
func TestVersionInAnotherRecipeStays(t *testing.T) {
	k := mustTable(t)
	sub := &Line{ID: k.id(), Text: "1 serving dish", GramsFrom: GramsWeight, PartEaten: 1, Sub: &SubRecipe{Recipe: k.recipe.ID, Version: "a", Servings: 1}}
	k.do(t, AddRecipe(&Recipe{ID: "pie", Title: "Pie", Servings: 1, Edition: 1, Lines: []*Line{sub}}, nil))
	k.do(t, RemoveMeal("supper"))
	c, err := RemoveVersion(k.recipe.ID, "a")(k.book)
	if err != nil {
		t.Fatal(err)
	}
	if _, err = k.book.With(c); err == nil || !strings.Contains(err.Error(), "used in Pie") {
		t.Errorf("got %v, want it to name the pie", err)
	}
	k.do(t, RemoveRecipe("pie"))
	if _, err = k.book.With(c); err != nil {
		t.Errorf("nothing uses it any more: %v", err)
	}
}

// An undo that would leave a meal without its version is refused, and moving
// keeps meals and days apart.
func TestUndoKeepsMealsWhole(t *testing.T) {
	k := mustKitchen(t, 8, 2)
	added := k.do(t, AddVersion(k.recipe.ID, "a", "", ""))
	k.do(t, AddMeal("m", "M"))
	k.do(t, AddDish("m", k.recipe.ID, "a", 1))
	if _, err := k.book.With(added.Inverse()); err == nil {
		t.Error("undo took the version out from under the meal")
	}
	k.do(t, AddDay("d", "D"))
	k.do(t, AddMeal("n", "N"))
	k.do(t, MoveMeal("n", false))
	var meals []string
	for _, m := range k.book.Meals() {
		if !m.Day {
			meals = append(meals, m.Name)
		}
	}
	if !slices.Equal(meals, []string{"N", "M"}) {
		t.Errorf("meals %v of %v", meals, k.names())
	}
}
