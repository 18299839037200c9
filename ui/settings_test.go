package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

func TestSettingsOfAWorkbook(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	table := k.cell("energy_kcal", "").Text
	k.settings()
	choose(k, "settings.basis", "eu")
	setEntry(k, "settings.money", "€")
	k.pins["settings.salt"].(*parts.Check).TypedRune(' ')
	k.pins["settings.kj"].(*parts.Check).TypedRune(' ')
	k.picture("dialog-settings")
	k.confirm()
	k.settle()
	p := k.versions()
	if p.keys[0] != "energy_kj" || k.cell("energy_kcal", "").Text == table {
		t.Errorf("first row %q, energy %q", p.keys[0], k.cell("energy_kcal", "").Text)
	}
	row, _ := k.cellAt("sodium_mg", "A")
	if got := p.table.Data().Rows[row].Cells[0].Text; got != "salt, g" {
		t.Errorf("sodium is shown as %q", got)
	}
	k.undo()
	k.settle()
	if got := k.cell("energy_kcal", "").Text; got != table || k.book().Setting(sheets.MoneySetting) != "" {
		t.Errorf("undone: %q", got)
	}
}

func TestAPriceGivesACost(t *testing.T) {
	k := openKitchen(t, true, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	p := k.versions()
	if p.rowOf(sheets.CostKey) >= 0 {
		t.Fatal("a cost without a price")
	}
	k.lineDetails(r.Line(recipes.ID(lineKey(t, r, "double cream"))), nil)
	for _, f := range []struct{ pin, text string }{{"price.money", "2,40"}, {"price.grams", "300 g"}} {
		e := k.pins[f.pin].(*parts.Entry)
		k.win.Canvas().Focus(e)
		e.SetText(f.text)
		k.win.Canvas().Unfocus()
	}
	k.settle()
	k.pressAnywhere(fyne.KeyEscape)
	k.settle()
	if p.rowOf(sheets.CostKey) < 0 {
		t.Fatalf("no cost (%s)", k.status.Message())
	}
	if got := k.cell(sheets.CostKey, "").Text; !strings.HasPrefix(got, "at least ") {
		t.Errorf("with one price: %q", got)
	}
	p.options.Sure = true
	p.showTable()
	if got := k.cell("energy_kcal", "A").Text; !strings.Contains(got, "±") {
		t.Errorf("how sure: %q", got)
	}
	k.picture("versions-cost-sure")
}

func TestAPriceOnTheFoodsPage(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	butter := r.Line(recipes.ID(lineKey(t, r, "butter"))).Food
	k.goTo(place{page: pageFoods})
	k.settle()
	p, _ := k.pages[pageFoods].(*foodsPage)
	p.detail.show(k.book().Food(butter))
	if !p.detail.price.view.Visible() {
		t.Fatal("a food of the workbook should take a price")
	}
	for _, f := range []struct{ pin, text string }{{"price.money", "2.50"}, {"price.grams", "250 g"}} {
		e := k.pins[f.pin].(*parts.Entry)
		k.win.Canvas().Focus(e)
		e.SetText(f.text)
		k.win.Canvas().Unfocus()
	}
	k.settle()
	if got := k.book().Price(butter); got == nil || got.Money != 2.5 || got.Grams != 250 {
		t.Errorf("price %+v (%s)", got, k.status.Message())
	}
	k.picture("foods-price")
}

// pressAnywhere sends a key to the dialog when no field has the keyboard.
func (k *kitchenWindow) pressAnywhere(name fyne.KeyName) {
	if f := k.win.Canvas().Focused(); f != nil {
		f.TypedKey(&fyne.KeyEvent{Name: name})
		return
	}
	k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: name})
}
