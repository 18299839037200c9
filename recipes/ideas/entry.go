// Package ideas is the catalogue of swap ideas, fitted to a dish: which swaps
// suit an ingredient, what each brings, adds and risks, and the swap it makes.
package ideas

import (
	"parewell/recipes/food"
)

// Kind is what an idea does to an ingredient.
type Kind string

// The kinds of idea.
const (
	Replace  Kind = "replace"   // another food takes a share of the line's place
	Less     Kind = "less"      // the same food, less of it
	LeaveOut Kind = "leave out" // the line goes
	Cook     Kind = "cook"      // the same food cooked so that less is needed
)

// Entry is one row of the catalogue. It is immutable.
type Entry struct {
	ID       string // stable; a swap made from it carries it in Idea
	Kind     Kind
	From     *food.Food // the food it was written for
	FromName string     // plain noun, for a line without one
	Family   string     // foods of this family take it too
	To       *food.Food // nil unless Kind is Replace
	ToName   string     // plain noun of the new line
	Name     string     // wording of the swap with {0} for the old noun; "" for the usual one
	Ratio    float64    // grams of To (or of the same food) for each gram replaced
	ByVolume bool       // it pours: millilitres of the old line become millilitres of it
	Share    float64    // 0-1, how much of the line it normally replaces
	OnlyIn   []string   // contexts one of which the dish must show; empty: any dish
	NotIn    []string   // contexts that rule it out
	Helpers  []Helper   // what the swap brings along
	Step     string     // what the method must say; "" for nothing
	AtEnd    bool       // Step closes the method; else it follows the last mention of the line
	Claims   []food.Nutrient

	Function  string // what the old food does in a dish
	WorksIn   string
	FailsWhen string
	Basis     string // "common practice": no published value

	Adds, MayAdd, Removes food.Allergen
	Ladder                string  // strengths of one swap share it
	Strength              float64 // per cent taken off, orders the ladder
}

// Helper is a food a swap carries, in grams for each gram of the line that is
// replaced or left away.
type Helper struct {
	Food    *food.Food
	Name    string
	PerGram float64
}

// Factor is what is left of the same food when the idea is taken: 1 where
// another food takes its place.
func (e *Entry) Factor() float64 {
	switch e.Kind {
	case Less, Cook:
		return 1 - e.Share*(1-e.Ratio)
	case LeaveOut:
		return 0
	}
	return 1
}

// Per100 returns how much of a nutrient the idea takes off (negative: adds)
// for 100 g of old, the food it is tried on, over the whole line; false when a
// food does not know.
func (e *Entry) Per100(old *food.Food, n food.Nutrient) (float64, bool) {
	before, ok := old.Per100.Get(n)
	if !ok {
		return 0, false
	}
	gone := e.Share
	after := 0.0
	switch e.Kind {
	case Less, Cook, LeaveOut:
		gone = 1 - e.Factor()
	case Replace:
		to, known := e.To.Per100.Get(n)
		if !known {
			return 0, false
		}
		after = to * e.Ratio * gone
	}
	for _, h := range e.Helpers {
		v, known := h.Food.Per100.Get(n)
		if !known {
			return 0, false
		}
		after += v * h.PerGram * gone
	}
	return before*gone - after, true
}
