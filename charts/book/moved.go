package book

import (
	"cmp"
	"math"
	"slices"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

// Moved says why a page prints another energy than the workbook shows for the same
// version: its rule counts otherwise, and it counts the amounts as it prints them.
// All are kcal a serving; Own + Rule + the lines' sum is Page.
type Moved struct {
	Own, Page, Rule float64
	Lines           []MovedLine // what rounding moved, the largest first
}

// MovedLine is an ingredient whose printed amount is another than the version's:
// grams in the whole dish before and as printed, and what that moves of a nutrient, in
// its unit, a serving.
type MovedLine struct {
	Line    recipes.ID
	Name    string
	Was, Is float64
	By      float64
}

// movedOf is nil where one of the figures is not wholly known. exact and printed are
// the page's own accounts, of the draft and of its amounts as printed.
func (m *maker) movedOf(exact, printed *nutrition.Account) *Moved {
	own := nutrition.In(m.book).Of(m.draft)
	var kcal [3]float64
	for i, a := range []*nutrition.Account{own, exact, printed} {
		f := a.PerServing(food.EnergyKcal)
		if f.Nowhere || f.AtLeast || f.About {
			return nil
		}
		kcal[i] = f.Amount
	}
	return &Moved{Own: kcal[0], Page: kcal[2], Rule: kcal[1] - kcal[0], Lines: movedLines(exact, printed, food.EnergyKcal)}
}

// movedLines are the ingredients whose rounding moves a nutrient, those that move it
// most first.
func movedLines(exact, printed *nutrition.Account, n food.Nutrient) []MovedLine {
	var out []MovedLine
	for i := range exact.Draft.Lines {
		was, known := exact.LineAmount(i, n)
		is, too := printed.LineAmount(i, n)
		by := (is - was) / exact.Draft.Servings
		if !known || !too || math.Abs(by) < 1e-9 {
			continue
		}
		l := exact.Draft.Lines[i].Line
		x := MovedLine{Line: l.ID, Name: l.Name, By: by}
		x.Was, _ = exact.Draft.Lines[i].Grams()
		x.Is, _ = printed.Draft.Lines[i].Grams()
		out = append(out, x)
	}
	slices.SortStableFunc(out, func(a, b MovedLine) int { return cmp.Compare(math.Abs(b.By), math.Abs(a.By)) })
	return out
}
