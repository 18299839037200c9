package sheets

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/ledger"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// evening is a book with four swaps, three versions and tasters, to hold tastings
// in.
type evening struct {
	t    *testing.T
	book *recipes.Book
	n    int
}

func newEvening(t *testing.T) *evening {
	t.Helper()
	g := &evening{t: t, book: &recipes.Book{}}
	line := func(id, name string, grams, kcal float64) (*recipes.Line, *food.Food) {
		f := &food.Food{Ref: food.Ref{Source: "test", Code: id}, Name: name, Allergens: food.Allergens{Recorded: true}}
		f.Per100.Set(food.EnergyKcal, kcal)
		f.Per100.Set(food.Sodium, 100)
		return &recipes.Line{ID: recipes.ID(id), Text: name, Name: name, Grams: grams, GramsFrom: recipes.GramsWeight, Food: f.Ref, PartEaten: 1}, f
	}
	r := &recipes.Recipe{ID: "r", Title: "Gratin", Servings: 4, ServingsFrom: recipes.ServingsStated, Edition: 1}
	var foods []*food.Food
	for _, x := range []struct {
		name        string
		grams, kcal float64
	}{{"cream", 300, 450}, {"butter", 60, 720}, {"cheese", 120, 400}, {"crumbs", 50, 360}} {
		l, f := line(x.name, x.name, x.grams, x.kcal)
		r.Lines, foods = append(r.Lines, l), append(foods, f)
	}
	g.do(recipes.AddRecipe(r, foods))
	for _, name := range []string{"cream", "butter", "cheese", "crumbs"} {
		g.do(recipes.AddSwap(&recipes.Swap{
			ID: recipes.ID("s-" + name), Recipe: "r", Name: "half the " + name,
			Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: recipes.ID(name), Factor: 0.5}},
		}, nil, ""))
	}
	for _, v := range []struct {
		id string
		on []string
	}{{"A", []string{"cream"}}, {"B", []string{"cream", "butter"}}, {"C", []string{"butter", "cheese"}}} {
		g.do(recipes.AddVersion("r", recipes.ID(v.id), "", ""))
		for _, s := range v.on {
			g.do(recipes.Tick("r", recipes.ID(v.id), recipes.ID("s-"+s), true))
		}
	}
	for i := range 12 {
		g.do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID(fmt.Sprint("p", i)), Code: fmt.Sprint("P", i), Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
	return g
}

func (g *evening) do(v recipes.Verb) {
	g.t.Helper()
	c, err := v(g.book)
	if err == nil {
		g.book, err = g.book.With(c)
	}
	if err != nil {
		g.t.Fatal(err)
	}
}

func (g *evening) id() recipes.ID { g.n++; return recipes.ID(fmt.Sprint("x", g.n)) }

// wobble is a scatter that is the same in every run.
func wobble(i, j int) float64 { return float64((i*7+j*13+i*j*5)%5) - 2 }

// liking is what the gratin's tasters think of a sample: cheese is missed.
func liking(s *recipes.Sample, taster, cup int) map[string]float64 {
	v := 7.0
	for _, x := range s.Served.Swaps {
		if x.ID == "s-cheese" {
			v -= 2
		}
	}
	score := math.Min(9, math.Max(1, math.Round(v+0.7*wobble(taster, cup))))
	return map[string]float64{words.Say("plan.overall"): score, "Flavour": math.Min(9, score+1)}
}

// hold plans, serves and closes a tasting; score says what a taster gives a cup.
func (g *evening) hold(id string, edit func(*PlanFields), score func(s *recipes.Sample, taster, cup int) map[string]float64) {
	g.t.Helper()
	f := NewPlan(g.book, g.book.Recipe("r"), "2026-03-04")
	f.Attributes = "Flavour"
	if edit != nil {
		edit(&f)
	}
	p := ReadPlan(f, &recipes.Tasting{ID: recipes.ID(id), Recipe: "r", Seed: 7}, g.book, g.id)
	if !p.Ready() {
		g.t.Fatal(p.Faults)
	}
	g.do(tasting.Put(p.Tasting, p.Samples))
	g.do(tasting.Begin(p.Tasting.ID))
	for i, seat := range g.book.Tasting(p.Tasting.ID).Seats {
		for _, cup := range seat.Cups {
			s := g.book.Sample(p.Tasting.ID, cup.Sample)
			g.do(tasting.Record(p.Tasting.ID, g.id, tasting.Answer{Seat: seat.Number, Code: cup.Code, Source: recipes.FromPaper, Scores: score(s, i, s.Place)}))
		}
	}
	g.do(tasting.Close(p.Tasting.ID, "2026-03-04T21:00:00Z", ""))
}

