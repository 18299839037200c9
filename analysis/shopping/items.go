package shopping

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
)

// Item is one food of the list, from all pots together. Grams are as bought: with
// peel, bone or shell where the food has any. Where Check is not empty there is
// more to buy than Grams, nobody knows how much.
type Item struct {
	Food  food.Ref // zero when the ingredient has no food
	Name  string
	State food.State // cooked, drained or frozen where that was weighed; else ""
	Grams float64    // what is known of the need
	Stock float64    // g on hand
	Check []string   // ingredients as written whose amount is not known, each once
	Pots  []int      // places in List.Pots
	Row   *food.Food // nil when the ingredient has no food
}

// Struck is what is taken from what is on hand, in grams.
func (i *Item) Struck() float64 { return math.Min(i.Stock, i.Grams) }

// Buy is what is still bought of the known need, in grams.
func (i *Item) Buy() float64 { return i.Grams - i.Struck() }

// Done tells whether nothing is left to buy or to look up.
func (i *Item) Done() bool { return len(i.Check) == 0 && i.Buy() < 0.05 }

// counter adds up the lines of pots by food.
type counter struct{ items map[string]*Item }

// deepest is how far recipes inside recipes are followed; the Book refuses loops.
const deepest = 12

// account adds a dish cooked so many times for a pot; times NaN is not known.
// What is bought counts: a section used in part is cooked whole, what is left in
// the bowl or poured off is bought all the same.
func (c *counter) account(a *nutrition.Account, times float64, pot, depth int) {
	for i := range a.Lines {
		d, la := &a.Draft.Lines[i], &a.Lines[i]
		switch {
		case d.Gone() || d.Line.Kind == recipes.TakenOff:
		case la.Sub != nil && depth < deepest:
			inner := times * la.Parts
			if la.Parts <= 0 {
				inner = math.NaN() // so much of a dish whose weight is not known
			}
			c.account(la.Sub, inner, pot, depth+1)
		default:
			c.line(d, la, times, pot)
		}
	}
}

// line adds one ingredient.
func (c *counter) line(d *recipes.DraftLine, la *nutrition.LineAccount, times float64, pot int) {
	item := c.item(d, la.Food)
	if !slices.Contains(item.Pots, pot) {
		item.Pots = append(item.Pots, pot)
	}
	grams := times * bought(d, la)
	if !la.Weighed || math.IsNaN(grams) {
		if !slices.Contains(item.Check, d.Line.Text) {
			item.Check = append(item.Check, d.Line.Text)
		}
		return
	}
	item.Grams += grams
}

// bought is a line's weight as it is paid for: a weight of the edible part is
// divided by the edible share (AP = EP / yield, school food-service practice).
func bought(d *recipes.DraftLine, la *nutrition.LineAccount) float64 {
	if d.Line.AsBought || la.Food == nil {
		return la.Grams
	}
	return la.Grams / la.Food.EdiblePart()
}

// item finds or starts the item of a line: rice weighed cooked is another than
// rice weighed dry.
func (c *counter) item(d *recipes.DraftLine, f *food.Food) *Item {
	x := Item{Name: d.Line.Name, Row: f}
	if x.Name == "" {
		x.Name = d.Line.Text
	}
	key := "name/" + fold(x.Name)
	if f != nil {
		x.Food, x.Name, key = f.Ref, f.Name, f.Ref.String()
	}
	switch d.State {
	case food.Cooked, food.Drained, food.Frozen:
		x.State = d.State
		key += "/" + string(d.State)
	}
	if c.items[key] == nil {
		c.items[key] = &x
	}
	return c.items[key]
}

// list puts the items in order and strikes off what is on hand.
func (c *counter) list(s store) []Item {
	out := make([]Item, 0, len(c.items))
	for _, x := range c.items {
		slices.Sort(x.Check)
		slices.Sort(x.Pots)
		out = append(out, *x)
	}
	slices.SortFunc(out, func(x, y Item) int {
		return cmp.Or(strings.Compare(fold(x.Name), fold(y.Name)), strings.Compare(x.Food.String(), y.Food.String()), cmp.Compare(x.State, y.State))
	})
	for i := range out {
		out[i].Stock = s.take(&out[i])
	}
	return out
}

// store is what is on hand; what one item takes is gone for the next.
type store map[string]float64

func newStore(onHand map[string]float64) store {
	s := store{}
	for k, g := range onHand {
		if g > 0 {
			s[fold(k)] += g
		}
	}
	return s
}

// take gives an item what is on hand of it, by its food first, then by name. The
// amount an item does not need stays for another state of the same food, unless
// the item has a need that nobody knows.
func (s store) take(x *Item) float64 {
	got := 0.0
	for _, key := range []string{fold(x.Food.String()), fold(x.Name)} {
		have := s[key]
		if key == "" || have <= 0 {
			continue
		}
		if len(x.Check) == 0 {
			have = math.Min(have, x.Grams-got)
		}
		s[key] -= have
		got += have
	}
	return got
}

// fold makes names that a person would call the same the same.
func fold(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }
