package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"parewell/recipes/words"
	"parewell/ui/parts"
)

// tableKeys are the keys that tables and fields take, by their words; those of
// the menus are read off the menus.
var tableKeys = []string{"edit", "leave-out", "tick", "details", "menu", "ends", "letters", "move", "next", "escape"}

// keyRow is a key, or several, and what it does.
type keyRow struct{ key, what string }

// menuKeys are the shortcuts of the menus, menu by menu.
func (w *Window) menuKeys() []keyRow {
	var out []keyRow
	for _, m := range w.menu.main.Items {
		for _, i := range m.Items {
			if i.Shortcut != nil {
				out = append(out, keyRow{shortcutName(i.Shortcut), strings.TrimSuffix(i.Label, "…")})
			}
		}
	}
	return out
}

// shortcutName is what stands on the keys of a shortcut: "Ctrl+Shift+P".
func shortcutName(s fyne.Shortcut) string {
	switch x := s.(type) {
	case *fyne.ShortcutUndo:
		return words.Say("keys.ctrl") + "+Z"
	case *fyne.ShortcutRedo:
		return words.Say("keys.ctrl") + "+Y"
	case *desktop.CustomShortcut:
		name := ""
		if x.Modifier&fyne.KeyModifierShortcutDefault != 0 {
			name += words.Say("keys.ctrl") + "+"
		}
		if x.Modifier&fyne.KeyModifierShift != 0 {
			name += words.Say("keys.shift") + "+"
		}
		return name + string(x.KeyName)
	}
	return s.ShortcutName()
}

// showKeys lists what the keyboard does: the menus' keys, then those of tables.
func (w *Window) showKeys() {
	rows := parts.Rows(6)
	add := func(r keyRow) {
		rows.Add(parts.Stretch(parts.GapMedium, 1, parts.Sized(170, 22, parts.NewBold(r.key)), parts.NewText(r.what)))
	}
	rows.Add(parts.NewSection(words.Say("keys.anywhere")))
	for _, r := range w.menuKeys() {
		add(r)
	}
	rows.Add(parts.NewSection(words.Say("keys.tables")))
	for _, k := range tableKeys {
		add(keyRow{words.Say("keys." + k), words.Say("keys." + k + ".what")})
	}
	w.pin("keys.list", rows)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("menu.keys"), Content: fyne.CanvasObject(parts.Scrolled(rows)), Cancel: words.Say("button.close"), Width: 620, Height: 640,
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
