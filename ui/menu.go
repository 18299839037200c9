package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"parewell/recipes/words"
)

// menus is the menu bar. Every shortcut stands on a menu item: there it works
// while a field has the keyboard.
type menus struct {
	main       *fyne.MainMenu
	undo, redo *fyne.MenuItem
	theme      *fyne.MenuItem
}

func newMenus(w *Window) *menus {
	m := &menus{}
	m.undo = item("menu.undo", &fyne.ShortcutUndo{}, func() { w.editing(&fyne.ShortcutUndo{}, w.undo) })
	m.redo = item("menu.redo", &fyne.ShortcutRedo{}, func() { w.editing(&fyne.ShortcutRedo{}, w.redo) })
	m.theme = item("menu.dark", ctrl(fyne.KeyD, fyne.KeyModifierShift), func() { w.setTheme(!w.dark, w.factor) })
	quit := item("menu.quit", ctrl(fyne.KeyQ, 0), w.close)
	quit.IsQuit = true
	m.main = fyne.NewMainMenu(
		fyne.NewMenu(words.Say("menu.file"),
			item("menu.new", ctrl(fyne.KeyN, 0), func() { w.newWorkbook(nil) }),
			item("menu.open", ctrl(fyne.KeyO, 0), w.chooseWorkbook),
			item("menu.demo", nil, w.openDemo),
			item("menu.copy", ctrl(fyne.KeyS, fyne.KeyModifierShift), w.saveCopy),
			item("menu.editor-copy", nil, w.saveEditorCopy),
			item("menu.backups", nil, w.showBackups),
			fyne.NewMenuItemSeparator(),
			item("menu.import", ctrl(fyne.KeyI, 0), w.importFiles),
			item("menu.export", ctrl(fyne.KeyE, 0), w.exportRecipe),
			item("menu.data-out", nil, w.dataOut),
			item("menu.data-in", nil, w.dataIn),
			item("menu.tables", nil, w.tablesShown),
			item("menu.settings", ctrl(fyne.KeyComma, 0), w.settings),
			fyne.NewMenuItemSeparator(), quit),
		fyne.NewMenu(words.Say("menu.edit"), m.undo, m.redo),
		fyne.NewMenu(words.Say("menu.recipe"), recipeItems(w)...),
		fyne.NewMenu(words.Say("menu.view"), viewItems(w, m)...),
		fyne.NewMenu(words.Say("menu.help"), item("menu.guide", &desktop.CustomShortcut{KeyName: fyne.KeyF1}, w.showGuide), item("menu.keys", nil, w.showKeys), item("menu.about", nil, w.showAbout)),
	)
	return m
}

func recipeItems(w *Window) []*fyne.MenuItem {
	return []*fyne.MenuItem{
		item("menu.paste", ctrl(fyne.KeyP, fyne.KeyModifierShift), func() { w.goTo(place{page: pagePaste}) }),
		item("menu.new-version", ctrl(fyne.KeyB, 0), w.newVersion),
		item("menu.lighter-draft", ctrl(fyne.KeyL, 0), w.pasteDraft),
		item("menu.brief", ctrl(fyne.KeyR, 0), w.editBrief),
		item("menu.scale", ctrl(fyne.KeyJ, 0), func() { w.scaleShown() }),
		item("menu.add-test", ctrl(fyne.KeyT, 0), w.addTest),
		item("menu.print-tests", nil, w.printTestSheets),
	}
}

func viewItems(w *Window, m *menus) []*fyne.MenuItem {
	tab := func(t string) func() {
		return func() {
			if w.at.page == pageRecipe {
				w.goTo(place{page: pageRecipe, recipe: w.at.recipe, tab: t})
			}
		}
	}
	return []*fyne.MenuItem{
		item("nav.recipes", ctrl(fyne.Key1, 0), func() { w.goTo(place{page: pageRecipes}) }),
		item("nav.foods", ctrl(fyne.Key2, 0), func() { w.goTo(place{page: pageFoods}) }),
		item("nav.tasters", ctrl(fyne.KeyG, 0), func() { w.goTo(place{page: pageTasters}) }),
		item("nav.meals", ctrl(fyne.KeyM, 0), func() { w.goTo(place{page: pageMeals}) }),
		item("nav.book", ctrl(fyne.KeyH, 0), func() { w.goTo(place{page: pageBook}) }),
		fyne.NewMenuItemSeparator(),
		item("tab.versions", ctrl(fyne.Key3, 0), tab(tabVersions)),
		item("tab.swaps", ctrl(fyne.Key4, 0), tab(tabSwaps)),
		item("tab.original", ctrl(fyne.Key5, 0), tab(tabOriginal)),
		item("tab.tests", ctrl(fyne.Key6, 0), tab(tabTests)),
		item("tab.tastings", ctrl(fyne.Key9, 0), tab(tabTastings)),
		item("tab.ledger", ctrl(fyne.KeyU, 0), tab(tabLedger)),
		item("tab.printed", ctrl(fyne.KeyK, 0), tab(tabPrinted)),
		item("tab.notebook", ctrl(fyne.Key7, 0), tab(tabNotebook)),
		item("tab.claims", ctrl(fyne.Key8, 0), tab(tabClaims)),
		fyne.NewMenuItemSeparator(),
		item("menu.larger", ctrl(fyne.KeyEqual, 0), func() { w.setTheme(w.dark, w.factor+0.1) }),
		item("menu.smaller", ctrl(fyne.KeyMinus, 0), func() { w.setTheme(w.dark, w.factor-0.1) }),
		item("menu.usual", ctrl(fyne.Key0, 0), func() { w.setTheme(w.dark, 1) }),
		m.theme,
	}
}

// update puts the newest labels on undo and redo.
func (m *menus) update(w *Window) {
	undo, redo := words.Say("menu.undo"), words.Say("menu.redo")
	if w.view.Undo != "" {
		undo = words.Say("menu.undo-what", w.view.Undo)
	}
	if w.view.Redo != "" {
		redo = words.Say("menu.redo-what", w.view.Redo)
	}
	dark := words.Say("menu.dark")
	if w.dark {
		dark = words.Say("menu.light")
	}
	if m.undo.Label == undo && m.redo.Label == redo && m.theme.Label == dark {
		return // refreshing the bar costs a layout of the window
	}
	m.undo.Label, m.redo.Label, m.theme.Label = undo, redo, dark
	m.undo.Disabled, m.redo.Disabled = w.view.Undo == "", w.view.Redo == ""
	m.main.Refresh()
}

// textField is what a field with its own undo looks like to the window.
type textField interface {
	fyne.Shortcutable
	SelectedText() string
}

// editing gives undo and redo to the field that has the keyboard, if one has.
func (w *Window) editing(s fyne.Shortcut, otherwise func()) {
	if f, ok := w.win.Canvas().Focused().(textField); ok {
		f.TypedShortcut(s)
		return
	}
	otherwise()
}

func item(key string, s fyne.Shortcut, f func()) *fyne.MenuItem {
	i := fyne.NewMenuItem(words.Say(key), f)
	i.Shortcut = s
	return i
}

// ctrl is a shortcut with Ctrl (Cmd on a Mac) and more held down.
func ctrl(key fyne.KeyName, more fyne.KeyModifier) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierShortcutDefault | more}
}
