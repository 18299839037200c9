package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// opEditor is the fields of one operation of a swap.
type opEditor struct {
	e     *swapEditor
	draft sheets.OpDraft
	view  *fyne.Container
	wrong *parts.Text
	kind  *parts.Picker
	step  *parts.Picker
	last  *parts.Entry // the last new ingredient
}

func newOpEditor(e *swapEditor, d sheets.OpDraft) *opEditor {
	o := &opEditor{e: e, draft: d, view: stackOf(), wrong: parts.NewCaption("")}
	o.wrong.SetRole(parts.RoleError)
	o.wrong.Hide()
	o.fields()
	return o
}

// fields makes the fields the kind of operation needs.
func (o *opEditor) fields() {
	away := parts.NewIconButton("remove", words.Say("swap.op.remove"), func() { o.e.drop(o) })
	if o.draft.Do == sheets.OtherDoing {
		o.view.Objects = []fyne.CanvasObject{parts.NewPanel(10, parts.Stretch(parts.GapSmall, 0, parts.NewText(o.draft.Text), away))}
		return
	}
	first := parts.Line(parts.GapSmall, o.doing())
	switch {
	case o.draft.Do.NeedsLine():
		first.Add(o.lines())
	case o.draft.Do.NeedsStep():
		first.Add(o.steps())
	}
	if o.draft.Do.NeedsValue() {
		first.Add(o.value())
	}
	first.Add(parts.Spring())
	first.Add(away)
	rows := parts.Rows(6, first)
	if o.draft.Do.NeedsLines() {
		o.newLines(rows)
	}
	if o.draft.Do.NeedsText() {
		rows.Add(o.text())
	}
	rows.Add(o.wrong)
	o.view.Objects = []fyne.CanvasObject{parts.NewPanel(10, rows)}
	o.view.Refresh()
}

// again makes the fields anew; the keyboard goes to the one named of the new.
func (o *opEditor) again(to func() fyne.Focusable) {
	o.fields()
	o.e.relist()
	o.e.w.win.Canvas().Focus(to())
}

func (o *opEditor) toKind() fyne.Focusable { return o.kind }
func (o *opEditor) toStep() fyne.Focusable { return o.step }
func (o *opEditor) toLast() fyne.Focusable { return o.last }

func (o *opEditor) doing() fyne.CanvasObject {
	var items []parts.Suggestion
	for _, d := range sheets.Doings {
		items = append(items, parts.Suggestion{Key: string(d), Text: words.Say("op.do." + string(d))})
	}
	o.kind = parts.NewPicker(items, string(o.draft.Do), "", func(s parts.Suggestion) {
		o.draft.Do, o.draft.Value = sheets.Doing(s.Key), ""
		if o.draft.Do.NeedsStep() && o.draft.Step == "" && len(o.e.recipe.Steps) > 0 {
			o.draft.Step = o.e.recipe.Steps[0].ID
		}
		if o.draft.Do == sheets.ReplaceWith {
			o.draft.Value = words.Share(1)
		}
		o.again(o.toKind)
	})
	return o.kind
}

func (o *opEditor) lines() fyne.CanvasObject {
	var items []parts.Suggestion
	for _, l := range o.e.recipe.Lines {
		items = append(items, parts.Suggestion{Key: string(l.ID), Text: sheets.LineName(l), Detail: sheets.LineWeight(l)})
	}
	return parts.Sized(210, 0, parts.NewPicker(items, string(o.draft.Line), words.Say("op.line.hint"), func(s parts.Suggestion) {
		o.draft.Line = recipes.ID(s.Key)
		o.e.changed()
	}))
}

func (o *opEditor) steps() fyne.CanvasObject {
	var items []parts.Suggestion
	for i, s := range o.e.recipe.Steps {
		items = append(items, parts.Suggestion{Key: string(s.ID), Text: sheets.StepName(i, s)})
	}
	o.step = parts.NewPicker(items, string(o.draft.Step), words.Say("op.step.hint"), func(s parts.Suggestion) {
		o.draft.Step = recipes.ID(s.Key)
		if st := o.e.recipe.Step(o.draft.Step); o.draft.Do == sheets.StepReads && o.draft.Text == "" && st != nil {
			o.draft.Text = st.Text
		}
		o.again(o.toStep)
	})
	return parts.Sized(400, 0, o.step)
}

