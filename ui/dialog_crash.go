package ui

import (
	"parewell/recipes/words"
	"parewell/ui/crash"
	"parewell/ui/parts"
)

// TellCrash says in the status line that the program broke off the last time,
// with a way to see what was kept of it.
func (w *Window) TellCrash(r crash.Report) {
	w.status.SetMessageAction(words.Say("crash.told"), "look", words.Say("crash.show"), func() { w.showCrash(r) })
}

func (w *Window) showCrash(r crash.Report) {
	text := parts.NewText(r.Text)
	about := parts.Rows(parts.GapSmall, parts.NewText(words.Say("crash.text")))
	if r.Path != "" {
		about.Add(parts.NewCaption(words.Say("crash.file", r.Path)))
	}
	take := parts.NewButton(parts.Quiet, "copy", words.Say("crash.copy"), func() { w.app.Clipboard().SetContent(r.Text) })
	w.pin("crash.text", text)
	w.pin("crash.copy", take)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title:   words.Say("crash.title"),
		Content: parts.Fill(parts.GapMedium, 1, about, parts.NewPanel(parts.GapSmall, parts.Scrolled(text)), parts.Line(parts.GapSmall, take)),
		First:   take, Cancel: words.Say("button.close"), Width: 720, Height: 600,
	})
}
