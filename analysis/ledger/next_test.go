package ledger

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
)

func next(t *testing.T, e *Evidence, a Ask) *Plan {
	t.Helper()
	p, err := Next(context.Background(), e, a)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestNextSeparatesATie: of a pair always served together it serves one alone
// beside the original, in the fewest samples there are.
func TestNextSeparatesATie(t *testing.T) {
	tr := trial{truth: []float64{-0.1, -0.2, -0.4, -0.1}, versions: versions("0000", "1000", "0100", "0011", "1100", "1111"), tasters: 24, scatter: 1, pot: 0}
	e := tr.evidence(dice(9))
	p := next(t, e, Ask{Nutrient: EnergyKey, Swaps: []int{2, 3}})
	if p.Tasting == nil || len(p.Tasting.Samples) != 2 || p.Tasting.Pots != 2 || p.Tasting.Servings != 48 {
		t.Fatalf("%+v", p.Tasting)
	}
	first, second := p.Tasting.Samples[0], p.Tasting.Samples[1]
	if onCount(first.On) != 0 || first.Version != 0 {
		t.Errorf("the original is not served: %+v", first)
	}
	if second.On[2] == second.On[3] || second.Version != -1 {
		t.Errorf("the pair is still together: %+v", second)
	}
	for _, g := range p.Tasting.Gains {
		if !g.Separates || math.IsNaN(g.After) || !math.IsNaN(g.Before) {
			t.Errorf("%+v", g)
		}
	}
	said := ""
	for _, s := range append(p.Says(), p.Tasting.Says()...) {
		said += s.String() + "\n"
	}
	if strings.ContainsAny(said, "[{") || !strings.Contains(said, "2 samples from 2 pots for 24 tasters: 48 servings.") ||
		!strings.Contains(said, "each by itself: swap 2 and swap 3") {
		t.Error(said)
	}
}

// TestNextStartsFromNothing: four swaps nobody tasted take five samples, and
// the set is as good as any (exact determinant 9, version_choice_d_optimal.json).
func TestNextStartsFromNothing(t *testing.T) {
	e := &Evidence{Limit: 0.5}
	for i := range 4 {
		e.Swaps = append(e.Swaps, SwapFact{ID: fmt.Sprint(i), Name: fmt.Sprint("swap ", i)})
	}
	p := next(t, e, Ask{})
	if p.Promised != nil || p.Tasting == nil || len(p.Tasting.Samples) != 5 || p.Tasting.Tasters != usualTasters {
		t.Fatalf("%+v", p)
	}
	var rows [][]int64
	for _, s := range p.Tasting.Samples {
		rows = append(rows, whole(s.On))
	}
	if d := determinant(rows); d != 9 {
		t.Errorf("determinant %v, want 9", d)
	}
	e.Swaps[2].Savings = map[string]Saving{EnergyKey: {Amount: 50, Known: true}}
	p = next(t, e, Ask{Nutrient: EnergyKey, MaxSamples: 3})
	told := 0
	for _, g := range p.Tasting.Gains {
		if g.Separates {
			told++
		}
	}
	if len(p.Tasting.Samples) != 3 || told != 2 || !p.Tasting.Gains[2].Separates {
		t.Errorf("three samples tell %d swaps: %+v", told, p.Tasting.Gains)
	}
}

// TestNextAgreesWithTryingAll weighs every design of up to four samples by
// itself, from the whole least-squares problem.
func TestNextAgreesWithTryingAll(t *testing.T) {
	e := trial{truth: []float64{-0.3, -0.5, 0.2}, versions: versions("000", "100", "110", "111"), tasters: 12, scatter: 1.3, pot: 0}.evidence(dice(4))
	m, err := newModel(e)
	if err != nil {
		t.Fatal(err)
	}
	for k := 2; k <= 4; k++ {
		s := newSearch(m, m.filled(Ask{Swaps: []int{0, 1, 2}}), identity(3))
		d, err := s.design(t.Context(), k)
		if err != nil {
			t.Fatal(err)
		}
		best := math.Inf(1)
		for set := 0; set < 1<<7; set++ {
			rows := [][]bool{make([]bool, 3)}
			for mask := 1; mask < 8; mask++ {
				if set>>(mask-1)&1 == 1 {
					rows = append(rows, []bool{mask&1 > 0, mask&2 > 0, mask&4 > 0})
				}
			}
			if len(rows) == k {
				best = math.Min(best, volume(inverseOn(s.after(rows, s.perMean(1)), nil)))
			}
		}
		var rows [][]bool
		for _, mask := range d {
			rows = append(rows, s.ticks(mask))
		}
		if got := volume(inverseOn(s.after(rows, s.perMean(1)), nil)); got > best*(1+1e-4) {
			t.Errorf("%d samples: %v, trying all finds %v", k, got, best)
		}
	}
}

// volume is the determinant of a 3 x 3 matrix.
func volume(a [][]float64) float64 {
	return a[0][0]*(a[1][1]*a[2][2]-a[1][2]*a[2][1]) - a[0][1]*(a[1][0]*a[2][2]-a[1][2]*a[2][0]) + a[0][2]*(a[1][0]*a[2][1]-a[1][1]*a[2][0])
}

// TestATastingNeverWidens over many recipes, and the combination it promises
// can be cooked, can be estimated and was not tasted.
func TestATastingNeverWidens(t *testing.T) {
	tastings := 0
	for seed := range uint64(60) {
		r := dice(seed)
		n := 2 + r.IntN(5)
		tr := trial{truth: truth(r, n), versions: random(r, n, min(3+r.IntN(n+1), 1<<n)), tasters: 8 + r.IntN(20), scatter: 1.2, pot: float64(seed%2) * 0.3}
		e := tr.evidence(r)
		e.Swaps[0].Alternatives = []string{"s01"}
		e.Versions[len(e.Versions)-1].DoesNotWork = true
		p := next(t, e, Ask{Nutrient: EnergyKey, Seed: seed})
		if c := p.Promised; c != nil && (c.Standing == StandsTasted || !allowed(e, c.On) || math.IsNaN(c.Low)) {
			t.Errorf("seed %d: promised %+v", seed, c)
		}
		if p.Tasting == nil {
			continue
		}
		tastings++
		for i, s := range p.Tasting.Samples {
			for _, other := range p.Tasting.Samples[:i] {
				if slices.Equal(s.On, other.On) {
					t.Errorf("seed %d: one sample twice", seed)
				}
			}
			if s.On[0] && s.On[1] || slices.Equal(s.On, e.Versions[len(e.Versions)-1].On) && onCount(s.On) > 0 {
				t.Errorf("seed %d: %v cannot be cooked", seed, s.On)
			}
		}
		for _, g := range p.Tasting.Gains {
			if g.After > g.Before+1e-9 {
				t.Errorf("seed %d: %+v widens", seed, g)
			}
		}
	}
	if tastings < 30 {
		t.Errorf("only %d tastings were offered", tastings)
	}
}

// TestNextForgetsTheOrder: swaps given in another order make the same plan.
func TestNextForgetsTheOrder(t *testing.T) {
	for name, e := range variants() {
		r := dice(31)
		shuffled, swaps, _ := mixed(e, r.Perm(len(e.Swaps)), r.Perm(len(e.Versions)))
		a, b := next(t, e, Ask{Nutrient: EnergyKey}), next(t, shuffled, Ask{Nutrient: EnergyKey})
		if len(a.Tasting.Samples) != len(b.Tasting.Samples) {
			t.Fatalf("%s: %d and %d samples", name, len(a.Tasting.Samples), len(b.Tasting.Samples))
		}
		for i, s := range a.Tasting.Samples {
			for j, from := range swaps {
				if s.On[from] != b.Tasting.Samples[i].On[j] {
					t.Errorf("%s: sample %d differs", name, i)
				}
			}
		}
	}
}

// TestAddedServingsSettle: simulated tastings as proposed shrink the interval to
// what was said, when the scatter is as known.
func TestAddedServingsSettle(t *testing.T) {
	tr := trial{truth: []float64{-0.1, -0.9}, versions: versions("00", "10", "01"), tasters: 16, scatter: 1.1, pot: 0}
	e := tr.evidence(dice(12))
	p := next(t, e, Ask{Nutrient: EnergyKey, Swaps: []int{0}})
	rows := tr.versions
	var more [][]bool
	for _, s := range p.Tasting.Samples {
		more = append(more, s.On)
	}
	// Both sittings in one least-squares problem, a column for the sitting.
	variance := sq(tr.scatter) / 16
	a, b := (&search{m: &model{at: identity(2)}, info: square(2)}).after(rows, variance), (&search{m: &model{at: identity(2)}, info: square(2)}).after(more, variance)
	for i := range a {
		for j := range a[i] {
			a[i][j] += b[i][j]
		}
	}
	se := math.Sqrt(inverseOn(a, nil)[0][0])
	want := tPoint(0.95, e.DF+float64(15*(len(more)-1))) * se
	if got := p.Tasting.Gains[0].After; math.Abs(got-want) > 1e-9 {
		t.Errorf("after: %v, want %v", got, want)
	}
}

func TestNothingLeftToTell(t *testing.T) {
	e := single(0.4, 0.1, 60)
	p := next(t, e, Ask{Nutrient: EnergyKey})
	if p.Tasting != nil || p.Promised != nil || p.Instead == nil {
		t.Errorf("%+v", p)
	}
	for _, s := range p.Says() {
		if got := s.String(); strings.ContainsAny(got, "[{") {
			t.Error(got)
		}
	}
}

func TestNextCanBeStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Next(ctx, twenty(), Ask{Nutrient: EnergyKey}); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
	ctx, stop = context.WithTimeout(context.Background(), time.Nanosecond)
	defer stop()
	if _, err := Next(ctx, &Evidence{Swaps: twenty().Swaps}, Ask{MaxSamples: 8}); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("out of time: %v", err)
	}
}

// TestNextKeepsToTheCupsOfASitting: with so many cups for each taster and the
// original cooked twice, the samples are fewer and the pots counted.
func TestNextKeepsToTheCupsOfASitting(t *testing.T) {
	e := &Evidence{Limit: 0.5}
	for i := range 4 {
		e.Swaps = append(e.Swaps, SwapFact{ID: fmt.Sprint(i), Name: fmt.Sprint("swap ", i)})
	}
	e.Versions = []VersionFact{{ID: "o", On: make([]bool, 4)}}
	for _, cups := range []int{3, 4, 6} {
		x := next(t, e, Ask{Nutrient: EnergyKey, Tasters: 10, Cups: cups, Repeat: true}).Tasting
		if x == nil || len(x.Samples) != min(cups-1, 5) || x.Pots != len(x.Samples)+1 || x.Servings != 10*x.Pots {
			t.Fatalf("%d cups: %+v", cups, x)
		}
		for i, s := range x.Samples {
			if want := map[bool]int{true: 2, false: 1}[onCount(s.On) == 0]; s.Pots != want {
				t.Errorf("%d cups: sample %d from %d pots", cups, i, s.Pots)
			}
		}
	}
}
