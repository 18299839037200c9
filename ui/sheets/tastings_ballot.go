package sheets

import (
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// BallotStep is one screen of a taster's ballot: one question of one cup, or of
// her tray.
type BallotStep struct {
	Code  int // 0: the tray
	Place int // of the cup in her order, from 1
	Ask   tasting.Question
}

// BallotRun is a ballot at this machine, screen by screen, with what she has
// answered here so far.
type BallotRun struct {
	Ballot *tasting.Ballot
	Steps  []BallotStep
	Given  map[int]map[string]float64 // by code, then by question
}

// NewBallotRun lays out a seat's ballot as it stands: date is of a dish taken
// home.
func NewBallotRun(b *recipes.Book, t *recipes.Tasting, number int, date string) *BallotRun {
	seat := t.Seat(number)
	r := &BallotRun{Ballot: tasting.BallotOf(t, seat), Given: map[int]map[string]float64{}}
	r.Ballot.Title = words.Say("tastings.title", dayText(t.Date))
	codes := map[recipes.ID]int{}
	for _, c := range seat.Cups {
		codes[c.Sample] = c.Code
	}
	for _, s := range b.Servings(t.ID) {
		if s.Panelist == seat.Panelist && s.Source == recipes.FromScreen && s.Date == date {
			r.Given[codes[s.Sample]] = s.Scores
		}
	}
	for i, code := range r.Ballot.Cups {
		for _, q := range r.Ballot.Ask {
			r.Steps = append(r.Steps, BallotStep{code, i + 1, q})
		}
	}
	for _, q := range r.Ballot.Whole {
		r.Steps = append(r.Steps, BallotStep{0, 0, q})
	}
	return r
}

// Answer is what she said on a screen; false when she has not.
func (r *BallotRun) Answer(i int) (float64, bool) {
	v, ok := r.Given[r.Steps[i].Code][r.Steps[i].Ask.Key]
	return v, ok
}

// Reached is the first screen she has not answered; len(Steps) when all are.
func (r *BallotRun) Reached() int {
	for i := range r.Steps {
		if _, ok := r.Answer(i); !ok {
			return i
		}
	}
	return len(r.Steps)
}

// MayGoBack tells whether answers may be looked at and changed again: where cups
// are compared with one another, and within one cup.
func (r *BallotRun) MayGoBack(i int) bool {
	if i <= 0 || i >= len(r.Steps) {
		return false
	}
	if r.Ballot.Test == "ranking" || r.Ballot.Test == recipes.TestHome {
		return true
	}
	return r.Steps[i].Code != 0 && r.Steps[i-1].Code == r.Steps[i].Code
}

// BallotChoice is one answer to pick: the key that picks it, and its words.
type BallotChoice struct {
	Value float64
	Key   string // "1" to "9"
	Text  string
	Note  string // the words beside a figure
	Taken bool   // the place is another cup's already
}

// Choices lists the answers of a screen.
func (r *BallotRun) Choices(i int) []BallotChoice {
	q := r.Steps[i].Ask
	var out []BallotChoice
	switch q.Kind {
	case tasting.AskCode:
		for _, c := range q.Codes {
			out = append(out, BallotChoice{Value: float64(c), Text: strconv.Itoa(c)})
		}
		if q.Nothing != "" {
			out = append(out, BallotChoice{Value: 0, Text: q.Nothing})
		}
	case tasting.AskYesNo:
		for n, o := range q.Options {
			out = append(out, BallotChoice{Value: float64(n), Text: o})
		}
	default:
		for v := int(q.Low); v <= int(q.High); v++ {
			c := BallotChoice{Value: float64(v), Text: strconv.Itoa(v), Taken: q.Kind == tasting.AskOrders && r.taken(r.Steps[i], float64(v))}
			if n := v - int(q.Low); n < len(q.Anchors) {
				c.Note = q.Anchors[n]
			}
			out = append(out, c)
		}
	}
	for n := range out {
		if n < 9 {
			out[n].Key = strconv.Itoa(n + 1)
		}
	}
	return out
}

// taken tells whether another cup has a place.
func (r *BallotRun) taken(s BallotStep, v float64) bool {
	return slices.ContainsFunc(r.Ballot.Cups, func(code int) bool {
		x, ok := r.Given[code][s.Ask.Key]
		return ok && code != s.Code && x == v
	})
}

// Heading is what stands large on a screen: the cup's code, or the tray.
func (r *BallotRun) Heading(i int) string {
	if s := r.Steps[i]; s.Code != 0 {
		return words.Say("tastings.screen.cup", s.Code)
	}
	return words.Say("tastings.screen.tray")
}

// Progress says how far a screen is: "Sample 2 of 4".
func (r *BallotRun) Progress(i int) string {
	if s := r.Steps[i]; s.Code != 0 {
		return words.Say("tastings.screen.progress", s.Place, len(r.Ballot.Cups))
	}
	return words.Say("tastings.screen.last")
}

// ScaleWords lists the words along a scale in one line, where there is no room
// for them under its figures.
func ScaleWords(list []BallotChoice) string {
	var out []string
	for _, c := range list {
		if c.Note != "" {
			out = append(out, words.Say("tastings.screen.choice", c.Text, c.Note))
		}
	}
	return strings.Join(out, " · ")
}
