package food

import (
	"cmp"
	"slices"
	"strings"
)

// handicap is how much better an imported food must match what is typed to stand
// before one of the table's own: as much as a common food is ahead of others.
const handicap = 1

// Beside returns a table that also finds the foods of imported: after its own
// where both match alike, and in Match only where it has no food of that name
// itself, so that importing a table never changes how a recipe is read. A food
// that both hold is the receiver's. Both tables stay as they are; imported may
// be nil.
func (t *Table) Beside(imported *Table) *Table {
	if imported == nil || imported.Len() == 0 {
		return t
	}
	return &Table{foods: t.foods, byRef: t.byRef, x: t.x, imported: imported}
}

// searchBeside puts the hits of the imported table among the table's own.
func (t *Table) searchBeside(hits []Hit, query string, limit int) []Hit {
	for _, h := range t.imported.Search(query, limit) {
		if t.byRef[h.Food.Ref] == nil {
			h.Score -= handicap
			hits = append(hits, h)
		}
	}
	slices.SortStableFunc(hits, func(a, b Hit) int { return cmp.Compare(b.Score, a.Score) })
	return hits[:min(len(hits), limit)]
}

// Match finds the food an ingredient's name means ("large free-range eggs",
// "boneless skinless chicken thighs"). confident is true only when the food's
// own name or a name for the very same food covers every telling word and no
// other food is meant as easily; it is never true for words that mean several
// foods (cream, stock, rice). others are the alternatives, likeliest first.
// best is the zero Hit when the table has no food of that name; others may then
// hold foods of a part of the name ("almond milk": milk, almonds), to choose
// from but not to count with.
func (t *Table) Match(name string) (best Hit, confident bool, others []Hit) {
	best, confident, others = t.match(name)
	switch {
	case t.imported == nil || confident:
		return best, confident, others
	case best.Food == nil:
		return t.matchBeside(name, others)
	}
	return best, false, t.offerBeside(name, others)
}

// matchBeside finds an ingredient in the imported table when the own one has no
// food of that name. Only a whole name taken from that table is sure: published
// names are not a cook's. What the own table had to offer comes after.
func (t *Table) matchBeside(name string, others []Hit) (best Hit, confident bool, all []Hit) {
	best, _, more := t.imported.Match(name)
	if best.Food == nil {
		return Hit{}, false, t.offer(append(slices.Clone(others), more...))
	}
	if at, ok := t.imported.x.own[strings.TrimSpace(fold(name))]; ok {
		confident = t.imported.foods[at] == best.Food
	}
	return best, confident, t.offer(append(slices.Clone(more), others...))
}

// offerBeside adds what the imported table takes the name for to the
// alternatives of a match that is not sure.
func (t *Table) offerBeside(name string, others []Hit) []Hit {
	best, _, _ := t.imported.Match(name)
	if best.Food == nil || t.byRef[best.Food.Ref] != nil {
		return others
	}
	return append(slices.Clone(others[:min(len(others), maxOthers-1)]), best)
}

// offer cuts a list of alternatives to what Match gives.
func (t *Table) offer(hits []Hit) []Hit { return hits[:min(len(hits), maxOthers)] }
