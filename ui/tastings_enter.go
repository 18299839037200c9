package ui

import (
	"maps"
	"slices"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// oneScore is one answer to one question, as it is typed or pressed. Blank takes
// it away again.
type oneScore struct {
	tasting.Answer        // without Scores
	Key            string // the question's
	Value          float64
	Blank          bool
}

// enterScore is the verb that keeps one answer beside what the same source said
// of the cup before. It joins them when its turn comes, so that answers typed in
// quick succession do not undo each other.
func enterScore(id recipes.ID, fresh func() recipes.ID, s oneScore) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		if t := b.Tasting(id); t != nil && t.State == recipes.TastingClosed {
			return correctScore(id, fresh, s)(b)
		}
		old := servingOf(b, id, s.Answer)
		a := s.Answer
		a.Scores = map[string]float64{}
		if old != nil {
			a.Scores, a.Note = maps.Clone(old.Scores), old.Note
		}
		switch {
		case !s.Blank:
			a.Scores[s.Key] = s.Value
		case old == nil:
			return recipes.Change{}, nil
		default:
			delete(a.Scores, s.Key)
		}
		if len(a.Scores) == 0 && a.Note == "" && old != nil {
			return tasting.Clear(id, old.ID)(b)
		}
		return tasting.Record(id, fresh, a)(b)
	}
}

// correctScore is the verb for a closed tasting: what was said of the cup before
// stays but for the one answer.
func correctScore(id recipes.ID, fresh func() recipes.ID, s oneScore) recipes.Verb {
	a := s.Answer
	a.Scores = map[string]float64{s.Key: s.Value}
	if s.Blank {
		a.Scores, a.Gone = nil, s.Key
	}
	return tasting.Record(id, fresh, a)
}

// servingOf finds what a source said of a seat's cup so far, nil for nothing.
func servingOf(b *recipes.Book, id recipes.ID, a tasting.Answer) *recipes.Serving {
	t := b.Tasting(id)
	if t == nil || t.Seat(a.Seat) == nil {
		return nil
	}
	seat := t.Seat(a.Seat)
	var sample recipes.ID
	if a.Code != 0 {
		i := slices.IndexFunc(seat.Cups, func(c recipes.Cup) bool { return c.Code == a.Code })
		if i < 0 {
			return nil
		}
		sample = seat.Cups[i].Sample
	}
	for _, s := range b.Servings(id) {
		if s.Panelist == seat.Panelist && s.Sample == sample && s.Source == a.Source && s.Date == a.Date {
			return s
		}
	}
	return nil
}
