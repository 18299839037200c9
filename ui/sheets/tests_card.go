package sheets

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/words"
)

// TestCard is everything about one test.
type TestCard struct {
	Title    string
	Caption  string // when and by whom
	Average  string // what the tests of its version came to
	Aside    string // why it does not count, "" when it does
	Facts    []Fact // weights, servings, heat, time
	AsCooked Sheet  // by line ID; no rows when it was cooked as written
	Notes    []Fact
	Photos   []string // hashes
}

// TestCard gathers what is known of a test of the recipe.
func (x *Bench) TestCard(t *recipes.Batch) TestCard {
	c := TestCard{Title: Capital(TestName(x.book, t)), Photos: t.Photos, Facts: testFacts(t)}
	when := []string{dayText(t.Date)}
	if t.Cook != "" {
		when = append(when, t.Cook)
	}
	c.Caption = strings.Join(when, " · ")
	c.Average = x.AverageText(t.Version)
	if t.SetAside != "" {
		c.Aside = words.Say("tests.aside.long", t.SetAside)
	}
	if len(t.AsCooked) > 0 {
		c.AsCooked = x.asCooked(t)
	}
	for _, n := range []Fact{
		{words.Say("tests.notes"), t.Notes},
		{words.Say("tests.well"), t.WentWell},
		{words.Say("tests.bad"), t.WentBad},
		{words.Say("tests.next"), t.NextTime},
	} {
		if n.Value != "" {
			c.Notes = append(c.Notes, n)
		}
	}
	return c
}

func testFacts(t *recipes.Batch) []Fact {
	var out []Fact
	add := func(key string, v float64, say string) {
		if v > 0 {
			out = append(out, Fact{words.Say(key), say})
		}
	}
	add("tests.full", t.FullDish, words.Grams(t.FullDish))
	add("tests.dish", t.Dish, words.Grams(t.Dish))
	add("tests.left", t.LeftOver, words.Grams(t.LeftOver))
	g, weighed := t.CookedGrams()
	if weighed {
		add("tests.cooked.long", g, words.Grams(g))
	}
	add("tests.servings", t.Servings, words.Trim(t.Servings, 1))
	if weighed && t.Servings > 0 {
		add("tests.each", g, words.Grams(g/t.Servings))
	}
	add("tests.temperature", math.Abs(t.Celsius), HeatText(t.Celsius))
	add("tests.time", t.Minutes, words.Say("tests.minutes", words.Trim(t.Minutes, 1)))
	return out
}

// asCooked sets what was weighed beside the recipe's grams; a difference over
// asCookedLook is marked. What the version no longer has comes last.
func (x *Bench) asCooked(t *recipes.Batch) Sheet {
	s := Sheet{Corner: words.Say("tests.ingredient"), Columns: []Column{
		{Key: "recipe", Title: words.Say("tests.recipe-grams"), Number: true, Index: -1},
		{Key: "cooked", Title: words.Say("tests.as-cooked"), Number: true, Index: -1},
	}}
	seen := map[recipes.ID]bool{}
	for _, l := range x.TestLines(t.Version) {
		seen[l.ID] = true
		s.Rows = append(s.Rows, asCookedRow(l, t))
	}
	var gone []recipes.ID
	for id := range t.AsCooked {
		if !seen[id] {
			gone = append(gone, id)
		}
	}
	slices.Sort(gone)
	for _, id := range gone {
		l := TestLine{ID: id, Name: x.nameOf(id), Gone: true}
		s.Rows = append(s.Rows, asCookedRow(l, t))
	}
	return s
}

func asCookedRow(l TestLine, t *recipes.Batch) Row {
	none := Cell{Text: words.Say("library.none"), Muted: true, Number: true, Bar: noBar()}
	written, cooked := none, none
	if !l.Gone {
		written = Cell{Text: l.gramsText(), Muted: !l.Known, Number: true, Bar: noBar()}
	}
	g, weighed := t.AsCooked[l.ID]
	switch {
	case weighed && l.Known && !l.Gone:
		cooked = weighedCell(g, l.Grams)
	case weighed:
		cooked = Cell{Text: words.Grams(g), Number: true, Bar: noBar()}
	}
	label := Cell{Text: l.Name, Wrap: true, Bar: noBar()}
	if l.Gone {
		label.Muted, label.Tip = true, words.Say("tests.line-gone")
	}
	return Row{Key: string(l.ID), Label: label, Cells: []Cell{written, cooked}}
}

// weighedCell is a weight with how far it is off the recipe's: "54 g", "+8 %",
// with the grams as a tip.
func weighedCell(cooked, written float64) Cell {
	d := cooked - written
	c := Cell{Text: words.Grams(cooked), Number: true, Bar: noBar()}
	if math.Abs(d) < 0.05 {
		return c
	}
	grams := words.Signed(d, 0) + " g"
	if math.Abs(d) < 10 {
		grams = words.Signed(d, 1) + " g"
	}
	c.Sub, c.Tip = grams, grams
	if written > 0 {
		c.Sub = words.Percent(d / written * 100)
	}
	if math.Abs(d) > asCookedLook*written {
		c.Mark, c.Tip = Look, words.Say("tests.off", grams, words.Share(asCookedLook))
	}
	return c
}

