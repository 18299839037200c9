package outcome

import (
	"slices"

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
		out = append(out, words.Say("outcome.aside", a.Taster, p.Book.Tasting(a.Tasting).Date, a.Reason))
	}
	for i := range p.Knew {
		if k := &p.Knew[i]; k.Told() {
			out = append(out, words.Say("outcome.knew", k.Right, k.Asked, p.Book.Tasting(k.Tasting).Date))
		}
	}
	for _, t := range p.Tastings {
		if len(t.Late) > 0 {
			out = append(out, words.Say("outcome.late", t.Date, len(t.Late)))
		}
		if t.Early != "" {
			out = append(out, words.Say("outcome.early", t.Date, t.Early))
		}
	}
	return out
}
