package ui

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// briefDialog asks what must stay and what must come down.
type briefDialog struct {
	w              *Window
	was            recipes.Brief
	keep, cut      *parts.Entry
	targets        []*parts.Entry
	helping, limit *parts.Entry
	rows           map[string]*parts.FormRow
}

// editBrief opens the brief of the recipe in sight.
func (w *Window) editBrief() {
	r := w.recipe()
	if r == nil {
		return
	}
	d := &briefDialog{w: w, was: r.Brief, rows: map[string]*parts.FormRow{}}
	f := sheets.FieldsOf(r.Brief)
	x := sheets.NewBench(w.book(), r)
	left, right := d.wishes(f), d.numbers(f, x)
	parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("brief.title"), First: d.keep, Width: 900,
		Content: parts.Columns(28, []float32{1, 1}, left, right),
		Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), OnOK: d.save,
	})
}

// wishes are the fields in words, the helping and the limit.
func (d *briefDialog) wishes(f sheets.BriefFields) *parts.Form {
	d.keep = parts.NewTextArea(f.Keep, words.Say("brief.keep.hint"), 2, nil)
	d.cut = parts.NewTextArea(f.Cut, words.Say("brief.cut.hint"), 2, nil)
	d.helping = parts.NewNumberEntry(f.Helping, "", nil)
	d.limit = parts.NewNumberEntry(f.Limit, "", nil)
	form := parts.NewForm()
	form.Row(words.Say("brief.field.keep"), d.keep, "", "")
	form.Row(words.Say("brief.field.cut"), d.cut, "", "")
	d.rows[sheets.HelpingKey] = form.Row(words.Say("brief.field.helping"), d.helping, "g", words.Say("brief.helping.help"))
	d.rows[sheets.LimitKey] = form.Row(words.Say("brief.field.limit"), d.limit, words.Say("brief.points"), words.Say("brief.limit.help"))
	d.w.pin("brief.keep", d.keep)
	d.w.pin("brief.cut", d.cut)
	d.w.pin("brief.helping", d.helping)
	d.w.pin("brief.limit", d.limit)
	return form
}

// numbers are the targets per serving.
func (d *briefDialog) numbers(f sheets.BriefFields, x *sheets.Bench) *parts.Form {
	form := parts.NewForm()
	for i, t := range sheets.BriefTargets {
		field := parts.NewEntry(f.Targets[i], "", nil)
		field.Width = 84
		key := "brief.most"
		if t.AtLeast {
			key = "brief.least"
		}
		row := form.Row(words.Say(key, words.Say("nutrient."+t.Nutrient.Key())), field, t.Nutrient.Unit(), x.OriginalHas(t.Nutrient))
		if t.Nutrient == food.Sodium {
			help := func(text string) { row.SetHelp(sheets.SaltHelp(text)) }
			help(field.Text)
			field.OnChanged = help
		}
		d.targets = append(d.targets, field)
		d.rows[t.Nutrient.Key()] = row
		d.w.pin("brief."+t.Nutrient.Key(), field)
	}
	return form
}

// save keeps the brief, or says in place what cannot be read.
func (d *briefDialog) save() bool {
	f := sheets.BriefFields{Keep: d.keep.Text, Cut: d.cut.Text, Helping: d.helping.Text, Limit: d.limit.Text}
	for _, e := range d.targets {
		f.Targets = append(f.Targets, e.Text)
	}
	b, faults := sheets.ReadBrief(f, d.was)
	for key, row := range d.rows {
		row.SetError(faults[key])
	}
	if len(faults) > 0 {
		return false
	}
	d.w.do(recipes.SetBrief(d.w.at.recipe, b))
	return true
}
