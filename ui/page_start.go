package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

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
	title := parts.NewHeading(words.Say("start.title"))
	title.Align = fyne.TextAlignCenter
	sentence := parts.NewText(words.Say("start.sentence"))
	sentence.Align = fyne.TextAlignCenter
	ways := parts.Columns(parts.GapLarge, []float32{1, 1, 1},
		p.way(parts.ArtSheet, "start.paste", parts.Primary, "add", p.paste),
		p.way(parts.ArtTicks, "start.demo", parts.Quiet, "recipes", p.w.openDemo),
		p.way(parts.ArtPot, "start.open", parts.Quiet, "open", p.w.chooseWorkbook))
	p.list = parts.Rows(parts.GapSmall)
	all := parts.Rows(parts.GapLarge, title, sentence, ways, p.list)
	return parts.Scrolled(container.New(centred{}, all))
}

// way is one of the three ways to begin.
func (p *startPage) way(art parts.Art, key string, kind parts.ButtonKind, icon string, act func()) fyne.CanvasObject {
	b := parts.NewButton(kind, icon, words.Say(key), act)
	p.w.pin(key, b)
	return parts.NewPanel(parts.GapLarge, parts.NewEmptyState(art, words.Say(key+".title"), words.Say(key+".sentence"), b))
}

// centred puts the welcome in the middle, a little above, no wider than reads
// well.
type centred struct{}

// startWidth is the welcome's greatest width.
const startWidth = 1060

// MinSize is the welcome's with its margins.
func (centred) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().AddWidthHeight(2*parts.GapLarge, 2*parts.GapLarge)
}

// Layout centres the welcome.
func (centred) Layout(o []fyne.CanvasObject, s fyne.Size) {
	width := min(s.Width-2*parts.GapLarge, startWidth)
	o[0].Resize(fyne.NewSize(width, o[0].MinSize().Height))
	height := o[0].MinSize().Height
	o[0].Resize(fyne.NewSize(width, height))
	o[0].Move(fyne.NewPos((s.Width-width)/2, max(parts.GapLarge, (s.Height-height)*0.38)))
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
