package sensory

import (
	"fmt"
	"math"
	"testing"
)

// counted is one case of the files about counts.
type counted struct {
	ID, Kind, Method string
	N, Correct       int
	Alpha, Beta      float64
	Alt              string
	Value, PD        float64
	PDMax            float64 `json:"pd_max"`
	PreferA          int     `json:"prefer_A"`
	PreferB          int     `json:"prefer_B"`
	NoPreference     int     `json:"no_preference"`
}

func (c counted) test(t *testing.T) Test {
	t.Helper()
	k, err := ParseTest(c.Method)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func TestReferenceExactP(t *testing.T) {
	var in struct{ Discrimination, Preference []counted }
	f := read(t, "discrim_exact_p", &in)
	var discrimination, preference []object
	for _, c := range in.Discrimination {
		k := c.test(t)
		pc := float64(c.Correct) / float64(c.N)
		exact := Exact(c.N, c.Correct, 0.95)
		discrimination = append(discrimination, object{
			"id": c.ID, "p_guess": k.Guess(), "pc_hat": pc, "pd_hat_raw": k.Share(pc), "pd_hat": unit(k.Share(pc)),
			"p_one_sided": PGuess(k, c.N, c.Correct), "ci95_pc_exact": pair(exact),
			"ci95_pd_exact": []float64{unit(k.Share(exact.Low)), unit(k.Share(exact.High))},
		})
	}
	for _, c := range in.Preference {
		n := c.PreferA + c.PreferB
		half := c.PreferA + c.NoPreference/2
		all := n + c.NoPreference/2*2
		preference = append(preference, object{
			"id": c.ID,
			"drop_ties": object{
				"n": n, "p_two_sided": PGuess(Preference, n, c.PreferA), "p_one_sided_A": PGuess(TwoAFC, n, c.PreferA),
				"prop_A":     float64(c.PreferA) / float64(n),
				"ci95_exact": pair(Exact(n, c.PreferA, 0.95)), "ci95_wilson": pair(Wilson(n, c.PreferA, 0.95)),
			},
			"split_ties_equally_odd_one_dropped": object{"A": half, "n": all, "p_two_sided": PGuess(Preference, all, half)},
		})
	}
	f.Hold(t, object{"discrimination": discrimination, "preference": preference})
}

func TestReferenceMinCorrect(t *testing.T) {
	var in struct {
		N     []int
		Alpha []float64
	}
	f := read(t, "discrim_min_correct_table", &in)
	got := object{}
	for name, k := range map[string]Test{
		"triangle_or_tetrad_or_3afc_one_sided": Triangle, "duotrio_or_2afc_one_sided": DuoTrio, "paired_preference_two_sided": Preference,
	} {
		table := object{}
		for _, alpha := range in.Alpha {
			var row []any
			for _, n := range in.N {
				if x, ok := MinCorrect(k, n, alpha); ok {
					row = append(row, x)
				} else {
					row = append(row, nil)
				}
			}
			table[fmt.Sprint(alpha)] = row
		}
		got[name] = table
	}
	f.Hold(t, got)
}

func TestReferencePower(t *testing.T) {
	var in struct {
		PowerCases      []counted `json:"power_cases"`
		SampleSizeCases []counted `json:"sample_size_cases"`
	}
	f := read(t, "discrim_power", &in)
	var power, sizes []object
	for _, c := range in.PowerCases {
		k := c.test(t)
		pc := k.Right(c.Value)
		if c.Alt == "dprime" {
			pc = k.AtDPrime(c.Value)
		}
		x, _ := MinCorrect(k, c.N, c.Alpha)
		power = append(power, object{
			"id": c.ID, "pc_alt": pc, "critical_correct": x,
			"actual_alpha": AtLeast(c.N, x, k.Guess()), "power": Power(k, c.N, c.Alpha, pc),
		})
	}
	for _, c := range in.SampleSizeCases {
		k := c.test(t)
		pc := k.Right(c.PD)
		first, stable, ok := PanelFor(k, c.Alpha, 1-c.Beta, pc)
		if !ok {
			t.Errorf("no panel for %+v", c)
		}
		sizes = append(sizes, object{
			"method": c.Method, "alpha": c.Alpha, "beta": c.Beta, "pd": c.PD,
			"n_first": first.N, "critical_correct_first": first.MinCorrect, "power_first": first.Power,
			"n_stable": stable.N, "power_stable": stable.Power,
			"n_normal_approx_unrounded": RoughPanel(k, c.Alpha, 1-c.Beta, pc),
		})
	}
	f.Hold(t, object{"power_cases": power, "sample_size_cases": sizes})
}

func TestReferenceSimilarity(t *testing.T) {
	var in struct {
		Cases []counted
		Grid  []struct {
			Method string
			PDMax  float64 `json:"pd_max"`
			Beta   float64
			N      []int
		} `json:"table_grid"`
	}
	f := read(t, "discrim_similarity", &in)
	var cases, table []object
	for _, c := range in.Cases {
		k := c.test(t)
		p := PSimilar(k, c.N, c.Correct, c.PDMax)
		most, _ := MaxCorrect(k, c.N, c.PDMax, c.Beta)
		wald, se := WaldShare(k, c.N, c.Correct, 1-2*c.Beta)
		cases = append(cases, object{
			"id": c.ID, "pc_at_pd_max": k.Right(c.PDMax), "p_similarity": p, "max_correct_exact": most,
			"similar_exact": reached(p, c.Beta), "pc_upper_exact": exactHigh(c.N, c.Correct, c.Beta),
			"pd_upper_exact": UpperShare(k, c.N, c.Correct, 1-c.Beta),
			"pd_lower_exact": unit(k.Share(exactLow(c.N, c.Correct, c.Beta))),
			"pd_upper_wald":  wald.High, "pd_lower_wald": wald.Low, "se_pd_wald": se, "similar_wald": wald.High <= c.PDMax,
			"p_difference": PGuess(k, c.N, c.Correct),
		})
	}
	for _, g := range in.Grid {
		k := counted{Method: g.Method}.test(t)
		var most []any
		for _, n := range g.N {
			if x, ok := MaxCorrect(k, n, g.PDMax, g.Beta); ok {
				most = append(most, x)
			} else {
				most = append(most, nil)
			}
		}
		table = append(table, object{"method": g.Method, "pd_max": g.PDMax, "beta": g.Beta, "n": g.N, "max_correct": most})
	}
	f.Hold(t, object{"cases": cases, "table": table})
}

func TestReferencePsychometric(t *testing.T) {
	var in struct{ DPrime []float64 }
	f := read(t, "psychometric_functions", &in)
	got := object{}
	for name, k := range map[string]Test{"2afc": TwoAFC, "3afc": ThreeAFC, "triangle": Triangle, "duotrio": DuoTrio, "tetrad": Tetrad} {
		var pc, pd, slope []float64
		for _, d := range in.DPrime {
			pc = append(pc, k.AtDPrime(d))
			pd = append(pd, k.Share(k.AtDPrime(d)))
			slope = append(slope, k.slope(d))
		}
		got[name] = object{"pc": pc, "pd": pd, "dpc_ddprime": slope}
	}
	f.Hold(t, got)
}

func TestReferenceDPrimePublished(t *testing.T) {
	var in struct{ Cases []counted }
	f := read(t, "dprime_published", &in)
	var cases []object
	for _, c := range in.Cases {
		k := c.test(t)
		d, _ := k.DPrime(float64(c.Correct) / float64(c.N))
		se, _ := k.DPrimeSE(c.N, c.Correct)
		cases = append(cases, object{"method": c.Method, "dprime": d, "variance": se * se, "se": se})
	}
	// The published columns are as printed, rounded, for reading only.
	f.Hold(t, object{"cases": cases}, "published_dprime", "published_variance")
}

func TestReferenceDPrimeSE(t *testing.T) {
	var in struct {
		Cases   []counted
		Compare [][]string
	}
	f := read(t, "dprime_se", &in)
	type estimate struct{ d, se float64 }
	known := map[string]estimate{}
	var cases, compare []object
	for _, c := range in.Cases {
		k := c.test(t)
		pc := float64(c.Correct) / float64(c.N)
		d, finite := k.DPrime(pc)
		se, _ := k.DPrimeSE(c.N, c.Correct)
		known[c.ID] = estimate{d, se}
		o := object{
			"id": c.ID, "pc_hat": pc, "dprime": num(d), "se": num(se), "variance": num(se * se), "B_value": num(float64(c.N) * se * se),
			"ci95_dprime_from_exact_pc": pair(k.DPrimeExact(c.N, c.Correct, 0.95)),
			"ci95_likelihood":           pair(k.DPrimeLikelihood(c.N, c.Correct, 0.95)),
			"status":                    "ok",
		}
		z := normalPoint(0.975)
		o["ci95_wald"] = pair(Limits{d - z*se, d + z*se})
		o["ci95_wald_cut_at_0"] = pair(Limits{math.Max(0, d-z*se), d + z*se})
		if !finite {
			o["status"] = "all correct: d' unbounded, give lower limit only"
		} else if d == 0 {
			o["status"] = "at or below chance: d'=0, SE not defined"
		}
		cases = append(cases, o)
	}
	for _, ids := range in.Compare {
		var d, se []float64
		for _, id := range ids {
			d, se = append(d, known[id].d), append(se, known[id].se)
		}
		s := CompareDPrimes(d, se)
		compare = append(compare, object{"ids": ids, "pooled_dprime": s.Pooled, "pooled_se": s.SE, "chi2": s.Chi2, "df": s.DF, "p": s.P})
	}
	f.Hold(t, object{"cases": cases, "compare": compare})
}

// TestReferenceEdges holds the boundary cases of counts; those of ratings belong
// to the analysis of ratings.
func TestReferenceEdges(t *testing.T) {
	var in struct{ Cases []counted }
	f := read(t, "edge_cases", &in)
	var want []any
	var got []object
	for i, c := range in.Cases {
		switch c.Kind {
		case "discrimination":
			_, err := Discriminate(c.test(t), c.N, c.Correct, nil)
			if err == nil {
				t.Errorf("%s is taken", c.ID)
			}
			got = append(got, object{"id": c.ID, "p_one_sided": nil})
		case "min_correct":
			_, ok := MinCorrect(Triangle, c.N, c.Alpha)
			if ok {
				t.Errorf("%s is attainable", c.ID)
			}
			got = append(got, object{"id": c.ID, "min_correct": nil, "smallest_attainable_p": AtLeast(c.N, c.N, Triangle.Guess())})
		default:
			continue
		}
		want = append(want, f.Expected.(object)["cases"].([]any)[i])
	}
	f.Expected = want
	f.Hold(t, got)
}
