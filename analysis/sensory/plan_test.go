package sensory

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"
)

func TestPlanReport(t *testing.T) {
	ask := Ask{Test: Liking, Samples: 4, Panelists: 24, Seed: 7}
	d, err := Plan(ask)
	if err != nil {
		t.Fatal(err)
	}
	r := d.Report(UsualScatter)
	if len(r.Codes) != 4 || len(r.Codes["S4"]) != 1 || len(r.Orders) != 24 || r.Orders[23].Panelist != 24 {
		t.Errorf("%+v", r)
	}
	for _, o := range r.Orders {
		for i, s := range o.Samples {
			if r.Codes[s][0] != o.Codes[i] {
				t.Errorf("taster %d: %d is not %s", o.Panelist, o.Codes[i], s)
			}
		}
	}
	first, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := Plan(ask)
	if second, _ := json.Marshal(again.Report(UsualScatter)); !bytes.Equal(first, second) {
		t.Error("the same seed gave other bytes")
	}
	ask.Seed = 8
	other, _ := Plan(ask)
	if second, _ := json.Marshal(other.Report(UsualScatter)); bytes.Equal(first, second) {
		t.Error("another seed gave the same bytes")
	}
	if !strings.HasPrefix(string(first), `{"codes":{"S1":[`) || !strings.Contains(string(first), `"orders":[{"panelist":1,"samples":["S`) {
		t.Errorf("%s", first)
	}
}

func TestPlanRefuses(t *testing.T) {
	for _, r := range []struct {
		name string
		ask  Ask
		says string
	}{
		{"no test", Ask{Samples: 3, Panelists: 6}, "no test called"},
		{"one sample", Ask{Test: Liking, Samples: 1, Panelists: 6}, "2 to 12 samples"},
		{"too many samples", Ask{Test: Ranking, Samples: 13, Panelists: 6}, "2 to 12 samples"},
		{"nobody", Ask{Test: Liking, Samples: 3}, "1 to 500 tasters"},
		{"a crowd", Ask{Test: Liking, Samples: 3, Panelists: 501}, "1 to 500 tasters"},
		{"a triangle of three", Ask{Test: Triangle, Samples: 3, Panelists: 6}, "exactly 2 samples"},
		{"one a sitting", Ask{Test: Liking, Samples: 5, PerSitting: 1, Panelists: 6}, "2 samples or more"},
		{"more a sitting than there are", Ask{Test: Liking, Samples: 5, PerSitting: 6, Panelists: 6}, "at most all 5"},
		{"less than nothing", Ask{Test: Liking, Samples: 5, PerSitting: -2, Panelists: -3}, "1 to 500"},
		{"a reference nobody opens", Ask{Test: Triangle, Samples: 2, Panelists: 6, ConstantReference: true}, "duo-trio"},
	} {
		if _, err := Plan(r.ask); err == nil || !strings.Contains(err.Error(), r.says) {
			t.Errorf("%s: %v", r.name, err)
		}
	}
}

// TestReach holds figures of ../shared/notes/sensory-facts.md, section 6, and
// the sentence of the design: home panels see little.
func TestReach(t *testing.T) {
	for _, r := range []struct {
		name      string
		got, want float64
		within    float64
	}{
		{"8 friends, one pair: a drop of about 2.1 to 1.5", NewLikingPlan(8, 2, 1.4).Notice(0.05, 0.8), 2.1, 0.25},
		{"15 friends, one pair", NewLikingPlan(15, 2, 1.4).Notice(0.05, 0.8), 1.5, 0.1},
		{"8 friends, 4 samples: the limit shown", NewLikingPlan(8, 4, 1.4).Limit(0.05, 0.8), 1.8, 0.05},
		{"equal both ways is harder", NewLikingPlan(8, 4, 1.4).Equal(0.05, 0.8), 2.1, 0.1},
		{"triangle of 40 sees 30 %", Triangle.Share(first(Noticed(Triangle, 40, 0.05, 0.8))), 0.3, 0.01},
		{"triangle of 60 shows under 20 to 30 %", first(Showable(Triangle, 60, 0.05, 0.8)), 0.25, 0.05},
		{"scatter within", WithinScatter(2, 1.5), math.Sqrt(1.75), 1e-12},
		{"levels explain all", WithinScatter(1, 2), 0, 0},
	} {
		if !(math.Abs(r.got-r.want) <= r.within) {
			t.Errorf("%s: %.3f, want %.3f", r.name, r.got, r.want)
		}
	}
}

