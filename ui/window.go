package ui

import (
	"crypto/rand"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// narrowWidth is the window width below which the side bar shows drawings only.
const narrowWidth = 980

// Window is one open workbook on the screen. All its methods run on the UI
// goroutine.
type Window struct {
	app    fyne.App
	win    fyne.Window
	desk   *desk.Desk
	view   desk.View
	nav    *parts.Nav
	status *parts.StatusLine
	body   *fyne.Container
	built  map[string]fyne.CanvasObject
	pages  map[string]page
	at     place
	menu   *menus
	shown  shown
	dark   bool
	factor float32
	pins   pins

	printer Printer // nil: the window's language only
	placer  Placer  // nil: where the window stands is the system's affair
	keysDue bool    // the page was just come to, and nothing has the keyboard yet
}

// shown is what the status line told last, so that it is not told again.
type shown struct {
	message string
	undo    int64 // which change Undo would take back
	book    *recipes.Book
	trouble bool // something was refused, and it is still told
}

// Open makes the window of a desk and shows it. The caller runs the app. A
// desk without a workbook shows the start page.
func Open(a fyne.App, d *desk.Desk) *Window {
	w := &Window{
		app: a, win: a.NewWindow(appName), desk: d,
		built: map[string]fyne.CanvasObject{},
	}
	w.view = d.View()
	prefs := d.Prefs()
	chooseMarks(prefs)
	w.dark, w.factor = prefs.Theme == themeDark, textFactor(prefs)
	a.Settings().SetTheme(parts.NewTheme(w.dark, w.factor))
	w.pages = w.allPages()
	w.win.SetPadded(false)
	w.win.SetMaster()
	w.win.SetContent(parts.WithLayer(w.frame()))
	w.menu = newMenus(w)
	w.win.SetMainMenu(w.menu.main)
	w.zoomKeys()
	w.win.Resize(windowSize(prefs))
	w.win.SetCloseIntercept(w.close)
	w.win.Canvas().SetOnTypedKey(w.key)
	w.win.SetOnDropped(func(_ fyne.Position, uris []fyne.URI) { w.dropped(uris) })
	d.Watch(w.arrived)
	w.view = d.View() // what was opened before the window watched
	w.shown = shown{message: w.view.Message, undo: w.view.UndoSeq}
	w.enter(w.firstPlace())
	w.win.Show()
	w.win.SetTitle(w.title()) // after Show: the window class stays the app's name
	w.keysDue = true
	w.offerKeys()
	return w
}

const appName = "Parewell"

func windowSize(p desk.Prefs) fyne.Size {
	if p.Width < 640 || p.Height < 420 {
		return fyne.NewSize(1280, 800)
	}
	return fyne.NewSize(float32(p.Width), float32(p.Height))
}

// allPages makes one of each page; none is built before it is visited.
func (w *Window) allPages() map[string]page {
	return map[string]page{
		pageStart:   &startPage{w: w},
		pageRecipes: &recipesPage{w: w},
		pageRecipe:  newRecipePage(w),
		pagePaste:   &pastePage{w: w},
		pageFoods:   &foodsPage{w: w},
		pageMeals:   newMealsPage(w),
		pageTasters: newTastersPage(w),
		pagePlan:    newPlanPage(w),
		pageBook:    newBookPage(w),
	}
}

// frame lays out side bar, page and status line.
func (w *Window) frame() fyne.CanvasObject {
	w.nav = parts.NewNav(w.navItems(), func(key string) { w.goTo(place{page: key}) })
	w.status = parts.NewStatusLine()
	w.body = container.NewStack()
	side := parts.Side(parts.Pad(parts.GapSmall, 0, 0, 0, w.nav))
	return container.New(&shellLayout{w: w}, side, w.body, w.status)
}

func (w *Window) navItems() []parts.NavItem {
	n := len(w.view.Book.Recipes())
	return []parts.NavItem{
		{Key: pageRecipes, Icon: "recipes", Label: words.Say("nav.recipes"), Count: countOrNone(n)},
		{Key: pageFoods, Icon: "foods", Label: words.Say("nav.foods")},
		{Key: pageTasters, Icon: "tasters", Label: words.Say("nav.tasters"), Count: countOrNone(len(w.view.Book.Panelists()))},
		{Key: pageMeals, Icon: "meals", Label: words.Say("nav.meals"), Count: countOrNone(len(w.view.Book.Meals()))},
		{Key: pageBook, Icon: "print", Label: words.Say("nav.book")},
	}
}

func countOrNone(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// firstPlace is the start page without a workbook or with an empty one, else
// the list of recipes, or the only recipe there is.
func (w *Window) firstPlace() place {
	if w.view.Path == "" {
		return place{page: pageStart}
	}
	switch all := w.view.Book.Recipes(); len(all) {
	case 0:
		return place{page: pageRecipes}
	case 1:
		return place{page: pageRecipe, recipe: all[0].ID, tab: tabVersions}
	}
	return place{page: pageRecipes}
}

// goTo leaves the present page for another. What was being typed is kept
// first: a menu item does not take the keyboard from a field. The new page's main
// table has the keyboard then, unless side bar or tabs led here by their arrows.
func (w *Window) goTo(to place) {
	c := w.win.Canvas()
	parts.CommitEdits(c)
	led := c.Focused()
	c.Unfocus()
	w.enter(to)
	if w.stays(led) && c.Overlays().Top() == nil {
		c.Focus(led)
	}
	w.keysDue = true
	w.offerKeys()
}

func (w *Window) enter(to place) {
	if w.view.Path == "" && to.page != pagePaste { // a recipe may be pasted before there is a workbook
		to = place{page: pageStart}
	}
	if (to.page == pageRecipe || to.page == pagePlan) && w.view.Book.Recipe(to.recipe) == nil {
		to = place{page: pageRecipes}
	}
	w.at = to
	p := w.pages[to.page]
	view, ok := w.built[to.page]
	if !ok {
		view = p.build()
		w.built[to.page] = view
	}
	if len(w.body.Objects) != 1 || w.body.Objects[0] != view {
		w.body.Objects = []fyne.CanvasObject{view}
		w.body.Refresh()
	}
	w.showShell()
	p.show()
}

// showShell brings side bar, menus and title up to date.
func (w *Window) showShell() {
	w.nav.SetItems(w.navItems())
	w.nav.SetSelected(map[string]string{pageRecipe: pageRecipes, pagePaste: pageRecipes, pagePlan: pageRecipes}[w.at.page])
	w.nav.SetSelected(w.at.page)
	w.menu.update(w)
	w.status.SetNote(w.note())
	w.status.SetPending(w.view.Pending > 0)
	w.win.SetTitle(w.title())
}

// key is a key that nothing in sight has taken. F1 stands on the menu for the eye:
// the driver gives menus only keys with Ctrl or Alt.
func (w *Window) key(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyF1 {
		w.showGuide()
	}
}

// note stands at the right of the status line: the workbook's name.
func (w *Window) note() string {
	if w.view.Path == "" {
		return ""
	}
	name := w.view.Name()
	if w.view.ReadOnly != "" {
		return words.Say("window.read-only", name)
	}
	return name
}

func (w *Window) title() string {
	if w.view.Path == "" {
		return appName
	}
	return w.note() + " – " + appName
}

// arrived takes a newer view from the desk and shows the page in sight again.
func (w *Window) arrived(v desk.View) {
	other := v.Path != w.view.Path
	w.view = v
	w.tastings().phones.follow(v.Book)
	w.say(v, other)
	if other {
		w.enter(w.firstPlace())
		w.keysDue = true
	} else {
		w.enter(w.at)
	}
	w.offerKeys()
}

// say puts what happened into the status line, with Undo beside the cook's own
// newest edit. A workbook just opened has no newest edit of this sitting.
func (w *Window) say(v desk.View, opened bool) {
	before := w.shown
	w.shown = shown{message: v.Message, undo: v.UndoSeq, book: v.Book}
	mended := before.trouble && before.book != v.Book // what was done since
	w.shown.trouble = before.trouble && !mended
	if mended {
		before.message, before.undo = "", 0
	}
	switch {
	case !mended && v.Message == before.message && v.UndoSeq == before.undo:
		if v.Book != before.book && before.book != nil && v.Message == "" && !w.shown.trouble {
			w.status.SetMessage("") // a taster's ballot came, and what stands there is no longer the newest
		}
	case v.Message != "" && v.Message != before.message:
		w.status.SetMessage(v.Message)
	case v.Undo != "" && v.UndoSeq != before.undo && !opened:
		w.status.SetMessageAction(v.Undo, "undo", words.Say("menu.undo"), w.undo)
	case v.Message == "" && v.Undo == "":
		w.status.SetMessage("")
	}
}

// mended takes the last refusal off the status line.
func (w *Window) mended() {
	if w.shown.trouble {
		w.shown.trouble = false
		w.status.SetMessage("")
	}
}

// book is the Book in sight.
func (w *Window) book() *recipes.Book { return w.view.Book }

// recipe is the recipe in sight, nil outside one.
func (w *Window) recipe() *recipes.Recipe {
	return w.view.Book.Recipe(w.at.recipe)
}

// do queues what the cook did. A refusal is told in the status line and then,
// when given, to after with false.
func (w *Window) do(v recipes.Verb, after ...func(ok bool)) {
	w.desk.Do(v, func(err error) {
		if served := servedBy(err); served != nil {
			w.askServed(v, served, err, after)
			return
		}
		w.problemOrNil(err)
		for _, f := range after {
			f(err == nil)
		}
	})
	w.status.SetPending(true)
}

// newID draws an ID for something the cook makes.
func (w *Window) newID() recipes.ID { return recipes.NewID(rand.Reader) }

func (w *Window) undo() { w.desk.Undo(w.problemOrNil) }
func (w *Window) redo() { w.desk.Redo(w.problemOrNil) }

func (w *Window) problemOrNil(err error) {
	if err != nil {
		w.problem(err)
	}
}
