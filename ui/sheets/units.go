package sheets

import (
	"math"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Further settings of a workbook: how the Versions page shows energy and sodium.
const (
	SaltSetting = "salt"     // "yes": salt in grams instead of sodium in milligrams
	KJSetting   = "kj first" // "yes": energy in kJ leads
)

// yes is the value of a setting that is on.
const yes = "yes"

// shownAs is how a nutrient is shown: its name, unit and places, and what its own
// unit is multiplied by.
type shownAs struct {
	name, unit string
	decimals   int
	times      float64
}

// as says how the workbook shows a nutrient: sodium as salt where the cook wants
// it (sodium times 2.5, Regulation (EU) 1169/2011 Annex I).
func (x *Bench) as(n food.Nutrient) shownAs {
	if n == food.Sodium && x.book.Setting(SaltSetting) == yes {
		return shownAs{name: words.Say("nutrient.salt"), unit: "g", decimals: 2, times: food.SaltPerSodium / 1000}
	}
	return shownAs{name: words.Say("nutrient." + n.Key()), unit: n.Unit(), decimals: words.Decimals(n.Unit()), times: 1}
}

// label names it with its unit: "salt, g".
func (s shownAs) label() string { return words.Say("nutrient.with-unit", s.name, s.unit) }

// amount is a figure of it; "at least 0" and "about 0" say no more than that
// nothing is known.
func (s shownAs) amount(f nutrition.Figure) string {
	f.Amount *= s.times
	if (f.AtLeast || f.About) && strings.Trim(words.Number(f.Amount, s.decimals), "0.,") == "" {
		return words.Unknown
	}
	return amountIn(f, s.decimals)
}

func (s shownAs) change(c nutrition.Change) string {
	c.Amount *= s.times
	return changeIn(c, s.decimals)
}

// target says a target of it: "at most 500 kcal".
func (s shownAs) target(t recipes.Target) string {
	key := "target.at-most"
	if t.AtLeast {
		key = "target.at-least"
	}
	return words.Say(key, words.Trim(t.Amount*s.times, max(1, s.decimals)), s.unit)
}

// slipped says what a change made worse, as the workbook shows it.
func (x *Bench) slipped(slips []nutrition.Slip) string {
	var out []string
	for _, slip := range slips {
		s := x.as(slip.Nutrient)
		one := s.name + " " + words.Signed(slip.Amount*s.times, s.decimals) + " " + s.unit
		if !math.IsNaN(slip.Percent) {
			one += " (" + words.Percent(slip.Percent) + ")"
		}
		out = append(out, one)
	}
	return words.Join(out)
}

// leading are the nutrients the page shows: energy in kJ first where the cook
// wants it.
func (x *Bench) leading(all bool) []food.Nutrient {
	list := Leading
	if all {
		list = Shown
	}
	if x.book.Setting(KJSetting) != yes {
		return list
	}
	out := []food.Nutrient{food.EnergyKJ, food.EnergyKcal}
	for _, n := range list {
		if n != food.EnergyKJ && n != food.EnergyKcal {
			out = append(out, n)
		}
	}
	return out
}

// surely says that a change is smaller than what the weights may be off; empty
// when it is not, or when there is none.
func (x *Bench) surely(i int, n food.Nutrient) string {
	c, band := x.Change(i, n), nutrition.ChangeBand(x.Original(), x.Accounts[i], n)
	if i == 0 || c.Bound == nutrition.NotSure || c.Amount == 0 || math.Abs(c.Amount) >= band {
		return ""
	}
	s := x.as(n)
	return words.Say("sure.detail", words.Signed(c.Amount*s.times, s.decimals), words.Number(band*s.times, s.decimals), s.unit)
}
