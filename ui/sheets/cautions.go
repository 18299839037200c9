package sheets

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/cautions"
	"parewell/recipes/words"
)

// Cautions returns the risks of column i, each once; worked out when first asked
// for.
func (x *Bench) Cautions(i int) []cautions.Caution {
	if x.cautions == nil {
		x.cautions = map[int][]cautions.Caution{}
	}
	all, ok := x.cautions[i]
	if !ok {
		all = cautions.Of(x.Accounts[i].Draft, x.book.Food)
		x.cautions[i] = all
	}
	return all
}

// CautionLine says all cautions of column i in one line, sources at their end;
// empty when there is none.
func (x *Bench) CautionLine(i int) string { return cautionLine(x.Cautions(i)) }

// cautionOf says the cautions that come from one ingredient of column i.
func (x *Bench) cautionOf(i int, line recipes.ID) string {
	var out []cautions.Caution
	for _, c := range x.Cautions(i) {
		if slices.Contains(c.Lines, line) {
			out = append(out, c)
		}
	}
	return cautionLine(out)
}

// cautionLine joins cautions of one source, so that it is named once.
func cautionLine(all []cautions.Caution) string {
	var out, said []string
	for k, c := range all {
		said = append(said, c.Say.String())
		if k+1 == len(all) || all[k+1].From.String() != c.From.String() {
			out = append(out, words.Say("cautions.line", strings.Join(said, " "), c.From.String()))
			said = nil
		}
	}
	return strings.Join(out, " ")
}
