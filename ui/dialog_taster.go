package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// tasterDialog writes down who tastes.
type tasterDialog struct {
	w        *Window
	base     *recipes.Panelist
	has      recipes.Allergen
	code     *parts.Entry
	notEaten *parts.Entry
	consent  *parts.Entry
	note     *parts.Entry
	asked    *parts.Check
	child    *parts.Check
	careful  *parts.Segmented
	ticks    *parts.Matrix
	rows     map[string]*parts.FormRow
	then     func(recipes.ID)
}

const careKeys = "c:"

// tasterForm opens the form of a taster; then gets her once she is saved.
func (w *Window) tasterForm(base *recipes.Panelist, fresh bool, then func(recipes.ID)) {
	d := &tasterDialog{w: w, base: base, has: base.Allergens, rows: map[string]*parts.FormRow{}, then: then}
	f := sheets.TasterFieldsOf(base)
	title := words.Say("tasters.add")
	if !fresh {
		title = words.Say("tasters.edit-title", base.Code)
	}
	left := parts.Scrolled(parts.Pad(2, 14, 2, 2, d.form(f)))
	right := parts.Scrolled(parts.Pad(2, 14, 2, 2, d.allergies(f)))
	d.ticks.Outer = right
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: parts.Columns(20, []float32{1.35, 1}, left, right), First: d.code, Width: 900, Height: 640,
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), OnOK: d.save,
	})
}

func (d *tasterDialog) form(f sheets.TasterFields) *parts.Form {
	form := parts.NewForm()
	d.code = parts.NewEntry(f.Code, "", nil)
	d.code.Width = 160
	d.rows[sheets.TasterCodeField] = form.Row(words.Say("tasters.code"), d.code, "", words.Say("tasters.code.help"))
	d.notEaten = parts.NewEntry(f.NotEaten, words.Say("tasters.not-eaten.hint"), nil)
	form.Row(words.Say("tasters.not-eaten"), d.notEaten, "", words.Say("tasters.not-eaten.help"))
	var answers []parts.Suggestion
	for _, a := range []recipes.Answer{recipes.NotAsked, recipes.No, recipes.Yes} {
		answers = append(answers, parts.Suggestion{Key: careKeys + string(a), Text: words.Say("tasters.careful." + nameOfAnswer(a))})
	}
	d.careful = parts.NewSegmented(answers, careKeys+string(f.Careful), nil)
	form.Row(words.Say("tasters.care"), d.careful, "", words.Say("tasters.care.help"))
	d.consent = parts.NewEntry(f.Consent, words.Say("tasters.consent.hint"), nil)
	d.consent.Width = 160
	d.rows[sheets.TasterConsentField] = form.Row(words.Say("tasters.consent"), d.consent, "", words.Say("tasters.consent.help"))
	d.child = parts.NewCheck(words.Say("tasters.child"), f.Child, nil)
	form.Row("", d.child, "", "")
	d.note = parts.NewTextArea(f.Note, "", 2, nil)
	form.Row(words.Say("tasters.note"), d.note, "", words.Say("tasters.note.help"))
	d.w.pin("taster.code", d.code)
	d.w.pin("taster.not-eaten", d.notEaten)
	d.w.pin("taster.careful", d.careful)
	d.w.pin("taster.consent", d.consent)
	return form
}

func nameOfAnswer(a recipes.Answer) string {
	if a == recipes.NotAsked {
		return "not-asked"
	}
	return string(a)
}

// allergies has a box for each allergen, and above them whether she was asked:
// before that, what is not ticked is unknown.
func (d *tasterDialog) allergies(f sheets.TasterFields) fyne.CanvasObject {
	d.asked = parts.NewCheck(words.Say("tasters.asked"), f.Asked, nil)
	d.ticks = parts.NewMatrix()
	d.ticks.Whole, d.ticks.Headless = true, true
	d.ticks.OnToggle = func(row, _ int) {
		if row >= 0 && row < len(food.EachAllergen) {
			d.has ^= food.EachAllergen[row].Bit
			d.asked.Set(true)
			d.showTicks()
		}
	}
	d.showTicks()
	d.w.pin("taster.asked", d.asked)
	d.w.pin("taster.allergens", d.ticks)
	return parts.Rows(parts.GapSmall, parts.NewSection(words.Say("tasters.allergies")), d.asked,
		parts.NewCaption(words.Say("tasters.asked.help")), parts.NewTableCard("", "", d.ticks))
}

func (d *tasterDialog) showTicks() {
	m := matrixOf(sheets.TasterAllergens(d.has))
	m.Columns[0].Min = 170
	m.Columns[1].Align, m.Columns[1].Text, m.Columns[1].Min = parts.AlignCentre, false, 60
	d.ticks.SetData(m)
}

func (d *tasterDialog) save() bool {
	p, faults := sheets.ReadTaster(sheets.TasterFields{
		Code: d.code.Text, NotEaten: d.notEaten.Text, Consent: d.consent.Text, Note: d.note.Text, Asked: d.asked.On(), Child: d.child.On(),
		Allergens: d.has, Careful: recipes.Answer(d.careful.Key()[len(careKeys):]),
	}, d.base, d.w.book(), d.w.now())
	for key, row := range d.rows {
		row.SetError(faults[key])
	}
	if len(faults) > 0 {
		return false
	}
	d.w.do(tasting.PutTaster(p), func(ok bool) {
		if ok && d.then != nil {
			d.then(p.ID)
		}
	})
	return true
}
