package sheets

import (
	"math"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Further settings of a workbook: how all its pages show energy and sodium.
const (
	SaltSetting = "salt"     // "yes": salt in grams instead of sodium in milligrams
	KJSetting   = "kj first" // "yes": energy in kJ leads
)

// yes is the value of a setting that is on.
const yes = "yes"

// Units are how a workbook shows energy and sodium, on every page alike; the zero
// value is kcal and sodium in mg. What is written to files does not go by it.
type Units struct{ kj, salt bool }

// UnitsOf reads them from a workbook's settings.
func UnitsOf(b *recipes.Book) Units {
	return Units{kj: b.Setting(KJSetting) == yes, salt: b.Setting(SaltSetting) == yes}
}

// Of is the nutrient to show where there is room for one energy: kJ where it
// leads.
func (u Units) Of(n food.Nutrient) food.Nutrient {
	if u.kj && n == food.EnergyKcal {
		return food.EnergyKJ
	}
	return n
}

// all is Of a whole list.
func (u Units) all(list []food.Nutrient) []food.Nutrient {
	out := make([]food.Nutrient, len(list))
	for i, n := range list {
		out[i] = u.Of(n)
	}
	return out
}

// leads tells whether a nutrient is the energy that stands first.
func (u Units) leads(n food.Nutrient) bool { return n == u.Of(food.EnergyKcal) }

// both puts kJ before kcal where it leads, in a list that may have both.
func (u Units) both(list []food.Nutrient) []food.Nutrient {
	if !u.kj {
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

// Shown are the nutrients of the Versions page, in the order of its rows.
func (u Units) Shown() []food.Nutrient { return u.both(Shown) }

// as says how a nutrient is shown: sodium as salt where the cook wants it (sodium
// times 2.5, Regulation (EU) 1169/2011 Annex I).
func (u Units) as(n food.Nutrient) shownAs {
	if n == food.Sodium && u.salt {
		return shownAs{name: words.Say("nutrient.salt"), unit: "g", decimals: 2, times: food.SaltPerSodium / 1000}
	}
	return shownAs{name: words.Say("nutrient." + n.Key()), unit: n.Unit(), decimals: words.Decimals(n.Unit()), times: 1}
}

// Label names a nutrient with its unit: "salt, g".
func (u Units) Label(n food.Nutrient) string { return u.as(n).label() }

// Amount is a figure of a nutrient as shown.
func (u Units) Amount(f nutrition.Figure, n food.Nutrient) string { return u.as(n).amount(f) }

// energy is a figure of energy with its unit: "541 kcal".
func (u Units) energy(of func(food.Nutrient) nutrition.Figure) string {
	s := u.as(u.Of(food.EnergyKcal))
	return s.amount(of(u.Of(food.EnergyKcal))) + " " + s.unit
}

// slipped says what a change made worse: "sodium +132 mg (+38 %)".
func (u Units) slipped(slips []nutrition.Slip) string {
	var out []string
	for _, slip := range slips {
		s := u.as(slip.Nutrient)
		one := s.name + " " + words.Signed(slip.Amount*s.times, s.decimals) + " " + s.unit
		if !math.IsNaN(slip.Percent) {
			one += " (" + words.Percent(slip.Percent) + ")"
		}
		out = append(out, one)
	}
	return words.Join(out)
}

// shownAs is how a nutrient is shown: its name, unit and places, and what its own
// unit is multiplied by.
type shownAs struct {
	name, unit string
	decimals   int
	times      float64
}

// as says how the workbook shows a nutrient.
func (x *Bench) as(n food.Nutrient) shownAs { return x.units.as(n) }

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

// with is a change with its unit, for a sentence: "–143 kcal (–21 %)".
func (s shownAs) with(c nutrition.Change) string {
	c.Amount *= s.times
	return changeWith(c, s.decimals, s.unit)
}

// short is a change for a narrow column: the bound is a sign, its words stand in
// the tip.
func (s shownAs) short(c nutrition.Change) string {
	text := words.Signed(c.Amount*s.times, s.decimals)
	switch c.Bound {
	case nutrition.NotSure:
		return words.Unknown
	case nutrition.AtLeast, nutrition.AtMost:
		return words.Say("swaps.about", text)
	}
	return text
}

// differ tells whether two changes are told with other digits.
func (s shownAs) differ(a, b nutrition.Change) bool {
	return a.Bound != b.Bound || words.Signed(a.Amount*s.times, s.decimals) != words.Signed(b.Amount*s.times, s.decimals)
}

// figure is a change with its name.
func (s shownAs) figure(c nutrition.Change) Figure {
	f := Figure{Name: s.name, Text: s.with(c)}
	if c.Bound != nutrition.NotSure && printsSome(words.Signed(c.Amount*s.times, s.decimals)) {
		f.Lighter, f.Heavier = c.Amount < 0, c.Amount > 0
	}
	return f
}

// slipped says what a change made worse, as the workbook shows it.
func (x *Bench) slipped(slips []nutrition.Slip) string { return x.units.slipped(slips) }

// leading are the nutrients the page shows: energy in kJ first where the cook
// wants it.
func (x *Bench) leading(all bool) []food.Nutrient {
	list := Leading
	if all {
		list = Shown
	}
	return x.units.both(list)
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
