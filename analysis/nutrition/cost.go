package nutrition

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// Cost is what a dish costs by the cook's own prices. AtLeast says that lines
// in Open have no price or no weight, and are not in Money.
type Cost struct {
	Money   float64
	AtLeast bool
	Open    []recipes.ID
}

// Cost reckons a whole dish. What is bought counts: a weight of edible part is
// divided by the edible share (AP = EP / yield, school food-service practice),
// and what is left in the bowl or poured off is paid all the same. Another
// recipe's part costs its share.
func (a *Account) Cost(price func(food.Ref) *recipes.Price) Cost {
	var c Cost
	for i := range a.Lines {
		d, la := &a.Draft.Lines[i], &a.Lines[i]
		switch {
		case d.Gone() || la.sign < 0:
		case la.Sub != nil:
			sub := la.Sub.Cost(price)
			c.Money += sub.Money * la.Parts
			if sub.AtLeast {
				c.Open = append(c.Open, d.Line.ID)
			}
		case la.Food == nil || !la.Weighed || price(la.Food.Ref) == nil:
			c.Open = append(c.Open, d.Line.ID)
		default:
			c.Money += price(la.Food.Ref).PerGram() * la.bought(d)
		}
	}
	c.AtLeast = len(c.Open) > 0
	return c
}

// bought is the line's weight as it is paid for.
func (la *LineAccount) bought(d *recipes.DraftLine) float64 {
	if d.Line.AsBought {
		return la.Grams
	}
	return la.Grams / la.Food.EdiblePart()
}
