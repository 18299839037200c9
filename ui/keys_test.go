package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/ui/parts"
)

// pressShortcut does what a key of the menu does, wherever the keyboard is.
func (k *kitchenWindow) pressShortcut(s fyne.Shortcut) {
	k.t.Helper()
	for _, m := range k.menu.main.Items {
		for _, i := range m.Items {
			if i.Shortcut != nil && i.Shortcut.ShortcutName() == s.ShortcutName() {
				i.Action()
				k.settle()
				return
			}
		}
	}
	k.t.Fatalf("no menu item has %s", s.ShortcutName())
}

// Whatever page is come to by its key, its main table takes the next key.
func TestEveryPageTakesKeysAtOnce(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	if k.win.Canvas().Focused() != fyne.Focusable(k.pages[pageRecipes].(*recipesPage).table) {
		t.Fatalf("after the start %T has the keyboard", k.win.Canvas().Focused())
	}
	k.aDay() // so that there are meals
	k.win.Canvas().Unfocus()
	k.pressShortcut(ctrl(fyne.Key1, 0))
	k.press(fyne.KeyReturn) // opens the first recipe
	k.settle()
	rows := []struct {
		name string
		key  fyne.Shortcut
		has  func() fyne.Focusable
	}{
		{"recipe opened", nil, func() fyne.Focusable { return k.pins["versions.table"].(*parts.Matrix) }},
		{"swaps", ctrl(fyne.Key4, 0), func() fyne.Focusable { return k.inner(tabSwaps).(*swapsPage).table }},
		{"original", ctrl(fyne.Key5, 0), func() fyne.Focusable { return k.inner(tabOriginal).(*originalPage).table }},
		{"notebook", ctrl(fyne.Key7, 0), func() fyne.Focusable { return k.inner(tabNotebook).(*notebookPage).table }},
		{"claims", ctrl(fyne.Key8, 0), func() fyne.Focusable { return k.inner(tabClaims).(*claimsPage).table }},
		{"versions", ctrl(fyne.Key3, 0), func() fyne.Focusable { return k.versions().table }},
		{"foods", ctrl(fyne.Key2, 0), func() fyne.Focusable { return k.pages[pageFoods].(*foodsPage).search }},
		{"meals", ctrl(fyne.KeyM, 0), func() fyne.Focusable { return k.pages[pageMeals].(*mealsPage).list }},
		{"book", ctrl(fyne.KeyH, 0), func() fyne.Focusable { return k.pages[pageBook].(*bookPage).list }},
		{"recipes", ctrl(fyne.Key1, 0), func() fyne.Focusable { return k.pages[pageRecipes].(*recipesPage).table }},
	}
	for _, r := range rows {
		if r.key != nil {
			k.pressShortcut(r.key)
		}
		if got := k.win.Canvas().Focused(); got != r.has() {
			t.Errorf("%s: %T has the keyboard", r.name, got)
		}
	}
}

// A shortcut that leads out of a recipe leaves its tabs behind: they are not asked
// to keep the keyboard, which the toolkit would complain about on standard error.
func TestTabsLeftBehindTakeNoKeys(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	tabs := k.pages[pageRecipe].(*recipePage).tabs
	k.win.Canvas().Focus(tabs)
	k.pressShortcut(ctrl(fyne.Key4, 0))
	if k.win.Canvas().Focused() != fyne.Focusable(tabs) {
		t.Errorf("within the recipe %T has the keyboard", k.win.Canvas().Focused())
	}
	k.pressShortcut(ctrl(fyne.Key2, 0))
	if k.win.Canvas().Focused() != fyne.Focusable(k.pages[pageFoods].(*foodsPage).search) || k.stays(tabs) {
		t.Errorf("out of it %T has the keyboard; tabs are asked to keep it: %v", k.win.Canvas().Focused(), k.stays(tabs))
	}
}

func (k *kitchenWindow) inner(tab string) page { return k.pages[pageRecipe].(*recipePage).inner[tab] }

