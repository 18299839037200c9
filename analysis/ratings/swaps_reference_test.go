package ratings

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"testing"

	"parewell/analysis/stats"
)

func tAbove(t, df float64) float64 { return stats.TAbove(t, df) }

type swapInput struct {
	Data  json.RawMessage
	Swaps []string
}

// table turns columns of 0 and 1 beside the scores into a table of swaps.
func (in *swapInput) table(t *testing.T) *Table {
	t.Helper()
	var d data
	columns := map[string]json.RawMessage{}
	if json.Unmarshal(in.Data, &d) != nil || json.Unmarshal(in.Data, &columns) != nil {
		t.Fatal("the file's data have another form")
	}
	table := d.table()
	s := &Swaps{Names: in.Swaps}
	on := make([][]int, len(in.Swaps))
	for i, name := range in.Swaps {
		if err := json.Unmarshal(columns[name], &on[i]); err != nil {
			t.Fatal(err)
		}
	}
	for row, name := range d.Version {
		if s.row(name) >= 0 {
			continue
		}
		ticks := make([]bool, len(in.Swaps))
		for i := range ticks {
			ticks[i] = on[i][row] == 1
		}
		s.Samples, s.On = append(s.Samples, name), append(s.On, ticks)
	}
	table.Swaps = s
	return table
}

func effectObject(label string, c []float64, e *Effects) object {
	est, se, df, ok := e.Contrast(c)
	o := object{"label": label, "contrast": c, "estimable": ok}
	if ok {
		half := stats.TPoint(0.025, df) * se
		o["estimate"], o["se"], o["df"], o["t"], o["p"] = est, se, df, est/se, 2*stats.TAbove(math.Abs(est/se), df)
		o["ci95"] = []any{est - half, est + half}
	}
	return o
}

// Swap effects, lack of fit and what cannot be told apart: R 4.2.2 lm.
func TestSwapEffectsMatchTheReference(t *testing.T) {
	groups := map[string][]float64{"all_four": {1, 1, 1, 1}, "a_minus_b": {1, -1, 0, 0}, "c_plus_d": {0, 0, 1, 1}, "c_minus_d": {0, 0, 1, -1}}
	order := map[string][]string{"swap_effects": {"all_four", "a_minus_b"}, "swap_effects_aliased": {"c_plus_d", "all_four", "c_minus_d", "a_minus_b"}}
	for name, labels := range order {
		t.Run(name, func(t *testing.T) {
			var in swapInput
			f := read(t, name, &in)
			r := analysed(t, in.table(t), Options{})
			estimable, holm, effects, sums := object{}, []any{}, []any{}, []any{}
			for i, s := range r.Swaps {
				estimable[s.Swap] = s.Estimable
				if s.Estimable {
					holm = append(holm, s.PHolm)
				}
				c := make([]float64, 4)
				c[i] = 1
				effects = append(effects, effectObject(s.Swap, c, r.Effects))
			}
			for _, l := range labels {
				sums = append(sums, effectObject(l, groups[l], r.Effects))
			}
			null := r.Effects.Null
			if null == nil {
				null = [][]int64{}
			}
			lack := r.LackOfFit
			f.Hold(t, object{
				"n_panelists": r.Panelists, "n_versions": len(r.Samples), "rank_swaps": 4 - len(r.Effects.Null), "aliased": len(r.Effects.Null) > 0,
				"null_space": null, "estimable": estimable, "version_mean": each(r, func(s Sample) any { return s.Mean }),
				"anova": object{
					"version":     object{"df": r.Anova.Sample.DF, "ss": r.Anova.Sample.SS, "F": r.Anova.Sample.F, "p": r.Anova.Sample.P},
					"lack_of_fit": object{"df": lack.DF1, "ss": float64(lack.F) * float64(lack.DF1) * float64(r.Anova.Residual.MS), "F": lack.F, "p": lack.P},
					"residual":    object{"df": r.Anova.Residual.DF, "ss": r.Anova.Residual.SS, "ms": r.Anova.Residual.MS},
				},
				"effects": effects, "holm_over_estimable_swaps": holm, "group_contrasts": sums,
			}, "projection_P", "swaps", "se_pooled_with_lack_of_fit", "df_pooled", "p_pooled", "det_current", "candidates")
		})
	}
}

func TestTiedSwapsAreNamed(t *testing.T) {
	var in swapInput
	read(t, "swap_effects_aliased", &in)
	r := analysed(t, in.table(t), Options{})
	for i, want := range [][]string{{}, {}, {"d"}, {"c"}} {
		s := r.Swaps[i]
		if !slices.Equal(s.TiedTo, want) || s.Estimable != (len(want) == 0) || s.Effect.Known() != s.Estimable || s.Low.Known() != s.Estimable {
			t.Errorf("%s: %+v, want tied to %v", s.Swap, s, want)
		}
	}
	if len(r.Together) != 1 || math.Abs(float64(r.Together[0].Effect)+1.09375) > 1e-9 {
		t.Errorf("together: %+v", r.Together)
	}
}

