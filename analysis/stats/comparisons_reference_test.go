package stats

import (
	"math"
	"testing"
)

// TestReferenceCriticalValues holds the points against the quadrature of the
// check files (Tukey checked there against R's qtukey, Dunnett against the
// tables of Dunnett 1955 and 1964). One-sided Dunnett points are left out:
// versions are tested against the original on both sides.
func TestReferenceCriticalValues(t *testing.T) {
	for _, name := range []string{"critical_values", "critical_values_2"} {
		var in struct {
			KOrM []int `json:"k_or_m"`
			DF   []float64
		}
		f := read(t, name, &in)
		ks := f.Expected.(object)["q_tukey_k"].([]any)
		var tukey, dunnett, bonferroni [][]float64
		for _, k := range ks {
			var row []float64
			for _, df := range in.DF {
				row = append(row, TukeyPoint(0.05, int(k.(float64)), df))
			}
			tukey = append(tukey, row)
		}
		for _, m := range in.KOrM {
			var two, b []float64
			for _, df := range in.DF {
				point, leave := DunnettPoint(0.05, equalCorrelation(m, 0.5), df)
				if leave > 1e-6 {
					t.Errorf("m %d df %g: error of %g stated for a one-factor correlation", m, df, leave)
				}
				two, b = append(two, point), append(b, TPoint(0.025/float64(m), df))
			}
			dunnett, bonferroni = append(dunnett, two), append(bonferroni, b)
		}
		f.Hold(t, object{
			"q_tukey": tukey, "q_tukey_k": ks, "dunnett_two_sided": dunnett, "bonferroni_t_two_sided": bonferroni,
		}, "dunnett_one_sided")
	}
}

type recovery struct {
	Data struct {
		G []string
		Y []float64
	}
}

func (r recovery) groups() [][]float64 {
	out := make([][]float64, 4)
	for i, g := range r.Data.G {
		at := int(g[1] - '0')
		out[at] = append(out[at], r.Data.Y[i])
	}
	return out
}

// TestReferenceRecovery holds analysis of variance, Tukey-Kramer and Dunnett with
// unequal groups against multcomp's recovery data (Westfall et al. 1999, p. 66).
// One-sided Dunnett and FDR are not offered, so left out.
func TestReferenceRecovery(t *testing.T) {
	var in recovery
	f := read(t, "oneway_tukey_dunnett_recovery", &in)
	groups := in.groups()
	a := OneWay(groups)
	var means []float64
	var n []int
	for _, g := range groups {
		means, n = append(means, Mean(g)), append(n, len(g))
	}
	f.Hold(t, object{
		"anova": object{
			"g":         object{"df": a.DFBetween, "ss": a.Between, "ms": a.MSBetween, "F": a.F, "p": a.P},
			"Residuals": object{"df": a.DFWithin, "ss": a.Within, "ms": a.MSWithin, "F": nil, "p": nil},
		},
		"group": []string{"b0", "b1", "b2", "b3"}, "mean": means, "n": n,
		"tukey": recoveryTukey(a, means, n), "dunnett": recoveryDunnett(t, a, means, n),
	}, "p_bh", "p_one_sided_group_lower", "p_bonferroni")
}

func recoveryTukey(a OneWayResult, means []float64, n []int) object {
	df := float64(a.DFWithin)
	q := TukeyPoint(0.05, 4, df)
	var from, to []string
	var diff, se, tt, p, adjusted, low, high []float64
	for i := range means {
		for j := i + 1; j < len(means); j++ {
			d, s := means[i]-means[j], math.Sqrt(a.MSWithin*(1/float64(n[i])+1/float64(n[j])))
			from, to = append(from, "b"+string(rune('0'+i))), append(to, "b"+string(rune('0'+j)))
			diff, se, tt = append(diff, d), append(se, s), append(tt, d/s)
			p = append(p, 2*TAbove(math.Abs(d/s), df))
			adjusted = append(adjusted, TukeyAbove(math.Sqrt2*math.Abs(d/s), 4, df))
			low, high = append(low, d-q*s/math.Sqrt2), append(high, d+q*s/math.Sqrt2)
		}
	}
	return object{
		"a": from, "b": to, "difference": diff, "se": se, "t": tt, "p_unadjusted": p, "p_tukey": adjusted,
		"p_holm": Holm(p), "ci95_tukey_low": low, "ci95_tukey_high": high, "q_critical_95": q,
	}
}

func recoveryDunnett(t *testing.T, a OneWayResult, means []float64, n []int) object {
	t.Helper()
	df := float64(a.DFWithin)
	corr := equalCorrelation(3, 1)
	share := func(i int) float64 { return math.Sqrt(float64(n[i]) / float64(n[i]+n[0])) }
	for i := range corr {
		for j := range corr {
			if i != j {
				corr[i][j] = share(i+1) * share(j+1)
			}
		}
	}
	point, _ := DunnettPoint(0.05, corr, df)
	var group []string
	var diff, tt, p, low, high []float64
	for i := 1; i < 4; i++ {
		d, s := means[i]-means[0], math.Sqrt(a.MSWithin*(1/float64(n[i])+1/float64(n[0])))
		above, _ := DunnettAbove(math.Abs(d/s), corr, df)
		group, diff = append(group, "b"+string(rune('0'+i))), append(diff, d)
		tt, p = append(tt, d/s), append(p, above)
		low, high = append(low, d-point*s), append(high, d+point*s)
	}
	return object{
		"group": group, "difference": diff, "t": tt, "df": df, "p_two_sided": p,
		"t_critical_95": point, "ci95_low": low, "ci95_high": high,
	}
}
