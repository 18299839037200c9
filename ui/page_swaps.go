package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// swapsPage is the tick table, where the original's calories are, and one card
// that shows either the swap chosen above or the ideas for the ingredient
// chosen beside it.
type swapsPage struct {
	w     *Window
	bench *sheets.Bench
	sheet sheets.SwapSheet

	table   *parts.Matrix
	tableIn fyne.CanvasObject
	noSwaps fyne.CanvasObject
	noTicks fyne.CanvasObject
	layout  *swapsLayout
	view    *fyne.Container
	sources *sourceList
	detail  *swapCard
	ideas   *ideaCards

	recipe  recipes.ID // what is shown
	swap    recipes.ID // chosen in the table, "" for none
	looking bool       // the card shows ideas, not the swap
}

func newSwapsPage(w *Window) page { return &swapsPage{w: w, looking: true} }

func (p *swapsPage) build() fyne.CanvasObject {
	p.buildTable()
	p.sources = newSourceList(p)
	p.detail, p.ideas = newSwapCard(p), newIdeaCards(p)
	made := parts.NewButton(parts.Quiet, "add", words.Say("swaps.make"), func() { p.w.editSwap(nil) })
	p.w.pin("swaps.make", made)
	head := parts.Line(parts.GapMedium, parts.NewCaption(words.Say("swaps.caption")), parts.Spring(), made)
	p.noSwaps = parts.NewBanner(parts.ToneNeutral, words.Say("swaps.empty"))
	p.noTicks = parts.NewBanner(parts.ToneNeutral, words.Say("swaps.no-versions"),
		parts.NewButton(parts.Quiet, "add", words.Say("menu.new-version"), p.w.newVersion))
	p.layout = &swapsLayout{p: p}
	top := parts.Fill(parts.GapSmall, 3, head, p.noSwaps, p.noTicks, p.tableIn)
	p.view = newSwapsView(p.layout, top, p.sources.view, stackOf(p.detail.view, p.ideas.view))
	return p.view
}

func (p *swapsPage) show() {
	r := p.w.recipe()
	if r.ID != p.recipe {
		p.recipe, p.swap, p.looking = r.ID, "", true
		p.sources.forget()
	}
	p.bench = sheets.NewBench(p.w.book(), r)
	p.sheet = p.bench.Swaps()
	if p.w.book().Swap(r.ID, p.swap) == nil {
		p.swap, p.looking = "", true
	}
	p.showTable()
	p.sources.show()
	p.showCard()
	p.layout.refresh(p.view)
}

// showCard shows the chosen swap, or the ideas for the chosen ingredient.
func (p *swapsPage) showCard() {
	if p.looking {
		p.ideas.show()
	} else {
		p.detail.show(p.w.book().Swap(p.recipe, p.swap))
	}
	visible(p.ideas.view, p.looking)
	visible(p.detail.view, !p.looking)
}

// choose shows a swap in the card.
func (p *swapsPage) choose(id recipes.ID) {
	if id == p.swap && !p.looking {
		return
	}
	p.swap, p.looking = id, false
	p.showCard()
}

// look shows the ideas for an ingredient.
func (p *swapsPage) look() {
	p.looking = true
	p.showCard()
}

// sourceNutrients are the choices of the list of sources.
func sourceNutrients(u sheets.Units) []parts.Suggestion {
	var out []parts.Suggestion
	for _, n := range sheets.Sources {
		out = append(out, parts.Suggestion{Key: n.Key(), Text: u.SourceName(n)})
	}
	return out
}

// nutrientOf finds a nutrient by its key, energy for any other.
func nutrientOf(key string) food.Nutrient {
	if n, ok := food.ByKey(key); ok {
		return n
	}
	return food.EnergyKcal
}
