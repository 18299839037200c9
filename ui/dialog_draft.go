package ui

import (
	"context"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"parewell/analysis/effects"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// draftDialog takes a lighter recipe as text and offers its differences from
// the original as swaps. Nothing is saved before it is accepted.
type draftDialog struct {
	w      *Window
	recipe *recipes.Recipe
	text   *parts.Entry
	name   *parts.Entry
	serves *parts.Check // nil until a draft says it serves another number
	also   *fyne.Container
	table  *parts.Matrix
	right  fyne.CanvasObject
	hint   *parts.Text
	total  *parts.Text
	rises  *parts.Text
	notes  *fyne.Container
	join   *parts.Button
	dialog *parts.Dialog
	timer  *time.Timer
	got    draftRead
	all    []sheets.Proposal
}

// draftRead is what came of reading a draft.
type draftRead struct {
	draft *reading.Draft
	swaps []recipes.Swap
	foods []*food.Food
	more  int
	err   error
}

// pasteDraft opens the dialog for the recipe in sight.
func (w *Window) pasteDraft() {
	if r := w.recipe(); r != nil && w.view.ReadOnly == "" {
		w.showDraft(r)
	}
}

func (w *Window) showDraft(r *recipes.Recipe) *draftDialog {
	d := &draftDialog{w: w, recipe: r}
	size := w.win.Canvas().Size()
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("draft.title"), Content: d.content(), First: d.text, Confirm: words.Say("draft.accept"),
		Cancel: words.Say("button.cancel"), Width: min(1180, size.Width/w.factor-60), Height: min(760, size.Height/w.factor-60), OnOK: d.accept,
	})
	d.show()
	return d
}

func (d *draftDialog) content() fyne.CanvasObject {
	d.text = parts.NewTextArea("", words.Say("draft.hint"), 8, nil)
	d.text.OnCut = func(n int) { d.w.status.SetTone(parts.ToneLook, words.Say("paste.cut", words.Number(float64(n), 0))) }
	d.text.OnChanged = func(string) { d.later() }
	d.w.pin("draft.text", d.text)
	left := parts.Fill(parts.GapSmall, 1, parts.NewCaption(words.Say("draft.caption", d.recipe.Title)), d.text)
	return parts.Columns(parts.GapLarge, []float32{1, 2}, left, d.findings())
}

// findings is the right half: the differences and what they come to.
func (d *draftDialog) findings() fyne.CanvasObject {
	d.table = parts.NewMatrix()
	d.table.OnToggle = func(row, _ int) { d.flip(row) }
	d.table.OnEdit = d.rename
	d.table.OnSelect = func(row, _ int) { d.join.SetEnabled(row > 0) }
	d.w.pin("draft.table", d.table)
	d.join = parts.NewButton(parts.Quiet, "up", words.Say("draft.join"), d.joinUp)
	d.join.SetEnabled(false)
	d.w.pin("draft.join", d.join)
	d.total, d.rises, d.notes = parts.NewBold(""), parts.NewText(""), parts.Rows(2)
	d.rises.SetRole(parts.RoleLook)
	d.name = parts.NewEntry("", words.Say("draft.name.hint"), nil)
	d.w.pin("draft.name", d.name)
	d.also = stackOf()
	line := parts.Stretch(parts.GapSmall, 1, parts.NewText(words.Say("draft.name")), d.name, d.join)
	d.right = parts.Fill(parts.GapSmall, 0, parts.NewTableCard("", "", d.table), line, d.also, d.total, d.rises, d.notes)
	d.hint = parts.NewText(words.Say("draft.empty"))
	d.hint.SetRole(parts.RoleMuted)
	return stackOf(d.right, d.hint)
}

// later reads the text once typing rests.
func (d *draftDialog) later() {
	if d.timer != nil {
		d.timer.Stop()
	}
	d.timer = time.AfterFunc(readAfter, func() { fyne.Do(d.now) })
}

func (d *draftDialog) now() {
	if strings.TrimSpace(d.text.Text) == "" {
		d.took(draftRead{})
		return
	}
	text, r := d.text.Text, d.recipe
	desk.Background(d.w.desk, "draft", func(_ context.Context, b *recipes.Book) draftRead {
		return d.w.readDraft(text, r, b)
	}, d.took)
}

