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
// grams in the whole dish before and as printed, and what that moves.
type MovedLine struct {
	Line    recipes.ID
	Name    string
	Was, Is float64
	Kcal    float64
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
	out := &Moved{Own: kcal[0], Page: kcal[2], Rule: kcal[1] - kcal[0]}
	for i := range m.draft.Lines {
		was, known := exact.LineAmount(i, food.EnergyKcal)
		is, too := printed.LineAmount(i, food.EnergyKcal)
		by := (is - was) / m.draft.Servings
		if !known || !too || math.Abs(by) < 1e-9 {
			continue
		}
		x := MovedLine{Line: m.draft.Lines[i].Line.ID, Name: m.draft.Lines[i].Line.Name, Kcal: by}
		x.Was, _ = exact.Draft.Lines[i].Grams()
		x.Is, _ = printed.Draft.Lines[i].Grams()
		out.Lines = append(out.Lines, x)
	}
	slices.SortStableFunc(out.Lines, func(a, b MovedLine) int { return cmp.Compare(math.Abs(b.Kcal), math.Abs(a.Kcal)) })
	return out
}
