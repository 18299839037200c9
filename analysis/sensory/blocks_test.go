package sensory

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

func TestReferenceIncompleteBlocks(t *testing.T) {
	var in struct {
		Designs []struct {
			ID     string
			T      int
			Blocks [][]int `json:"blocks_zero_based"`
		}
	}
	f := read(t, "bib_designs", &in)
	var designs []object
	for _, c := range in.Designs {
		designs = append(designs, blockCase(c.ID, c.T, c.Blocks))
	}
	f.Hold(t, object{"designs": designs})
}

func blockCase(id string, t int, blocks [][]int) object {
	k := len(blocks[0])
	d := &Design{Ask: Ask{Test: Liking, Samples: t, PerSitting: k}}
	for _, b := range blocks {
		d.Trays = append(d.Trays, Tray{Samples: b})
	}
	b := d.Balance()
	lowL, highL := math.MaxInt, 0
	for x := range t {
		for y := range x {
			lowL, highL = min(lowL, b.Together[x][y]), max(highL, b.Together[x][y])
		}
	}
	variance, connected := d.worstVariance()
	o := object{
		"id": id, "t": t, "b": len(blocks), "k": []int{k}, "connected": connected,
		"r_min": slices.Min(b.Served), "r_max": slices.Max(b.Served), "lambda_min": lowL, "lambda_max": highL,
		"balanced": spread(b.Served) == 0 && b.TogetherSpread == 0,
	}
	if o["balanced"] == true {
		r := b.Served[0]
		// The efficiency is what complete blocks of r would need less: 2/r over
		// the variance of a difference here.
		o["r"], o["lambda"], o["efficiency_factor"] = r, lowL, 2/float64(r)/variance
	}
	return o
}

// smallest is the number of blocks of the smallest balanced incomplete block
// design by its two conditions: r and b whole.
func smallest(t, k int) int {
	for lambda := 1; ; lambda++ {
		if lambda*(t-1)%(k-1) == 0 && lambda*(t-1)/(k-1)*t%k == 0 {
			return lambda * (t - 1) / (k - 1) * t / k
		}
	}
}

// TestExactBlocks verifies every design we hold: balanced, and the smallest that
// the conditions allow; only 12 in fives or sevens is too large to hold.
func TestExactBlocks(t *testing.T) {
	for samples := 3; samples <= maxSamples; samples++ {
		for k := 2; k < samples; k++ {
			blocks := exactBlocks(samples, k)
			if blocks == nil {
				if smallest(samples, k) <= mostBlocks {
					t.Errorf("%d in %d: nothing, though %d blocks may do", samples, k, smallest(samples, k))
				}
				continue
			}
			o := blockCase("", samples, blocks)
			if o["balanced"] != true || len(blocks) != smallest(samples, k) {
				t.Errorf("%d in %d: %d blocks, balanced is %v, smallest %d", samples, k, len(blocks), o["balanced"], smallest(samples, k))
			}
			for _, b := range blocks {
				if len(b) != k || setOf(b) >= 1<<samples || setSize(b) != k {
					t.Fatalf("%d in %d: block %v", samples, k, b)
				}
			}
		}
	}
}

func setSize(b []int) int {
	s := slices.Clone(b)
	slices.Sort(s)
	return len(slices.Compact(s))
}

// TestIncompletePlans goes through sizes of panels, samples and sittings, with
// and without the original in every block.
func TestIncompletePlans(t *testing.T) {
	worst := map[string]int{}
	plans, even, step := 0, 0, 7
	if racing {
		step = 37
	}
	for samples := 3; samples <= maxSamples; samples++ {
		for k := 2; k < samples && k <= 6; k++ {
			for n := 1; n <= 60; n += step + samples%4 {
				for _, always := range []bool{false, true} {
					a := Ask{Test: Liking, Samples: samples, PerSitting: k, Panelists: n, OriginalAlways: always, Seed: uint64(n)}
					d, err := Plan(a)
					if err != nil {
						t.Fatal(err)
					}
					b := d.Balance()
					checkBlocks(t, d, b)
					plans++
					if b.TogetherSpread <= b.TogetherBest {
						even++
					}
					worst["after"] = max(worst["after"], b.AfterSpread)
					worst["together"] = max(worst["together"], b.TogetherSpread)
				}
			}
		}
	}
	t.Logf("%d plans, company as even as can be in %d; largest spreads %v", plans, even, worst)
	if worst["together"] > 4 || worst["after"] > 3 || even < plans*7/10 {
		t.Errorf("largest spreads %v, %d of %d even", worst, even, plans)
	}
}