// readDraft reads a lighter recipe in the original's measures and compares it.
func (w *Window) readDraft(text string, r *recipes.Recipe, b *recipes.Book) draftRead {
	table, err := w.desk.Foods()
	if err != nil {
		return draftRead{err: err}
	}
	sys, _ := measure.ParseSystem(r.Measures) // the book's own word
	drafts, err := reading.Read([]byte(text), "", reading.Options{System: sys, Foods: table, Memory: b})
	if err != nil {
		return draftRead{err: err}
	}
	return draftRead{
		draft: drafts[0], swaps: reading.Differences(r, drafts[0], table),
		foods: desk.FoodsOf(drafts[0].Lines, table), more: len(drafts) - 1,
	}
}

func (d *draftDialog) took(got draftRead) {
	d.got = got
	d.all = sheets.Proposals(got.swaps, d.w.newID)
	d.serves, d.also.Objects = nil, nil
	if n := d.otherServings(); n > 0 {
		d.serves = parts.NewCheck(words.Say("draft.serves", words.Trim(n, 2), words.Trim(d.recipe.Servings, 2)), true, func(bool) { d.show() })
		d.w.pin("draft.serves", d.serves)
		d.also.Add(d.serves)
	}
	d.show()
}

// otherServings is what the draft says it serves, 0 where it says nothing or
// the same as the original.
func (d *draftDialog) otherServings() float64 {
	if g := d.got.draft; g != nil && g.ServingsFrom != recipes.ServingsAssumed && g.Servings != d.recipe.Servings {
		return g.Servings
	}
	return 0
}

func (d *draftDialog) servings() float64 {
	if d.serves != nil && d.serves.On() {
		return d.otherServings()
	}
	return 0
}

// show lays out the differences as they stand.
func (d *draftDialog) show() {
	some := len(d.all) > 0 || d.otherServings() > 0
	visible(d.right, some)
	visible(d.hint, !some)
	d.dialog.SetConfirmEnabled(len(sheets.TakenOf(d.all)) > 0 || d.servings() > 0)
	if !some {
		d.hint.SetText(d.why())
		return
	}
	s := sheets.UnitsOf(d.w.book()).DraftOf(d.recipe, effects.With(d.w.book().Food, d.got.foods), d.all, d.servings())
	m := matrixOf(s.Sheet)
	m.Columns[1].Align, m.Columns[1].Text = parts.AlignCentre, false
	d.table.SetData(m)
	d.total.SetText(s.Total)
	d.rises.SetText("")
	if s.Rises != "" {
		d.rises.SetText(words.Say("tip.slipped", s.Rises))
	}
	visible(d.rises, s.Rises != "")
	visible(d.also, d.serves != nil)
	d.notes.Objects = nil
	for _, n := range sheets.DraftNotes(d.got.draft, d.all, d.got.more) {
		d.notes.Add(parts.NewCaption(n))
	}
	d.right.Refresh()
}

// why says why no difference is shown.
func (d *draftDialog) why() string {
	switch {
	case d.got.err != nil:
		return d.got.err.Error()
	case d.got.draft != nil:
		return words.Say("draft.same")
	}
	return words.Say("draft.empty")
}

func (d *draftDialog) flip(row int) {
	if row >= 0 && row < len(d.all) {
		d.all[row].On = !d.all[row].On
		d.show()
	}
}

func (d *draftDialog) rename(row, col int, text string) {
	if row >= 0 && row < len(d.all) && col == 0 && strings.TrimSpace(text) != "" {
		s := *d.all[row].Swap
		s.Name = strings.TrimSpace(text)
		d.all[row].Swap = &s
		d.show()
	}
}

// joinUp makes one swap of the chosen difference and the one above it.
func (d *draftDialog) joinUp() {
	row, _ := d.table.Selected()
	all, ok := sheets.JoinProposals(d.all, row)
	if !ok {
		return
	}
	d.all = all
	d.show()
	d.table.Select(row-1, 0)
}

// accept adds the swaps taken and a version with all of them on.
func (d *draftDialog) accept() bool {
	taken := sheets.TakenOf(d.all)
	if len(taken) == 0 && d.servings() == 0 {
		return false
	}
	recipe := d.recipe.ID
	d.w.do(sheets.TakeDraft(d.recipe, d.w.newID(), d.name.Text, taken, d.got.foods, d.servings()), func(ok bool) {
		if ok {
			d.w.goTo(place{page: pageRecipe, recipe: recipe, tab: tabVersions})
		}
	})
	return true
}
