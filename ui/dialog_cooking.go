package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// techniqueField is a way of cooking to choose, with its minutes.
type techniqueField struct {
	method  *parts.Picker
	minutes *parts.Entry
	was     recipes.Technique
	changed func()
}

// methodKeys keep the keys of the list apart from "none chosen".
const methodKeys = "m:"

// newTechniqueField shows t; none says what "not stated" means here. changed is
// called when a method is chosen or a time is left; it may be nil.
func newTechniqueField(t recipes.Technique, none string, changed func()) *techniqueField {
	f := &techniqueField{was: t, changed: changed}
	f.method = parts.NewPicker(methodItems(t, none), methodKeys+sheets.MethodKey(t), "", func(parts.Suggestion) { f.tell() })
	f.minutes = parts.NewNumberEntry(sheets.MinutesField(t), "", func(string) { f.tell() })
	f.minutes.Width = 72
	return f
}

func methodItems(t recipes.Technique, none string) []parts.Suggestion {
	var items []parts.Suggestion
	for i, m := range sheets.MethodChoices(t) {
		if i == 0 && none != "" {
			m.Value = none
		}
		items = append(items, parts.Suggestion{Key: methodKeys + m.Name, Text: m.Value})
	}
	return items
}

func (f *techniqueField) tell() {
	if f.changed != nil {
		f.changed()
	}
}

// set shows another technique.
func (f *techniqueField) set(t recipes.Technique) {
	if sheets.MethodKey(t) != sheets.MethodKey(f.was) {
		f.method.SetItems(methodItems(t, ""))
	}
	f.was = t
	f.method.SetKey(methodKeys + sheets.MethodKey(t))
	f.minutes.Set(sheets.MinutesField(t))
}

// technique is what the fields say; false when the time cannot be read. What
// the recipe's text said stays in its own words until another is chosen.
func (f *techniqueField) technique() (recipes.Technique, bool) {
	t := recipes.Technique{Method: f.method.Key()[len(methodKeys):]}
	if t.Method == sheets.MethodKey(f.was) {
		t.Method = f.was.Method
	}
	minutes, ok := f.was.Minutes, true
	if f.minutes.Text != sheets.MinutesField(f.was) {
		minutes, ok = sheets.ReadMinutes(f.minutes.Text)
	}
	if t.Method != "" {
		t.Minutes = minutes
	}
	return t, ok
}

// cookingDialog says how the whole original is cooked and what that does.
func (w *Window) cookingDialog() {
	r := w.recipe()
	if r == nil {
		return
	}
	note := parts.NewCaption(sheets.MethodNote(r.Dish))
	var f *techniqueField
	var time *parts.FormRow
	f = newTechniqueField(r.Dish, "", func() {
		if t, ok := f.technique(); ok {
			note.SetText(sheets.MethodNote(t))
		}
	})
	w.pin("cooking.method", f.method)
	w.pin("cooking.minutes", f.minutes)
	form := parts.NewForm()
	form.Row(words.Say("cooked.method"), f.method, "", "")
	time = form.Row(words.Say("cooked.time"), f.minutes, words.Say("cooked.min"), "")
	x := sheets.NewBench(w.book(), r)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("cooked.how"), First: fyne.Focusable(f.method), Width: 560,
		Content: parts.Rows(parts.GapMedium, parts.NewCaption(words.Say("cooked.caption")), form, note,
			parts.NewSection(words.Say("cooked.rests")), parts.NewText(x.WeightText(0))),
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"),
		OnOK: func() bool {
			t, ok := f.technique()
			time.SetError("")
			if !ok {
				time.SetError(words.Say("cooked.time.wrong"))
				return false
			}
			if t != r.Dish {
				w.do(recipes.SetTechnique(r.ID, t))
			}
			return true
		},
	})
}
