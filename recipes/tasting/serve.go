package tasting

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Begin starts to serve: from here on each sample is frozen as it is, and only a
// correction of the record changes what it was. It refuses while anything of
// safety is open, and cannot be undone.
func Begin(id recipes.ID) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, id)
		if err != nil {
			return recipes.Change{}, err
		}
		if err := notBegun(t); err != nil {
			return recipes.Change{}, err
		}
		samples := b.Samples(id)
		if err := fits(t, samples); err != nil {
			return recipes.Change{}, err
		}
		if err := safe(b, t, samples); err != nil {
			return recipes.Change{}, err
		}
		r := b.Recipe(t.Recipe)
		n := *Ready(b, t)
		n.State, n.Edition = recipes.TastingServing, r.Edition
		c := did(t, "did.begin-tasting", t.Date)
		c.Final = true
		put(&c, t, &n)
		for _, s := range samples {
			m := *s
			if s.Dish == "" {
				m.Served = b.ServedRecord(r, b.Version(r.ID, s.Version))
			} else {
				m.Served = &recipes.Served{}
			}
			put(&c, s, &m)
		}
		return c, nil
	}
}

// safe refuses to begin with the first thing that stands against it.
func safe(b *recipes.Book, t *recipes.Tasting, samples []*recipes.Sample) error {
	if len(t.Seats) == 0 || !slices.ContainsFunc(t.Seats, func(s recipes.Seat) bool { return s.Panelist != "" }) {
		return refuse(t.Date, "error.tasting-nobody")
	}
	s := Check(b, t, samples)
	if len(s.Unknown) > 0 {
		return problem.New(t.Date, words.Say("error.tasting-unknown", words.Join(s.Unknown)), words.Say("error.tasting-unknown.hint"))
	}
	for _, x := range s.Seats {
		if err := x.leftOut(t.Test); err != nil {
			return err
		}
		for _, p := range x.Ask {
			return problem.New(words.Say("tasting.seat", x.Seat), p.String(), words.Say("error.tasting-safety.hint"))
		}
	}
	return nil
}

// Seat puts a taster on a seat (nobody, when empty). After serving began she must
// be safe, and nobody who has answered is moved.
func Seat(id recipes.ID, number int, panelist recipes.ID) recipes.Verb {
	return editTasting(id, "did.seat", notClosed, func(b *recipes.Book, t *recipes.Tasting) error {
		seat := t.Seat(number)
		if seat == nil {
			return gone("error.seat-gone")
		}
		if answered(b, t, seat.Panelist) && panelist != seat.Panelist {
			return refuse(words.Say("tasting.seat", number), "error.seat-answered")
		}
		t.Seats = slices.Clone(t.Seats)
		t.Seat(number).Panelist = panelist
		if panelist != "" {
			t.Seat(number).Away = "" // it was left empty
		}
		if t.State == recipes.TastingServing && panelist != "" {
			return safe(b, t, b.Samples(id))
		}
		return nil
	})
}

// LeaveEmpty takes a taster off her seat before she has answered: it has no tray,
// no papers and is not cooked for, until somebody else sits there.
func LeaveEmpty(id recipes.ID, number int) recipes.Verb {
	return editTasting(id, "did.seat-empty", notClosed, func(b *recipes.Book, t *recipes.Tasting) error {
		seat := t.Seat(number)
		if seat == nil {
			return gone("error.seat-gone")
		}
		if answered(b, t, seat.Panelist) {
			return refuse(words.Say("tasting.seat", number), "error.seat-answered")
		}
		t.Seats = slices.Clone(t.Seats)
		t.Seat(number).Panelist, t.Seat(number).Away = "", words.Say("tasting.left-empty")
		return nil
	})
}

func answered(b *recipes.Book, t *recipes.Tasting, panelist recipes.ID) bool {
	return panelist != "" && slices.ContainsFunc(b.Servings(t.ID), func(s *recipes.Serving) bool { return s.Panelist == panelist })
}

// Away records that a taster did not come or left, and why; an empty reason takes
// it back. What she has answered stays, her tray keeps its codes.
func Away(id recipes.ID, number int, why string) recipes.Verb {
	return editTasting(id, "did.away", notClosed, func(_ *recipes.Book, t *recipes.Tasting) error {
		if t.Seat(number) == nil {
			return gone("error.seat-gone")
		}
		t.Seats = slices.Clone(t.Seats)
		t.Seat(number).Away = strings.TrimSpace(why)
		return nil
	})
}

// MoreSeats adds trays for tasters who come late (see analysis/sensory's
// Design.Append); their codes are those in use.
func MoreSeats(id recipes.ID, seats []recipes.Seat) recipes.Verb {
	return editTasting(id, "did.more-seats", notClosed, func(b *recipes.Book, t *recipes.Tasting) error {
		late := slices.Clone(seats)
		for i := range late {
			late[i].Late = t.State == recipes.TastingServing
		}
		t.Seats = slices.Concat(t.Seats, late)
		if t.State == recipes.TastingServing {
			return safe(b, t, b.Samples(id))
		}
		return nil
	})
}

// Close ends a tasting: it becomes final and its results are opened. Answers that
// are missing need a reason, and scores that disagree a choice, first. at is the
// instant (RFC 3339).
func Close(id recipes.ID, at, early string) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, id)
		if err != nil {
			return recipes.Change{}, err
		}
		if t.State != recipes.TastingServing {
			return recipes.Change{}, refuse(t.Date, "error.tasting-not-serving")
		}
		if d := Disagreements(b, t); len(d) > 0 {
			return recipes.Change{}, problem.New(t.Date, words.Say("error.tasting-disagree", len(d)), words.Say("error.tasting-disagree.hint"))
		}
		if early = strings.TrimSpace(early); early == "" && Blind(t) {
			if n := len(Missing(b, t)); n > 0 {
				return recipes.Change{}, problem.New(t.Date, words.Say("error.tasting-missing", n), words.Say("error.tasting-missing.hint"))
			}
		}
		n := *t
		n.State, n.Closed, n.Early = recipes.TastingClosed, at, early
		c := did(t, "did.close-tasting", t.Date)
		c.Final = true
		put(&c, t, &n)
		return c, nil
	}
}
