package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/phone"
	"parewell/ui/sheets"
)

// tastingsPage lists the tastings of a recipe at the left; at the right is the
// chosen one, as far as it has come: planned, serving, closed.
type tastingsPage struct {
	w      *Window
	list   *parts.Matrix
	ids    []recipes.ID // by row of the list
	recipe recipes.ID
	chosen recipes.ID

	full, empty fyne.CanvasObject
	right       *fyne.Container
	states      map[recipes.TastingState]tastingView
	built       map[recipes.TastingState]fyne.CanvasObject
	phones      *phoneHouse
}

// tastingView is what the page shows of a tasting in one state.
type tastingView interface {
	build() fyne.CanvasObject
	show(t *recipes.Tasting)
}

func newTastingsPage(w *Window) page {
	p := &tastingsPage{w: w, built: map[recipes.TastingState]fyne.CanvasObject{}}
	p.phones = &phoneHouse{w: w, tickets: map[recipes.ID]*phone.Tickets{}}
	p.states = map[recipes.TastingState]tastingView{
		recipes.TastingPlanned: &plannedTasting{w: w},
		recipes.TastingServing: &servingTasting{w: w},
		recipes.TastingClosed:  &closedTasting{w: w},
	}
	return p
}

// tastings is the page, for the window's own acts on it.
func (w *Window) tastings() *tastingsPage {
	r, _ := w.pages[pageRecipe].(*recipePage)
	p, _ := r.inner[tabTastings].(*tastingsPage)
	return p
}

// showTastings goes to the tastings of a recipe with one of them chosen.
func (w *Window) showTastings(recipe, tasting recipes.ID) {
	p := w.tastings()
	p.recipe, p.chosen = recipe, tasting
	w.goTo(place{page: pageRecipe, recipe: recipe, tab: tabTastings})
}

func (p *tastingsPage) build() fyne.CanvasObject {
	p.list = parts.NewMatrix()
	p.list.WholeRow, p.list.Stretch = true, true
	p.list.OnSelect = func(row, _ int) { p.pick(row) }
	p.list.OnActivate = func(row, _ int) { p.pick(row) }
	p.list.SetData(matrixOf(sheets.Tastings(p.w.book(), p.recipe)))
	p.w.pin("tastings.list", p.list)
	plan := p.w.pin("tastings.plan", parts.NewButton(parts.Quiet, "add", words.Say("tastings.plan"), func() { p.w.planTasting(nil) }))
	p.right = container.New(stack{})
	left := parts.Fill(parts.GapSmall, 1, parts.Line(0, parts.Spring(), plan), parts.NewTableCard("", "", p.list))
	p.full = container.New(mealsLayout{p.w}, left, p.right)
	p.empty = parts.NewPanel(parts.GapMedium, parts.NewEmptyState(parts.ArtCups, words.Say("tastings.empty"), words.Say("tastings.empty.sentence"),
		p.w.pin("tastings.empty.plan", parts.NewButton(parts.Primary, "add", words.Say("tastings.plan"), func() { p.w.planTasting(nil) }))))
	return stackOf(p.full, p.empty)
}

func (p *tastingsPage) show() {
	if r := p.w.at.recipe; r != p.recipe {
		p.recipe, p.chosen = r, ""
	}
	p.phones.follow(p.w.book())
	s := sheets.Tastings(p.w.book(), p.recipe)
	p.ids = keysOf(s)
	p.list.SetData(tastingList(s))
	visible(p.full, len(p.ids) > 0)
	visible(p.empty, len(p.ids) == 0)
	if len(p.ids) == 0 {
		p.chosen = ""
		return
	}
	if p.current() == nil || p.current().Recipe != p.recipe {
		p.chosen = p.ids[0]
	}
	if p.list.SelectedKey() != string(p.chosen) {
		p.list.SelectKey(string(p.chosen))
	}
	p.showChosen()
}

func tastingList(s sheets.Sheet) parts.MatrixData {
	d := matrixOf(s)
	d.Columns[0].Min, d.Columns[0].Max = 100, 138
	d.Columns[1].Max = 100
	for i := range d.Rows {
		d.Rows[i].Cells[0].Wrap = true // the name takes as many lines as it needs beside the state
	}
	return d
}

// current is the tasting chosen, nil for none.
func (p *tastingsPage) current() *recipes.Tasting { return p.w.book().Tasting(p.chosen) }

func (p *tastingsPage) pick(row int) {
	if row >= 0 && row < len(p.ids) && p.ids[row] != p.chosen {
		p.chosen = p.ids[row]
		p.showChosen()
	}
}

// showChosen shows the chosen tasting by its state.
func (p *tastingsPage) showChosen() {
	t := p.current()
	if t == nil {
		return
	}
	v := p.states[t.State]
	if v == nil {
		return
	}
	o, ok := p.built[t.State]
	if !ok {
		o = v.build()
		p.built[t.State] = o
	}
	if len(p.right.Objects) != 1 || p.right.Objects[0] != o {
		p.right.Objects = []fyne.CanvasObject{o}
		p.right.Refresh()
	}
	v.show(t)
}
