package sheets

import (
	"slices"
	"strings"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// foodFigures are the columns of the Foods page, per 100 g.
var foodFigures = []food.Nutrient{
	food.EnergyKcal, food.Fat, food.SaturatedFat, food.Sugars, food.Fibre, food.Protein, food.Sodium,
}

// OwnSource is the Source of the cook's own foods.
const OwnSource = "own"

// Own tells whether a food is one of the cook's own.
func Own(f *food.Food) bool { return f.Source == OwnSource }

// Foods lays out found foods, a row each, figures per 100 g of edible part.
func (u Units) Foods(hits []food.Hit) Sheet {
	s := u.foodSheet()
	for _, h := range hits {
		r := u.foodRow(h.Food)
		if h.Close {
			r.Label.Mark, r.Label.Tip = Look, words.Say("doubt.close", h.Differs)
		}
		s.Rows = append(s.Rows, r)
	}
	return s
}

func (u Units) foodSheet() Sheet {
	s := Sheet{Corner: words.Say("foods.food"), Columns: []Column{{Key: "from", Title: words.Say("foods.from"), Tight: true, Index: -1}}}
	for _, n := range foodFigures {
		title, as := words.Say("foods.column."+n.Key()), u.as(u.Of(n))
		if as.times != 1 {
			title = as.name
		}
		s.Columns = append(s.Columns, Column{Key: n.Key(), Title: title, Sub: as.unit, Number: true, Index: -1})
	}
	return s
}

func (u Units) foodRow(f *food.Food) Row {
	r := Row{Key: f.Ref.String(), Label: Cell{Text: f.Name, Bar: noBar(), Wrap: true}}
	r.Cells = []Cell{{Text: tableShort(f), Muted: true, Bar: noBar(), Tip: foodTip(f)}}
	for _, n := range u.all(foodFigures) {
		v, ok := f.Per100.Get(n)
		r.Cells = append(r.Cells, u.as(n).cell(v, ok))
	}
	return r
}

// HeldFoods lays out the foods a workbook holds: the cook's own, those that
// recipes use, and those kept from before, each group under its name.
func HeldFoods(b *recipes.Book) Sheet {
	u := UnitsOf(b)
	s := u.foodSheet()
	used := usedFoods(b)
	groups := make([][]*food.Food, 3)
	for _, f := range b.Foods() {
		at := 2
		switch {
		case Own(f):
			at = 0
		case used[f.Ref]:
			at = 1
		}
		groups[at] = append(groups[at], f)
	}
	for i, key := range []string{"foods.band.own", "foods.band.used", "foods.band.kept"} {
		if len(groups[i]) == 0 {
			continue
		}
		slices.SortFunc(groups[i], func(a, b *food.Food) int {
			if c := strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)); c != 0 {
				return c
			}
			return strings.Compare(a.Ref.String(), b.Ref.String())
		})
		s.Rows = append(s.Rows, Row{Key: key, Band: true, Label: text(words.Say(key))})
		for _, f := range groups[i] {
			s.Rows = append(s.Rows, u.foodRow(f))
		}
	}
	return s
}

// FoodFrom names a food's row in few words: "SR28 01001", or that it is her own.
func FoodFrom(f *food.Food) string {
	if Own(f) {
		return words.Say("foods.own")
	}
	return words.Say("foods.row", strings.ToUpper(f.Release), f.Code)
}

// tableShort names a food's table in a word.
func tableShort(f *food.Food) string {
	if Own(f) {
		return words.Say("foods.own")
	}
	return strings.ToUpper(f.Release)
}

// FoodSource says whose row it is, under which name and number.
func FoodSource(f *food.Food) string {
	switch {
	case Own(f) && f.Note == "":
		return words.Say("foods.source.own-bare")
	case Own(f):
		return words.Say("foods.source.own", f.Note)
	}
	name := f.Published
	if name == "" {
		name = f.Name
	}
	return words.Say("foods.source.published", tableName(f.Ref), f.Code, name)
}

