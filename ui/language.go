package ui

import (
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

// decimals are the marks that numbers can have; the first is the language's own.
var decimals = []string{"", ".", ","}

// chooseMarks writes numbers as their reader is used to.
func chooseMarks(p desk.Prefs) { words.Use(words.Current().Marked(p.Decimal)) }

// numbersRow puts the choice of how numbers are written into a form.
func (w *Window) numbersRow(form *parts.Form) *parts.Segmented {
	var items []parts.Suggestion
	for i, mark := range decimals {
		text := words.Say("settings.numbers.own")
		if i > 0 {
			text = words.Current().Marked(mark).Sample()
		}
		items = append(items, parts.Suggestion{Key: mark, Text: text})
	}
	pick := parts.NewSegmented(items, w.desk.Prefs().Decimal, nil)
	w.pin("settings.numbers", pick)
	form.Row(words.Say("settings.numbers"), parts.Line(0, pick, parts.Spring()), "", words.Say("settings.numbers.help"))
	return pick
}

// languageRow puts the choice of the user's own language into a form. It is
// theirs and not the workbook's: a workbook goes from hand to hand.
func (w *Window) languageRow(form *parts.Form) *parts.Segmented {
	var items []parts.Suggestion
	for _, l := range words.Languages() {
		items = append(items, parts.Suggestion{Key: l.Code, Text: l.Name})
	}
	now := w.desk.Prefs().Language
	if words.Find(now) == nil {
		now = items[0].Key
	}
	pick := parts.NewSegmented(items, now, nil)
	w.pin("settings.language", pick)
	form.Row(words.Say("settings.language"), parts.Line(0, pick, parts.Spring()), "", words.Say("settings.language.help"))
	return pick
}

// keepLanguage remembers language and numbers for the next start: pages in sight
// and what the workbook's goroutine is saying keep those they began with.
func (w *Window) keepLanguage(code, decimal string) {
	if p := w.desk.Prefs(); code != p.Language || decimal != p.Decimal {
		w.desk.SetPrefs(func(p *desk.Prefs) { p.Language, p.Decimal = code, decimal })
	}
}
