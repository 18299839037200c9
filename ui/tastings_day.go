package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// servedOn asks which day a tasting is of where its date is not today's: it is
// kept as a fact, and a plan may have been put off. It says so and stops nothing.
type servedOn struct {
	w     *Window
	t     *recipes.Tasting
	entry *parts.Entry
	row   *parts.FormRow
	view  fyne.CanvasObject // nil where the date is today's
}

// askDay makes the field, filled with a day; key is of the sentence over it.
func (w *Window) askDay(t *recipes.Tasting, key, day string) *servedOn {
	f := &servedOn{w: w, t: t}
	today := sheets.Today(w.now())
	if today == t.Date {
		return f
	}
	f.entry = parts.NewEntry(day, words.Say("tastings.day.hint"), nil)
	f.entry.Width = 150
	w.pin("tastings.served-on", f.entry)
	form := parts.NewForm()
	f.row = form.Row(words.Say("tastings.served-on"), f.entry, "", "")
	f.view = parts.Rows(parts.GapSmall, parts.NewBanner(parts.ToneLook, words.Say(key, sheets.DayText(t.Date), sheets.DayText(today))), form)
	return f
}

// first is where the keyboard begins, nil for the usual.
func (f *servedOn) first() fyne.Focusable {
	if f.entry == nil {
		return nil
	}
	return f.entry
}

// confirms has Enter in the field confirm its dialog.
func (f *servedOn) confirms(d *parts.Dialog) {
	if f.entry != nil {
		f.entry.OnSubmitted = func(string) { d.Confirm() }
	}
}

// before puts the day that was typed before another verb, whose label is key of
// the day; false when it is no day.
func (f *servedOn) before(key string, v recipes.Verb) (recipes.Verb, bool) {
	if f.entry == nil {
		return v, true
	}
	day, ok := sheets.ReadDay(f.entry.Text)
	if !ok {
		f.row.SetError(words.Say("error.date", f.entry.Text))
		f.w.win.Canvas().Focus(f.entry)
		return nil, false
	}
	date := sheets.Today(day)
	if date == f.t.Date {
		return v, true
	}
	return recipes.All(words.P(key, date), f.t.Recipe, tasting.OnDay(f.t.ID, date), v), true
}
