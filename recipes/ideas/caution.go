package ideas

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// CautionKind is a stable code of a risk a swap brings (DESIGN section 11).
type CautionKind string

// The cautions that belong to a swap.
const (
	CautionAllergen    CautionKind = "allergen"     // what it brings contains an allergen the old food did not
	CautionMayAllergen CautionKind = "may allergen" // it depends on the product
	CautionUnrecorded  CautionKind = "unrecorded"   // allergens of what it brings are not recorded: unknown, never free
	CautionPotassium   CautionKind = "potassium"    // a potassium salt
	CautionPreserved   CautionKind = "preserved"    // less salt, sugar or acid in a preserved food
	CautionPoultry     CautionKind = "poultry"      // poultry in place of red meat: a higher safe temperature
)

// Caution is one risk in one line, with where it comes from.
type Caution struct {
	Kind CautionKind
	Say  words.Phrase // the line itself
	From words.Phrase // its source
}

// Cautions returns the risks a swap brings to a recipe, each once, whether it
// came from the catalogue or was made by the cook. foods must find the foods
// of the lines it touches and brings.
func (c *Catalogue) Cautions(r *recipes.Recipe, s *recipes.Swap, foods func(food.Ref) *food.Food) []Caution {
	var out []Caution
	put := func(k CautionKind, args ...any) {
		for _, x := range out {
			if x.Kind == k {
				return
			}
		}
		key := "ideas.caution." + string(k)
		out = append(out, Caution{Kind: k, Say: words.P(key, args...), From: words.P(key + ".from")})
	}
	had, sure, may, unrecorded := swapAllergens(r, s, foods)
	if added := sure &^ had.Contains; added != 0 {
		put(CautionAllergen, AllergenWords(added))
	}
	if perhaps := may &^ (had.Contains | had.Depends | sure); perhaps != 0 {
		put(CautionMayAllergen, AllergenWords(perhaps))
	}
	if unrecorded != "" {
		put(CautionUnrecorded, unrecorded)
	}
	for i := range s.Ops {
		o := &s.Ops[i]
		old := r.Line(o.Line)
		if old != nil && c.preserving(foods(old.Food), old.Name) && lessens(o) && c.preserved(r, old) {
			put(CautionPreserved, old.Name)
		}
		for _, l := range o.Lines {
			f := foods(l.Food)
			if c.is("potassium salt", f, l.Name) {
				put(CautionPotassium)
			}
			if old != nil && c.is("red meat", foods(old.Food), old.Name) && c.is("poultry", f, l.Name) {
				put(CautionPoultry)
			}
		}
	}
	return out
}

// preserving tells whether a food is what keeps a preserved food safe.
func (c *Catalogue) preserving(f *food.Food, name string) bool {
	return c.is("salt", f, name) || c.is("sugar", f, name) || c.is("acid", f, name)
}

func (c *Catalogue) preserved(r *recipes.Recipe, l *recipes.Line) bool {
	return c.contextsOf(r, l)["preserve"]
}

// lessens tells whether an operation leaves less of its line.
func lessens(o *recipes.Op) bool {
	switch o.Kind {
	case recipes.OpRemove:
		return true
	case recipes.OpMultiply:
		return o.Factor < 1
	case recipes.OpExchange:
		return o.Share > 0
	}
	return false
}

// swapAllergens gathers what the recipe already holds and what the swap brings.
func swapAllergens(r *recipes.Recipe, s *recipes.Swap, foods func(food.Ref) *food.Food) (had food.Allergens, sure, may food.Allergen, unrecorded string) {
	for _, l := range r.Lines {
		if f := foods(l.Food); f != nil {
			had.Contains |= f.Allergens.Contains
			had.Depends |= f.Allergens.Depends
		}
	}
	for i := range s.Ops {
		for _, l := range s.Ops[i].Lines {
			f := foods(l.Food)
			if f == nil || !f.Allergens.Recorded {
				unrecorded = l.Name
				continue
			}
			sure |= f.Allergens.Contains
			may |= f.Allergens.Depends
		}
	}
	return had, sure, may, unrecorded
}

// AllergenWords lists allergens as a person reads them.
func AllergenWords(a food.Allergen) string {
	var out []string
	for _, key := range a.Keys() {
		out = append(out, words.Say("ideas.allergen."+key))
	}
	return words.Join(out)
}
