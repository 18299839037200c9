package outcome

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Attendance counts the seats of a tasting, never who sat on them.
type Attendance struct {
	Planned  int // of seats laid before serving began, but those left empty
	Answered int // of them: gave at least one answer
	Away     int // did not come
	Left     int // of those who answered: left before the end
	Late     int // came late, on a seat that nobody had planned, and answered
}

// AttendanceOf counts who of the planned tasters answered.
func AttendanceOf(b *recipes.Book, t *recipes.Tasting) Attendance {
	a := Attendance{}
	servings := b.Servings(t.ID)
	for _, seat := range t.Seats {
		if seat.Panelist == "" && seat.Away != "" {
			continue // left empty before anybody was served
		}
		if !seat.Late {
			a.Planned++
		}
		answered := seat.Panelist != "" && slices.ContainsFunc(servings, func(s *recipes.Serving) bool { return s.Panelist == seat.Panelist })
		switch {
		case seat.Late && answered:
			a.Late++
		case seat.Late:
		case answered && seat.Away != "":
			a.Answered, a.Left = a.Answered+1, a.Left+1
		case answered:
			a.Answered++
		case seat.Away != "":
			a.Away++
		}
	}
	return a
}

// Say says how many answered, and how many were away, left or gave no answer; ""
// where nobody was planned.
func (a Attendance) Say() string {
	out := a.planned()
	if a.Late > 0 {
		out = strings.TrimSpace(out + " " + words.Say("outcome.answered.late", a.Late))
	}
	return out
}

func (a Attendance) planned() string {
	switch {
	case a.Planned == 0:
		return ""
	case a.Answered == a.Planned && a.Left == 0:
		return words.Say("outcome.answered.all", a.Planned)
	}
	var rest []string
	for _, x := range []struct {
		key string
		n   int
	}{{"away", a.Away}, {"left", a.Left}, {"silent", a.Planned - a.Answered - a.Away}} {
		if x.n > 0 {
			rest = append(rest, words.Say("outcome.answered."+x.key, x.n))
		}
	}
	return words.Say("outcome.answered", a.Planned, a.Answered, words.Join(rest))
}
