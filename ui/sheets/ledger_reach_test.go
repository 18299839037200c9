package sheets

import (
	"context"
	"strings"
	"testing"

	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// What the card says of the next tasting is the planner's own sentence, reckoned
// with the scatter that the recipe's tastings showed and with as many people.
func TestTheNextTastingPromisesWhatThePlannerDoes(t *testing.T) {
	l := demoLedger(t)
	trades := l.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	card := trades.Card()
	scatter := outcome.Scatter(l.Book, l.Recipe.ID)
	if scatter == sensory.UsualScatter {
		t.Error("the planner does not know how the tasters scattered")
	}
	_, plan := planNext(t, l, card)
	if !plan.Ready() || len(plan.Tasting.Seats) != card.Plan.Tasters || plan.Tasting.Limit != l.Limit() {
		t.Errorf("%d seats and a limit of %v, the card says %d tasters: %v", len(plan.Tasting.Seats), plan.Tasting.Limit, card.Plan.Tasters, plan.Faults)
	}
	last := card.Tells[len(card.Tells)-1]
	for _, s := range plan.Reach {
		if !strings.Contains(last, s) {
			t.Errorf("the planner says %q, the card %q", s, last)
		}
	}
	if len(plan.Reach) < 2 {
		t.Errorf("%q", plan.Reach)
	}
}

// Whoever looks at another score is told what comes next by that score.
func TestNextFollowsTheScoreThatWasChosen(t *testing.T) {
	l := demoLedger(t)
	overall := l.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	for _, a := range l.Attributes[1:] {
		got := l.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal, Attribute: a.Name})
		if got.Err != nil {
			t.Fatal(got.Err)
		}
		says := strings.Join(append(got.Card().Why, got.Card().Tells...), " ")
		if !strings.Contains(says, "This goes by "+a.Name) || strings.Contains(says, "your limit. ") {
			t.Errorf("%s: %s", a.Name, says)
		}
		same := 0
		for i, g := range got.Next.Tasting.Gains {
			if i < len(overall.Next.Tasting.Gains) && g == overall.Next.Tasting.Gains[i] {
				same++
			}
		}
		if same == len(got.Next.Tasting.Gains) {
			t.Errorf("%s tells just what overall liking does", a.Name)
		}
	}
}

// planNext plans the proposed tasting as the planner does.
func planNext(t *testing.T, l *Ledger, card NextCard) (*recipes.Book, *Plan) {
	t.Helper()
	n := 0
	fresh := func() recipes.ID { n++; return recipes.ID("next" + words.Trim(float64(n), 0)) }
	verb, fill := l.PlanNext(card.Plan, fresh)
	c, err := verb(l.Book)
	if err != nil {
		t.Fatal(err)
	}
	b, err := l.Book.With(c)
	if err != nil {
		t.Fatal(err)
	}
	f := NewPlan(b, l.Recipe, "2026-05-01")
	fill(&f)
	return b, ReadPlan(f, &recipes.Tasting{ID: "t", Recipe: l.Recipe.ID, Seed: 77}, b, fresh)
}

// What Next proposes is nothing the planner advises against, and the versions it
// drafts are called by their swaps.
func TestTheNextTastingObeysThePlanner(t *testing.T) {
	l := demoLedger(t)
	trades := l.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	card := trades.Card()
	b, plan := planNext(t, l, card)
	if !plan.Ready() {
		t.Fatal(plan.Faults)
	}
	for _, s := range plan.Says {
		if s.Key == "plan.too-many" || s.Key == "plan.repeat" {
			t.Errorf("the planner says %q", s.Text)
		}
	}
	if !strings.Contains(strings.Join(card.Tells, " "), "no more than 4 cups") {
		t.Errorf("%q", card.Tells)
	}
	for _, v := range b.Versions(l.Recipe.ID)[len(l.Book.Versions(l.Recipe.ID)):] {
		if on := b.On(v); v.Name == "" || !strings.Contains(v.Name, ShortSwap(on[0].Name)) {
			t.Errorf("%s is called %q", v.Letter, v.Name)
		}
	}
}

// Once the proposed tasting is planned the card says so, with a way to it; another
// one that is planned is named beside the proposal.
func TestNextSaysWhatIsPlanned(t *testing.T) {
	l := demoLedger(t)
	trades := l.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	b, plan := planNext(t, l, trades.Card())
	c, err := tasting.Put(plan.Tasting, plan.Samples)(b)
	if err != nil {
		t.Fatal(err)
	}
	if b, err = b.With(c); err != nil {
		t.Fatal(err)
	}
	now, err := NewLedger(b, b.Recipe(l.Recipe.ID))
	if err != nil {
		t.Fatal(err)
	}
	trades = now.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	card := trades.Card()
	if !strings.Contains(card.Step, "planned: ") || !strings.Contains(card.Step, "1 May 2026") || card.First.Kind != NextHeld || card.First.Tasting != "t" || card.Second.Kind == NextPlan {
		t.Errorf("%q, %+v, %+v", card.Step, card.First, card.Second)
	}
	if all := strings.Join(card.Samples, "|"); !strings.Contains(all, "The original (2 pots)") || !strings.Contains(all, "fat-free soft cheese and ") {
		t.Errorf("the versions that are served are not named by their swaps: %s", all)
	}
	trades.Next.Tasting.Samples[1].On[0] = !trades.Next.Tasting.Samples[1].On[0]
	card = trades.Card()
	if card.First.Kind != NextPlan || !strings.Contains(strings.Join(card.Why, " "), "Already planned: Tasting of 1 May 2026. What it tells") {
		t.Errorf("%q, %+v", card.Why, card.First)
	}
}
