package sheets

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// PreviewSheet is what a pasted recipe was understood as, before it is added.
type PreviewSheet struct {
	Title   string
	Caption string // servings and how sure they are
	Numbers string // one line of figures a serving
	Notes   []string
	Lines   Sheet
}

// Preview reckons a recipe that is not in any Book yet.
func (u Units) Preview(r *recipes.Recipe, foods []*food.Food) (PreviewSheet, error) {
	b := &recipes.Book{}
	c, err := recipes.AddRecipe(r, foods)(b)
	if err != nil {
		return PreviewSheet{}, err
	}
	if b, err = b.With(c); err != nil {
		return PreviewSheet{}, err
	}
	x := NewBench(b, b.Recipe(r.ID))
	x.units = u
	p := PreviewSheet{Title: x.Recipe.Title, Caption: ServesText(r), Numbers: x.numbersLine(), Lines: x.previewLines()}
	if n := Doubts(r); n > 0 {
		p.Notes = append(p.Notes, words.Say("preview.doubts", n))
	}
	return p, nil
}

// previewLines is the Ingredients sheet without what cannot be changed yet:
// grams, food, energy and whether it is sure.
func (x *Bench) previewLines() Sheet {
	s := x.Ingredients().Only([]int{OrigGrams, OrigFood, OrigEnergy, OrigStatus})
	for r := range s.Rows {
		row := &s.Rows[r]
		row.Label.Editable = false
		for c := range row.Cells {
			row.Cells[c].Editable = false
		}
	}
	return s
}

// ServesText says the servings and how sure they are.
func ServesText(r *recipes.Recipe) string {
	n := words.Trim(r.Servings, 2)
	switch r.ServingsFrom {
	case recipes.ServingsRange:
		return words.Say("serves.range", n, words.Trim(r.ServingsHigh, 2))
	case recipes.ServingsAssumed:
		return words.Say("serves.assumed", n)
	}
	if r.Makes != "" {
		return words.Say("serves.makes", r.Makes, n)
	}
	return words.Say("serves.stated", n)
}

// lineFigures are the figures of a one-line summary.
var lineFigures = []food.Nutrient{food.EnergyKcal, food.Fat, food.SaturatedFat, food.Carbohydrate, food.Protein, food.Sodium}

// numbersLine says a serving in one line: "684 kcal · fat 43.1 g · ...".
func (x *Bench) numbersLine() string {
	out := ""
	for i, n := range x.units.all(lineFigures) {
		as := x.as(n)
		one := as.amount(x.Original().PerServing(n)) + " " + as.unit
		if !x.units.leads(n) {
			one = as.name + " " + one
		}
		if i > 0 {
			out += "  ·  "
		}
		out += one
	}
	return words.Say("preview.per-serving", out)
}

// Skipped says what text was left out of a draft, and whether more recipes
// stood in the same text.
func Skipped(d *reading.Draft, more int) []string {
	var out []string
	if n := len(d.Skipped); n > 0 {
		out = append(out, words.Say("preview.skipped", n, d.Skipped[0].Text))
	}
	if more > 0 {
		out = append(out, words.Say("preview.more", more))
	}
	return out
}