func (g *evening) ledger() *Ledger {
	g.t.Helper()
	l, err := NewLedger(g.book, g.book.Recipe("r"))
	if err != nil {
		g.t.Fatal(err)
	}
	return l
}

func (g *evening) view(a LedgerAsk) *LedgerView {
	g.t.Helper()
	v, err := g.ledger().View(a)
	if err != nil {
		g.t.Fatal(err)
	}
	return v
}

func rowOf(t *testing.T, s Sheet, key string) Row {
	t.Helper()
	for _, r := range s.Rows {
		if r.Key == key {
			return r
		}
	}
	t.Fatalf("no row %q", key)
	return Row{}
}

func TestALedgerBeforeAnyTastingHasOnlySavings(t *testing.T) {
	g := newEvening(t)
	v := g.view(LedgerAsk{})
	if v.l.Tasted() || len(v.Sheet.Rows) != 4 {
		t.Fatalf("%+v", v.Sheet)
	}
	r := rowOf(t, v.Sheet, "swap:s-cream")
	if r.Cells[0].Text != "169" || r.Cells[1].Text != "?" || r.Cells[2].Text != "not tasted" {
		t.Errorf("%+v", r.Cells)
	}
	if d := v.Detail("swap:s-cream"); len(d.Says) != 1 || len(d.Rests) != 0 {
		t.Errorf("%+v", d)
	}
	x := v.l.Trade(context.Background(), v.Ask)
	if x.Err != nil || len(x.Sheet().Rows) != 0 || len(x.Beside()) != 1 {
		t.Errorf("%+v", x)
	}
	if _, err := charts.SwapMap(v.MapData("")); err != nil {
		t.Error(err)
	}
}

func TestVerdictsStandUnderWholeVersions(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	v := g.view(LedgerAsk{})
	cheese, cream := rowOf(t, v.Sheet, "swap:s-cheese"), rowOf(t, v.Sheet, "swap:s-cream")
	if cheese.Cells[2].Text != "drop: drops too much" || cheese.Cells[2].Mark != VerdictMark(charts.TooMuch) || cheese.Cells[3].Text != "1" {
		t.Errorf("cheese %+v", cheese.Cells)
	}
	if cream.Cells[2].Mark == VerdictMark(charts.TooMuch) || cream.Cells[1].Sub == "" {
		t.Errorf("cream %+v", cream.Cells)
	}
	if crumbs := rowOf(t, v.Sheet, "swap:s-crumbs"); crumbs.Cells[2].Text != "not tasted" {
		t.Errorf("crumbs %+v", crumbs.Cells)
	}
	whole := rowOf(t, v.Sheet, "whole:C")
	if whole.Cells[2].Text != "drop: drops too much" || whole.Label.Text != "C: half the butter and half the cheese" || whole.Cells[0].Text != "114" {
		t.Errorf("whole %+v", whole)
	}
	d := v.Detail("swap:s-cheese")
	if len(d.Says) < 2 || !strings.Contains(d.Says[0], "90 % range") || len(d.Rests) != 1 || !strings.Contains(d.Rests[0], "C (1 pot); 12 tasters") {
		t.Errorf("%+v", d)
	}
	if d := v.Detail("whole:C"); !strings.Contains(d.Says[0], "drops too much for your limit of 0.5") {
		t.Errorf("%+v", d)
	}
	if _, trust := v.Heads(); len(trust) == 0 || !strings.Contains(trust[0], "cooked once") {
		t.Errorf("%v", trust)
	}
}

func TestAnotherLimitIsOnlyTried(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	v := g.view(LedgerAsk{Limit: 4})
	if c := rowOf(t, v.Sheet, "swap:s-cheese").Cells[2]; c.Mark != VerdictMark(charts.SmallDrop) {
		t.Errorf("against 4: %+v", c)
	}
	whatIf, _ := v.Heads()
	if !strings.Contains(whatIf, "0.5") || v.l.Limit() != 0.5 {
		t.Errorf("%q", whatIf)
	}
	kept, err := v.Recorded()
	if err != nil || rowOf(t, kept.Sheet, "swap:s-cheese").Cells[2].Mark != VerdictMark(charts.TooMuch) || kept.MapData("").Limit != 0.5 {
		t.Errorf("the recorded limit was not kept: %v", err)
	}
	csv := kept.CSV()
	if len(csv) != 1+4+3 || csv[3][10] != "too-much" || csv[3][12] != "0.5" || csv[1][4] != "168.75" {
		t.Errorf("%v", csv)
	}
}

