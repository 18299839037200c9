package effects

import (
	"cmp"
	"slices"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
)

// Look is one ingredient worth looking at, with why and what could be done.
type Look struct {
	Line   *recipes.Line
	Shares []Share // the nutrients it is a large part of, largest share first
	Ideas  []Fitted
}

// Share is a line's part of the dish's known total of a nutrient, 0-1.
type Share struct {
	Nutrient food.Nutrient
	Part     float64
}

// Fitted is an idea with the swap it would make and its real effect here.
type Fitted struct {
	Idea   ideas.Idea
	Effect *Effect
}

// looked are the nutrients that make an ingredient worth a look.
var looked = []food.Nutrient{food.EnergyKcal, food.SaturatedFat, food.Sodium, food.Sugars}

// worthLook is the least share of any of them that does; common practice, no
// source: below it no swap of one ingredient shows on the plate.
const worthLook = 0.05

// Biggest returns the original's lines that hold most of its energy, saturated
// fat, sodium or sugars, largest share first, at most most of them, each with
// the catalogue's ideas and what they do to this dish. Lines of which nothing
// is known are not among them. newID names the swaps the ideas would make.
func Biggest(c *ideas.Catalogue, r *recipes.Recipe, foods nutrition.Foods, newID func() recipes.ID, most int) ([]Look, error) {
	looks := ranked(nutrition.Of(recipes.Compose(r, nil, nil), foods))
	if len(looks) > most {
		looks = looks[:most]
	}
	for i := range looks {
		var err error
		if looks[i].Ideas, err = Fit(c, r, looks[i].Line, foods, newID); err != nil {
			return nil, err
		}
	}
	return looks, nil
}

// Fit returns the ideas for one line with their effects, in the order of
// ideas.For.
func Fit(c *ideas.Catalogue, r *recipes.Recipe, line *recipes.Line, foods nutrition.Foods, newID func() recipes.ID) ([]Fitted, error) {
	var out []Fitted
	for _, x := range c.For(r, line, foods) {
		e, err := Of(r, x.SwapFor(newID(), r.ID), With(foods, x.Foods))
		if err != nil {
			return nil, err
		}
		out = append(out, Fitted{Idea: x, Effect: e})
	}
	return out, nil
}

// ranked gathers the lines worth a look from the contributions.
func ranked(a *nutrition.Account) []Look {
	at := map[recipes.ID]int{}
	var out []Look
	for _, n := range looked {
		for _, c := range a.Contributions(n) {
			if !c.Known || c.Share < worthLook || c.Line.Kind == recipes.TakenOff {
				continue
			}
			i, ok := at[c.Line.ID]
			if !ok {
				i = len(out)
				at[c.Line.ID] = i
				out = append(out, Look{Line: c.Line})
			}
			out[i].Shares = append(out[i].Shares, Share{Nutrient: n, Part: c.Share})
		}
	}
	for i := range out {
		slices.SortStableFunc(out[i].Shares, func(x, y Share) int { return cmp.Compare(y.Part, x.Part) })
	}
	slices.SortStableFunc(out, func(x, y Look) int { return cmp.Compare(y.Shares[0].Part, x.Shares[0].Part) })
	return out
}
