package outcome

import (
	"cmp"
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// Original is the name of the original among the pool's samples; "" when it was
// not served.
func (p *Pool) Original() string {
	if slices.Contains(p.Table.Samples(), Original()) {
		return Original()
	}
	return ""
}

// Notes are the sentences about the tastings themselves that every result has to
// carry: who was set aside, that tasters knew, corrections after closing, evenings
// that ended early.
func (p *Pool) Notes() []string {
	var out []string
	for _, a := range p.Aside {
		out = append(out, words.Say("outcome.aside", a.Taster, p.Book.Tasting(a.Tasting).Date, a.reason()))
	}
	return append(out, p.notes()...)
}

// Notes are the same of one sitting, for one of what was asked.
func (s *Sitting) Notes(attribute string) []string {
	var out []string
	if note := s.AsideNote(attribute); note != "" {
		out = append(out, note)
	}
	if s.Pool != nil {
		return append(out, s.Pool.notes()...)
	}
	return append(out, s.uneven...)
}

// notes are those that are not about anybody who was set aside.
func (p *Pool) notes() []string {
	var out []string
	for i := range p.Knew {
		if k := &p.Knew[i]; k.Told() {
			out = append(out, words.Say("outcome.knew", k.Right, k.Asked, p.Book.Tasting(k.Tasting).Date))
		}
	}
	out = append(out, p.corrected()...)
	for _, t := range p.Tastings {
		out = append(out, uneven(p.Book, t)...)
		if len(t.Late) > 0 {
			out = append(out, words.Say("outcome.late", len(t.Late), t.Date))
		}
		if t.Early != "" {
			out = append(out, words.Say("outcome.early", t.Date, t.Early))
		}
	}
	return out
}

// mostCorrections is how many corrections of the record are told one by one.
const mostCorrections = 4

// corrected says what was corrected in the record of the tastings: the results
// count it as corrected, so whoever saw them before learns what moved them.
func (p *Pool) corrected() []string {
	var all []recipes.Correction
	for _, t := range p.Tastings {
		for _, c := range p.Book.Corrections(t.ID) {
			at := slices.IndexFunc(all, func(x recipes.Correction) bool {
				return x.At == c.At && x.What == c.What && x.Was == c.Was && x.Is == c.Is
			})
			if at < 0 {
				all = append(all, c)
				continue
			}
			for _, name := range c.Of {
				if !slices.Contains(all[at].Of, name) {
					all[at].Of = append(slices.Clone(all[at].Of), name)
				}
			}
		}
	}
	slices.SortStableFunc(all, func(x, y recipes.Correction) int { return strings.Compare(x.At, y.At) })
	var out []string
	for _, c := range all[max(0, len(all)-mostCorrections):] {
		slices.Sort(c.Of)
		none := words.Say("outcome.corrected.none")
		out = append(out, words.Say("outcome.corrected", words.DayOf(c.At), c.What, words.Join(c.Of), cmp.Or(c.Was, none), cmp.Or(c.Is, none), because(c.Why)))
	}
	if n := len(all) - mostCorrections; n > 0 {
		out = append(out, words.Say("outcome.corrected.more", n))
	}
	return out
}

// because puts a reason that was given behind what was done.
func because(why string) string {
	if why == "" {
		return ""
	}
	return " " + words.Say("outcome.corrected.why", why)
}
