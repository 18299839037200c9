package sheets

import (
	"strconv"
	"time"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Notebook lays out what was done in a recipe, the newest first, under the days
// of the place's calendar. What was undone is struck through. Entries come
// oldest first.
func Notebook(entries []recipes.HistoryEntry, place *time.Location) Sheet {
	s := Sheet{Corner: words.Say("notebook.time"), Columns: []Column{
		{Key: "what", Title: words.Say("notebook.what"), Index: -1},
		{Key: "who", Title: words.Say("notebook.who"), Index: -1},
	}}
	day := ""
	for i := len(entries) - 1; i >= 0; i-- {
		e := entries[i]
		at := e.At.In(place)
		if d := words.Day(at); d != day {
			day = d
			s.Rows = append(s.Rows, Row{Key: "day:" + d, Band: true, Label: text(d)})
		}
		undone := e.State == recipes.HistoryUndone
		what := Cell{Text: e.Label.String(), Struck: undone, Wrap: true, Bar: noBar()}
		who := Cell{Text: words.Say("notebook.origin." + string(e.Origin)), Muted: true, Bar: noBar()}
		if undone {
			who.Text = words.Say("notebook.undone", who.Text)
		}
		s.Rows = append(s.Rows, Row{
			Key: strconv.FormatInt(e.Seq, 10), Label: Cell{Text: words.Clock(at), Muted: true, Bar: noBar()}, Cells: []Cell{what, who},
		})
	}
	return s
}
