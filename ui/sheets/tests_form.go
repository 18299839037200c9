package sheets

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"parewell/recipes"
	"parewell/recipes/measure"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

// TestFields are a test as it stands in the fields of a form.
type TestFields struct {
	Date, Cook                        string
	FullDish, Dish, LeftOver          string
	Servings, Heat, Minutes           string
	Notes, WentWell, WentBad, NextOne string
	Version                           recipes.ID
	AsCooked                          map[recipes.ID]string // by line, "" for as written
}

// TestFieldsOf puts a test into fields; what was not noted is empty.
func TestFieldsOf(t *recipes.Batch) TestFields {
	f := TestFields{
		Date: dayText(t.Date), Cook: t.Cook, Version: t.Version,
		FullDish: gramsField(t.FullDish), Dish: gramsField(t.Dish), LeftOver: gramsField(t.LeftOver),
		Servings: amountField(t.Servings), Heat: HeatField(t.Celsius), Minutes: amountField(t.Minutes),
		Notes: t.Notes, WentWell: t.WentWell, WentBad: t.WentBad, NextOne: t.NextTime,
		AsCooked: map[recipes.ID]string{},
	}
	for id, g := range t.AsCooked {
		f.AsCooked[id] = words.Grams(g)
	}
	return f
}

// gramsField is a weight for a field; it has its unit, so that it reads back
// the same whatever marks the digits are parted with.
func gramsField(g float64) string {
	if g <= 0 {
		return ""
	}
	return words.Trim(g, 1) + " g"
}

func amountField(v float64) string {
	if v <= 0 {
		return ""
	}
	return words.Trim(v, 2)
}

// Faults say what is wrong with fields, by name: "date", "full", "dish",
// "left", "servings", "heat", "minutes", and an as-cooked weight by AsCookedFault.
type Faults map[string]string

// number reads a figure from 0 to most; an empty field is the usual, and so is
// what a wrong one, which becomes a fault, counts as.
func (f Faults) number(field, text string, usual, most float64) float64 {
	if Blank(text) {
		return usual
	}
	n, rest, ok := measure.ReadNumber(strings.TrimSpace(text))
	if !ok || strings.TrimSpace(rest) != "" || !(n.Low >= 0) || n.Low > most {
		f[field] = words.Say("plan.number.wrong", text, words.Trim(most, 0))
		return usual
	}
	return n.Low
}

// AsCookedFault is the name of an ingredient's weight among Faults.
func AsCookedFault(line recipes.ID) string { return "as:" + string(line) }

// ReadTest reads the fields of a form over a test (a new one has only its IDs);
// what was not touched stays to the last digit. today bounds the date. The
// result is nil when there are faults.
func ReadTest(base *recipes.Batch, f TestFields, today time.Time) (*recipes.Batch, Faults) {
	r := testReader{faults: Faults{}}
	was := TestFieldsOf(base)
	c := *base
	c.Version, c.Cook = f.Version, strings.TrimSpace(f.Cook)
	c.Notes, c.WentWell = strings.TrimSpace(f.Notes), strings.TrimSpace(f.WentWell)
	c.WentBad, c.NextTime = strings.TrimSpace(f.WentBad), strings.TrimSpace(f.NextOne)
	c.Date = r.date(f.Date, today)
	c.FullDish = r.grams("full", f.FullDish, was.FullDish, base.FullDish)
	c.Dish = r.grams("dish", f.Dish, was.Dish, base.Dish)
	c.LeftOver = r.grams("left", f.LeftOver, was.LeftOver, base.LeftOver)
	c.Servings = r.number("servings", f.Servings, was.Servings, base.Servings, mostCuts)
	c.Minutes = r.number("minutes", f.Minutes, was.Minutes, base.Minutes, longestTest)
	c.Celsius = r.heat(f.Heat, was.Heat, base.Celsius)
	c.AsCooked = r.asCooked(f.AsCooked, was.AsCooked, base.AsCooked)
	if g, ok := c.CookedGrams(); ok && g <= 0 && len(r.faults) == 0 {
		r.faults["full"] = words.Say("tests.full.wrong")
	}
	if len(r.faults) > 0 {
		return nil, r.faults
	}
	return &c, nil
}

// What a field may hold at most: a slip of the finger is caught, nothing a
// kitchen does.
const (
	mostWeighed = 1e6          // a tonne
	mostCuts    = 10000        // of one dish
	longestTest = 7 * 24 * 60  // a week: ferments and cures
	mostCelsius = 500          // a pizza oven
	sureCelsius = 300          // from here on a bare number may be Fahrenheit
	zeroF, perF = 32, 5.0 / 9. // °C = (°F - 32) x 5/9, by definition
)

type testReader struct{ faults Faults }

