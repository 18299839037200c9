package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"parewell/assets"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// guideChapters are the chapters of the guide, in the order of the work, and
// where each leads; an empty page leads nowhere.
var guideChapters = []struct {
	name string // of its words and its picture
	to   place
}{
	{"paste", place{page: pagePaste}},
	{"swaps", place{page: pageRecipe, tab: tabSwaps}},
	{"versions", place{page: pageRecipe, tab: tabVersions}},
	{"tests", place{page: pageRecipe, tab: tabTests}},
	{"plan", place{page: pageRecipe, tab: tabTastings}},
	{"tastings", place{page: pageRecipe, tab: tabTastings}},
	{"ledger", place{page: pageRecipe, tab: tabLedger}},
	{"printed", place{page: pageRecipe, tab: tabPrinted}},
	{"figures", place{page: pageRecipe, tab: tabPrinted}},
	{"book", place{page: pageBook}},
	{"file", place{}},
}

// guide is the guide in the app: contents at the left, a chapter at the right.
type guide struct {
	w       *Window
	find    *parts.Entry
	list    *parts.Matrix
	chapter *fyne.Container
	scroll  *container.Scroll
	dialog  *parts.Dialog
	shown   []int // chapters by row of the list
}

// showGuide opens the guide at its first chapter.
func (w *Window) showGuide() {
	g := &guide{w: w}
	g.find = parts.NewEntry("", words.Say("guide.find"), nil)
	g.find.OnChanged = func(text string) { g.fill(text) }
	g.find.OnSubmitted = func(string) { w.win.Canvas().Focus(g.list) }
	g.list = parts.NewMatrix()
	g.list.WholeRow, g.list.Stretch, g.list.Headless = true, true, true
	g.list.OnSelect = func(row, _ int) { g.show(row) }
	g.list.OnActivate = func(row, _ int) { g.leave(row) }
	g.chapter = parts.Rows(parts.GapMedium)
	g.scroll = parts.Scrolled(parts.Pad(0, 14, 0, 4, g.chapter))
	w.pin("guide.find", g.find)
	w.pin("guide.list", g.list)
	left := parts.Fill(parts.GapSmall, 1, g.find, parts.NewTableCard("", "", g.list))
	g.fill("")
	g.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("guide.title"), Content: parts.Columns(parts.GapLarge, []float32{1, 2.4}, left, g.scroll),
		First: g.list, Cancel: words.Say("button.close"), Width: 1000, Height: 680,
	})
}

// fill lists the chapters that have all the words typed.
func (g *guide) fill(typed string) {
	g.shown = nil
	data := parts.MatrixData{Columns: []parts.Column{{Key: "chapter", Text: true}}, Empty: words.Say("guide.none")}
	for i := range guideChapters {
		name := guideChapters[i].name
		if title, text := guideWords(name); sheets.HasWords(title+" "+text, typed) {
			g.shown = append(g.shown, i)
			data.Rows = append(data.Rows, parts.Row{Key: name, Cells: []parts.Cell{{Text: title, Wrap: true}}})
		}
	}
	g.list.SetData(data)
	if len(g.shown) > 0 {
		g.list.Select(0, 0)
		g.show(0)
		return
	}
	g.chapter.Objects = []fyne.CanvasObject{parts.NewText(words.Say("guide.none.hint"))}
	g.chapter.Refresh()
	g.scroll.ScrollToTop()
}

// guideWords are a chapter's title and text.
func guideWords(name string) (title, text string) {
	return words.Say("guide." + name), words.Say("guide." + name + ".text")
}

// show puts a chapter at the right.
func (g *guide) show(row int) {
	if row < 0 || row >= len(g.shown) {
		return
	}
	c := guideChapters[g.shown[row]]
	title, text := guideWords(c.name)
	head := []fyne.CanvasObject{}
	if c.to.page != "" {
		to := parts.NewButton(parts.Primary, "right", words.Say("guide.go"), func() { g.leave(row) })
		g.w.pin("guide.go", to)
		head = append(head, to)
	}
	g.chapter.Objects = []fyne.CanvasObject{parts.HeadRow(parts.NewSubheading(title), head...)}
	if img := guidePicture(c.name); img != nil {
		g.chapter.Add(img)
	}
	for _, p := range sheets.Paragraphs(text) {
		g.chapter.Add(parts.NewText(p))
	}
	g.chapter.Refresh()
	g.scroll.Refresh()
	g.scroll.ScrollToTop()
}

// pictureOf is the file of a chapter's picture: the page that figures are saved on is
// that of the printed page.
func pictureOf(name string) string {
	if name == "figures" {
		name = "printed"
	}
	return "guide/" + name + ".png"
}

// guidePicture is a chapter's picture as wide as there is room, nil for none.
func guidePicture(name string) fyne.CanvasObject {
	data, err := assets.Guide.ReadFile(pictureOf(name))
	if err != nil {
		return nil // the chapter has none
	}
	img := canvas.NewImageFromResource(fyne.NewStaticResource("guide-"+name+".png", data))
	img.FillMode, img.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleSmooth
	return parts.Ratio(guideHigh, parts.NewPanel(1, img))
}

// guideHigh is the height of the guide's pictures in their width: that of a
// window of 1280 by 800.
const guideHigh = 800.0 / 1280

// leave closes the guide and goes to the place of a chapter; a tab that of the
// recipe in sight, else of the first.
func (g *guide) leave(row int) {
	if row < 0 || row >= len(g.shown) {
		return
	}
	to := guideChapters[g.shown[row]].to
	if to.page == "" {
		return
	}
	if to.page == pageRecipe {
		to.recipe = g.w.at.recipe
		if all := g.w.book().Recipes(); g.w.book().Recipe(to.recipe) == nil && len(all) > 0 {
			to.recipe = all[0].ID
		}
	}
	g.dialog.Close()
	g.w.goTo(to)
}
