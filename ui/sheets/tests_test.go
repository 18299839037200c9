package sheets

import (
	"math"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
)

var fourthOfMarch = time.Date(2026, 3, 4, 0, 0, 0, 0, time.UTC)

// cooked is the gratin of sheets_test with tests of A: 2.31, 2.35 and 2.42 kg
// kept, one of them unweighed besides, and one set aside.
func cooked(t *testing.T) (*recipes.Book, *recipes.Recipe) {
	t.Helper()
	b, r := gratin(t)
	test := func(id, date string, full float64, more func(*recipes.Batch)) recipes.Verb {
		x := &recipes.Batch{ID: recipes.ID(id), Recipe: "recipe", Version: "a", Date: date, Cook: "Ines", FullDish: full, Dish: 800, LeftOver: 90, Servings: 6}
		if full == 0 {
			x.Dish, x.LeftOver, x.Servings = 0, 0, 0
		}
		if more != nil {
			more(x)
		}
		return recipes.AddTest(x)
	}
	return applied(t, b,
		test("t1", "2026-02-01", 3200, func(x *recipes.Batch) { x.NextTime = "more leek\n✓ hotter oven" }),
		test("t2", "2026-02-08", 3240, func(x *recipes.Batch) { x.Servings = 5; x.Celsius, x.Minutes = 180, 35 }),
		test("t3", "2026-02-15", 3310, func(x *recipes.Batch) {
			x.AsCooked = map[recipes.ID]float64{"butter": 54, "milk": 209, "gone": 5}
			x.NextTime, x.WentWell = "- rest it ten minutes", "The crust."
		}),
		test("t4", "2026-02-22", 0, nil),
		test("t5", "2026-03-01", 9000, func(x *recipes.Batch) { x.SetAside = "forgot the salt"; x.NextTime = "weigh the salt first" }),
	), r
}

