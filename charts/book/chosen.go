package book

import (
	"cmp"

	"parewell/analysis/claims"
	"parewell/charts/manuscript"
	"parewell/recipes"
)

// Settings of a workbook that say how its book is printed. An empty value is
// what is usual under the rule.
const (
	SettingTitle   = "print.title"   // of the book
	SettingUnits   = "print.units"   // Units
	SettingRule    = "print.rule"    // "eu" or "us"
	SettingEnergy  = "print.energy"  // KJ or Kcal
	SettingSalt    = "print.salt"    // Salt or Sodium
	SettingPaper   = "print.paper"   // key of a manuscript.Paper
	SettingWritten = "print.written" // Yes: round what the cook wrote too
	SettingChart   = "print.chart"   // Shares: where the calories are instead of the change; No: no picture
	SettingCaution = "print.caution" // No: leave cautions out
	SettingNotes   = "print.notes"   // No: leave notes to the editor and open points out
)

// Values of those settings.
const (
	KJ, Kcal     = "kj", "kcal"
	Salt, Sodium = "salt", "sodium"
	Yes, No      = "yes", "no"
	Shares       = "shares"
)

// OptionsOf returns how a workbook's pages are printed by its settings.
func OptionsOf(b *recipes.Book) Options {
	units, err := ParseUnits(b.Setting(SettingUnits))
	if err != nil {
		units = Metric // a value of a newer program
	}
	rule := claims.EU
	if b.Setting(SettingRule) == "us" {
		rule = claims.US
	}
	o := Usual(units, rule)
	set(&o.KJFirst, b.Setting(SettingEnergy), KJ, Kcal)
	set(&o.SaltNotSodium, b.Setting(SettingSalt), Salt, Sodium)
	set(&o.RoundWritten, b.Setting(SettingWritten), Yes, No)
	set(&o.NoChart, b.Setting(SettingChart), No, Yes)
	set(&o.Shares, b.Setting(SettingChart), Shares, Yes)
	set(&o.NoCautions, b.Setting(SettingCaution), No, Yes)
	set(&o.NoOpen, b.Setting(SettingNotes), No, Yes)
	for _, p := range []manuscript.Paper{manuscript.A4, manuscript.Letter} {
		if b.Setting(SettingPaper) == p.Key {
			o.Paper = p
		}
	}
	return o
}

// set puts a switch by a setting's value; any other value leaves it.
func set(to *bool, value, on, off string) {
	switch value {
	case on:
		*to = true
	case off:
		*to = false
	}
}

// TitleOf is the title over a recipe's page: what the cook chose for the book,
// else the recipe's own.
func TitleOf(r *recipes.Recipe) string { return cmp.Or(r.Print.Title, r.Title) }

// Printed returns the version of a recipe that is printed: the one the cook
// chose, else the newest; nil is the original.
func Printed(b *recipes.Book, r *recipes.Recipe) *recipes.Version {
	if r.Print.Version == recipes.PrintOriginal {
		return nil
	}
	if v := b.Version(r.ID, r.Print.Version); v != nil {
		return v
	}
	if all := b.Versions(r.ID); len(all) > 0 {
		return all[len(all)-1]
	}
	return nil
}

// ChoiceOf returns a recipe with the version of it that is printed.
func ChoiceOf(b *recipes.Book, r *recipes.Recipe) Choice {
	c := Choice{Recipe: r.ID}
	if v := Printed(b, r); v != nil {
		c.Version = v.ID
	}
	return c
}

// Chosen returns the recipes that are in the book with the version printed of
// each, in the Book's order.
func Chosen(b *recipes.Book) []Choice {
	var out []Choice
	for _, r := range b.Recipes() {
		if !r.Print.LeftOut {
			out = append(out, ChoiceOf(b, r))
		}
	}
	return out
}
