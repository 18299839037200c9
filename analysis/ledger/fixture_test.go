package ledger

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// trial is a made-up recipe with known effects, its versions and its panel.
type trial struct {
	truth    []float64
	versions [][]bool
	tasters  int
	scatter  float64
	pot      float64
}

// evidence tastes a trial once: version means with the scatter of tasters and
// pots, and the least-squares fit a complete block gives.
func (tr trial) evidence(r *rand.Rand) *Evidence {
	n, k := len(tr.truth), len(tr.versions)
	e := &Evidence{Panelists: tr.tasters, Limit: 0.5, ResidualSD: tr.scatter, PotSD: tr.pot, DF: float64((tr.tasters - 1) * (k - 1)), LackOfFit: math.NaN()}
	for i := range n {
		kcal := 10 + 120*r.Float64()
		e.Swaps = append(e.Swaps, SwapFact{
			ID: fmt.Sprintf("s%02d", i), Name: fmt.Sprintf("swap %d", i),
			Savings: map[string]Saving{EnergyKey: {Amount: kcal, Known: true}, "sodium_mg": {Amount: kcal * r.Float64(), Known: i%7 != 3}},
		})
	}
	means := make([]float64, k)
	for v, on := range tr.versions {
		for i, x := range on {
			if x {
				means[v] += tr.truth[i]
			}
		}
		means[v] += r.NormFloat64() * math.Hypot(tr.scatter/math.Sqrt(float64(tr.tasters)), tr.pot)
		e.Versions = append(e.Versions, VersionFact{ID: fmt.Sprintf("v%02d", v), Name: string(rune('A' + v)), On: on, Servings: tr.tasters, Pots: 1, Cooked: true})
	}
	e.Beta, e.Cov = fitted(tr.versions, means, sq(tr.scatter)/float64(tr.tasters)+sq(tr.pot))
	return e
}

// fitted is the smallest least-squares solution on centred columns, and the
// pseudo-inverse times the variance of a mean.
func fitted(versions [][]bool, means []float64, variance float64) ([]float64, [][]float64) {
	k, n := len(versions), len(versions[0])
	x := mat.NewDense(k, n, nil)
	for i := range n {
		share := 0.0
		for v := range versions {
			if versions[v][i] {
				share += 1 / float64(k)
			}
		}
		for v := range versions {
			x.Set(v, i, -share)
			if versions[v][i] {
				x.Set(v, i, 1-share)
			}
		}
	}
	var svd mat.SVD
	svd.Factorize(x, mat.SVDThin)
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	values := svd.Values(nil)
	beta := make([]float64, n)
	cov := make([][]float64, n)
	for i := range n {
		cov[i] = make([]float64, n)
	}
	for s, value := range values {
		if value < 1e-9 {
			continue
		}
		score := 0.0
		for j := range k {
			score += u.At(j, s) * means[j]
		}
		for i := range n {
			beta[i] += v.At(i, s) * score / value
			for j := range n {
				cov[i][j] += v.At(i, s) * v.At(j, s) / sq(value) * variance
			}
		}
	}
	return beta, cov
}

// ticks reads "0110".
func ticks(s string) []bool {
	on := make([]bool, len(s))
	for i := range s {
		on[i] = s[i] == '1'
	}
	return on
}

func versions(rows ...string) (out [][]bool) {
	for _, r := range rows {
		out = append(out, ticks(r))
	}
	return out
}

// oneByOne is the original, each swap alone, and all together.
func oneByOne(n int) [][]bool {
	out := [][]bool{make([]bool, n)}
	all := make([]bool, n)
	for i := range n {
		all[i] = true
		out = append(out, only(i, n))
	}
	return append(out, all)
}

func random(r *rand.Rand, n, k int) [][]bool {
	out := [][]bool{make([]bool, n)}
	for len(out) < k {
		on := make([]bool, n)
		for i := range on {
			on[i] = r.IntN(2) == 1
		}
		if !slices.ContainsFunc(out, func(o []bool) bool { return slices.Equal(o, on) }) {
			out = append(out, on)
		}
	}
	return out
}

func dice(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }

func truth(r *rand.Rand, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = -0.2 + 0.3*r.NormFloat64()
	}
	return out
}

func reference(t *testing.T, name string) []byte {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		if dir == filepath.Dir(dir) {
			t.Fatal("no go.mod above")
		}
		dir = filepath.Dir(dir)
	}
	b, err := os.ReadFile(filepath.Join(dir, "..", "shared", "reference", "sensory", name+".json"))
	if err != nil {
		t.Skipf("no reference folder: %v", err)
	}
	return b
}
