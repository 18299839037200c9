package outcome_test

import (
	"strings"
	"testing"

	"parewell/analysis/outcome"
	"parewell/recipes"
	"parewell/recipes/tasting"
)

// Whoever is left out is named with the reason, what that moved, and the way back;
// the answer before is that of the same tasting with everybody counted.
func TestLeavingSomebodyOutSaysWhatItMoved(t *testing.T) {
	h := newHall(t, 8)
	h.hold("t", recipes.TestLiking, 8, func(seat *recipes.Seat) []tasting.Answer {
		var out []tasting.Answer
		for _, c := range seat.Cups {
			v := 7.0
			if strings.HasSuffix(string(c.Sample), "a") {
				v = 6
				if seat.Number == 1 {
					v = 2
				}
			}
			out = append(out, tasting.Answer{Code: c.Code, Scores: map[string]float64{"Overall": v - float64(seat.Number%2)}})
		}
		return out
	})
	s, err := outcome.SittingOf(h.book, "t")
	if err != nil || s.AsideNote("Overall") != "" {
		t.Fatal(err, s.AsideNote("Overall"))
	}
	who := h.book.Tasting("t").Seat(1).Panelist
	h.do(tasting.SetAside("t", who, "had a cold", "2026-03-05"))
	if s, err = outcome.SittingOf(h.book, "t"); err != nil {
		t.Fatal(err)
	}
	// Eight drops, seven of 1 and one of 5: -1.50 with everybody, -1.00 without.
	want := "These results leave out " + h.book.Panelist(who).Code + " (had a cold; set aside on 5 Mar 2026), which moves A from –1.50 to –1.00 points against the original; choose the taster under “The tasters” and “Take back in” counts the scores again."
	if got := s.AsideNote("Overall"); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if notes := s.Notes("Overall"); notes[0] != want || strings.Contains(strings.Join(notes, " "), "model") {
		t.Errorf("%q", notes)
	}
}
