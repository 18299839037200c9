package ui

import (
	"fyne.io/fyne/v2"

	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
)

// openTop puts the first line of an open point at the height of its button.
const openTop = 6

// openRow is one thing that is still open, with the way to its place; of is said
// before it, the recipe in the report on the whole book.
func openRow(w *Window, x *book.Open, of, pin string) fyne.CanvasObject {
	text := x.Text
	if of != "" {
		text = words.Say("printed.open.of", of, text)
	}
	see := parts.NewIconButton("right", words.Say("printed.see"), func() { w.showOpenPoint(x) })
	w.pin(pin, see)
	icon := parts.NewIcon("look", parts.RoleLook, 16)
	if x.Kind == book.OpenHealth || x.Kind == book.OpenAllergen {
		icon = parts.NewIcon("error", parts.RoleError, 16)
	}
	first := func(o fyne.CanvasObject) fyne.CanvasObject {
		return parts.Rows(0, parts.Pad(openTop, parts.GapSmall, 0, 0, o))
	}
	return parts.NewPressArea(parts.Frame(nil, first(parts.Sized(16, 20, icon)), first(parts.NewText(text)), parts.Rows(0, see), nil), see)
}

// tabOf is where an open point is mended.
var tabOf = map[book.OpenKind]string{
	book.OpenWeight: tabOriginal, book.OpenFood: tabOriginal, book.OpenDoubt: tabOriginal, book.OpenFigure: tabOriginal,
	book.OpenServings: tabOriginal, book.OpenAllergen: tabOriginal, book.OpenRounding: tabOriginal, book.OpenName: tabOriginal,
	book.OpenUnits: tabOriginal, book.OpenUnspoken: tabOriginal, book.OpenNoMethod: tabOriginal,
	book.OpenStep: tabSwaps, book.OpenNoVersion: tabVersions, book.OpenCooked: tabTests,
	book.OpenUntested: tabTests, book.OpenChanged: tabTastings, book.OpenClaim: tabPrinted, book.OpenHealth: tabPrinted, book.OpenTaste: tabPrinted, book.OpenNotChosen: tabPrinted, book.OpenBrief: tabVersions, book.OpenCaution: tabPrinted,
}

// showOpenPoint goes to where an open point is mended, to its very line where it
// has one.
func (w *Window) showOpenPoint(x *book.Open) {
	recipe := x.Recipe
	if recipe == "" {
		recipe = w.at.recipe
	}
	r := w.book().Recipe(recipe)
	if r == nil {
		return
	}
	if l := r.Line(x.Line); x.Kind == book.OpenAllergen && l != nil && w.book().Food(l.Food) != nil {
		w.recordAllergens(recipes.ServedLine{Name: l.Name, Food: l.Food})
		return
	}
	tab := tabOf[x.Kind]
	if x.Kind == book.OpenUntested && len(w.book().Batches(recipe)) > 0 {
		tab = tabTastings // cooked, but not tasted
	}
	swap := bringing(w.book(), r, w.book().Version(recipe, x.Version), x.Line)
	if tab == tabOriginal && swap != "" {
		tab = tabSwaps // a line of the version, not of the original
	}
	w.goTo(place{page: pageRecipe, recipe: recipe, tab: tab})
	views, _ := w.pages[pageRecipe].(*recipePage)
	switch p := views.inner[tab].(type) {
	case *originalPage:
		p.point(x.Line, x.Step)
	case *swapsPage:
		if swap != "" {
			p.table.SelectKey(string(swap))
			w.win.Canvas().Focus(p.table)
		}
	case *versionsPage:
		if v := w.book().Version(recipe, x.Version); v != nil {
			p.selectVersion(v.ID)
		}
	case *printedPage:
		var field interface {
			fyne.Focusable
			fyne.CanvasObject
		} = p.headnote
		if x.Kind == book.OpenCaution {
			field = p.style.care
		}
		bringIntoSight(p.side, field)
		w.win.Canvas().Focus(field)
	}
}

// bringing is the swap that brings a line into a version, "" for a line of the
// original or none.
func bringing(b *recipes.Book, r *recipes.Recipe, v *recipes.Version, line recipes.ID) recipes.ID {
	for _, d := range b.Draft(r, v).Lines {
		if d.Line.ID == line {
			return d.Swap
		}
	}
	return ""
}

// point marks a line or a step of the original, if it is there, and gives its
// table the keyboard.
func (p *originalPage) point(line, step recipes.ID) {
	switch {
	case p.w.recipe().Line(line) != nil:
		p.table.SelectKey(string(line))
		p.w.win.Canvas().Focus(p.table)
	case step != "":
		p.steps.SelectKey(string(step))
		p.w.win.Canvas().Focus(p.steps)
	}
}
