package stats

import (
	"math"
	"testing"
)

type pairedSet struct {
	ID                string
	Original, Lighter []float64
	Margin, Alpha     float64
}

func (s pairedSet) differences() []float64 {
	var d []float64
	for i, v := range s.Lighter {
		d = append(d, v-s.Original[i])
	}
	return d
}

// TestReferencePairedEquivalence holds against scipy (the file names no version)
// and the published t of the sleep data.
func TestReferencePairedEquivalence(t *testing.T) {
	var in struct{ Sets []pairedSet }
	f := read(t, "paired_t_tost", &in)
	var got []object
	for _, s := range in.Sets {
		p := PairedT(s.differences())
		e := TOST(p.Estimate, p.SE, p.DF, s.Margin)
		low, high := p.Interval(0.95)
		eLow, eHigh := e.Interval(s.Alpha)
		got = append(got, object{
			"id": s.ID, "n": p.N, "mean_difference": p.Estimate, "sd_difference": p.SD, "se": p.SE, "df": p.DF,
			"t_paired": p.T, "p_paired_two_sided": p.P, "ci95": []float64{low, high}, "dz": p.Effect,
			"tost_t_lower": e.TLower, "tost_p_lower": e.PLower, "tost_t_upper": e.TUpper, "tost_p_upper": e.PUpper,
			"tost_p": e.P, "ci_1_minus_2alpha": []float64{eLow, eHigh}, "equivalent": e.Equivalent(s.Alpha),
			"non_inferior": e.NotWorse(s.Alpha), "lower_one_sided_bound": eLow,
		})
	}
	f.Hold(t, object{"sets": got})
}

// TestReferencePairedHolm holds paired t tests with Holm's adjustment; Hochberg
// and FDR are not offered, Bonferroni is a product.
func TestReferencePairedHolm(t *testing.T) {
	var in struct {
		Scores [][]float64 `json:"scores_one_row_per_panelist"`
	}
	f := read(t, "paired_t_holm", &in)
	f.Hold(t, object{
		"versus_first": pairsOf(in.Scores, 1), "all_pairs": pairsOf(in.Scores, 4),
	}, "hochberg", "bonferroni", "bh_fdr")
}

func pairsOf(scores [][]float64, firsts int) object {
	var is, js []int
	var mean, se, tt, p []float64
	df := 0.0
	for i := range firsts {
		for j := i + 1; j < len(scores[0]); j++ {
			var d []float64
			for _, row := range scores {
				d = append(d, row[j]-row[i])
			}
			r := PairedT(d)
			is, js, mean, se = append(is, i+1), append(js, j+1), append(mean, r.Estimate), append(se, r.SE)
			tt, p, df = append(tt, r.T), append(p, r.P), r.DF
		}
	}
	return object{"i": is, "j": js, "mean_difference_j_minus_i": mean, "se": se, "t": tt, "df": df, "p": p, "holm": Holm(p)}
}

// TestReferenceSignedRank holds the exact and normal signed-rank test, both zero
// rules, and the sign test.
func TestReferenceSignedRank(t *testing.T) {
	var in struct{ Sets []pairedSet }
	f := read(t, "wilcoxon_signed_rank", &in)
	var got []object
	for _, s := range in.Sets {
		d := s.differences()
		drop := SignedRank(d, DropZeros)
		got = append(got, object{
			"id": s.ID, "n_pairs": drop.Pairs, "n_zero": drop.Zeros, "n_nonzero": drop.N,
			"drop_zeros": signedRankObject(drop), "pratt": signedRankObject(SignedRank(d, PrattZeros)),
			"hodges_lehmann_all_pairs": drop.HodgesLehmann,
			"sign_test":                object{"positive": drop.Positive, "negative": drop.Negative, "p_two_sided": drop.PSign},
		})
	}
	f.Hold(t, object{"sets": got})
}

func signedRankObject(r SignedRankResult) object {
	return object{
		"V_plus": r.Plus, "V_minus": r.Minus, "mean": r.Mean, "variance_tie_corrected": r.Variance,
		"p_exact_two_sided": r.P, "p_exact_less": r.PLess, "p_exact_greater": r.PGreater,
		"z": r.Z, "p_normal_two_sided": r.PNormal, "z_cc": r.ZCorrected, "p_normal_cc_two_sided": r.PCorrected,
		"p_normal_cc_less": r.PCorLess, "rank_biserial": r.RankBiserial,
	}
}

// TestWelch holds against fractions worked by hand: means 3 and 8, variances 2.5
// and 10 over 5, so t = -5/sqrt(2.5), df = 6.25/(0.25/4+4/4) = 5.88235...; p by
// mpmath 1.3.0.
func TestWelch(t *testing.T) {
	r := Welch([]float64{1, 2, 3, 4, 5}, []float64{4, 6, 8, 10, 12})
	want := []float64{-5, math.Sqrt(2.5), 100. / 17, -5 / math.Sqrt(2.5)}
	for i, got := range []float64{r.Estimate, r.SE, r.DF, r.T} {
		if !near(got, want[i], 1e-14) {
			t.Errorf("value %d: got %v, want %v", i, got, want[i])
		}
	}
	if !near(r.P, 0.0200388911194151765, 1e-12) {
		t.Errorf("p: got %.16g, want 0.02003889111941518", r.P)
	}
}
