package ui

import (
	"fyne.io/fyne/v2"

	"parewell/ui/parts"
)

// keyed is a page that takes keys at once when it is come to, by its main table,
// list or field: nil when there is none in sight.
type keyed interface{ takesKeys() fyne.Focusable }

// offerKeys gives the keyboard to what the page in sight is worked with, when it
// was just come to and nothing else has it. A page that is still being worked out
// offers again when it is ready.
func (w *Window) offerKeys() {
	c := w.win.Canvas()
	if c.Focused() != nil || c.Overlays().Top() != nil {
		w.keysDue = false
	}
	p, ok := w.pages[w.at.page].(keyed)
	if !w.keysDue || !ok {
		return
	}
	if to := p.takesKeys(); to != nil {
		parts.OfferFocus(c, to, func() bool {
			now, ok := w.pages[w.at.page].(keyed)
			return ok && now.takesKeys() == to
		})
		w.keysDue = c.Focused() == nil
	}
}

// zoomKeys are further keys for larger text: a plus is typed with Shift on many
// keyboards and has a key of its own on others, and a menu item has one key.
func (w *Window) zoomKeys() {
	larger := func(fyne.Shortcut) { w.setTheme(w.dark, w.factor+0.1) }
	for _, s := range []fyne.Shortcut{ctrl(fyne.KeyEqual, fyne.KeyModifierShift), ctrl(fyne.KeyPlus, 0), ctrl(fyne.KeyPlus, fyne.KeyModifierShift)} {
		w.win.Canvas().AddShortcut(s, larger)
	}
}

// stays is what keeps the keyboard when it leads to another page by its arrows:
// side bar and tabs. A shortcut leads out of a recipe, and its tabs are gone then.
func (w *Window) stays(f fyne.Focusable) bool {
	tabs := w.pages[pageRecipe].(*recipePage).tabs
	return f != nil && (f == fyne.Focusable(w.nav) || tabs != nil && f == fyne.Focusable(tabs) && w.at.page == pageRecipe)
}

// inSight is the first of the tables that the layout shows.
func inSight(all ...*parts.Matrix) fyne.Focusable {
	for _, m := range all {
		if m != nil && m.Visible() {
			return m
		}
	}
	return nil
}

func (p *recipesPage) takesKeys() fyne.Focusable  { return inSight(p.table) }
func (p *foodsPage) takesKeys() fyne.Focusable    { return p.search }
func (p *tastersPage) takesKeys() fyne.Focusable  { return inSight(p.table) }
func (p *mealsPage) takesKeys() fyne.Focusable    { return inSight(p.list) }
func (p *planPage) takesKeys() fyne.Focusable     { return inSight(p.ask) }
func (p *versionsPage) takesKeys() fyne.Focusable { return inSight(p.table) }
func (p *originalPage) takesKeys() fyne.Focusable { return inSight(p.table) }
func (p *testsPage) takesKeys() fyne.Focusable    { return inSight(p.table) }
func (p *tastingsPage) takesKeys() fyne.Focusable { return inSight(p.list) }
func (p *ledgerPage) takesKeys() fyne.Focusable   { return inSight(p.table) }
func (p *claimsPage) takesKeys() fyne.Focusable   { return inSight(p.table) }
func (p *notebookPage) takesKeys() fyne.Focusable { return inSight(p.table) }

// takesKeys is the table of swaps, and while there is none the list of
// ingredients.
func (p *swapsPage) takesKeys() fyne.Focusable {
	if p.tableIn.Visible() {
		return p.table
	}
	return p.sources.list
}

func (p *bookPage) takesKeys() fyne.Focusable {
	if p.listCard.Visible() {
		return p.list
	}
	return p.other
}

// takesKeys of a recipe is its tab's.
func (p *recipePage) takesKeys() fyne.Focusable {
	if k, ok := p.inner[p.tabs.Selected()].(keyed); ok {
		return k.takesKeys()
	}
	return nil
}
