package sheets

import (
	"strings"

	"parewell/recipes/words"
	"parewell/ui/desk"
)

// Folder lays out what stands in a folder, to choose from.
func Folder(entries []desk.Entry) Sheet {
	s := Sheet{Corner: words.Say("file.name"), Columns: []Column{
		{Key: "changed", Title: words.Say("file.changed"), Index: -1},
		{Key: "size", Title: words.Say("file.size"), Number: true, Index: -1},
	}}
	for _, e := range entries {
		r := Row{Key: e.Name, Label: text(e.Name), Cells: []Cell{text(""), text("")}}
		switch {
		case e.Name == "..":
			r.Label.Text = words.Say("file.up")
		case e.Folder:
			r.Label.Text = words.Say("file.folder", e.Name)
		default:
			r.Cells = []Cell{
				{Text: words.Day(e.Changed) + "  " + words.Clock(e.Changed), Muted: true, Bar: noBar()},
				{Text: words.Say("file.kb", words.Number(float64(e.Size)/1000, 0)), Muted: true, Number: true, Bar: noBar()},
			}
		}
		s.Rows = append(s.Rows, r)
	}
	return s
}

// Starting returns the entries whose name starts as typed, at most eight.
func Starting(entries []desk.Entry, typed string) []desk.Entry {
	var out []desk.Entry
	for _, e := range entries {
		if typed != "" && e.Name != ".." && len(out) < 8 && strings.HasPrefix(strings.ToLower(e.Name), strings.ToLower(typed)) {
			out = append(out, e)
		}
	}
	return out
}
