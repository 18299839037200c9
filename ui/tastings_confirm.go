package ui

import (
	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// confirmation is an answer that ends a ballot, before it is kept: where a whole
// tray is answered at once there is no other way back from a wrong click.
type confirmation struct {
	s      *ballotScreen
	choice sheets.BallotChoice
	note   *parts.Entry
}

// endsHere tells whether the answer of the present screen is the only one of its
// ballot.
func (s *ballotScreen) endsHere() bool {
	return s.run != nil && len(s.run.Ballot.Ask) == 0 && s.at == len(s.run.Steps)-1
}

// confirmKey asks about the answer that a key picks.
func (s *ballotScreen) confirmKey(key string) {
	for _, c := range s.run.Choices(s.at) {
		if c.Key == key {
			s.confirm(c)
			return
		}
	}
}

// confirm shows the answer large and asks whether it is meant, and for anything to
// add, as on paper.
func (s *ballotScreen) confirm(c sheets.BallotChoice) {
	if s.wait {
		return
	}
	x := &confirmation{s: s, choice: c, note: parts.NewEntry("", words.Say("papers.ballot.note"), nil)}
	x.note.OnSubmitted = func(string) { x.yes() }
	s.w.pin("ballot.note", x.note)
	yes, no := newBigButton(words.Say("tastings.screen.sure.yes"), x.yes), newBigButton(words.Say("tastings.screen.sure.no"), x.no)
	yes.loud = true
	s.w.pin("ballot.yes", yes)
	s.w.pin("ballot.no", no)
	keys := parts.NewCaption(words.Say("tastings.screen.sure.keys"))
	keys.Align = fyne.TextAlignCenter
	content := parts.Columns(0, []float32{1, 1.6, 1}, parts.Rows(0), parts.Rows(parts.GapMedium, x.note, yes, no, keys), parts.Rows(0))
	s.keys.asked = x // the foot has no word of digits
	s.set(ballotPage(c.Text, words.Say("tasting.seat", s.seat), words.Say("tastings.screen.sure", s.run.Steps[s.at].Ask.Label), content, s.lockLine(nil)))
	s.keys.asked = x
}

// yes keeps the answer, with what she added.
func (x *confirmation) yes() {
	s := x.s
	if s.wait || s.keys.asked != x {
		return
	}
	s.keys.asked = nil
	if !sheets.Blank(x.note.Text) {
		a := tasting.Answer{Seat: s.seat, Note: x.note.Text, Source: recipes.FromScreen, Date: s.date}
		s.w.desk.DoAs(recipes.ByPanelist, tasting.Record(s.id, s.w.newID, a), func(error) {}) // the answer after it tells what fails
	}
	s.answer(x.choice)
}

// no goes back to the question.
func (x *confirmation) no() { x.s.show() }

// key is yes by Enter, and no by the keys that go back.
func (x *confirmation) key(k fyne.KeyName) {
	switch k {
	case fyne.KeyReturn, fyne.KeyEnter:
		x.yes()
	case fyne.KeyEscape, fyne.KeyLeft, fyne.KeyBackspace:
		x.no()
	}
}
