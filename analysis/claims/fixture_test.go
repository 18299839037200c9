package claims

import (
	"math"
	"testing"

	"parewell/recipes/food"
)

// amounts are the figures of a serving.
type amounts map[food.Nutrient]float64

// hundred is a category whose reference amount is 100 g, so that a serving of
// 100 g, the reference amount and 100 g are one.
var hundred = Category{Key: "test", Grams: 100}

// full is a serving of so many grams whose figures are all known: those given,
// and 0 for the rest.
func full(grams float64, given amounts) Side {
	figures := map[food.Nutrient]float64{}
	for n := food.Nutrient(0); n < food.NutrientCount; n++ {
		figures[n] = given[n]
	}
	return SideOf(grams, figures)
}

// facts sets two full servings of 100 g beside each other as a single food.
func facts(original, version amounts) Facts {
	f := Compared(full(100, original), full(100, version))
	f.Category, f.Kind = hundred, SingleFood
	return f
}

// dish does the same for servings of 300 g as a main dish or a meal.
func dish(k Kind, original, version amounts) Facts {
	f := Compared(full(300, original), full(300, version))
	f.Category, f.Kind = hundred, k
	return f
}

// ruling is the verdict of one rule.
func ruling(t *testing.T, f Facts, id string) Result {
	t.Helper()
	for _, r := range Judge(f) {
		if r.Rule.ID == id {
			return r
		}
	}
	t.Fatalf("no result for %s", id)
	return Result{}
}

// scaled multiplies figures, to turn 100 g into a serving.
func scaled(a amounts, by float64) amounts {
	out := amounts{}
	for n, v := range a {
		out[n] = v * by
	}
	return out
}

func with(a amounts, n food.Nutrient, v float64) amounts {
	out := scaled(a, 1)
	out[n] = v
	return out
}

const tiny = 1e-4

var nan = math.NaN()
