// Package exchange lets recipes leave and come back: versions side by side as
// CSV, one version as plain text or as a schema.org Recipe in JSON-LD, and the
// way in for files and pasted text. It works on io.Writer and bytes; the
// numbers it writes are handed to it.
package exchange

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// Figure is a number that may be unknown (Known false) or only a part of the
// whole (AtLeast).
type Figure struct {
	Amount  float64
	Known   bool
	AtLeast bool
}

// whole tells whether the figure can stand without a caveat.
func (f Figure) whole() bool { return f.Known && !f.AtLeast }

// Change is a version less its original, per serving of each: lighter is
// negative. Percent is NaN where there is none; Bound is "exact", "at_least",
// "at_most" or "unknown".
type Change struct {
	Amount  float64
	Percent float64
	Bound   string
}

// Column is one version worked out. Nutrients are per serving in the
// nutrient's own unit; Serving is the weight of one serving in grams.
type Column struct {
	Draft   *recipes.Draft
	Serving Figure
	Per     [food.NutrientCount]Figure
	Change  [food.NutrientCount]Change // meaningless for the original
}

// letter heads the column: "original", "A", "B" ...
func (c *Column) letter() string {
	if c.Draft.Version == nil {
		return "original"
	}
	return c.Draft.Version.Letter
}

// name is the cook's name for the version, "" for the original.
func (c *Column) name() string {
	if c.Draft.Version == nil {
		return ""
	}
	return c.Draft.Version.Name
}

// Sheet is a recipe's versions side by side; the first column is the original.
type Sheet struct {
	Recipe  *recipes.Recipe
	Swaps   []*recipes.Swap // rows of ticks
	Columns []Column
}
