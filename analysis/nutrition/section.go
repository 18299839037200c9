package nutrition

import (
	"parewell/recipes"
)

// weighSections lets the weight of a section that was weighed by itself stand
// for what its lines' yields would make of it. The weight is the original's: in
// a version that puts more or less into the section it goes with what goes in.
func (k Kitchen) weighSections(a *Account) {
	r := a.Draft.Recipe
	if r == nil {
		return
	}
	for _, s := range r.Sections {
		if s.CookedGrams <= 0 {
			continue
		}
		now, stands := 0.0, false
		for i := range a.Lines {
			d, la := &a.Draft.Lines[i], &a.Lines[i]
			stands = stands || d.Section == s.Name
			if d.Section != s.Name || !la.Weighed || d.Gone() {
				continue
			}
			use, _ := a.yieldUse(d, la)
			a.cooked.add(-la.sign*la.Eaten, use)
			now += la.sign * la.Eaten
		}
		if !stands {
			continue // its lines are elsewhere now, or gone
		}
		grams := s.CookedGrams * s.ShareUsed
		if first := k.goesIn(r, s.Name); first > 0 {
			grams *= now / first
		}
		a.cooked.add(grams, YieldUse{Yield: 1, Low: 1, High: 1})
		a.cooked.estimatedLines++
		if a.cooked.weighed == nil {
			a.cooked.weighed = map[string]bool{}
		}
		a.cooked.weighed[s.Name] = true
	}
}

// goesIn is the eaten weight, in g, that the original puts into a section.
func (k Kitchen) goesIn(r *recipes.Recipe, section string) float64 {
	part := recipes.Recipe{Servings: 1, Dish: r.Dish, Sections: []recipes.Section{{Name: section, ShareUsed: r.Section(section).ShareUsed}}}
	for _, l := range r.Lines {
		if l.Section == section || l.OffOf != "" && r.Line(l.OffOf) != nil && r.Line(l.OffOf).Section == section {
			part.Lines = append(part.Lines, l)
		}
	}
	k.Weighed = nil
	g, _ := k.Of(recipes.Compose(&part, nil, nil)).RawGrams()
	return g
}

// estimateWhole tells whether every line's weight is known, but for those of a
// section that was weighed.
func (a *Account) estimateWhole() bool {
	if len(a.eaten.missing) == 0 {
		return true
	}
	for i := range a.Lines {
		if d := &a.Draft.Lines[i]; !a.Lines[i].Weighed && !a.cooked.weighed[d.Section] {
			return false
		}
	}
	return true
}
