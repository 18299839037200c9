package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
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

// A tasting that is served on another day than planned says so, and keeps the day
// that is typed; on the planned day nothing is asked.
func TestAnotherDayThanPlannedIsAskedFor(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	today := sheets.Today(k.now())
	r := k.setTable("AB", "CD")
	tt := k.plan(r, func(f *sheets.PlanFields) { f.Date, f.Attributes = "2026-02-27", "" })
	k.showTastings(r.ID, tt.ID)
	k.settle()
	pressPin(k, "tastings.begin")
	k.picture("tastings-begin-other-day")
	if said := strings.ReplaceAll(k.reads(), "\n", " "); !strings.Contains(said, "It was planned for 27 Feb 2026") {
		t.Errorf("the other day is not told: %s", said)
	}
	day := func() *parts.Entry { return k.pins["tastings.served-on"].(*parts.Entry) }
	if day().Text != today {
		t.Errorf("the day is filled with %q", day().Text)
	}
	day().SetText("some day")
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	if k.book().Tasting(tt.ID).State != recipes.TastingPlanned {
		t.Fatal("it began on some day")
	}
	day().SetText("2026-02-28")
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	if now := k.book().Tasting(tt.ID); now.State != recipes.TastingServing || now.Date != "2026-02-28" {
		t.Fatalf("%s on %s", now.State, now.Date)
	}
	pressPin(k, "tastings.close")
	k.picture("tastings-close-other-day")
	if day().Text != "2026-02-28" {
		t.Errorf("at the end the day is filled with %q", day().Text)
	}
	day().SetText("1 March 2026")
	k.pins["tastings.early"].(*parts.Entry).SetText("nobody came")
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	if now := k.book().Tasting(tt.ID); now.State != recipes.TastingClosed || now.Date != "2026-03-01" || k.status.Message() != words.Say("did.close-tasting", now.Date) {
		t.Errorf("%s on %s, %q", now.State, now.Date, k.status.Message())
	}
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
	if said := k.status.Message(); said != words.Say("did.begin-tasting", k.book().Tasting(tt.ID).Date) {
		t.Errorf("an undo of something older stands after serving began: %q", said)
	}
}
