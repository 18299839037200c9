package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// ballotScreen is the ballot of tasters at this machine. It takes the whole
// screen, menus and all: codes and questions only, until the cook takes the
// machine back.
type ballotScreen struct {
	w    *Window
	id   recipes.ID
	date string
	seat int
	run  *sheets.BallotRun
	at   int // -1: the introduction
	body *fyne.Container
	keys *keyCatcher
	wait bool // an answer is on its way to the disk
	left bool // the cook has the machine back

	before fyne.CanvasObject // the window's own content
}

// ballotHere opens the ballot on the whole screen, for a seat, or with 0 at the
// choice of seats.
func (w *Window) ballotHere(t *recipes.Tasting, seat int) *ballotScreen {
	s := &ballotScreen{w: w, id: t.ID, before: w.win.Content()}
	if !tasting.Blind(t) {
		s.date = sheets.Today(w.now())
	}
	parts.CommitEdits(w.win.Canvas())
	w.win.Canvas().Unfocus() // what has the keyboard is told before it goes
	s.body = container.New(stack{})
	s.keys = newKeyCatcher(s)
	root := container.New(stack{}, s.keys, s.body)
	w.win.SetMainMenu(nil)
	w.win.SetOnDropped(nil)
	w.win.SetCloseIntercept(s.askCook)
	w.win.SetContent(parts.WithLayer(parts.Side(root)))
	w.win.SetFullScreen(true)
	if seat == 0 {
		s.chooseSeat()
	} else {
		s.begin(seat)
	}
	return s
}

// tasting is as it stands now, nil when it is gone or closed.
func (s *ballotScreen) tasting() *recipes.Tasting {
	t := s.w.book().Tasting(s.id)
	if t == nil || t.State != recipes.TastingServing {
		return nil
	}
	return t
}

// chooseSeat lets tasters find their seat; only those who have not finished.
func (s *ballotScreen) chooseSeat() {
	s.run, s.at = nil, 0
	t := s.tasting()
	if t == nil {
		s.leave()
		return
	}
	var seats []sheets.BallotChoice
	for _, n := range sheets.OwingSeats(s.w.book(), t) {
		seats = append(seats, sheets.BallotChoice{Value: float64(n), Text: words.Say("tasting.seat", n)})
	}
	s.seat = 0
	lead := words.Say("tastings.screen.seat.lead")
	if len(seats) == 0 {
		lead = words.Say("tastings.screen.seat.none")
	}
	s.set(ballotPage(words.Say("tastings.screen.seat"), "", lead, s.choices(seats, -1, func(c sheets.BallotChoice) { s.begin(int(c.Value)) }), s.lockLine(nil)))
}

// begin opens a seat's ballot at the introduction, or where she had come to.
func (s *ballotScreen) begin(seat int) {
	t := s.tasting()
	if t == nil || t.Seat(seat) == nil || t.Seat(seat).Panelist == "" {
		s.chooseSeat()
		return
	}
	s.seat, s.at = seat, -1
	s.run = sheets.NewBallotRun(s.w.book(), t, seat, s.date)
	if s.run.Reached() > 0 {
		s.at = s.run.Reached()
	}
	s.show()
}

// show shows the screen she has come to.
func (s *ballotScreen) show() {
	switch {
	case s.at < 0:
		s.intro()
	case s.at >= len(s.run.Steps):
		s.thanks()
	default:
		s.question()
	}
}

func (s *ballotScreen) intro() {
	b := s.run.Ballot
	var codes []sheets.BallotChoice
	for _, c := range b.Cups {
		codes = append(codes, sheets.BallotChoice{Text: strconv.Itoa(c)})
	}
	row := parts.Line(parts.GapMedium, parts.Spring())
	if b.Open {
		row.Add(bigCode(words.Say("tastings.screen.open")))
	}
	for _, c := range codes {
		row.Add(bigCode(c.Text))
	}
	row.Add(parts.Spring())
	begin := newBigButton(words.Say("tastings.screen.begin"), func() {
		s.at = 0
		s.show()
	})
	begin.loud = true
	s.w.pin("ballot.begin", begin)
	s.set(ballotPage(b.Title, words.Say("tasting.seat", b.Seat), b.Intro, parts.Rows(28, row, inTheMiddle(begin)), s.lockLine(nil)))
}

// inTheMiddle puts one large button in the middle.
func inTheMiddle(b *bigButton) fyne.CanvasObject {
	return parts.Columns(0, []float32{1, 0.8, 1}, parts.Rows(0), b, parts.Rows(0))
}

// bigCode is a cup as it stands on the tray.
func bigCode(text string) fyne.CanvasObject {
	t := parts.NewHeading(text)
	t.OneLine = true
	return parts.NewPanel(parts.GapLarge, t)
}

