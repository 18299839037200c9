package sheets

import (
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/words"
)

func TestNotebook(t *testing.T) {
	at := func(day, hour int) time.Time { return time.Date(2026, 3, day, hour, 5, 0, 0, time.UTC) }
	s := Notebook([]recipes.HistoryEntry{
		{Seq: 1, At: at(4, 9), Origin: recipes.ByImport, State: recipes.HistoryKept, Label: words.P("did.add-recipe", "Gratin")},
		{Seq: 2, At: at(5, 10), Origin: recipes.ByCook, State: recipes.HistoryDone, Label: words.P("did.brief")},
		{Seq: 3, At: at(5, 11), Origin: recipes.ByCook, State: recipes.HistoryUndone, Label: words.P("did.headnote")},
	}, time.UTC)
	want := []struct {
		band      bool
		label     string
		what, who string
		struck    bool
	}{
		{true, "5 Mar 2026", "", "", false},
		{false, "11:05", "Rewrote the headnote", "you, undone", true},
		{false, "10:05", "Changed the brief", "you", false},
		{true, "4 Mar 2026", "", "", false},
		{false, "09:05", "Added Gratin", "import", false},
	}
	if len(s.Rows) != len(want) {
		t.Fatalf("%d rows, want %d", len(s.Rows), len(want))
	}
	for i, w := range want {
		r := s.Rows[i]
		if r.Band != w.band || r.Label.Text != w.label {
			t.Errorf("row %d: %+v", i, r)
		}
		if !w.band && (r.Cells[0].Text != w.what || r.Cells[1].Text != w.who || r.Cells[0].Struck != w.struck) {
			t.Errorf("row %d: %+v", i, r.Cells)
		}
	}
	// Late in the evening in one place is the next day in another.
	east := Notebook([]recipes.HistoryEntry{{Seq: 1, At: time.Date(2026, 3, 4, 23, 0, 0, 0, time.UTC), Label: words.P("did.brief"), Origin: recipes.ByCook}}, time.FixedZone("", 2*3600))
	if east.Rows[0].Label.Text != "5 Mar 2026" {
		t.Errorf("day %s", east.Rows[0].Label.Text)
	}
}
