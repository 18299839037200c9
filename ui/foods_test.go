package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

func (k *kitchenWindow) openFoods() *foodsPage {
	k.t.Helper()
	k.goTo(place{page: pageFoods})
	p, _ := k.pages[pageFoods].(*foodsPage)
	k.until("the foods are read", func() bool { return p.foods != nil })
	k.settle()
	return p
}

func (k *kitchenWindow) pushPin(name string) {
	k.t.Helper()
	b, ok := k.pins[name].(*parts.Button)
	if !ok || !b.Visible() || b.Disabled() {
		k.t.Fatalf("there is no button %s to press", name)
	}
	b.Press()
	k.settle()
}

// fill types into a field of a form.
func (k *kitchenWindow) fill(name, text string) {
	k.t.Helper()
	e, ok := k.pins[name].(*parts.Entry)
	if !ok {
		k.t.Fatalf("there is no field %s", name)
	}
	k.win.Canvas().Focus(e)
	e.SetText(text)
	k.settle()
}

func (k *kitchenWindow) accept() {
	k.t.Helper()
	k.win.Canvas().Unfocus()
	k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyReturn})
	k.settle()
}

func (k *kitchenWindow) escape() {
	k.t.Helper()
	k.win.Canvas().Unfocus()
	k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	k.settle()
}

func (k *kitchenWindow) table(name string) *parts.Matrix {
	k.t.Helper()
	m, ok := k.pins[name].(*parts.Matrix)
	if !ok {
		k.t.Fatalf("there is no table %s", name)
	}
	return m
}

// figure is a row's figure in a table of them.
func (k *kitchenWindow) figure(table, key string, col int) string {
	for _, r := range k.table(table).Data().Rows {
		if r.Key == key {
			return r.Cells[col].Text
		}
	}
	return ""
}

func (k *kitchenWindow) search(p *foodsPage, text string) {
	k.win.Canvas().Focus(p.search)
	p.search.SetText(text)
	k.settle()
}

// pinned is a food the gratin's original uses.
func (k *kitchenWindow) used() (*recipes.Recipe, *recipes.Line, *food.Food) {
	k.t.Helper()
	r := k.book().Recipes()[0]
	for _, l := range r.Lines {
		if f := k.book().Food(l.Food); f != nil && !sheets.Own(f) {
			return r, l, f
		}
	}
	k.t.Fatal("no line has a published food")
	return nil, nil, nil
}

func (k *kitchenWindow) ownUsed() *food.Food {
	k.t.Helper()
	for _, f := range k.book().Foods() {
		if sheets.Own(f) && len(sheets.FoodUses(k.book(), f.Ref)) > 0 {
			return f
		}
	}
	k.t.Fatal("no own food is used")
	return nil
}

func TestFoodsPageListsAndFinds(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	if k.win.Canvas().Focused() != p.search {
		t.Error("the search field does not have the keyboard")
	}
	if first := p.table.Data().Rows[0]; first.Kind != parts.RowSection || first.Cells[0].Text != "My own" {
		t.Errorf("first row: %+v", first)
	}
	if !sheets.Own(p.found[p.at]) || !p.detail.edit.Visible() {
		t.Errorf("the first own food is not shown: %v", p.at)
	}
	k.picture("foods-1280")
	k.search(p, "chedar chese")
	if len(p.rows) == 0 || !strings.Contains(strings.ToLower(p.found[p.rows[0]].Name), "cheddar") {
		t.Fatalf("a slip is not found: %+v", p.rows)
	}
	k.search(p, "milk whole")
	whole := p.rows[0]
	k.search(p, "whole milk")
	if p.rows[0] != whole {
		t.Error("the order of words matters")
	}
	if p.detail.edit.Visible() || !p.detail.start.Visible() {
		t.Error("a published row can be edited")
	}
	p.search.OnSubmitted(p.search.Text)
	if k.win.Canvas().Focused() != p.table {
		t.Error("Enter does not lead to the list")
	}
	p.table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if p.at != p.rows[1] || p.detail.name.Text() != p.found[p.rows[1]].Name {
		t.Error("Down does not choose the next food")
	}
	k.search(p, "xqzzy")
	if len(p.rows) != 0 || p.table.Data().Empty == "" || p.detail.view.Visible() {
		t.Error("nothing found is not said")
	}
	k.picture("foods-nothing")
}

func TestUsedInOpensTheRecipe(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	_, _, f := k.used()
	p.table.SelectKey(f.Ref.String())
	uses := sheets.FoodUses(k.book(), f.Ref)
	if got := len(p.detail.used.Data().Rows); got != len(uses) || got == 0 {
		t.Fatalf("%d rows for %d uses", got, len(uses))
	}
	p.detail.used.OnActivate(0, 0)
	k.settle()
	if k.at.page != pageRecipe || k.at.recipe != uses[0].Recipe.ID {
		t.Errorf("at %+v", k.at)
	}
}

