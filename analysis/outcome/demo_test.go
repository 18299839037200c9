package outcome_test

import (
	"fmt"
	"os"
	"testing"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/analysis/ratings"
	"parewell/assets"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
)

// demoBook is the demo, and its gratin.
func demoBook(tb testing.TB) (*recipes.Book, *recipes.Recipe) {
	tb.Helper()
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		tb.Fatal(err)
	}
	table := food.NewTable(foods)
	c, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		tb.Fatal(err)
	}
	n := 0
	b, err := demo.Book(func() recipes.ID { n++; return recipes.ID(fmt.Sprintf("demo%012d", n)) }, table, c)
	if err != nil {
		tb.Fatal(err)
	}
	return b, b.Recipes()[0]
}

// The first thing a newcomer sees on Keep or drop: one swap within the limit, one
// that drops too much, one with not enough tasting, two always served together.
func TestTheDemosLedgerShowsEveryKindOfVerdict(t *testing.T) {
	b, r := demoBook(t)
	pool, err := outcome.PoolOf(b, r.ID)
	if err != nil {
		t.Fatal(err)
	}
	report, err := ratings.Analyse(pool.Table, ratings.Options{Original: outcome.Original(), Limit: pool.Limit, Attribute: "Overall"})
	if err != nil {
		t.Fatal(err)
	}
	e, err := outcome.EvidenceOf(b, r, pool, report.Results[0])
	if err != nil {
		t.Fatal(err)
	}
	table, err := ledger.Judge(e, ledger.EnergyKey)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[ledger.Kind][]string{}
	for i := range table.Rows {
		v := &table.Rows[i]
		seen[v.Kind] = append(seen[v.Kind], v.Name)
		if os.Getenv("PAREWELL_SHOW") != "" {
			fmt.Printf("%-45s %-14s %+.2f (%+.2f to %+.2f) pots %d saves %.0f\n", v.Name, v.Kind, v.Effect, v.Low, v.High, v.Pots, v.Saving.Amount)
		}
	}
	if os.Getenv("PAREWELL_SHOW") != "" {
		for i := range table.Wholes {
			w := &table.Wholes[i]
			fmt.Println(w.Line().String(), w.Kind)
		}
		fmt.Println("pot SD", e.PotSD, "residual", e.ResidualSD, "df", e.DF, "lof", e.LackOfFit, "knew", pool.Knew)
	}
	for kind, want := range map[ledger.Kind]int{ledger.Within: 1, ledger.TooMuch: 1, ledger.NotEnough: 1, ledger.Tied: 2} {
		if len(seen[kind]) != want {
			t.Errorf("%s: %v, want %d", kind, seen[kind], want)
		}
	}
}

// B was tasted at -0.16 and takes 143 kcal off: a mix that nobody cooked, takes as
// much off and is predicted two points down, is no trade-off.
func TestTheDemosTradeoffsLetTheTastedOutrankThePredicted(t *testing.T) {
	b, r := demoBook(t)
	pool, err := outcome.PoolOf(b, r.ID)
	if err != nil {
		t.Fatal(err)
	}
	report, err := ratings.SwapEffects(pool.Table, ratings.Options{Original: outcome.Original(), Limit: pool.Limit, Attribute: "Overall"})
	if err != nil {
		t.Fatal(err)
	}
	res := report.Results[0]
	for _, name := range pool.Table.Samples() {
		n := 0
		for i := range pool.Table.Scores {
			if s := &pool.Table.Scores[i]; s.Sample == name && s.Attribute == "Overall" {
				n++
			}
		}
		res.Samples = append(res.Samples, ratings.Sample{Name: name, N: n})
	}
	e, err := outcome.EvidenceOf(b, r, pool, res)
	if err != nil {
		t.Fatal(err)
	}
	best, err := ledger.Best(t.Context(), e, ledger.Goal{Nutrient: ledger.EnergyKey})
	if err != nil {
		t.Fatal(err)
	}
	tasted := map[string]ledger.Combo{}
	for _, c := range best.Frontier {
		if c.Standing == ledger.StandsTasted {
			tasted[e.Versions[c.Version].Name] = c
		}
	}
	v := tasted["B"]
	if d := e.Versions[2].Direct; e.Versions[2].Name != "B" || d == nil || v.Effect != d.Effect {
		t.Errorf("B stands with %v, tasted was %+v", v.Effect, d)
	}
	for _, c := range best.Frontier {
		if c.Standing != ledger.StandsTasted && c.Low < v.Low && c.Saving.Amount < v.Saving.Amount+1 {
			t.Errorf("offered: %v, %.1f kcal at %.2f", c.Names, c.Saving.Amount, c.Effect)
		}
	}
	plan, err := ledger.Next(t.Context(), e, ledger.Ask{Nutrient: ledger.EnergyKey})
	if err != nil || plan.Promised != nil && plan.Promised.Saving.Amount <= v.Saving.Amount {
		t.Errorf("%+v %v", plan.Promised, err)
	}
}
