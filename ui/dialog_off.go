package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// offList is what is taken off an ingredient, with fields to take off more.
// Nothing of it is kept before the dialog is saved.
type offList struct {
	d      *lineDialog
	list   *fyne.Container
	food   *parts.Entry
	grams  *parts.Entry
	wrong  *parts.Text
	picked *food.Food
	named  string
	added  []newOff            // to be taken off once saved, in order
	left   map[recipes.ID]bool // to be left in again once saved
	view   fyne.CanvasObject
}

// newOff is a line to come with its food.
type newOff struct {
	line  *recipes.Line
	after recipes.ID
	food  *food.Food
}

func newOffList(d *lineDialog) *offList {
	o := &offList{d: d, list: parts.Rows(4), wrong: parts.NewCaption(""), left: map[recipes.ID]bool{}}
	o.wrong.Role = parts.RoleError
	o.wrong.Hide()
	o.food = parts.NewSuggestEntry("", words.Say("line.offs.food"), d.w.foodSuggestions, o.pick)
	o.grams = parts.NewNumberEntry("", words.Say("line.offs.grams"), nil)
	o.grams.Width = 76
	add := parts.NewButton(parts.Quiet, "remove", words.Say("line.offs.add"), o.add)
	d.w.pin("line.off.food", o.food)
	d.w.pin("line.off.grams", o.grams)
	d.w.pin("line.off.add", add)
	o.offerFat()
	o.view = parts.Rows(parts.GapSmall, parts.NewSection(words.Say("line.offs")), o.list,
		parts.Stretch(parts.GapSmall, 0, o.food, o.grams, add), o.wrong)
	o.show()
	return o
}

// offerFat chooses the fat of the ingredient where its text says that fat is
// poured off; its weight is the cook's to say.
func (o *offList) offerFat() {
	table, err := o.d.w.desk.Foods()
	if err != nil || !sheets.Asks(o.d.line, recipes.DoubtPoured) {
		return
	}
	if fat := table.Named(sheets.PouredFat(o.d.w.book().Food(o.d.line.Food))); fat != nil {
		o.picked, o.named = fat, fat.Name
		o.food.Set(fat.Name)
	}
}

func (o *offList) pick(s parts.Suggestion) {
	table, err := o.d.w.desk.Foods()
	if ref, ok := food.ParseRef(s.Key); ok && err == nil {
		o.picked, o.named = table.Get(ref), s.Text
	}
}

// show lists what comes off the ingredient once the dialog is saved.
func (o *offList) show() {
	o.list.Objects = nil
	facts, _ := o.d.x.LineFacts(o.d.line.ID, 0)
	for _, off := range facts.Off {
		if o.left[off.ID] {
			continue
		}
		o.row(off.Text, func() { o.left[off.ID] = true })
		if off.Note != "" {
			o.list.Add(parts.NewBanner(parts.ToneLook, off.Note))
		}
	}
	for i, n := range o.added {
		o.row(n.line.Text, func() { o.added = append(o.added[:i:i], o.added[i+1:]...) })
	}
	if len(o.list.Objects) == 0 {
		o.list.Add(parts.NewCaption(words.Say("line.offs.none")))
	}
	o.list.Refresh()
	if o.view != nil {
		o.view.Refresh()
		o.d.left.Refresh()
	}
}

// row is one thing that comes off, with a button that leaves it in.
func (o *offList) row(text string, leave func()) {
	b := parts.NewButton(parts.Plain, "undo", words.Say("line.offs.remove"), func() {
		leave()
		o.show()
		o.d.update()
	})
	o.d.w.pin("line.off.leave:"+text, b)
	o.list.Add(parts.Stretch(parts.GapSmall, 0, parts.NewText(text), b))
}

// add puts so much of a food on the list.
func (o *offList) add() {
	grams, ok := reading.Grams(o.grams.Text)
	bad := !ok || !(grams > 0) || o.picked == nil || o.food.Text != o.named
	o.wrong.SetText(words.Say("line.offs.wrong"))
	visible(o.wrong, bad)
	if bad {
		o.view.Refresh()
		return
	}
	l, after := sheets.OffLine(o.d.w.recipe(), o.d.line, o.d.w.newID(), o.picked.Name, grams)
	if n := len(o.added); n > 0 {
		after = o.added[n-1].line.ID
	}
	l.Food = o.picked.Ref
	o.added = append(o.added, newOff{line: l, after: after, food: o.picked})
	o.food.Set("")
	o.grams.Set("")
	o.picked = nil
	o.show()
	o.d.update()
}

// verbs keep what the list says. Once fat is taken off, the ingredient no longer
// asks about fat that is poured off.
func (o *offList) verbs() []recipes.Verb {
	var out []recipes.Verb
	recipe := o.d.w.at.recipe
	for id := range o.left {
		out = append(out, recipes.RemoveLine(recipe, id))
	}
	for _, n := range o.added {
		out = append(out, recipes.AddLine(recipe, n.line, n.after, []*food.Food{n.food}))
	}
	return out
}
