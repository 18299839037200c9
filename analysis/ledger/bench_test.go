package ledger

import (
	"context"
	"testing"
)

// twenty is a recipe of twenty swaps in twenty-six versions, with two pairs of
// alternatives and two swaps always served together.
func twenty() *Evidence {
	r := dice(20)
	tr := trial{truth: truth(r, 20), versions: random(r, 20, 26), tasters: 24, scatter: 1.3, pot: 0.2}
	for _, on := range tr.versions {
		on[5] = on[4]
		on[7] = on[7] && !on[6]
	}
	e := tr.evidence(r)
	e.Swaps[6].Alternatives = []string{"s07"}
	e.Swaps[1].FailsWith = []string{"s12"}
	return e
}

func BenchmarkBest20(b *testing.B) {
	e := twenty()
	for b.Loop() {
		t, err := Best(context.Background(), e, Goal{Nutrient: EnergyKey})
		if err != nil || len(t.Ranked) == 0 {
			b.Fatal(err, t)
		}
	}
}

// BenchmarkBest20Free has nothing that keeps combinations out.
func BenchmarkBest20Free(b *testing.B) {
	r := dice(21)
	e := trial{truth: truth(r, 20), versions: random(r, 20, 26), tasters: 24, scatter: 1.3}.evidence(r)
	for b.Loop() {
		t, err := Best(context.Background(), e, Goal{Nutrient: EnergyKey})
		if err != nil || t.Considered != 1<<20-1 {
			b.Fatal(err, t)
		}
	}
}

func BenchmarkJudge20(b *testing.B) {
	e := twenty()
	for b.Loop() {
		if _, err := Judge(e, EnergyKey); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNext20(b *testing.B) {
	e := twenty()
	for b.Loop() {
		if p, err := Next(context.Background(), e, Ask{Nutrient: EnergyKey}); err != nil || p.Tasting == nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkNext20Untasted has twenty swaps nobody tasted and eight samples.
func BenchmarkNext20Untasted(b *testing.B) {
	e := &Evidence{Swaps: twenty().Swaps}
	for b.Loop() {
		if p, err := Next(context.Background(), e, Ask{Nutrient: EnergyKey, MaxSamples: 8}); err != nil || p.Tasting == nil {
			b.Fatal(err)
		}
	}
}
