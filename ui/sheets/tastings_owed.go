package sheets

import (
	"slices"
	"strconv"

	"parewell/recipes"
	"parewell/recipes/words"
)

// owedCell says how a seat stands: answers to come, all in, away, left, free.
func (g *ScoreGrid) owedCell(seat *recipes.Seat, n int) Cell {
	c := Cell{Number: true, Muted: true, Bar: noBar()}
	switch {
	case seat.Panelist == "":
		c.Text = words.Say("tastings.free")
	case seat.Away != "":
		c.Text, c.Tip = words.Say("tastings.is-away"), seat.Away
		if slices.ContainsFunc(g.book.Servings(g.Tasting.ID), func(s *recipes.Serving) bool { return s.Panelist == seat.Panelist }) {
			c.Text = words.Say("tastings.has-left") // what she answered counts
		}
	case n > 0:
		c.Text, c.Muted, c.Tip = strconv.Itoa(n), false, words.Say("tastings.owes", n)
	default:
		c.Mark, c.Tip = Met, words.Say("tastings.all-in")
	}
	return c
}
