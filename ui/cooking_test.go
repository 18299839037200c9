package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// choose picks an item of a pinned list by its key.
func choose(k *kitchenWindow, pin, key string) {
	k.t.Helper()
	p, ok := k.pins[pin].(*parts.Picker)
	if !ok {
		k.t.Fatalf("no list %q", pin)
	}
	k.win.Canvas().Focus(p)
	for range 40 {
		if p.Key() == key {
			return
		}
		p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	for range 80 {
		if p.Key() == key {
			return
		}
		p.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	}
	k.t.Fatalf("%q has no %q", pin, key)
}

func TestSayingHowTheDishIsCooked(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	p := k.versions()
	p.cooked.Press()
	choose(k, "cooking.method", methodKeys+"braised")
	setEntry(k, "cooking.minutes", "soon")
	k.picture("dialog-cooking")
	k.confirm()
	if k.book().Recipe(r.ID).Dish.Method == "braised" {
		t.Error("a time that cannot be read was kept")
	}
	setEntry(k, "cooking.minutes", "50")
	k.confirm()
	k.settle()
	if got := k.book().Recipe(r.ID).Dish; got.Method != "braised" || got.Minutes != 50 {
		t.Errorf("the dish is %+v", got)
	}
	if got := p.cooked.Text(); !strings.Contains(got, "braised, 50 minutes") {
		t.Errorf("the page says %q", got)
	}
	k.undo()
	k.settle()
	if got := k.book().Recipe(r.ID).Dish; got != r.Dish {
		t.Errorf("undone it is %+v, want %+v", got, r.Dish)
	}
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabOriginal})
	k.settle()
	choose(k, "original.method", methodKeys+"roasted")
	k.settle()
	if got := k.book().Recipe(r.ID).Dish.Method; got != "roasted" {
		t.Errorf("from the original's page: %q", got)
	}
	k.picture("original-cooked")
}

func TestWeightRowOpensTheCooking(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	p := k.versions()
	row, col := k.cellAt(sheets.DishWeightKey, "A")
	p.table.Select(row, col)
	k.picture("versions-weight")
	p.activate(row, col)
	if k.pins["cooking.method"] == nil {
		t.Error("the weight should lead to how the dish is cooked")
	}
}