// Swaps with missing servings: R's lm; lme4 and lmerTest for the mixed model.
func TestSwapsWithMissingServingsMatchTheReference(t *testing.T) {
	var in swapInput
	f := read(t, "swap_effects_missing", &in)
	r := analysed(t, in.table(t), Options{})
	fixed, mixed := map[string][]any{}, map[string][]any{}
	for i, s := range r.Swaps {
		add := func(to map[string][]any, e Estimate) {
			to["estimate"], to["se"], to["p"] = append(to["estimate"], e.Effect), append(to["se"], e.SE), append(to["p"], e.P)
		}
		add(fixed, s.Estimate)
		fixed["swap"], fixed["t"], fixed["p_holm"] = append(fixed["swap"], s.Swap), append(fixed["t"], s.Effect/s.SE), append(fixed["p_holm"], s.PHolm)
		add(mixed, r.Mixed.Swaps[i].Estimate)
		mixed["df"] = append(mixed["df"], r.Mixed.Swaps[i].DF)
	}
	effects, m := object{"df": r.Swaps[0].DF}, object{}
	for k, v := range fixed {
		effects[k] = v
	}
	for k, v := range mixed {
		m[k] = v
	}
	est, se, _ := r.Effects.Predict([]bool{true, true, true, true})
	f.Hold(t, object{
		"n_obs": r.Servings, "effects": effects, "total": object{"estimate": est, "se": se}, "residual_ms": r.Anova.Residual.MS,
		"lack_of_fit": object{"df": r.LackOfFit.DF1, "F": r.LackOfFit.F, "p": r.LackOfFit.P}, "mixed": m,
	}, "var_panelist", "var_residual")
}

// All combinations of three swaps: contrasts of samples, and swaps with their
// products in the place of swaps (R's lm with interactions).
func TestInteractionsMatchTheReference(t *testing.T) {
	var in swapInput
	f := read(t, "swap_interaction_shapley", &in)
	in.Swaps = []string{"a", "b", "c"}
	table := in.table(t)
	r := analysed(t, table, Options{})
	means, at := object{}, map[string]string{}
	for _, s := range r.Samples {
		key := ""
		for _, on := range table.Swaps.On[table.Swaps.row(s.Name)] {
			key += map[bool]string{true: "1", false: "0"}[on]
		}
		means[key], at[key] = s.Mean, s.Name
	}
	contrast := func(c map[string]float64) object {
		named := map[string]float64{}
		for k, w := range c {
			named[at[k]] = w
		}
		e, se, df, ok := r.Contrast(named)
		half := stats.TPoint(0.025, float64(df)) * se
		if !ok {
			t.Error("a contrast of complete blocks cannot be told")
		}
		return object{"estimate": e, "se": se, "t": e / se, "p": 2 * tAbove(math.Abs(e/se), float64(df)), "ci95": []any{e - half, e + half}}
	}
	shapley, first, last := object{}, object{}, object{}
	for i, name := range in.Swaps {
		c := map[string]float64{}
		for set := range 8 {
			if set>>i&1 == 1 {
				continue
			}
			w := [4]float64{1. / 3, 1. / 6, 1. / 3}[set&1+set>>1&1+set>>2&1]
			c[bits(set|1<<i)] += w
			c[bits(set)] -= w
		}
		shapley[name] = contrast(c)
		first[name] = contrast(map[string]float64{bits(1 << i): 1, "000": -1})
		last[name] = contrast(map[string]float64{"111": 1, bits(7 &^ (1 << i)): -1})
	}
	f.Hold(t, object{
		"mse": r.Anova.Residual.MS, "df": r.Anova.Residual.DF, "means": means, "shapley": shapley, "first_in": first, "last_in": last, "coef_01": products(t, table),
	}, "total_change", "shapley_share", "paths", "factorial_effect", "shapley_two_way_model")
}

func bits(set int) string {
	return string([]byte{'0' + byte(set&1), '0' + byte(set>>1&1), '0' + byte(set>>2&1)})
}

// products fits swaps and all their products as if each were a swap.
func products(t *testing.T, table *Table) object {
	t.Helper()
	wide := &Swaps{Names: []string{"a", "b", "c", "a:b", "a:c", "b:c", "a:b:c"}, Samples: table.Swaps.Samples}
	for _, on := range table.Swaps.On {
		a, b, c := on[0], on[1], on[2]
		wide.On = append(wide.On, []bool{a, b, c, a && b, a && c, b && c, a && b && c})
	}
	r := analysed(t, &Table{Scores: table.Scores, Swaps: wide}, Options{})
	var term, estimate, se, p []any
	for _, s := range r.Swaps {
		term, estimate, se, p = append(term, s.Swap), append(estimate, s.Effect), append(se, s.SE), append(p, s.P)
	}
	if r.LackOfFit != nil || !slices.Contains(r.Notes, NoteSaturated) {
		t.Error("eight versions and seven effects leave no lack of fit")
	}
	return object{"term": term, "estimate": estimate, "se": se, "p": p}
}

