package ui

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// tasterCodes are enough people for verdicts to come out.
func tasterCodes(n int) []string {
	var out []string
	for i := range n {
		out = append(out, fmt.Sprintf("T%02d", i+1))
	}
	return out
}

// scatter is the same in every run.
func scatter(i, j int) float64 { return float64((i*7+j*13+i*j*5)%5-2) * 0.7 }

// held plans a tasting, serves it, enters what score says and closes it.
func (k *kitchenWindow) held(r *recipes.Recipe, edit func(*sheets.PlanFields), score func(s *recipes.Sample, taster, cup int) map[string]float64) *recipes.Tasting {
	k.t.Helper()
	t := k.plan(r, edit)
	k.do(tasting.Begin(t.ID))
	k.settle()
	for i, seat := range k.book().Tasting(t.ID).Seats {
		for _, cup := range seat.Cups {
			s := k.book().Sample(t.ID, cup.Sample)
			k.do(tasting.Record(t.ID, k.newID, tasting.Answer{Seat: seat.Number, Code: cup.Code, Source: recipes.FromPaper, Scores: score(s, i, s.Place)}))
		}
	}
	k.settle()
	k.do(tasting.Close(t.ID, "2026-03-04T21:00:00Z", ""))
	k.settle()
	if now := k.book().Tasting(t.ID); now.State != recipes.TastingClosed {
		k.t.Fatalf("the tasting is %s", now.State)
	}
	return k.book().Tasting(t.ID)
}

// liked is what the tasters think: each swap costs a little, less salt a lot.
func (k *kitchenWindow) liked(r *recipes.Recipe) func(s *recipes.Sample, taster, cup int) map[string]float64 {
	salt := map[recipes.ID]bool{}
	for _, s := range k.book().Swaps(r.ID) {
		salt[s.ID] = strings.Contains(s.Name, "salt")
	}
	return func(s *recipes.Sample, taster, cup int) map[string]float64 {
		v := 7.2
		for _, x := range s.Served.Swaps {
			if v -= 0.1; salt[x.ID] {
				v -= 1.8
			}
		}
		score := func(j int) float64 { return math.Min(9, math.Max(1, math.Round(v+scatter(taster, cup+j)))) }
		return map[string]float64{words.Say("plan.overall"): score(0), "Flavour": score(1), "Texture": score(2)}
	}
}

// atLedger opens Keep or drop and waits until it is worked out.
func (k *kitchenWindow) atLedger(r *recipes.Recipe) *ledgerPage {
	k.t.Helper()
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabLedger})
	p := k.ledger()
	k.until("the ledger is worked out", func() bool {
		return p.l != nil && p.l.Book == k.book() && (p.l.Swaps() == 0 || p.trades != nil)
	})
	k.settle()
	return p
}

func (p *ledgerPage) cell(t *testing.T, name string, col int) parts.Cell {
	t.Helper()
	for _, r := range p.table.Data().Rows {
		if strings.Contains(r.Cells[0].Text, name) {
			return r.Cells[col]
		}
	}
	t.Fatalf("no row %q", name)
	return parts.Cell{}
}

func TestKeepOrDrop(t *testing.T) {
	for _, dark := range []bool{false, true} {
		name, size := "", fyne.NewSize(1280, 800)
		if dark {
			name, size = "-dark", fyne.NewSize(1920, 1080)
		}
		k := openKitchen(t, dark, size)
		r := k.setTable(tasterCodes(16)...)
		p := k.atLedger(r)
		k.picture("ledger-untasted" + name)
		if k.pins["ledger.plan"] == nil || p.l.Tasted() {
			t.Fatal("nothing says what to do next")
		}
		k.held(r, nil, k.liked(r))
		p = k.atLedger(r)
		k.picture("ledger" + name)
		if c := p.cell(t, "25 % less", 3); c.Text != "drop: drops too much" || c.Mark != parts.VerdictMark(charts.TooMuch) {
			t.Errorf("salt: %+v", c)
		}
		if !p.ranges.Visible() || !strings.Contains(p.ranges.Text(), "90 % range") {
			t.Error("nothing says what a 90 % range is")
		}
		for _, kind := range []string{chartFall, chartFront} {
			p.chart.kind.SetKey(kind)
			p.chart.show()
			p.left.Offset.Y = 420
			p.left.Refresh()
			k.settle()
			k.picture("ledger-" + kind + name)
			if p.chart.trouble.Visible() {
				t.Error(p.chart.trouble.Text())
			}
		}
		p.left.ScrollToBottom()
		p.right.ScrollToBottom()
		k.settle()
		k.picture("ledger-foot" + name)
		p.left.ScrollToTop()
		p.right.ScrollToTop()
		p.tryLimit("3")
		k.until("the trade-offs are found again", func() bool { return p.trades != nil && p.trades.Ask.Limit == 3 })
		k.settle()
		k.picture("ledger-what-if" + name)
		if p.l.Limit() != 0.5 || !p.view.Table.WhatIf() {
			t.Error("the recorded limit moved")
		}
		pressPin(k, "ledger.limit.back")
		if p.view.Table.WhatIf() {
			t.Error("the recorded limit did not come back")
		}
	}
}

