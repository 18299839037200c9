package food

import "strings"

// Hit is one food found by a search. Rank 0 is best; Alias is the name that
// matched when it was not the food's own, Close when that alias names a
// neighbour rather than the food itself.
type Hit struct {
	Food    *Food
	Score   float64 // higher is better; comparable within one search only
	Alias   string
	Close   bool
	Differs string
}

// Table is a set of foods that can be searched by name. It is immutable and
// safe for several goroutines at once.
type Table struct {
	foods []*Food
	byRef map[Ref]*Food
	x     *index
	pool  scratchPool

	imported *Table // searched after this one; nil for none
}

// NewTable indexes foods for searching. The slice is copied, the foods are
// not; of two with the same Ref, Get gives the first.
func NewTable(foods []*Food) *Table {
	t := &Table{foods: append([]*Food(nil), foods...), byRef: make(map[Ref]*Food, len(foods))}
	for _, f := range foods {
		if _, twice := t.byRef[f.Ref]; !twice {
			t.byRef[f.Ref] = f
		}
	}
	t.x = buildIndex(t.foods)
	return t
}

// Get returns the food of a reference, nil if the table does not hold it.
func (t *Table) Get(r Ref) *Food {
	if f := t.byRef[r]; f != nil || t.imported == nil {
		return f
	}
	return t.imported.Get(r)
}

// Named returns the food whose own name is the given one, whatever its capitals
// and marks, else the first that has it as a name for the very same food; nil if
// there is none. It guesses nothing: it is for names taken from this table.
func (t *Table) Named(name string) *Food {
	key := strings.TrimSpace(fold(name))
	if at, ok := t.x.own[key]; ok {
		return t.foods[at]
	}
	if at, ok := t.x.also[key]; ok {
		return t.foods[at]
	}
	if t.imported != nil {
		return t.imported.Named(name)
	}
	return nil
}

// Len returns the number of foods.
func (t *Table) Len() int {
	if t.imported == nil {
		return len(t.foods)
	}
	return len(t.Foods())
}

// Foods returns all foods in the order they were given, imported ones last. The
// slice is a copy.
func (t *Table) Foods() []*Food {
	out := append([]*Food(nil), t.foods...)
	if t.imported == nil {
		return out
	}
	for _, f := range t.imported.foods {
		if t.byRef[f.Ref] == nil {
			out = append(out, f)
		}
	}
	return out
}

// hit makes a Hit of a name with its score.
func (t *Table) hit(n *name, score float64) Hit {
	h := Hit{Food: t.foods[n.food], Score: score}
	if n.alias >= 0 {
		a := h.Food.Aliases[n.alias]
		h.Alias, h.Close, h.Differs = a.Name, a.Close, a.Differs
	}
	return h
}
