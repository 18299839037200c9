// Package sheet fills the plain values that recipes/exchange writes with what
// analysis/nutrition reckons: one column a version, the original first.
package sheet

import (
	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/exchange"
	"parewell/recipes/food"
)

// Of reckons a recipe of the Book with the given versions beside its original;
// no versions gives all of them.
func Of(b *recipes.Book, r *recipes.Recipe, versions ...*recipes.Version) *exchange.Sheet {
	if len(versions) == 0 {
		versions = b.Versions(r.ID)
	}
	s := &exchange.Sheet{Recipe: r, Swaps: b.Swaps(r.ID)}
	kitchen := nutrition.In(b)
	accounts := []*nutrition.Account{kitchen.Of(b.Draft(r, nil))}
	for _, v := range versions {
		accounts = append(accounts, kitchen.Of(b.Draft(r, v)))
	}
	nutrition.CommonBasis(accounts)
	s.Columns = append(s.Columns, Column(accounts[0], nil))
	for _, a := range accounts[1:] {
		s.Columns = append(s.Columns, Column(a, accounts[0]))
	}
	return s
}

// Column turns an account into a column; a nil original leaves the changes out.
func Column(a, original *nutrition.Account) exchange.Column {
	c := exchange.Column{Draft: a.Draft}
	g, whole := a.ServingGrams()
	c.Serving = exchange.Figure{Amount: g, Known: g > 0, AtLeast: !whole}
	for n := range c.Per {
		f := a.PerServing(food.Nutrient(n))
		c.Per[n] = exchange.Figure{Amount: f.Amount, Known: !f.Nowhere, AtLeast: f.AtLeast}
		if original != nil {
			d := nutrition.Compare(original, a, food.Nutrient(n))
			c.Change[n] = exchange.Change{Amount: d.Amount, Percent: d.Percent, Bound: string(d.Bound)}
		}
	}
	return c
}
