package sheets

import (
	"strconv"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Library lays out the Recipes page: a row a recipe, keyed by its ID.
func Library(b *recipes.Book) Sheet {
	unit := UnitsOf(b).Of(food.EnergyKcal).Unit()
	s := Sheet{Corner: words.Say("library.recipe"), Columns: []Column{
		{Key: "versions", Title: words.Say("library.versions"), Number: true, Index: -1},
		{Key: "serving", Title: words.Say("library.original"), Sub: words.Say("swaps.per-serving", unit), Number: true, Index: -1},
		{Key: "lightest", Title: words.Say("library.lightest"), Sub: words.Say("swaps.per-serving", unit), Number: true, Index: -1},
		{Key: "brief", Title: words.Say("library.brief"), Index: -1},
		{Key: "doubts", Title: words.Say("library.doubts"), Number: true, Index: -1},
	}}
	for _, r := range b.Recipes() {
		s.Rows = append(s.Rows, libraryRow(NewBench(b, r)))
	}
	return s
}

func libraryRow(x *Bench) Row {
	energy := x.units.Of(food.EnergyKcal)
	r := Row{Key: string(x.Recipe.ID), Label: Cell{Text: x.Recipe.Title, Strong: true, Bar: noBar()}}
	doubts := Doubts(x.Recipe)
	d := Cell{Number: true, Muted: true, Bar: noBar(), Text: words.Say("library.none")}
	if doubts > 0 {
		d = Cell{Number: true, Bar: noBar(), Text: strconv.Itoa(doubts), Mark: Look, Tip: words.Say("library.doubts.tip", doubts)}
	}
	r.Cells = []Cell{
		{Text: strconv.Itoa(len(x.Versions) - 1), Number: true, Bar: noBar()},
		{Text: x.units.Amount(x.Original().PerServing(energy), energy), Number: true, Bar: noBar()},
		x.lightest(), x.briefCell(), d,
	}
	return r
}

// Doubts counts the lines of a recipe that still ask something.
func Doubts(r *recipes.Recipe) int {
	n := 0
	for _, l := range r.Lines {
		if l.Status() != recipes.StatusMatched {
			n++
		}
	}
	return n
}

// lightest names the version with the largest exact fall in energy.
func (x *Bench) lightest() Cell {
	best, at := 0.0, 0
	for i := 1; i < len(x.Versions); i++ {
		if c := x.Change(i, food.EnergyKcal); c.Bound != nutrition.NotSure && c.Amount < best {
			best, at = c.Amount, i
		}
	}
	if at == 0 {
		return Cell{Text: words.Say("library.none"), Muted: true, Number: true, Bar: noBar()}
	}
	energy := x.units.Of(food.EnergyKcal)
	as := x.as(energy)
	return Cell{
		Text: x.Versions[at].Letter + "  " + as.amount(x.Accounts[at].PerServing(energy)), Number: true, Bar: noBar(),
		Sub: as.change(x.Change(at, energy)),
	}
}

// briefCell names the versions that meet every target.
func (x *Bench) briefCell() Cell {
	if len(x.Recipe.Brief.Targets) == 0 {
		return Cell{Text: words.Say("library.no-brief"), Muted: true, Bar: noBar()}
	}
	var met []string
	for i := 1; i < len(x.Versions); i++ {
		if x.meets(i) {
			met = append(met, x.Versions[i].Letter)
		}
	}
	if len(met) == 0 {
		return Cell{Text: words.Say("library.brief-none"), Bar: noBar(), Mark: Missed}
	}
	return Cell{Text: words.Say("library.brief-met", words.Join(met)), Bar: noBar(), Mark: Met}
}

func (x *Bench) meets(i int) bool {
	for _, t := range x.Recipe.Brief.Targets {
		if x.Accounts[i].Judge(t) != nutrition.Met {
			return false
		}
	}
	return true
}

// BriefText says a recipe's brief in one line; empty when none is set.
func (u Units) BriefText(b recipes.Brief) string {
	var parts []string
	if b.Keep != "" {
		parts = append(parts, words.Say("brief.keep", b.Keep))
	}
	if b.Cut != "" {
		parts = append(parts, words.Say("brief.cut", b.Cut))
	}
	for _, t := range b.Targets {
		as := u.as(t.Nutrient)
		parts = append(parts, as.name+" "+as.target(t))
	}
	if b.Helping > 0 {
		parts = append(parts, words.Say("brief.helping", words.Grams(b.Helping)))
	}
	if b.Limit > 0 {
		parts = append(parts, words.Say("brief.limit", words.Trim(b.Limit, 2)))
	}
	out := ""
	for i, p := range parts {
		if i > 0 {
			out += "  ·  "
		}
		out += p
	}
	return out
}
