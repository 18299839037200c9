package ledger

import (
	"context"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
)

// tally is how picks of one kind turned out.
type tally struct {
	picks, over        int     // how many, and truly over the limit
	kcal, promised, is float64 // sums: taken off, change in liking as promised, as it truly is
}

func (a *tally) add(e *Evidence, truth []float64, c *Combo) {
	if c == nil {
		return
	}
	is := 0.0
	for _, s := range c.Swaps {
		is += truth[s]
	}
	a.picks++
	a.kcal += c.Saving.Amount
	a.promised += c.Effect
	if a.is += is; is < -e.Limit {
		a.over++
	}
}

func (a tally) share() float64 { return float64(a.over) / float64(a.picks) }

// byPoint is what picking by the middle of the interval would pick for the
// limit: the most taken off with the estimate above it.
func byPoint(e *Evidence, m *model) *Combo {
	var best *Combo
	n := len(e.Swaps)
	for mask := 1; mask < 1<<n; mask++ {
		c := Combo{On: make([]bool, n), Saving: Saving{Known: true}}
		for i := range n {
			if mask>>i&1 == 1 {
				c.On[i] = true
				c.Swaps = append(c.Swaps, i)
				c.Saving.Amount += e.Swaps[i].Savings[EnergyKey].Amount
			}
		}
		if c.Interval = m.effect(c.On); c.Effect > -e.Limit && (best == nil || c.Saving.Amount > best.Saving.Amount) {
			best = &c
		}
	}
	return best
}

// picks plays one recipe: six swaps of random effect, the original, each swap
// alone, all together and two more tasted once, and both ways to pick for the
// limit.
func picks(t *testing.T, r *rand.Rand, tasters int, point, low *tally) {
	t.Helper()
	const n = 6
	tr := trial{truth: truth(r, n), versions: append(oneByOne(n), versions("110100", "001011")...), tasters: tasters, scatter: 1.4, pot: 0.2}
	e := tr.evidence(r)
	m, err := newModel(e)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Best(context.Background(), e, Goal{Nutrient: EnergyKey, Keep: 1})
	if err != nil {
		t.Fatal(err)
	}
	point.add(e, tr.truth, byPoint(e, m))
	low.add(e, tr.truth, got.ForLimit)
}

// TestPickingByTheLowEnd: over simulated recipes, who picks by the estimate
// breaks the limit often and is promised too much; who picks by the low end
// seldom. PAREWELL_SIMULATE=20000 plays more recipes and logs the figures of the
// package comment.
func TestPickingByTheLowEnd(t *testing.T) {
	recipes := 400
	if s := os.Getenv("PAREWELL_SIMULATE"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil {
			t.Fatal(err)
		}
		recipes = n
	}
	for _, tasters := range []int{12, 24, 60} {
		r := dice(uint64(tasters))
		var point, low tally
		for range recipes {
			picks(t, r, tasters, &point, &low)
		}
		for name, a := range map[string]tally{"estimate": point, "low end": low} {
			n := float64(a.picks)
			t.Logf("%d tasters, by %s: %d picks of %d, %.1f %% over the limit, %.0f kcal off, promised %.2f, is %.2f",
				tasters, name, a.picks, recipes, 100*a.share(), a.kcal/n, a.promised/n, a.is/n)
		}
		if point.picks < recipes/2 || low.picks < recipes/10 {
			t.Errorf("%d tasters: only %d and %d picks", tasters, point.picks, low.picks)
		}
		if low.share() > 0.22 || point.share() < 2*low.share() {
			t.Errorf("%d tasters: over the limit %.3f by the low end, %.3f by the estimate", tasters, low.share(), point.share())
		}
		if gap := point.promised/float64(point.picks) - point.is/float64(point.picks); gap < 0.05 {
			t.Errorf("%d tasters: the estimate promised only %.3f too much", tasters, gap)
		}
		if math.IsNaN(low.share()) {
			t.Error("nothing was picked")
		}
	}
}
