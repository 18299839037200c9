package sheets

import (
	"fmt"
	"strings"
	"testing"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

// planBook has a recipe of one line with two versions and n tasters.
func planBook(t *testing.T, n int) *recipes.Book {
	t.Helper()
	b := &recipes.Book{}
	do := func(v recipes.Verb) {
		c, err := v(b)
		if err == nil {
			b, err = b.With(c)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	cream := &food.Food{Ref: food.Ref{Source: "test", Code: "1"}, Name: "Cream", Allergens: food.Allergens{Recorded: true, Contains: food.Milk}}
	do(recipes.AddRecipe(&recipes.Recipe{ID: "r", Title: "Soup", Servings: 2, ServingsFrom: recipes.ServingsStated, Edition: 1, Lines: []*recipes.Line{
		{ID: "l", Text: "cream", Name: "cream", Grams: 100, GramsFrom: recipes.GramsWeight, Food: cream.Ref, PartEaten: 1},
	}}, []*food.Food{cream}))
	do(recipes.AddVersion("r", "A", "", ""))
	do(recipes.AddVersion("r", "B", "", ""))
	for i := range n {
		do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID(fmt.Sprint("p", i)), Code: fmt.Sprint("P", i), Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
	return b
}

func planned(b *recipes.Book, edit func(*PlanFields)) *Plan {
	f := NewPlan(b, b.Recipe("r"), "2026-03-04")
	edit(&f)
	n := 0
	return ReadPlan(f, &recipes.Tasting{ID: "t", Recipe: "r", Seed: 7}, b, func() recipes.ID { n++; return recipes.ID(fmt.Sprint("s", n)) })
}

func TestAPlanCanBeKeptAndReadBack(t *testing.T) {
	b := planBook(t, 8)
	p := planned(b, func(f *PlanFields) { f.Versions["A"] = 2; f.Time = "19:30"; f.Empty = "1" })
	if !p.Ready() || len(p.Samples) != 4 || len(p.Tasting.Seats) != 9 || p.Tasting.Limit != 0.5 || p.Tasting.Spare != 0.1 {
		t.Fatalf("%+v %+v", p.Faults, p.Tasting)
	}
	c, err := tasting.Put(p.Tasting, p.Samples)(b)
	if err == nil {
		b, err = b.With(c)
	}
	if err != nil {
		t.Fatal(err)
	}
	again := ReadPlan(PlanOf(b, b.Tasting("t")), b.Tasting("t"), b, func() recipes.ID { t.Error("a sample lost its ID"); return "x" })
	if !again.Ready() || !recipes.Same(again.Tasting, b.Tasting("t")) {
		t.Errorf("read back otherwise: %+v\n%+v\n%+v", again.Faults, again.Tasting, b.Tasting("t"))
	}
}

func TestEveryQuestionMakesATastingThatCanBegin(t *testing.T) {
	for _, test := range PlanTests {
		t.Run(test, func(t *testing.T) {
			b := planBook(t, 6)
			p := planned(b, func(f *PlanFields) {
				f.Test = test
				if tasting.Trays(test) {
					delete(f.Versions, "B")
				}
				if test == PlanOneThing {
					f.Attributes = "Creaminess"
				}
			})
			if !p.Ready() || len(p.Says) == 0 {
				t.Fatalf("%v %v", p.Faults, p.Says)
			}
			for _, v := range []recipes.Verb{tasting.Put(p.Tasting, p.Samples), tasting.Begin("t")} {
				c, err := v(b)
				if err == nil {
					b, err = b.With(c)
				}
				if err != nil {
					t.Fatal(err)
				}
			}
			for _, s := range b.Tasting("t").Seats {
				if len(s.Cups) == 0 || len(tasting.BallotOf(b.Tasting("t"), b.Tasting("t").Seat(s.Number)).Cups) != len(s.Cups) {
					t.Errorf("seat %d has no tray", s.Number)
				}
			}
		})
	}
}

func TestWhatIsWrongWithAPlan(t *testing.T) {
	b := planBook(t, 6)
	for _, row := range []struct {
		name, field, part string
		edit              func(*PlanFields)
	}{
		{"no version", PlanSamplesField, "at least two samples", func(f *PlanFields) { clear(f.Versions) }},
		{"three in a test of trays", PlanSamplesField, "takes two samples", func(f *PlanFields) { f.Test = string(sensory.Triangle) }},
		{"nobody", PlanSeatsField, "invite somebody", func(f *PlanFields) { clear(f.Tasters) }},
		{"no date", PlanDateField, "no date", func(f *PlanFields) { f.Date = "soon" }},
		{"no time", PlanTimeField, "no time of day", func(f *PlanFields) { f.Time = "25:00" }},
		{"a limit of nothing", PlanLimitField, "above 0", func(f *PlanFields) { f.Limit = "0" }},
		{"a limit in words", PlanLimitField, "no number", func(f *PlanFields) { f.Limit = "a little" }},
		{"a share above all", PlanLimitField, "between 0 and 1", func(f *PlanFields) {
			f.Test, f.Similar, f.Limit = string(sensory.Tetrad), true, "1"
			delete(f.Versions, "B")
		}},
		{"one of two samples a sitting", PlanPerField, "2 samples or more", func(f *PlanFields) { f.PerSitting = "1" }},
		{"which has more of what", PlanNamesField, "name the one thing", func(f *PlanFields) {
			f.Test, f.Attributes = PlanOneThing, ""
			delete(f.Versions, "B")
		}},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := planned(b, row.edit)
			if p.Ready() || !strings.Contains(p.Faults[row.field], row.part) {
				t.Errorf("%v", p.Faults)
			}
		})
	}
}

// What the panel can show is said before anyone cooks, with what a small one can
// do instead.
func TestAPlanSaysWhatItCanShow(t *testing.T) {
	all := saidBy(planned(planBook(t, 8), func(*PlanFields) {}))
	for _, part := range []string{"8 friends can show a plain drop", "just as good", "Your 8 tasters would notice", "not under 0.5", "Tick “two pots”"} {
		if !strings.Contains(all, part) {
			t.Errorf("it does not say %q:\n%s", part, all)
		}
	}
}

func saidBy(p *Plan) string {
	var all []string
	for _, s := range p.Says {
		all = append(all, s.Text)
	}
	return strings.Join(all, "\n")
}

// Whoever wants to show that nearly nobody notices is asked for a share of people
// and hears whether the panel can show that share.
func TestALimitOfWhoNotices(t *testing.T) {
	b := planBook(t, 8)
	similar := func(f *PlanFields) {
		f.Test, f.Similar, f.Limit = string(sensory.Triangle), true, "0.3"
		f.Versions = map[recipes.ID]int{b.Versions("r")[0].ID: 1}
		f.Original, f.Twice = true, false
	}
	p := planned(b, similar)
	if !p.Ready() {
		t.Fatal(p.Faults)
	}
	if all := saidBy(p); !strings.Contains(all, "not fewer than your limit of 30 %: that takes about") || !strings.Contains(all, "8 friends can show a plain difference") {
		t.Errorf("it says\n%s", all)
	}
	if label, unit, help := PlanLimitWords(string(sensory.Triangle)); label != "Most who may notice" || unit == "" || help == "" {
		t.Errorf("%q %q %q", label, unit, help)
	}
	if label, _, _ := PlanLimitWords(recipes.TestLiking); label != "Most it may lose" {
		t.Errorf("%q", label)
	}
	changed := map[string]ChangedSaying{}
	for i, c := range ChangesOf(p.Says, planned(b, func(f *PlanFields) { similar(f); f.Limit = "0.5" }).Says) {
		if c.Changed {
			changed[p.Says[i].Key] = c
		}
	}
	c, ok := changed["sensory.tell.similar"]
	if len(changed) != 1 || !ok || !strings.Contains(c.Text, "50 %") || !strings.Contains(c.Before, "30 %") {
		t.Errorf("changed by another limit: %+v", changed)
	}
	for _, c := range ChangesOf(nil, p.Says) {
		if c.Changed {
			t.Errorf("nothing stood before: %+v", c)
		}
	}
}

// Whoever cooks or sets the codes should not serve: the plan says so, with what to
// do alone.
func TestWhoShouldNotServe(t *testing.T) {
	b := planBook(t, 6)
	for _, row := range []struct{ name, cooks, codes, serves, want string }{
		{"three people", "Jo", "Sam", "Kim", ""},
		{"the cook serves", "Jo", "Sam", "jo", "jo cooks and serves"},
		{"one of two cooks", "Jo and Sam", "Kim", "Sam", "Sam cooks and serves"},
		{"who sets the codes", "Jo", "Sam", "Sam", "Sam sets the codes and serves"},
		{"nobody named", "", "", "", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := planned(b, func(f *PlanFields) { f.Cooks, f.Codes, f.Serves = row.cooks, row.codes, row.serves })
			all := saidBy(p)
			if row.want == "" && strings.Contains(all, "serves:") || !strings.Contains(all, row.want) {
				t.Errorf("it says\n%s", all)
			}
			if alone := strings.Contains(all, "leave the room"); alone != (row.want != "") || strings.Contains(handsText(p.Tasting), "leave the room") != alone {
				t.Errorf("what to do alone: %v; kept plan: %s", alone, handsText(p.Tasting))
			}
		})
	}
}
