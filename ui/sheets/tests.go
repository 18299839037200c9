package sheets

import (
	"slices"
	"strings"
	"time"

	"parewell/recipes"
	"parewell/recipes/words"
)

// testDate is how a test's date is kept.
const testDate = "2006-01-02"

// asCookedLook is the difference between a weight as cooked and the recipe's,
// as a share of the recipe's, from which on it is marked.
const asCookedLook = 0.05

// doneMark stands before a line of "next time" that was done.
const doneMark = "✓"

// AverageKey starts the keys of the rows that head a version's tests.
const AverageKey = "version:"

// Tests lays out the recipe's kitchen log: for each version that was cooked its
// averages and under them its tests, the newest first. Rows of tests are keyed
// by test ID.
func (x *Bench) Tests() Sheet {
	s := Sheet{Corner: words.Say("tests.test"), Columns: []Column{
		{Key: "date", Title: words.Say("tests.date"), Index: -1},
		{Key: "cook", Title: words.Say("tests.cook"), Index: -1},
		{Key: "cooked", Title: words.Say("tests.cooked"), Number: true, Index: -1},
		{Key: "cut", Title: words.Say("tests.cut"), Number: true, Index: -1},
		{Key: "state", Title: words.Say("tests.state"), Index: -1},
		{Key: "notes", Title: words.Say("tests.log-notes"), Index: -1},
	}}
	for i := range x.Versions {
		tests := x.testsOf(i)
		if len(tests) == 0 {
			continue
		}
		s.Rows = append(s.Rows, x.averageRow(i))
		for _, t := range slices.Backward(tests) {
			s.Rows = append(s.Rows, x.testRow(t))
		}
	}
	return s
}

func (x *Bench) versionID(i int) recipes.ID {
	if v := x.Versions[i]; v != nil {
		return v.ID
	}
	return ""
}

func (x *Bench) testsOf(i int) []*recipes.Batch { return x.book.TestsOf(x.Recipe.ID, x.versionID(i)) }

func (x *Bench) testRow(t *recipes.Batch) Row {
	aside := t.SetAside != ""
	plain := func(s string) Cell { return Cell{Text: s, Muted: aside, Bar: noBar()} }
	cooked := Cell{Text: words.Say("library.none"), Muted: true, Number: true, Bar: noBar(), Tip: words.Say("tests.not-weighed.tip")}
	if g, ok := t.CookedGrams(); ok {
		cooked = Cell{Text: words.Grams(g), Number: true, Struck: aside, Muted: aside, Bar: noBar()}
	}
	state := plain(words.Say("tests.kept"))
	if aside {
		state = Cell{Text: words.Say("tests.aside", t.SetAside), Mark: Look, Wrap: true, Bar: noBar()}
	}
	notes := plain(strings.Join(testNotes(t), " · "))
	cut := plain(numberOrNone(t.Servings))
	cut.Number = true
	return Row{
		Key: string(t.ID), Label: Cell{Text: words.Say("tests.number", t.Number), Muted: aside, Bar: noBar(), Tip: TestName(x.book, t)},
		Cells: []Cell{plain(dayText(t.Date)), plain(t.Cook), cooked, cut, state, notes},
	}
}

// testNotes are heat, time and a test's notes, each under its heading, in one
// line.
func testNotes(t *recipes.Batch) []string {
	var out []string
	if heat := heatAndTime(t); heat != "" {
		out = append(out, heat)
	}
	if t.Notes != "" {
		out = append(out, strings.Join(strings.Fields(t.Notes), " "))
	}
	for _, n := range []struct{ key, text string }{
		{"tests.short.well", t.WentWell}, {"tests.short.bad", t.WentBad}, {"tests.short.next", openItems(t)},
	} {
		if n.text != "" {
			out = append(out, words.Say(n.key, strings.Join(strings.Fields(n.text), " ")))
		}
	}
	return out
}

func numberOrNone(v float64) string {
	if v <= 0 {
		return words.Say("library.none")
	}
	return words.Trim(v, 1)
}

// dayText says a kept date, or what stands there when it is none.
func dayText(date string) string {
	if d, err := time.Parse(testDate, date); err == nil {
		return words.Day(d)
	}
	return date
}

func heatAndTime(t *recipes.Batch) string {
	var out []string
	if t.Celsius != 0 {
		out = append(out, shortHeat(t.Celsius))
	}
	if t.Minutes > 0 {
		out = append(out, words.Say("tests.minutes", words.Trim(t.Minutes, 1)))
	}
	return strings.Join(out, ", ")
}

// TestName names a test in full: "test 4 of B".
func TestName(b *recipes.Book, t *recipes.Batch) string {
	return words.Say("tests.name", t.Number, versionName(b, t))
}