// Type II sums of squares with unequal numbers: R's lm on ordinal::wine with
// eight rows left out. F of a swap is its t squared, F of the pair is the lack of
// fit of both.
func TestTypeIIMatchesTheReference(t *testing.T) {
	var in struct {
		Data struct {
			Panelist, A, B []string
			Y              []float64
		}
	}
	f := read(t, "type123_unbalanced", &in)
	table := &Table{Swaps: &Swaps{
		Names: []string{"A", "B"}, Samples: []string{"coldno", "coldyes", "warmno", "warmyes"},
		On: [][]bool{{false, false}, {false, true}, {true, false}, {true, true}},
	}}
	for i, y := range in.Data.Y {
		table.Scores = append(table.Scores, Score{
			Panelist: in.Data.Panelist[i], Sample: in.Data.A[i] + in.Data.B[i], Attribute: "bitter", Value: y, Replicate: fmt.Sprint(i),
		})
	}
	r := analysed(t, table, Options{})
	test := func(s SwapEffect) object {
		v := float64(s.Effect / s.SE)
		return object{"df": 1, "F": v * v, "p": s.P, "ss": v * v * r.ms}
	}
	lack := object{"df": r.LackOfFit.DF1, "F": r.LackOfFit.F, "p": r.LackOfFit.P, "ss": float64(r.LackOfFit.F) * r.ms}
	f.Hold(t, object{"residual_ms": r.Anova.Residual.MS, "residual_df": r.Anova.Residual.DF, "type_II": object{"A": test(r.Swaps[0]), "B": test(r.Swaps[1]), "AB": lack}}, "type_I", "type_III")
}

// Two samples in blocks are a paired t test, with its equivalence test (scipy).
func TestEquivalenceMatchesTheReference(t *testing.T) {
	var in struct {
		Sets []struct {
			ID                string
			Original, Lighter []float64
			Margin            float64
		}
	}
	f := read(t, "paired_t_tost", &in)
	var got []any
	for _, set := range in.Sets {
		table := &Table{}
		for i := range set.Original {
			who := fmt.Sprint(i)
			table.Scores = append(table.Scores,
				Score{Panelist: who, Sample: "original", Attribute: "liking", Value: set.Original[i]},
				Score{Panelist: who, Sample: "lighter", Attribute: "liking", Value: set.Lighter[i]})
		}
		r := analysed(t, table, Options{Limit: set.Margin})
		a := r.AgainstOriginal[0]
		got = append(got, object{
			"id": set.ID, "n": r.Panelists, "mean_difference": a.Difference, "se": a.SE, "df": r.Anova.Residual.DF, "t_paired": a.Difference / a.SE,
			"p_paired_two_sided": a.P, "ci95": []any{a.Low, a.High}, "tost_p": a.Equivalent.P, "equivalent": a.Equivalent.P < 0.05,
		})
	}
	f.Hold(t, object{"sets": got}, "sd_difference", "dz", "tost_t_lower", "tost_p_lower", "tost_t_upper", "tost_p_upper", "ci_1_minus_2alpha", "non_inferior", "lower_one_sided_bound")
}

// Friedman's test on scores (formulas of ISO 8587, checked with scipy).
func TestRanksMatchTheReference(t *testing.T) {
	var in struct {
		Sets []struct {
			ID      string
			Samples []string
			Rows    [][]float64 `json:"scores_one_row_per_panelist"`
		}
	}
	f := read(t, "friedman_lsd", &in)
	want := f.Expected.(object)["sets"].([]any)
	var kept, got []any
	for i, set := range in.Sets {
		table := &Table{}
		for p, row := range set.Rows {
			for s, v := range row {
				table.Scores = append(table.Scores, Score{Panelist: fmt.Sprint(p), Sample: set.Samples[s], Attribute: "liking", Value: v})
			}
		}
		x := analysed(t, table, Options{}).Friedman
		w := want[i].(object)
		kept = append(kept, object{"Q": w["Q"], "df": w["df"], "p_chi2": w["p_chi2"], "kendall_W": w["kendall_W"]})
		got = append(got, object{"Q": x.Chi2, "df": x.DF, "p_chi2": x.P, "kendall_W": x.W})
	}
	f.Expected = object{"sets": kept}
	f.Hold(t, object{"sets": got})
}
