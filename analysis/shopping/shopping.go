// Package shopping reckons what a tasting takes from the kitchen: how often each
// version is cooked so that every cup can be filled, and one shopping list over
// all pots with what is on hand struck off. It reads values and returns values.
package shopping

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/tasting"
)

// Ask is what the cook decides.
type Ask struct {
	Whole  bool               // whole batches only; else just as much as is needed
	OnHand map[string]float64 // g in the house, by food.Ref.String() or by name in any case
}

// List is what a tasting takes.
type List struct {
	Pots  []Pot  // the original's first, then by version and pot, then benchmark dishes
	Items []Item // by name
}

// Pot is one cooking of one version for a tasting.
type Pot struct {
	Key     string // of tasting.PotOf
	Name    string // "Original", the version's letter or the dish: kitchen only
	Number  int    // 1, 2: which pot of the version
	Version recipes.ID
	Dish    string // a benchmark dish: it has no recipe, so nothing of it is on the list
	Samples []recipes.ID
	Cups    int
	Grams   float64 // needed in all, spare included; NaN when no portion is set

	Once     float64              // g that one cooking gives; NaN when not known
	AtLeast  bool                 // some ingredient's weight is not known: it gives more than Once
	From     nutrition.CookedFrom // what Once rests on
	Times    float64              // how often the recipe is cooked; NaN when not known
	Servings float64              // of one cooking
}

// Known tells whether it is known how often the pot's recipe is cooked.
func (p *Pot) Known() bool { return !math.IsNaN(p.Times) }

// Makes is what is cooked in all, in grams; NaN when not known.
func (p *Pot) Makes() float64 { return p.Times * p.Once }

// Of reckons what a tasting takes. k weighs the cooked dishes.
func Of(b *recipes.Book, t *recipes.Tasting, k nutrition.Kitchen, ask Ask) *List {
	r := b.Recipe(t.Recipe)
	list := &List{Pots: potsOf(b, t)}
	c := &counter{items: map[string]*Item{}}
	accounts := map[recipes.ID]*nutrition.Account{}
	for i := range list.Pots {
		p := &list.Pots[i]
		if p.Dish != "" || r == nil {
			continue
		}
		a := accounts[p.Version]
		if a == nil {
			a = k.Of(b.Draft(r, b.Version(r.ID, p.Version)))
			accounts[p.Version] = a
		}
		p.weigh(a, ask.Whole)
		if p.Cups > 0 {
			c.account(a, p.Times, i, 0)
		}
	}
	list.Items = c.list(newStore(ask.OnHand))
	return list
}

// potsOf gathers the samples that come out of one pot.
func potsOf(b *recipes.Book, t *recipes.Tasting) []Pot {
	var out []Pot
	for _, a := range tasting.Amounts(b, t) {
		key := tasting.PotOf(a.Sample)
		i := slices.IndexFunc(out, func(p Pot) bool { return p.Key == key })
		if i < 0 {
			i = len(out)
			out = append(out, Pot{
				Key: key, Name: tasting.NameOf(b, t, a.Sample), Number: max(1, a.Sample.Pot),
				Version: a.Sample.Version, Dish: a.Sample.Dish, Once: math.NaN(), Times: math.NaN(),
			})
		}
		p := &out[i]
		p.Samples = append(p.Samples, a.Sample.ID)
		p.Cups += a.Cups
		p.Grams += a.Grams
	}
	for i := range out {
		slices.Sort(out[i].Samples)
		if p := &out[i]; p.Cups > 0 && p.Grams <= 0 {
			p.Grams = math.NaN()
		}
	}
	slices.SortFunc(out, func(x, y Pot) int {
		return cmp.Or(cmp.Compare(rank(x), rank(y)), strings.Compare(x.Name, y.Name), cmp.Compare(x.Number, y.Number), strings.Compare(x.Key, y.Key))
	})
	return out
}

func rank(p Pot) int {
	switch {
	case p.Dish != "":
		return 2
	case p.Version != "":
		return 1
	}
	return 0
}

// slack keeps a need that is a whole number of batches but for the last digit of
// a sum from asking for one more.
const slack = 1e-9

// weigh finds how often the recipe is cooked. An account that is "at least" gives
// enough: the pot then holds more than was reckoned.
func (p *Pot) weigh(a *nutrition.Account, whole bool) {
	once, complete := a.CookedGrams()
	p.AtLeast, p.From, p.Servings = !complete, a.CookedBy, a.Draft.Servings
	switch {
	case once > 0:
		p.Once = once
		p.Times = p.Grams / once
	case p.Cups == 0:
		p.Times = 0
	}
	if whole {
		p.Times = math.Ceil(p.Times - slack)
	}
}
