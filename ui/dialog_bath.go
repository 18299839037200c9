package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// bathFields ask what is eaten of a marinade, brine or cooking water, part by
// part, and offer usual shares with what they rest on.
type bathFields struct {
	d                *lineDialog
	on               *parts.Check
	water, salt, fat *parts.Entry
	shares           *parts.FormRow
	note             *parts.Text
}

func newBathFields(d *lineDialog, form *parts.Form) *bathFields {
	b := &bathFields{d: d, note: parts.NewCaption("")}
	u := d.line.Uptake
	if u == nil {
		u = &recipes.Uptake{}
	}
	b.on = parts.NewCheck(words.Say("line.bath"), d.line.Uptake != nil, func(on bool) {
		b.show(on)
		d.update()
	})
	form.Row("", b.on, "", "")
	b.water, b.salt, b.fat = d.shareEntry(u.Water), d.shareEntry(u.Salt), d.shareEntry(u.Fat)
	part := func(e *parts.Entry, key string) fyne.CanvasObject {
		return parts.Rows(2, parts.Line(4, e, parts.NewText("%")), parts.NewCaption(words.Say(key)))
	}
	b.shares = form.Row("", parts.Flow(parts.GapMedium,
		part(b.water, "line.bath.water"), part(b.salt, "line.bath.salt"), part(b.fat, "line.bath.fat")), "", "")
	d.rows["bath"] = b.shares
	form.Row("", b.choices(), "", "")
	for name, o := range map[string]fyne.CanvasObject{"bath": b.on, "bath.water": b.water, "bath.salt": b.salt, "bath.fat": b.fat} {
		d.w.pin("line."+name, o)
	}
	b.show(d.line.Uptake != nil)
	return b
}

func (d *lineDialog) shareEntry(share float64) *parts.Entry {
	e := parts.NewNumberEntry(sheets.ShareField(share), "", d.typed)
	e.Width = 64
	return e
}

// choices are the usual shares, one button each: a press fills the fields and
// says what the share rests on; nothing is kept before Save.
func (b *bathFields) choices() fyne.CanvasObject {
	flow := parts.Flow(4)
	for _, c := range b.d.x.Choices(b.d.column, b.d.line) {
		button := parts.NewButton(parts.Plain, "assumed", c.Name, func() { b.take(c) })
		button.SetTip(c.Note)
		b.d.w.pin("line.default."+c.Key, button)
		flow.Add(button)
	}
	b.note.Hide()
	return parts.Rows(4, parts.NewCaption(words.Say("line.defaults")), flow, b.note)
}

func (b *bathFields) take(c sheets.Choice) {
	b.note.SetText(c.Name + ": " + c.Note)
	b.note.Show()
	switch {
	case !c.Usable:
	case c.Uptake != nil:
		b.on.Set(true)
		b.water.Set(sheets.ShareField(c.Uptake.Water))
		b.salt.Set(sheets.ShareField(c.Uptake.Salt))
		b.fat.Set(sheets.ShareField(c.Uptake.Fat))
	default:
		b.on.Set(false)
		b.d.eaten.Set(sheets.ShareField(c.Part))
	}
	b.show(b.on.On())
	b.d.update()
}

// show swaps the field of the part eaten for the three shares.
func (b *bathFields) show(on bool) {
	part := b.d.rows["eaten"]
	if on {
		part.Hide()
		b.shares.Show()
	} else {
		b.shares.Hide()
		part.Show()
	}
	b.d.left.Refresh()
}

// uptake is what the fields say, nil without a bath; false when a share cannot
// be read.
func (b *bathFields) uptake() (*recipes.Uptake, bool) {
	if !b.on.On() {
		return nil, true
	}
	u := recipes.Uptake{}
	if was := b.d.line.Uptake; was != nil {
		u = *was
	}
	all := true
	for _, f := range []struct {
		e  *parts.Entry
		to *float64
	}{{b.water, &u.Water}, {b.salt, &u.Salt}, {b.fat, &u.Fat}} {
		if f.e.Text == sheets.ShareField(*f.to) {
			continue
		}
		v, ok := reading.Share(f.e.Text)
		all = all && ok
		*f.to = v
	}
	return &u, all
}
