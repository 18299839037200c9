package recipes

import (
	"slices"

	"parewell/recipes/words"
)

// moving turns a change to served versions and swaps into one that leaves them as
// they were served and makes new ones.
type moving struct {
	book   *Book
	change Change
	look   ID // the version the cook is looking at
	fresh  func() ID
	swaps  map[ID]ID // a served swap and the new one that stands for what it became
	out    *edits
}

func (m *moving) move() (Change, error) {
	m.out = &edits{book: m.book, change: Change{Label: m.change.Label, Recipe: m.change.Recipe, Final: m.change.Final}}
	var versions []*Version
	for _, e := range m.change.Edits {
		switch x := e.entityOf().(type) {
		case *Swap:
			m.swap(e, x)
		case *Version:
			if e.After == nil {
				m.out.drop(x)
				continue
			}
			versions = append(versions, x)
		default:
			m.out.change.Edits = append(m.out.change.Edits, e)
		}
	}
	m.versions(versions)
	return m.out.done()
}

// swap keeps a swap that was served and puts what it became beside it.
func (m *moving) swap(e Edit, x *Swap) {
	switch {
	case e.Before == nil || !m.swapServed(x):
		m.out.change.Edits = append(m.out.change.Edits, e)
	case e.After == nil: // removed: it stays where it was served
	case e.Before.(*Swap).Digest() == x.Digest(): // its name or its place among strengths: it does what it did
		m.out.change.Edits = append(m.out.change.Edits, e)
	default:
		c := *x
		c.ID = m.fresh()
		c.Order = nextOrder(m.book.Swaps(x.Recipe), func(s *Swap) float64 { return s.Order })
		m.swaps[x.ID] = c.ID
		m.out.put(c.settled())
	}
}

// versions gives versions that were not served the new swaps, and puts a new
// version beside the served one the cook looks at (the first, when she looks at
// none of them).
func (m *moving) versions(edited []*Version) {
	after := map[ID]*Version{}
	for _, v := range edited {
		after[v.ID] = v
	}
	recipe := m.change.Recipe
	var served []*Version
	for _, v := range m.book.Versions(recipe) {
		now, touched := after[v.ID]
		if !touched {
			now = v
		}
		moved := m.mapped(now)
		switch {
		case !touched && moved == now:
		case m.versionServed(v):
			served = append(served, moved)
		default:
			m.out.put(moved)
		}
	}
	for _, v := range edited {
		if m.book.Version(v.Recipe, v.ID) == nil { // new in this change
			m.out.put(m.mapped(v))
		}
	}
	if v := m.chosen(served); v != nil {
		c := *v
		c.ID = m.fresh()
		c.Letter = nextLetter(m.book.Versions(recipe))
		c.Order = nextOrder(m.book.Versions(recipe), func(x *Version) float64 { return x.Order })
		c.Name, c.Note = m.title(v), "" // what was noted is of the served one
		m.out.put(&c)
		m.out.change.Label = words.P("did.change-dish", elsewhere(m.change.Label, v.Letter, c.Letter).String(), c.Letter, v.Letter)
	}
}

// title is a name for the version made beside v that no other has; none where v
// has none.
func (m *moving) title(v *Version) string {
	if v.Name == "" {
		return ""
	}
	for n := 1; ; n++ {
		name := words.Say("version.changed", v.Name, v.Letter)
		if n > 1 {
			name = words.Say("version.changed.again", v.Name, v.Letter, n)
		}
		if !slices.ContainsFunc(m.book.Versions(v.Recipe), func(x *Version) bool { return x.Name == name }) {
			return name
		}
	}
}

// elsewhere is what an act is called when it was done in another version than it
// was meant for.
func elsewhere(p words.Phrase, from, to string) words.Phrase {
	p.Args = slices.Clone(p.Args)
	for i, a := range p.Args {
		if a == from {
			p.Args[i] = to
		}
	}
	return p
}

func (m *moving) chosen(served []*Version) *Version {
	for _, v := range served {
		if v.ID == m.look {
			return v
		}
	}
	if len(served) == 0 {
		return nil
	}
	return served[0]
}

// mapped returns the version with new swaps for those that were served; the same
// pointer when it has none.
func (m *moving) mapped(v *Version) *Version {
	var ids []ID
	changed := false
	for _, id := range v.Swaps {
		if to, ok := m.swaps[id]; ok {
			id, changed = to, true
		}
		ids = append(ids, id)
	}
	if !changed {
		return v
	}
	c := *v
	slices.Sort(ids)
	c.Swaps = ids
	return &c
}

// swapServed tells whether a served version of the present edition has it on.
func (m *moving) swapServed(s *Swap) bool {
	for _, v := range m.book.Versions(s.Recipe) {
		if v.Has(s.ID) && m.versionServed(v) {
			return true
		}
	}
	return false
}

func (m *moving) versionServed(v *Version) bool { return m.book.VersionServed(v.Recipe, v.ID) }

// VersionServed tells whether a version (the original when empty) was served in
// the recipe's present edition.
func (b *Book) VersionServed(recipe, version ID) bool {
	r := b.Recipe(recipe)
	if r == nil {
		return false
	}
	for _, t := range b.frozen(map[ID]bool{recipe: true}) {
		for _, s := range b.Samples(t.ID) {
			if s.Version == version && s.Dish == "" && s.Served != nil {
				return true
			}
		}
	}
	return false
}
