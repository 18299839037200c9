package ui

import (
	"strconv"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// seatChoices are the seats that keep tells of, as a list to pick from.
func (w *Window) seatChoices(t *recipes.Tasting, keep func(recipes.Seat) bool) []parts.Suggestion {
	var out []parts.Suggestion
	for i := range t.Seats {
		if keep(t.Seats[i]) {
			out = append(out, parts.Suggestion{Key: strconv.Itoa(t.Seats[i].Number), Text: sheets.SeatName(w.book(), &t.Seats[i])})
		}
	}
	return out
}

func (w *Window) tasterChoices(t *recipes.Tasting) []parts.Suggestion {
	var out []parts.Suggestion
	for _, p := range sheets.FreeTasters(w.book(), t) {
		out = append(out, parts.Suggestion{Key: p[0], Text: p[1]})
	}
	return out
}

// doInDialog runs a verb; a refusal is shown in the dialog, which stays open.
// Done, it closes, and then runs.
func (w *Window) doInDialog(v recipes.Verb, d **parts.Dialog, row *parts.FormRow, then func()) {
	w.desk.Do(v, func(err error) {
		if err != nil {
			row.SetError(err.Error())
			return
		}
		(*d).Close()
		then()
	})
}

// stayedAway asks who stayed away or left, and why. number picks the seat, 0 none.
func (w *Window) stayedAway(t *recipes.Tasting, number int) {
	seats := w.seatChoices(t, func(s recipes.Seat) bool { return s.Panelist != "" && s.Away == "" })
	who := parts.NewPicker(seats, strconv.Itoa(number), words.Say("tastings.pick-seat"), nil)
	why := parts.NewEntry("", words.Say("tastings.away.hint"), nil)
	w.pin("tastings.away.who", who)
	w.pin("tastings.away.why", why)
	f := parts.NewForm()
	row := f.Row(words.Say("tastings.seat"), who, "", "")
	reason := f.Row(words.Say("tastings.away.why"), why, "", words.Say("tastings.away.help"))
	var d *parts.Dialog
	d = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tastings.away"), Content: f, First: why, Confirm: words.Say("button.save"), Cancel: words.Say("button.cancel"), Width: 520,
		OnOK: func() bool {
			seat, _ := strconv.Atoi(who.Key())
			switch {
			case seat == 0:
				row.SetError(words.Say("tastings.pick-seat"))
			case sheets.Blank(why.Text):
				reason.SetError(words.Say("tastings.away.wrong"))
				w.win.Canvas().Focus(why)
			default:
				w.doInDialog(tasting.Away(t.ID, seat, why.Text), &d, reason, func() {})
			}
			return false
		},
	})
	why.OnSubmitted = func(string) { d.Confirm() }
}

// seatSomebody puts a taster on a seat where nobody sits.
func (w *Window) seatSomebody(t *recipes.Tasting, number int) {
	seats := w.seatChoices(t, func(s recipes.Seat) bool { return s.Panelist == "" })
	if number == 0 && len(seats) > 0 {
		number, _ = strconv.Atoi(seats[0].Key)
	}
	seat := parts.NewPicker(seats, strconv.Itoa(number), words.Say("tastings.pick-seat"), nil)
	w.askTaster(t, words.Say("tastings.seat-somebody"), seat, func(who recipes.ID) recipes.Verb {
		n, _ := strconv.Atoi(seat.Key())
		return tasting.Seat(t.ID, n, who)
	}, func(recipes.ID) {})
}

// lateTaster lays a new place for somebody who comes late: a tray with the codes
// in use, in the order that keeps the orders even.
func (w *Window) lateTaster(t *recipes.Tasting) {
	w.askTaster(t, words.Say("tastings.late-taster"), nil, func(who recipes.ID) recipes.Verb {
		return func(b *recipes.Book) (recipes.Change, error) {
			seats, err := lateSeat(b, b.Tasting(t.ID), who)
			if err != nil {
				return recipes.Change{}, err
			}
			return tasting.MoreSeats(t.ID, seats)(b)
		}
	}, func(who recipes.ID) {
		if now := w.book().Tasting(t.ID); now != nil && now.SeatOf(who) != nil {
			w.latePapers(now, now.SeatOf(who).Number)
		}
	})
}

// latePapers says that a place laid late is on none of the papers printed before,
// and leads to its own.
func (w *Window) latePapers(t *recipes.Tasting, seat int) {
	var d *parts.Dialog
	d = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: words.Say("tastings.late.seat", seat), Content: parts.NewText(words.Say("tastings.late.papers", seat)), Width: 520,
		Confirm: words.Say("tastings.papers"), Cancel: words.Say("tastings.late.papers.later"),
		OnOK: func() bool {
			d.Close() // before the next opens: each gives the keys back to the one before
			w.printSeat(t, seat)
			return false
		},
	})
}

// lateSeat designs one more tray. What a late taster does not eat is not on it.
func lateSeat(b *recipes.Book, t *recipes.Tasting, who recipes.ID) ([]recipes.Seat, error) {
	var ids []recipes.ID
	for _, s := range tasting.InOrder(b, t.ID) {
		ids = append(ids, s.ID)
	}
	d, err := sensory.Unserved(t, ids).Append(1)
	if err != nil {
		return nil, err
	}
	people := make([]recipes.ID, len(t.Seats), len(t.Seats)+1)
	seats := d.Seats(ids, append(people, who))
	n := *t
	n.Seats = seats[len(t.Seats):]
	return tasting.Ready(b, &n).Seats, nil
}

// askTaster asks which taster sits down. extra is one more thing to choose, nil
// for none; what stands against her is shown in the dialog. seated runs once she sits.
func (w *Window) askTaster(t *recipes.Tasting, title string, extra *parts.Picker, verb func(recipes.ID) recipes.Verb, seated func(recipes.ID)) {
	who := parts.NewPicker(w.tasterChoices(t), "", words.Say("tastings.pick-taster"), nil)
	w.pin("tastings.taster", who)
	f := parts.NewForm()
	if extra != nil {
		w.pin("tastings.seat.pick", extra)
		f.Row(words.Say("tastings.seat"), extra, "", "")
	}
	row := f.Row(words.Say("tastings.taster"), who, "", words.Say("tastings.pick-taster.help"))
	fresh := w.pin("tastings.taster.new", parts.NewButton(parts.Plain, "add", words.Say("tasters.add"), nil))
	var d *parts.Dialog
	fresh.(*parts.Button).OnPress = func() {
		d.Close()
		w.tasterForm(&recipes.Panelist{ID: w.newID()}, true, func(recipes.ID) { w.askTaster(t, title, extra, verb, seated) })
	}
	d = parts.ShowDialog(w.win, parts.DialogOptions{
		Title: title, Content: parts.Rows(parts.GapSmall, f, parts.Line(0, parts.Spring(), fresh)), First: who,
		Confirm: words.Say("tastings.sit-down"), Cancel: words.Say("button.cancel"), Width: 540,
		OnOK: func() bool {
			if who.Key() == "" {
				row.SetError(words.Say("tastings.pick-taster"))
				return false
			}
			id := recipes.ID(who.Key())
			w.doInDialog(verb(id), &d, row, func() { seated(id) })
			return false
		},
	})
}