// value is the field of an amount or a share.
func (o *opEditor) value() fyne.CanvasObject {
	f := parts.NewEntry(o.draft.Value, words.Say("op.value."+string(o.draft.Do)), nil)
	f.Width = 170
	o.follow(f, func(s string) { o.draft.Value = s })
	o.e.w.pin("swapedit.value", f)
	return f
}

func (o *opEditor) text() fyne.CanvasObject {
	f := parts.NewTextArea(o.draft.Text, words.Say("op.text.hint"), 3, nil)
	o.follow(f, func(s string) { o.draft.Text = s })
	o.e.w.pin("swapedit.text", f)
	return f
}

// follow keeps the draft in step with a field and shows the effect at once.
func (o *opEditor) follow(f *parts.Entry, keep func(string)) {
	completes := f.OnChanged
	f.OnChanged = func(s string) {
		completes(s)
		keep(s)
		o.e.changed()
	}
}

// newLines are the fields of the ingredients the operation brings.
func (o *opEditor) newLines(rows *fyne.Container) {
	if len(o.draft.Lines) == 0 {
		o.draft.Lines = []sheets.LineDraft{{}}
	}
	for i := range o.draft.Lines {
		rows.Add(o.lineField(i))
	}
	more := parts.NewButton(parts.Plain, "add", words.Say("op.more"), func() {
		o.draft.Lines = append(o.draft.Lines, sheets.LineDraft{})
		o.again(o.toLast)
	})
	rows.Add(parts.Line(0, more))
}

func (o *opEditor) lineField(i int) fyne.CanvasObject {
	f := parts.NewSuggestEntry(o.draft.Lines[i].Text, words.Say("op.lines.hint"), o.e.w.lineSuggestions, func(s parts.Suggestion) {
		o.draft.Lines[i] = sheets.LineDraft{Text: s.Text, Food: o.e.w.foodOf(s.Key)}
		o.e.changed()
	})
	o.follow(f, func(s string) {
		if s != o.draft.Lines[i].Text {
			o.draft.Lines[i] = sheets.Retyped(o.draft.Lines[i], s)
		}
	})
	o.last = f
	o.e.w.pin("swapedit.line", f)
	away := parts.NewIconButton("remove", words.Say("op.line.remove"), func() {
		o.draft.Lines = append(o.draft.Lines[:i:i], o.draft.Lines[i+1:]...)
		o.again(o.toLast)
	})
	return parts.Stretch(parts.GapSmall, 0, f, away)
}

// tell shows what is wrong with the operation. While it is being typed an
// empty field is not scolded.
func (o *opEditor) tell(err error, told bool) {
	text := ""
	if err != nil && (told || !o.unbegun()) {
		text = err.Error()
	}
	o.wrong.SetText(text)
	if (text != "") != o.wrong.Visible() {
		visible(o.wrong, text != "")
		o.view.Refresh()
	}
}

// unbegun tells whether a field the operation needs is still empty.
func (o *opEditor) unbegun() bool {
	d := &o.draft
	return d.Do.NeedsValue() && d.Value == "" || d.Do.NeedsText() && d.Text == "" ||
		d.Do.NeedsLines() && len(d.Lines) > 0 && d.Lines[len(d.Lines)-1].Text == ""
}

// lineSuggestions completes the food in an ingredient being typed, keeping the
// amount before it.
func (w *Window) lineSuggestions(typed string) []parts.Suggestion {
	sys := measure.US
	if r := w.recipe(); r != nil {
		if s, err := measure.ParseSystem(r.Measures); err == nil {
			sys = s
		}
	}
	before, name, after := reading.Typed(typed, sys)
	out := w.foodSuggestions(name)
	for i := range out {
		out[i].Text = before + out[i].Text + after
	}
	return out
}

// foodOf finds a food by the key of a suggestion, nil if it is gone.
func (w *Window) foodOf(key string) *food.Food {
	ref, ok := food.ParseRef(key)
	table, err := w.desk.Foods()
	if !ok || err != nil {
		return nil
	}
	return table.Get(ref)
}