func TestOwnFoodFromALabel(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	k.pushPin("foods.new")
	k.fill("label.name", "Oat crumb")
	k.fill("label.note", "label of the 400 g bag")
	per, _ := k.pins["label.per"].(*parts.Segmented)
	per.SetKey(sheets.PerPortion)
	per.OnPick(sheets.PerPortion)
	k.fill("label.portion", "40 g")
	k.fill("label.energy_kj", "600")
	k.fill("label.fat_g", "2,8")
	k.fill("label.carbohydrate_g", "24")
	k.fill("label.protein_g", "5,2")
	k.fill("label.salt_g", "0,02")
	basis, _ := k.pins["label.basis"].(*parts.Segmented)
	basis.SetKey(basisEU)
	basis.OnPick(basisEU)
	k.settle()
	if got := k.figure("label.live", "fat_g", 1); got != "7" {
		t.Errorf("fat in 100 g: %q", got)
	}
	if got := k.figure("label.live", "carbohydrate_g", 1); got != "not known" {
		t.Errorf("EU carbohydrate without fibre: %q", got)
	}
	k.picture("label-1280")
	k.fill("label.fibre_g", "4")
	if got := k.figure("label.live", "carbohydrate_g", 1); got != "70" {
		t.Errorf("EU carbohydrate with fibre: %q", got)
	}
	ticks := k.table("label.allergens")
	k.win.Canvas().Focus(ticks)
	ticks.Select(8, 1)
	ticks.TypedRune(' ')
	k.fill("label.measures", "1 tbsp = 7 g")
	k.fill("label.name", "")
	k.accept()
	if k.win.Canvas().Overlays().Top() == nil {
		t.Fatal("a food without a name was saved")
	}
	k.picture("label-fault")
	k.fill("label.name", "Oat crumb")
	k.accept()
	if k.win.Canvas().Overlays().Top() != nil {
		t.Fatal("the form stays open")
	}
	f := k.book().Food(p.at)
	if f == nil || f.Name != "Oat crumb" || !sheets.Own(f) {
		t.Fatalf("the new food is not chosen: %+v", f)
	}
	sodium, _ := f.Per100.Get(food.Sodium)
	if _, known := f.Per100.Get(food.Sugars); known || sodium != 20 || f.Measures[0].Grams != 7 {
		t.Errorf("kept as %+v", f)
	}
	if f.Allergens.Recorded || f.Allergens.Contains != food.OtherGluten {
		t.Errorf("allergens %+v", f.Allergens)
	}
	k.search(p, "oat crumb")
	if p.rows[0] != f.Ref {
		t.Error("it is not found first")
	}
	k.search(p, "")
	p.table.OnDelete(rowOfRef(p, f.Ref), 0)
	k.settle()
	if k.book().Food(f.Ref) != nil {
		t.Fatal("Delete left an own food nothing uses")
	}
	k.undo()
	k.settle()
	if k.book().Food(f.Ref) == nil {
		t.Error("undo did not bring it back")
	}
}

func rowOfRef(p *foodsPage, ref food.Ref) int {
	for i, r := range p.rows {
		if r == ref {
			return i
		}
	}
	return -1
}

func TestCorrectingAnOwnFoodShowsWhatItDoesFirst(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	own := k.ownUsed()
	p.table.SelectKey(own.Ref.String())
	k.pushPin("foods.edit")
	k.accept()
	if k.view.Undo != "" && strings.Contains(k.view.Undo, own.Name) {
		t.Error("saving without a change was an edit")
	}
	k.pushPin("foods.edit")
	kcal, _ := own.Per100.Get(food.EnergyKcal)
	k.fill("label.energy_kcal", "100")
	k.accept()
	effect := k.table("effect.table")
	if rows := effect.Data().Rows; len(rows) < 2 || rows[1].Cells[1].Text == rows[1].Cells[2].Text {
		t.Fatalf("the effect shows %+v", rows)
	}
	k.picture("effect-1280")
	k.escape()
	if now, _ := k.book().Food(own.Ref).Per100.Get(food.EnergyKcal); now != kcal {
		t.Error("Esc kept the correction")
	}
	k.accept()
	k.accept()
	if now, _ := k.book().Food(own.Ref).Per100.Get(food.EnergyKcal); now != 100 {
		t.Fatalf("energy is %v", now)
	}
	if k.win.Canvas().Overlays().Top() != nil {
		t.Error("a dialog stays open")
	}
	k.undo()
	k.settle()
	if now, _ := k.book().Food(own.Ref).Per100.Get(food.EnergyKcal); now != kcal {
		t.Errorf("undo left %v", now)
	}
	p.table.SelectKey(own.Ref.String())
	k.pushPin("foods.remove")
	if k.book().Food(own.Ref) == nil || k.win.Canvas().Overlays().Top() == nil {
		t.Error("a used food was removed, or the refusal is not shown")
	}
	k.picture("foods-in-use")
}

func TestStartingFromAPublishedFood(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	k.search(p, "butter salted")
	from := p.found[p.rows[0]]
	k.pushPin("foods.start")
	k.fill("label.name", "Farm butter")
	k.accept()
	f := k.book().Food(p.at)
	if f == nil || f.Name != "Farm butter" || f.Per100 != from.Per100 || f.Allergens.Recorded {
		t.Errorf("started as %+v", f)
	}
}

func TestFoodsPageLooks(t *testing.T) {
	for _, l := range []struct {
		name   string
		dark   bool
		factor float32
		size   fyne.Size
	}{
		{"foods-1920-dark", true, 1, fyne.NewSize(1920, 1080)},
		{"foods-narrow", false, 1, fyne.NewSize(900, 700)},
		{"foods-large", false, 1.6, fyne.NewSize(1280, 800)},
		{"foods-narrow-large", true, 1.6, fyne.NewSize(900, 700)},
	} {
		k := openKitchen(t, l.dark, l.size)
		k.setTheme(l.dark, l.factor)
		p := k.openFoods()
		own := k.ownUsed()
		p.table.SelectKey(own.Ref.String())
		k.settle()
		k.picture(l.name)
		k.pushPin("foods.edit")
		k.picture(l.name + "-form")
		k.escape()
		k.pushPin("foods.relink")
		k.picture(l.name + "-relink")
		if p.view.narrow() != (l.size.Width/l.factor < 1100) {
			t.Errorf("%s: narrow is %v", l.name, p.view.narrow())
		}
	}
}
