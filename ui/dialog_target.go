package ui

import (
	"fyne.io/fyne/v2"

	"parewell/analysis/meals"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// targetDialog works an energy target out. The question comes first: until it
// is answered with no, nothing else is asked.
type targetDialog struct {
	line     *targetLine
	dialog   *parts.Dialog
	asked    *parts.Picker
	method   *parts.Segmented
	sex      *parts.Picker
	activity *parts.Picker
	fields   map[string]*parts.Entry
	rows     map[string]*parts.FormRow
	form     *parts.Form
	keep     *parts.Check
	kept     fyne.CanvasObject
	result   *parts.Text
	sources  *parts.Text
}

// open asks for a target; what was asked before stands in the fields.
func (t *targetLine) open() {
	d := &targetDialog{line: t, fields: map[string]*parts.Entry{}, rows: map[string]*parts.FormRow{}}
	was, stored := meals.Kept{Method: meals.ByEquation}, t.p.w.book().Setting(meals.BodySetting) != ""
	if k := t.kept(); k != nil {
		was = *k
	}
	content := d.content(was, stored && t.asked == nil)
	d.dialog = parts.ShowDialog(t.p.w.win, parts.DialogOptions{
		Title: words.Say("meals.target.title"), Content: content, First: d.asked, Width: 640,
		Confirm: words.Say("meals.target.use"), Cancel: words.Say("button.cancel"), OnOK: d.save,
	})
	d.update()
}

func (d *targetDialog) content(was meals.Kept, stored bool) fyne.CanvasObject {
	w := d.line.p.w
	d.asked = parts.NewPicker([]parts.Suggestion{
		{Key: string(meals.NoneOfIt), Text: words.Say("meals.target.no")},
		{Key: string(meals.SomeOfIt), Text: words.Say("meals.target.yes")},
	}, "", words.Say("meals.target.answer"), func(parts.Suggestion) { d.update() })
	d.asked.Width = 330
	w.pin("target.asked", d.asked)
	d.form = d.body(was)
	d.keep = parts.NewCheck(words.Say("meals.target.keep"), stored, nil)
	w.pin("target.keep", d.keep)
	d.kept = parts.Rows(2, d.keep, parts.Pad(0, 0, 0, 26, parts.NewCaption(words.Say("meals.target.keep.help"))))
	d.result, d.sources = parts.NewBold(""), parts.NewCaption(words.Say("meals.target.sources"))
	rows := parts.Rows(parts.GapMedium, parts.NewText(words.Say("meals.target.question")), parts.Line(0, d.asked),
		d.form, d.result, d.sources, d.kept)
	if d.line.kept() != nil {
		forget := parts.NewButton(parts.Plain, "delete", words.Say("meals.target.forget"), func() { d.dialog.Close(); d.line.forget() })
		rows.Add(parts.Line(0, w.pin("target.forget", forget)))
	}
	return rows
}

// body are the fields a target is worked out from.
func (d *targetDialog) body(was meals.Kept) *parts.Form {
	w, f := d.line.p.w, sheets.BodyOf(was.Person)
	d.method = parts.NewSegmented([]parts.Suggestion{
		{Key: string(meals.ByEquation), Text: words.Say("meals.target.by-equation")},
		{Key: string(meals.ByThumb), Text: words.Say("meals.target.by-thumb")},
	}, string(was.Method), func(string) { d.update() })
	d.sex = parts.NewPicker([]parts.Suggestion{
		{Key: string(meals.Woman), Text: words.Say("meals.body.woman")}, {Key: string(meals.Man), Text: words.Say("meals.body.man")},
	}, f.Sex, words.Say("meals.body.sex.hint"), func(parts.Suggestion) { d.update() })
	var levels []parts.Suggestion
	for _, l := range meals.Levels {
		name, detail := sheets.ActivityName(l)
		levels = append(levels, parts.Suggestion{Key: string(l.Activity), Text: name, Detail: detail})
	}
	d.activity = parts.NewPicker(levels, f.Activity, words.Say("meals.body.activity.hint"), func(parts.Suggestion) { d.update() })
	d.activity.Width = 230
	form := parts.NewForm()
	form.Row(words.Say("meals.target.by"), d.method, "", "")
	form.Row(words.Say("meals.body.sex"), d.sex, "", "")
	d.field(form, sheets.AgeKey, f.Age, 84, words.Say("meals.body.age.unit"), "")
	d.field(form, sheets.HeightKey, f.Height, 190, "", words.Say("meals.body.height.hint"))
	d.field(form, sheets.WeightKey, f.Weight, 190, "", words.Say("meals.body.weight.hint"))
	d.field(form, sheets.GoalKey, f.Goal, 190, "", words.Say("meals.body.weight.hint"))
	d.rows["activity"] = form.Row(words.Say("meals.body.activity"), d.activity, "", "")
	d.field(form, sheets.LessKey, f.Less, 84, words.Say("meals.body.less.unit"), "")
	w.pin("target.method", d.method)
	w.pin("target.sex", d.sex)
	w.pin("target.activity", d.activity)
	return form
}

func (d *targetDialog) field(form *parts.Form, key, text string, width float32, unit, hint string) {
	e := parts.NewEntry(text, hint, nil)
	e.Width = width
	e.OnChanged = func(string) { d.update() }
	d.fields[key] = e
	d.rows[key] = form.Row(words.Say("meals.body."+key), e, unit, "")
	d.line.p.w.pin("target."+key, e)
}

// person reads the fields.
func (d *targetDialog) person() (meals.Person, map[string]string) {
	return sheets.ReadBody(sheets.BodyFields{
		Sex: d.sex.Key(), Activity: d.activity.Key(), Age: d.fields[sheets.AgeKey].Text, Height: d.fields[sheets.HeightKey].Text,
		Weight: d.fields[sheets.WeightKey].Text, Less: d.fields[sheets.LessKey].Text, Goal: d.fields[sheets.GoalKey].Text,
	})
}

func (d *targetDialog) by() meals.Method { return meals.Method(d.method.Key()) }

// update shows what the answers so far come to.
func (d *targetDialog) update() {
	if d.dialog == nil {
		return // still being built
	}
	asked := meals.Asked(d.asked.Key())
	p, faults := d.person()
	o := meals.OfferTo(p, asked, d.by())
	open, thumb := asked == meals.NoneOfIt, d.by() == meals.ByThumb
	visible(d.form, open)
	visible(d.sources, open && !thumb)
	visible(d.kept, open)
	for key, row := range d.rows {
		if on := open && (key == sheets.GoalKey) == thumb; on {
			row.Show()
			row.SetError(faults[key])
		} else {
			row.Hide()
		}
	}
	text := sheets.TargetText(o, p.Sex)
	if o.Reason == meals.Offered {
		text += " " + words.Say("meals.target.care")
	}
	d.result.SetText(text)
	d.dialog.SetConfirmEnabled(o.Reason == meals.Offered && d.clean(faults))
	d.dialog.Fit()
}

// clean tells whether no field that counts has a fault.
func (d *targetDialog) clean(faults map[string]string) bool {
	for key := range faults {
		if (key == sheets.GoalKey) == (d.by() == meals.ByThumb) {
			return false
		}
	}
	return true
}

// save takes the target when one is offered.
func (d *targetDialog) save() bool {
	p, faults := d.person()
	if meals.OfferTo(p, meals.Asked(d.asked.Key()), d.by()).Reason != meals.Offered || !d.clean(faults) {
		return false
	}
	if d.by() == meals.ByThumb {
		p = meals.Person{Sex: p.Sex, Goal: p.Goal} // nothing is kept that the target does not rest on
	} else {
		p.Goal = 0
	}
	d.line.use(meals.Kept{Person: p, Method: d.by()}, d.keep.On())
	return true
}
