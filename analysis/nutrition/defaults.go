package nutrition

import (
	"parewell/recipes"
	"parewell/recipes/food"
)

// DefaultKind says what a default share is a share of.
type DefaultKind int

// Kinds of default.
const (
	OfLine  DefaultKind = iota // the part of the line that is eaten
	OfFried                    // grams of oil taken up for 1 g of what is fried in it
	OfBath                     // shares of a marinade, brine or cooking water, by part
)

// Default is a share that can stand in for a weighing, with the range it is
// usually found in. It is offered and never applied by itself. Words has its
// name under "default." + Key and its source under that + ".source".
type Default struct {
	Key              string
	Kind             DefaultKind
	Share, Low, High float64 // of OfLine and OfFried
	Uptake           recipes.Uptake
	Least, Most      recipes.Uptake
	fat              bool // offered for oils and fats
	watery           bool // offered for all else
}

// Defaults, each with how its figures came about.
var Defaults = []Default{
	// Popular range 8-25 % of the food's weight, of which the middle is taken.
	// What raises it: Makinson et al. 1987, J Food Compos Anal (deep-fried cubes
	// took up 6.1-86.3 g fat for 100 g dry matter, plant foods most, batters
	// less); Mellema 2003, doi:10.1016/S0924-2244(03)00050-5.
	{Key: "deep-fried", Kind: OfFried, Share: 0.165, Low: 0.08, High: 0.25, fat: true},
	// Common practice, no source: most of what shallow frying puts in the pan is
	// served with the food unless it is poured off.
	{Key: "pan-fried", Kind: OfLine, Share: 0.80, Low: 0.50, High: 1, fat: true},
	// One kitchen-laboratory test: pork tenderloin, an hour and a half in a soy
	// marinade, took up about 6 % of its salt. That water and oil follow in the
	// same share, and the range, are common practice, no source.
	{
		Key: "marinade", Kind: OfBath, Uptake: recipes.Uptake{Water: 0.06, Salt: 0.06, Fat: 0.06},
		Least: recipes.Uptake{Water: 0.02, Salt: 0.02, Fat: 0.02}, Most: recipes.Uptake{Water: 0.15, Salt: 0.15, Fat: 0.15}, fat: true, watery: true,
	},
	// A magazine's laboratory: half an hour in half a cup of salt to two quarts
	// of water left chicken breast with 353 and pork chops with 245 mg of sodium
	// in 100 g cooked. For 1 kg of raw meat, about 740 g cooked, less the 60 mg in
	// 100 g it has by itself, that is 3.8 and 2.5 % of the 55,800 mg in the brine.
	// The range covers more meat or less brine: common practice, no source.
	{
		Key: "brine", Kind: OfBath, Uptake: recipes.Uptake{Water: 0.03, Salt: 0.03},
		Least: recipes.Uptake{Water: 0.01, Salt: 0.01}, Most: recipes.Uptake{Water: 0.10, Salt: 0.10}, watery: true,
	},
	// Food Chem 2019;271:479-487, doi:10.1016/j.foodchem.2018.07.198: 454 g pasta
	// in 5.68 l with 36 g of salt; 247 mg of sodium in 140 g cooked, 490 mg at
	// twice the salt, a third less when rinsed. The dry pasta gives 1,021 g cooked
	// (yield 2.248), 7.29 such servings: 1,801 of 13,953 mg, 12.9 %; at twice the
	// salt it is 12.8 %. Rinsed: 8.5 %. High is 490 mg read at the plain strength.
	// Water: 567 g of 5,680.
	{
		Key: "pasta-water", Kind: OfBath, Uptake: recipes.Uptake{Water: 0.10, Salt: 0.129},
		Least: recipes.Uptake{Water: 0.08, Salt: 0.085}, Most: recipes.Uptake{Water: 0.16, Salt: 0.256}, watery: true,
	},
	// Rice takes up 1.65 g of water a gram (USDA SR28, 20044 and 20045); in ten
	// times its weight of water that is 16.5 %, salt with it; twelve and six times
	// give the range.
	{
		Key: "rice-water", Kind: OfBath, Uptake: recipes.Uptake{Water: 0.165, Salt: 0.165},
		Least: recipes.Uptake{Water: 0.1375, Salt: 0.1375}, Most: recipes.Uptake{Water: 0.275, Salt: 0.275}, watery: true,
	},
	// Follows from the method: what is not poured away is eaten.
	{
		Key: "absorbed", Kind: OfBath, Uptake: recipes.Uptake{Water: 1, Salt: 1, Fat: 1},
		Least: recipes.Uptake{Water: 0.95, Salt: 0.95, Fat: 0.95}, Most: recipes.Uptake{Water: 1, Salt: 1, Fat: 1}, watery: true,
	},
}

// mostlyFat is the fat, in g for 100 g, from which a food is an oil or a fat.
const mostlyFat = 60

// DefaultsFor lists the defaults that can stand for a line of a food; for a
// food that is not known, those of watery ones.
func DefaultsFor(f *food.Food) []Default {
	fat := false
	if f != nil {
		v, _ := f.Per100.Get(food.Fat)
		fat = v >= mostlyFat
	}
	var out []Default
	for _, d := range Defaults {
		if fat && d.fat || !fat && d.watery {
			out = append(out, d)
		}
	}
	return out
}

// FriedGrams returns the edible weight, in g, of what is deep-fried in the dish
// by its own technique or the dish's, oils and fats left out; 0 when nothing is.
func (a *Account) FriedGrams() float64 {
	sum := 0.0
	for i := range a.Lines {
		d, la := &a.Draft.Lines[i], &a.Lines[i]
		if la.sign < 0 || !la.Weighed || la.Food == nil {
			continue
		}
		fat, _ := la.Food.Per100.Get(food.Fat)
		if m := MethodOf(techniqueOf(d, a.Draft.Dish)); m != nil && m.Key == "deep-fried" && fat < mostlyFat {
			sum += la.Edible
		}
	}
	return sum
}

// PartOf returns the part of a line of so many grams that is eaten by a
// default, 0-1; false for a bath, which has its shares, and for oil when nothing
// is fried in it.
func (d Default) PartOf(grams, fried float64) (float64, bool) {
	switch d.Kind {
	case OfLine:
		return d.Share, true
	case OfFried:
		if grams > 0 && fried > 0 {
			return min(1, d.Share*fried/grams), true
		}
	}
	return 0, false
}
