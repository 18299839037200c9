package ui

import (
	"parewell/recipes/words"
	"parewell/ui/desk"
	"parewell/ui/parts"
)

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

// keepLanguage remembers the language for the next start: pages in sight and
// what the workbook's goroutine is saying keep the one they began with.
func (w *Window) keepLanguage(code string) {
	if code != w.desk.Prefs().Language {
		w.desk.SetPrefs(func(p *desk.Prefs) { p.Language = code })
	}
}
