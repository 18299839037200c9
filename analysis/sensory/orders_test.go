package sensory

import (
	"fmt"
	"slices"
	"testing"
)

// TestOrdersAreAsEvenAsTheNumbersAllow goes through every panel and number of
// samples of one sitting. For 2 to 8 samples the theoretical best is reached
// (for 3, 5 and 7 proved by TestBestAfter); with 9 and 11 samples a few small
// panels are nearly even, and the list of them is held.
func TestOrdersAreAsEvenAsTheNumbersAllow(t *testing.T) {
	nearly := map[int][]int{9: {8, 9, 10}, 11: {8, 9, 10, 11, 12, 13, 14}}
	for samples := 2; samples <= maxSamples; samples++ {
		for n := 1; n <= 130; n++ {
			for seed := range uint64(3) {
				d, err := Plan(Ask{Test: Liking, Samples: samples, Panelists: n, Seed: seed})
				if err != nil {
					t.Fatal(err)
				}
				complete(t, d)
				b := d.Balance()
				if b.PlaceSpread != b.PlaceBest || b.PlaceBest != min(1, n%samples) {
					t.Errorf("%d samples, %d tasters: places spread by %d, best %d", samples, n, b.PlaceSpread, b.PlaceBest)
				}
				if near := slices.Contains(nearly[samples], n); near == (b.AfterSpread == b.AfterBest) || b.AfterSpread > 3 {
					t.Errorf("%d samples, %d tasters: neighbours spread by %d, best %d", samples, n, b.AfterSpread, b.AfterBest)
				}
			}
		}
	}
}

// complete checks that every taster gets every sample once, under its code.
func complete(t *testing.T, d *Design) {
	t.Helper()
	for i, tray := range d.Trays {
		got := slices.Sorted(slices.Values(tray.Samples))
		for x, s := range got {
			if x != s {
				t.Fatalf("taster %d gets %v", i+1, tray.Samples)
			}
		}
		for j, s := range tray.Samples {
			if d.Codes[s][0] != tray.Codes[j] {
				t.Fatalf("taster %d: code %d is not of sample %d", i+1, tray.Codes[j], s)
			}
		}
	}
}

// everyOrder is all orders of t samples, the plain one first.
func everyOrder(t int) [][]int {
	var out [][]int
	row, used := make([]int, t), make([]bool, t)
	var more func(p int)
	more = func(p int) {
		if p == t {
			out = append(out, slices.Clone(row))
			return
		}
		for x := range t {
			if !used[x] {
				used[x], row[p] = true, x
				more(p + 1)
				used[x] = false
			}
		}
	}
	more(0)
	return out
}

// prover goes through all designs of n orders of t samples whose counts of
// places and neighbours are all q or q+1, where q = n/t rounded down. A design
// may be relabelled so that one of its orders is the plain one, and sorted.
type prover struct {
	orders         [][]int
	n, t, q        int
	place, after   [maxSamples][maxSamples]int
	over           [maxSamples]int // counts above q, by place
	overAfter      int
	roomP, roomAll int
}

func evenDesignExists(t, n int) bool {
	p := &prover{orders: everyOrder(t), n: n, t: t, q: n / t}
	p.roomP, p.roomAll = n-p.q*t, n*(t-1)-p.q*t*(t-1)
	return p.search(0, 0)
}

func (p *prover) search(k, from int) bool {
	if k == p.n {
		return true
	}
	for i := from; i < len(p.orders) && (k > 0 || i == 0); i++ {
		r := p.orders[i]
		fits := p.add(r, 1)
		found := fits && p.search(k+1, i)
		p.add(r, -1)
		if found {
			return true
		}
	}
	return false
}

// add counts a row in or out and tells whether all counts can still end as q or
// q+1: no more may be over q than all of them together allow.
func (p *prover) add(r []int, by int) bool {
	ok := true
	high := p.q + min(1, p.roomP)
	for i, x := range r {
		before := max(0, p.place[x][i]-p.q)
		p.place[x][i] += by
		p.over[i] += max(0, p.place[x][i]-p.q) - before
		ok = ok && p.place[x][i] <= high && p.over[i] <= p.roomP
		if i > 0 {
			a := r[i-1]
			before := max(0, p.after[a][x]-p.q)
			p.after[a][x] += by
			p.overAfter += max(0, p.after[a][x]-p.q) - before
			ok = ok && p.after[a][x] <= high && p.overAfter <= p.roomAll
		}
	}
	return ok
}

