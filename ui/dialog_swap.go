package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/analysis/effects"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// swapEditor makes a swap or changes one: a name and a list of what it does,
// with the effect shown while it is typed.
type swapEditor struct {
	w      *Window
	recipe *recipes.Recipe
	base   *recipes.Swap // the swap changed; without an ID for a new one
	name   *parts.Entry
	ops    []*opEditor
	list   *fyne.Container
	scroll *container.Scroll
	effect *parts.Text
	rises  *parts.Text
	wrong  *parts.Text
	dialog *parts.Dialog
}

// editSwap opens the editor on a swap, or on a new one for nil.
func (w *Window) editSwap(sw *recipes.Swap) {
	r := w.recipe()
	if r == nil || w.view.ReadOnly != "" {
		return
	}
	title, confirm := words.Say("swap.edit.title"), words.Say("button.save")
	e := &swapEditor{w: w, recipe: r, base: sw, list: parts.Rows(parts.GapSmall)}
	if sw == nil {
		title, confirm = words.Say("swap.make.title"), words.Say("swap.make.add")
		e.base = &recipes.Swap{Recipe: r.ID}
	}
	e.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: e.content(), First: e.name, Confirm: confirm, Cancel: words.Say("button.cancel"),
		Width: 820, Height: 620, OnOK: e.save,
	})
}

func (e *swapEditor) content() fyne.CanvasObject {
	e.name = parts.NewEntry(e.base.Name, words.Say("swap.name.hint"), nil)
	e.w.pin("swapedit.name", e.name)
	for i := range e.base.Ops {
		e.ops = append(e.ops, newOpEditor(e, sheets.DraftOp(e.recipe, &e.base.Ops[i])))
	}
	if len(e.ops) == 0 {
		e.ops = append(e.ops, newOpEditor(e, e.blank()))
	}
	more := parts.NewButton(parts.Quiet, "add", words.Say("swap.more"), func() {
		e.ops = append(e.ops, newOpEditor(e, e.blank()))
		e.relist()
		e.scroll.ScrollToBottom()
	})
	e.w.pin("swapedit.more", more)
	e.effect, e.rises, e.wrong = parts.NewText(""), parts.NewText(""), parts.NewText("")
	e.rises.SetRole(parts.RoleLook)
	e.wrong.SetRole(parts.RoleError)
	e.scroll = parts.Scrolled(parts.Pad(0, 12, 0, 0, parts.Rows(parts.GapSmall, e.list, parts.Line(0, more))))
	form := parts.NewForm()
	form.Row(words.Say("swap.name"), e.name, "", "")
	foot := parts.Rows(4, parts.NewSection(words.Say("swap.effect")), e.effect, e.rises, e.wrong)
	e.relist()
	return parts.Fill(parts.GapMedium, 1, form, e.scroll, foot)
}

// blank is a new operation: use less of the ingredient that holds most energy.
func (e *swapEditor) blank() sheets.OpDraft {
	d := sheets.OpDraft{Do: sheets.UseLess}
	if rows := sheets.NewBench(e.w.book(), e.recipe).Sources(food.EnergyKcal); len(rows) > 0 {
		d.Line = rows[0].Line
	} else if len(e.recipe.Lines) > 0 {
		d.Line = e.recipe.Lines[0].ID
	}
	return d
}

// relist shows the operations anew after one was added, removed or changed its
// kind.
func (e *swapEditor) relist() {
	e.list.Objects = nil
	for _, o := range e.ops {
		e.list.Add(o.view)
	}
	e.list.Refresh()
	e.changed()
}

func (e *swapEditor) drop(o *opEditor) {
	for i, x := range e.ops {
		if x == o {
			e.ops = append(e.ops[:i:i], e.ops[i+1:]...)
		}
	}
	e.relist()
}

// read makes the swap of the fields. told shows what is missing beside each
// field; without it only fields that hold something are judged aloud.
func (e *swapEditor) read(told bool) (*recipes.Swap, []*food.Food, bool) {
	table, err := e.w.desk.Foods()
	if err != nil {
		e.wrong.SetText(err.Error())
		return nil, nil, false
	}
	s, good := *e.base, true
	s.Ops = nil
	var foods []*food.Food
	for _, o := range e.ops {
		op, err := o.draft.Read(e.recipe, e.w.readingOptions(table, ""))
		o.tell(err, told)
		if err != nil {
			good = false
			continue
		}
		s.Ops = append(s.Ops, op)
		foods = append(foods, desk.FoodsOf(op.Lines, table)...)
	}
	if s.Name = strings.TrimSpace(e.name.Text); s.Name == "" && len(s.Ops) > 0 {
		s.Name = sheets.OpText(e.recipe, &s.Ops[0])
	}
	return &s, foods, good && len(s.Ops) > 0
}

// changed shows the effect of what the fields say now.
func (e *swapEditor) changed() {
	if e.effect == nil {
		return
	}
	s, foods, good := e.read(false)
	e.wrong.SetText("")
	if !good {
		e.effect.SetText(words.Say("swap.unfinished"))
		e.rises.SetText("")
		return
	}
	of, err := effects.Of(e.recipe, s, effects.With(e.w.book().Food, foods))
	if err != nil {
		e.effect.SetText("")
		e.wrong.SetText(err.Error())
		return
	}
	e.effect.SetText(sheets.UnitsOf(e.w.book()).EffectLine(of))
	e.rises.SetText(sheets.UnitsOf(e.w.book()).EditorNotes(of))
}

func (e *swapEditor) save() bool {
	s, foods, good := e.read(true)
	if !good {
		if len(e.ops) == 0 {
			e.wrong.SetText(words.Say("swap.nothing"))
		}
		return false
	}
	if s.ID != "" {
		e.w.do(recipes.EditSwap(s, foods))
		return true
	}
	s.ID = e.w.newID()
	e.w.do(recipes.AddSwap(s, foods, ""))
	return true
}
