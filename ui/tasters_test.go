package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/ui/parts"
)

// A taster is written down, asked, and removed, by what the page offers.
func TestTastersAreWrittenDownAndRemoved(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.goTo(place{page: pageTasters})
	k.settle()
	k.picture("tasters-empty")
	p := k.pages[pageTasters].(*tastersPage)
	p.add()
	k.pins["taster.code"].(*parts.Entry).SetText("AB")
	k.pins["taster.not-eaten"].(*parts.Entry).SetText("pork, mushrooms")
	k.pins["taster.consent"].(*parts.Entry).SetText("yesterday")
	k.picture("tasters-form")
	k.table("taster.allergens").OnToggle(2, 1) // fish
	k.win.Canvas().Focus(k.pins["taster.code"].(*parts.Entry))
	k.press(fyne.KeyReturn)
	k.settle()
	if len(k.book().Panelists()) != 0 {
		t.Fatal("a consent without a date was kept")
	}
	k.pins["taster.consent"].(*parts.Entry).SetText("today")
	k.win.Canvas().Focus(k.pins["taster.consent"].(*parts.Entry))
	k.press(fyne.KeyReturn)
	k.settle()
	all := k.book().Panelists()
	if len(all) != 1 {
		t.Fatalf("%d tasters", len(all))
	}
	if a := all[0]; a.Code != "AB" || !a.Asked || a.Allergens != food.Fish || len(a.DoesNotEat) != 2 || len(a.Consent) != 10 {
		t.Errorf("%+v", a)
	}
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "x", Code: "CD", Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "y", Code: "EF"}))
	k.settle()
	k.picture("tasters")
	p.remove(0)
	k.picture("tasters-remove")
	k.press(fyne.KeyReturn)
	k.settle()
	if k.book().Panelist(all[0].ID) != nil {
		t.Error("a person who never sat down is still there")
	}
}
