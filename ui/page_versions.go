package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// versionsPage sets the versions of a recipe side by side: what a serving holds
// and how that changed, the ingredients aligned, the steps that differ. Typing
// over a field of a version makes a swap.
type versionsPage struct {
	w      *Window
	table  *parts.Matrix
	banner *fyne.Container
	warned string // what the banner says
	basis  *parts.Segmented
	area   *fyne.Container
	card   fyne.CanvasObject
	empty  fyne.CanvasObject
	detail *detailPanel
	chart  *chartCard
	toggle *parts.Button
	cooked *parts.Button   // how the original is cooked
	flow   *fyne.Container // of the tools

	arranged arranged
	options  sheets.Options
	bench    *sheets.Bench
	book     *recipes.Book // the bench is of
	keys     []string      // by row of the table
	makeUp   func()        // brings the open "what makes it up" up to date
}

func newVersionsPage(w *Window) page { return &versionsPage{w: w} }

// versions is the page, for the window's own acts on it.
func (w *Window) versions() *versionsPage {
	r, _ := w.pages[pageRecipe].(*recipePage)
	p, _ := r.inner[tabVersions].(*versionsPage)
	return p
}

func (p *versionsPage) build() fyne.CanvasObject {
	p.bench = nil // what is built anew is shown anew
	p.banner = parts.Rows(0)
	tools := p.tools()
	p.table = p.newTable()
	p.card = parts.NewTableCard("", "", p.table)
	p.detail = newDetailPanel(func() { p.activate(p.table.Selected()) })
	p.w.pin("versions.detail", p.detail.act)
	p.chart = newChartCard(p.w)
	p.empty = p.emptyState()
	p.arranged = arranged{versions: true, chart: true}
	p.empty.Hide()
	p.area = container.New(&versionsLayout{p: p}, p.card, p.detail.view, p.chart.view, p.empty)
	p.warm()
	return parts.Fill(parts.GapMedium, 2, p.banner, tools, p.area)
}

// warm reads the table of foods beside the window, so that the first completion
// does not wait for it.
func (p *versionsPage) warm() {
	desk.Background(p.w.desk, "versions.foods", func(context.Context, *recipes.Book) error {
		_, err := p.w.desk.Foods()
		return err
	}, p.w.problemOrNil)
}

// tools are what the table is counted for and how much of it is shown.
func (p *versionsPage) tools() fyne.CanvasObject {
	p.basis = parts.NewSegmented([]parts.Suggestion{
		{Key: "serving", Text: words.Say("versions.per-serving")},
		{Key: "100g", Text: words.Say("versions.per-100g")},
		{Key: "dish", Text: words.Say("versions.whole-dish")},
	}, "serving", p.setBasis)
	all := parts.NewCheck(words.Say("versions.all-nutrients"), false, func(on bool) { p.options.All = on; p.showTable() })
	steps := parts.NewCheck(words.Say("versions.all-steps"), false, func(on bool) { p.options.AllSteps = on; p.showTable() })
	sure := parts.NewCheck(words.Say("versions.sure"), false, func(on bool) { p.options.Sure = on; p.showTable() })
	p.w.pin("versions.sure", sure)
	p.toggle = parts.NewButton(parts.Plain, "versions", words.Say("versions.hide-chart"), p.toggleChart)
	p.w.pin("versions.basis", p.basis)
	p.w.pin("versions.all-nutrients", all)
	p.w.pin("versions.all-steps", steps)
	p.w.pin("versions.chart", p.toggle)
	p.cooked = parts.NewButton(parts.Plain, "pot", "", p.w.cookingDialog)
	p.w.pin("versions.cooked", p.cooked)
	p.flow = parts.Flow(parts.GapLarge, p.basis, lowered(all), lowered(steps), lowered(sure), p.cooked, p.toggle)
	return p.flow
}

// lowered sets a checkbox on the line of the taller things beside it.
func lowered(o fyne.CanvasObject) fyne.CanvasObject { return parts.Pad(3, 0, 3, 0, o) }

// bases are the keys of the basis' segments.
var bases = map[string]sheets.Basis{"serving": sheets.PerServing, "100g": sheets.Per100g, "dish": sheets.WholeDish}

func (p *versionsPage) setBasis(key string) {
	p.options.Basis = bases[key]
	p.showTable()
}

