package sheets

import (
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// PlanQuestions lists what a cook can ask, a row a test.
func PlanQuestions() Sheet {
	s := Sheet{Columns: []Column{{Key: "name", Index: -1, Tight: true}}}
	for _, t := range PlanTests {
		s.Rows = append(s.Rows, Row{Key: t, Label: text(words.Say("plan.ask." + t)), Cells: []Cell{{Text: words.Say("plan.name." + t), Muted: true, Bar: noBar()}}})
	}
	return s
}

// Keys of the rows of PlanServed that are no version.
const (
	ServedOriginal = "original"
)

// PlanServed lists what can be served: boxes for served and for a second pot.
func PlanServed(b *recipes.Book, r *recipes.Recipe, f PlanFields) Sheet {
	s := Sheet{Corner: words.Say("plan.sample"), Columns: []Column{
		{Key: "served", Title: words.Say("plan.served"), Index: -1, Tight: true},
		{Key: "twice", Title: words.Say("plan.twice"), Index: -1, Tight: true},
		{Key: "tests", Title: words.Say("plan.cooked"), Index: -1},
	}}
	fixed := f.Test == recipes.TestLiking || f.Test == "just-about-right"
	box := func(on bool) Cell {
		if on {
			return Cell{Tick: TickOn, Bar: noBar()}
		}
		return Cell{Tick: TickOff, Bar: noBar()}
	}
	original := Row{Key: ServedOriginal, Label: text(Capital(words.Say("the-original"))), Cells: []Cell{box(f.Original || fixed), box(f.Twice), cookedCell(b, r.ID, "")}}
	if fixed {
		original.Cells[0].Tip = words.Say("plan.original.tip")
	}
	s.Rows = append(s.Rows, original)
	for _, v := range b.Versions(r.ID) {
		pots := f.Versions[v.ID]
		s.Rows = append(s.Rows, Row{Key: string(v.ID), Label: text(VersionName(v)), Cells: []Cell{box(pots > 0), box(pots > 1), cookedCell(b, r.ID, v.ID)}})
	}
	return s
}

// cookedCell says how often a version was cooked: never is worth a look before
// people are asked to eat it.
func cookedCell(b *recipes.Book, recipe, version recipes.ID) Cell {
	n := len(b.TestsOf(recipe, version))
	if n == 0 {
		return Cell{Text: words.Say("plan.cooked.never"), Muted: true, Bar: noBar()}
	}
	return text(words.Say("plan.cooked.times", n))
}

// PlanTasters lists everybody, with what stands against each.
func PlanTasters(b *recipes.Book, f PlanFields, p *Plan) Sheet {
	s := Sheet{Corner: words.Say("tasters.code"), Columns: []Column{
		{Key: "in", Title: words.Say("plan.invited"), Index: -1, Tight: true},
		{Key: "against", Title: words.Say("plan.against"), Index: -1},
	}}
	for _, t := range b.Panelists() {
		if t.Removed {
			continue
		}
		tick := TickOff
		if f.Tasters[t.ID] {
			tick = TickOn
		}
		what, out := p.TasterAgainst(t)
		if out {
			tick = TickDisabled
		}
		against := Cell{Text: words.Say("plan.nothing-against"), Muted: true, Bar: noBar()}
		if what != "" {
			against = Cell{Text: what, Mark: Look, Wrap: true, Bar: noBar()}
			if out {
				against.Mark = Wrong
			}
		}
		s.Rows = append(s.Rows, Row{Key: string(t.ID), Label: text(t.Code), Cells: []Cell{{Tick: tick, Bar: noBar()}, against}})
	}
	return s
}

// SafetyText says what all samples hold together, and what must be checked first.
func SafetyText(s *tasting.Safety) (allergens string, unknown []string) {
	allergens = words.Say("plan.allergens.none")
	if s.Allergens != 0 {
		allergens = words.Say("plan.allergens", tasting.AllergenNames(s.Allergens))
	}
	if len(s.Care) > 0 {
		allergens += " " + words.Say("plan.care", tasting.CareNames(s.Care))
	}
	return allergens, s.Unknown
}

// UncheckedFoods are the foods of a recipe's book entries whose allergens nobody
// has recorded, by the names that a plan's safety lists.
func UncheckedFoods(b *recipes.Book, t *recipes.Tasting, samples []*recipes.Sample) []recipes.ServedLine {
	var out []recipes.ServedLine
	seen := map[string]bool{}
	r := b.Recipe(t.Recipe)
	for _, s := range samples {
		if s.Dish != "" {
			continue
		}
		for _, l := range b.ServedRecord(r, b.Version(t.Recipe, s.Version)).Lines {
			f := b.Food(l.Food)
			if (f == nil || !f.Allergens.Recorded) && !seen[l.Name] {
				seen[l.Name] = true
				out = append(out, l)
			}
		}
	}
	return out
}

// PackText says what is written down of what a named thing of a plan holds.
func PackText(f PlanFields, name string) string {
	holds, read := f.Packs[name]
	switch {
	case !read:
		return words.Say("plan.pack.unread")
	case holds == 0:
		return words.Say("plan.pack.none")
	}
	return words.Say("plan.pack", tasting.AllergenNames(holds))
}

// PlanOneThing is the test that asks about one named thing.
const PlanOneThing = "2-afc"

// Wants is what a question needs beside itself.
type Wants struct{ Aim, Names, One, Limit bool }

// PlanWants tells which fields belong to a question.
func PlanWants(test string, similar bool) Wants {
	rated := test == recipes.TestLiking || test == "just-about-right"
	return Wants{Aim: countsRight(test), Names: rated, One: test == PlanOneThing, Limit: rated || countsRight(test) && similar}
}

// PlanLimitIsShare tells whether the limit of a test is a share of people.
func PlanLimitIsShare(test string) bool { return countsRight(test) }

// PlanLimitWords are the words of the limit's field: its label, its unit and what
// helps with it.
func PlanLimitWords(test string) (label, unit, help string) {
	of := "plan.limit"
	if PlanLimitIsShare(test) {
		of = "plan.share"
	}
	return words.Say(of), words.Say(of + ".unit"), words.Say(of + ".help")
}

// ToggleAllergen ticks or clears a box of AllergenTicks: column 1 is in it,
// column 2 may be.
func ToggleAllergen(has food.Allergens, row, col int) food.Allergens {
	if row < 0 || row >= len(food.EachAllergen) || col < 1 {
		return has
	}
	bit := food.EachAllergen[row].Bit
	if col == 1 {
		has.Contains ^= bit
		has.Depends &^= bit
	} else {
		has.Depends ^= bit
		has.Contains &^= bit
	}
	return has
}
