package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// recipesPage lists the recipes of the workbook.
type recipesPage struct {
	w     *Window
	table *parts.Matrix
	stack *fyne.Container
	empty fyne.CanvasObject
	card  fyne.CanvasObject
	ids   []recipes.ID
}

func (p *recipesPage) build() fyne.CanvasObject {
	paste := p.w.pin("recipes.paste", parts.NewButton(parts.Primary, "add", words.Say("recipes.paste"), p.paste))
	file := p.w.pin("recipes.import", parts.NewButton(parts.Quiet, "import", words.Say("recipes.import"), p.w.importFiles))
	p.table = parts.NewMatrix()
	p.table.OnActivate = func(row, _ int) { p.open(row) }
	p.table.OnDelete = func(row, _ int) { p.remove(row) }
	p.w.pin("recipes.table", p.table)
	p.card = parts.NewTableCard("", "", p.table)
	p.empty = parts.NewEmptyState(parts.ArtPot, words.Say("recipes.empty"), words.Say("recipes.empty.sentence"),
		parts.NewButton(parts.Primary, "add", words.Say("recipes.paste"), p.paste),
		parts.NewButton(parts.Quiet, "import", words.Say("recipes.import"), p.w.importFiles))
	p.stack = stackOf(p.card, p.empty)
	head := parts.PageHead(words.Say("recipes.title"), words.Say("recipes.caption"), file, paste)
	return pageBody(head, p.stack)
}

// stackOf lays pages of one place over each other; show hides all but one.
func stackOf(o ...fyne.CanvasObject) *fyne.Container { return container.New(stack{}, o...) }

func (p *recipesPage) paste() { p.w.goTo(place{page: pagePaste}) }

func (p *recipesPage) show() {
	s := sheets.Library(p.w.book())
	p.ids = nil
	for _, r := range s.Rows {
		p.ids = append(p.ids, recipes.ID(r.Key))
	}
	visible(p.card, len(p.ids) > 0)
	visible(p.empty, len(p.ids) == 0)
	p.table.SetData(matrixOf(s))
}

func (p *recipesPage) open(row int) {
	if row >= 0 && row < len(p.ids) {
		p.w.goTo(place{page: pageRecipe, recipe: p.ids[row], tab: tabVersions})
	}
}

// remove takes a recipe out; undo brings it back, so nothing is asked.
func (p *recipesPage) remove(row int) {
	if row >= 0 && row < len(p.ids) {
		p.w.do(recipes.RemoveRecipe(p.ids[row]))
	}
}
