package ledger

import (
	"encoding/json"
	"math"
	"math/big"
	"slices"
	"sort"
	"strings"
	"testing"
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
			null, _ := nullBasis(differences(more, [][]int{identity(len(more))}), len(v))
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

// TestReferenceVersionChoice: the search reaches the best determinant there is
// (version_choice_d_optimal.json, exhaustive exact search), the worth it climbs
// is that determinant, and added versions change it as they should.
func TestReferenceVersionChoice(t *testing.T) {
	var f struct {
		Input struct {
			Augment []struct {
				Base, Candidate [][]int
				Model           string
			}
			Compare [][][]int
		}
		Expected struct {
			Searches []struct {
				Swaps   int
				N       int `json:"n_versions"`
				Model   string
				Best    float64 `json:"best_det"`
				Optimal [][]int `json:"one_optimal_set"`
				Sets    int     `json:"candidate_sets"`
			}
			Augment []struct {
				Base  float64   `json:"base_det"`
				After []float64 `json:"det_after_adding"`
			}
			Compare []struct {
				Det float64
				Var []float64 `json:"var_swap_effect_times_J_over_sigma2"`
			}
		}
	}
	if err := json.Unmarshal(reference(t, "version_choice_d_optimal"), &f); err != nil {
		t.Fatal(err)
	}
	for i, w := range f.Expected.Searches {
		if w.Model != "main" || i == 0 {
			continue // the model of pairs, and both ends kept: TestReferenceBothEnds
		}
		for _, exchange := range []bool{false, true} {
			got := searched(t, w.Swaps, w.N, exchange)
			if d := determinant(got); d != w.Best {
				t.Errorf("%d swaps in %d versions: determinant %v, want %v (%v)", w.Swaps, w.N, d, w.Best, got)
			}
		}
	}
	for i, w := range f.Expected.Augment {
		in := f.Input.Augment[i]
		rows := expand(in.Base, in.Model)
		if d := determinant(rows); d != w.Base {
			t.Errorf("base %d: %v, want %v", i, d, w.Base)
		}
		for c, v := range expand(in.Candidate, in.Model) {
			if d := determinant(slices.Concat(rows, [][]int64{v})); d != w.After[c] {
				t.Errorf("base %d with %v: %v, want %v", i, v, d, w.After[c])
			}
		}
	}
	for i, w := range f.Expected.Compare {
		on := make([][]bool, len(f.Input.Compare[i]))
		for v, row := range f.Input.Compare[i] {
			for _, x := range row {
				on[v] = append(on[v], x == 1)
			}
		}
		_, cov := fitted(on, make([]float64, len(on)), 1)
		info := (&search{m: &model{at: identity(len(on[0]))}, info: square(len(on[0]))}).after(on, 1)
		back := inverseOn(info, nil)
		for s, want := range w.Var {
			if math.Abs(cov[s][s]-want) > 1e-8 || math.Abs(back[s][s]-want) > 1e-8 {
				t.Errorf("set %d swap %d: %v and %v, want %v", i, s, cov[s][s], back[s][s], want)
			}
		}
	}
}

// TestReferenceBothEnds: with the original and the whole kept, the worth that
// the search climbs is highest for exactly the sets that are best (first search
// of version_choice_d_optimal.json: determinant 20, 8 of 1001 sets).
func TestReferenceBothEnds(t *testing.T) {
	var f struct {
		Expected struct {
			Searches []struct {
				Best float64 `json:"best_det"`
				Sets int     `json:"number_of_optimal_sets"`
			}
		}
	}
	if err := json.Unmarshal(reference(t, "version_choice_d_optimal"), &f); err != nil {
		t.Fatal(err)
	}
	s := fresh(t, 4, 6)
	top, sets := math.Inf(-1), 0
	for mask := 0; mask < 1<<14; mask++ {
		d := []uint32{0, 15}
		for v := range uint32(14) {
			if mask>>v&1 == 1 {
				d = append(d, v+1)
			}
		}
		if len(d) != 6 {
			continue
		}
		w := 6 * math.Exp(s.worth(d, 1))
		switch {
		case w > top*(1+1e-4):
			top, sets = w, 1
		case w > top*(1-1e-4):
			sets++
		}
	}
	if want := f.Expected.Searches[0]; math.Abs(top-want.Best) > 1e-3 || sets != want.Sets {
		t.Errorf("determinant %v in %d sets, want %v in %d", top, sets, want.Best, want.Sets)
	}
}

// searched is the search's design for a recipe nobody has tasted.
func searched(t *testing.T, swaps, n int, exchange bool) [][]int64 {
	t.Helper()
	s := fresh(t, swaps, n)
	d, err := s.design(t.Context(), n)
	if exchange {
		d, err = s.exchange(t.Context(), n, 1)
	}
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]int64
	for _, mask := range d {
		rows = append(rows, whole(s.ticks(mask)))
	}
	// The worth is the logarithm of det(X'X) centred, in units of the variance
	// of a mean: det [1 X]'[1 X] = n det.
	det := float64(n) * math.Exp(s.worth(d, 1))
	if want := determinant(rows); math.Abs(det-want) > 1e-4*want {
		t.Errorf("worth says determinant %v, exactly %v", det, want)
	}
	return rows
}

