package sheets

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"

	"parewell/analysis/ledger"
	"parewell/assets"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/demo"
	"parewell/recipes/food"
	"parewell/recipes/ideas"
	"parewell/recipes/words"
)

// demoBook is the demo workbook, made once.
var demoBook = sync.OnceValues(func() (*recipes.Book, error) {
	foods, err := food.ReadStarter(assets.Foods)
	if err != nil {
		return nil, err
	}
	table := food.NewTable(foods)
	c, err := ideas.ReadCatalogue(assets.Swaps, assets.Kitchen, table)
	if err != nil {
		return nil, err
	}
	n := 0
	return demo.Book(func() recipes.ID { n++; return recipes.ID(fmt.Sprintf("demo%012d", n)) }, table, c)
})

// demoLedger is Keep or drop of the demo's gratin, which was tasted three times.
func demoLedger(t *testing.T) *Ledger {
	t.Helper()
	b, err := demoBook()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range b.Recipes() {
		if strings.Contains(r.Title, "haddock") {
			l, err := NewLedger(b, r)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
	}
	t.Fatal("no gratin in the demo")
	return nil
}

func demoView(t *testing.T, n food.Nutrient) *LedgerView {
	t.Helper()
	v, err := demoLedger(t).View(LedgerAsk{Nutrient: n})
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The waterfall says of every swap what the table says, to the digit.
func TestTheWaterfallAgreesWithTheTable(t *testing.T) {
	for _, n := range []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium} {
		v := demoView(t, n)
		for _, x := range v.l.Falls() {
			d, err := v.FallData(x.ID, "")
			if err != nil {
				t.Fatal(err)
			}
			fig, err := charts.Waterfall(d)
			if err != nil {
				t.Fatal(err)
			}
			for _, st := range d.Steps {
				r, effect := namedRow(t, v.Sheet, st.Name)
				want := words.Signed(st.Change, words.Decimals(n.Unit())) + " " + n.Unit() + "; effect not known"
				if strings.TrimLeft(r.Cells[0].Text, "–+") != strings.TrimLeft(words.Signed(st.Change, words.Decimals(n.Unit())), "–+") && r.Cells[0].Mark != Look {
					t.Errorf("%s: %s takes off %s in the table, changes by %v in the figure", n.Key(), st.Name, r.Cells[0].Text, st.Change)
				}
				if effect.Text != "?" {
					e, span := effectIn(intervalOf(v, st.Name), v.Table.Digits())
					want = "effect " + e + " " + span
					if effect.Text != e {
						t.Errorf("%s: %s in the table, %s in the figure", st.Name, effect.Text, e)
					}
				}
				if !strings.Contains(fig.Alt(), want) {
					t.Errorf("%s in %s: no %q in %s", st.Name, x.Letter, want, fig.Alt())
				}
			}
		}
	}
}

// intervalOf is a swap's effect, or that of all it was always served with.
func intervalOf(v *LedgerView, name string) ledger.Interval {
	for i := range v.Table.Rows {
		if r := &v.Table.Rows[i]; r.Name == name {
			if r.Kind == ledger.Tied {
				return r.Joint
			}
			return r.Interval
		}
	}
	return ledger.Interval{}
}

// namedRow finds a swap's row and its effect: that of the row for all of them
// where it was always served together with others.
func namedRow(t *testing.T, s Sheet, name string) (Row, Cell) {
	t.Helper()
	for i, r := range s.Rows {
		if r.Label.Text != name {
			continue
		}
		if r.Cells[1].Text != "not by itself" {
			return r, r.Cells[1]
		}
		for _, below := range s.Rows[i:] {
			if strings.HasPrefix(below.Key, LedgerTogetherKey) {
				return r, below.Cells[1]
			}
		}
	}
	t.Fatalf("no row %q", name)
	return Row{}, Cell{}
}

// Swaps that were always served together stand under one another and have one
// effect, which is said once.
func TestOneEffectOfSwapsServedTogetherStandsOnce(t *testing.T) {
	v := demoView(t, food.EnergyKcal)
	var keys []string
	times := 0
	for _, r := range v.Sheet.Rows {
		kind, _, _ := strings.Cut(r.Key, ":")
		keys = append(keys, kind)
		if !r.Band && r.Cells[1].Text+r.Cells[1].Sub == "–0.21(–0.67 to +0.24)" {
			times++
		}
	}
	at := slices.Index(keys, "together")
	if times != 1 || at < 2 {
		t.Fatalf("the joint effect stands %d times: %v", times, keys)
	}
	row := v.Sheet.Rows[at]
	if row.Label.Text != "The 2 above, together" || row.Cells[0].Text != "48" || v.Sheet.Rows[at-1].Cells[1].Text != "not by itself" || v.Sheet.Rows[at-2].Cells[1].Text != "not by itself" {
		t.Errorf("%+v", v.Sheet.Rows[at-2:at+1])
	}
	d := v.Detail(row.Key)
	if !strings.HasPrefix(d.Title, "Olive oil for the butter under the leeks and crumbs") || d.Label != "not sure: not enough tasting yet" {
		t.Errorf("%+v", d)
	}
	if len(d.Says) < 2 || !strings.Contains(d.Says[0], ", together: liking changes by –0.21 points, but the 90 % range of –0.67 to +0.24") || !strings.HasPrefix(d.Says[1], "Which of the 2 did it cannot be told") {
		t.Errorf("the pair has no sentence of its own: %q", d.Says)
	}
	if c := row.Cells[2]; c.Text != "not sure: not enough tasting yet; which of the 2 it is cannot be told" || c.Mark != VerdictMark(charts.NotEnough) || d.Mark != c.Mark {
		t.Errorf("the pair has no verdict of its own: %+v", c)
	}
}

// Every line of a whole version names its swaps, and its mark and every other is
// the one the figures have.
func TestWholeVersionsNameTheirSwaps(t *testing.T) {
	v := demoView(t, food.EnergyKcal)
	b := rowOf(t, v.Sheet, LedgerWholeKey+string(v.l.versions[2].ID))
	if b.Label.Text != "B: strained yogurt, olive oil and crumbs brushed with oil" {
		t.Error(b.Label.Text)
	}
	for i := range v.Table.Rows {
		r := &v.Table.Rows[i]
		mark, ok := rowOf(t, v.Sheet, LedgerSwapKey+string(v.l.swaps[r.Swap].ID)).Cells[2].Mark.Verdict()
		if !ok || mark != charts.Verdict(r.Kind) {
			t.Errorf("%s: %q in the table, %s in the figures", r.Name, mark, r.Kind)
		}
	}
}

// A version that nobody has tasted is listed, and said not to have been.
func TestVersionsThatWereNotTastedAreListed(t *testing.T) {
	v := demoView(t, food.EnergyKcal)
	row := rowOf(t, v.Sheet, LedgerWholeKey+string(v.l.versions[6].ID))
	if !strings.HasPrefix(row.Label.Text, "F: ") || row.Cells[2].Text != "not tasted" || row.Cells[3].Text != "–" || row.Cells[0].Text == "" {
		t.Errorf("%+v", row)
	}
	if d := v.Detail(row.Key); d.Label != "not tasted" || len(d.Says) != 2 || d.Says[0] != "Nobody has tasted it yet." {
		t.Errorf("%+v", d)
	}
}

// Swaps and versions are judged in the same words, which say keep or drop, and the
// figures of a column have as many decimals.
func TestVerdictsSayKeepOrDrop(t *testing.T) {
	v := demoView(t, food.EnergyKcal)
	said := map[string]int{}
	for _, r := range v.Sheet.Rows {
		if r.Band {
			continue
		}
		said[r.Cells[2].Text]++
		if _, part, ok := strings.Cut(r.Cells[1].Text, "."); ok && len(part) != 2 {
			t.Errorf("%s: %s", r.Label.Text, r.Cells[1].Text)
		}
	}
	if c := v.Sheet.Columns[3]; c.Title+" "+c.Sub != "Pots tasted" || words.Say("plan.cooked") != "Kitchen tests" {
		t.Errorf("pots that were tasted and kitchen tests go by one name: %q", c.Title)
	}
	for text, n := range map[string]int{"keep: within your limit": 2, "drop: drops too much": 3, "not sure: not enough tasting yet": 3} {
		if said[text] != n {
			t.Errorf("%q stands %d times: %v", text, said[text], said)
		}
	}
	for _, r := range v.Sheet.Rows {
		if d := v.Detail(r.Key); slices.ContainsFunc(d.Says, func(s string) bool { return strings.HasPrefix(s, "Rests on") }) {
			t.Errorf("%s rests on its pots twice: %q", r.Label.Text, d.Says)
		}
	}
}

func TestMoreOfANutrientIsSaidPlainly(t *testing.T) {
	v := demoView(t, food.Sodium)
	r, _ := namedRow(t, v.Sheet, "strained yogurt for half the double cream")
	if c := r.Cells[0]; c.Text != "4" || c.Sub != "heavier" || c.Mark != Look {
		t.Errorf("%+v", c)
	}
}

func TestShortNamesOfSwaps(t *testing.T) {
	for name, want := range map[string]string{
		"strained yogurt for half the double cream": "strained yogurt",
		"crumbs brushed with oil, not butter":       "crumbs brushed with oil",
		"honey instead of sugar":                    "honey",
		"25 % less fine salt":                       "25 % less fine salt",
		"for the freezer":                           "for the freezer",
		"forks of butter":                           "forks of butter",
	} {
		if got := ShortSwap(name); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	same := shortNames([]*recipes.Swap{{Name: "oil for the butter"}, {Name: "oil for the lard"}, {Name: "leek for onion"}})
	if strings.Join(same, "|") != "oil for the butter|oil for the lard|leek" {
		t.Error(same)
	}
}

// The card says one step, its reason, and two acts that are not called alike.
func TestNextIsOneStep(t *testing.T) {
	l := demoLedger(t)
	x := l.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	c := x.Card()
	if !strings.HasPrefix(c.Step, "Taste next: the original") || c.First.Kind != NextPlan || len(c.Why) == 0 || !strings.HasPrefix(c.Why[0], "It would tell for the first time") {
		t.Errorf("%q, %+v, %q", c.Step, c.First, c.Why)
	}
	if c.Second.Kind == "" || c.Second.Kind == c.First.Kind || c.Second.Label == c.First.Label {
		t.Errorf("%+v and %+v", c.First, c.Second)
	}
	x.Next.Promised = &ledger.Combo{Swaps: []int{0}, On: []bool{true}, Version: -1, Interval: ledger.Interval{Effect: 0, Low: -0.2, High: 0.2}}
	if c = x.Card(); c.Step != "Cook next: strained yogurt." || c.First.Kind != NextDraft || c.Second.Kind != NextPlan {
		t.Errorf("%q, %+v, %+v", c.Step, c.First, c.Second)
	}
	x.Next.Promised, x.Next.Tasting, x.Next.Instead = nil, nil, nil
	if c = x.Card(); c.Step != "Nothing is left to settle by tasting." || c.First.Kind != "" || len(c.Samples) != 0 {
		t.Errorf("%+v", c)
	}
}

func TestWhatIsSaidOfSeveralSwapsIsSaidOnce(t *testing.T) {
	x := demoLedger(t).Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	for _, all := range [][]string{x.Beside(), x.Card().Tells} {
		text := strings.Join(all, " ")
		for _, once := range []string{"nothing can be predicted with", "only counted together", "would stay open"} {
			if n := strings.Count(text, once); n > 1 {
				t.Errorf("%q stands %d times: %s", once, n, text)
			}
		}
	}
	if b := strings.Join(x.Beside(), " "); !strings.Contains(b, "15 % less fine salt, 40 % less fine salt") {
		t.Error(b)
	}
}

// What keeps within the limit stands first; what is over it last, under a line that
// says so, and every row has its verdict.
func TestTradeOffsSayWhatKeepsWithinTheLimit(t *testing.T) {
	l := demoLedger(t)
	x := l.Trade(context.Background(), LedgerAsk{Nutrient: food.EnergyKcal})
	s := x.Sheet()
	var got []string
	for _, r := range s.Rows {
		if r.Band {
			got = append(got, r.Label.Text)
			continue
		}
		mark, _ := r.Cells[2].Mark.Verdict()
		got = append(got, r.Label.Text[:2]+" "+string(mark)+" "+r.Cells[2].Text)
	}
	want := []string{
		"A: within keep: within your limit, the best that does. Tasted.", "B: not-enough not sure: not enough tasting yet. Tasted.",
		"Over your limit of 0.5", "E: too-much drop: drops too much. Tasted.",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	if last := s.Rows[len(s.Rows)-1]; !last.Label.Muted || !last.Cells[0].Muted || s.Rows[0].Label.Muted || s.Columns[0].Sub != "energy, kcal" {
		t.Errorf("%+v", last)
	}
	salt := l.Trade(context.Background(), LedgerAsk{Nutrient: food.Sodium})
	if salt.Foot() != "No mix that takes sodium off is sure to keep within 0.5 points." {
		t.Errorf("%q", salt.Foot())
	}
	for _, r := range salt.Sheet().Rows {
		if !r.Band && strings.Contains(r.Cells[2].Text, "drops too much") && strings.Contains(r.Cells[2].Text, "expect it") {
			t.Errorf("less is to be expected of what is over the limit anyway: %s", r.Cells[2].Text)
		}
	}
}

// A lighter dish is not to have less protein or fibre.
func TestLighterByOffersWhatOneWantsLessOf(t *testing.T) {
	u := UnitsOf(demoLedger(t).Book)
	offered := LighterBy(u)
	if slices.Contains(offered, food.Protein) || slices.Contains(offered, food.Fibre) || !slices.Contains(offered, food.EnergyKcal) || !slices.Contains(offered, food.Sodium) {
		t.Error(offered)
	}
	if !slices.Contains(u.Shown(), food.Protein) {
		t.Error("the list that others use was cut")
	}
}
