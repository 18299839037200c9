package sheets

import (
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// foodFigures are the columns of the Foods page, per 100 g.
var foodFigures = []food.Nutrient{
	food.EnergyKcal, food.Fat, food.SaturatedFat, food.Carbohydrate, food.Sugars, food.Fibre, food.Protein, food.Sodium,
}

// Foods lays out found foods, a row each, figures per 100 g of edible part.
func Foods(hits []food.Hit) Sheet {
	s := Sheet{Corner: words.Say("foods.food")}
	for _, n := range foodFigures {
		s.Columns = append(s.Columns, Column{Key: n.Key(), Title: words.Say("nutrient." + n.Key()), Sub: words.Say("foods.per-100g", n.Unit()), Number: true, Index: -1})
	}
	for _, h := range hits {
		r := Row{Key: h.Food.Ref.String(), Label: Cell{Text: h.Food.Name, Bar: noBar(), Wrap: true}}
		if h.Close {
			r.Label.Mark, r.Label.Tip = Look, words.Say("doubt.close", h.Differs)
		}
		for _, n := range foodFigures {
			r.Cells = append(r.Cells, perHundred(h.Food, n))
		}
		s.Rows = append(s.Rows, r)
	}
	return s
}

func perHundred(f *food.Food, n food.Nutrient) Cell {
	v, ok := f.Per100.Get(n)
	if !ok {
		return Cell{Text: words.Unknown, Muted: true, Number: true, Bar: noBar(), Tip: words.Say("foods.blank")}
	}
	return Cell{Text: words.Number(v, words.Decimals(n.Unit())), Number: true, Bar: noBar()}
}

// FoodCount says how many foods are shown, out of how many.
func FoodCount(shown, all int, searched bool) string {
	if searched {
		return words.Say("foods.count", shown, all)
	}
	return words.Say("foods.count-own", shown, all)
}

// Block is a headed part of a food's details.
type Block struct {
	Title string
	Lines []string
}

// FoodDetail says everything about one food: where the row comes from, all its
// figures, its measures and its allergens.
func FoodDetail(f *food.Food) []Block {
	out := []Block{{Title: words.Say("foods.source"), Lines: []string{foodTip(f)}}}
	var figures []string
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		v, ok := f.Per100.Get(n)
		text := words.Say("foods.not-known")
		if ok {
			text = words.Trim(v, 2) + " " + n.Unit()
		}
		figures = append(figures, words.Say("foods.figure", words.Say("nutrient."+n.Key()), text))
	}
	out = append(out, Block{Title: words.Say("foods.per-100g-edible"), Lines: figures})
	if m := measuresOf(f); len(m) > 0 {
		out = append(out, Block{Title: words.Say("foods.measures"), Lines: m})
	}
	return append(out, Block{Title: words.Say("foods.allergens"), Lines: []string{AllergenText(f.Allergens)}})
}

func measuresOf(f *food.Food) []string {
	var out []string
	for _, m := range f.Measures {
		name := m.Unit
		if m.Detail != "" {
			name += ", " + m.Detail
		}
		out = append(out, words.Say("foods.measure", name, words.Grams(m.Grams)))
	}
	if f.Density > 0 {
		out = append(out, words.Say("foods.density", words.Trim(f.Density, 3)))
	}
	if f.Edible > 0 && f.Edible < 1 {
		out = append(out, words.Say("foods.edible", words.Share(f.Edible)))
	}
	return out
}

// AllergenText says what is recorded of a food's allergens; not recorded is
// unknown, never free.
func AllergenText(a food.Allergens) string {
	if !a.Recorded && a.Contains == 0 && a.Depends == 0 {
		return words.Say("allergens.unknown")
	}
	text := words.Say("allergens.none")
	if a.Contains != 0 {
		text = words.Say("allergens.contains", words.Join(AllergenNames(a.Contains)))
	}
	if a.Depends != 0 {
		text += " " + words.Say("allergens.depends", words.Join(AllergenNames(a.Depends)))
	}
	if !a.Recorded {
		text += " " + words.Say("allergens.unknown")
	}
	return text
}

// AllergenNames gives the words for a set of allergens.
func AllergenNames(a food.Allergen) []string {
	var out []string
	for _, k := range a.Keys() {
		out = append(out, words.Say("allergen."+k))
	}
	return out
}
