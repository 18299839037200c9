package sensory

import (
	"math"
	"testing"
)

func TestReferenceLikingPower(t *testing.T) {
	f := read(t, "power_hedonic", &struct{}{})
	want := f.Expected.(object)
	got := object{}
	for name, one := range map[string]func(object) object{
		"power": likingPower, "sample_size": likingSize, "tost_power": equivalence, "hough": rough,
	} {
		var rows []object
		for _, w := range want[name].([]any) {
			rows = append(rows, one(w.(object)))
		}
		got[name] = rows
	}
	f.Hold(t, got)
}

// given copies the settings of a row, which the file keeps beside the results.
func given(w object, keys ...string) (object, []float64) {
	out, values := object{}, make([]float64, len(keys))
	for i, k := range keys {
		values[i] = w[k].(float64)
		out[k] = values[i]
	}
	return out, values
}

func likingPower(w object) object {
	out, v := given(w, "k", "J", "delta", "sigma_error", "alpha")
	k, j, delta, sd, alpha := int(v[0]), int(v[1]), v[2], v[3], v[4]
	p := NewLikingPlan(j, k, sd)
	out["F_ncp"] = float64(j) * delta * delta / (2 * sd * sd)
	out["power_F_least_favourable"] = RangePower(j, k, delta, sd, alpha)
	out["t_ncp"] = delta / p.SE
	out["power_pair_unadjusted"] = PairPower(p.SE, p.DF, delta, alpha)
	out["power_pair_bonferroni_all"] = PairPower(p.SE, p.DF, delta, alpha/float64(k*(k-1)/2))
	out["power_pair_bonferroni_vs_control"] = PairPower(p.SE, p.DF, delta, alpha/float64(k-1))
	return out
}

func likingSize(w object) object {
	out, v := given(w, "k", "delta", "sigma_error", "alpha", "beta")
	k, delta, sd, alpha, power := int(v[0]), v[1], v[2], v[3], 1-v[4]
	tasters := func(comparisons int) int {
		return TastersFor(func(j int) bool {
			p := NewLikingPlan(j, k, sd)
			return PairPower(p.SE, p.DF, delta, alpha/float64(comparisons)) >= power
		})
	}
	out["J_pair_unadjusted"] = tasters(1)
	out["J_vs_control_bonferroni"] = tasters(k - 1)
	out["J_all_pairs_bonferroni"] = tasters(k * (k - 1) / 2)
	out["J_F_test"] = TastersFor(func(j int) bool { return RangePower(j, k, delta, sd, alpha) >= power })
	return out
}

func equivalence(w object) object {
	out, v := given(w, "n", "true_difference", "margin", "sd_difference", "alpha")
	n, diff, margin, se, alpha := v[0], v[1], v[2], v[3]/math.Sqrt(v[0]), v[4]
	out["power"] = EquivalencePower(se, n-1, diff, margin, alpha)
	out["power_noninferiority"] = LimitPower(se, n-1, diff, margin, alpha)
	return out
}

func rough(w object) object {
	out, v := given(w, "alpha", "beta", "rmsl", "d")
	out["n_unrounded"] = RoughTasters(v[2], v[3], v[0], 1-v[1])
	return out
}

// TestReferencePoints holds our t points against the Bonferroni columns; Tukey's
// and Dunnett's belong to the analysis of ratings.
func TestReferencePoints(t *testing.T) {
	for _, name := range []string{"critical_values", "critical_values_2"} {
		var in struct {
			KOrM []float64 `json:"k_or_m"`
			DF   []float64
		}
		f := read(t, name, &in)
		var table [][]float64
		for _, m := range in.KOrM {
			var row []float64
			for _, df := range in.DF {
				row = append(row, tPoint(0.025/m, df))
			}
			table = append(table, row)
		}
		f.Hold(t, object{"bonferroni_t_two_sided": table}, "q_tukey", "q_tukey_k", "dunnett_two_sided", "dunnett_one_sided")
	}
}
