package outcome_test

import (
	"strings"
	"testing"

	"parewell/analysis/outcome"
	"parewell/recipes"
	"parewell/recipes/tasting"
)

// Samples that were served much cooler, or had stood much longer, than others are
// named; what is near, or not written down, is not.
func TestSamplesThatDifferInNoSwapAreNamed(t *testing.T) {
	for _, row := range []struct {
		name       string
		heat, held [2]float64
		want       []string
	}{
		{"nothing written down", [2]float64{}, [2]float64{}, nil},
		{"one written down", [2]float64{62, 0}, [2]float64{40, 0}, nil},
		{"near", [2]float64{62, 57}, [2]float64{20, 35}, nil},
		{"cooler", [2]float64{62, 56}, [2]float64{20, 20}, []string{"A was served at 56 °C and the original at 62 °C"}},
		{"stood longer", [2]float64{60, 60}, [2]float64{5, 25}, []string{"the original stood for 5 minutes", "A for 25"}},
	} {
		for _, test := range []string{recipes.TestLiking, "triangle"} {
			h := newHall(t, 6)
			h.hold("t", test, 6, func(seat *recipes.Seat) []tasting.Answer {
				if test == "triangle" {
					return []tasting.Answer{{Scores: map[string]float64{recipes.AskChoice: float64(seat.Cups[0].Code)}}}
				}
				var out []tasting.Answer
				for i, c := range seat.Cups {
					out = append(out, tasting.Answer{Code: c.Code, Scores: map[string]float64{"Overall": float64(5 + (i+seat.Number)%3)}})
				}
				return out
			})
			var c recipes.Change
			for i, id := range []recipes.ID{"to", "ta"} {
				s := *h.book.Sample("t", id)
				s.Celsius, s.Held = row.heat[i], row.held[i]
				c.Edits = append(c.Edits, recipes.Edit{Before: h.book.Sample("t", id), After: &s})
			}
			h.do(func(*recipes.Book) (recipes.Change, error) { return c, nil })
			s, err := outcome.SittingOf(h.book, "t")
			if err != nil {
				t.Fatal(err)
			}
			says := strings.Join(s.Notes("Overall"), " ")
			if (len(row.want) > 0) != strings.Contains(says, "no swap") {
				t.Errorf("%s, %s: %q", row.name, test, says)
			}
			for _, want := range row.want {
				if !strings.Contains(strings.ToLower(says), strings.ToLower(want)) {
					t.Errorf("%s, %s: %q lacks %q", row.name, test, says, want)
				}
			}
		}
	}
}
