package outcome

import (
	"maps"
	"math"
	"time"

	"parewell/recipes"
	"parewell/recipes/words"
)

// everybody is the Book with nobody's scores of a tasting set aside, and who was;
// none where everybody counts.
func everybody(b *recipes.Book, t *recipes.Tasting) (*recipes.Book, []Aside) {
	var c recipes.Change
	var out []Aside
	for _, s := range t.Seats {
		p := b.Panelist(s.Panelist)
		if p == nil || p.Aside[t.ID] == "" {
			continue
		}
		out = append(out, Aside{t.ID, p.Code, p.Aside[t.ID], p.AsideOn[t.ID]})
		n := *p
		n.Aside = maps.Clone(p.Aside)
		delete(n.Aside, t.ID)
		c.Edits = append(c.Edits, recipes.Edit{Before: p, After: &n})
	}
	if len(out) == 0 {
		return b, nil
	}
	all, err := b.With(c)
	if err != nil {
		return b, out // without it the sentence only lacks what moved
	}
	return all, out
}

// AsideNote says in one sentence whose scores are left out and why, how that moved
// the answer about an attribute, and how to count them again; empty where
// everybody counts.
func (s *Sitting) AsideNote(attribute string) string {
	if len(s.Aside) == 0 {
		return ""
	}
	var who []string
	for _, a := range s.Aside {
		who = append(who, words.Say("outcome.left-out.who", a.Taster, a.reason()))
	}
	moves := s.moves(attribute)
	switch {
	case len(moves) > 0 && s.Report != nil:
		return words.Say("outcome.left-out.moved", words.Join(who), words.Join(moves), words.Say("results.take-back"))
	case len(moves) > 0:
		return words.Say("outcome.left-out.counts", words.Join(who), words.Join(moves))
	}
	return words.Say("outcome.left-out", words.Join(who))
}

// AsideHead says beside an answer whose answers it does not count, and since when;
// "" where everybody's counts.
func (s *Sitting) AsideHead() string {
	if s == nil || len(s.Aside) == 0 {
		return ""
	}
	var who []string
	for _, a := range s.Aside {
		if day, err := time.Parse(time.DateOnly, a.On); err == nil {
			who = append(who, words.Say("outcome.aside-head.on", a.Taster, words.Day(day)))
		} else {
			who = append(who, a.Taster)
		}
	}
	return words.Say("outcome.aside-head", words.Join(who))
}

// moves says how each answer was with everybody counted, and is.
func (s *Sitting) moves(attribute string) []string {
	all := s.everybody
	if all == nil {
		return nil
	}
	if s.Counted != nil && all.Counted != nil {
		return []string{words.Say("outcome.left-out.right", all.Counted.Correct, all.Counted.N, s.Counted.Correct, s.Counted.N)}
	}
	var out []string
	was, now := all.against(attribute), s.against(attribute)
	for _, name := range s.Names {
		v, ok := now[name]
		if before, had := was[name]; ok && had && !math.IsNaN(v) && !math.IsNaN(before) {
			out = append(out, words.Say("outcome.left-out.move", name, words.Signed(before, 2), words.Signed(v, 2)))
			delete(now, name) // a second pot has the same name
		}
	}
	return out
}

// against are the differences of the versions from the original.
func (s *Sitting) against(attribute string) map[string]float64 {
	out := map[string]float64{}
	if s.Report == nil {
		return out
	}
	for _, r := range s.Report.Results {
		if r.Attribute != attribute {
			continue
		}
		for _, x := range r.AgainstOriginal {
			out[x.Sample] = float64(x.Difference)
		}
	}
	return out
}
