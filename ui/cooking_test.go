package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
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

// pickFood types into a pinned field and takes the first food of the list.
func pickFood(k *kitchenWindow, pin, typed string) string {
	k.t.Helper()
	e, ok := k.pins[pin].(*parts.Entry)
	if !ok {
		k.t.Fatalf("no field %q", pin)
	}
	found := k.foodSuggestions(typed)
	if len(found) == 0 {
		k.t.Fatalf("no food %q", typed)
	}
	k.win.Canvas().Focus(e)
	e.SetText("")
	for _, r := range typed {
		e.TypedRune(r)
	}
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	return e.Text
}

func press(k *kitchenWindow, pin string) {
	k.t.Helper()
	b, ok := k.pins[pin].(*parts.Button)
	if !ok {
		k.t.Fatalf("no button %q", pin)
	}
	b.Press()
}

func TestCookingOfAnIngredient(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabOriginal)
	milk := r.Line(recipes.ID(lineKey(t, r, "milk")))
	k.lineDetails(milk, nil)
	choose(k, "line.method", methodKeys+"simmered")
	setEntry(k, "line.minutes", "12")
	press(k, "line.default.marinade")
	setEntry(k, "line.bath.salt", "lots")
	k.picture("dialog-line-bath")
	k.confirm()
	if k.book().Recipe(r.ID).Line(milk.ID).Uptake != nil {
		t.Error("a share that cannot be read was kept")
	}
	setEntry(k, "line.bath.salt", "8")
	k.confirm()
	k.settle()
	l := k.book().Recipe(r.ID).Line(milk.ID)
	if l.Technique != (recipes.Technique{Method: "simmered", Minutes: 12}) {
		t.Errorf("technique %+v", l.Technique)
	}
	if l.Uptake == nil || l.Uptake.Salt != .08 || l.Uptake.Water != .06 {
		t.Errorf("uptake %+v", l.Uptake)
	}
	k.lineDetails(l, nil)
	k.pins["line.bath"].(*parts.Check).TypedRune(' ')
	setEntry(k, "line.eaten", "50")
	choose(k, "line.method", methodKeys)
	k.confirm()
	k.settle()
	if l := k.book().Recipe(r.ID).Line(milk.ID); l.Uptake != nil || l.PartEaten != .5 || l.Technique.Method != "" {
		t.Errorf("back to a part eaten: %+v", l)
	}
}

func TestTakingOff(t *testing.T) {
	k := openKitchen(t, true, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabOriginal)
	butter := r.Line(recipes.ID(lineKey(t, r, "butter")))
	k.lineDetails(butter, nil)
	press(k, "line.off.add")
	if len(k.book().Recipe(r.ID).Lines) != len(r.Lines) {
		t.Fatal("nothing chosen was taken off")
	}
	name := pickFood(k, "line.off.food", "butter oil")
	setEntry(k, "line.off.grams", "15")
	press(k, "line.off.add")
	k.settle()
	k.picture("dialog-line-off")
	if len(k.book().Recipe(r.ID).Lines) != len(r.Lines) {
		t.Fatal("taken off before it was saved")
	}
	k.press(fyne.KeyEscape)
	k.settle()
	if len(k.book().Recipe(r.ID).Lines) != len(r.Lines) {
		t.Fatal("Cancel kept what was taken off")
	}
	k.lineDetails(butter, nil)
	pickFood(k, "line.off.food", "butter oil")
	setEntry(k, "line.off.grams", "15")
	press(k, "line.off.add")
	k.confirm()
	k.settle()
	all := k.book().Recipe(r.ID).Lines
	if len(all) != len(r.Lines)+1 {
		t.Fatalf("%d ingredients (%s)", len(all), k.status.Message())
	}
	var off *recipes.Line
	for i, l := range all {
		if l.OffOf == butter.ID {
			off = l
			if all[i-1].ID != butter.ID {
				t.Error("it should stand under its ingredient")
			}
		}
	}
	if off == nil || off.Name != name || off.Kind != recipes.TakenOff || off.Grams != 15 {
		t.Fatalf("taken off %+v", off)
	}
	leave := "line.off.leave:15 g " + name
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabVersions})
	k.settle()
	k.picture("versions-off")
	if got := k.cell(string(off.ID), "").Text; got != "–15 g" {
		t.Errorf("the table says %q", got)
	}
	k.typeIn(string(off.ID), "A", "30 g")
	if got := k.cell(string(off.ID), "A").Text; got != "–30 g" {
		t.Errorf("typed over in A: %q (%s)", got, k.status.Message())
	}
	k.undo()
	k.settle()
	k.lineDetails(off, nil)
	if k.pins["line.grams"] == nil {
		t.Fatal("it should have facts of its own")
	}
	k.picture("dialog-line-is-off")
	k.press(fyne.KeyEscape)
	k.lineDetails(butter, nil)
	press(k, leave)
	k.confirm()
	k.settle()
	if len(k.book().Recipe(r.ID).Lines) != len(r.Lines) {
		t.Error("it should be left in again")
	}
}
