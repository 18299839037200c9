package recipes

import (
	"maps"
	"slices"
)

// ScaleOriginal makes other amounts the original's own: lines are the new lines
// by ID (one that is missing stays as it is), servings the new servings. Amounts
// that swaps bring are written for the original's and go with factor, told anew by
// line, and texts of the method, those of swaps too, by step; so do weights of sections and servings that versions have of their own,
// and so nothing a serving holds changes but by what was made whole. Refused
// where tests were weighed with the amounts as they are, and where another recipe
// takes a whole batch of this one.
func ScaleOriginal(id ID, factor, servings float64, lines map[ID]*Line, line func(*Line, float64) *Line, step func(text string) string) Verb {
	return func(b *Book) (Change, error) {
		r, err := b.mustRecipe(id)
		if err != nil {
			return Change{}, err
		}
		if err := b.mayScale(r); err != nil {
			return Change{}, err
		}
		if !(factor > 0) || !(servings > 0) {
			return Change{}, refuse(r.Title, "error.servings")
		}
		e := newEdits(b, id, "did.scale", r.Servings, servings)
		c := *r
		c.Servings, c.ServingsHigh, c.ServingsFrom = servings, 0, ServingsStated
		c.Lines = slices.Clone(r.Lines)
		for i, l := range c.Lines {
			if n := lines[l.ID]; n != nil {
				c.Lines[i] = n
			}
		}
		c.Steps = slices.Clone(r.Steps)
		for i, s := range c.Steps {
			told := *s
			told.Text = step(s.Text)
			c.Steps[i] = &told
		}
		c.Sections = slices.Clone(r.Sections)
		for i := range c.Sections {
			c.Sections[i].CookedGrams *= factor
		}
		e.put(&c)
		for _, s := range b.Swaps(id) {
			e.put(scaledSwap(s, factor, line, step))
		}
		for _, v := range b.Versions(id) {
			w := *v
			w.Servings *= factor
			w.Joined = maps.Clone(v.Joined)
			for id, text := range w.Joined {
				w.Joined[id] = step(text)
			}
			e.put(&w)
		}
		return e.done()
	}
}

// scaledSwap is a swap with factor times what it brings and says.
func scaledSwap(s *Swap, factor float64, line func(*Line, float64) *Line, step func(string) string) *Swap {
	c := *s
	c.Ops = slices.Clone(s.Ops)
	for i := range c.Ops {
		lines := slices.Clone(c.Ops[i].Lines)
		for k, l := range lines {
			lines[k] = line(l, factor)
		}
		c.Ops[i].Lines = lines
		if o := &c.Ops[i]; o.Kind == OpStepReplace || o.Kind == OpStepAdd {
			o.Text = step(o.Text)
		}
	}
	return &c
}

// mayScale refuses where other amounts would make something untrue.
func (b *Book) mayScale(r *Recipe) error {
	for _, t := range b.Batches(r.ID) {
		if _, weighed := t.CookedGrams(); weighed || len(t.AsCooked) > 0 {
			return refuse(r.Title, "error.scale-tests")
		}
	}
	for _, other := range b.Recipes() {
		lines := slices.Clone(other.Lines)
		for _, s := range b.Swaps(other.ID) {
			for i := range s.Ops {
				lines = append(lines, s.Ops[i].Lines...)
			}
		}
		for _, l := range lines {
			if l.Sub != nil && l.Sub.Recipe == r.ID && l.Sub.Batches > 0 {
				return refuse(r.Title, "error.scale-batch", other.Title)
			}
		}
	}
	return nil
}