func first(v float64, _ bool) float64 { return v }

// TestIncompleteReach: balanced blocks lose just what their efficiency says.
func TestIncompleteReach(t *testing.T) {
	d, err := Plan(Ask{Test: Liking, Samples: 7, PerSitting: 3, Panelists: 14, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	p := d.LikingPlan(1.4)
	// r = 6, E = 7/9 (bib_designs.json, t7k3): variance 2/(rE).
	if want := 1.4 * math.Sqrt(2/(6*7.0/9)); math.Abs(p.SE-want) > 1e-9 || p.DF != 14*3-14-7+1 {
		t.Errorf("SE %g, want %g; df %g", p.SE, want, p.DF)
	}
	few, err := Plan(Ask{Test: Liking, Samples: 7, PerSitting: 2, Panelists: 3, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if p := few.LikingPlan(1.4); !math.IsInf(p.Limit(0.05, 0.8), 1) {
		t.Error("samples that hang in pieces were compared")
	}
}

// TestExplainPlan holds what a cook is told before she cooks.
func TestExplainPlan(t *testing.T) {
	for _, r := range []struct {
		name  string
		ask   Ask
		limit float64
		says  []string
	}{
		{"eight friends", Ask{Test: Liking, Samples: 4, Panelists: 8}, 0.5, []string{
			"Every sample stands in every place equally often",
			"Your 8 tasters would notice a version that is truly liked 2.5 points less",
			"Your 8 tasters can show that a drop is under 1.8 points, not under 0.5.",
			"takes about 98 tasters: not with this panel.",
			"With the original and one version only, they would notice a drop of 2.3 points.",
			"7 of 8 choosing the right one shows it.", "6 of 8 finding it shows that they notice.",
		}},
		{"a large panel", Ask{Test: Liking, Samples: 2, Panelists: 100}, 0.5, []string{"less than your limit of 0.5 points."}},
		{"no limit", Ask{Test: Liking, Samples: 2, Panelists: 30}, 0, []string{"can show that it loses less than 1.0 points."}},
		{"evenings", Ask{Test: Liking, Samples: 3, Panelists: 12}, 1, []string{"On 3 evenings"}},
		{"a limit out of reach", Ask{Test: Liking, Samples: 3, Panelists: 12}, 0.05, []string{"takes more than 1500 tasters"}},
		{"a cook and a helper", Ask{Test: Liking, Samples: 2, Panelists: 1}, 0.5, []string{
			"The scores of one taster are notes", "set 6 odd-one-out trays out of sight: 5 right show that the cook notices",
		}},
		{"triangle", Ask{Test: Triangle, Samples: 2, Panelists: 24}, 0, []string{
			"Each of the 6 ways to set a tray is used equally often.", "13 right answers of 24 show that people notice.",
		}},
		{"too few for anything", Ask{Test: TwoAFC, Samples: 2, Panelists: 3}, 0, []string{"3 tasters cannot show anything here, even if all are right: 5 is the fewest."}},
		{"preference", Ask{Test: Preference, Samples: 2, Panelists: 25}, 0, []string{"or up to 1 more", "18 of 25 for the same sample show a preference."}},
		{"blocks", Ask{Test: Liking, Samples: 4, PerSitting: 2, Panelists: 12}, 0, []string{"Every sample is served equally often"}},
		{"nearly", Ask{Test: Ranking, Samples: 5, Panelists: 9}, 0, []string{"As even as 9 tasters allow"}},
	} {
		d, err := Plan(r.ask)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, p := range d.Explain(r.limit, UsualScatter) {
			all = append(all, p.String())
		}
		text := strings.Join(all, "\n")
		for _, s := range r.says {
			if !strings.Contains(text, s) {
				t.Errorf("%s: %q is not in\n%s", r.name, s, text)
			}
		}
		if strings.ContainsAny(text, "[]{}") {
			t.Errorf("%s: %s", r.name, text)
		}
	}
}

// FuzzPlan plans whatever is asked: a refusal or a sound design, never a crash.
func FuzzPlan(f *testing.F) {
	f.Add("liking", 4, 24, 0, uint64(1), false, false, 2)
	f.Add("triangle", 2, 7, 0, uint64(2), true, false, 3)
	f.Add("liking", 12, 60, 5, uint64(3), false, true, 1)
	f.Add("duo-trio", 2, 500, 2, uint64(1<<63), true, false, 0)
	f.Fuzz(func(t *testing.T, test string, samples, panelists, per int, seed uint64, constant, always bool, late int) {
		d, err := Plan(Ask{Test: Test(test), Samples: samples, Panelists: panelists, PerSitting: per, Seed: seed, ConstantReference: constant, OriginalAlways: always})
		if err != nil {
			return
		}
		if more, err := d.Append(late); err == nil {
			d = more
		}
		for _, tray := range d.Trays {
			if len(tray.Codes) != len(tray.Samples) || setSize(tray.Codes) != len(tray.Codes) {
				t.Fatalf("tray %+v", tray)
			}
		}
		if b := d.Balance(); late == 0 && b.PlaceSpread > 1 {
			t.Fatalf("places spread by %d: %+v", b.PlaceSpread, d.Ask)
		}
		if _, err := json.Marshal(d.Report(UsualScatter)); err != nil {
			t.Fatal(err)
		}
	})
}

// FuzzDiscriminate reads any count: a refusal or numbers within their ranges.
func FuzzDiscriminate(f *testing.F) {
	f.Add("triangle", 36, 18, 0.3, true)
	f.Add("preference", 50, 34, 0.0, false)
	f.Add("2AFC", 100000, 99999, 1e-300, true)
	f.Fuzz(func(t *testing.T, test string, n, correct int, pd float64, similar bool) {
		k, err := ParseTest(test)
		if err != nil {
			return
		}
		var limit *float64
		if similar {
			limit = &pd
		}
		d, err := Discriminate(k, n, correct, limit)
		if err != nil {
			return
		}
		if _, err := json.Marshal(d); err != nil {
			t.Fatal(err)
		}
		for _, p := range []float64{d.PDifference, d.PC, d.PD, d.PDLow, d.PDHigh} {
			if !(p >= 0 && p <= 1) {
				t.Fatalf("%+v", d)
			}
		}
		for _, p := range d.Explain() {
			if strings.ContainsAny(p.String(), "[]") {
				t.Fatal(p)
			}
		}
	})
}

func BenchmarkPlan(b *testing.B) {
	for _, r := range []struct {
		name string
		ask  Ask
	}{
		{"4x24", Ask{Test: Liking, Samples: 4, Panelists: 24}},
		{"7x60", Ask{Test: Liking, Samples: 7, Panelists: 60}},
		{"8x60", Ask{Test: Liking, Samples: 8, Panelists: 60}},
		{"12x60in5", Ask{Test: Liking, Samples: 12, Panelists: 60, PerSitting: 5}},
		{"tetrad60", Ask{Test: Tetrad, Samples: 2, Panelists: 60}},
	} {
		b.Run(r.name, func(b *testing.B) {
			for i := range b.N {
				r.ask.Seed = uint64(i)
				if _, err := Plan(r.ask); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkReport is all that plan says: design, balance, reach and sentences.
func BenchmarkReport(b *testing.B) {
	d, err := Plan(Ask{Test: Liking, Samples: 8, Panelists: 60})
	if err != nil {
		b.Fatal(err)
	}
	for range b.N {
		d.Report(UsualScatter)
		d.Explain(0.5, UsualScatter)
	}
}

func BenchmarkDiscriminate(b *testing.B) {
	limit := 0.3
	for range b.N {
		if _, err := Discriminate(Triangle, 36, 18, &limit); err != nil {
			b.Fatal(err)
		}
	}
}
