package ui

import (
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// settings changes what holds for all recipes of the workbook: how energy is
// counted, and what prices are in.
func (w *Window) settings() {
	if w.view.Path == "" {
		return
	}
	basis := w.book().Setting(sheets.BasisSetting)
	var items []parts.Suggestion
	for _, b := range sheets.Bases() {
		items = append(items, parts.Suggestion{Key: b.Name, Text: b.Value})
	}
	if basis == "" {
		basis = items[0].Key
	}
	pick := parts.NewPicker(items, basis, "", func(s parts.Suggestion) { basis = s.Key })
	money := parts.NewEntry(w.book().Setting(sheets.MoneySetting), "€", nil)
	salt := parts.NewCheck(words.Say("settings.salt"), w.book().Setting(sheets.SaltSetting) != "", nil)
	kj := parts.NewCheck(words.Say("settings.kj"), w.book().Setting(sheets.KJSetting) != "", nil)
	w.pin("settings.salt", salt)
	w.pin("settings.kj", kj)
	w.pin("settings.basis", pick)
	w.pin("settings.money", money)
	form := parts.NewForm()
	form.Row(words.Say("settings.basis"), parts.Stretch(0, 0, pick), "", words.Say("settings.basis.help"))
	form.Row("", kj, "", "")
	form.Row("", salt, "", "")
	form.Row(words.Say("settings.money"), money, "", words.Say("settings.money.help"))
	language := w.languageRow(form)
	numbers := w.numbersRow(form)
	var d *parts.Dialog
	book := parts.NewButton(parts.Quiet, "print", words.Say("settings.print.open"), func() {
		d.Close()
		w.goTo(place{page: pageBook})
	})
	w.pin("settings.print", book)
	form.Row(words.Say("settings.print"), parts.Line(0, book, parts.Spring()), "", words.Say("settings.print.help"))
	d = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("settings.title"), Content: parts.Scrolled(parts.Pad(0, 12, 0, 0, form)), First: pick, Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), Width: 600, Height: 604,
		OnOK: func() bool {
			w.keepLanguage(language.Key(), numbers.Key())
			w.do(recipes.All(words.P("did.settings"), "",
				recipes.Set(sheets.BasisSetting, basis), recipes.Set(sheets.SaltSetting, onOff(salt)), recipes.Set(sheets.KJSetting, onOff(kj)),
				recipes.Set(sheets.MoneySetting, strings.TrimSpace(money.Text))))
			return true
		},
	})
}

// onOff is the value of a setting by its box.
func onOff(c *parts.Check) string {
	if c.On() {
		return "yes"
	}
	return ""
}
