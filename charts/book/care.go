package book

import (
	"slices"

	"parewell/analysis/outcome"
	"parewell/recipes/words"
)

// care is what has to stand beside every range that rests on the tastings: that
// results were seen early, that tasters knew, and whose pots were not cooked twice.
func (d *drawer) care() []string {
	if d.tasted == nil {
		return nil
	}
	var out []string
	p := d.tasted.pool
	if p.Peeked {
		out = append(out, words.Say("book.tested.peeked"))
	}
	if slices.ContainsFunc(p.Knew, func(k outcome.Knew) bool { return k.Told() }) {
		out = append(out, words.Say("book.tested.knew"))
	}
	if once := d.cookedOnce(); len(once) > 0 {
		out = append(out, words.Say("book.care.one-pot", words.Join(once)))
	}
	return out
}

// cookedOnce are the samples that were scored from one pot only.
func (d *drawer) cookedOnce() []string {
	pots := map[string]map[string]bool{}
	for i := range d.tasted.pool.Table.Scores {
		s := &d.tasted.pool.Table.Scores[i]
		if pots[s.Sample] == nil {
			pots[s.Sample] = map[string]bool{}
		}
		pots[s.Sample][s.Tasting+"/"+s.Pot] = true
	}
	var out []string
	for _, name := range d.tasted.pool.Table.Samples() {
		if len(pots[name]) != 1 {
			continue
		}
		if letter, full, _ := d.sample(name); letter != "" {
			out = append(out, letter)
		} else {
			out = append(out, full)
		}
	}
	return out
}
