package stats

import (
	"math"
	"testing"
)

type rankSet struct {
	ID     string
	Scores [][]float64 `json:"scores_one_row_per_panelist"`
}

// TestReferenceFriedman holds every case of the file, whose Q and p were checked
// against scipy (no version named); the exact p only where the file has one.
func TestReferenceFriedman(t *testing.T) {
	var in struct {
		Alpha float64
		Sets  []rankSet
	}
	f := read(t, "friedman_lsd", &in)
	var got []object
	for i, s := range in.Sets {
		want := f.Expected.(object)["sets"].([]any)[i].(object)
		r := Friedman(s.Scores)
		o := friedmanObject(r)
		o["id"] = s.ID
		if r.Exact != nil {
			o["p_exact_permutation"] = *r.Exact
		}
		if page, ok := want["page"].(object); ok {
			o["page"] = pageObject(s.Scores, page)
		}
		got = append(got, o)
	}
	f.Hold(t, object{"sets": got})
}

func friedmanObject(r FriedmanResult) object {
	return object{
		"n": r.N, "k": r.K, "rank_sums": r.RankSums, "mean_ranks": r.MeanRanks, "ties_sum_t3_minus_t": r.TieSum,
		"Q_uncorrected": r.Uncorrected, "tie_correction_C": r.Tie, "Q": r.Chi2, "df": r.DF, "p_chi2": r.P,
		"p_chi2_uncorrected": Chi2Above(r.Uncorrected, r.DF), "kendall_W": r.W, "F_iman_davenport": r.F,
		"F_df": []float64{r.FDF1, r.FDF2}, "p_F": r.PF, "lsd_iso8587_no_tie_adjustment": r.LSDPlain,
		"lsd_tie_adjusted": r.LSD, "lsd_conover_t": r.LSDConover, "hsd_rank_sum_no_tie_adjustment": r.HSDPlain,
		"hsd_rank_sum_tie_adjusted": r.HSD, "pairs": pairsObject(r),
	}
}

func pairsObject(r FriedmanResult) object {
	var is, js []int
	var d, z, p, h []float64
	var sure []bool
	for _, v := range r.Pairs() {
		is, js, d, z = append(is, v.I+1), append(js, v.J+1), append(d, v.Difference), append(z, v.Z)
		p, h, sure = append(p, v.P), append(h, v.Holm), append(sure, math.Abs(v.Difference) >= r.LSD)
	}
	return object{
		"i": is, "j": js, "rank_sum_difference": d, "z_tie_adjusted": z, "p_unadjusted": p, "p_holm": h,
		"significant_lsd_tie_adjusted": sure,
	}
}

func pageObject(scores [][]float64, want object) object {
	// order lists the columns from the smallest expected rank up.
	expected := make([]float64, len(scores[0]))
	for rank, column := range want["order"].([]any) {
		expected[int(column.(float64))-1] = float64(rank + 1)
	}
	r := Page(scores, expected)
	o := object{
		"order": want["order"], "L": r.L, "mean": r.Mean, "variance_no_ties": r.Variance, "z": r.Z,
		"p_one_sided_normal": r.P,
	}
	if r.Exact != nil {
		o["p_one_sided_exact"] = *r.Exact
	}
	return o
}

// TestReferenceIncompleteBlocks holds Durbin's test against the closed formula.
func TestReferenceIncompleteBlocks(t *testing.T) {
	var in struct {
		Panelist, Version []string
		Rank              []float64
	}
	f := read(t, "bib_rank_durbin", &in)
	at := map[string]int{}
	var rows [][]float64
	for i, p := range in.Panelist {
		if _, ok := at[p]; !ok {
			at[p] = len(rows)
			rows = append(rows, []float64{math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()})
		}
		rows[at[p]][in.Version[i][0]-'A'] = in.Rank[i]
	}
	r := Friedman(rows)
	f.Hold(t, object{
		"t": r.K, "k": r.PerBlock, "r": r.Replicates, "b": r.N, "lambda": r.Lambda,
		"efficiency_factor": r.Efficiency, "versions": []string{"A", "B", "C", "D", "E"}, "rank_sums": r.RankSums,
		"durbin_Q": r.Chi2, "df": r.DF, "p_chi2": r.P, "lsd_rank_sum": r.LSD,
	})
}
