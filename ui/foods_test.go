package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

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

// releaseFile writes a table with another value of a food into a folder.
func releaseFile(t *testing.T, rows ...string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "sr27")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	text := "NDB_No,Shrt_Desc,Water_(g),Energ_Kcal,Protein_(g),Lipid_Tot_(g),Sodium_(mg),GmWt_1,GmWt_Desc1\n" + strings.Join(rows, "\n") + "\n"
	if err := os.WriteFile(filepath.Join(dir, "ABBREV.csv"), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestImportATableAndTakeItsFigures(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	r, l, f := k.used()
	rows := []string{f.Code + `,"OTHER FIGURES",10,` + "333,10,20,777,100,1 cup"}
	for i := range 30 {
		rows = append(rows, string(rune('0'+i/10))+string(rune('0'+i%10))+`999,"FILLER",10,100,10,1,1,100,1 cup`)
	}
	rows = append(rows, `97001,"BAD ROW",10,lots,10,1,1,100,1 cup`)
	k.pushPin("foods.tables")
	k.picture("tables-1280")
	k.pushPin("tables.import")
	k.picture("tables-file")
	k.escape()
	k.importTable(releaseFile(t, rows...))
	k.until("the table is in", func() bool { return len(k.book().Releases()) == 1 })
	k.settle()
	if k.win.Canvas().Overlays().Top() == nil {
		t.Fatal("what became of the table is not told")
	}
	if wrong := k.table("tables.wrong").Data().Rows; len(wrong) != 1 || !strings.Contains(wrong[0].Cells[0].Text, "line 33") {
		t.Errorf("rows left out: %+v", wrong)
	}
	k.picture("tables-imported")
	k.escape()
	p.table.SelectKey(f.Ref.String())
	k.pushPin("foods.relink")
	if got := k.figure("relink.rows", "energy_kcal", 2); got != "333" {
		t.Fatalf("the other row's energy: %q", got)
	}
	if len(k.table("relink.effect").Data().Rows) == 0 {
		t.Error("no effect is shown")
	}
	k.picture("relink-1280")
	uses := len(sheets.FoodUses(k.book(), f.Ref))
	k.accept()
	other := food.Ref{Source: f.Source, Release: "sr27", Code: f.Code}
	if got := k.book().Recipe(r.ID).Line(l.ID).Food; got != other {
		t.Fatalf("the line is linked to %v", got)
	}
	if got := len(sheets.FoodUses(k.book(), other)); got != uses || len(sheets.FoodUses(k.book(), f.Ref)) != 0 {
		t.Errorf("%d of %d uses followed", got, uses)
	}
	k.undo()
	k.settle()
	if got := k.book().Recipe(r.ID).Line(l.ID).Food; got != f.Ref {
		t.Errorf("undo left %v", got)
	}
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabOriginal})
	k.settle()
	k.lineDetails(k.book().Recipe(r.ID).Line(l.ID), nil)
	k.picture("line-relink")
	k.pushPin("line.relink")
	if got := k.pins["relink.where"].(*parts.Picker).Key(); got == "all" {
		t.Error("a line's own dialog is for all lines")
	}
	k.escape()
	k.openFoods()
	k.pushPin("foods.tables")
	list := k.table("tables.list")
	list.Select(1, 0)
	k.pushPin("tables.remove")
	if len(k.book().Releases()) != 0 || len(list.Data().Rows) != 1 {
		t.Error("the table was not taken off")
	}
}

func TestAFolderWithoutATableIsRefused(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openFoods()
	k.importTable(filepath.Join("..", "recipes"))
	k.until("the fault is told", func() bool { return k.win.Canvas().Overlays().Top() != nil })
	if len(k.book().Releases()) != 0 || k.status.Working() {
		t.Error("a folder without a table was imported, or the work never ends")
	}
}

// buttonsIn finds the buttons that can be pressed in a widget.
func buttonsIn(o fyne.CanvasObject) (out []*parts.Button) {
	switch x := o.(type) {
	case *parts.Button:
		if x.Visible() {
			return []*parts.Button{x}
		}
	case *fyne.Container:
		for _, c := range x.Objects {
			out = append(out, buttonsIn(c)...)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(x).Objects() {
			out = append(out, buttonsIn(c)...)
		}
	}
	return out
}

func TestAnImportCanBeStopped(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openFoods()
	k.importTable(releaseFile(t, `01009,"CHEESE,CHEDDAR",36.75,404,22.87,33.31,653,132,"1 cup, diced"`))
	if !k.status.Working() {
		t.Fatal("the status line shows no work")
	}
	stop := buttonsIn(k.status)
	if len(stop) != 1 {
		t.Fatalf("%d buttons in the status line", len(stop))
	}
	stop[0].Press()
	k.until("it is told", func() bool { return strings.Contains(k.status.Message(), "stopped") })
	k.settle()
	if len(k.book().Releases()) != 0 || k.status.Working() {
		t.Error("the import went on")
	}
}

func TestAnImportIsToldInTheStatusLineElsewhere(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openFoods()
	k.importTable(releaseFile(t, `01009,"CHEESE,CHEDDAR",36.75,404,22.87,33.31,653,132,"1 cup, diced"`))
	k.goTo(place{page: pageRecipes})
	k.until("it is told", func() bool { return strings.Contains(k.status.Message(), "Release 27: 1 food") })
	if k.win.Canvas().Overlays().Top() != nil {
		t.Error("a dialog opened over another page")
	}
	k.status.Act()
	if len(k.table("tables.list").Data().Rows) != 2 {
		t.Error("the line does not lead to the tables")
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

// BenchmarkFoodsKeystroke is one letter typed into the search with the starter
// foods and a published table at hand, until the page shows it.
func BenchmarkFoodsKeystroke(b *testing.B) {
	dir := filepath.Join("..", "..", "shared", "reference", "usda-sr28")
	if _, err := os.Stat(dir); err != nil {
		b.Skip("the reference folder is not here")
	}
	k := openKitchen(b, false, fyne.NewSize(1280, 800))
	p := k.openFoods()
	k.importTable(dir)
	k.until("the table is in", func() bool { return len(k.book().Releases()) == 1 })
	k.settle()
	k.escape()
	typed := []string{"c", "ch", "che", "ched", "chedd", "chedda", "cheddar"}
	k.win.Canvas().Focus(p.search)
	b.ResetTimer()
	for i := 0; b.Loop(); i++ {
		p.search.SetText(typed[i%len(typed)])
	}
}