func TestWhatIsNotLikingHasNoLimit(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	v := g.view(LedgerAsk{Attribute: "Flavour", Limit: 4})
	if c := rowOf(t, v.Sheet, "swap:s-cheese").Cells[2]; c.Text != "scored lower" || c.Mark != VerdictMark(charts.NoLimit) {
		t.Errorf("%+v", c)
	}
	if d := v.Detail("swap:s-cheese"); !strings.Contains(d.Says[0], "Flavour: the score changes by") {
		t.Errorf("%+v", d)
	}
	for _, s := range v.Detail("swap:s-cheese").Says {
		if strings.Contains(s, "liking") {
			t.Errorf("%q speaks of liking", s)
		}
	}
	if v.MapData("").Limit != 0 || v.l.Attributes[0].Name != words.Say("plan.overall") {
		t.Error("the limit is drawn for flavour")
	}
}

func TestTheHeadSaysWhoWasSetAside(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	g.do(tasting.SetAside("t1", "p3", "had a cold", "2026-03-05"))
	_, trust := g.view(LedgerAsk{}).Heads()
	if all := strings.Join(trust, " "); !strings.Contains(all, "P3") || !strings.Contains(all, "had a cold") {
		t.Errorf("%v", trust)
	}
}

func TestTradeOffsSayTheyArePredicted(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	v := g.view(LedgerAsk{})
	x := v.l.Trade(context.Background(), v.Ask)
	if x.Err != nil {
		t.Fatal(x.Err)
	}
	s := x.Sheet()
	if len(s.Rows) == 0 {
		t.Fatal("no trade-offs")
	}
	for _, r := range s.Rows {
		if r.Band {
			continue
		}
		if known := r.Cells[2].Text; !strings.Contains(known, "Tasted") && !strings.Contains(known, "redicted, not cooked") {
			t.Errorf("%+v", r)
		}
	}
	if b := x.Beside(); len(b) != 1 || !strings.Contains(b[0], "alf the crumbs") {
		t.Errorf("%v", b)
	}
	fig, err := charts.FrontierChart(v.FrontData(&x, ""))
	if err != nil || strings.Contains(fig.PaperAlt(), "predicted") {
		t.Errorf("%v: %s", err, fig.PaperAlt())
	}
	fall, err := v.FallData("B", "")
	if err != nil || len(fall.Steps) != 2 || fall.Steps[0].Change >= 0 {
		t.Errorf("%+v %v", fall, err)
	}
	if _, err := charts.Waterfall(fall); err != nil {
		t.Error(err)
	}
	c := x.Card()
	if c.Step == "" || len(c.Why) == 0 || c.Plan == nil || !slices.ContainsFunc(c.Samples, func(s string) bool { return strings.Contains(s, "original") }) {
		t.Fatalf("%+v", c)
	}
	for _, a := range []NextAct{c.First, c.Second} {
		if a.Kind != NextDraft {
			continue
		}
		g.do(v.l.Drafted("new", a.On))
		if n := g.book.Version("r", "new"); n == nil || len(n.Swaps) == 0 {
			t.Error("nothing was drafted")
		}
	}
	verb, fill := v.l.PlanNext(c.Plan, g.id)
	if verb != nil {
		g.do(verb)
	}
	f := NewPlan(g.book, g.book.Recipe("r"), "2026-03-11")
	fill(&f)
	p := ReadPlan(f, &recipes.Tasting{ID: "t2", Recipe: "r", Seed: 7}, g.book, g.id)
	if !p.Ready() || len(p.Samples) < len(c.Plan.Samples) {
		t.Errorf("%v %+v", p.Faults, p.Samples)
	}
}

func TestSwapsServedTogetherShowOneEffect(t *testing.T) {
	g := newEvening(t)
	g.do(recipes.RemoveVersion("r", "A"))
	g.do(recipes.RemoveVersion("r", "C"))
	g.hold("t1", nil, liking)
	v := g.view(LedgerAsk{})
	r := rowOf(t, v.Sheet, "swap:s-cream")
	if r.Cells[2].Text != "always served together with half the butter" || r.Cells[1].Text != "not by itself" || !r.Cells[1].Muted {
		t.Errorf("%+v", r.Cells)
	}
	m := v.MapData("")
	if m.Swaps[0].Group != 1 || m.Swaps[1].Group != 1 || m.Swaps[2].Group != 0 || m.Swaps[0].Verdict != charts.Tied {
		t.Errorf("%+v", m.Swaps)
	}
	if v.Table.Rows[0].Kind != ledger.Tied {
		t.Error("not tied")
	}
}
