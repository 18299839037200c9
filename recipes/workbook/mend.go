package workbook

import (
	"slices"

	"parewell/recipes"
	"parewell/recipes/food"
)

// coherent returns those of the entities that make sense together: what refers
// to something lost is mended where a part can be left out, and left out whole
// where not. mended counts the former.
func coherent(entities []recipes.Entity) (kept []recipes.Entity, mended int) {
	kept = slices.Clone(entities)
	for {
		m := mending{have: map[recipes.Kind]map[string]bool{}}
		for _, e := range kept {
			if m.have[e.Kind()] == nil {
				m.have[e.Kind()] = map[string]bool{}
			}
			m.have[e.Kind()][e.Key()] = true
		}
		next := make([]recipes.Entity, 0, len(kept))
		for _, e := range kept {
			if m.stands(e) {
				next = append(next, m.mend(e))
			}
		}
		faults := Faults(next)
		next = slices.DeleteFunc(next, func(e recipes.Entity) bool { return faults[e] != nil })
		mended += m.mended
		if len(next) == len(kept) && m.mended == 0 {
			return next, mended
		}
		kept = next
	}
}

// mending knows which entities there are.
type mending struct {
	have   map[recipes.Kind]map[string]bool
	mended int
}

// there tells whether an entity is there; the empty ID names nothing and needs
// nothing.
func (m *mending) there(k recipes.Kind, id recipes.ID) bool {
	return id == "" || m.have[k][string(id)]
}

// stands tells whether everything is there that the entity cannot be without.
func (m *mending) stands(e recipes.Entity) bool {
	switch x := e.(type) {
	case *recipes.Swap:
		return m.there(recipes.KindOfRecipe, x.Recipe)
	case *recipes.Version:
		return m.there(recipes.KindOfRecipe, x.Recipe)
	case *recipes.Batch:
		return m.there(recipes.KindOfRecipe, x.Recipe) && m.there(recipes.KindOfVersion, x.Version)
	case *recipes.Tasting:
		return m.there(recipes.KindOfRecipe, x.Recipe)
	case *recipes.Sample:
		return m.there(recipes.KindOfTasting, x.Tasting) && m.there(recipes.KindOfVersion, x.Version)
	case *recipes.Serving:
		return m.there(recipes.KindOfTasting, x.Tasting) && m.there(recipes.KindOfSample, x.Sample) &&
			m.there(recipes.KindOfPanelist, x.Panelist)
	}
	return true
}

// mend returns the entity without the parts that refer to something lost.
func (m *mending) mend(e recipes.Entity) recipes.Entity {
	switch x := e.(type) {
	case *recipes.Recipe:
		if lines, changed := m.lines(x.Lines); changed {
			c := *x
			c.Lines = lines
			m.mended++
			return &c
		}
	case *recipes.Swap:
		c, changed := *x, false
		c.Ops = slices.Clone(x.Ops)
		for i := range c.Ops {
			lines, hit := m.lines(c.Ops[i].Lines)
			c.Ops[i].Lines, changed = lines, changed || hit
		}
		if changed {
			m.mended++
			return &c
		}
	case *recipes.Version:
		on := slices.DeleteFunc(slices.Clone(x.Swaps), func(id recipes.ID) bool { return !m.there(recipes.KindOfSwap, id) })
		if len(on) < len(x.Swaps) {
			c := *x
			c.Swaps = on
			m.mended++
			return &c
		}
	case *recipes.Sample:
		if !m.there(recipes.KindOfBatch, x.Batch) {
			c := *x
			c.Batch = ""
			m.mended++
			return &c
		}
	}
	return e
}

// lines returns lines without foods and recipes that are not there.
func (m *mending) lines(lines []*recipes.Line) (out []*recipes.Line, changed bool) {
	out = slices.Clone(lines)
	for i, l := range lines {
		lostFood := !l.Food.Zero() && !m.have[recipes.KindOfFood][l.Food.String()]
		lostSub := l.Sub != nil && !m.there(recipes.KindOfRecipe, l.Sub.Recipe)
		if !lostFood && !lostSub {
			continue
		}
		c := *l
		if lostFood {
			c.Food = food.Ref{}
		}
		if lostSub {
			c.Sub = nil
		}
		out[i], changed = &c, true
	}
	return out, changed
}
