package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// Names of fields and choices of the form that are no keys of faults.
const (
	noteField = "note"
	basisUS   = "us"
	basisEU   = "eu"
)

// form holds all fields of an own food.
func (d *foodDialog) form(f sheets.LabelFields) fyne.CanvasObject {
	top := parts.NewForm()
	d.entry(top, sheets.FoodNameKey, f.Name, "", "", "", 0)
	d.entry(top, noteField, f.Note, words.Say("label.note.hint"), "", "", 0)
	d.left = parts.Rows(parts.GapMedium, top,
		parts.NewSection(words.Say("label.figures")), d.basisForm(f), parts.NewCaption(words.Say("label.blank")), d.figureForms(f),
		parts.NewSection(words.Say("label.kitchen")), d.kitchenForm(f),
		parts.NewSection(words.Say("foods.allergens")), d.allergenTable())
	return d.left
}

// entry adds a field; a width of 0 takes all there is.
func (d *foodDialog) entry(form *parts.Form, name, text, hint, unit, help string, width float32) *parts.Entry {
	e := parts.NewEntry(text, hint, nil)
	e.Width = width
	d.add(form, name, words.Say("label."+name), e, unit, help)
	return e
}

func (d *foodDialog) add(form *parts.Form, name, label string, e *parts.Entry, unit, help string) {
	e.OnChanged = func(string) { d.update() }
	d.entries[name] = e
	d.rows[name] = form.Row(label, e, unit, help)
	d.w.pin("label."+name, e)
}

// basisForm says what the figures are for.
func (d *foodDialog) basisForm(f sheets.LabelFields) *parts.Form {
	form := parts.NewForm()
	var per, basis []parts.Suggestion
	for _, key := range []string{sheets.Per100Grams, sheets.Per100Ml, sheets.PerPortion} {
		per = append(per, parts.Suggestion{Key: key, Text: words.Say("label.per." + key)})
	}
	basis = append(basis, parts.Suggestion{Key: basisUS, Text: words.Say("label.with-fibre")}, parts.Suggestion{Key: basisEU, Text: words.Say("label.no-fibre-in")})
	d.per = parts.NewSegmented(per, f.Per, func(string) { d.update() })
	d.basis = parts.NewSegmented(basis, d.w.firstBasis(), func(key string) { d.w.keepBasis(key); d.update() })
	form.Row(words.Say("label.per"), d.per, "", "")
	d.entry(form, sheets.PortionKey, f.Portion, words.Say("label.portion.hint"), "", "", 150)
	form.Row(words.Say("label.carbohydrate"), d.basis, "", "")
	d.w.pin("label.per", d.per)
	d.w.pin("label.basis", d.basis)
	return form
}

// figureForms are the figures in two columns, or one under the other where
// there is no room.
func (d *foodDialog) figureForms(f sheets.LabelFields) fyne.CanvasObject {
	left, right := parts.NewForm(), parts.NewForm()
	for i, x := range sheets.LabelFigures {
		form := left
		if i >= (len(sheets.LabelFigures)+1)/2 {
			form = right
		}
		e := parts.NewNumberEntry(f.Figures[x.Key], "", nil)
		e.Width = 84
		d.add(form, x.Key, x.Name(), e, x.Unit(), "")
	}
	return parts.Flow(36, left, right)
}

// kitchenForm is how it is measured and what of it is eaten.
func (d *foodDialog) kitchenForm(f sheets.LabelFields) *parts.Form {
	form := parts.NewForm()
	area := parts.NewTextArea(f.Measures, words.Say("label.measures.hint"), 3, nil)
	d.add(form, sheets.MeasuresKey, words.Say("label.measures.field"), area, "", words.Say("label.measures.help"))
	d.entry(form, sheets.DensityKey, f.Density, "", "g", "", 84)
	d.entry(form, sheets.EdibleKey, f.Edible, "", "%", words.Say("label.edible.help"), 84)
	var states []parts.Suggestion
	for _, s := range sheets.States() {
		states = append(states, parts.Suggestion{Key: "s:" + s.Name, Text: s.Value})
	}
	d.state = parts.NewPicker(states, "s:"+string(f.State), "", func(parts.Suggestion) { d.update() })
	form.Row(words.Say("label.state"), d.state, "", "")
	d.w.pin("label.state", d.state)
	return form
}

// allergenTable has two boxes for each allergen, and above them whether the
// list of ingredients was read: before that, what is not ticked is unknown.
func (d *foodDialog) allergenTable() fyne.CanvasObject {
	d.read = parts.NewCheck(words.Say("label.allergens.recorded"), d.has.Recorded, func(on bool) {
		d.has.Recorded = on
		d.update()
	})
	d.unread = parts.NewCaption(unreadText(d.has.Recorded))
	d.ticks = parts.NewMatrix()
	d.ticks.Whole = true
	d.ticks.OnToggle = d.toggle
	d.showTicks()
	d.w.pin("label.read", d.read)
	d.w.pin("label.allergens", d.ticks)
	return parts.Rows(parts.GapSmall, d.read, d.unread, parts.NewTableCard("", "", d.ticks))
}

func (d *foodDialog) showTicks() {
	m := matrixOf(sheets.AllergenTicks(d.has))
	m.Columns[0].Min = 170
	for i := range m.Columns[1:] {
		m.Columns[i+1].Align, m.Columns[i+1].Min = parts.AlignCentre, 96
	}
	d.ticks.SetData(m)
}

func (d *foodDialog) toggle(row, col int) {
	if row < 0 || row >= len(food.EachAllergen) || col < 1 {
		return
	}
	bit := food.EachAllergen[row].Bit
	if col == 1 {
		d.has.Contains ^= bit
		d.has.Depends &^= bit
	} else {
		d.has.Depends ^= bit
		d.has.Contains &^= bit
	}
	d.showTicks()
	d.update()
}