// emptyState stands beside the original until there is a version.
func (p *versionsPage) emptyState() fyne.CanvasObject {
	add := parts.NewButton(parts.Primary, "add", words.Say("menu.new-version"), p.w.newVersion)
	draft := parts.NewButton(parts.Quiet, "import", words.Say("menu.lighter-draft"), p.w.pasteDraft)
	swaps := parts.NewButton(parts.Quiet, "swaps", words.Say("versions.look-swaps"), func() { p.goTab(tabSwaps) })
	p.w.pin("versions.empty.add", add)
	p.w.pin("versions.empty.draft", draft)
	p.w.pin("versions.empty.swaps", swaps)
	return parts.NewPanel(parts.GapMedium, parts.NewEmptyState(parts.ArtScales, words.Say("versions.empty"), words.Say("versions.empty.sentence"), add, draft, swaps))
}

func (p *versionsPage) goTab(tab string) {
	p.w.goTo(place{page: pageRecipe, recipe: p.w.at.recipe, tab: tab})
}

// show brings the page in line with the Book. Nothing is reckoned again while
// the Book is the same.
func (p *versionsPage) show() {
	r := p.w.recipe()
	fresh := p.bench == nil || p.book != p.w.book() || p.bench.Recipe.ID != r.ID
	if fresh {
		other := p.bench == nil || p.bench.Recipe.ID != r.ID
		p.bench, p.book = sheets.NewBench(p.w.book(), r), p.w.book()
		if other {
			p.table.SetScroll(fyne.Position{})
		}
		defer p.chart.show(p.bench)
	}
	p.warn(sheets.Doubts(r))
	p.nameCooking(r)
	p.showTable()
	if row, _ := p.table.Selected(); row < 0 {
		p.table.Select(0, 1)
	}
	p.arrange()
	if p.makeUp != nil {
		p.makeUp()
	}
}

// showTable lays the bench out as the options say.
func (p *versionsPage) showTable() {
	if p.bench == nil {
		return
	}
	s := p.bench.Sheet(p.options)
	p.keys = p.keys[:0]
	for _, r := range s.Rows {
		p.keys = append(p.keys, r.Key)
	}
	p.table.SetData(versionsData(p.bench, s))
	p.showDetail()
}

// nameCooking says on its button how the original is cooked.
func (p *versionsPage) nameCooking(r *recipes.Recipe) {
	if now := words.Say("cooked.button", sheets.MethodText(r.Dish)); now != p.cooked.Text() {
		p.cooked.SetText(now)
		p.flow.Refresh()
	}
}

// arrange shows the empty state until there is a version, and the chart as the
// cook wants it; the layout sees to the rest.
func (p *versionsPage) arrange() {
	some := len(p.bench.Versions) > 1
	key := "versions.show-chart"
	if p.chartWanted() {
		key = "versions.hide-chart"
	}
	if now := (arranged{some, p.chartWanted()}); now != p.arranged {
		p.arranged = now
		visible(p.empty, !some)
		visible(p.toggle, some)
		p.toggle.SetText(words.Say(key))
		p.flow.Refresh()
		p.area.Refresh()
	}
}

// arranged is what the page was last laid out for.
type arranged struct{ versions, chart bool }

// warn says how many ingredients may still move the numbers.
func (p *versionsPage) warn(doubts int) {
	text := ""
	if doubts > 0 {
		text = words.Say("versions.doubts", doubts)
	}
	if text == p.warned {
		return
	}
	p.warned = text
	p.banner.Objects = nil
	if text != "" {
		look := parts.NewButton(parts.Quiet, "", words.Say("versions.doubts.look"), func() { p.goTab(tabOriginal) })
		p.w.pin("versions.doubts", look)
		p.banner.Add(parts.NewBanner(parts.ToneLook, text, look))
	}
	visible(p.banner, text != "")
	p.banner.Refresh()
}

// prefChart is the preference that hides the chart.
const prefChart = "versions.chart.hidden"

func (p *versionsPage) chartWanted() bool { return !p.w.app.Preferences().Bool(prefChart) }

func (p *versionsPage) toggleChart() {
	p.w.app.Preferences().SetBool(prefChart, p.chartWanted())
	p.arrange()
}
