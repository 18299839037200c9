package ui

import (
	"strings"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// testsPage is the kitchen log of a recipe: what to do next time, the tests of
// each version with their averages, and one test whole.
type testsPage struct {
	w      *Window
	bench  *sheets.Bench
	table  *parts.Matrix
	next   *nextList
	card   *testCard
	rests  *parts.Text // which numbers rest on the tests
	head   fyne.CanvasObject
	log    fyne.CanvasObject
	empty  fyne.CanvasObject
	view   *fyne.Container
	laid   testsLaid // what the page was last laid out for
	keys   []string  // by row of the table
	recipe recipes.ID
	chosen recipes.ID // the test the card shows
}

// testsLaid is what decides how the page is laid out.
type testsLaid struct {
	some bool // there are tests
	next int  // things to do next time
}

func newTestsPage(w *Window) page { return &testsPage{w: w} }

// tests is the page, for the window's own acts on it.
func (w *Window) tests() *testsPage {
	r, _ := w.pages[pageRecipe].(*recipePage)
	p, _ := r.inner[tabTests].(*testsPage)
	return p
}

func (p *testsPage) build() fyne.CanvasObject {
	p.table = parts.NewMatrix()
	p.table.WholeRow, p.table.Stretch = true, true
	p.table.OnSelect = func(row, _ int) { p.pick(row) }
	p.table.OnActivate = func(row, _ int) { p.w.editTest(p.test(row)) }
	p.table.OnDelete = func(row, _ int) { p.remove(p.test(row)) }
	p.table.OnMenu = p.menu
	p.table.SetData(oneColumn())
	p.w.pin("tests.table", p.table)
	p.next, p.card = newNextList(p.w), newTestCard(p)
	p.rests = parts.NewCaption("")
	add := p.w.pin("tests.add", parts.NewButton(parts.Quiet, "add", words.Say("tests.add"), p.w.addTest))
	sheet := p.w.pin("tests.print", parts.NewButton(parts.Quiet, "print", words.Say("tests.print"), p.w.printTestSheets))
	p.head = parts.Stretch(parts.GapMedium, 0, p.rests, sheet, add)
	p.log = newTestsView(p, p.next.view, parts.NewTableCard("", "", p.table), p.card.view)
	p.empty = p.emptyState()
	p.view = parts.Fill(parts.GapSmall, 1, p.head, stackOf(p.log, p.empty))
	return p.view
}

func (p *testsPage) emptyState() fyne.CanvasObject {
	add := p.w.pin("tests.empty.add", parts.NewButton(parts.Primary, "add", words.Say("tests.add"), p.w.addTest))
	sheet := p.w.pin("tests.empty.print", parts.NewButton(parts.Quiet, "print", words.Say("tests.print"), p.w.printTestSheets))
	return parts.NewPanel(parts.GapMedium, parts.NewEmptyState(parts.ArtPot, words.Say("tests.empty"), words.Say("tests.empty.sentence"), add, sheet))
}

func (p *testsPage) show() {
	r := p.w.recipe()
	if r.ID != p.recipe {
		p.recipe, p.chosen = r.ID, ""
	}
	p.bench = sheets.NewBench(p.w.book(), r)
	s := p.bench.Tests()
	p.keys = p.keys[:0]
	for _, row := range s.Rows {
		p.keys = append(p.keys, row.Key)
	}
	p.rests.SetText(p.bench.WeighedText())
	p.next.show(sheets.NextTime(p.w.book(), r.ID))
	p.table.SetData(testsData(s))
	some := len(p.keys) > 0
	for o, on := range map[fyne.CanvasObject]bool{p.head: some, p.log: some, p.empty: !some} {
		visible(o, on)
	}
	p.choose(p.chosen)
	if now := (testsLaid{some, len(p.next.items)}); now != p.laid {
		p.laid = now
		p.view.Refresh()
	}
}

// testsData gives each column what it needs at the least; the notes take what
// is left.
func testsData(s sheets.Sheet) parts.MatrixData {
	d := matrixOf(s)
	for i := range d.Columns {
		d.Columns[i].Text, d.Columns[i].Min = false, 0
	}
	d.Columns[2].Max, d.Columns[5].Max = 100, 100 // cook, why it was set aside
	d.Columns[6].Min, d.Columns[6].Text = 70, true
	for i := range d.Rows {
		if strings.HasPrefix(d.Rows[i].Key, sheets.AverageKey) {
			d.Rows[i].Kind = parts.RowTotal
		}
	}
	return d
}

// oneColumn is what a table holds that is laid out before it is filled.
func oneColumn() parts.MatrixData { return parts.MatrixData{Columns: []parts.Column{{Key: "label"}}} }

// test is that of a row, nil for a heading.
func (p *testsPage) test(row int) *recipes.Batch {
	if row < 0 || row >= len(p.keys) {
		return nil
	}
	return p.w.book().Test(p.recipe, recipes.ID(p.keys[row]))
}

// current is the test in the card, nil when there is none.
func (p *testsPage) current() *recipes.Batch { return p.w.book().Test(p.recipe, p.chosen) }

func (p *testsPage) pick(row int) {
	if t := p.test(row); t != nil && t.ID != p.chosen {
		p.chosen = t.ID
		p.card.show(t)
	}
}

// choose shows a test in table and card; one that is gone gives way to the
// first of the list.
func (p *testsPage) choose(id recipes.ID) {
	p.chosen = id
	row := -1
	for i, key := range p.keys {
		if p.test(i) != nil && (row < 0 || key == string(id)) {
			row = i
			if key == string(id) {
				break
			}
		}
	}
	t := p.test(row)
	if t == nil {
		return
	}
	p.chosen = t.ID
	if p.table.SelectedKey() != string(t.ID) {
		p.table.Select(row, 0)
	}
	p.card.show(t)
}

func (p *testsPage) menu(row, _ int, at fyne.Position) {
	t := p.test(row)
	if t == nil {
		return
	}
	aside := parts.MenuItem{Icon: "remove", Label: words.Say("tests.set-aside"), Do: func() { p.w.setAside(t) }}
	if t.SetAside != "" {
		aside = parts.MenuItem{Icon: "check", Label: words.Say("tests.take-back"), Do: func() { p.w.takeBack(t) }}
	}
	parts.ShowMenu(p.table, at,
		parts.MenuItem{Icon: "edit", Label: words.Say("tests.edit"), Do: func() { p.w.editTest(t) }}, aside,
		parts.MenuItem{Icon: "photo", Label: words.Say("tests.add-photo"), Do: func() { p.w.addPhoto(t) }}, parts.MenuItem{},
		parts.MenuItem{Icon: "delete", Label: words.Say("tests.remove"), Do: func() { p.remove(t) }})
}

func (p *testsPage) remove(t *recipes.Batch) {
	if t != nil {
		p.w.do(recipes.RemoveTest(t.Recipe, t.ID))
	}
}

func (w *Window) takeBack(t *recipes.Batch) { w.do(recipes.SetAside(t.Recipe, t.ID, "")) }

// setAside asks why a test shall not count.
func (w *Window) setAside(t *recipes.Batch) {
	why := parts.NewEntry("", words.Say("tests.aside.hint"), nil)
	form := parts.NewForm()
	row := form.Row(words.Say("tests.aside.why"), why, "", words.Say("tests.aside.help"))
	w.pin("tests.aside.why", why)
	d := parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tests.aside.title", sheets.TestName(w.book(), t)), Content: form, First: why,
		Confirm: words.Say("tests.set-aside"), Cancel: words.Say("button.cancel"), Width: 520,
		OnOK: func() bool {
			if sheets.Blank(why.Text) {
				row.SetError(words.Say("tests.aside.wrong"))
				return false
			}
			w.do(recipes.SetAside(t.Recipe, t.ID, why.Text))
			return true
		},
	})
	why.OnSubmitted = func(string) { d.Confirm() }
}