// date reads a day that has come, and keeps it as year-month-day.
func (r *testReader) date(text string, today time.Time) string {
	day, ok := ReadDay(text)
	switch {
	case !ok:
		r.faults["date"] = words.Say("tests.date.wrong", words.Day(today))
	case day.Format(testDate) > today.Format(testDate):
		r.faults["date"] = words.Say("tests.date.future")
	}
	return day.Format(testDate)
}

func (r *testReader) grams(name, text, was string, old float64) float64 {
	if text = strings.TrimSpace(text); text == was || text == "" {
		return keepIf(text != "", old)
	}
	g, ok := reading.Grams(text)
	if !ok || g > mostWeighed {
		r.faults[name] = words.Say("tests.grams.wrong")
	}
	return g
}

func (r *testReader) number(name, text, was string, old, most float64) float64 {
	if text = strings.TrimSpace(text); text == was || text == "" {
		return keepIf(text != "", old)
	}
	v, ok := reading.Number(text)
	if !ok || v > most {
		r.faults[name] = words.Say("tests.number.wrong", words.Number(most, 0))
	}
	return v
}

func keepIf(keep bool, v float64) float64 {
	if keep {
		return v
	}
	return 0
}

func (r *testReader) heat(text, was string, old float64) float64 {
	if text = strings.TrimSpace(text); text == was || text == "" {
		return keepIf(text != "", old)
	}
	c, why := readHeat(text)
	if why != "" {
		r.faults["heat"] = words.Say(why)
	}
	return c
}

func (r *testReader) asCooked(typed, was map[recipes.ID]string, old map[recipes.ID]float64) map[recipes.ID]float64 {
	var out map[recipes.ID]float64
	for id, text := range typed {
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		g, ok := old[id]
		if !ok || text != was[id] {
			if g, ok = reading.Grams(text); !ok || g > mostWeighed {
				r.faults[AsCookedFault(id)] = words.Say("tests.grams.wrong")
				continue
			}
		}
		if out == nil {
			out = map[recipes.ID]float64{}
		}
		out[id] = g
	}
	return out
}

// ReadDay reads a date as people write it with the month in words or the year
// first: "4 Mar 2026", "4 March 2026", "Mar 4, 2026", "2026-03-04". Numbers
// alone in another order are refused: nobody can tell day from month.
func ReadDay(text string) (time.Time, bool) {
	text = strings.TrimSpace(text)
	if d, err := time.Parse(testDate, text); err == nil {
		return d, sensible(d)
	}
	fields := strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ',' || r == '.' })
	if len(fields) != 3 {
		return time.Time{}, false
	}
	day, month := fields[0], fields[1]
	if monthOf(month) == 0 {
		day, month = month, day
	}
	d, err1 := strconv.Atoi(day)
	y, err2 := strconv.Atoi(fields[2])
	m := monthOf(month)
	if err1 != nil || err2 != nil || m == 0 {
		return time.Time{}, false
	}
	out := time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	return out, out.Day() == d && out.Month() == m && sensible(out)
}

// sensible leaves out years no cook's test is from.
func sensible(d time.Time) bool { return d.Year() >= 1900 && d.Year() <= 2199 }

// monthOf finds a month by at least its first three letters, 0 for none.
func monthOf(word string) time.Month {
	word = strings.ToLower(word)
	for m := time.January; m <= time.December; m++ {
		short := strings.ToLower(words.Say("month." + strconv.Itoa(int(m))))
		if long := strings.ToLower(m.String()); word == short || len(word) >= 3 && strings.HasPrefix(long, word) {
			return m
		}
	}
	return 0
}

// readHeat reads a temperature in °C, or in °F where it says so; a bare number
// that may well be Fahrenheit is asked about. why is the key of what is wrong.
func readHeat(text string) (celsius float64, why string) {
	text = strings.ToUpper(strings.TrimSpace(text))
	number := strings.TrimRight(text, "CF° ")
	unit := strings.Trim(text[len(number):], "° ")
	v, ok := reading.Number(number)
	switch {
	case !ok || unit != "" && unit != "C" && unit != "F":
		return 0, "tests.heat.wrong"
	case unit == "F":
		v = (v - zeroF) * perF
	case unit == "" && v > sureCelsius:
		return 0, "tests.heat.unit"
	}
	if v > mostCelsius || v <= -zeroF {
		return 0, "tests.heat.wrong"
	}
	return v, ""
}

// fahrenheit tells a temperature that was noted in °F: whole there and not in °C.
func fahrenheit(c float64) (f float64, noted bool) {
	f = c/perF + zeroF
	whole := func(v float64) bool { return math.Abs(v-math.Round(v)) < 1e-6 }
	return f, whole(f) && !whole(c)
}

