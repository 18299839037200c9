package ui

import (
	"errors"
	"slices"
	"strings"
	"time"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/parts"
)

// askServed tells that a change would alter a dish that was served, and asks
// which it is: a correction of the record, or a change of the dish from here on.
// then hears how it ended; cancelling ends it with nothing done.
func (w *Window) askServed(v recipes.Verb, served *recipes.ServedError, err error, then []func(ok bool)) {
	finish := func(ok bool) {
		for _, f := range then {
			f(ok)
		}
	}
	asked := false
	var d *parts.Dialog
	act := func(verb func() recipes.Verb, then ...func(ok bool)) func() {
		return func() {
			asked = true
			d.Close()
			w.do(verb(), then...)
		}
	}
	change, help := words.Say("served.change.version"), words.Say("served.change.help")
	if served.Version == "" {
		change, help = words.Say("served.change.original"), words.Say("served.change.original.help")
	}
	why := parts.NewEntry("", words.Say("served.why.hint"), nil)
	w.pin("served.why", why)
	asks := parts.NewCaption(words.Say("served.why"))
	record := act(func() recipes.Verb {
		return recipes.Correct(w.now().Format(time.RFC3339), strings.TrimSpace(why.Text), v)
	}, then...)
	correct := w.pin("served.correct", parts.NewButton(parts.Quiet, "edit", words.Say("served.correct"), func() {
		if strings.TrimSpace(why.Text) == "" { // a record of scores is not changed without one
			asks.SetText(words.Say("served.why.first"))
			w.win.Canvas().Focus(why)
			return
		}
		record()
	}))
	dish := w.pin("served.change", parts.NewButton(parts.Quiet, "versions", change, act(func() recipes.Verb {
		return recipes.ChangeDish(served.Version, w.newID, v)
	}, append(slices.Clone(then), w.showMade(served.Tasting))...)))
	said := servedText(err)
	if c, err := v(w.book()); err == nil && c.Label.Key != "" {
		said = words.Say("served.asked", c.Label.String(), said)
	}
	content := parts.Rows(
		parts.GapLarge, parts.NewText(said),
		parts.Rows(4, parts.Line(parts.GapSmall, correct, parts.Spring()), parts.NewCaption(words.Say("served.correct.help")),
			parts.Stretch(parts.GapSmall, 1, asks, why)),
		parts.Rows(4, parts.Line(parts.GapSmall, dish, parts.Spring()), parts.NewCaption(help)),
	)
	d = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("served.title"), Content: content, Cancel: words.Say("served.leave"), Width: 560,
		OnClosed: func() {
			if !asked {
				finish(false)
			}
		},
	})
}

// showMade goes to the version that a change of the dish makes beside the served
// one, where versions are in sight; what was done must not seem to have vanished.
func (w *Window) showMade(tasting recipes.ID) func(ok bool) {
	before := w.book()
	return func(ok bool) {
		t := w.book().Tasting(tasting)
		if !ok || t == nil || w.at.page != pageRecipe || w.at.recipe != t.Recipe || w.at.tab != tabVersions {
			return
		}
		for _, v := range w.book().Versions(t.Recipe) {
			if before.Version(t.Recipe, v.ID) == nil {
				w.versions().selectVersion(v.ID)
			}
		}
	}
}

// servedText says what stands against the change; the ways on have buttons.
func servedText(err error) string {
	var p *problem.Error
	if !errors.As(err, &p) {
		return err.Error()
	}
	return words.Say("served.text", p.Where, p.What)
}

// servedBy returns the cause of a refusal when it is that a dish was served.
func servedBy(err error) *recipes.ServedError {
	var served *recipes.ServedError
	if errors.As(err, &served) {
		return served
	}
	return nil
}