// fresh is a search where nothing was tasted.
func fresh(t *testing.T, swaps, n int) *search {
	t.Helper()
	e := &Evidence{}
	for i := range swaps {
		e.Swaps = append(e.Swaps, SwapFact{ID: string(rune('a' + i)), Name: string(rune('a' + i))})
	}
	m, err := newModel(e)
	if err != nil {
		t.Fatal(err)
	}
	return newSearch(m, m.filled(Ask{MaxSamples: n, Tasters: 12}), identity(swaps))
}

// expand adds products of pairs where the model has them.
func expand(rows [][]int, model string) (out [][]int64) {
	for _, r := range rows {
		w := wide(r)
		if strings.Contains(model, "two-way") {
			for i := range r {
				for j := i + 1; j < len(r); j++ {
					w = append(w, int64(r[i]*r[j]))
				}
			}
		}
		out = append(out, w)
	}
	return out
}

// TestReferenceAliases: what a fraction cannot tell apart comes out of the same
// exact arithmetic as tied swaps (fractional_factorials.json).
func TestReferenceAliases(t *testing.T) {
	var f struct {
		Expected struct {
			Designs []struct {
				ID      string
				Factors []string
				Runs    [][]int             `json:"runs_pm1"`
				Aliases map[string][]string `json:"aliases_of_main_and_two_way"`
			}
		}
	}
	if err := json.Unmarshal(reference(t, "fractional_factorials"), &f); err != nil {
		t.Fatal(err)
	}
	for _, d := range f.Expected.Designs {
		names := slices.Clone(d.Factors)
		for i, a := range d.Factors {
			for _, b := range d.Factors[i+1:] {
				names = append(names, a+b)
			}
		}
		var rows [][]int64
		for _, run := range d.Runs {
			var row []int64
			for _, name := range names {
				x := int64(1)
				for _, letter := range name {
					x *= int64(run[slices.Index(d.Factors, string(letter))])
				}
				row = append(row, x)
			}
			rows = append(rows, row)
		}
		null, _ := nullBasis(differences(rows, [][]int{identity(len(rows))}), len(names))
		for i, with := range tied(null, len(names)) {
			var got, want []string
			for _, j := range with {
				got = append(got, names[j])
			}
			for _, a := range d.Aliases[names[i]] {
				if slices.Contains(names, a) { // of three letters and more: not asked here
					want = append(want, a)
				}
			}
			sort.Strings(got)
			sort.Strings(want)
			if !slices.Equal(got, want) {
				t.Errorf("%s %s: tied to %v, want %v", d.ID, names[i], got, want)
			}
		}
	}
}