// HeatField is a temperature for a field, as it was noted; "" for none.
func HeatField(c float64) string {
	if c == 0 {
		return ""
	}
	return shortHeat(c)
}

// shortHeat says a temperature in the unit it was noted in.
func shortHeat(c float64) string {
	if f, noted := fahrenheit(c); noted {
		return words.Say("tests.fahrenheit", words.Number(f, 0))
	}
	return words.Say("tests.celsius", words.Trim(c, 1))
}

// HeatText says a temperature in both units, first the one it was noted in.
func HeatText(c float64) string {
	f, noted := fahrenheit(c)
	inC, inF := words.Say("tests.celsius", words.Number(c, 0)), words.Say("tests.fahrenheit", words.Number(f, 0))
	if noted {
		return words.Say("tests.both", inF, inC)
	}
	return words.Say("tests.both", words.Say("tests.celsius", words.Trim(c, 1)), inF)
}

// TestSoFar says what the weights in the fields come to: cooked weight, a
// serving, and how much lighter than what went in; "" while they say nothing.
func (x *Bench) TestSoFar(f TestFields, today time.Time) string {
	t, _ := ReadTest(&recipes.Batch{}, TestFields{
		Date: words.Day(today), FullDish: f.FullDish, Dish: f.Dish, LeftOver: f.LeftOver, Servings: f.Servings,
	}, today)
	if t == nil {
		return ""
	}
	g, ok := t.CookedGrams()
	if !ok {
		return ""
	}
	said := []string{words.Say("tests.so-far", words.Grams(g))}
	if t.Servings > 0 {
		said = append(said, words.Say("tests.so-far.each", words.Grams(g/t.Servings)))
	}
	a := x.Accounts[max(x.ColumnOf(f.Version), 0)]
	if raw, whole := a.RawGrams(); whole && raw > 0 {
		key, off := "tests.so-far.lighter", 1-g/raw
		if off < 0 {
			key, off = "tests.so-far.heavier", -off
		}
		said = append(said, words.Say(key, words.Share(off)))
	}
	return strings.Join(said, "; ")
}

// AsCookedForm lays out a version's ingredients with a field each for what was
// weighed, empty for as written. A text that cannot be read is marked.
func (x *Bench) AsCookedForm(f TestFields, faults Faults) Sheet {
	s := Sheet{Corner: words.Say("tests.ingredient"), Columns: []Column{
		{Key: "recipe", Title: words.Say("tests.recipe-grams"), Number: true, Index: -1},
		{Key: "cooked", Title: words.Say("tests.as-cooked"), Number: true, Index: -1},
	}}
	for _, l := range x.TestLines(f.Version) {
		typed := Cell{Text: f.AsCooked[l.ID], Number: true, Editable: true, Bar: noBar(), Tip: words.Say("tests.as-cooked.tip")}
		if why := faults[AsCookedFault(l.ID)]; why != "" {
			typed.Mark, typed.Tip = Wrong, why
		}
		s.Rows = append(s.Rows, Row{
			Key: string(l.ID), Label: Cell{Text: l.Name, Wrap: true, Bar: noBar()},
			Cells: []Cell{{Text: l.gramsText(), Muted: !l.Known, Number: true, Bar: noBar()}, typed},
		})
	}
	return s
}

// Today is the day of a moment as a test's date.
func Today(now time.Time) string { return now.Format(testDate) }

// Blank tells whether nothing was typed.
func Blank(text string) bool { return strings.TrimSpace(text) == "" }

// SameTest tells whether nothing of a test was changed.
func SameTest(a, b *recipes.Batch) bool { return recipes.Same(a, b) }

// NextTestOf suggests what the next test is of and who cooks it: the version of
// the test in sight, else of the newest, else the last version; the newest
// test's cook.
func NextTestOf(b *recipes.Book, recipe, inSight recipes.ID) (version recipes.ID, cook string) {
	if all := b.Versions(recipe); len(all) > 0 {
		version = all[len(all)-1].ID
	}
	newest := ""
	for _, t := range b.Batches(recipe) {
		if t.Date >= newest {
			newest, version, cook = t.Date, t.Version, t.Cook
		}
	}
	if t := b.Test(recipe, inSight); t != nil {
		version = t.Version
	}
	return version, cook
}

// OnlyLines keeps what was typed for the ingredients in sight; of a test that
// was there, weights of ingredients its version no longer has stay too.
func OnlyLines(typed map[recipes.ID]string, lines []recipes.ID, old map[recipes.ID]float64, fresh bool) map[recipes.ID]string {
	out := map[recipes.ID]string{}
	for id, text := range typed {
		if _, had := old[id]; slices.Contains(lines, id) || had && !fresh {
			out[id] = text
		}
	}
	return out
}
