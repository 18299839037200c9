package tables

import (
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// slot is where a published figure goes: a nutrient, and how good a figure it is
// for it where a table may have several (0 is best).
type slot struct {
	to   food.Nutrient
	rank uint8
}

// slots are the nutrient numbers of the USDA tables that Parewell keeps
// (NUTR_DEF of the standard reference, Release 26; nutrient.csv of FoodData
// Central has the same numbers and those with a dot and above 950, from memory).
// Of the second ones each is used only where the first is absent: energy by
// specific, then general factors; sugars as a sum; fibre by the newer method.
var slots = map[string]slot{
	"208": {food.EnergyKcal, 0}, "958": {food.EnergyKcal, 1}, "957": {food.EnergyKcal, 2},
	"268": {food.EnergyKJ, 0},
	"203": {food.Protein, 0},
	"204": {food.Fat, 0}, "298": {food.Fat, 1},
	"606": {food.SaturatedFat, 0},
	"205": {food.Carbohydrate, 0},
	"269": {food.Sugars, 0}, "269.3": {food.Sugars, 1},
	"539": {food.AddedSugars, 0},
	"291": {food.Fibre, 0}, "293": {food.Fibre, 1},
	"307": {food.Sodium, 0},
	"601": {food.Cholesterol, 0},
	"221": {food.Alcohol, 0},
	"255": {food.Water, 0},
	"306": {food.Potassium, 0},
	"301": {food.Calcium, 0},
	"303": {food.Iron, 0},
	"605": {food.TransFat, 0},
}

// massUnits are grams in one of a unit, by columnKey; energy has its own.
var massUnits = map[string]float64{"g": 1, "mg": 1e-3, "ug": 1e-6, "mcg": 1e-6, "g1": 1}

// scaleOf turns amounts in a published unit into the nutrient's own; false when
// they cannot be.
func scaleOf(n food.Nutrient, unit string) (float64, bool) {
	key := columnKey(unit)
	switch n.Unit() {
	case "kcal":
		return 1, key == "kcal"
	case "kJ":
		return 1, key == "kj"
	}
	grams, ok := massUnits[key]
	if key == "g" && unit != "g" && unit != "G" { // µg: columnKey has dropped the sign
		grams = 1e-6
	}
	if n.Unit() == "mg" {
		grams *= 1000
	}
	return grams, ok
}

// most is the greatest amount 100 g can hold, with room for rounding: 100 g of
// anything, pure fat in energy (902 kcal: USDA fish oils), salt's sodium and
// pure substances in mg.
func most(n food.Nutrient) float64 {
	switch n.Unit() {
	case "kcal":
		return 950
	case "kJ":
		return 3975
	case "mg":
		return 100_500
	}
	return 100.5
}

// set records a figure unless a better one is there; false when 100 g cannot
// hold so much.
func (e *entry) set(s slot, v float64) bool {
	if v > most(s.to) {
		return false
	}
	if _, known := e.Per100.Get(s.to); !known || s.rank < e.rank[s.to] {
		e.Per100.Set(s.to, v)
		e.rank[s.to] = s.rank
	}
	return true
}

// derive fills in the one energy that is not published from the other.
func derive(p *food.Profile) {
	kcal, inKcal := p.Get(food.EnergyKcal)
	kJ, inKJ := p.Get(food.EnergyKJ)
	switch {
	case inKcal && !inKJ:
		p.Set(food.EnergyKJ, kcal*food.KJPerKcal)
	case inKJ && !inKcal:
		p.Set(food.EnergyKcal, kJ/food.KJPerKcal)
	}
}

// nameOf is the nutrient as a person says it.
func nameOf(n food.Nutrient) string { return words.Say("nutrient." + n.Key()) }
