package ideas

import (
	"cmp"
	"slices"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Fit says how closely an idea was written for an ingredient.
type Fit int

// Fits, closest first.
const (
	FitExact  Fit = iota // for this very food
	FitFamily            // for a food of the same family
)

// Idea is a catalogue entry fitted to one line of a recipe. Allergens are
// those of the line against what takes its place; what the whole dish gains or
// loses is worked out by analysis/effects.
type Idea struct {
	Entry *Entry
	Line  *recipes.Line
	Fit   Fit
	Foods []*food.Food // to pin: what the swap brings

	Added, MayAdd, Lost food.Allergen
	Cautions            []Caution

	// Saves is what the idea takes off the whole line by the food rows alone,
	// kcal and mg of sodium; negative adds. It ranks, effects tell.
	SavesEnergy, SavesSodium float64

	grams float64      // of the line, edible
	after recipes.ID   // step that the idea's own words follow, "" for none
	steps []recipes.Op // steps that name the old food in full, with the new one's name
	old   *food.Food
}

// For returns the ideas that suit a line of a recipe, best first: those for
// this very food before those for its family, then by what they take off.
// A line without a known food, or a weight where one is needed, has none; an
// idea that would lighten nothing it claims on this food is left out, and so
// is less salt, sugar or acid in anything preserved.
func (c *Catalogue) For(r *recipes.Recipe, line *recipes.Line, foods func(food.Ref) *food.Food) []Idea {
	old := foods(line.Food)
	if line.Food.Zero() || old == nil || line.Kind == recipes.TakenOff {
		return nil
	}
	var shown map[string]bool
	var out []Idea
	for _, e := range c.entries {
		fit, ok := c.fit(e, old, line.Name)
		if !ok || e.Kind == Replace && (!line.Known() || e.To.Ref == old.Ref) {
			continue
		}
		if shown == nil {
			shown = c.contextsOf(r, line)
		}
		if !e.suits(shown) || !e.lightens(old) {
			continue
		}
		out = append(out, c.idea(r, line, e, old, fit))
	}
	slices.SortStableFunc(out, func(a, b Idea) int {
		return cmp.Or(cmp.Compare(a.Fit, b.Fit), cmp.Compare(b.SavesEnergy, a.SavesEnergy), cmp.Compare(b.SavesSodium, a.SavesSodium))
	})
	return out
}

// fit tells whether an entry is for a food, and how closely.
func (c *Catalogue) fit(e *Entry, old *food.Food, name string) (Fit, bool) {
	if e.From.Ref == old.Ref {
		return FitExact, true
	}
	return FitFamily, c.is(e.Family, old, name)
}

// suits tells whether the recipe's contexts allow the entry.
func (e *Entry) suits(shown map[string]bool) bool {
	for _, key := range e.NotIn {
		if shown[key] {
			return false
		}
	}
	if len(e.OnlyIn) == 0 {
		return true
	}
	return slices.ContainsFunc(e.OnlyIn, func(key string) bool { return shown[key] })
}

// lightensBy is the share of a nutrient from which an idea may claim it.
const lightensBy = 0.03

// lightens tells whether the entry lowers something it claims on this food.
func (e *Entry) lightens(old *food.Food) bool {
	return slices.ContainsFunc(e.Claims, func(n food.Nutrient) bool { return e.Lightens(old, n) })
}

// Lightens tells whether the entry takes at least 3 % of a nutrient off the
// part of old that it replaces; false when a food does not know.
func (e *Entry) Lightens(old *food.Food, n food.Nutrient) bool {
	off, ok := e.Per100(old, n)
	before, _ := old.Per100.Get(n)
	part := e.Share
	if e.Kind == LeaveOut {
		part = 1
	}
	return ok && before > 0 && off > lightensBy*before*part
}

// idea fits an entry to a line.
func (c *Catalogue) idea(r *recipes.Recipe, line *recipes.Line, e *Entry, old *food.Food, fit Fit) Idea {
	x := Idea{Entry: e, Line: line, Fit: fit, old: old, grams: line.Grams}
	if line.AsBought {
		x.grams *= old.EdiblePart()
	}
	x.after = lastMention(r, line)
	if n := len(r.Steps); e.AtEnd && n > 0 {
		x.after = r.Steps[n-1].ID
	}
	if e.Kind == Replace && e.Share == 1 {
		x.steps = renamed(r, line.Name, e.ToName)
	}
	if e.To != nil {
		x.Foods = append(x.Foods, e.To)
	}
	for _, h := range e.Helpers {
		x.Foods = append(x.Foods, h.Food)
	}
	if line.Known() {
		energy, _ := e.Per100(old, food.EnergyKcal)
		sodium, _ := e.Per100(old, food.Sodium)
		x.SavesEnergy, x.SavesSodium = energy*x.grams/100, sodium*x.grams/100
	}
	x.allergens()
	s := x.Swap("", line)
	x.Cautions = c.Cautions(r, s, x.lookup)
	return x
}

// lookup finds the foods an idea needs.
func (x *Idea) lookup(ref food.Ref) *food.Food {
	if ref == x.old.Ref {
		return x.old
	}
	for _, f := range x.Foods {
		if f.Ref == ref {
			return f
		}
	}
	return nil
}

// allergens compares the line's food with what takes its place.
func (x *Idea) allergens() {
	e := x.Entry
	sure, may := e.Adds, e.MayAdd
	for _, f := range x.Foods {
		sure |= f.Allergens.Contains
		may |= f.Allergens.Depends
	}
	had := x.old.Allergens.Contains
	x.Added = sure &^ had
	x.MayAdd = may &^ (had | sure | x.old.Allergens.Depends)
	if gone := e.Kind == LeaveOut || e.Kind == Replace && e.Share == 1; gone {
		x.Lost = (had | x.old.Allergens.Depends) &^ (sure | may)
	}
}