// TestBestAfter proves the exceptions that bestAfter names: no design has both
// counts within one (or, where t divides n, equal) for those panels, and
// there is one for the other small ones. Seven tasters with seven samples need
// no search: any six of their orders would be a set for six. For 3 samples all
// panels up to 18 are gone through.
func TestBestAfter(t *testing.T) {
	if racing {
		t.Skip("a proof in one goroutine: left to the plain run")
	}
	rows := []struct{ samples, from, to int }{{3, 1, 18}, {5, 1, 7}, {7, 1, 6}}
	for _, r := range rows {
		for n := r.from; n <= r.to; n++ {
			if got := evenDesignExists(r.samples, n); got != (bestAfter(r.samples, n) <= 1) {
				t.Errorf("%d samples, %d tasters: even design exists is %v, bestAfter says %d", r.samples, n, got, bestAfter(r.samples, n))
			}
		}
	}
}

func TestReferenceWilliams(t *testing.T) {
	var in struct {
		K     []int
		Cases []struct {
			ID     string
			K      int
			Orders [][]int
		}
	}
	f := read(t, "williams_designs", &in)
	var constructions, cases []object
	for _, k := range in.K {
		square := Square(k)
		b := balanceOf(square, k)
		constructions = append(constructions, object{
			"k": k, "rows_needed": len(square), "each_treatment_in_each_position": b.Place[0][0], "each_ordered_pair_adjacent": b.After[0][1],
			"first_row_zero_based": square[0], "square_zero_based": square,
		})
		if !b.Perfect() {
			t.Errorf("%d samples: the square is not balanced", k)
		}
	}
	for _, c := range in.Cases {
		cases = append(cases, williamsCase(c.ID, c.Orders, c.K))
	}
	f.Hold(t, object{"constructions": constructions, "cases": cases})
}

func balanceOf(rows [][]int, samples int) *Balance {
	d := &Design{Ask: Ask{Test: Liking, Samples: samples, PerSitting: samples}}
	for _, r := range rows {
		d.Trays = append(d.Trays, Tray{Samples: r})
	}
	return d.Balance()
}

func williamsCase(id string, orders [][]int, k int) object {
	b := balanceOf(orders, k)
	lowP, highP, lowA, highA := 99, 0, 99, 0
	permutations := true
	for x := range k {
		for y := range k {
			lowP, highP = min(lowP, b.Place[x][y]), max(highP, b.Place[x][y])
			if x != y {
				lowA, highA = min(lowA, b.After[x][y]), max(highA, b.After[x][y])
			}
		}
	}
	for _, r := range orders {
		permutations = permutations && setOf(r) == 1<<k-1 && len(r) == k
	}
	return object{
		"id": id, "rows": len(orders), "treatment_by_position": b.Place, "treatment_followed_by": b.After,
		"position_min": lowP, "position_max": highP, "carryover_min": lowA, "carryover_max": highA,
		"each_row_a_permutation": permutations, "position_balanced": b.PlaceSpread == 0, "carryover_balanced": b.AfterSpread == 0,
	}
}

func TestReferenceServingOrders(t *testing.T) {
	f := read(t, "serving_orders", &struct{}{})
	want := f.Expected.(object)
	all := []struct {
		name     string
		test     Test
		constant bool
	}{
		{"triangle", Triangle, false},
		{"duotrio_balanced_reference", DuoTrio, false},
		{"duotrio_constant_reference_A", DuoTrio, true},
		{"2afc", TwoAFC, false},
		{"tetrad", Tetrad, false},
		{"3afc_B_is_target", ThreeAFC, false},
	}
	orders, multiple := object{}, object{}
	for _, a := range all {
		got := sequences(a.test, a.constant)
		slices.Sort(got)
		var listed []string // the file's lists stand in any order
		for _, s := range want["orders"].(object)[a.name].([]any) {
			listed = append(listed, s.(string))
		}
		slices.Sort(listed)
		if !slices.Equal(got, listed) {
			t.Errorf("%s: %v, want %v", a.name, got, listed)
		}
		orders[a.name] = want["orders"].(object)[a.name]
		multiple[a.name] = len(got)
	}
	f.Hold(t, object{"orders": orders, "multiple": multiple}, "three_digit_codes") // codes: TestCodes
}

