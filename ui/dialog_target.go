package ui

import (
	"fyne.io/fyne/v2"

	"parewell/analysis/meals"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// open asks the question that comes before any target; only the answer no leads
// on, and nothing of it is kept.
func (t *targetLine) open() {
	var ask *parts.Dialog
	says := parts.NewText(words.Say("meals.none.ask-first"))
	answer := parts.NewPicker([]parts.Suggestion{
		{Key: string(meals.NoneOfIt), Text: words.Say("meals.target.no")},
		{Key: string(meals.SomeOfIt), Text: words.Say("meals.target.yes")},
	}, "", words.Say("meals.target.answer"), nil)
	answer.Width = 330
	answer.OnPick = func(s parts.Suggestion) {
		o := meals.OfferTo(meals.Person{}, meals.Asked(s.Key), meals.ByEquation)
		says.SetText(map[bool]string{true: sheets.TargetText(o, ""), false: ""}[o.Reason == meals.TakeAdvice])
		ask.SetConfirmEnabled(o.Reason != meals.TakeAdvice)
		ask.Fit()
	}
	t.p.w.pin("target.asked", answer)
	ask = parts.ShowDialog(t.p.w.win, parts.DialogOptions{
		Title: words.Say("meals.target.title"), First: answer, Width: 600,
		Content: parts.Rows(parts.GapMedium, parts.NewText(words.Say("meals.target.question")), parts.Line(0, answer), says),
		Confirm: words.Say("meals.target.go-on"), Cancel: words.Say("button.cancel"),
		OnOK: func() bool {
			if answer.Key() != string(meals.NoneOfIt) {
				return false
			}
			ask.Close() // before the next one opens over it
			t.work()
			return true
		},
	})
	ask.SetConfirmEnabled(false)
}

// targetDialog works an energy target out for someone the question does not
// concern.
type targetDialog struct {
	line     *targetLine
	dialog   *parts.Dialog
	method   *parts.Segmented
	sex      *parts.Picker
	activity *parts.Picker
	fields   map[string]*parts.Entry
	rows     map[string]*parts.FormRow
	keep     *parts.Check
	all      *fyne.Container
	result   *parts.Text
	care     *parts.Text
	sources  *parts.Text
}

// work asks for the figures; those of the target in force stand in the fields.
func (t *targetLine) work() {
	d := &targetDialog{line: t, fields: map[string]*parts.Entry{}, rows: map[string]*parts.FormRow{}}
	was := meals.Kept{Method: meals.ByEquation}
	if k := t.kept(); k != nil {
		was = *k
	}
	d.dialog = parts.ShowDialog(t.p.w.win, parts.DialogOptions{
		Title: words.Say("meals.target.title"), Content: parts.Scrolled(parts.Pad(0, 12, 0, 0, d.content(was))), First: d.sex,
		Width: 760, Height: 520, Confirm: words.Say("meals.target.use"), Cancel: words.Say("button.cancel"), OnOK: d.save,
	})
	d.update()
}

func (d *targetDialog) content(was meals.Kept) fyne.CanvasObject {
	w := d.line.p.w
	d.method = parts.NewSegmented([]parts.Suggestion{
		{Key: string(meals.ByEquation), Text: words.Say("meals.target.by-equation")},
		{Key: string(meals.ByThumb), Text: words.Say("meals.target.by-thumb")},
	}, string(was.Method), func(string) { d.update() })
	w.pin("target.method", d.method)
	by := parts.NewForm()
	by.Row(words.Say("meals.target.by"), d.method, "", "")
	d.keep = parts.NewCheck(words.Say("meals.target.keep"), w.book().Setting(meals.BodySetting) != "", nil)
	w.pin("target.keep", d.keep)
	d.result, d.care = parts.NewBold(""), parts.NewText(words.Say("meals.target.care"))
	d.sources = parts.NewCaption(words.Say("meals.target.sources"))
	kept := parts.Rows(2, d.keep, parts.Pad(0, 0, 0, 30, parts.NewCaption(words.Say("meals.target.keep.help"))))
	foot := parts.Stretch(parts.GapMedium, 0, kept)
	if d.line.kept() != nil {
		forget := parts.NewButton(parts.Plain, "delete", words.Say("meals.target.forget"), func() { d.dialog.Close(); d.line.forget() })
		foot.Add(w.pin("target.forget", forget))
	}
	d.all = parts.Rows(parts.GapMedium, by, d.body(was), parts.NewRule(), d.result, d.care, d.sources, foot)
	return d.all
}

// body are the fields a target is worked out from, in two columns.
func (d *targetDialog) body(was meals.Kept) fyne.CanvasObject {
	w, f := d.line.p.w, sheets.BodyOf(was.Person)
	d.sex = parts.NewPicker([]parts.Suggestion{
		{Key: string(meals.Woman), Text: words.Say("meals.body.woman")}, {Key: string(meals.Man), Text: words.Say("meals.body.man")},
	}, f.Sex, words.Say("meals.body.sex.hint"), func(parts.Suggestion) { d.update() })
	var levels []parts.Suggestion
	for _, l := range meals.Levels {
		name, detail := sheets.ActivityName(l)
		levels = append(levels, parts.Suggestion{Key: string(l.Activity), Text: name, Detail: detail})
	}
	d.activity = parts.NewPicker(levels, f.Activity, words.Say("meals.body.activity.hint"), func(parts.Suggestion) { d.update() })
	d.activity.Width = 220
	left, right := parts.NewForm(), parts.NewForm()
	left.Row(words.Say("meals.body.sex"), d.sex, "", "")
	d.field(left, sheets.AgeKey, f.Age, 84, words.Say("meals.body.age.unit"), "")
	d.rows["activity"] = left.Row(words.Say("meals.body.activity"), d.activity, "", "")
	d.field(right, sheets.HeightKey, f.Height, 200, "", words.Say("meals.body.height.hint"))
	d.field(right, sheets.WeightKey, f.Weight, 200, "", words.Say("meals.body.weight.hint"))
	d.field(right, sheets.LessKey, f.Less, 84, words.Say("meals.body.less.unit"), "")
	d.field(right, sheets.GoalKey, f.Goal, 200, "", words.Say("meals.body.weight.hint"))
	w.pin("target.sex", d.sex)
	w.pin("target.activity", d.activity)
	return parts.Columns(24, []float32{1, 1}, left, right)
}

func (d *targetDialog) field(form *parts.Form, key, text string, width float32, unit, hint string) {
	e := parts.NewEntry(text, hint, nil)
	e.Width = width
	e.OnChanged = func(string) { d.update() }
	d.fields[key] = e
	d.rows[key] = form.Row(words.Say("meals.body."+key), e, unit, "")
	d.line.p.w.pin("target."+key, e)
}

// person reads the fields that the method rests on; nothing else is kept.
func (d *targetDialog) person() (meals.Person, map[string]string) {
	f := sheets.BodyFields{Sex: d.sex.Key()}
	if d.by() == meals.ByThumb {
		f.Goal = d.fields[sheets.GoalKey].Text
	} else {
		f.Activity, f.Age, f.Height = d.activity.Key(), d.fields[sheets.AgeKey].Text, d.fields[sheets.HeightKey].Text
		f.Weight, f.Less = d.fields[sheets.WeightKey].Text, d.fields[sheets.LessKey].Text
	}
	return sheets.ReadBody(f)
}

func (d *targetDialog) by() meals.Method { return meals.Method(d.method.Key()) }

// offer is what the fields come to; none while one of them has a fault.
func (d *targetDialog) offer() (meals.Person, meals.Offer, map[string]string) {
	p, faults := d.person()
	o := meals.OfferTo(p, meals.NoneOfIt, d.by())
	if o.Reason == meals.Offered && len(faults) > 0 {
		o.Reason = meals.Missing
	}
	return p, o, faults
}

// update shows what the fields so far come to.
func (d *targetDialog) update() {
	if d.dialog == nil {
		return // still being built
	}
	p, o, faults := d.offer()
	thumb := d.by() == meals.ByThumb
	for key, row := range d.rows {
		if (key == sheets.GoalKey) == thumb {
			row.Show()
			row.SetError(faults[key])
		} else {
			row.Hide()
		}
	}
	d.result.SetText(sheets.TargetText(o, p.Sex))
	visible(d.care, o.Reason == meals.Offered)
	visible(d.sources, !thumb)
	d.dialog.SetConfirmEnabled(o.Reason == meals.Offered)
	d.all.Refresh() // rows came or went
}

// save takes the target when one is offered.
func (d *targetDialog) save() bool {
	p, o, _ := d.offer()
	if o.Reason != meals.Offered {
		return false
	}
	d.line.use(meals.Kept{Person: p, Method: d.by()}, d.keep.On())
	return true
}
