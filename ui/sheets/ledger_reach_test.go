package sheets

import (
	"context"
	"strings"
	"testing"

	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
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
	n := 0
	verb, fill := l.PlanNext(card.Plan, func() recipes.ID { n++; return recipes.ID("new" + words.Trim(float64(n), 0)) })
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
	plan := ReadPlan(f, &recipes.Tasting{ID: "t", Recipe: l.Recipe.ID, Seed: 77}, b, func() recipes.ID { n++; return recipes.ID("new" + words.Trim(float64(n), 0)) })
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
