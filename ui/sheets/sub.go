package sheets

import (
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// SubUnit says what an amount of another recipe is counted in.
type SubUnit string

// Units of a part of another recipe.
const (
	SubGrams    SubUnit = "grams"
	SubServings SubUnit = "servings"
	SubBatches  SubUnit = "batches"
)

// SubUnits lists the units with their words.
func SubUnits() []Fact {
	return []Fact{
		{string(SubGrams), words.Say("sub.unit.grams")},
		{string(SubServings), words.Say("sub.unit.servings")},
		{string(SubBatches), words.Say("sub.unit.batches")},
	}
}

// UnitOf is what a part of another recipe is counted in, with its amount.
func UnitOf(s recipes.SubRecipe) (SubUnit, float64) {
	switch {
	case s.Batches > 0:
		return SubBatches, s.Batches
	case s.Servings > 0:
		return SubServings, s.Servings
	}
	return SubGrams, s.Grams
}

// subAmount is so much of another recipe in words: "200 g", "2 servings".
func subAmount(s recipes.SubRecipe, scale float64) string {
	unit, v := UnitOf(s)
	if unit == SubGrams {
		return words.Grams(v * scale)
	}
	return words.Say("sub."+string(unit), words.Trim(v*scale, 2))
}

// SubName names another recipe's version: "Basic tomato sauce, B".
func SubName(b *recipes.Book, s recipes.SubRecipe) string {
	r := b.Recipe(s.Recipe)
	if r == nil {
		return words.Say("sub.gone")
	}
	if v := b.Version(s.Recipe, s.Version); v != nil {
		return words.Say("sub.version", r.Title, v.Letter)
	}
	return r.Title
}

// SubText says a line that is another recipe: "200 g of Basic tomato sauce, B".
func SubText(b *recipes.Book, s recipes.SubRecipe) string {
	return words.Say("sub.text", subAmount(s, 1), SubName(b, s))
}

// SubWeight is what a part of another recipe weighs today, in g; false when
// that is not known.
func SubWeight(b *recipes.Book, s recipes.SubRecipe) (float64, bool) {
	a := nutrition.In(b).Sub(s)
	if a == nil {
		return 0, false
	}
	whole, complete := a.CookedGrams()
	return whole * partsOfSub(a, s, whole), complete && whole > 0
}

func partsOfSub(a *nutrition.Account, s recipes.SubRecipe, whole float64) float64 {
	switch unit, v := UnitOf(s); {
	case unit == SubBatches:
		return v
	case unit == SubServings:
		return v / a.Draft.Servings
	case whole > 0:
		return v / whole
	}
	return 0
}

// SubNote says what a part of another recipe weighs and holds.
func SubNote(b *recipes.Book, s recipes.SubRecipe) string {
	a := nutrition.In(b).Sub(s)
	if a == nil {
		return ""
	}
	whole, _ := a.CookedGrams()
	parts := partsOfSub(a, s, whole)
	energy, sodium := a.Total(food.EnergyKcal), a.Total(food.Sodium)
	energy.Amount, sodium.Amount = energy.Amount*parts, sodium.Amount*parts
	return words.Say("sub.note", words.Grams(whole*parts), words.Grams(whole), Amount(energy, food.EnergyKcal), Amount(sodium, food.Sodium))
}

// SubOf is so much of another recipe by unit.
func SubOf(recipe, version recipes.ID, unit SubUnit, amount float64) recipes.SubRecipe {
	s := recipes.SubRecipe{Recipe: recipe, Version: version}
	switch unit {
	case SubBatches:
		s.Batches = amount
	case SubServings:
		s.Servings = amount
	default:
		s.Grams = amount
	}
	return s
}

// ScaledSub is factor times a part of another recipe.
func ScaledSub(s recipes.SubRecipe, factor float64) recipes.SubRecipe {
	s.Grams, s.Servings, s.Batches = s.Grams*factor, s.Servings*factor, s.Batches*factor
	return s
}

// ReadSubAmount reads an amount of another recipe in a unit.
func ReadSubAmount(text string, unit SubUnit) (float64, bool) {
	if unit == SubGrams {
		g, ok := reading.Grams(text)
		return g, ok && g > 0
	}
	v, ok := reading.Number(text)
	return v, ok && v <= mostOfSub
}

// mostOfSub is more servings or batches than a kitchen makes at once.
const mostOfSub = 10_000

// OtherRecipes lists the workbook's recipes but one.
func OtherRecipes(b *recipes.Book, but recipes.ID) []Fact {
	var out []Fact
	for _, r := range b.Recipes() {
		if r.ID != but {
			out = append(out, Fact{string(r.ID), r.Title})
		}
	}
	return out
}

// VersionsOf lists a recipe's versions, the original first with an empty name.
func VersionsOf(b *recipes.Book, recipe recipes.ID) []Fact {
	out := []Fact{{"", words.Say("original")}}
	for _, v := range b.Versions(recipe) {
		name := v.Letter
		if v.Name != "" {
			name = words.Say("versions.letter-name", v.Letter, v.Name)
		}
		out = append(out, Fact{string(v.ID), name})
	}
	return out
}

// LineNow is a line with the weight it has today: of another recipe's part what
// it weighs by now, of all else its own.
func LineNow(b *recipes.Book, l *recipes.Line) *recipes.Line {
	if l.Sub == nil {
		return l
	}
	c := *l
	if g, ok := SubWeight(b, *l.Sub); ok {
		c.Grams, c.Amount, c.Unit = g, g, "g"
		c.Text = words.Grams(g) + " " + c.Name
	}
	return &c
}

// Resized is a line of the original with another weight; a part of another
// recipe keeps its unit.
func Resized(b *recipes.Book, l *recipes.Line, grams float64) *recipes.Line {
	if l.Sub == nil {
		return l.WithGrams(grams)
	}
	now, ok := SubWeight(b, *l.Sub)
	s := ScaledSub(*l.Sub, grams/now)
	if !ok {
		s = SubOf(l.Sub.Recipe, l.Sub.Version, SubGrams, grams)
	}
	return SubLine(b, l, s)
}

// SubLine makes a line a part of another recipe.
func SubLine(b *recipes.Book, l *recipes.Line, s recipes.SubRecipe) *recipes.Line {
	grams, _ := SubWeight(b, s)
	title := ""
	if r := b.Recipe(s.Recipe); r != nil {
		title = r.Title
	}
	return l.WithSub(s, grams, title, SubText(b, s))
}
