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

func TestVersionMenu(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	p := k.versions()
	_, col := k.cellAt("energy_kcal", "B")
	items := map[string]parts.MenuItem{}
	for _, it := range p.versionItems(col) {
		items[it.Label] = it
	}
	items["Move left"].Do()
	k.settle()
	if got := k.book().Versions(r.ID)[0].Letter; got != "B" {
		t.Errorf("%s comes first, want B", got)
	}
	items["Duplicate"].Do()
	k.settle()
	all := k.book().Versions(r.ID)
	last := all[len(all)-1]
	if b := k.book().Versions(r.ID)[0]; len(last.Swaps) != len(b.Swaps) || last.ID == b.ID {
		t.Errorf("the copy has %v", last.Swaps)
	}
	items["Remove"].Do()
	k.settle()
	if k.book().Versions(r.ID)[0].Letter != "A" {
		t.Error("B should be gone")
	}
	k.versionDialog(k.book().Versions(r.ID)[0].ID)
	k.picture("dialog-version")
	setEntry(k, "version.name", "with yogurt")
	setEntry(k, "version.servings", "8")
	k.confirm()
	k.settle()
	if v := k.book().Versions(r.ID)[0]; v.Name != "with yogurt" || v.Servings != 8 {
		t.Errorf("version %+v", v)
	}
}

// setEntry puts text into a pinned field.
func setEntry(k *kitchenWindow, pin, text string) {
	k.t.Helper()
	e, ok := k.pins[pin].(*parts.Entry)
	if !ok {
		k.t.Fatalf("no field %q", pin)
	}
	e.SetText(text)
}

// confirm presses Enter for the open dialog.
func (k *kitchenWindow) confirm() {
	k.win.Canvas().Unfocus()
	k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func TestBrief(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	k.editBrief()
	k.picture("dialog-brief")
	setEntry(k, "brief.keep", "the smoke")
	setEntry(k, "brief.energy_kcal", "lots")
	k.confirm()
	k.picture("dialog-brief-wrong")
	if k.book().Recipe(r.ID).Brief.Keep == "the smoke" {
		t.Error("a brief with a fault was kept")
	}
	setEntry(k, "brief.energy_kcal", "450")
	setEntry(k, "brief.sodium_mg", "2 g salt")
	setEntry(k, "brief.limit", "0,5")
	k.confirm()
	k.settle()
	b := k.book().Recipe(r.ID).Brief
	want := map[food.Nutrient]float64{food.EnergyKcal: 450, food.Sodium: 800}
	for _, target := range b.Targets {
		if w, ok := want[target.Nutrient]; ok && w != target.Amount {
			t.Errorf("%s %v, want %v", target.Nutrient.Key(), target.Amount, w)
		}
	}
	if b.Keep != "the smoke" || b.Limit != .5 {
		t.Errorf("brief %+v", b)
	}
}

func TestNumbersLeadToTheirSource(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	p := k.versions()
	p.activate(k.cellAt("energy_kcal", "A"))
	k.picture("dialog-makeup")
	list, ok := k.pins["makeup.list"].(*parts.ShareList)
	if !ok {
		t.Fatal("the number should open what makes it up")
	}
	k.win.Canvas().Focus(list)
	k.press(fyne.KeyReturn)
	if _, ok := k.pins["line.grams"]; !ok {
		t.Fatal("an ingredient should open its facts")
	}
	k.picture("dialog-line")
	facts, _ := p.bench.LineFacts(r.Lines[0].ID, 0)
	if !strings.Contains(facts.Source, r.Lines[0].Food.Code) || facts.Allergens == "" {
		t.Errorf("source %q, allergens %q", facts.Source, facts.Allergens)
	}
}

func TestIngredientDialogPutsALineRight(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	id := recipes.ID(lineKey(t, r, "butter"))
	k.lineDetails(r.Line(id), nil)
	setEntry(k, "line.grams", "sixty")
	k.confirm()
	if k.book().Recipe(r.ID).Line(id).Grams != r.Line(id).Grams {
		t.Error("a weight that cannot be read was kept")
	}
	setEntry(k, "line.grams", "62")
	setEntry(k, "line.eaten", "90")
	k.confirm()
	k.settle()
	if l := k.book().Recipe(r.ID).Line(id); l.Grams != 62 || l.PartEaten != .9 {
		t.Errorf("line %+v", l)
	}
	brought := k.versions().bench.Stands(2, id)[0]
	k.lineDetails(brought.Line, k.versions().bench.Versions[2])
	setEntry(k, "line.grams", "22")
	k.confirm()
	k.settle()
	if got := k.cell(string(id), "B").Text; got != "22 g olive oil" {
		t.Errorf("B has %q (%s)", got, k.status.Message())
	}
}

func TestExport(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	dir := t.TempDir()
	k.exportRecipe()
	k.picture("dialog-export")
	setEntry(k, "print.folder", filepath.Join(dir, "nowhere"))
	setEntry(k, "print.width", "100")
	k.confirm() // asks whether to make it
	k.escape()  // no
	if files, _ := os.ReadDir(dir); len(files) != 0 {
		t.Fatal("nothing should be written into a folder that is not there")
	}
	k.confirm()
	k.picture("dialog-export-make")
	k.confirm() // make it
	k.until("the files are written", func() bool { return strings.Count(saved(t, dir), "\n") == 8 })
	k.settle()
	all := saved(t, dir)
	for _, want := range []string{"change-by-version.png", "change-by-version.svg", "change-by-version.pdf", "energy-comes-from.png", "captions.csv", "captions.txt", "versions.csv"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %s among:\n%s", want, all)
		}
	}
	if said := k.status.Message(); !strings.Contains(said, "nowhere") || !strings.Contains(said, "9") {
		t.Errorf("the status line says %q", said)
	}
}

func TestEmptyStateAndDoubts(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openRecipe(0, tabVersions)
	for _, v := range k.book().Versions(r.ID) {
		k.do(recipes.RemoveVersion(r.ID, v.ID))
	}
	k.settle()
	p := k.versions()
	if !p.empty.Visible() || p.chart.view.Visible() {
		t.Error("without versions the page should say how to begin")
	}
	k.picture("empty")
	k.typeIn(sheets.AddLineKey, "", "some zzyzxqq")
	l := *r.Lines[0]
	l.Doubts, l.Settled = []recipes.Doubt{{Kind: recipes.DoubtAmount}}, false
	k.do(recipes.SetLine(r.ID, &l, nil))
	k.settle()
	if !p.banner.Visible() || p.warned == "" {
		t.Error("a doubt should be told of")
	}
	test.Tap(k.pins["versions.doubts"].(fyne.Tappable))
	if k.at.tab != tabOriginal {
		t.Error("the banner should lead to the original")
	}
}
