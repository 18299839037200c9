package desk

import (
	"context"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/phone"
)

// kitchen is a tasting as the tasters' phones see it: ballots by code, answers
// that go through the desk's queue as theirs.
type kitchen struct {
	desk  *Desk
	id    recipes.ID
	fresh func() recipes.ID
}

// Kitchen returns what serves a tasting's ballots to phones. fresh draws an ID.
func (d *Desk) Kitchen(id recipes.ID, fresh func() recipes.ID) phone.Kitchen {
	return &kitchen{desk: d, id: id, fresh: fresh}
}

// Ballot returns a seat's ballot and what she answered on a phone so far.
func (k *kitchen) Ballot(seat int) (*tasting.Ballot, phone.Given, error) {
	b := k.desk.Book()
	t := b.Tasting(k.id)
	if t == nil || t.Seat(seat) == nil {
		return nil, nil, problem.New("", words.Say("error.seat-gone"), "")
	}
	s := t.Seat(seat)
	codes := map[recipes.ID]int{}
	for _, c := range s.Cups {
		codes[c.Sample] = c.Code
	}
	given := phone.Given{}
	for _, x := range b.Servings(k.id) {
		if x.Panelist == s.Panelist && s.Panelist != "" && x.Source == recipes.FromPhone {
			given[codes[x.Sample]] = phone.Said{Scores: x.Scores, Note: x.Note}
		}
	}
	return tasting.BallotOf(t, s), given, nil
}

// Save keeps an answer as the taster's own; it returns once it is on disk.
func (k *kitchen) Save(ctx context.Context, seat, code int, scores map[string]float64, note string) error {
	return k.desk.Apply(ctx, recipes.ByPanelist, func(b *recipes.Book) (recipes.Change, error) {
		if t := b.Tasting(k.id); t == nil || t.State != recipes.TastingServing {
			return recipes.Change{}, problem.New("", words.Say("error.not-serving"), "")
		}
		return tasting.Record(k.id, k.fresh, tasting.Answer{Seat: seat, Code: code, Scores: scores, Note: note, Source: recipes.FromPhone})(b)
	})
}

// Serving tells whether answers are taken.
func (k *kitchen) Serving() bool {
	t := k.desk.Book().Tasting(k.id)
	return t != nil && t.State == recipes.TastingServing
}