func TestWhatComesNextIsDraftedAndPlanned(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.setTable(tasterCodes(16)...)
	k.held(r, nil, k.liked(r))
	p := k.atLedger(r)
	before := len(k.book().Versions(r.ID))
	if card := p.trades.Card(); card.First.Kind != sheets.NextPlan || card.Second.Kind != sheets.NextDraft {
		t.Fatalf("%+v", card)
	}
	pressPin(k, "ledger.draft")
	versions := k.book().Versions(r.ID)
	if len(versions) != before+1 || len(versions[before].Swaps) == 0 || k.at.tab != tabVersions {
		t.Fatalf("%d versions, at %+v", len(versions), k.at)
	}
	k.undo()
	k.settle()
	if len(k.book().Versions(r.ID)) != before {
		t.Error("drafting is not one act")
	}
	p = k.atLedger(k.book().Recipe(r.ID))
	want := len(p.trades.Card().Plan.Samples)
	pressPin(k, "ledger.plan-next")
	k.picture("ledger-planned")
	plan := k.pages[pagePlan].(*planPage)
	if k.at.page != pagePlan || !plan.plan.Ready() || len(plan.plan.Samples) < want {
		t.Errorf("at %+v: %v, %d samples", k.at, plan.plan.Faults, len(plan.plan.Samples))
	}
	for _, c := range plan.changes {
		if c.Changed {
			t.Errorf("%q is marked as changed, and nobody changed anything", c.Text)
		}
	}
	told := k.desk.View().Message
	pressPin(k, "plan.leave")
	if n := len(k.book().Versions(r.ID)); n != before || k.desk.View().Message != told || len(k.book().Tastings()) != 1 {
		t.Errorf("leaving the plan left %d versions more, %q", n-before, k.desk.View().Message)
	}
	k.atLedger(k.book().Recipe(r.ID))
	pressPin(k, "ledger.plan-next")
	pressPin(k, "plan.save")
	if n := len(k.book().Versions(r.ID)); n <= before || len(k.book().Tastings()) != 2 {
		t.Errorf("%d versions more with the plan kept, %s", n-before, k.status.Message())
	}
	planned := k.book().TastingsOf(r.ID)[1].ID
	if p = k.atLedger(k.book().Recipe(r.ID)); k.pins["ledger.held"] == nil {
		t.Fatalf("nothing leads to what is planned: %+v", p.trades.Card())
	}
	k.picture("ledger-held")
	pressPin(k, "ledger.held")
	if k.at.tab != tabTastings || k.book().Tasting(planned) == nil {
		t.Errorf("at %+v", k.at)
	}
	k.undo()
	k.settle()
	if n := len(k.book().Versions(r.ID)); n != before || len(k.book().Tastings()) != 1 {
		t.Errorf("the plan and its drafts are not one act: %d versions more", n-before)
	}
}

func TestKeepOrDropInANarrowWindow(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(900, 640))
	r := k.setTable(tasterCodes(16)...)
	k.held(r, nil, k.liked(r))
	k.atLedger(r)
	k.picture("ledger-narrow")
	k.setTheme(false, 1.6)
	k.settle()
	k.picture("ledger-large")
}

func TestARecipeWithoutSwapsSaysWhatToDo(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	k.do(recipes.AddRecipe(&recipes.Recipe{ID: "plain", Title: "Plain", Servings: 2, Edition: 1}, nil))
	k.settle()
	p := k.atLedger(k.book().Recipe("plain"))
	k.picture("ledger-empty")
	if !p.empty.Visible() || p.full.Visible() {
		t.Error("an empty page does not say what to do")
	}
	pressPin(k, "ledger.empty.swaps")
	if k.at.tab != tabSwaps {
		t.Error("the way on leads nowhere")
	}
}

// A limit that cannot be taken is refused beside its field, letters too; the refusal
// goes when a right one is taken or the page is left.
func TestALimitIsRefusedBesideItsField(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	r := k.setTable(tasterCodes(16)...)
	k.held(r, nil, k.liked(r))
	p := k.atLedger(r)
	for _, wrong := range []string{"9", "a bit"} {
		p.tryLimit(wrong)
		k.settle()
		if !p.limitFault.Visible() || !strings.Contains(p.limitFault.Text(), "“"+wrong+"” is no limit") || strings.Contains(k.status.Message(), "limit") {
			t.Errorf("%q: %q, %q", wrong, p.limitFault.Text(), k.status.Message())
		}
	}
	k.picture("ledger-limit-wrong")
	p.limit.FocusGained()
	p.limit.TypedRune('x')
	if !strings.Contains(p.limit.Text, "x") {
		t.Error("a letter is silently ignored")
	}
	p.tryLimit("0.7")
	k.settle()
	if p.limitFault.Visible() || p.ask.Limit != 0.7 {
		t.Errorf("a right limit was taken and the page still says %q", p.limitFault.Text())
	}
	p.tryLimit("9")
	k.goTo(place{page: pageRecipe, recipe: r.ID, tab: tabVersions})
	k.settle()
	if p = k.atLedger(r); p.limitFault.Visible() {
		t.Error("the refusal outlived the page")
	}
}

// Whoever read Next to its end and picks another row sees its detail from the top.
func TestAnotherRowIsReadFromItsTop(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 560))
	r := k.setTable(tasterCodes(16)...)
	k.held(r, nil, k.liked(r))
	p := k.atLedger(r)
	p.right.Refresh()
	p.right.ScrollToBottom()
	k.settle()
	if p.right.Offset.Y == 0 {
		t.Fatal("the right side does not scroll")
	}
	p.table.Select(1, 0)
	k.settle()
	if p.chosen != p.view.Sheet.Rows[1].Key || p.right.Offset.Y != 0 {
		t.Errorf("%s at %v", p.chosen, p.right.Offset.Y)
	}
}
