package sheets

import (
	"strconv"

	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/phone"
)

// PhoneSeats lists the seats that may answer on phones: who sits there, the code
// to hand over, how far they are.
func PhoneSeats(b *recipes.Book, t *recipes.Tasting, codes map[int]string, at map[int]phone.Progress) Sheet {
	s := Sheet{Corner: words.Say("tastings.seat"), Columns: []Column{
		{Key: "taster", Title: words.Say("tastings.taster"), Index: -1, Tight: true},
		{Key: "code", Title: words.Say("tastings.phone.code"), Index: -1, Tight: true},
		{Key: "answered", Title: words.Say("tastings.phone.answered"), Index: -1},
	}}
	for _, seat := range t.Seats {
		code, ok := codes[seat.Number]
		if !ok {
			continue
		}
		who := ""
		if p := b.Panelist(seat.Panelist); p != nil {
			who = p.Code
		}
		progress, said := at[seat.Number], text(words.Say("tastings.phone.not-joined"))
		said.Muted = true
		switch {
		case progress.Of > 0 && progress.Done == progress.Of:
			said = Cell{Text: words.Say("tastings.all-in"), Mark: Met, Bar: noBar()}
		case progress.Joined || progress.Done > 0:
			said = text(words.Say("tastings.phone.done", progress.Done, progress.Of))
		}
		s.Rows = append(s.Rows, Row{Key: strconv.Itoa(seat.Number), Label: text(strconv.Itoa(seat.Number)), Cells: []Cell{text(who), {Text: code, Strong: true, Bar: noBar()}, said}})
	}
	return s
}
