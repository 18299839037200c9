package stats

import (
	"math"
	"slices"
	"testing"
)

type blockData struct {
	Data struct {
		Panelist, Version []string
		Liking            []float64
	}
	Control string
}

// blockFit is panelist + version by least squares, with what comparisons need.
type blockFit struct {
	fit      *Fit
	versions []string
	first    int // column of the first version
}

func fitBlocks(t *testing.T, in blockData) blockFit {
	t.Helper()
	_, blocks := dummies(in.Data.Panelist)
	names, versions := dummies(in.Data.Version)
	var x [][]float64
	for i := range blocks {
		x = append(x, slices.Concat(blocks[i], versions[i]))
	}
	return blockFit{fitOf(t, x, in.Data.Liking), names, len(blocks[0])}
}

// less is version i less version j.
func (b blockFit) less(i, j int) []float64 {
	c := make([]float64, b.fit.q.cols)
	c[b.first+i], c[b.first+j] = 1, -1
	return c
}

// TestReferenceBlocks holds least squares with contrasts, Tukey and Dunnett
// against complete blocks analysed in R 4.2.2 (lm; multiplicity by the check
// files' own quadrature). The names, means and adjustments that other tests hold
// or this package does not offer are left out.
func TestReferenceBlocks(t *testing.T) {
	for _, name := range []string{"rcbd_anova", "rcbd_anova_wine", "rcbd_anova_5versions"} {
		var in blockData
		f := read(t, name, &in)
		b := fitBlocks(t, in)
		df := float64(b.fit.DF)
		_, sed, _ := b.fit.Contrast(b.less(0, 1))
		ms := b.fit.RSS / df
		f.Hold(
			t, object{
				"anova": object{"Residuals": object{"df": b.fit.DF, "ss": b.fit.RSS, "ms": ms, "F": nil, "p": nil}},
				"sed":   sed, "lsd_95": TPoint(0.025, df) * sed, "residual_sd": b.fit.Sigma,
				"grand_mean": Mean(in.Data.Liking), "tukey": b.tukey(), "dunnett": b.dunnett(),
			}, "n_panelists", "n_versions", "panelist", "version", "mean", "sd", "se_mean_block", "ci95_mean_low", "ci95_mean_high",
			"partial_eta2_version", "a", "b", "p_bonferroni", "p_bh", "control", "correlation", "computation",
			"p_dunnett_lower_version_worse",
		)
	}
}

func (b blockFit) tukey() object {
	k, df := len(b.versions), float64(b.fit.DF)
	q := TukeyPoint(0.05, k, df)
	var diff, se, tt, p, adjusted, low, high []float64
	for i := range k {
		for j := i + 1; j < k; j++ {
			d, s, _ := b.fit.Contrast(b.less(i, j))
			diff, se, tt = append(diff, d), append(se, s), append(tt, d/s)
			p = append(p, 2*TAbove(math.Abs(d/s), df))
			adjusted = append(adjusted, TukeyAbove(math.Abs(d/s)*math.Sqrt2, k, df))
			low, high = append(low, d-q*s/math.Sqrt2), append(high, d+q*s/math.Sqrt2)
		}
	}
	return object{
		"difference": diff, "se": se, "t": tt, "p_unadjusted": p, "p_tukey": adjusted, "p_holm": Holm(p),
		"ci95_tukey_low": low, "ci95_tukey_high": high, "q_critical_95": q,
	}
}

func (b blockFit) dunnett() object {
	m, df := len(b.versions)-1, float64(b.fit.DF)
	corr := equalCorrelation(m, 0.5)
	point, _ := DunnettPoint(0.05, corr, df)
	var diff, se, tt, p, low, high []float64
	for i := 1; i <= m; i++ {
		d, s, _ := b.fit.Contrast(b.less(i, 0))
		above, _ := DunnettAbove(math.Abs(d/s), corr, df)
		diff, se, tt, p = append(diff, d), append(se, s), append(tt, d/s), append(p, above)
		low, high = append(low, d-point*s), append(high, d+point*s)
	}
	return object{
		"difference": diff, "se": se, "t": tt, "df": df, "p_dunnett_two_sided": p,
		"t_critical_95_two_sided": point, "ci95_low": low, "ci95_high": high,
	}
}

// TestReferenceSwaps holds least squares where panelists missed samples (fixed
// panelists; standard errors rest on the residual of panelist + version). The
// mixed model belongs to the analysis of scores.
func TestReferenceSwaps(t *testing.T) {
	var in struct {
		Data  map[string][]any
		Swaps []string
	}
	var blocks blockData // the same data by name
	f := read(t, "swap_effects_missing", &in)
	read(t, "swap_effects_missing", &blocks)
	_, x := dummies(blocks.Data.Panelist)
	for i := range x {
		for _, s := range in.Swaps {
			x[i] = append(x[i], in.Data[s][i].(float64))
		}
	}
	fit := fitOf(t, x, blocks.Data.Liking)
	full := fitBlocks(t, blocks).fit
	scale := full.Sigma / fit.Sigma
	var estimate, se, tt, p []float64
	for j := range in.Swaps {
		at := len(x[0]) - len(in.Swaps) + j
		estimate, se = append(estimate, fit.Coef[at]), append(se, fit.SE[at]*scale)
		tt = append(tt, estimate[j]/se[j])
		p = append(p, 2*TAbove(math.Abs(tt[j]), float64(full.DF)))
	}
	all := make([]float64, len(x[0]))
	for j := range in.Swaps {
		all[len(all)-1-j] = 1
	}
	total, totalSE, _ := fit.Contrast(all)
	lack := (fit.RSS - full.RSS) / float64(full.Rank-fit.Rank) / square(full.Sigma)
	f.Hold(t, object{
		"n_obs": fit.N, "effects": object{
			"swap": in.Swaps, "estimate": estimate, "se": se, "df": full.DF, "t": tt, "p": p, "p_holm": Holm(p),
		},
		"total": object{"estimate": total, "se": totalSE * scale}, "residual_ms": square(full.Sigma),
		"lack_of_fit": object{
			"df": full.Rank - fit.Rank, "F": lack, "p": FAbove(lack, float64(full.Rank-fit.Rank), float64(full.DF)),
		},
	}, "mixed")
}
