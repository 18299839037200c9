package ratings

import (
	"cmp"
	"slices"
)

// layout is who got what, without scores: attributes asked of the same servings
// share it, and all that depends on it alone is worked out once.
type layout struct {
	block, sample, pot []int // by row; rows go by block, sample, pot
	position           []int
	cook, day          []int

	tastings int
	panel    []int // distinct panelist by block
	tasting  []int // by block
	samples  []string
	potOf    []int // sample by pot
	people   int

	size        []float64 // rows by block
	bySample    *layer
	byPot       *layer
	cooks, days []string
	anyPos      bool

	swapPlan *swapPlan          // of the last table of swaps asked for
	bands    map[string]float64 // critical points already worked out
}

// column is the scores of one attribute over a layout.
type column struct {
	attribute string
	*layout
	y []float64
}

// entry is one score with its names as numbers.
type entry struct {
	tasting, panelist, sample, pot, replicate, cook, day, position int
	y                                                              float64
}

// names gives texts numbers in order of appearance.
type names struct {
	at   map[string]int
	list []string
}

func newNames() *names { return &names{at: map[string]int{}} }

func (n *names) of(s string) int {
	i, ok := n.at[s]
	if !ok {
		i = len(n.list)
		n.at[s] = i
		n.list = append(n.list, s)
	}
	return i
}

// columns sorts a table into attributes (all, or the one asked for), each with a
// layout that it shares with those served alike.
func columns(t *Table, only string) []*column {
	attribute, tasting, panelist, sample := newNames(), newNames(), newNames(), newNames()
	pot, replicate, cook, day := newNames(), newNames(), newNames(), newNames()
	cook.of("")
	day.of("")
	pot.of("")
	var by [][]entry
	for i := range t.Scores {
		s := &t.Scores[i]
		if only != "" && s.Attribute != only {
			continue
		}
		a := attribute.of(s.Attribute)
		if a == len(by) {
			by = append(by, nil)
		}
		by[a] = append(by[a], entry{
			tasting.of(s.Tasting), panelist.of(s.Panelist), sample.of(s.Sample), pot.of(s.Pot), replicate.of(s.Replicate),
			cook.of(s.Cook), day.of(s.Day), s.Position, s.Value,
		})
	}
	var out []*column
	shared := map[string]*layout{}
	for a, list := range by {
		slices.SortStableFunc(list, byPlace)
		key := fingerprint(list)
		l := shared[key]
		if l == nil {
			l = newLayout(list, sample.list)
			l.cooks, l.days = cook.list, day.list
			shared[key] = l
		}
		y := make([]float64, len(list))
		for i, e := range list {
			y[i] = e.y
		}
		out = append(out, &column{attribute.list[a], l, y})
	}
	return out
}

func byPlace(a, b entry) int {
	switch {
	case a.tasting != b.tasting:
		return cmp.Compare(a.tasting, b.tasting)
	case a.panelist != b.panelist:
		return cmp.Compare(a.panelist, b.panelist)
	case a.sample != b.sample:
		return cmp.Compare(a.sample, b.sample)
	case a.pot != b.pot:
		return cmp.Compare(a.pot, b.pot)
	}
	return cmp.Compare(a.replicate, b.replicate)
}

// fingerprint is the same for lists that differ in their scores alone.
func fingerprint(list []entry) string {
	b := make([]byte, 0, 12*len(list))
	put := func(v int) {
		for ; v >= 0x80; v >>= 7 {
			b = append(b, byte(v)|0x80)
		}
		b = append(b, byte(v))
	}
	for _, e := range list {
		for _, v := range [...]int{e.tasting, e.panelist, e.sample, e.pot, e.cook, e.day, max(e.position, 0)} {
			put(v)
		}
	}
	return string(b)
}

// newLayout numbers blocks, samples and pots of sorted rows from 0.
func newLayout(list []entry, sampleNames []string) *layout {
	l := &layout{bands: map[string]float64{}}
	type potKey struct{ sample, pot, tasting int }
	people, tastings, pots := map[int]int{}, map[int]int{}, map[potKey]int{}
	local := order(list, len(sampleNames))
	for i, e := range list {
		if i == 0 || list[i-1].tasting != e.tasting || list[i-1].panelist != e.panelist {
			l.panel = append(l.panel, number(people, e.panelist))
			l.tasting = append(l.tasting, number(tastings, e.tasting))
			l.size = append(l.size, 0)
		}
		key := potKey{e.sample, e.pot, e.tasting}
		if e.pot != 0 { // a named pot is the same in every tasting
			key.tasting = -1
		}
		if _, known := pots[key]; !known {
			l.potOf = append(l.potOf, local[e.sample])
		}
		b := len(l.size) - 1
		l.size[b]++
		l.block, l.sample, l.pot = append(l.block, b), append(l.sample, local[e.sample]), append(l.pot, number(pots, key))
		l.position, l.cook, l.day = append(l.position, e.position), append(l.cook, e.cook), append(l.day, e.day)
		l.anyPos = l.anyPos || e.position > 0
	}
	for s, at := range local {
		if at >= 0 {
			for len(l.samples) <= at {
				l.samples = append(l.samples, "")
			}
			l.samples[at] = sampleNames[s]
		}
	}
	l.people, l.tastings = len(people), len(tastings)
	l.bySample = newLayer(l.block, l.sample, l.size, len(l.samples))
	if len(l.potOf) > len(l.samples) {
		l.byPot = newLayer(l.block, l.pot, l.size, len(l.potOf))
	}
	return l
}

// order numbers the samples that are there, in the table's order; -1 the others.
func order(list []entry, n int) []int {
	at := make([]int, n)
	for i := range at {
		at[i] = -1
	}
	for _, e := range list {
		at[e.sample] = 0
	}
	next := 0
	for i := range at {
		if at[i] == 0 {
			at[i] = next
			next++
		}
	}
	return at
}

func number[K comparable](m map[K]int, k K) int {
	n, ok := m[k]
	if !ok {
		n = len(m)
		m[k] = n
	}
	return n
}
