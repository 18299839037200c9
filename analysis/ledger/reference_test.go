package ledger

import (
	"encoding/json"
	"math"
	"math/big"
	"slices"
	"testing"

	"parewell/analysis/stats"
)

// swapFile is what the three files of swap effects share.
type swapFile struct {
	Input struct {
		Swaps    []string
		Versions map[string]json.RawMessage
	}
	Expected struct {
		Panelists int         `json:"n_panelists"`
		Means     []float64   `json:"version_mean"`
		Null      [][]float64 `json:"null_space"`
		Estimable map[string]bool
		Anova     struct{ Residual struct{ Df, Ms float64 } }
		Effects   []effectRow
		Groups    []effectRow `json:"group_contrasts"`
		Det       float64     `json:"det_current"`
		Candidate struct {
			Version [][]int
			Rank    []int `json:"rank_swaps"`
			Det     []float64
		} `json:"candidates"`
	}
}

type effectRow struct {
	Label    string
	Contrast []int
	Estimate *float64
	SE       float64
	CI95     []float64
}

// evidence of a file: its own version means, fitted here.
func (f *swapFile) evidence(t *testing.T) *Evidence {
	t.Helper()
	e := &Evidence{DF: f.Expected.Anova.Residual.Df, ResidualSD: math.Sqrt(f.Expected.Anova.Residual.Ms), Panelists: f.Expected.Panelists, Limit: 0.5}
	on := make([][]bool, len(f.Expected.Means))
	for i := range on {
		on[i] = make([]bool, len(f.Input.Swaps))
	}
	for i, s := range f.Input.Swaps {
		e.Swaps = append(e.Swaps, SwapFact{ID: s, Name: s})
		var column []int
		if err := json.Unmarshal(f.Input.Versions[s], &column); err != nil {
			t.Fatal(err)
		}
		for v, x := range column {
			on[v][i] = x == 1
		}
	}
	for v := range on {
		e.Versions = append(e.Versions, VersionFact{ID: string(rune('0' + v)), On: on[v], Servings: f.Expected.Panelists, Pots: 1})
	}
	e.Beta, e.Cov = fitted(on, f.Expected.Means, f.Expected.Anova.Residual.Ms/float64(f.Expected.Panelists))
	return e
}

// TestReferenceSwapEffects: effects, standard errors and what cannot be told
// apart (swap_effects.json and swap_effects_aliased.json; R 4.2.2).
func TestReferenceSwapEffects(t *testing.T) {
	for _, name := range []string{"swap_effects", "swap_effects_aliased"} {
		var f swapFile
		if err := json.Unmarshal(reference(t, name), &f); err != nil {
			t.Fatal(err)
		}
		m, err := newModel(f.evidence(t))
		if err != nil {
			t.Fatal(err)
		}
		if len(m.null) != len(f.Expected.Null) {
			t.Fatalf("%s: null space of %d, want %d", name, len(m.null), len(f.Expected.Null))
		}
		for i, s := range f.Input.Swaps {
			if m.apart[i] != f.Expected.Estimable[s] {
				t.Errorf("%s: %s by itself: %v", name, s, m.apart[i])
			}
		}
		checked := 0
		for _, want := range slices.Concat(f.Expected.Effects, f.Expected.Groups) {
			on := make([]bool, len(want.Contrast))
			sum := true
			for i, c := range want.Contrast {
				on[i] = c == 1
				sum = sum && c >= 0
			}
			if !sum {
				continue // a difference of swaps is no combination
			}
			got := m.effect(on)
			checked++
			if want.Estimate == nil {
				if !math.IsNaN(got.Effect) {
					t.Errorf("%s %s: %v, want not estimable", name, want.Label, got)
				}
				continue
			}
			p := tPoint(0.975, m.e.DF) // theirs is of 95 %
			for i, pair := range [][2]float64{{got.Effect, *want.Estimate}, {got.SE, want.SE}, {got.Effect - p*got.SE, want.CI95[0]}, {got.Effect + p*got.SE, want.CI95[1]}} {
				if math.Abs(pair[0]-pair[1]) > 1e-8*math.Abs(pair[1])+1e-10 {
					t.Errorf("%s %s figure %d: %v, want %v", name, want.Label, i, pair[0], pair[1])
				}
			}
		}
		if checked < 5 {
			t.Errorf("%s: only %d contrasts were checked", name, checked)
		}
	}
}

// TestReferenceCandidates: which added version tells all swaps apart, and the
// determinant after it (tables "candidates" of the same files).
func TestReferenceCandidates(t *testing.T) {
	for _, name := range []string{"swap_effects", "swap_effects_aliased"} {
		var f swapFile
		if err := json.Unmarshal(reference(t, name), &f); err != nil {
			t.Fatal(err)
		}
		var rows [][]int64
		for _, v := range f.evidence(t).Versions {
			rows = append(rows, whole(v.On))
		}
		if d := determinant(rows); d != f.Expected.Det {
			t.Errorf("%s: determinant %v, want %v", name, d, f.Expected.Det)
		}
		for c, v := range f.Expected.Candidate.Version {
			more := slices.Concat(rows, [][]int64{wide(v)})
			null, _ := stats.NullBasis(differences(more, [][]int{identity(len(more))}), len(v))
			if got := len(v) - len(null); got != f.Expected.Candidate.Rank[c] {
				t.Errorf("%s %v: rank %d, want %d", name, v, got, f.Expected.Candidate.Rank[c])
			}
			if d := determinant(more); d != f.Expected.Candidate.Det[c] {
				t.Errorf("%s %v: determinant %v, want %v", name, v, d, f.Expected.Candidate.Det[c])
			}
		}
	}
}

func wide(v []int) []int64 {
	out := make([]int64, len(v))
	for i, x := range v {
		out[i] = int64(x)
	}
	return out
}

// determinant of [1 X]'[1 X], exactly.
func determinant(rows [][]int64) float64 {
	n := len(rows[0]) + 1
	a := make([][]*big.Rat, n)
	at := func(r []int64, i int) int64 {
		if i == 0 {
			return 1
		}
		return r[i-1]
	}
	for i := range n {
		a[i] = make([]*big.Rat, n)
		for j := range n {
			sum := int64(0)
			for _, r := range rows {
				sum += at(r, i) * at(r, j)
			}
			a[i][j] = new(big.Rat).SetInt64(sum)
		}
	}
	det := big.NewRat(1, 1)
	for c := range n {
		p := c
		for p < n && a[p][c].Sign() == 0 {
			p++
		}
		if p == n {
			return 0
		}
		if p != c {
			a[p], a[c] = a[c], a[p]
			det.Neg(det)
		}
		det.Mul(det, a[c][c])
		for i := c + 1; i < n; i++ {
			subtract(a[i], a[c], new(big.Rat).Quo(a[i][c], a[c][c]))
		}
	}
	out, _ := det.Float64()
	return out
}

// subtract takes times·b off a.
func subtract(a, b []*big.Rat, times *big.Rat) {
	if times.Sign() == 0 {
		return
	}
	t := new(big.Rat).Set(times)
	for i := range a {
		a[i].Sub(a[i], new(big.Rat).Mul(t, b[i]))
	}
}
