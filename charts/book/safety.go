package book

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/cautions"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Caution is one line for safety with where it comes from.
type Caution struct {
	Kind  string       `json:"kind"`
	Text  string       `json:"text"`
	From  string       `json:"from"`
	Lines []recipes.ID `json:"lines,omitempty"`
}

func cautionsOf(d *recipes.Draft, foods func(food.Ref) *food.Food) []Caution {
	var out []Caution
	for _, c := range cautions.Of(d, foods) {
		out = append(out, Caution{Kind: string(c.Kind), Text: c.Say.String(), From: c.From.String(), Lines: c.Lines})
	}
	return out
}

// Allergens are those of all that goes in, recipes inside it too.
type Allergens struct {
	Contains    []string `json:"contains"`     // by nature
	May         []string `json:"may"`          // depends on the product
	NotRecorded []string `json:"not_recorded"` // ingredients nobody has looked up: never free
}

// allergensOf gathers what is recorded; what a swap leaves out is not counted.
func allergensOf(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) Allergens {
	var sure, may food.Allergen
	a := Allergens{NotRecorded: []string{}}
	for _, l := range b.ServedRecord(r, v).Lines {
		if l.Kind == recipes.TakenOff {
			continue
		}
		f := b.Food(l.Food)
		if f != nil {
			sure |= f.Allergens.Contains
			may |= f.Allergens.Depends
		}
		if (f == nil || !f.Allergens.Recorded) && !slices.Contains(a.NotRecorded, servedName(l, f)) {
			a.NotRecorded = append(a.NotRecorded, servedName(l, f))
		}
	}
	a.Contains, a.May = allergenWords(sure), allergenWords(may&^sure)
	return a
}

func servedName(l recipes.ServedLine, f *food.Food) string {
	switch {
	case l.Name != "":
		return l.Name
	case f != nil:
		return f.Name
	}
	return words.Say("book.unnamed")
}

func allergenWords(a food.Allergen) []string {
	out := []string{}
	for _, e := range food.EachAllergen {
		if a&e.Bit != 0 {
			out = append(out, tasting.AllergenNames(e.Bit))
		}
	}
	return out
}

// Lines say the allergens, one sentence each.
func (a *Allergens) Lines() []string {
	var out []string
	if len(a.Contains) > 0 {
		out = append(out, words.Say("book.allergens.contains", strings.Join(a.Contains, ", ")))
	} else if len(a.NotRecorded) == 0 {
		out = append(out, words.Say("book.allergens.none"))
	}
	if len(a.May) > 0 {
		out = append(out, words.Say("book.allergens.may", strings.Join(a.May, ", ")))
	}
	if len(a.NotRecorded) > 0 {
		out = append(out, words.Say("book.allergens.open", strings.Join(a.NotRecorded, ", ")))
	}
	return out
}
