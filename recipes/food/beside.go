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

// offer cuts a list of alternatives to what Match gives.
func (t *Table) offer(hits []Hit) []Hit { return hits[:min(len(hits), maxOthers)] }
