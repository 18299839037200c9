package ui

import (
	"errors"

	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/parts"
)

// problem is the one place where an error meets the cook: a line in the status
// bar for a refused edit.
func (w *Window) problem(err error) {
	w.trouble(err.Error())
}

// trouble tells of something refused until it is mended.
func (w *Window) trouble(text string) {
	w.shown.trouble = true
	w.status.SetTone(parts.ToneError, text)
}

// problemDialog tells of something that stopped her: a file that cannot be
// opened or written.
func (w *Window) problemDialog(err error) {
	var p *problem.Error
	if !errors.As(err, &p) {
		p = &problem.Error{What: err.Error()}
	}
	parts.ShowProblem(w.win, words.Capital(p.What), p.Where, p.Hint, words.Say("button.close"))
}