func applied(t *testing.T, b *recipes.Book, verbs ...recipes.Verb) *recipes.Book {
	t.Helper()
	for _, v := range verbs {
		c, err := v(b)
		if err == nil {
			b, err = b.With(c)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return b
}

func TestTheLogNamesItsAverages(t *testing.T) {
	b, r := cooked(t)
	s := NewBench(b, r).Tests()
	// kept and weighed: 3200, 3240, 3310 less 890 = 2310, 2350, 2420; mean 2360
	band := row(t, s, "version:a")
	want := "A – 4 kept tests, 3 weighed: 2.36 kg, 2.31 to 2.42 kg; cut into 5.7, 5 to 6; 1 set aside"
	if got := NewBench(b, r).AverageText("a"); got != want || band.Label.Tip != want {
		t.Errorf("average %q,\nwant %q", got, want)
	}
	if c := band.Cells; c[0].Text != "4 kept" || c[2].Text != "2.36 kg" || c[2].Sub != "2.31 to 2.42 kg" || c[3].Text != "5.7" || c[4].Text != "1 set aside" {
		t.Errorf("average row %+v", c)
	}
	if s.Rows[1].Key != "t5" || s.Rows[5].Key != "t1" || len(s.Rows) != 6 {
		t.Errorf("rows %v: the newest test comes first", s.Rows)
	}
	first := row(t, s, "t2")
	got := []string{first.Label.Text}
	for _, c := range first.Cells {
		got = append(got, c.Text)
	}
	if strings.Join(got, "|") != "Test 2|8 Feb 2026|Ines|2.35 kg|5|kept|180 °C, 35 min" {
		t.Errorf("test 2 %q", got)
	}
	aside := row(t, s, "t5")
	if aside.Cells[4].Text != "set aside: forgot the salt" || aside.Cells[4].Mark != Look || !aside.Cells[2].Struck {
		t.Errorf("set aside %+v", aside.Cells)
	}
	if c := row(t, s, "t4").Cells[2]; c.Text != "–" || c.Tip == "" {
		t.Errorf("not weighed %+v", c)
	}
	if c := row(t, s, "t3").Cells[5]; c.Text != "Went well: The crust. · Next time: rest it ten minutes" {
		t.Errorf("notes %+v", c)
	}
}

func TestAveragesOfFewTests(t *testing.T) {
	b, r := gratin(t)
	one := &recipes.Batch{ID: "x", Recipe: "recipe", Date: "2026-02-01", FullDish: 1000}
	b = applied(t, b, recipes.AddTest(one))
	for _, step := range []struct {
		name, want string
		verb       recipes.Verb
	}{
		{"one", "Original – 1 kept test: 1 kg", nil},
		{"two of one weight", "Original – 2 kept tests: 1 kg", recipes.AddTest(&recipes.Batch{ID: "y", Recipe: "recipe", Date: "2026-02-02", FullDish: 1001})},
		{"across a kilogram", "Original – 3 kept tests: 950 g, 850 g to 1 kg", recipes.AddTest(&recipes.Batch{ID: "z", Recipe: "recipe", Date: "2026-02-02", FullDish: 850})},
		{"aside", "Original – 2 kept tests: 926 g, 850 g to 1 kg; 1 set aside", recipes.SetAside("recipe", "x", "burnt")},
		{"two aside", "Original – 1 kept test: 850 g; 2 set aside", recipes.SetAside("recipe", "y", "burnt")},
		{"all aside", "Original – no kept test; 3 set aside", recipes.SetAside("recipe", "z", "burnt")},
	} {
		if step.verb != nil {
			b = applied(t, b, step.verb)
		}
		if got := NewBench(b, r).AverageText(""); got != step.want {
			t.Errorf("%s: %q, want %q", step.name, got, step.want)
		}
	}
}

func TestWhatTheNumbersRestOn(t *testing.T) {
	b, r := gratin(t)
	if got := NewBench(b, r).WeighedText(); !strings.HasPrefix(got, "No test") {
		t.Errorf("none: %q", got)
	}
	b, _ = cooked(t)
	if got := NewBench(b, r).WeighedText(); !strings.HasPrefix(got, "Weighed: A. No weighed test yet: the original.") {
		t.Errorf("some: %q", got)
	}
	b = applied(t, b, recipes.AddTest(&recipes.Batch{ID: "o", Recipe: "recipe", Date: "2026-02-01", FullDish: 600}))
	x := NewBench(b, r)
	if got := x.WeighedText(); !strings.HasPrefix(got, "Every version was weighed") {
		t.Errorf("all: %q", got)
	}
	// and they do: 600 kcal in 600 g is 100 kcal per 100 g
	if got := row(t, x.Sheet(Options{Basis: Per100g}), "energy_kcal").Cells[0].Text; got != "100" {
		t.Errorf("per 100 g %s, want 100 by the test's weight", got)
	}
}

func TestACardSetsAsCookedBesideTheRecipe(t *testing.T) {
	b, r := cooked(t)
	x := NewBench(b, r)
	c := x.TestCard(b.Test("recipe", "t3"))
	if c.Title != "Test 3 of A" || c.Caption != "15 Feb 2026 · Ines" || c.Aside != "" {
		t.Errorf("head %q, %q, %q", c.Title, c.Caption, c.Aside)
	}
	// A has 50 g butter: 54 is 8 % more, marked; milk 209 of 200 g is 4.5 %, not
	butter, milk := row(t, c.AsCooked, "butter"), row(t, c.AsCooked, "milk")
	if butter.Cells[0].Text != "50 g" || butter.Cells[1].Text != "54 g" || butter.Cells[1].Sub != "+8 %" || !strings.Contains(butter.Cells[1].Tip, "+4.0 g") || butter.Cells[1].Mark != Look {
		t.Errorf("butter %+v", butter.Cells)
	}
	if milk.Cells[1].Mark != NoMark || milk.Cells[1].Sub != "+4 %" {
		t.Errorf("milk %+v", milk.Cells)
	}
	if salt := row(t, c.AsCooked, "half.c0"); salt.Cells[1].Text != "–" {
		t.Errorf("salt was cooked as written: %+v", salt.Cells)
	}
	if gone := row(t, c.AsCooked, "gone"); gone.Cells[1].Text != "5 g" || gone.Cells[0].Text != "–" {
		t.Errorf("what is gone: %+v", gone)
	}
	var facts []string
	for _, f := range c.Facts {
		facts = append(facts, f.Name+" "+f.Value)
	}
	if got := strings.Join(facts, "|"); got != "Full dish 3.31 kg|Empty dish 800 g|Bones and shells 90 g|Cooked weight 2.42 kg|Servings cut 6|A serving as cut 403 g" {
		t.Errorf("facts %s", got)
	}
	if aside := x.TestCard(b.Test("recipe", "t5")); !strings.Contains(aside.Aside, "forgot the salt") {
		t.Errorf("aside %q", aside.Aside)
	}
	if plain := x.TestCard(b.Test("recipe", "t1")); len(plain.AsCooked.Rows) != 0 {
		t.Error("cooked as written needs no table")
	}
}

func TestDifferencesExactlyAtTheMarkAreNotMarked(t *testing.T) {
	for _, row := range []struct {
		name            string
		cooked, written float64
		want            Mark
	}{
		{"five per cent more", 105, 100, NoMark},
		{"just over", 105.2, 100, Look},
		{"five per cent less", 95, 100, NoMark},
		{"just under", 94.8, 100, Look},
		{"the same", 100, 100, NoMark},
		{"left out", 0, 40, Look},
		{"added to nothing", 3, 0, Look},
	} {
		if got := weighedCell(row.cooked, row.written).Mark; got != row.want {
			t.Errorf("%s: %v", row.name, got)
		}
	}
}

func TestNextTime(t *testing.T) {
	b, _ := cooked(t)
	items := NextTime(b, "recipe")
	var said []string
	for _, it := range items {
		s := it.Text
		if it.Done {
			s += "(done)"
		}
		said = append(said, s)
	}
	if got := strings.Join(said, "|"); got != "weigh the salt first|rest it ten minutes|more leek|hotter oven(done)" {
		t.Fatalf("items %s", got)
	}
	if items[1].From != "test 3 of A" || items[1].Date != "15 Feb 2026" {
		t.Errorf("from %q", items[1].From)
	}
	if got := NextText(items); got != "Next time: weigh the salt first · rest it ten minutes · more leek" {
		t.Errorf("head %q", got)
	}
	old := b.Test("recipe", "t1")
	struck := Struck(old, items[2].Line, true)
	if struck.NextTime != "✓ more leek\n✓ hotter oven" || old.NextTime != "more leek\n✓ hotter oven" {
		t.Errorf("struck %q, before %q", struck.NextTime, old.NextTime)
	}
	if back := Struck(struck, 1, false); back.NextTime != "✓ more leek\nhotter oven" {
		t.Errorf("back %q", back.NextTime)
	}
	four := append(items[:0:0], NextItem{Text: "a"}, NextItem{Text: "b"}, NextItem{Text: "c"}, NextItem{Text: "d"}, NextItem{Text: "e", Done: true})
	if got := NextText(four); got != "Next time: a · b · c · and 1 more" {
		t.Errorf("four: %q", got)
	}
	if NextText(four[4:]) != "" || NextText(nil) != "" {
		t.Error("nothing to do has no head")
	}
}

func fields(change func(*TestFields)) TestFields {
	f := TestFields{Date: "4 Mar 2026"}
	change(&f)
	return f
}

func TestReadingATest(t *testing.T) {
	base := &recipes.Batch{ID: "x", Recipe: "recipe"}
	got, faults := ReadTest(base, TestFields{
		Date: "2026-03-04", Version: "a", Cook: " Ines ", FullDish: "3.2 kg", Dish: "812", LeftOver: "90 g", Servings: "6",
		Heat: "350 F", Minutes: "35", Notes: "n", WentWell: "w", WentBad: "b", NextOne: "x\ny ",
		AsCooked: map[recipes.ID]string{"butter": "0.06 kg", "milk": ""},
	}, fourthOfMarch)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	if got.FullDish != 3200 || got.Dish != 812 || got.LeftOver != 90 || got.Servings != 6 || got.Minutes != 35 || got.Cook != "Ines" ||
		got.Version != "a" || got.Date != "2026-03-04" || got.NextTime != "x\ny" || len(got.AsCooked) != 1 || got.AsCooked["butter"] != 60 {
		t.Errorf("read %+v", got)
	}
	if math.Abs(got.Celsius-(350-32)/1.8) > 1e-9 {
		t.Errorf("heat %v", got.Celsius)
	}
	if f := TestFieldsOf(got); f.Heat != "350 °F" || f.FullDish != "3200 g" || f.Date != "4 Mar 2026" {
		t.Errorf("fields %+v", f)
	}
}

func TestUntouchedFieldsKeepEveryDigit(t *testing.T) {
	base := &recipes.Batch{
		ID: "x", Recipe: "recipe", Date: "2026-03-04", FullDish: 12345.678, Dish: 1.0 / 3, LeftOver: 0.04, Servings: 7.0 / 3,
		Minutes: 100.0 / 3, Celsius: 176.543, AsCooked: map[recipes.ID]float64{"butter": 54.321},
	}
	got, faults := ReadTest(base, TestFieldsOf(base), fourthOfMarch)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	got.AsCooked["butter"] -= 54.321
	if got.FullDish != base.FullDish || got.Dish != base.Dish || got.Servings != base.Servings || got.Minutes != base.Minutes ||
		got.Celsius != base.Celsius || got.AsCooked["butter"] != 0 || got.LeftOver != base.LeftOver {
		t.Errorf("%+v became %+v", base, got)
	}
}

func TestFieldsThatCannotBeRead(t *testing.T) {
	for _, row := range []struct {
		name, fault string
		change      func(*TestFields)
	}{
		{"no date", "date", func(f *TestFields) { f.Date = "" }},
		{"a day that is none", "date", func(f *TestFields) { f.Date = "31 Feb 2026" }},
		{"day or month?", "date", func(f *TestFields) { f.Date = "3/4/2026" }},
		{"tomorrow", "date", func(f *TestFields) { f.Date = "5 Mar 2026" }},
		{"a word for a weight", "full", func(f *TestFields) { f.FullDish = "heavy" }},
		{"a volume", "dish", func(f *TestFields) { f.Dish = "2 cups" }},
		{"a ship", "left", func(f *TestFields) { f.LeftOver = "2000000" }},
		{"lighter than its dish", "full", func(f *TestFields) { f.FullDish, f.Dish = "700", "800" }},
		{"no servings", "servings", func(f *TestFields) { f.Servings = "0" }},
		{"too many servings", "servings", func(f *TestFields) { f.Servings = "20000" }},
		{"°C or °F?", "heat", func(f *TestFields) { f.Heat = "350" }},
		{"hotter than any oven", "heat", func(f *TestFields) { f.Heat = "2000 °C" }},
		{"a gas mark", "heat", func(f *TestFields) { f.Heat = "gas 4" }},
		{"minutes in words", "minutes", func(f *TestFields) { f.Minutes = "a while" }},
		{"an ingredient", AsCookedFault("milk"), func(f *TestFields) { f.AsCooked = map[recipes.ID]string{"milk": "some"} }},
	} {
		got, faults := ReadTest(&recipes.Batch{}, fields(row.change), fourthOfMarch)
		if got != nil || len(faults) != 1 || faults[row.fault] == "" || strings.Contains(faults[row.fault], "[") {
			t.Errorf("%s: %v", row.name, faults)
		}
	}
}

func TestDaysAsPeopleWriteThem(t *testing.T) {
	for text, want := range map[string]string{
		"4 Mar 2026": "2026-03-04", "4 march 2026": "2026-03-04", "March 4, 2026": "2026-03-04", "04 MARC 2026": "2026-03-04",
		"2026-03-04": "2026-03-04", " 29 Feb 2024 ": "2024-02-29", "4. Mar. 2026": "2026-03-04",
		"29 Feb 2026": "", "4 Ma 2026": "", "4 Mar": "", "04.03.2026": "", "2026-13-01": "", "1 Jan 0026": "", "yesterday": "",
	} {
		got := ""
		if d, ok := ReadDay(text); ok {
			got = d.Format(testDate)
		}
		if got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

// 350 °F is 176.67 °C and 356 °F is 180 °C, by the definition of the scales.
func TestTemperaturesKeepTheirUnit(t *testing.T) {
	for typed, want := range map[string]string{
		"180": "180 °C (356 °F)", "180 C": "180 °C (356 °F)", "180°c": "180 °C (356 °F)", "350 F": "350 °F (177 °C)",
		"350 °F": "350 °F (177 °C)", "356 F": "180 °C (356 °F)", "72.6": "72.6 °C (163 °F)", "400 C": "400 °C (752 °F)",
	} {
		c, why := readHeat(typed)
		if why != "" {
			t.Errorf("%q: %s", typed, why)
			continue
		}
		if got := HeatText(c); got != want {
			t.Errorf("%q is %q, want %q", typed, got, want)
		}
		if again, _ := readHeat(HeatField(c)); math.Abs(again-c) > 1e-9 {
			t.Errorf("%q reads back as %v, want %v", typed, again, c)
		}
	}
}

func TestSoFar(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r) // 300 g go into the original
	for _, row := range []struct{ name, full, dish, servings, want string }{
		{"nothing yet", "", "", "", ""},
		{"weighed", "1070", "800", "", "Cooked weight 270 g; 10 % lighter than what went in"},
		{"and cut", "1.07 kg", "800", "2", "Cooked weight 270 g; 135 g a serving; 10 % lighter than what went in"},
		{"heavier", "1130", "800", "", "Cooked weight 330 g; 10 % heavier than what went in"},
		{"unreadable", "x", "800", "", ""},
		{"less than the dish", "700", "800", "", ""},
	} {
		if got := x.TestSoFar(TestFields{FullDish: row.full, Dish: row.dish, Servings: row.servings}, fourthOfMarch); got != row.want {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}

func TestTheFormAsksForWhatTheVersionHolds(t *testing.T) {
	b, r := gratin(t)
	x := NewBench(b, r)
	s := x.AsCookedForm(TestFields{Version: "a", AsCooked: map[recipes.ID]string{"butter": "lots"}}, Faults{AsCookedFault("butter"): "Write a weight"})
	if len(s.Rows) != 3 || s.Rows[1].Cells[0].Text != "50 g" || !s.Rows[1].Cells[1].Editable || s.Rows[1].Cells[1].Mark != Wrong || s.Rows[0].Cells[1].Mark != NoMark {
		t.Errorf("form %+v", s.Rows)
	}
	if n := len(x.AsCookedForm(TestFields{}, nil).Rows); n != 2 {
		t.Errorf("the original has %d rows", n)
	}
}
