package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes/words"
	"parewell/ui/parts"
)

// keyRows are the keys that do something, as pairs of keys in words.
var keyRows = []string{"paste", "version", "draft", "brief", "undo", "redo", "tabs", "pages", "edit", "leave-out", "tick", "details", "menu", "test", "text", "theme", "file"}

// showKeys lists what the keyboard does.
func (w *Window) showKeys() {
	rows := parts.Rows(6)
	for _, k := range keyRows {
		key := parts.NewBold(words.Say("keys." + k))
		rows.Add(parts.Stretch(parts.GapMedium, 1, parts.Sized(170, 22, key), parts.NewText(words.Say("keys."+k+".what"))))
	}
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("menu.keys"), Content: fyne.CanvasObject(parts.Scrolled(rows)), Cancel: words.Say("button.close"), Width: 620, Height: 560,
	})
}

// showAbout says what the program is and where its figures come from.
func (w *Window) showAbout() {
	text := parts.Rows(parts.GapMedium,
		parts.NewText(words.Say("about.what")), parts.NewText(words.Say("about.foods")),
		parts.NewText(words.Say("about.private")), parts.NewCaption(words.Say("about.care")),
		parts.NewCaption(words.Say("about.version", w.app.Metadata().Version)))
	parts.ShowDialog(w.win, parts.DialogOptions{Title: appName, Content: text, Cancel: words.Say("button.close"), Width: 560})
}
