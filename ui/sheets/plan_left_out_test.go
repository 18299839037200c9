package sheets

import (
	"slices"
	"strings"
	"testing"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

// withTaster adds a taster who is allergic to something.
func withTaster(t *testing.T, b *recipes.Book, code string, edit func(*recipes.Panelist)) *recipes.Book {
	t.Helper()
	p := &recipes.Panelist{ID: recipes.ID(code), Code: code, Asked: true, Consent: "2026-03-01", Careful: recipes.No}
	edit(p)
	return applied(t, b, tasting.PutTaster(p))
}

// Whoever is left out for safety is neither seated nor counted, however ticked, and
// the plan says who it is and why.
func TestWhoIsLeftOutIsNotCounted(t *testing.T) {
	milk := func(p *recipes.Panelist) { p.Allergens = food.Milk }
	for _, row := range []struct {
		name string
		edit func(*PlanFields)
		who  func(*recipes.Panelist)
		said string // "" where she sits down
	}{
		{"allergic", func(*PlanFields) {}, milk, "Left out, and not counted: MI (allergic to milk)."},
		{
			"does not eat one of two", func(f *PlanFields) { f.Test = string(sensory.Triangle); delete(f.Versions, "B") },
			func(p *recipes.Panelist) { p.DoesNotEat = []string{"cream"} }, "Left out, and not counted: MI (does not eat one of the two).",
		},
		{"allergic to something else", func(*PlanFields) {}, func(p *recipes.Panelist) { p.Allergens = food.Fish }, ""},
		{"not asked yet", func(*PlanFields) {}, func(p *recipes.Panelist) { p.Asked = false }, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			b := withTaster(t, planBook(t, 8), "MI", row.who)
			p := planned(b, row.edit)
			if !p.Ready() {
				t.Fatal(p.Faults)
			}
			seats, all, tick := 9, saidBy(p), TickOn
			if row.said != "" {
				seats, tick = 8, TickDisabled
				if !strings.Contains(all, row.said) || strings.Contains(all, " 9 ") {
					t.Errorf("it says\n%s", all)
				}
			}
			if len(p.Tasting.Seats) != seats || (p.Tasting.SeatOf("MI") == nil) != (row.said != "") || strings.Contains(all, "Left out") != (row.said != "") {
				t.Errorf("%d seats, want %d\n%s", len(p.Tasting.Seats), seats, all)
			}
			f := NewPlan(b, b.Recipe("r"), "2026-03-04")
			table := PlanTasters(b, f, p)
			if i := slices.IndexFunc(table.Rows, func(r Row) bool { return r.Key == "MI" }); table.Rows[i].Cells[0].Tick != tick {
				t.Errorf("her box is %v", table.Rows[i].Cells[0].Tick)
			}
		})
	}
}

// What is written down of a taster after the plan was kept takes her out of what
// the plan says too, and the seat left empty is not counted either.
func TestAKeptPlanCountsWhoWillSit(t *testing.T) {
	b := withTaster(t, planBook(t, 8), "MI", func(*recipes.Panelist) {})
	p := planned(b, func(*PlanFields) {})
	b = applied(t, b, tasting.Put(p.Tasting, p.Samples))
	shows := func(b *recipes.Book) string { return strings.Join(CanShow(b, b.Tasting("t")), " ") }
	if said := shows(b); !strings.Contains(said, "Your 9 tasters") {
		t.Fatalf("%s", said)
	}
	b = withTaster(t, b, "MI", func(p *recipes.Panelist) { p.Allergens, p.Consent = food.Milk, "" })
	list := Against(b, b.Tasting("t"))
	if len(list) != 1 || !list[0].Out {
		t.Errorf("there is nothing to settle with her: %+v", list)
	}
	if said := shows(b); !strings.Contains(said, "Your 8 tasters") {
		t.Errorf("left out and counted: %s", said)
	}
	fact := func() string {
		s := PlannedFacts(b, b.Tasting("t"))
		if i := slices.IndexFunc(s.Rows, func(r Row) bool { return r.Key == "left-out" }); i >= 0 {
			return s.Rows[i].Cells[0].Text
		}
		return ""
	}
	if said := fact(); said != "MI (allergic to milk)" {
		t.Errorf("left out: %q", said)
	}
	b = applied(t, b, tasting.LeaveEmpty("t", b.Tasting("t").SeatOf("MI").Number))
	if said := shows(b); !strings.Contains(said, "Your 8 tasters") || fact() != "one seat left empty" {
		t.Errorf("%s; %s", said, fact())
	}
	if f := PlanOf(b, b.Tasting("t")); f.Empty != "" {
		t.Errorf("the seat left empty is planned again: %q", f.Empty)
	}
	if free := FreeTasters(b, b.Tasting("t")); len(free) != 0 {
		t.Errorf("offered a seat: %v", free)
	}
}
