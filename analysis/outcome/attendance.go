package outcome

import (
	"slices"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Attendance counts the seats of a tasting, never who sat on them.
type Attendance struct {
	Planned  int
	Answered int // gave at least one answer
	Away     int // did not come
	Left     int // of those who answered: left before the end
}

// AttendanceOf counts who of the planned tasters answered.
func AttendanceOf(b *recipes.Book, t *recipes.Tasting) Attendance {
	a := Attendance{Planned: len(t.Seats)}
	servings := b.Servings(t.ID)
	for _, seat := range t.Seats {
		answered := seat.Panelist != "" && slices.ContainsFunc(servings, func(s *recipes.Serving) bool { return s.Panelist == seat.Panelist })
		switch {
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
