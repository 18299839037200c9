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

// offList is what is taken off an ingredient, with fields to take off more. It
// acts at once; undo takes it back.
type offList struct {
	d      *lineDialog
	list   *fyne.Container
	food   *parts.Entry
	grams  *parts.Entry
	wrong  *parts.Text
	picked *food.Food
	named  string
	view   fyne.CanvasObject
}

func newOffList(d *lineDialog) *offList {
	o := &offList{d: d, list: parts.Rows(4), wrong: parts.NewCaption("")}
	o.wrong.Role = parts.RoleError
	o.wrong.Hide()
	o.food = parts.NewSuggestEntry("", words.Say("line.offs.food"), d.w.foodSuggestions, o.pick)
	o.grams = parts.NewNumberEntry("", words.Say("line.offs.grams"), nil)
	o.grams.Width = 76
	add := parts.NewButton(parts.Quiet, "remove", words.Say("line.offs.add"), o.add)
	d.w.pin("line.off.food", o.food)
	d.w.pin("line.off.grams", o.grams)
	d.w.pin("line.off.add", add)
	o.view = parts.Rows(parts.GapSmall, parts.NewSection(words.Say("line.offs")), o.list,
		parts.Stretch(parts.GapSmall, 0, o.food, o.grams, add), o.wrong)
	o.show()
	return o
}

func (o *offList) pick(s parts.Suggestion) {
	table, err := o.d.w.desk.Foods()
	if ref, ok := food.ParseRef(s.Key); ok && err == nil {
		o.picked, o.named = table.Get(ref), s.Text
	}
}

// show lists what the newest Book takes off the ingredient.
func (o *offList) show() {
	w := o.d.w
	o.list.Objects = nil
	x := sheets.NewBench(w.book(), w.recipe())
	facts, _ := x.LineFacts(o.d.line.ID, 0)
	for _, off := range facts.Off {
		leave := parts.NewButton(parts.Plain, "undo", words.Say("line.offs.remove"), func() {
			w.do(recipes.RemoveLine(w.at.recipe, off.ID), func(bool) { o.show() })
		})
		w.pin("line.off.leave:"+off.Text, leave)
		o.list.Add(parts.Stretch(parts.GapSmall, 0, parts.NewText(off.Text), leave))
		if off.Note != "" {
			o.list.Add(parts.NewBanner(parts.ToneLook, off.Note))
		}
	}
	if len(facts.Off) == 0 {
		o.list.Add(parts.NewCaption(words.Say("line.offs.none")))
	}
	o.list.Refresh()
	if o.view != nil {
		o.view.Refresh()
		o.d.left.Refresh()
	}
}

// add takes so much of a food off the ingredient.
func (o *offList) add() {
	w := o.d.w
	grams, ok := reading.Grams(o.grams.Text)
	bad := !ok || o.picked == nil || o.food.Text != o.named
	o.wrong.SetText(words.Say("line.offs.wrong"))
	visible(o.wrong, bad)
	if bad {
		o.view.Refresh()
		return
	}
	l, after := sheets.OffLine(w.recipe(), o.d.line, w.newID(), o.picked.Name, grams)
	l.Food = o.picked.Ref
	verb := recipes.AddLine(w.at.recipe, l, after, []*food.Food{o.picked})
	w.do(recipes.All(words.P("did.take-off", l.Text, sheets.LineName(o.d.line)), w.at.recipe, verb), func(ok bool) {
		if ok {
			o.food.Set("")
			o.grams.Set("")
			o.picked = nil
		}
		o.show()
	})
}