func (s *ballotScreen) question() {
	step := s.run.Steps[s.at]
	var back *parts.Button
	if s.run.MayGoBack(s.at) {
		back = parts.NewButton(parts.Quiet, "left", words.Say("tastings.screen.back"), func() {
			s.at--
			s.show()
		})
		s.w.pin("ballot.back", back)
	}
	chosen := -1.0
	if v, ok := s.run.Answer(s.at); ok {
		chosen = v
	}
	s.set(ballotPage(s.run.Heading(s.at), s.run.Progress(s.at), step.Ask.Label, s.choices(s.run.Choices(s.at), chosen, s.answer), s.lockLine(back)))
}

// answer keeps what she pressed and goes on once it is on disk.
func (s *ballotScreen) answer(c sheets.BallotChoice) {
	if s.wait || c.Taken {
		return
	}
	s.wait = true
	step, run := s.run.Steps[s.at], s.run
	verb := enterScore(s.id, s.w.newID, oneScore{
		Answer: tasting.Answer{Seat: s.seat, Code: step.Code, Source: recipes.FromScreen, Date: s.date}, Key: step.Ask.Key, Value: c.Value,
	})
	s.w.desk.DoAs(recipes.ByPanelist, verb, func(err error) {
		s.wait = false
		if err != nil {
			parts.ShowProblem(s.w.win, words.Say("tastings.screen.trouble"), err.Error(), words.Say("tastings.screen.trouble.hint"), words.Say("button.close"))
			return
		}
		t := s.tasting()
		if t == nil || run != s.run {
			return
		}
		s.run = sheets.NewBallotRun(s.w.book(), t, s.seat, s.date)
		s.at++
		s.show()
	})
}

func (s *ballotScreen) thanks() {
	next := newBigButton(words.Say("tastings.screen.next"), s.chooseSeat)
	next.loud = true
	s.w.pin("ballot.next", next)
	s.set(ballotPage(s.run.Ballot.Thanks, words.Say("tasting.seat", s.seat), words.Say("tastings.screen.thanks"), inTheMiddle(next), s.lockLine(nil)))
}

// key is a key pressed anywhere on the ballot.
func (s *ballotScreen) key(k fyne.KeyName) {
	switch {
	case k == fyne.KeyEscape:
		s.askCook()
	case (k == fyne.KeyLeft || k == fyne.KeyBackspace) && s.run != nil && s.run.MayGoBack(s.at):
		s.at--
		s.show()
	case (k == fyne.KeyReturn || k == fyne.KeyEnter) && s.run != nil && s.at < 0:
		s.at = 0
		s.show()
	case (k == fyne.KeyReturn || k == fyne.KeyEnter) && s.run != nil && s.at >= len(s.run.Steps):
		s.chooseSeat()
	}
}

// digit picks an answer, or a seat, by its key.
func (s *ballotScreen) digit(r rune) {
	switch {
	case s.run == nil:
		if t := s.tasting(); t != nil {
			for _, n := range sheets.OwingSeats(s.w.book(), t) {
				if strconv.Itoa(n) == string(r) {
					s.begin(n)
					return
				}
			}
		}
	case s.at >= 0 && s.at < len(s.run.Steps):
		for _, c := range s.run.Choices(s.at) {
			if c.Key == string(r) {
				s.answer(c)
				return
			}
		}
	}
}

// askCook asks for the word that only the cook types; the machine is handed back
// then.
func (s *ballotScreen) askCook() {
	word := parts.NewEntry("", "", nil)
	s.w.pin("ballot.word", word)
	f := parts.NewForm()
	row := f.Row(words.Say("tastings.screen.word", words.Say("tastings.screen.cook")), word, "", "")
	d := parts.ShowDialog(s.w.win, parts.DialogOptions{
		Title: words.Say("tastings.screen.leave"), Content: parts.Rows(parts.GapMedium, parts.NewText(words.Say("tastings.screen.leave.text")), f), First: word,
		Confirm: words.Say("tastings.screen.leave.ok"), Cancel: words.Say("tastings.screen.stay"), Width: 520, OnClosed: s.takeKeys,
		OnOK: func() bool {
			if !sheets.SameWord(word.Text, words.Say("tastings.screen.cook")) {
				row.SetError(words.Say("tastings.screen.word.wrong"))
				s.w.win.Canvas().Focus(word)
				return false
			}
			s.w.desk.Refresh()
			s.leave()
			return true
		},
	})
	word.OnSubmitted = func(string) { d.Confirm() }
}

// takeKeys gives the keyboard to the ballot while it is there, and to the page once
// the cook has the machine back.
func (s *ballotScreen) takeKeys() {
	if !s.left {
		s.keys.take()
		return
	}
	s.w.keysDue = true
	s.w.offerKeys()
}

// leave gives the window its own content back.
func (s *ballotScreen) leave() {
	w := s.w
	s.left = true
	w.win.Canvas().Unfocus()
	w.win.SetFullScreen(false)
	w.win.SetContent(s.before)
	w.win.SetMainMenu(w.menu.main)
	w.win.SetCloseIntercept(w.close)
	w.win.SetOnDropped(func(_ fyne.Position, uris []fyne.URI) { w.dropped(uris) })
	w.enter(w.at)
}
