package ui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// stamp is the instant, as it is kept with what is final.
func (w *Window) stamp() string { return w.now().Format(time.RFC3339) }

// doForGood does what cannot be undone, and says so in place of an older undo;
// then, when given, follows what went well.
func (w *Window) doForGood(id recipes.ID, v recipes.Verb, key string, then func()) {
	w.do(v, func(ok bool) {
		if t := w.book().Tasting(id); ok && t != nil {
			w.status.SetMessage(words.Say(key, t.Date))
			if then != nil {
				then()
			}
		}
	})
}

// settleDifferences shows, cup by cup, two entries that differ, each with a
// button that lets it count.
func (w *Window) settleDifferences(t *recipes.Tasting) {
	list := parts.Rows(parts.GapMedium)
	scroll := parts.Scrolled(parts.Pad(2, 14, 2, 2, list))
	var first *parts.Button
	var show func()
	show = func() {
		list.Objects, first = nil, nil
		for i, d := range sheets.Differences(w.book(), t) {
			row := parts.Flow(parts.GapSmall)
			for j, way := range d.Ways {
				b := parts.NewButton(parts.Quiet, "", way.Text, func() {
					w.do(tasting.Choose(t.ID, way.Serving), func(bool) { show() })
				})
				if first == nil {
					first = b
				}
				row.Add(w.pin(fmt.Sprintf("tastings.choose.%d.%d", i, j), b))
			}
			list.Add(parts.Rows(4, parts.NewBold(d.What), row))
		}
		if len(list.Objects) == 0 {
			list.Add(parts.NewBanner(parts.ToneGood, words.Say("tastings.settle.none")))
		}
		scroll.Refresh()
	}
	show()
	options := parts.DialogOptions{
		Title: words.Say("tastings.settle"), Width: 600, Height: 460, Cancel: words.Say("button.close"),
		Content: parts.Fill(parts.GapSmall, 1, parts.NewText(words.Say("tastings.settle.help")), scroll),
	}
	if first != nil {
		options.First = first
	}
	parts.ShowDialog(w.win, options)
}

// closeTasting says what is missing and what differs; ending early needs a reason.
func (w *Window) closeTasting(t *recipes.Tasting) {
	t = w.book().Tasting(t.ID)
	if len(tasting.Disagreements(w.book(), t)) > 0 {
		w.settleDifferences(t)
		return
	}
	missing := sheets.WhoOwes(w.book(), t)
	why := parts.NewEntry("", words.Say("tastings.early.hint"), nil)
	w.pin("tastings.early", why)
	form := parts.NewForm()
	body := parts.Rows(parts.GapMedium, parts.NewText(words.Say("tastings.close.text")))
	var row *parts.FormRow
	confirm := words.Say("tastings.close")
	var first fyne.Focusable
	if needsReason := len(missing) > 0 && tasting.Blind(t); needsReason {
		body.Add(parts.NewBanner(parts.ToneLook, sheets.MissingText(w.book(), t)))
		for _, m := range missing {
			body.Add(parts.NewText(m))
		}
		row = form.Row(words.Say("tastings.early"), why, "", words.Say("tastings.early.help"))
		body.Add(form)
		confirm, first = words.Say("tastings.close.early"), why
	}
	day := &servedOn{}
	if tasting.Blind(t) { // what is taken home goes on over weeks
		if day = w.askDay(t, "tastings.served-on.close", t.Date); day.view != nil {
			body.Add(day.view)
		}
	}
	d := parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tastings.close.title"), Content: body, First: first, Width: 560,
		Confirm: confirm, Cancel: words.Say("tastings.close.not"),
		OnOK: func() bool {
			if row != nil && sheets.Blank(why.Text) {
				row.SetError(words.Say("tastings.early.wrong"))
				w.win.Canvas().Focus(why)
				return false
			}
			v, ok := day.before("did.close-tasting", tasting.Close(t.ID, w.stamp(), why.Text))
			if ok {
				w.doForGood(t.ID, v, "did.close-tasting", func() { w.phonesOff(t.ID) })
			}
			return ok
		},
	})
	why.OnSubmitted = func(string) { d.Confirm() }
	day.confirms(d)
}
