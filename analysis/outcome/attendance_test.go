package outcome_test

import (
	"slices"
	"testing"

	"parewell/analysis/outcome"
	"parewell/recipes"
)

func TestWhoAnsweredIsSaid(t *testing.T) {
	for _, row := range []struct {
		name string
		a    outcome.Attendance
		want string
	}{
		{"nobody planned", outcome.Attendance{}, ""},
		{"all", outcome.Attendance{Planned: 8, Answered: 8}, "All 8 planned tasters answered."},
		{"one, alone", outcome.Attendance{Planned: 1, Answered: 1}, "The one planned taster answered."},
		{"one away", outcome.Attendance{Planned: 8, Answered: 7, Away: 1}, "7 of the 8 planned tasters answered; one was away."},
		{"everything", outcome.Attendance{Planned: 8, Answered: 4, Away: 2, Left: 1}, "4 of the 8 planned tasters answered; 2 were away, one left before the end and 2 gave no answer."},
		{"one came late", outcome.Attendance{Planned: 10, Answered: 9, Away: 1, Late: 1}, "9 of the 10 planned tasters answered; one was away. One more came late and answered."},
		{"left only", outcome.Attendance{Planned: 2, Answered: 2, Left: 1}, "2 of the 2 planned tasters answered; one left before the end."},
	} {
		if got := row.a.Say(); got != row.want {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}

// TestWhoAnsweredIsCounted takes a closed tasting of the demo and lets one who
// answered leave, one not come, and one seat stay without a name.
func TestWhoAnsweredIsCounted(t *testing.T) {
	b, r := demoBook(t)
	for _, x := range b.TastingsOf(r.ID) {
		if x.State != recipes.TastingClosed {
			continue
		}
		was := outcome.AttendanceOf(b, x)
		c := *x
		c.Seats = append(slices.Clone(x.Seats), recipes.Seat{Number: 90, Panelist: "nobody", Away: "ill"}, recipes.Seat{Number: 91},
			recipes.Seat{Number: 92, Away: "left empty"}, recipes.Seat{Number: 93, Panelist: "late", Late: true})
		c.Seats[0].Away = "had to go"
		want := outcome.Attendance{Planned: was.Planned + 2, Answered: was.Answered, Away: was.Away + 1, Left: was.Left + 1}
		if got := outcome.AttendanceOf(b, &c); got != want || was.Answered < 2 {
			t.Errorf("%s: %+v, before %+v", x.Date, got, was)
		}
	}
}
