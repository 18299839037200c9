package ui

import (
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// originalItems are what else can be done with the original: another amount of
// it, and for each headed part what is used of it and what it weighs.
func (w *Window) originalItems() []parts.MenuItem {
	items := []parts.MenuItem{
		{Icon: "serve", Label: words.Say("menu.scale"), Do: func() { w.scaleRecipe("") }},
		{Icon: "recipes", Label: words.Say("menu.sub"), Do: func() { w.subRecipe(nil) }},
	}
	r := w.recipe()
	for i, name := range sheets.Headings(r) {
		if i == 0 {
			items = append(items, parts.MenuItem{})
		}
		items = append(items, parts.MenuItem{Icon: "edit", Label: sheets.SectionText(r, name), Do: func() { w.sectionDialog(name) }})
	}
	return items
}

// sectionDialog says how much of a headed section goes into the dish and what
// it weighs by itself.
func (w *Window) sectionDialog(name string) {
	r := w.recipe()
	was := r.Section(name)
	used := parts.NewNumberEntry(sheets.ShareField(was.ShareUsed), "", nil)
	weighs := parts.NewEntry(sheets.SectionWeight(was), "", nil)
	weighs.Width = 110
	form := parts.NewForm()
	rows := map[string]*parts.FormRow{
		"used":   form.Row(words.Say("section.field.used"), used, "%", words.Say("section.used.help")),
		"weighs": form.Row(words.Say("section.field.weighs"), weighs, "g", words.Say("section.weighs.help")),
	}
	w.pin("section.used", used)
	w.pin("section.weighs", weighs)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("section.title", name), First: used, Width: 560,
		Content: parts.Rows(parts.GapMedium, parts.NewCaption(words.Say("section.caption")), form),
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"),
		OnOK: func() bool {
			s, faults := sheets.ReadSection(was, used.Text, weighs.Text)
			for key, row := range rows {
				row.SetError(faults[key])
			}
			if len(faults) > 0 {
				return false
			}
			if s != was {
				w.do(recipes.SetSection(r.ID, s))
			}
			return true
		},
	})
}
