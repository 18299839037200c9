package recipes

import (
	"strings"
	"testing"

	"parewell/recipes/words"
)

func TestTestsOfAVersion(t *testing.T) {
	k := mustKitchen(t, 51, 3)
	v := k.id()
	k.do(t, AddVersion(k.recipe.ID, v, "", ""))
	one := &Batch{ID: k.id(), Recipe: k.recipe.ID, Version: v, FullDish: 2400, Dish: 900, LeftOver: 100}
	two := &Batch{ID: k.id(), Recipe: k.recipe.ID, Version: v}
	k.do(t, AddTest(one))
	k.do(t, AddTest(two))
	k.do(t, AddTest(&Batch{ID: k.id(), Recipe: k.recipe.ID}))
	got := k.book.TestsOf(k.recipe.ID, v)
	if len(got) != 2 || got[0].Number != 1 || got[1].Number != 2 {
		t.Fatalf("tests of the version: %+v", got)
	}
	if g, ok := got[0].CookedGrams(); !ok || g != 1400 {
		t.Errorf("cooked weight %v, want 2400 less 900 less 100", g)
	}
	k.do(t, SetAside(k.recipe.ID, one.ID, "burnt"))
	if k.book.Test(k.recipe.ID, one.ID).SetAside != "burnt" {
		t.Error("not set aside")
	}
	refused := func(name string, v Verb, key string) {
		c, err := v(k.book)
		if err == nil {
			_, err = k.book.With(c)
		}
		if err == nil || !strings.Contains(err.Error(), words.Say(key)) {
			t.Errorf("%s: %v", name, err)
		}
	}
	light := *two
	light.FullDish, light.Dish = 800, 900
	refused("a full dish lighter than the empty one", EditTest(&light), "error.test-empty")
	refused("a version with tests removed", RemoveVersion(k.recipe.ID, v), "error.version-tests")
	refused("a test of another version", AddTest(&Batch{ID: k.id(), Recipe: k.recipe.ID, Version: "nowhere"}), "error.test-no-version")
	k.do(t, RemoveRecipe(k.recipe.ID))
	if len(k.book.Entities()) != len(k.foods) {
		t.Error("a removed recipe should take its tests with it")
	}
}