// checkBlocks holds what is always reached: servings within one of each other,
// places too, no sample twice on a tray, the original where it must be.
func checkBlocks(t *testing.T, d *Design, b *Balance) {
	t.Helper()
	a := d.Ask
	served := b.Served
	if a.OriginalAlways {
		if served[0] != a.Panelists {
			t.Errorf("%+v: the original is served %d times", a, served[0])
		}
		served = served[1:]
	}
	if spread(served) > 1 || b.PlaceSpread > 1 || b.PlaceSpread > b.PlaceBest {
		t.Errorf("%+v: served %v, places spread by %d", a, b.Served, b.PlaceSpread)
	}
	if b.TogetherBest == 0 && b.TogetherSpread != 0 {
		t.Errorf("%+v: an exact design exists and company spreads by %d", a, b.TogetherSpread)
	}
	for _, tray := range d.Trays {
		if setSize(tray.Samples) != a.PerSitting || len(tray.Samples) != a.PerSitting {
			t.Fatalf("%+v: tray %v", a, tray.Samples)
		}
	}
}

// TestLateAndMissing adds late tasters and takes trays of those who never came.
func TestLateAndMissing(t *testing.T) {
	for _, a := range []Ask{
		{Test: Liking, Samples: 4, Panelists: 10, Seed: 1},
		{Test: Liking, Samples: 5, Panelists: 12, Seed: 2},
		{Test: Liking, Samples: 3, Panelists: 7, Seed: 3},
		{Test: Ranking, Samples: 8, Panelists: 16, Seed: 4},
		{Test: Liking, Samples: 7, PerSitting: 3, Panelists: 14, Seed: 5},
		{Test: Liking, Samples: 6, PerSitting: 4, Panelists: 9, OriginalAlways: true, Seed: 6},
	} {
		d, err := Plan(a)
		if err != nil {
			t.Fatal(err)
		}
		before := fmt.Sprint(d)
		for more := range 7 {
			late, err := d.Append(more)
			if err != nil {
				t.Fatal(err)
			}
			if len(late.Trays) != a.Panelists+more || fmt.Sprint(late.Trays[:a.Panelists]) != fmt.Sprint(d.Trays) {
				t.Fatalf("%+v: earlier trays moved", a)
			}
			b := late.Balance()
			if b.PlaceSpread > 1 || b.AfterSpread > 2 || b.TogetherSpread > 2 {
				t.Errorf("%+v and %d more: places %d, neighbours %d, company %d", a, more, b.PlaceSpread, b.AfterSpread, b.TogetherSpread)
			}
		}
		if fmt.Sprint(d) != before {
			t.Errorf("%+v: the design itself was changed", a)
		}
	}
}

func TestLateTakesTheTrayOfWhoNeverCame(t *testing.T) {
	d, err := Plan(Ask{Test: Triangle, Samples: 2, Panelists: 12, Seed: 9})
	if err != nil {
		t.Fatal(err)
	}
	late, err := d.Append(3, 4, 7)
	if err != nil {
		t.Fatal(err)
	}
	if len(late.Trays) != 13 {
		t.Fatalf("%d trays", len(late.Trays))
	}
	for at, want := range map[int]int{3: 13, 6: 14, 12: 15} {
		if late.Trays[at].Panelist != want {
			t.Errorf("tray %d belongs to %d, want %d", at, late.Trays[at].Panelist, want)
		}
	}
	if !slices.Equal(late.Trays[3].Codes, d.Trays[3].Codes) {
		t.Error("the tray taken over has new codes")
	}
	ownCodes(t, late)
	if _, err := d.Append(1, 99); err == nil {
		t.Error("a taster who is not in the plan was taken")
	}
	if got := d.Without(4, 7); len(got.Trays) != 10 || len(d.Trays) != 12 {
		t.Errorf("without two: %d trays", len(got.Trays))
	}
}