// tableName says a release as a person does.
func tableName(r food.Ref) string {
	if nr, ok := strings.CutPrefix(r.Release, "sr"); ok && r.Source == food.StarterSource {
		return words.Say("tables.name.sr", nr)
	}
	if r.Source == "fdc" {
		return words.Say("tables.name.fdc", r.Release)
	}
	return words.Say("tables.name.other", r.Release)
}

// FoodCount says how many foods are shown, out of how many.
func FoodCount(shown, all int, searched bool) string {
	if searched {
		return words.Say("foods.count", shown, all)
	}
	return words.Say("foods.count-own", shown, all)
}

// FoodFigures lays out all figures of one food, per 100 g of edible part: what the
// workbook shows elsewhere stands before its other unit.
func (u Units) FoodFigures(f *food.Food) Sheet {
	s := Sheet{Corner: words.Say("foods.per-100g-edible"), Columns: []Column{
		{Key: "per100", Title: words.Say("line.per-100g"), Number: true, Index: -1},
	}}
	for _, n := range u.both(labelOrder) {
		v, ok := f.Per100.Get(n)
		rows := []Row{{Key: n.Key(), Label: text(WithUnit(n)), Cells: []Cell{exactCell(v, ok)}}}
		if n == food.Sodium {
			salt := Row{Key: SaltKey, Label: text(words.Say("foods.salt")), Cells: []Cell{exactCell(v*food.SaltPerSodium/1000, ok)}}
			rows = append(rows, salt)
			if u.salt {
				slices.Reverse(rows)
			}
		}
		s.Rows = append(s.Rows, rows...)
	}
	return s
}

// exactCell shows a figure with the places the table gives.
func exactCell(v float64, known bool) Cell {
	if !known {
		return Cell{Text: words.Say("foods.not-known"), Muted: true, Number: true, Bar: noBar(), Tip: words.Say("foods.blank")}
	}
	return Cell{Text: words.Trim(v, 2), Number: true, Bar: noBar()}
}

// FoodMeasures says what its household measures, a millilitre and the edible
// part weigh, and what was weighed.
func FoodMeasures(f *food.Food) []string {
	var out []string
	for _, m := range f.Measures {
		out = append(out, words.Say("foods.measure", m.String(), words.Trim(m.Grams, 2)))
	}
	if f.Density > 0 {
		out = append(out, words.Say("foods.density", words.Trim(f.Density, 3)))
	}
	if f.Edible > 0 && f.Edible < 1 {
		out = append(out, words.Say("foods.edible", words.Share(f.Edible)))
	}
	if f.State != "" {
		out = append(out, words.Say("foods.state", words.Say("state."+string(f.State))))
	}
	return out
}

// AllergenText says what is recorded of a food's allergens; not recorded is
// unknown, never free.
func AllergenText(a food.Allergens) string {
	if !a.Recorded && a.Contains == 0 && a.Depends == 0 {
		return words.Say("allergens.unknown")
	}
	var said []string
	if a.Contains != 0 {
		said = append(said, words.Say("allergens.contains", words.Join(AllergenNames(a.Contains))))
	}
	if a.Depends != 0 {
		said = append(said, words.Say("allergens.depends", words.Join(AllergenNames(a.Depends))))
	}
	switch {
	case !a.Recorded:
		said = append(said, words.Say("allergens.others-unknown"))
	case a.Contains == 0:
		said = slices.Insert(said, 0, words.Say("allergens.none"))
	}
	return strings.Join(said, " ")
}

// AllergenNames gives the words for a set of allergens.
func AllergenNames(a food.Allergen) []string {
	var out []string
	for _, k := range a.Keys() {
		out = append(out, words.Say("allergen."+k))
	}
	return out
}

// Lines puts sentences under one another.
func Lines(all []string) string { return strings.Join(all, "\n") }