// TestLine is an ingredient of a version that can be weighed in a test.
type TestLine struct {
	ID    recipes.ID
	Name  string
	Grams float64 // the recipe's, meaningful when Known
	Known bool
	Gone  bool // the version has it no longer
}

func (l TestLine) gramsText() string {
	if !l.Known {
		return words.Unknown
	}
	return words.Grams(l.Grams)
}

// TestLines are the ingredients of a version ("" is the original), as it stands
// now; what was left out of it is not among them.
func (x *Bench) TestLines(version recipes.ID) []TestLine {
	a := x.Accounts[max(x.ColumnOf(version), 0)]
	var out []TestLine
	for i := range a.Draft.Lines {
		d := &a.Draft.Lines[i]
		if d.Gone() {
			continue
		}
		la := &a.Lines[i]
		out = append(out, TestLine{ID: d.Line.ID, Name: LineName(d.Line), Grams: la.Grams, Known: la.Weighed})
	}
	return out
}

// nameOf names a line of the original or of any swap.
func (x *Bench) nameOf(id recipes.ID) string {
	if l := x.Recipe.Line(id); l != nil {
		return LineName(l)
	}
	for _, s := range x.book.Swaps(x.Recipe.ID) {
		for _, o := range s.Ops {
			for _, l := range o.Lines {
				if l.ID == id {
					return LineName(l)
				}
			}
		}
	}
	return words.Say("tests.line-unknown")
}

// NextItem is one thing to do at the next test.
type NextItem struct {
	Test recipes.ID
	Line int // of the test's "next time"
	Text string
	Done bool
	From string // "test 4 of B"
	Date string // "4 Mar 2026"
}

// NextTime lists what the tests of a recipe say to do next time, the newest
// test first; a test that was set aside has lessons too.
func NextTime(b *recipes.Book, recipe recipes.ID) []NextItem {
	tests := b.Batches(recipe)
	slices.SortStableFunc(tests, func(a, b *recipes.Batch) int {
		if c := strings.Compare(b.Date, a.Date); c != 0 {
			return c
		}
		return b.Number - a.Number
	})
	var out []NextItem
	for _, t := range tests {
		for i, line := range strings.Split(t.NextTime, "\n") {
			text, done := nextLine(line)
			if text != "" {
				out = append(out, NextItem{Test: t.ID, Line: i, Text: text, Done: done, From: TestName(b, t), Date: dayText(t.Date)})
			}
		}
	}
	return out
}

// nextLine takes the mark or bullet off a line of "next time".
func nextLine(line string) (text string, done bool) {
	line = strings.TrimSpace(line)
	if rest, ok := strings.CutPrefix(line, doneMark); ok {
		return strings.TrimSpace(rest), true
	}
	return strings.TrimSpace(strings.TrimLeft(line, "-–•*· ")), false
}

// openItems are the lines of a test's "next time" not yet done.
func openItems(t *recipes.Batch) string {
	var out []string
	for _, line := range strings.Split(t.NextTime, "\n") {
		if text, done := nextLine(line); text != "" && !done {
			out = append(out, text)
		}
	}
	return strings.Join(out, "; ")
}

// Struck returns the test with a line of its "next time" marked as done, or as
// still to do.
func Struck(t *recipes.Batch, line int, done bool) *recipes.Batch {
	c := *t
	lines := strings.Split(t.NextTime, "\n")
	if line >= 0 && line < len(lines) {
		text, _ := nextLine(lines[line])
		if done {
			text = doneMark + " " + text
		}
		lines[line] = text
	}
	c.NextTime = strings.Join(lines, "\n")
	return &c
}

// nextShown is how many things to do the recipe's head names.
const nextShown = 3

// NextText heads the recipe with what to do next time, "" when there is nothing.
func NextText(items []NextItem) string {
	var open []string
	for _, it := range items {
		if !it.Done {
			open = append(open, it.Text)
		}
	}
	switch n := len(open); {
	case n == 0:
		return ""
	case n > nextShown:
		return words.Say("tests.next-more", strings.Join(open[:nextShown], " · "), n-nextShown)
	}
	return words.Say("tests.next-all", strings.Join(open, " · "))
}

// NextSheet lays the things to do next time out to be struck.
func NextSheet(items []NextItem) Sheet {
	s := Sheet{Corner: words.Say("tests.next"), Columns: []Column{
		{Key: "done", Title: words.Say("tests.done"), Index: -1},
		{Key: "from", Title: words.Say("tests.said"), Index: -1},
	}}
	for i, it := range items {
		tick := TickOff
		if it.Done {
			tick = TickOn
		}
		s.Rows = append(s.Rows, Row{
			Key:   string(it.Test) + ":" + strconv.Itoa(i),
			Label: Cell{Text: it.Text, Struck: it.Done, Muted: it.Done, Wrap: true, Bar: noBar()},
			Cells: []Cell{{Tick: tick, Bar: noBar(), Tip: words.Say("tests.done.tip")}, {Text: it.From, Muted: true, Bar: noBar(), Tip: it.Date}},
		})
	}
	return s
}
