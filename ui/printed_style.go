package ui

import (
	"fyne.io/fyne/v2"

	"parewell/analysis/claims"
	"parewell/charts/book"
	"parewell/recipes"
	"parewell/recipes/words"
	"parewell/ui/parts"
)

// printStyle is how all pages of the book are printed: measures, rules, paper.
type printStyle struct {
	w                    *Window
	view                 fyne.CanvasObject
	units, rule, energy  *parts.Segmented
	salt, chart, paper   *parts.Segmented
	care, notes, written *parts.Check
}

func newPrintStyle(w *Window) *printStyle {
	s := &printStyle{w: w}
	row := func(setting string, keys ...string) *parts.Segmented {
		var items []parts.Suggestion
		for i := 0; i+1 < len(keys); i += 2 {
			items = append(items, parts.Suggestion{Key: keys[i], Text: words.Say(keys[i+1])})
		}
		pick := parts.NewSegmented(items, "", func(key string) { w.do(recipes.Set(setting, key)) })
		w.pin(setting, pick)
		return pick
	}
	s.units = row(book.SettingUnits, string(book.Metric), "printed.units.metric", string(book.US), "printed.units.us", string(book.Both), "printed.units.both")
	s.rule = row(book.SettingRule, "eu", "printed.rule.eu", "us", "printed.rule.us")
	s.energy = row(book.SettingEnergy, book.KJ, "printed.kj", book.Kcal, "printed.kcal")
	s.salt = row(book.SettingSalt, book.Salt, "printed.as-salt", book.Sodium, "printed.as-sodium")
	s.paper = row(book.SettingPaper, "a4", "printed.a4", "letter", "printed.letter")
	s.chart = row(book.SettingChart, book.Yes, "printed.chart.change", book.Shares, "printed.chart.shares", book.No, "printed.chart.none")
	check := func(name, setting, on, off string) *parts.Check {
		c := parts.NewCheck(words.Say(name), false, func(is bool) {
			value := off
			if is {
				value = on
			}
			w.do(recipes.Set(setting, value))
		})
		w.pin(setting, c)
		return c
	}
	s.care = check("printed.care", book.SettingCaution, book.Yes, book.No)
	s.notes = check("printed.notes", book.SettingNotes, book.Yes, book.No)
	s.written = check("printed.written", book.SettingWritten, book.Yes, book.No)
	under := func(name string, pick *parts.Segmented) fyne.CanvasObject {
		return parts.Rows(4, parts.NewCaption(words.Say(name)), parts.Line(0, pick, parts.Spring()))
	}
	s.view = parts.Rows(parts.GapSmall,
		parts.Flow(parts.GapMedium, under("printed.units", s.units), under("printed.rule", s.rule)),
		parts.Flow(parts.GapMedium, under("printed.energy", s.energy), under("printed.salt", s.salt)),
		under("printed.chart", s.chart), under("printed.paper", s.paper), parts.Rows(0, s.care, s.notes, s.written), parts.NewCaption(words.Say("printed.round.help")))
	return s
}

// show puts what the workbook says into the fields.
func (s *printStyle) show(b *recipes.Book) {
	o := book.OptionsOf(b)
	s.units.SetKey(string(o.Units))
	s.rule.SetKey(either(o.Rule == claims.US, "us", "eu"))
	s.energy.SetKey(either(o.KJFirst, book.KJ, book.Kcal))
	s.salt.SetKey(either(o.SaltNotSodium, book.Salt, book.Sodium))
	s.paper.SetKey(o.Paper.Key)
	s.chart.SetKey(either(o.NoChart, book.No, either(o.Shares, book.Shares, book.Yes)))
	s.care.Set(!o.NoCautions)
	s.notes.Set(!o.NoOpen)
	s.written.Set(o.RoundWritten)
}

func either(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}
