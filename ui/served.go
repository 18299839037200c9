package ui

import (
	"errors"
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
	act := func(v recipes.Verb) func() {
		return func() {
			asked = true
			d.Close()
			w.do(v, then...)
		}
	}
	change := words.Say("served.change.version")
	if served.Version == "" {
		change = words.Say("served.change.original")
	}
	correct := w.pin("served.correct", parts.NewButton(parts.Quiet, "edit", words.Say("served.correct"), act(recipes.Correct(w.now().Format(time.RFC3339), "", v))))
	dish := w.pin("served.change", parts.NewButton(parts.Quiet, "versions", change, act(recipes.ChangeDish(served.Version, w.newID, v))))
	content := parts.Rows(
		parts.GapLarge, parts.NewText(servedText(err)),
		parts.Rows(4, parts.Line(parts.GapSmall, correct, parts.Spring()), parts.NewCaption(words.Say("served.correct.help"))),
		parts.Rows(4, parts.Line(parts.GapSmall, dish, parts.Spring()), parts.NewCaption(words.Say("served.change.help"))),
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
