package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// recipePage is one recipe: its heading, its brief, and a tab for each view of
// it. A tab is a page of its own, built on its first visit.
type recipePage struct {
	w       *Window
	title   *parts.Text
	caption *parts.Text
	tabs    *parts.Tabs
	next    *nextStrip
	body    *fyne.Container
	inner   map[string]page
	built   map[string]fyne.CanvasObject
}

func newRecipePage(w *Window) *recipePage {
	return &recipePage{w: w, built: map[string]fyne.CanvasObject{}, inner: map[string]page{
		tabVersions: newVersionsPage(w),
		tabSwaps:    newSwapsPage(w),
		tabOriginal: newOriginalPage(w),
		tabTests:    newTestsPage(w),
		tabTastings: newTastingsPage(w),
		tabLedger:   newLedgerPage(w),
		tabNotebook: newNotebookPage(w),
		tabClaims:   newClaimsPage(w),
		tabPrinted:  newPrintedPage(w),
	}}
}

func (p *recipePage) build() fyne.CanvasObject {
	p.title, p.caption = parts.NewHeading(""), parts.NewCaption("")
	brief := p.w.pin("recipe.brief", parts.NewButton(parts.Quiet, "target", words.Say("menu.brief"), p.w.editBrief))
	draft := p.w.pin("recipe.draft", parts.NewButton(parts.Quiet, "import", words.Say("menu.lighter-draft"), p.w.pasteDraft))
	export := p.w.pin("recipe.export", parts.NewButton(parts.Quiet, "export", words.Say("recipe.export"), p.w.exportRecipe))
	version := p.w.pin("recipe.version", parts.NewButton(parts.Primary, "add", words.Say("recipe.version"), p.w.newVersion))
	head := parts.Rows(2, parts.HeadRow(p.title, brief, draft, export, version), p.caption)
	p.tabs = parts.NewTabs(p.tabList(), func(key string) {
		p.w.goTo(place{page: pageRecipe, recipe: p.w.at.recipe, tab: key})
	})
	p.w.pin("recipe.tabs", p.tabs)
	p.body = container.New(stack{})
	p.next = newNextStrip(p.w)
	p.next.page = pageBody(head, p.tabs, p.next.view, p.body)
	return p.next.page
}

func (p *recipePage) tabList() []parts.Tab {
	list := []parts.Tab{
		{Key: tabVersions, Icon: "versions", Label: words.Say("tab.versions")},
		{Key: tabSwaps, Icon: "swaps", Label: words.Say("tab.swaps")},
		{Key: tabOriginal, Icon: "recipes", Label: words.Say("tab.original")},
		{Key: tabTests, Icon: "pot", Label: words.Say("tab.tests")},
		{Key: tabTastings, Icon: "tasting", Label: words.Say("tab.tastings")},
		{Key: tabLedger, Icon: "keep-or-drop", Label: words.Say("tab.ledger")},
		{Key: tabPrinted, Icon: "print", Label: words.Say("tab.printed")},
		{Key: tabClaims, Icon: "look", Label: words.Say("tab.claims")},
		{Key: tabNotebook, Icon: "note", Label: words.Say("tab.notebook")},
	}
	if r := p.w.recipe(); r != nil {
		list[0].Count = countOrNone(len(p.w.book().Versions(r.ID)))
		list[1].Count = countOrNone(len(p.w.book().Swaps(r.ID)))
		list[3].Count = countOrNone(len(p.w.book().Batches(r.ID)))
		list[4].Count = countOrNone(len(p.w.book().TastingsOf(r.ID)))
		if n := sheets.Doubts(r); n > 0 {
			list[2].Count = words.Say("tab.to-check", strconv.Itoa(n))
		}
	}
	return list
}

func (p *recipePage) show() {
	r := p.w.recipe()
	p.title.SetText(r.Title)
	brief := sheets.UnitsOf(p.w.book()).BriefText(r.Brief)
	if brief == "" {
		brief = words.Say("recipe.no-brief")
	}
	p.caption.SetText(brief)
	p.tabs.SetTabs(p.tabList())
	tab := p.w.at.tab
	if p.inner[tab] == nil {
		tab = tabVersions
	}
	p.tabs.SetSelected(tab)
	p.next.show(r.ID, tab)
	view, ok := p.built[tab]
	if !ok {
		view = p.inner[tab].build()
		p.built[tab] = view
	}
	if len(p.body.Objects) != 1 || p.body.Objects[0] != view {
		p.body.Objects = []fyne.CanvasObject{view}
		p.body.Refresh()
	}
	p.inner[tab].show()
}

// forgetHidden drops what was built for tabs out of sight; all of them when the
// page itself is.
func (p *recipePage) forgetHidden(inSight bool) {
	kept := map[string]fyne.CanvasObject{}
	if tab := p.w.at.tab; inSight && p.built[tab] != nil {
		kept[tab] = p.built[tab]
	}
	p.built = kept
}
