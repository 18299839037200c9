package nutrition

import (
	"math"

	"parewell/recipes"
	"parewell/recipes/food"
)

// Kitchen is what a reckoning draws on besides the draft. Only Foods is needed;
// the zero of all else means the plain rules.
type Kitchen struct {
	Foods   Foods
	Sub     func(recipes.SubRecipe) *Account       // another recipe's version; nil when it is not there
	Basis   EnergyBasis                            // "" is each table's own
	Weighed func(d *recipes.Draft) (Weighed, bool) // kept tests of the draft's version
}

// Weighed is the cooked weight of a version by its kept tests: the mean of
// Tests of them with the range they came to, in grams for the whole dish.
type Weighed struct {
	Mean, Low, High float64
	Tests           int
}

// In is the kitchen of a Book: its pinned foods, its other recipes, its kept
// tests and its energy basis.
func In(b *recipes.Book) Kitchen {
	k := Kitchen{Foods: b.Food, Basis: EnergyBasis(b.Setting(BasisSetting))}
	k.Weighed = func(d *recipes.Draft) (Weighed, bool) { return weighedIn(b, d) }
	k.Sub = func(s recipes.SubRecipe) *Account {
		r := b.Recipe(s.Recipe)
		if r == nil {
			return nil
		}
		return k.Of(b.Draft(r, b.Version(s.Recipe, s.Version))) // the Book refuses loops
	}
	return k
}

// BasisSetting is the name of the workbook setting that chooses the basis.
const BasisSetting = "energy basis"

// weighedIn averages the kept tests of a draft's version that were weighed.
func weighedIn(b *recipes.Book, d *recipes.Draft) (Weighed, bool) {
	version := recipes.ID("")
	if d.Version != nil {
		version = d.Version.ID
	}
	w := Weighed{Low: math.Inf(1), High: math.Inf(-1)}
	for _, t := range b.Batches(d.Recipe.ID) {
		g, ok := t.CookedGrams()
		if !ok || t.Version != version || t.SetAside != "" {
			continue
		}
		w.Tests++
		w.Mean += g
		w.Low, w.High = math.Min(w.Low, g), math.Max(w.High, g)
	}
	if w.Tests == 0 {
		return Weighed{}, false
	}
	w.Mean /= float64(w.Tests)
	return w, true
}

// row returns a food's row in the kitchen's energy basis.
func (k *Kitchen) row(f *food.Food) *food.Food {
	if k.Basis == "" || k.Basis == TableEnergy {
		return f
	}
	c := *f
	c.Per100 = InBasis(&f.Per100, k.Basis)
	return &c
}
