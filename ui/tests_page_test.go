package ui

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
)

// sentences to write long notes with.
const wentWell = "The crust was crisp to the edge and the leeks kept some bite."

// uncooked opens a copy of the demo's gratin with two versions and no test.
func (k *kitchenWindow) uncooked(tab string) *recipes.Recipe {
	k.t.Helper()
	r := *k.book().Recipes()[0]
	r.ID, r.Title, r.Order = "supper", "Smoked haddock and leek supper", 1000
	k.do(recipes.All(words.P("did.add-recipe", r.Title), r.ID,
		recipes.AddRecipe(&r, nil), recipes.AddVersion(r.ID, "va", "yogurt", ""), recipes.AddVersion(r.ID, "vb", "oil", "")))
	k.settle()
	k.openTab(tab)
	return k.book().Recipe(r.ID)
}

func (k *kitchenWindow) openTab(tab string) {
	k.goTo(place{page: pageRecipe, recipe: "supper", tab: tab})
	k.settle()
}

// cookGratin adds tests: two of A, one of B, one of the original set aside.
func (k *kitchenWindow) cookGratin(r *recipes.Recipe) {
	k.t.Helper()
	versions := k.book().Versions(r.ID)
	test := func(id string, v recipes.ID, more func(*recipes.Batch)) {
		t := &recipes.Batch{ID: recipes.ID(id), Recipe: r.ID, Version: v, Date: "2026-02-14", Cook: "Ines", FullDish: 3240, Dish: 812, LeftOver: 0, Servings: 6, Celsius: 180, Minutes: 35}
		more(t)
		k.do(recipes.AddTest(t))
	}
	test("one", versions[0].ID, func(t *recipes.Batch) { t.NextTime = "rest it ten minutes before cutting\nmore leek" })
	test("two", versions[0].ID, func(t *recipes.Batch) {
		t.Date, t.FullDish, t.WentWell, t.WentBad = "2026-02-21", 3310, wentWell, "A little dry at the rim."
		t.AsCooked = map[recipes.ID]float64{r.Lines[0].ID: r.Lines[0].Grams * 1.12, r.Lines[1].ID: r.Lines[1].Grams * 1.01}
		t.NextTime = "grate the cheese finer\n✓ buy smoked haddock on the bone"
	})
	test("three", versions[1].ID, func(t *recipes.Batch) { t.Date = "2026-02-28"; t.Celsius = (350.0 - 32) / 1.8 })
	test("four", "", func(t *recipes.Batch) { t.Date = "2026-01-30"; t.SetAside = "forgot the salt"; t.Cook = "Tom" })
	k.settle()
}

func (k *kitchenWindow) openTests() *recipes.Recipe {
	k.t.Helper()
	r := k.uncooked(tabTests)
	k.cookGratin(r)
	return r
}

// testRow finds the row of a test.
func (k *kitchenWindow) testRow(id string) int {
	k.t.Helper()
	for i, key := range k.tests().keys {
		if key == id {
			return i
		}
	}
	k.t.Fatalf("no row of %q", id)
	return -1
}

// pressPin presses a pinned button.
func pressPin(k *kitchenWindow, name string) {
	k.t.Helper()
	b, ok := k.pins[name].(*parts.Button)
	if !ok {
		k.t.Fatalf("no button %q", name)
	}
	b.Press()
	k.settle()
}

func TestTheKitchenLog(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openTests()
	p := k.tests()
	if p.empty.Visible() || !p.log.Visible() || len(p.keys) != 7 {
		t.Fatalf("rows %v", p.keys)
	}
	p.table.Select(k.testRow("two"), 0)
	k.settle()
	if p.card.title.Text() != "Test 2 of A" {
		t.Errorf("the card shows %q", p.card.title.Text())
	}
	if !p.card.cooked.Visible() || p.card.noCooked.Visible() {
		t.Error("what was weighed should be beside the recipe")
	}
	k.picture("tests-card")
	p.table.Select(k.testRow("four"), 0)
	if !p.card.banner.Visible() || p.card.aside.Text() != "Take back" {
		t.Error("a test set aside should say so")
	}
}