// TestTraysAreDealtEvenly holds the trays of two samples to each way equally
// often, or once more, for every size of panel, late tasters included.
func TestTraysAreDealtEvenly(t *testing.T) {
	for _, k := range []Test{Triangle, DuoTrio, Tetrad, TwoAFC, ThreeAFC, Preference} {
		for n := 1; n <= 60; n++ {
			d, err := Plan(Ask{Test: k, Samples: 2, Panelists: n, Seed: uint64(n)})
			if err != nil {
				t.Fatal(err)
			}
			if b := d.Balance(); b.PlaceSpread != b.PlaceBest {
				t.Errorf("%s, %d tasters: %+v", k, n, b.Sequences)
			}
			late, err := d.Append(5)
			if err != nil {
				t.Fatal(err)
			}
			if b := late.Balance(); b.PlaceSpread != b.PlaceBest || len(late.Trays) != n+5 {
				t.Errorf("%s, %d tasters and 5 late: %+v", k, n, b.Sequences)
			}
			ownCodes(t, late)
		}
	}
}

// ownCodes checks that no code is on two glasses and each means its sample.
func ownCodes(t *testing.T, d *Design) {
	t.Helper()
	seen := map[int]bool{}
	for _, tray := range d.Trays {
		for i, c := range tray.Codes {
			if seen[c] || Easy(c) || !slices.Contains(d.Codes[tray.Samples[i]], c) {
				t.Fatalf("%s: code %d of taster %d is used twice, easy or of the other sample", d.Ask.Test, c, tray.Panelist)
			}
			seen[c] = true
		}
	}
}

func TestConstantReferenceStaysTheOriginal(t *testing.T) {
	d, err := Plan(Ask{Test: DuoTrio, Samples: 2, Panelists: 20, Seed: 4, ConstantReference: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, tray := range d.Trays {
		if tray.Reference != 0 {
			t.Fatalf("reference %d", tray.Reference)
		}
	}
}

// TestSameSeedSameDesign holds seeds to bytes written down here, so that no
// machine or release of the library can change a design that was printed.
func TestSameSeedSameDesign(t *testing.T) {
	rows := []struct {
		name string
		ask  Ask
		want string
	}{
		{"liking", Ask{Test: Liking, Samples: 5, Panelists: 12, Seed: 1}, "[2 1 0 3 4] [274 209 627 912 705][4 0 1 2 3] [705 627 209 274 912][2 0 4 1 3] [274 627 705 209 912][0 3 2 1 4] [627 912 274 209 705][4 2 3 0 1] [705 274 912 627 209][0 2 4 3 1] [627 274 705 912 209][3 4 1 0 2] [912 705 209 627 274][3 1 2 4 0] [912 209 274 705 627][1 3 0 4 2] [209 912 627 705 274][1 4 3 2 0] [209 705 912 274 627][3 1 4 0 2] [912 209 705 627 274][0 3 2 4 1] [627 912 274 705 209]"},
		{"incomplete", Ask{Test: Liking, Samples: 7, PerSitting: 3, Panelists: 8, Seed: 2}, "[0 6 2] [381 735 962][6 4 1] [735 650 395][6 1 2] [735 395 962][1 0 3] [395 381 976][5 3 6] [480 976 735][3 2 4] [976 962 650][4 5 0] [650 480 381][2 1 5] [962 395 480]"},
		{"triangle", Ask{Test: Triangle, Samples: 2, Panelists: 7, Seed: 3}, "[1 1 0] [950 380 584][1 0 1] [968 469 710][0 0 1] [910 653 831][0 1 1] [842 974 439][0 1 0] [875 725 826][1 0 0] [956 843 824][0 0 1] [965 978 943]"},
	}
	for _, r := range rows {
		d, err := Plan(r.ask)
		if err != nil {
			t.Fatal(err)
		}
		got := ""
		for _, tray := range d.Trays {
			got += fmt.Sprint(tray.Samples, tray.Codes)
		}
		if got != r.want {
			t.Errorf("%s: %s", r.name, got)
		}
	}
}
