package sensory

import (
	"slices"
	"testing"
)

func TestEasyCodes(t *testing.T) {
	rows := []struct {
		name  string
		easy  bool
		codes []int
	}{
		{"out of range", true, []int{0, 7, 99, 1000, -314}},
		{"all the same", true, []int{111, 333, 666, 999}},
		{"round", true, []int{100, 300, 900, 500}},
		{"a digit twice", true, []int{112, 911, 404, 788}},
		{"palindromes", true, []int{121, 787, 353}},
		{"up or down in steps", true, []int{234, 789, 432, 321, 357, 246, 951, 420}},
		{"through zero", true, []int{890, 901, 210}},
		{"starting with 1", true, []int{102, 187, 194}},
		{"known to everybody", true, []int{247, 365, 360, 314}},
		{"fine", false, []int{274, 518, 639, 827, 946, 503}},
	}
	for _, r := range rows {
		for _, c := range r.codes {
			if Easy(c) != r.easy {
				t.Errorf("%s: %d is easy: %v", r.name, c, Easy(c))
			}
		}
	}
}

func TestCodes(t *testing.T) {
	if n := len(pool(newDice(1, 1))); n < 500 || n > 576 {
		t.Errorf("%d codes to draw from", n)
	}
	for seed := range uint64(300) {
		var all []int
		for _, c := range codesOfSamples(maxSamples, newDice(seed, streamCodes)) {
			all = append(all, c...)
		}
		if len(all) != maxSamples {
			t.Fatalf("seed %d: %v", seed, all)
		}
		for i, c := range all {
			if Easy(c) || slices.ContainsFunc(all[:i], func(o int) bool { return !far(c, o) }) {
				t.Errorf("seed %d: %d is easy or near another of %v", seed, c, all)
			}
		}
	}
}

// TestCodesAreDrawnEvenly: over many seeds each code comes up about as often as
// any other (chi-square within 5 standard deviations of its mean).
func TestCodesAreDrawnEvenly(t *testing.T) {
	times := map[int]int{}
	const draws = 20000
	for seed := range uint64(draws) {
		times[codesOfSamples(2, newDice(seed, streamCodes))[0][0]]++
	}
	cells := float64(len(pool(newDice(1, 1))))
	chi := 0.0
	for _, n := range times {
		chi += float64(n*n) * cells / draws
	}
	chi -= draws
	if sd := 5 * 1.4142 * 24; len(times) != int(cells) || chi > cells+sd || chi < cells-sd {
		t.Errorf("chi-square %.0f over %d of %.0f codes", chi, len(times), cells)
	}
}

// TestCodesRunOut has more glasses than codes: a code never means two samples
// and never stands twice on a tray.
func TestCodesRunOut(t *testing.T) {
	d, err := Plan(Ask{Test: Tetrad, Samples: 2, Panelists: 300, Seed: 5})
	if err != nil {
		t.Fatal(err)
	}
	of := map[int]int{}
	for _, tray := range d.Trays {
		if setSize(tray.Codes) != 4 {
			t.Fatalf("tray %v", tray.Codes)
		}
		for i, c := range tray.Codes {
			if s, seen := of[c]; seen && s != tray.Samples[i] {
				t.Fatalf("code %d means both samples", c)
			}
			of[c] = tray.Samples[i]
		}
	}
}
