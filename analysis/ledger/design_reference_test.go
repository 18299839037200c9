package ledger

import (
	"encoding/json"
	"math"
	"slices"
	"sort"
	"strings"
	"testing"

	"parewell/analysis/stats"
)

// choiceFile is version_choice_d_optimal.json.
type choiceFile struct {
	Input struct {
		Augment []struct {
			Base, Candidate [][]int
			Model           string
		}
		Compare [][][]int
	}
	Expected struct {
		Searches []struct {
			Swaps int
			N     int `json:"n_versions"`
			Model string
			Best  float64 `json:"best_det"`
			Sets  int     `json:"number_of_optimal_sets"`
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

func choice(t *testing.T) (f choiceFile) {
	t.Helper()
	if err := json.Unmarshal(reference(t, "version_choice_d_optimal"), &f); err != nil {
		t.Fatal(err)
	}
	return f
}

// TestReferenceVersionChoice: the search reaches the best determinant there is
// (version_choice_d_optimal.json, exhaustive exact search), by trying all and by
// exchange.
func TestReferenceVersionChoice(t *testing.T) {
	for i, w := range choice(t).Expected.Searches {
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
}

// TestReferenceAugment: what an added version does to the determinant, and which
// one does not help.
func TestReferenceAugment(t *testing.T) {
	f := choice(t)
	for i, w := range f.Expected.Augment {
		in := f.Input.Augment[i]
		rows := expand(in.Base, in.Model)
		if d := determinant(rows); d != w.Base {
			t.Errorf("base %d: %v, want %v", i, d, w.Base)
		}
		for c, v := range expand(in.Candidate, in.Model) {
			more := slices.Concat(rows, [][]int64{v})
			null, _ := stats.NullBasis(differences(more, [][]int{identity(len(more))}), len(v))
			if d := determinant(more); d != w.After[c] || (d == 0) != (len(null) > 0) {
				t.Errorf("base %d with %v: %v, %d null vectors; want %v", i, v, d, len(null), w.After[c])
			}
		}
	}
}

// TestReferenceVariances: information from samples, and its inverse, give the
// variance of each swap's effect.
func TestReferenceVariances(t *testing.T) {
	f := choice(t)
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
	if want := choice(t).Expected.Searches[0]; math.Abs(top-want.Best) > 1e-3 || sets != want.Sets {
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
		null, _ := stats.NullBasis(differences(rows, [][]int{identity(len(rows))}), len(names))
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
