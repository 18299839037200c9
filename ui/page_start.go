package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"

	"parewell/recipes/words"
	"parewell/ui/parts"
)

// startPage greets the cook when no workbook is open: paste a recipe, open the
// demo, open a workbook.
type startPage struct {
	w    *Window
	list *fyne.Container
}

func (p *startPage) build() fyne.CanvasObject {
	buttons := []fyne.CanvasObject{
		p.w.pin("start.paste", parts.NewButton(parts.Primary, "add", words.Say("start.paste"), p.paste)),
		p.w.pin("start.demo", parts.NewButton(parts.Quiet, "recipes", words.Say("start.demo"), p.w.openDemo)),
		p.w.pin("start.open", parts.NewButton(parts.Quiet, "open", words.Say("start.open"), p.w.chooseWorkbook)),
	}
	p.list = parts.Rows(parts.GapSmall)
	welcome := parts.NewEmptyState(parts.ArtScales, words.Say("start.title"), words.Say("start.sentence"), buttons...)
	return parts.Scrolled(parts.Pad(parts.GapLarge, 20, parts.GapLarge, 20, parts.Rows(parts.GapLarge, welcome, p.list)))
}

// show lists the workbooks opened lately that are still there.
func (p *startPage) show() {
	p.list.Objects = nil
	recent := p.w.desk.Prefs().Recent
	if len(recent) > 0 {
		p.list.Add(parts.NewSection(words.Say("start.recent")))
	}
	for _, r := range recent {
		path := r.Path
		p.list.Add(parts.NewButton(parts.Plain, "pot", words.Say("start.recent-file", filepath.Base(path), filepath.Dir(path)), func() { p.w.openPath(path) }))
	}
	p.list.Refresh()
}

// paste opens the paste page; a workbook is asked for when the recipe is added.
func (p *startPage) paste() { p.w.goTo(place{page: pagePaste}) }
