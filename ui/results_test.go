package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// atResults opens a closed tasting and waits for what it came to.
func (k *kitchenWindow) atResults(t *recipes.Tasting) *tastingResults {
	k.t.Helper()
	k.showTastings(t.Recipe, t.ID)
	v, ok := k.tastings().states[recipes.TastingClosed].(*closedTasting)
	if !ok || v.results == nil {
		k.t.Fatal("a closed tasting shows no results")
	}
	k.until("the results are worked out", func() bool { return v.results.r != nil && v.results.r.Book == k.book() && v.results.id == t.ID })
	k.settle()
	return v.results
}

func TestResultsOfAClosedTasting(t *testing.T) {
	for _, dark := range []bool{false, true} {
		name, size := "", fyne.NewSize(1280, 800)
		if dark {
			name, size = "-dark", fyne.NewSize(1920, 1080)
		}
		k := openKitchen(t, dark, size)
		r := k.setTable(tasterCodes(16)...)
		tt := k.held(r, nil, k.liked(r))
		c := k.atResults(tt)
		k.picture("results" + name)
		if !strings.Contains(c.head.Text(), "C scored") || c.trouble.Visible() {
			t.Errorf("%q %q", c.head.Text(), c.trouble.Text())
		}
		c.kind.SetKey(chartSpread)
		c.lay()
		pressPin(k, "results.numbers")
		k.picture("results-spread" + name)
		if len(c.figures.Objects) != 4 {
			t.Errorf("%d tables of numbers", len(c.figures.Objects))
		}
		k.scrollResults(1100)
		k.picture("results-numbers" + name)
		k.scrollResults(1900)
		k.picture("results-tasters" + name)
		if dark {
			continue
		}
		c.panel.pick(2)
		pressPin(k, "results.set-aside")
		k.pins["results.aside.why"].(*parts.Entry).SetText("had a cold")
		k.press(fyne.KeyReturn)
		k.settle()
		c = k.atResults(k.book().Tasting(tt.ID))
		if c.r.Aside(c.panel.ids[2]) != "had a cold" || !strings.Contains(strings.Join(c.r.Says("").Notes, " "), "had a cold") {
			t.Error("nobody is set aside, or the result does not say so")
		}
		k.undo()
		k.settle()
		if c = k.atResults(k.book().Tasting(tt.ID)); c.r.Aside(c.panel.ids[2]) != "" {
			t.Error("setting aside cannot be undone")
		}
		k.exportsResults(c)
	}
}

// exportsResults writes charts and numbers into a folder: the one in sight at first,
// all when asked.
func (k *kitchenWindow) exportsResults(c *tastingResults) {
	k.t.Helper()
	for _, all := range []bool{false, true} {
		dir, want := k.t.TempDir(), 1
		c.write()
		k.fill("print.folder", dir)
		k.picture("results-export")
		if all {
			k.pins["figures.all"].(*parts.Button).Press()
			want = 2 * len(c.r.Asked())
		}
		k.confirm()
		k.until("files are written", func() bool { return strings.Count(saved(k.t, dir), ".csv") == 2 })
		k.settle()
		got := saved(k.t, dir)
		if strings.Count(got, ".svg") != want {
			k.t.Errorf("want %d charts: %s", want, got)
		}
		numbers, _ := filepath.Glob(filepath.Join(dir, "*", "*tasting*.csv"))
		if len(numbers) != 1 {
			k.t.Fatalf("%v", numbers)
		}
		if text, err := os.ReadFile(numbers[0]); err != nil || !strings.Contains(string(text), "against_original") {
			k.t.Errorf("%v", err)
		}
	}
}

func (k *kitchenWindow) scrollResults(y float32) {
	k.t.Helper()
	v := k.tastings().states[recipes.TastingClosed].(*closedTasting)
	scroll := v.scores.Outer.(*container.Scroll)
	scroll.Offset.Y = y
	scroll.Refresh()
	k.settle()
}

func TestResultsOfTraysInTheWindow(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.setTable(tasterCodes(12)...)
	first := k.book().Versions(r.ID)[0]
	tt := k.plan(r, func(f *sheets.PlanFields) {
		f.Test, f.Versions = string(sensory.Triangle), map[recipes.ID]int{first.ID: 1}
	})
	k.do(tasting.Begin(tt.ID))
	k.settle()
	for i, seat := range k.book().Tasting(tt.ID).Seats {
		k.do(tasting.Record(tt.ID, k.newID, tasting.Answer{Seat: seat.Number, Source: recipes.FromPaper, Scores: map[string]float64{recipes.AskChoice: float64(oddCup(seat, i < 8))}}))
	}
	k.do(tasting.Close(tt.ID, "2026-03-04T21:00:00Z", ""))
	k.settle()
	c := k.atResults(k.book().Tasting(tt.ID))
	k.picture("results-triangle")
	if !strings.Contains(c.head.Text(), "do notice") || !c.low.Visible() || c.picker.Visible() {
		t.Errorf("%q", c.head.Text())
	}
}

func oddCup(seat recipes.Seat, odd bool) int {
	count := map[recipes.ID]int{}
	for _, c := range seat.Cups {
		count[c.Sample]++
	}
	for _, c := range seat.Cups {
		if (count[c.Sample] == 1) == odd {
			return c.Code
		}
	}
	return 0
}

func TestResultsOfJustRightInTheWindow(t *testing.T) {
	k := openKitchen(t, true, fyne.NewSize(1280, 800))
	r := k.setTable(tasterCodes(12)...)
	tt := k.held(r, func(f *sheets.PlanFields) { f.Test, f.Attributes = string(sensory.JustRight), "Saltiness" },
		func(s *recipes.Sample, taster, cup int) map[string]float64 {
			said := 3
			if len(s.Served.Swaps) > 2 && taster%2 == 0 {
				said = 2
			}
			return map[string]float64{words.Say("plan.overall"): float64(4 + said + (taster+cup)%2), "Saltiness": float64(said)}
		})
	c := k.atResults(tt)
	c.asked = "Saltiness"
	c.lay()
	k.settle()
	k.picture("results-right-dark")
	if !strings.Contains(c.head.Text(), "just right for") || c.kind.Visible() || !c.picture.Visible() {
		t.Errorf("%q", c.head.Text())
	}
}
