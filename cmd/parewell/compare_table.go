package main

import (
	"fmt"
	"io"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// shownNutrients are the rows of the table for people; --json has them all.
var shownNutrients = []food.Nutrient{
	food.EnergyKcal, food.EnergyKJ, food.Protein, food.Fat, food.SaturatedFat, food.Carbohydrate,
	food.Sugars, food.Fibre, food.Sodium, food.Cholesterol, food.Alcohol,
}

// writeComparison writes a report as a table: a row a nutrient, for each
// version its serving and how that differs from the original's.
func writeComparison(w io.Writer, r nutrition.Report) error {
	t := &table{right: map[int]bool{2: true}}
	title, servings, weight := []string{"", ""}, []string{words.Say("cmd.row.servings"), ""}, []string{words.Say("cmd.row.serving"), "g"}
	for i, v := range r.Versions {
		if i > 0 {
			t.right[1+2*i] = true // its figure; the change beside it reads from the left
		}
		title = append(title, v.Title)
		servings = append(servings, servingsCell(v))
		weight = append(weight, weightCell(v))
		if i > 0 {
			title, servings, weight = append(title, ""), append(servings, ""), append(weight, "")
		}
	}
	t.row(title...)
	t.row(servings...)
	t.row(weight...)
	for _, n := range shownNutrients {
		t.row(nutrientRow(r, n)...)
	}
	if err := t.write(w); err != nil {
		return err
	}
	return writeEffects(w, r)
}

func servingsCell(v nutrition.VersionReport) string {
	s := words.Trim(v.Servings, 1)
	if v.ServingsFrom == recipes.ServingsAssumed {
		return words.Say("cmd.assumed", s)
	}
	return s
}

func weightCell(v nutrition.VersionReport) string {
	if v.ServingG == nil {
		return words.Unknown
	}
	return atLeast(words.Number(*v.ServingG, 0), v.WeightAtLeast)
}

// atLeast marks a figure that some unknown part adds to.
func atLeast(s string, more bool) string {
	if more {
		return words.Say("amount.at-least", s)
	}
	return s
}

func nutrientRow(r nutrition.Report, n food.Nutrient) []string {
	places := words.Decimals(n.Unit())
	row := []string{words.Say("nutrient." + n.Key()), n.Unit()}
	for i, v := range r.Versions {
		cell := words.Unknown
		if x := v.Nutrients[n.Key()]; x != nil {
			cell = atLeast(words.Number(x.PerServing, places), x.AtLeast)
		}
		row = append(row, cell)
		if i > 0 {
			row = append(row, changeCell(v.Change[n.Key()], places))
		}
	}
	return row
}

// changeCell words a change: "–143 (–21 %)", bounded where something is unknown.
func changeCell(c nutrition.ChangeReport, places int) string {
	if c.Amount == nil {
		return words.Say("change.unknown")
	}
	s := words.Signed(*c.Amount, places)
	if c.Percent != nil {
		s += " (" + words.Percent(*c.Percent) + ")"
	}
	// The bound is of how much lighter; for a rise it is the other way round.
	rise := *c.Amount > 0
	switch {
	case c.Bound == nutrition.AtLeast && !rise, c.Bound == nutrition.AtMost && rise:
		return words.Say("change.at-least", s)
	case c.Bound == nutrition.AtMost, c.Bound == nutrition.AtLeast:
		return words.Say("change.at-most", s)
	}
	return s
}

// writeEffects says of each version's energy how much the recipe does and how
// much a smaller or larger helping.
func writeEffects(w io.Writer, r nutrition.Report) error {
	for _, v := range r.Versions[1:] {
		c := v.Change[food.EnergyKcal.Key()]
		if c.Recipe == nil || c.Portion == nil {
			continue
		}
		line := words.Say("cmd.effects", v.Title, words.Signed(*c.Recipe, 0), words.Signed(*c.Portion, 0))
		if _, err := fmt.Fprintln(w, line); err != nil {
			return err
		}
	}
	return nil
}

// writeDoubts lists what the cook should look at, what could move most first,
// and what was left out of each text.
func writeDoubts(w io.Writer, all []compared, foods *food.Table) error {
	for _, one := range all {
		if err := writeDoubtsOf(w, one.titled.Title, one.draft, foods); err != nil {
			return err
		}
	}
	return nil
}
