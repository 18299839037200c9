package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// newVersion adds a version without swaps and chooses its column: the next key
// types over an ingredient.
func (w *Window) newVersion() {
	if w.recipe() == nil {
		return
	}
	w.addVersion("")
}

// addVersion adds a version that starts with the swaps of like, or with none.
func (w *Window) addVersion(like recipes.ID) {
	id, recipe := w.newID(), w.at.recipe
	w.do(recipes.AddVersion(recipe, id, "", like), func(ok bool) {
		if ok && w.book().Version(recipe, id) != nil {
			w.goTo(place{page: pageRecipe, recipe: recipe, tab: tabVersions})
			w.versions().selectVersion(id)
		}
	})
}

// openColumn opens what a press on a column's heading leads to: the version's
// name, servings and note, or the original's servings.
func (p *versionsPage) openColumn(col int) {
	switch {
	case col < 1:
	case p.version(col) == nil:
		p.goTab(tabOriginal)
	default:
		p.w.versionDialog(p.version(col).ID)
	}
}

// menu offers what can be done with a field and its version.
func (p *versionsPage) menu(row, col int, at fyne.Position) {
	var items []parts.MenuItem
	if row >= 0 {
		items = p.fieldItems(row, col)
	}
	if more := p.versionItems(col); len(more) > 0 {
		if len(items) > 0 {
			items = append(items, parts.MenuItem{})
		}
		items = append(items, more...)
	}
	parts.ShowMenu(p.table, at, items...)
}

func (p *versionsPage) fieldItems(row, col int) []parts.MenuItem {
	key, i := p.key(row), max(col-1, 0)
	open := func() { p.activate(row, col) }
	switch p.bench.KindOf(key) {
	case sheets.NumberRow:
		return []parts.MenuItem{{Icon: "info", Label: words.Say("detail.makeup"), Do: open}}
	case sheets.LineRow, sheets.AddedRow:
		items := []parts.MenuItem{{Icon: "foods", Label: words.Say("menu.ingredient"), Do: open}}
		if col > 1 {
			items = append(items,
				parts.MenuItem{Icon: "undo", Label: words.Say("menu.back"), Do: func() { p.typeOver(key, i, sheets.Same, "") }},
				parts.MenuItem{Icon: "remove", Label: words.Say("menu.leave-out"), Do: func() { p.typeOver(key, i, "", "") }})
		}
		return items
	case sheets.StepRow:
		if col > 1 {
			return []parts.MenuItem{{Icon: "undo", Label: words.Say("menu.back"), Do: func() { p.typeOver(key, i, sheets.Same, "") }}}
		}
	}
	return nil
}

func (p *versionsPage) versionItems(col int) []parts.MenuItem {
	v := p.version(col)
	if v == nil {
		return []parts.MenuItem{
			{Icon: "add", Label: words.Say("menu.new-version"), Do: p.w.newVersion},
			{Icon: "serve", Label: words.Say("menu.scale"), Do: func() { p.w.scaleRecipe("") }},
		}
	}
	move := func(later bool) func() { return func() { p.w.do(recipes.MoveVersion(v.Recipe, v.ID, later)) } }
	return []parts.MenuItem{
		{Icon: "edit", Label: words.Say("menu.version", v.Letter), Do: func() { p.w.versionDialog(v.ID) }},
		{Icon: "copy", Label: words.Say("menu.duplicate"), Do: func() { p.w.addVersion(v.ID) }},
		{Icon: "serve", Label: words.Say("menu.scale"), Do: func() { p.w.scaleRecipe(v.ID) }},
		{Icon: "left", Label: words.Say("menu.move-left"), Do: move(false), Disabled: col == 2},
		{Icon: "right", Label: words.Say("menu.move-right"), Do: move(true), Disabled: col == len(p.bench.Versions)},
		{Icon: "delete", Label: words.Say("menu.remove-version"), Do: func() { p.w.do(recipes.RemoveVersion(v.Recipe, v.ID)) }},
	}
}

// versionDialog is a version's name, servings and note, with what else can be
// done with it.
func (w *Window) versionDialog(id recipes.ID) {
	r := w.recipe()
	v := w.book().Version(r.ID, id)
	if v == nil {
		return
	}
	name := parts.NewEntry(v.Name, words.Say("version.name.hint"), nil)
	servings := parts.NewNumberEntry(servingsField(v), words.Trim(r.Servings, 2), nil)
	note := parts.NewTextArea(v.Note, words.Say("version.note.hint"), 3, nil)
	form := parts.NewForm()
	form.Row(words.Say("version.name"), name, "", "")
	serves := form.Row(words.Say("version.servings"), servings, "", words.Say("version.servings.help", r.Servings))
	form.Row(words.Say("version.note"), note, "", "")
	var d *parts.Dialog
	act := func(verb recipes.Verb) func() { return func() { d.Close(); w.do(verb) } }
	more := parts.Flow(parts.GapSmall,
		parts.NewButton(parts.Plain, "copy", words.Say("menu.duplicate"), func() { d.Close(); w.addVersion(id) }),
		parts.NewButton(parts.Plain, "left", words.Say("menu.move-left"), act(recipes.MoveVersion(r.ID, id, false))),
		parts.NewButton(parts.Plain, "right", words.Say("menu.move-right"), act(recipes.MoveVersion(r.ID, id, true))),
		parts.NewButton(parts.Plain, "delete", words.Say("menu.remove-version"), act(recipes.RemoveVersion(r.ID, id))))
	w.pin("version.name", name)
	w.pin("version.servings", servings)
	w.pin("version.note", note)
	d = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("version.title", v.Letter), Content: parts.Rows(parts.GapMedium, form, more), First: name,
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), Width: 560,
		OnOK: func() bool {
			n, ok := servingsTyped(servings.Text)
			if !ok {
				serves.SetError(words.Say("version.servings.wrong"))
				return false
			}
			w.changeVersion(v, name.Text, n, note.Text)
			return true
		},
	})
}

func servingsField(v *recipes.Version) string {
	if v.Servings == 0 {
		return ""
	}
	return words.Trim(v.Servings, 2)
}

// servingsTyped reads servings; nothing typed follows the original.
func servingsTyped(text string) (float64, bool) {
	if text == "" {
		return 0, true
	}
	return reading.Number(text)
}

// changeVersion writes what differs as one change.
func (w *Window) changeVersion(v *recipes.Version, name string, servings float64, note string) {
	var verbs []recipes.Verb
	if name != v.Name {
		verbs = append(verbs, recipes.RenameVersion(v.Recipe, v.ID, name))
	}
	if servings != v.Servings {
		verbs = append(verbs, recipes.ServeVersion(v.Recipe, v.ID, servings))
	}
	if note != v.Note {
		verbs = append(verbs, recipes.NoteVersion(v.Recipe, v.ID, note))
	}
	switch len(verbs) {
	case 0:
	case 1:
		w.do(verbs[0])
	default:
		w.do(recipes.All(words.P("did.version", v.Letter), v.Recipe, verbs...))
	}
}