func TestAddingATest(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.uncooked(tabTests)
	p := k.tests()
	if !p.empty.Visible() {
		t.Error("without tests the page should say how to begin")
	}
	k.picture("tests-empty")
	pressPin(k, "tests.empty.add")
	versions := k.book().Versions(r.ID)
	choose(k, "test.version", "v:"+string(versions[0].ID))
	setEntry(k, "test.date", "31 Feb 2026")
	setEntry(k, "test.full", "heavy")
	setEntry(k, "test.dish", "812")
	setEntry(k, "test.heat", "350")
	table, _ := k.pins["test.as-cooked"].(*parts.Matrix)
	table.OnEdit(0, 2, "some")
	k.confirm()
	k.picture("tests-dialog-wrong")
	if len(k.book().Batches(r.ID)) != 0 {
		t.Fatal("a test with faults was kept")
	}
	setEntry(k, "test.date", "3 Jan 2026")
	setEntry(k, "test.full", "3.2 kg")
	setEntry(k, "test.heat", "350 F")
	setEntry(k, "test.servings", "6")
	setEntry(k, "test.next", "more leek")
	k.win.Canvas().Focus(table)
	for _, r := range "310" {
		k.win.Canvas().Focused().TypedRune(r)
	}
	k.press(fyne.KeyReturn)
	k.picture("tests-dialog")
	k.confirm()
	k.settle()
	all := k.book().Batches(r.ID)
	if len(all) != 1 {
		t.Fatalf("%d tests (%s)", len(all), k.status.Message())
	}
	x := all[0]
	if x.AsCooked[r.Lines[0].ID] != 310 {
		t.Errorf("weighed %v", x.AsCooked)
	}
	if x.Date != "2026-01-03" || x.FullDish != 3200 || x.Version != versions[0].ID || x.Number != 1 || len(x.AsCooked) != 1 || x.Celsius < 176 || x.Celsius > 177 {
		t.Errorf("kept %+v", x)
	}
	if p.chosen != x.ID || p.empty.Visible() {
		t.Error("the new test should be in sight")
	}
	if k.view.Undo != "Added test 1 of A" {
		t.Errorf("undo says %q", k.view.Undo)
	}
	k.undo()
	k.settle()
	if len(k.book().Batches(r.ID)) != 0 || !p.empty.Visible() {
		t.Error("undo should take the test away")
	}
}

func TestChangingATest(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openTests()
	p := k.tests()
	p.table.Select(k.testRow("two"), 0)
	pressPin(k, "tests.edit")
	before := k.view.Undo
	k.confirm()
	k.settle()
	if k.view.Undo != before {
		t.Errorf("nothing was changed, yet undo says %q", k.view.Undo)
	}
	k.win.Canvas().Focus(p.table)
	k.press(fyne.KeyReturn)
	setEntry(k, "test.left", "90 g")
	k.confirm()
	k.settle()
	got := k.book().Test(r.ID, "two")
	if got.LeftOver != 90 || got.Number != 2 || got.FullDish != 3310 || len(got.AsCooked) != 2 {
		t.Errorf("changed to %+v", got)
	}
}

func TestSettingAsideAndRemoving(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openTests()
	p := k.tests()
	p.table.Select(k.testRow("one"), 0)
	pressPin(k, "tests.set-aside")
	k.confirm()
	if k.book().Test(r.ID, "one").SetAside != "" {
		t.Error("set aside without a reason")
	}
	k.picture("tests-aside")
	setEntry(k, "tests.aside.why", "the oven failed")
	k.confirm()
	k.settle()
	if got := k.book().Test(r.ID, "one").SetAside; got != "the oven failed" {
		t.Errorf("reason %q", got)
	}
	pressPin(k, "tests.set-aside")
	if k.book().Test(r.ID, "one").SetAside != "" {
		t.Error("the test should be back")
	}
	k.win.Canvas().Focus(p.table)
	k.press(fyne.KeyDelete)
	k.settle()
	if k.book().Test(r.ID, "one") != nil || p.chosen == "one" || p.current() == nil {
		t.Error("the test should be gone and another in sight")
	}
	k.undo()
	k.settle()
	if k.book().Test(r.ID, "one") == nil {
		t.Error("undo should bring it back")
	}
}

