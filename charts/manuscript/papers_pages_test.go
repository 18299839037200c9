package manuscript

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/recipes"
)

// TestTheMethodFillsTheRunSheet: heat, minutes and rest stand there with their step
// where the method says them plainly, and what the cook says goes before.
func TestTheMethodFillsTheRunSheet(t *testing.T) {
	s := newSupper(t, 4)
	s.do(recipes.SetStep("gratin", "s2", "Lay the fish over them and bake at 190°C/170°C fan for 25 minutes, then rest 10 minutes."))
	s.do(recipes.AddSwap(&recipes.Swap{ID: "hot", Recipe: "gratin", Name: "hot", Ops: []recipes.Op{{Kind: recipes.OpStepReplace, Step: "s2", Text: "Bake at 220 C, then at 180 C."}}}, nil, "va"))
	tt := s.plan(recipes.TestLiking, 4, 2, nil)
	run := s.papers(tt, PapersAsk{}).Run
	f := run.Waves[0].Fires[0]
	// 8 cups take 4 minutes: from 19:26; out 19:16; 35 minutes as the dish is noted.
	if f.Heat != "190 °C" || f.Out != "19:16" || f.In != "18:41" || f.Minutes != "35" {
		t.Errorf("the original: %+v", f)
	}
	if f := run.Waves[0].Fires[1]; f.Heat != "" || f.Out != "19:26" {
		t.Errorf("two heats are not plain, and nothing rests: %+v", f)
	}
	if want := "Original, from the method: oven at 190 °C (step 2) and rests 10 minutes (step 2)."; !slices.Equal(run.Sources, []string{want}) {
		t.Errorf("sources %q", run.Sources)
	}
	if text := PapersDocument(&TastingPapers{Parts: []Part{PartRun}, Run: run}, A4).Pages[0].Words(); !strings.Contains(text, "(step 2)") {
		t.Errorf("the step is not on the sheet: %s", text)
	}
	if f := s.papers(tt, PapersAsk{Heat: 200, NoRest: true}).Run.Waves[0].Fires[0]; f.Heat != "200 °C" || f.Out != "19:26" {
		t.Errorf("as the cook says: %+v", f)
	}
	if f := s.papers(tt, PapersAsk{Rest: 5}).Run.Waves[0].Fires[0]; f.Out != "19:21" {
		t.Errorf("another rest: %+v", f)
	}
}

// TestNoPageIsNearlyEmpty: a ballot of four cups takes one page on either paper, the
// last question of one that takes two is not alone there, and the codes of all trays
// stand together.
func TestNoPageIsNearlyEmpty(t *testing.T) {
	s := newSupper(t, 8)
	for _, paper := range []Paper{A4, Letter} {
		p := s.papers(s.plan(recipes.TestLiking, 8, 4, nil), PapersAsk{})
		p.Parts = []Part{PartBallots}
		if d := PapersDocument(p, paper); len(d.Pages) != 8 {
			t.Errorf("%s: %d pages of 8 ballots", paper.Key, len(d.Pages))
		}
		p.Parts = []Part{PartRun}
		d := PapersDocument(p, paper)
		inside(t, d)
		for i := range d.Pages {
			if n := strings.Count(d.Pages[i].Words(), " orig."); n != 0 && n != 8 {
				t.Errorf("%s: %d of 8 trays on run sheet's page %d", paper.Key, n, i+1)
			}
		}
		p = s.papers(s.plan(recipes.TestLiking, 8, 5, nil), PapersAsk{Parts: []Part{PartBallots}})
		for i, page := range PapersDocument(p, paper).Pages {
			if text := page.Words(); strings.Contains(text, "Thank you") && !strings.Contains(text, "Overall") {
				t.Errorf("%s: page %d has the last question alone", paper.Key, i+1)
			}
		}
	}
}

// TestTheListAddsUpOverPots: the original from two pots and each version need what
// their pots make, and the list alone is the list on paper.
func TestTheListAddsUpOverPots(t *testing.T) {
	s := newSupper(t, 8)
	tt := s.plan(recipes.TestLiking, 8, 5, nil)
	p := s.papers(tt, usual())
	if got := ShoppingOf(s.book, tt, nutrition.In(s.book), usual()); !reflect.DeepEqual(got, p.Shopping) {
		t.Errorf("the list alone %+v,\non paper %+v", got, p.Shopping)
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	times := 0.0
	for _, pot := range p.Pots {
		times += number(pot.CSV[2])
	}
	for _, x := range p.Shopping {
		if x.Food == "White wine" { // 99 g in each of the five pots, whatever the version
			if want := 99 * times; len(p.Pots) != 5 || math.Abs(number(x.CSV[0])-want) > 0.05 {
				t.Errorf("%d pots need %s g of wine, want %g", len(p.Pots), x.CSV[0], want)
			}
		}
	}
}
