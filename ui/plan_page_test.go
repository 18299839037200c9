package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/ui/parts"
	"parewell/ui/sheets"
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

// TestWhatIsEatenBetweenSamples: what a cracker or a benchmark dish holds is written
// down in the plan, and whoever cannot have it is left out; the plan that is kept can
// be served.
func TestWhatIsEatenBetweenSamples(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.someTasters()
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "tasterSE", Code: "SE", Asked: true, Allergens: food.Sesame, Consent: "2026-03-01", Careful: recipes.No}))
	r := k.openRecipe(0, tabTests)
	k.planTasting(nil)
	k.settle()
	p := k.pages[pagePlan].(*planPage)
	p.entries["cleanser"].Set("sesame cracker")
	p.entries["benchmark"].Set("pie of the pub")
	k.settle()
	if !slices.Equal(p.plan.Safety.Unknown, []string{"pie of the pub", "sesame cracker"}) {
		t.Fatalf("unknown: %v", p.plan.Safety.Unknown)
	}
	tick := func(pin string, rows ...string) {
		k.pushPin(pin)
		m := k.pins["allergens.ticks"].(*parts.Matrix)
		for i, row := range m.Data().Rows {
			if slices.Contains(rows, row.Key) {
				m.OnToggle(i, 1)
			}
		}
		k.confirm()
		k.settle()
	}
	tick("plan.check.sesame cracker", "sesame")
	tick("plan.benchmark.pack")
	k.picture("plan-cracker")
	if len(p.plan.Safety.Unknown) != 0 || p.plan.Safety.Allergens&food.Sesame == 0 {
		t.Errorf("unknown %v, holds %v", p.plan.Safety.Unknown, p.plan.Safety.Allergens.Keys())
	}
	if what, out := p.plan.TasterAgainst(k.book().Panelist("tasterSE")); !out {
		t.Errorf("SE may sit down: %s", what)
	}
	for _, id := range []recipes.ID{"tasterMI", "tasterNO", "tasterSE"} {
		p.f.Tasters[id] = false
	}
	p.work()
	k.pushPin("plan.save")
	k.settle()
	all := k.book().TastingsOf(r.ID)
	if len(all) != 1 || all[0].Cleans != food.Sesame || !all[0].CleanFree {
		t.Fatalf("%+v", all)
	}
	if list := sheets.Against(k.book(), all[0]); !sheets.MayBegin(list) {
		t.Errorf("%+v", list)
	}
	k.do(tasting.PackRead(all[0].ID, "sesame cracker", food.Wheat))
	k.settle()
	if now := k.book().Tasting(all[0].ID); now.Cleans != food.Wheat {
		t.Errorf("%v", now.Cleans.Keys())
	}
}
