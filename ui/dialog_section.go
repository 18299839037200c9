package ui

import (
	"slices"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// sectionButtons are a recipe's headed sections, one button each, for what is
// used of them and what they weigh.
type sectionButtons struct {
	w    *Window
	flow *fyne.Container
	said []string
}

func newSectionButtons(w *Window) *sectionButtons {
	return &sectionButtons{w: w, flow: parts.Flow(4)}
}

// show lists the headings; true when there are others than before.
func (b *sectionButtons) show(r *recipes.Recipe) bool {
	var said []string
	for _, name := range sheets.Headings(r) {
		said = append(said, sheets.SectionText(r, name))
	}
	if slices.Equal(said, b.said) {
		return false
	}
	b.said = said
	b.flow.Objects = nil
	for i, name := range sheets.Headings(r) {
		button := parts.NewButton(parts.Plain, "edit", said[i], func() { b.w.sectionDialog(name) })
		b.w.pin("section:"+name, button)
		b.flow.Add(button)
	}
	visible(b.flow, len(said) > 0)
	return true
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