// versionName is what a test is of in a sentence: "B", "the original".
func versionName(b *recipes.Book, t *recipes.Batch) string {
	if v := b.Version(t.Recipe, t.Version); v != nil {
		return v.Letter
	}
	return words.Say("tests.the-original")
}

// averageRow heads a version's tests with what the kept ones came to.
func (x *Bench) averageRow(i int) Row {
	kept, aside, cut := x.counted(i)
	said := x.AverageText(x.versionID(i))
	strong := func(s string) Cell { return Cell{Text: s, Strong: true, Bar: noBar(), Tip: said} }
	label := strong(words.Say("original"))
	if v := x.Versions[i]; v != nil {
		label.Text = v.Letter
	}
	cooked, servings, state := strong(""), strong(""), strong("")
	if w, ok := x.Kitchen.Weighed(x.Accounts[i].Draft); ok {
		cooked.Text = words.Grams(w.Mean)
		if w.Tests > 1 && words.Grams(w.Low) != words.Grams(w.High) {
			cooked.Sub = rangeText(w.Low, w.High, words.Grams)
		}
	}
	if len(cut) > 0 {
		servings.Text = words.Trim(mean(cut), 1)
	}
	if aside > 0 {
		state.Text = words.Say("tests.aside-count", aside)
	}
	cooked.Number, servings.Number = true, true
	return Row{Key: AverageKey + string(x.versionID(i)), Label: label, Cells: []Cell{
		strong(words.Say("tests.kept-short", kept)), strong(""), cooked, servings, state, strong(""),
	}}
}

// counted are the tests of a version that count, those set aside, and how many
// servings the ones that count were cut into.
func (x *Bench) counted(i int) (kept, aside int, cut []float64) {
	for _, t := range x.testsOf(i) {
		if t.SetAside != "" {
			aside++
			continue
		}
		kept++
		if t.Servings > 0 {
			cut = append(cut, t.Servings)
		}
	}
	return kept, aside, cut
}

// AverageText says what the kept tests of a version ("" is the original) came
// to: "A – 3 kept tests: 2.36 kg, 2.31 to 2.42 kg".
func (x *Bench) AverageText(version recipes.ID) string {
	i := x.ColumnOf(version)
	name := x.ColumnName(i)
	kept, aside, cut := x.counted(i)
	said := []string{words.Say("tests.kept-count", kept)}
	if kept == 0 {
		said[0] = words.Say("tests.kept-none")
	}
	if w, ok := x.Kitchen.Weighed(x.Accounts[i].Draft); ok {
		said[0] = words.Say("tests.kept-weight", kept, spread(w.Mean, w.Low, w.High, words.Grams))
		if w.Tests < kept {
			said[0] = words.Say("tests.kept-some", kept, w.Tests, spread(w.Mean, w.Low, w.High, words.Grams))
		}
	}
	if len(cut) > 0 {
		plain := func(v float64) string { return words.Trim(v, 1) }
		said = append(said, words.Say("tests.cut-into", spread(mean(cut), slices.Min(cut), slices.Max(cut), plain)))
	}
	if aside > 0 {
		said = append(said, words.Say("tests.aside-count", aside))
	}
	return words.Say("tests.band", name, strings.Join(said, "; "))
}

// spread says a mean with its range: "2.36 kg, 2.31 to 2.42 kg"; the range is
// left out where it says no more.
func spread(mid, low, high float64, say func(float64) string) string {
	if say(low) == say(high) {
		return say(mid)
	}
	return words.Say("tests.spread", say(mid), rangeText(low, high, say))
}

// rangeText says a range with one unit where both ends have the same: "2.31 to
// 2.42 kg".
func rangeText(low, high float64, say func(float64) string) string {
	from, unit, _ := strings.Cut(say(low), " ")
	if _, same, _ := strings.Cut(say(high), " "); same != unit {
		from = say(low)
	}
	return words.Say("tests.range", from, say(high))
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}

// WeighedText says which numbers rest on tests: a comparison uses the measured
// weights only when every version in it has one.
func (x *Bench) WeighedText() string {
	var with, without []string
	for i, v := range x.Versions {
		name := words.Say("tests.the-original")
		if v != nil {
			name = v.Letter
		}
		if _, ok := x.Kitchen.Weighed(x.Accounts[i].Draft); ok {
			with = append(with, name)
		} else {
			without = append(without, name)
		}
	}
	switch {
	case len(with) == 0:
		return words.Say("tests.weighed.none")
	case len(without) == 0 && len(with) == 1:
		return words.Say("tests.weighed.one")
	case len(without) == 0:
		return words.Say("tests.weighed.all")
	}
	return words.Say("tests.weighed.some", words.Join(with), words.Join(without))
}