// Text grows, shrinks and comes back by keys, within bounds, and the size is
// remembered; the page in sight stays.
func TestTextSizeByKeys(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabVersions)
	rows := []struct {
		name string
		key  fyne.Shortcut
		n    int
		want float32
	}{
		{"larger", ctrl(fyne.KeyEqual, 0), 2, 1.2},
		{"smaller", ctrl(fyne.KeyMinus, 0), 1, 1.1},
		{"smallest", ctrl(fyne.KeyMinus, 0), 9, leastText},
		{"usual", ctrl(fyne.Key0, 0), 1, 1},
		{"largest", ctrl(fyne.KeyEqual, 0), 9, mostText},
	}
	for _, r := range rows {
		for range r.n {
			k.pressShortcut(r.key)
		}
		if math.Abs(float64(k.factor-r.want)) > 1e-3 || math.Abs(k.desk.Prefs().Text-float64(r.want)) > 1e-3 {
			t.Errorf("%s: %v, remembered %v, want %v", r.name, k.factor, k.desk.Prefs().Text, r.want)
		}
	}
	k.pressShortcut(ctrl(fyne.Key0, 0))
	k.win.Canvas().(fyne.Shortcutable).TypedShortcut(ctrl(fyne.KeyPlus, 0))
	if math.Abs(float64(k.factor-1.1)) > 1e-3 || k.at.tab != tabVersions {
		t.Errorf("a plus: %v at %s", k.factor, k.at.tab)
	}
}

// Every way to type a plus with Ctrl makes text larger, whatever has the keyboard:
// a field, a table, a cell being edited. The driver gives a shortcut that is not on
// the menu to that object alone.
func TestAPlusMakesTextLargerInAField(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabOriginal)
	c := k.win.Canvas()
	table := k.inner(tabOriginal).(*originalPage).table
	rows := []struct {
		name string
		take func()
	}{
		{"a field", func() { c.Focus(k.inner(tabOriginal).(*originalPage).add) }},
		{"a table", func() { c.Focus(table) }},
		{"a cell", func() { c.Focus(table); table.Select(0, 1); k.press(fyne.KeyReturn) }},
	}
	for _, r := range rows {
		for _, s := range []fyne.Shortcut{ctrl(fyne.KeyEqual, fyne.KeyModifierShift), ctrl(fyne.KeyPlus, 0), ctrl(fyne.KeyPlus, fyne.KeyModifierShift)} {
			k.pressShortcut(ctrl(fyne.Key0, 0))
			r.take()
			on, ok := c.Focused().(fyne.Shortcutable)
			if !ok {
				t.Fatalf("%s: %T has the keyboard", r.name, c.Focused())
			}
			on.TypedShortcut(s)
			if math.Abs(float64(k.factor-1.1)) > 1e-3 {
				t.Errorf("%s, %s: %v", r.name, s.ShortcutName(), k.factor)
			}
		}
	}
}

// A refresh after an edit takes the keyboard from nobody and gives it to nobody;
// tabs keep it while their arrows go from one to the next.
func TestTheKeyboardIsNotTaken(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.openRecipe(0, tabOriginal)
	p := k.inner(tabOriginal).(*originalPage)
	k.win.Canvas().Focus(p.add)
	p.add.SetText("2 tsp must")
	k.setTheme(true, 1)
	k.arrived(k.view)
	if k.win.Canvas().Focused() != fyne.Focusable(p.add) || p.add.Text != "2 tsp must" {
		t.Errorf("%T has the keyboard, %q is typed", k.win.Canvas().Focused(), p.add.Text)
	}
	p.add.SetText("")
	k.win.Canvas().Unfocus()
	k.arrived(k.view)
	if k.win.Canvas().Focused() != nil {
		t.Errorf("a refresh gave the keyboard to %T", k.win.Canvas().Focused())
	}
	tabs := k.pages[pageRecipe].(*recipePage).tabs
	k.win.Canvas().Focus(tabs)
	for range 3 {
		k.press(fyne.KeyLeft)
		k.settle()
	}
	if tabs.Selected() != tabVersions || k.win.Canvas().Focused() != fyne.Focusable(tabs) {
		t.Errorf("at %s, %T has the keyboard", tabs.Selected(), k.win.Canvas().Focused())
	}
	k.win.Canvas().Focus(k.nav)
	k.press(fyne.KeyDown)
	k.press(fyne.KeyDown)
	if k.at.page != pageTasters || k.win.Canvas().Focused() != fyne.Focusable(k.nav) {
		t.Errorf("at %s, %T has the keyboard", k.at.page, k.win.Canvas().Focused())
	}
}
