package tasting

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"parewell/recipes"
	"parewell/recipes/words"
)

// late makes an answer a correction of a closed tasting: s takes the place of all
// that counted of the cup, and what it replaces is told. No notes: nothing differs.
// What came another way and says otherwise is kept, but counts no more.
func late(b *recipes.Book, t *recipes.Tasting, a Answer, s *recipes.Serving, c *recipes.Change) []recipes.LateNote {
	before := map[string]float64{}
	for _, x := range counting(b, t, s) {
		maps.Copy(before, x.Scores)
		if s.Note == "" && x.Source == s.Source {
			s.Note = x.Note
		}
	}
	given := s.Scores
	s.Scores = maps.Clone(before)
	maps.Copy(s.Scores, given)
	delete(s.Scores, a.Gone)
	notes := lateNotes(t, a, before, s.Scores)
	if len(notes) == 0 {
		return nil
	}
	for _, x := range counting(b, t, s) {
		if x.Source != s.Source && !maps.Equal(x.Scores, s.Scores) {
			n := *x
			n.Dropped = words.Say("tasting.dropped.late")
			put(c, x, &n)
		}
	}
	return notes
}

// counting are the entries that count of the cup, or tray, of an answer.
func counting(b *recipes.Book, t *recipes.Tasting, s *recipes.Serving) []*recipes.Serving {
	return slices.DeleteFunc(b.Servings(t.ID), func(x *recipes.Serving) bool {
		return !x.Counts() || x.Panelist != s.Panelist || x.Sample != s.Sample || x.Date != s.Date
	})
}

// lateNotes says of each question that is answered otherwise what was said and
// what is. They name a seat, never a person.
func lateNotes(t *recipes.Tasting, a Answer, before, after map[string]float64) []recipes.LateNote {
	var out []recipes.LateNote
	for _, q := range append(Questions(t), Closing(t, t.Seat(a.Seat))...) {
		was, had := before[q.Key]
		is, has := after[q.Key]
		if q.Whole != (a.Code == 0) || had == has && was == is {
			continue
		}
		n := recipes.LateNote{At: a.At, What: words.Say("late.tray", a.Seat, q.Label), Why: strings.TrimSpace(a.Why)}
		if a.Code != 0 {
			n.What = words.Say("late.cup", a.Seat, a.Code, q.Label)
		}
		if had {
			n.Was = q.Text(was)
		}
		if has {
			n.Is = q.Text(is)
		}
		out = append(out, n)
	}
	return out
}

// Text is an answer as a person reads it: a figure or code, or the words of an
// option.
func (q *Question) Text(v float64) string {
	switch {
	case q.Kind == AskCode && v == 0 && q.Nothing != "":
		return q.Nothing
	case q.Kind == AskYesNo && int(v) >= 0 && int(v) < len(q.Options):
		return q.Options[int(v)]
	}
	return words.Trim(v, 2)
}

// lateLabel says how many answers were entered, and how many changed or taken
// away.
func lateLabel(notes []recipes.LateNote) words.Phrase {
	changed := 0
	for _, n := range notes {
		if n.Was != "" {
			changed++
		}
	}
	switch entered := len(notes) - changed; {
	case changed == 0:
		return words.P("did.late-entered", entered)
	case entered == 0:
		return words.P("did.late-changed", changed)
	default:
		return words.P("did.late-both", len(notes))
	}
}

// scoresLabel says whether ballots were entered, or answers that stood there
// changed.
func scoresLabel(c recipes.Change, ballots int) words.Phrase {
	for _, e := range c.Edits {
		old, _ := e.Before.(*recipes.Serving)
		now, _ := e.After.(*recipes.Serving)
		if old == nil || now == nil {
			continue
		}
		for k, v := range old.Scores {
			if x, has := now.Scores[k]; !has || x != v {
				return words.P("did.scores-changed", ballots)
			}
		}
	}
	return words.P("did.scores", ballots)
}

// withoutName takes the reasons that name somebody out of the corrections.
func withoutName(notes []recipes.LateNote, name string) []recipes.LateNote {
	out := slices.Clone(notes)
	for i := range out {
		said := strings.FieldsFunc(out[i].Why, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
		if slices.ContainsFunc(said, func(s string) bool { return strings.EqualFold(s, name) }) {
			out[i].Why = ""
		}
	}
	return out
}
