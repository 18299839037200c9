package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

// tasters writes down six people who may taste, one who is allergic to milk and
// one who was not asked.
func (k *kitchenWindow) someTasters() {
	k.t.Helper()
	for _, code := range []string{"AB", "CD", "EF", "GH", "IJ", "KL"} {
		k.do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID("taster" + code), Code: code, Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "tasterMI", Code: "MI", Asked: true, Allergens: food.Milk, Consent: "2026-03-01", Careful: recipes.No}))
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "tasterNO", Code: "NO"}))
	k.settle()
}

func TestATastingIsPlanned(t *testing.T) {
	for _, dark := range []bool{false, true} {
		name, size := "", fyne.NewSize(1280, 800)
		if dark {
			name, size = "-dark", fyne.NewSize(1920, 1080)
		}
		k := openKitchen(t, dark, size)
		k.someTasters()
		r := k.openRecipe(0, tabTests)
		k.planTasting(nil)
		k.settle()
		k.picture("plan" + name)
		p := k.pages[pagePlan].(*planPage)
		p.tasters.OnToggle(6, 1)
		p.tasters.OnToggle(7, 1)
		k.settle()
		if !p.plan.Ready() {
			t.Fatalf("%v", p.plan.Faults)
		}
		k.picture("plan-two" + name)
		p.ask.OnSelect(2, 0)
		k.settle()
		k.picture("plan-triangle" + name)
		if !p.plan.Ready() || len(p.plan.Samples) != 2 {
			t.Errorf("the odd one out among %d samples: %v", len(p.plan.Samples), p.plan.Faults)
		}
		p.ask.OnSelect(0, 0)
		if len(p.plan.Samples) != 4 {
			t.Errorf("back at liking %d samples are left", len(p.plan.Samples))
		}
		k.pins["plan.save"].(interface{ Press() }).Press()
		k.settle()
		if all := k.book().TastingsOf(r.ID); len(all) != 1 || len(all[0].Seats) != 6 {
			t.Errorf("%+v", all)
		}
	}
}
