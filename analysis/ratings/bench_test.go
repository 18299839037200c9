package ratings

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// bigTable is the budget's: 200 panelists, 12 versions of 8 swaps, 6 attributes;
// missing is the chance that an attribute's score is missing.
func bigTable(missing float64) *Table {
	r := rand.New(rand.NewPCG(1, 2))
	t := &Table{Swaps: &Swaps{Names: []string{"a", "b", "c", "d", "e", "f", "g", "h"}}}
	for v := range 12 {
		on := make([]bool, 8)
		for i := range on {
			on[i] = v > 0 && (v == i+1 || v > 8 && r.IntN(2) == 0)
		}
		t.Swaps.Samples, t.Swaps.On = append(t.Swaps.Samples, fmt.Sprint("V", v)), append(t.Swaps.On, on)
	}
	for p := range 200 {
		level := 6 + r.NormFloat64()
		for k, v := range r.Perm(12) {
			for a := range 6 {
				if r.Float64() >= missing {
					t.Scores = append(t.Scores, Score{
						Panelist: fmt.Sprint("P", p), Sample: fmt.Sprint("V", v), Attribute: fmt.Sprint("attribute ", a),
						Position: k + 1, Value: min(9, max(1, float64(int(level+r.NormFloat64()-0.1*float64(v))))),
					})
				}
			}
		}
	}
	return t
}

// BenchmarkSwapEffects is swap effects and lack of fit. Budget: 50 ms.
func BenchmarkSwapEffects(b *testing.B) {
	for _, missing := range []float64{0, 0.1} {
		t := bigTable(missing)
		b.Run(fmt.Sprintf("missing=%v", missing), func(b *testing.B) {
			for range b.N {
				if _, err := SwapEffects(t, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkAnalyse is everything, Tukey's, Dunnett's and the mixed model included.
func BenchmarkAnalyse(b *testing.B) {
	t := bigTable(0)
	for range b.N {
		if _, err := Analyse(t, Options{Limit: 0.5}); err != nil {
			b.Fatal(err)
		}
	}
}
