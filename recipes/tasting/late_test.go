package tasting_test

import (
	"fmt"
	"testing"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// A score after closing needs a reason, and tells what it replaces.
func TestALateScoreIsACorrectionThatTellsWhatItReplaces(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(tasting.Begin("t"))
	k.do(tasting.Record("t", k.id, tasting.Answer{Seat: 2, Code: 482, Scores: map[string]float64{"Overall": 6, "Salt": 3}, Source: recipes.FromPhone}))
	k.do(tasting.Close("t", "2026-03-04T21:00:00Z", "the oven failed"))
	late := tasting.Answer{Seat: 2, Code: 482, Scores: map[string]float64{"Overall": 8}, Source: recipes.FromPaper, At: "2026-03-05T09:00:00Z"}
	wantError(t, k.try(tasting.Record("t", k.id, late)), "needs a reason")
	for _, row := range []struct {
		name     string
		code     int
		scores   map[string]float64
		gone     string
		was, is  string
		label    string
		overall  float64
		counting int
	}{
		{"changed, beside what came by phone", 482, map[string]float64{"Overall": 8}, "", "6", "8", "Changed an answer after closing", 8, 1},
		{"the same again", 482, map[string]float64{"Overall": 8}, "", "", "", "", 8, 1},
		{"entered", 619, map[string]float64{"Overall": 5}, "", "", "5", "Entered an answer after closing", 5, 1},
		{"taken away", 619, map[string]float64{}, "Overall", "5", "", "Changed an answer after closing", 0, 1},
	} {
		had := len(k.book.Tasting("t").Late)
		a := late
		a.Code, a.Scores, a.Gone, a.Why = row.code, row.scores, row.gone, "AB misread the sheet"
		c, err := tasting.Record("t", k.id, a)(k.book)
		if err != nil {
			t.Fatal(row.name, err)
		}
		k.do(tasting.Record("t", k.id, a))
		notes := k.book.Tasting("t").Late[had:]
		if row.label == "" {
			if !c.Empty() || len(notes) > 0 {
				t.Errorf("%s: %+v", row.name, notes)
			}
			continue
		}
		want := recipes.LateNote{At: a.At, What: fmt.Sprintf("Seat 2, cup %d: Overall", row.code), Was: row.was, Is: row.is, Why: a.Why}
		if len(notes) != 1 || notes[0] != want || c.Label.String() != row.label {
			t.Errorf("%s: %+v, %s", row.name, notes, c.Label)
		}
		n := 0
		for _, s := range k.book.Servings("t") {
			if s.Counts() && k.book.Sample("t", s.Sample).Code == fmt.Sprint(row.code) {
				n++
				if s.Scores["Overall"] != row.overall || row.code == 482 && s.Scores["Salt"] != 3 || !s.Late {
					t.Errorf("%s: %+v counts", row.name, s)
				}
			}
		}
		if n != row.counting {
			t.Errorf("%s: %d entries count", row.name, n)
		}
	}
	k.do(tasting.RemoveTaster("AB"))
	for _, n := range k.book.Tasting("t").Late {
		if n.Why != "" {
			t.Errorf("a removed taster is still named: %q", n.Why)
		}
	}
}

func TestTypingOverAScoreIsCalledAChange(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(tasting.Begin("t"))
	for _, row := range []struct {
		scores map[string]float64
		label  string
	}{
		{map[string]float64{"Overall": 6}, "Entered 1 ballot"},
		{map[string]float64{"Overall": 6, "Salt": 3}, "Entered 1 ballot"},
		{map[string]float64{"Overall": 7, "Salt": 3}, "Changed a ballot"},
		{map[string]float64{"Salt": 3}, "Changed a ballot"},
	} {
		v := tasting.Record("t", k.id, tasting.Answer{Seat: 2, Code: 482, Scores: row.scores, Source: recipes.FromPaper})
		if c, err := v(k.book); err != nil || c.Label.String() != row.label {
			t.Errorf("%v: %s, want %s", row.scores, c.Label, row.label)
		}
		k.do(v)
	}
}