func TestNextTimeHeadsTheRecipe(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openTests()
	p := k.tests()
	strip := k.recipeNext()
	if strip.view.Visible() {
		t.Error("on the Tests page the list itself is in sight")
	}
	k.openTab(tabVersions)
	if !strip.view.Visible() || strip.said != "Next time: grate the cheese finer · rest it ten minutes before cutting · more leek" {
		t.Errorf("the recipe is headed by %q", strip.said)
	}
	k.picture("tests-strip")
	pressPin(k, "recipe.next")
	if k.at.tab != tabTests {
		t.Fatal("the strip should lead to the tests")
	}
	for range 3 {
		for i, it := range p.next.items {
			if !it.Done {
				p.next.table.OnToggle(i, 1)
				break
			}
		}
		k.settle()
	}
	if got := k.book().Test(r.ID, "one").NextTime; got != "✓ rest it ten minutes before cutting\n✓ more leek" {
		t.Errorf("struck %q", got)
	}
	k.openTab(tabVersions)
	if strip.view.Visible() {
		t.Error("with all done nothing heads the recipe")
	}
	k.undo()
	k.settle()
	if !strip.view.Visible() || !strings.HasSuffix(strip.said, "more leek") {
		t.Errorf("after undo: %q", strip.said)
	}
}

func (k *kitchenWindow) recipeNext() *nextStrip {
	r, _ := k.pages[pageRecipe].(*recipePage)
	return r.next
}

func TestPrintingTestSheets(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.openTests()
	dir := t.TempDir()
	k.printTestSheets()
	k.picture("tests-print")
	for _, v := range k.book().Versions(r.ID) {
		box, _ := k.pins["print:"+v.Letter].(*parts.Check)
		box.Set(false)
	}
	original, _ := k.pins["print.original"].(*parts.Check)
	original.Set(false)
	k.confirm()
	if _, open := k.pins["file.name"]; open {
		t.Fatal("nothing was ticked, yet a file was asked for")
	}
	original.Set(true)
	paper, _ := k.pins["print.paper"].(*parts.Segmented)
	paper.SetKey("letter")
	k.confirm()
	path := filepath.Join(dir, "gratin")
	setEntry(k, "file.name", path)
	k.confirm()
	k.until("the file is written", func() bool { return strings.Contains(k.status.Message(), dir) })
	data, err := os.ReadFile(path + ".pdf")
	if err != nil || !bytes.HasPrefix(data, []byte("%PDF")) || bytes.Count(data, []byte("/Type /Page\n")) != 1 {
		t.Errorf("the file: %v, %d bytes", err, len(data))
	}
	if k.app.Preferences().String(prefPaper) != "letter" {
		t.Error("the paper should be remembered")
	}
}

// TestLookAtTests opens the page at the sizes it must look right at.
func TestLookAtTests(t *testing.T) {
	for _, c := range []struct {
		name   string
		dark   bool
		factor float32
		size   fyne.Size
	}{
		{"tests-light-1280", false, 1, fyne.NewSize(1280, 800)},
		{"tests-dark-1280", true, 1, fyne.NewSize(1280, 800)},
		{"tests-light-1920", false, 1, fyne.NewSize(1920, 1080)},
		{"tests-dark-1920", true, 1, fyne.NewSize(1920, 1080)},
		{"tests-narrow", false, 1, fyne.NewSize(900, 700)},
		{"tests-large", false, 1.6, fyne.NewSize(1280, 800)},
	} {
		k := openKitchen(t, c.dark, c.size)
		k.setTheme(c.dark, c.factor)
		k.openTests()
		p := k.tests()
		p.table.Select(k.testRow("two"), 0)
		k.settle()
		if s := p.table.Size(); s.Width < 280 || s.Height < 120 {
			t.Errorf("%s: the table is %v", c.name, s)
		}
		k.picture(c.name)
		k.editTest(p.current())
		k.settle()
		k.picture(c.name + "-dialog")
	}
}
