package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/sheets"
)

// setTable makes a kitchen whose foods are all checked, with tasters who were asked,
// at the tastings of the first recipe.
func (k *kitchenWindow) setTable(codes ...string) *recipes.Recipe {
	k.t.Helper()
	r := k.book().Recipes()[0]
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabTastings})
	k.settle()
	var verbs []recipes.Verb
	seen := map[food.Ref]bool{}
	for _, v := range append([]*recipes.Version{nil}, k.book().Versions(r.ID)...) {
		for _, l := range k.book().ServedRecord(r, v).Lines {
			if k.book().Food(l.Food) != nil && !seen[l.Food] {
				seen[l.Food] = true
				verbs = append(verbs, recipes.RecordAllergens(l.Food, food.Allergens{Recorded: true}))
			}
		}
	}
	for _, c := range codes {
		verbs = append(verbs, tasting.PutTaster(&recipes.Panelist{ID: recipes.ID("taster" + c), Code: c, Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
	for _, v := range verbs {
		k.do(v)
	}
	k.settle()
	return r
}

// plan keeps a plan of the first recipe; edit changes what is asked.
func (k *kitchenWindow) plan(r *recipes.Recipe, edit func(*sheets.PlanFields)) *recipes.Tasting {
	k.t.Helper()
	f := sheets.NewPlan(k.book(), r, "2026-03-04")
	if edit != nil {
		edit(&f)
	}
	p := sheets.ReadPlan(f, &recipes.Tasting{ID: k.newID(), Recipe: r.ID, Seed: 7}, k.book(), k.newID)
	if !p.Ready() {
		k.t.Fatal(p.Faults)
	}
	k.do(tasting.Put(p.Tasting, p.Samples))
	k.settle()
	return k.book().Tasting(p.Tasting.ID)
}

// A recipe without tastings says what to do; a plan shows what stands against
// serving, and begins once nothing does.
func TestATastingIsPlannedAndBegun(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabTastings)
	k.picture("tastings-empty")
	pressPin(k, "tastings.empty.plan")
	if k.at.page != pagePlan {
		t.Fatal("the empty page does not lead to a plan")
	}
	k.goTo(place{page: pageRecipe, recipe: k.at.recipe, tab: tabTastings})
	r := k.setTable("AB", "CD", "EF")
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "nobody-asked", Code: "GH"}))
	k.settle()
	tt := k.plan(r, nil)
	k.showTastings(r.ID, tt.ID)
	k.settle()
	k.picture("tastings-planned-against")
	if k.tastings().chosen != tt.ID {
		t.Fatal("the new tasting is not the one chosen")
	}
	if len(sheets.Against(k.book(), tt)) == 0 {
		t.Fatal("a taster nobody asked stands against nothing")
	}
	k.do(tasting.Seat(tt.ID, tt.SeatOf("nobody-asked").Number, ""))
	k.settle()
	k.picture("tastings-planned")
	pressPin(k, "tastings.begin")
	k.picture("tastings-begin")
	k.press(fyne.KeyReturn)
	k.settle()
	if k.book().Tasting(tt.ID).State != recipes.TastingServing {
		t.Error("serving did not begin")
	}
	if said := k.status.Message(); said != words.Say("did.begin-tasting", tt.Date) {
		t.Errorf("an undo of something older stands after serving began: %q", said)
	}
}
