package book

import (
	"parewell/analysis/outcome"
	"parewell/recipes/words"
)

// Care is what has to stand beside every range that rests on the tastings of a pool:
// that results were seen early, that tasters knew, and which dishes, named as once
// names them, were not cooked twice.
func Care(p *outcome.Pool, once []string) []string {
	var out []string
	if p.Peeked {
		out = append(out, words.Say("book.tested.peeked"))
	}
	if p.TastersKnew() {
		out = append(out, words.Say("book.tested.knew"))
	}
	if len(once) > 0 {
		out = append(out, words.Say("book.care.one-pot", words.Join(once)))
	}
	return out
}

// care is Care for the drawer's recipe, none before it was tasted.
func (d *drawer) care() []string {
	if d.tasted == nil {
		return nil
	}
	once := d.tasted.pool.CookedOnce()
	for i, name := range once {
		letter, full, _ := d.sample(name)
		if once[i] = letter; letter == "" {
			once[i] = full
		}
	}
	return Care(d.tasted.pool, once)
}
