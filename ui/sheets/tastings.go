package sheets

import (
	"slices"
	"strconv"
	"strings"

	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Tastings lists the tastings of a recipe, the newest first: date, what it is,
// how far it has come.
func Tastings(b *recipes.Book, recipe recipes.ID) Sheet {
	s := Sheet{Corner: words.Say("tastings.tasting"), Columns: []Column{
		{Key: "state", Title: words.Say("tastings.state"), Index: -1, Tight: true},
	}}
	list := b.TastingsOf(recipe)
	slices.Reverse(list)
	for _, t := range list {
		state := Cell{Text: words.Say("tasting.state." + string(t.State)), Muted: t.State == recipes.TastingPlanned, Bar: noBar()}
		switch t.State {
		case recipes.TastingServing:
			state.Strong = true
		case recipes.TastingClosed:
			state.Mark = Met
		}
		s.Rows = append(s.Rows, Row{Key: string(t.ID), Label: text(tastingRow(t)), Cells: []Cell{state}})
	}
	return s
}

// tastingRow names a tasting in the list: the day, what it is called, what it asks.
func tastingRow(t *recipes.Tasting) string {
	test := words.Say("plan.name." + t.Test)
	if t.Name != "" {
		return words.Say("tastings.row.named", dayText(t.Date), t.Name, test)
	}
	return words.Say("tastings.row", dayText(t.Date), test)
}

// TastingTitle names a tasting for a heading.
func TastingTitle(t *recipes.Tasting) string {
	if t.Name != "" {
		return words.Say("tastings.title.named", t.Name, dayText(t.Date))
	}
	return words.Say("tastings.title", dayText(t.Date))
}

// DayText is a kept date as it is read.
func DayText(date string) string { return dayText(date) }

// PlannedFacts says what was planned, a row a fact.
func PlannedFacts(b *recipes.Book, t *recipes.Tasting) Sheet {
	s := Sheet{Columns: []Column{{Key: "value", Index: -1}}}
	add := func(key, value string) {
		if value != "" {
			s.Rows = append(s.Rows, Row{Key: key, Label: Cell{Text: words.Say("tastings.fact." + key), Muted: true, Bar: noBar()}, Cells: []Cell{{Text: value, Wrap: true, Bar: noBar()}}})
		}
	}
	add("question", words.Say("plan.ask."+t.Test))
	add("asked", attributeNames(t))
	add("limit", limitText(t))
	add("samples", plannedSamples(b, t))
	add("tasters", tasterCodes(b, tasting.Sitting(b, t)))
	add("left-out", leftOutText(b, t))
	add("shows", strings.Join(CanShow(b, t), " "))
	add("when", strings.TrimSpace(dayText(t.Date)+" "+t.Time))
	add("portion", portionText(t))
	add("amounts", amountsText(b, t))
	add("hands", handsText(t))
	add("cleanser", t.Cleanser)
	add("note", t.Note)
	return s
}

// CanShow says what the panel of a planned tasting can show and what it cannot,
// in the planner's sentences.
func CanShow(b *recipes.Book, t *recipes.Tasting) []string {
	if t = tasting.Sitting(b, t); !tasting.Blind(t) || len(t.Seats) == 0 {
		return nil
	}
	var ids []recipes.ID
	for _, s := range tasting.InOrder(b, t.ID) {
		ids = append(ids, s.ID)
	}
	var out []string
	for _, p := range sensory.Unserved(t, ids).Explain(t.Limit, outcome.Scatter(b, t.Recipe)) {
		for _, of := range []string{"sensory.short.", "sensory.can.", "sensory.tell."} {
			if strings.HasPrefix(p.Key, of) {
				out = append(out, p.String())
			}
		}
	}
	return out
}

func attributeNames(t *recipes.Tasting) string {
	var out []string
	for _, a := range t.Attributes {
		out = append(out, a.Name)
	}
	return words.Join(out)
}

func limitText(t *recipes.Tasting) string {
	switch {
	case t.Limit == 0:
		return ""
	case PlanLimitIsShare(t.Test):
		return words.Say("tastings.limit.share", words.Share(t.Limit))
	}
	return words.Say("tastings.limit.points", words.Trim(t.Limit, 2))
}

func plannedSamples(b *recipes.Book, t *recipes.Tasting) string {
	var out []string
	for _, s := range tasting.InOrder(b, t.ID) {
		name := tasting.NameOf(b, t, s)
		if s.Pot > 1 {
			name = words.Say("tastings.pot", name, s.Pot)
		}
		out = append(out, name)
	}
	return words.Join(out)
}

func tasterCodes(b *recipes.Book, t *recipes.Tasting) string {
	var out []string
	empty := 0
	for _, s := range t.Seats {
		if p := b.Panelist(s.Panelist); p != nil {
			out = append(out, p.Code)
		} else {
			empty++
		}
	}
	if empty > 0 {
		out = append(out, words.Say("tastings.empty-seats", empty))
	}
	return words.Join(out)
}

// leftOutText says which seats nobody will sit on: those of tasters who are left
// out, and those left empty.
func leftOutText(b *recipes.Book, t *recipes.Tasting) string {
	s := tasting.Check(b, t, b.Samples(t.ID))
	var out []string
	empty := 0
	for _, seat := range t.Seats {
		x := s.Of(seat.Number)
		switch p := b.Panelist(seat.Panelist); {
		case p == nil && seat.Away != "":
			empty++
		case p != nil && x.LeftOut(t.Test):
			out = append(out, leftOutWhy(p, s))
		}
	}
	if empty > 0 {
		out = append(out, words.Say("tastings.left-empty", empty))
	}
	return words.Join(out)
}

func portionText(t *recipes.Tasting) string {
	out := []string{words.Say("tastings.portion", words.Grams(t.Portion))}
	if t.Celsius > 0 {
		out = append(out, words.Say("tastings.heat", words.Trim(t.Celsius, 0)))
	}
	if t.Holds > 0 {
		out = append(out, words.Say("tastings.holds", words.Trim(t.Holds, 0)))
	}
	return strings.Join(out, ", ")
}

func amountsText(b *recipes.Book, t *recipes.Tasting) string {
	var out []string
	for _, a := range tasting.Amounts(b, t) {
		out = append(out, words.Say("tastings.amount", tasting.NameOf(b, t, a.Sample), words.Grams(a.Grams)))
	}
	return strings.Join(out, ", ")
}

func handsText(t *recipes.Tasting) string {
	var out []string
	for _, h := range [][2]string{{"cooks", t.Cooks}, {"codes", t.Codes}, {"serves", t.Serves}} {
		if h[1] != "" {
			out = append(out, words.Say("tastings."+h[0], h[1]))
		}
	}
	text := strings.Join(out, ", ")
	for _, p := range handsAgainst(t) {
		text += ". " + strings.TrimSuffix(p.String(), ".")
	}
	return text
}

// handsAgainst says who serves and should not: whoever set the codes or cooked can
// tell the trays apart, and gives it away by a look.
func handsAgainst(t *recipes.Tasting) []words.Phrase {
	var out []words.Phrase
	if who := inBoth(t.Serves, t.Codes); who != "" {
		out = append(out, words.P("plan.same-hands", who))
	}
	if who := inBoth(t.Serves, t.Cooks); who != "" {
		out = append(out, words.P("plan.cook-serves", who))
	}
	if len(out) > 0 {
		out = append(out, words.P("plan.alone"))
	}
	return out
}

// inBoth is the first name that stands in two lists of names, as the first spells
// it, "" for none.
func inBoth(one, two string) string {
	for _, x := range namesIn(one) {
		if slices.ContainsFunc(namesIn(two), func(y string) bool { return strings.EqualFold(x, y) }) {
			return x
		}
	}
	return ""
}

// namesIn are the names of a field: "Jo, Sam and Kim".
func namesIn(text string) []string {
	for _, between := range []string{" and ", "&", "+", "/", ";"} {
		text = strings.ReplaceAll(text, between, ",")
	}
	var out []string
	for _, x := range strings.Split(text, ",") {
		if x = strings.TrimSpace(x); x != "" {
			out = append(out, x)
		}
	}
	return out
}

// AgainstServing is one thing that stands against serving. Of Food, Pack, Seat
// and Taster those are set that the way on needs; Stops is false for what is only
// worth knowing.
type AgainstServing struct {
	Text   string
	Food   *recipes.ServedLine
	Pack   string // of what is no food of the workbook
	Seat   int
	Taster recipes.ID
	Out    bool // the taster cannot take part
	Stops  bool
}

// Against lists what stands against serving a planned tasting.
func Against(b *recipes.Book, t *recipes.Tasting) []AgainstServing {
	samples := tasting.InOrder(b, t.ID)
	safety := tasting.Check(b, t, samples)
	var out []AgainstServing
	if !slices.ContainsFunc(t.Seats, func(s recipes.Seat) bool { return s.Panelist != "" }) {
		out = append(out, AgainstServing{Text: Capital(words.Say("error.tasting-nobody")), Stops: true})
	}
	foods := UncheckedFoods(b, t, samples)
	for i, l := range foods {
		out = append(out, AgainstServing{Text: words.Say("tastings.unknown", l.Name), Food: &foods[i], Stops: true})
	}
	for _, name := range safety.Unknown {
		if !slices.ContainsFunc(foods, func(l recipes.ServedLine) bool { return l.Name == name }) {
			out = append(out, AgainstServing{Text: words.Say("tastings.unknown", name), Pack: name, Stops: true})
		}
	}
	for _, x := range safety.Seats {
		for _, p := range x.Out {
			out = append(out, AgainstServing{Text: Capital(p.String()), Seat: x.Seat, Taster: x.Panelist, Out: true, Stops: true})
		}
		for _, p := range x.Ask {
			if !x.LeftOut(t.Test) { // else there is nothing to settle with her
				out = append(out, AgainstServing{Text: Capital(p.String()), Seat: x.Seat, Taster: x.Panelist, Stops: true})
			}
		}
		if n := len(x.Without); n > 0 {
			out = append(out, AgainstServing{
				Text: words.Say("tastings.without", b.Panelist(x.Panelist).Code, strconv.Itoa(n)), Seat: x.Seat, Taster: x.Panelist,
				Stops: tasting.Trays(t.Test), Out: tasting.Trays(t.Test),
			})
		}
	}
	return out
}

// MayBegin tells whether nothing that stands against serving stops it.
func MayBegin(list []AgainstServing) bool {
	return !slices.ContainsFunc(list, func(a AgainstServing) bool { return a.Stops })
}
