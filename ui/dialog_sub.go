package ui

import (
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// subDialog asks which recipe, which version of it and how much goes in.
type subDialog struct {
	w       *Window
	line    *recipes.Line // nil for a new one
	recipe  *parts.Picker
	version *parts.Picker
	amount  *parts.Entry
	unit    *parts.Segmented
	note    *parts.Text
	amounts *parts.FormRow
	dialog  *parts.Dialog
}

// Keys of the lists, apart from "none chosen".
const (
	recipeKeys  = "r:"
	versionKeys = "v:"
)

// subRecipe adds a part of another recipe to the original, or changes a line
// that is one.
func (w *Window) subRecipe(l *recipes.Line) {
	others := sheets.OtherRecipes(w.book(), w.at.recipe)
	if len(others) == 0 {
		w.problem(sheets.Wrongly("sub.none", ""))
		return
	}
	d := &subDialog{w: w, line: l, note: parts.NewCaption("")}
	was := recipes.SubRecipe{Recipe: recipes.ID(others[0].Name), Grams: 100}
	if l != nil {
		was = *l.Sub
	}
	form := d.form(others, was)
	content := parts.Rows(parts.GapMedium, form, d.note)
	if l != nil {
		open := parts.NewButton(parts.Quiet, "open", words.Say("sub.open"), func() { d.dialog.Close(); w.openSub(*l.Sub) })
		w.pin("sub.open", open)
		content.Add(parts.Line(0, open))
	}
	d.tell()
	d.dialog = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("sub.title"), Content: content, First: d.recipe, Width: 560,
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), OnOK: d.save,
	})
}

func (d *subDialog) form(others []sheets.Fact, was recipes.SubRecipe) *parts.Form {
	unit, amount := sheets.UnitOf(was)
	d.recipe = parts.NewPicker(factItems(recipeKeys, others), recipeKeys+string(was.Recipe), "", func(s parts.Suggestion) {
		d.version.SetItems(d.versionItems())
		d.version.SetKey(versionKeys)
		d.tell()
	})
	d.version = parts.NewPicker(d.versionItems(), versionKeys+string(was.Version), "", func(parts.Suggestion) { d.tell() })
	d.amount = parts.NewNumberEntry(words.Field(amount, 2), "", func(string) { d.tell() })
	d.amount.Width = 96
	d.unit = parts.NewSegmented(factItems("", sheets.SubUnits()), string(unit), func(string) { d.tell() })
	form := parts.NewForm()
	form.Row(words.Say("sub.recipe"), parts.Stretch(0, 0, d.recipe), "", "")
	form.Row(words.Say("sub.which"), parts.Stretch(0, 0, d.version), "", "")
	d.amounts = form.Row(words.Say("sub.amount"), parts.Line(parts.GapSmall, d.amount, d.unit), "", "")
	d.w.pin("sub.recipe", d.recipe)
	d.w.pin("sub.version", d.version)
	d.w.pin("sub.amount", d.amount)
	d.w.pin("sub.unit", d.unit)
	return form
}

func (d *subDialog) versionItems() []parts.Suggestion {
	return factItems(versionKeys, sheets.VersionsOf(d.w.book(), recipes.ID(d.recipe.Key()[len(recipeKeys):])))
}

func factItems(prefix string, facts []sheets.Fact) []parts.Suggestion {
	var out []parts.Suggestion
	for _, f := range facts {
		out = append(out, parts.Suggestion{Key: prefix + f.Name, Text: f.Value})
	}
	return out
}

// chosen is what the fields say; false when the amount cannot be read.
func (d *subDialog) chosen() (recipes.SubRecipe, bool) {
	unit := sheets.SubUnit(d.unit.Key())
	v, ok := sheets.ReadSubAmount(d.amount.Text, unit)
	return sheets.SubOf(recipes.ID(d.recipe.Key()[len(recipeKeys):]), recipes.ID(d.version.Key()[len(versionKeys):]), unit, v), ok
}

// tell says what the part weighs and holds.
func (d *subDialog) tell() {
	if s, ok := d.chosen(); ok {
		d.note.SetText(sheets.SubNote(d.w.book(), s))
	}
}

func (d *subDialog) save() bool {
	s, ok := d.chosen()
	d.amounts.SetError("")
	if !ok {
		d.amounts.SetError(words.Say("sub.wrong"))
		return false
	}
	w, r := d.w, d.w.recipe()
	if d.line != nil {
		if s != *d.line.Sub {
			w.do(recipes.SetLine(r.ID, sheets.SubLine(w.book(), d.line, s), nil))
		}
		return true
	}
	l := sheets.SubLine(w.book(), &recipes.Line{ID: w.newID(), Section: lastSection(r), PartEaten: 1}, s)
	w.do(recipes.AddLine(r.ID, l, "end", nil))
	return true
}

// openSub goes to the recipe a line stands for.
func (w *Window) openSub(s recipes.SubRecipe) {
	w.goTo(place{page: pageRecipe, recipe: s.Recipe, tab: tabVersions})
	if p := w.versions(); s.Version != "" && p != nil && p.bench != nil {
		p.selectVersion(s.Version)
	}
}
