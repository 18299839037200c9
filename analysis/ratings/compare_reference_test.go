package ratings

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"parewell/testdata/reference"
)

// data is the long form of the reference files.
type data struct {
	Panelist, Version, Previous []string
	Position                    []int
	Liking                      []float64
}

func (d data) table() *Table {
	t := &Table{}
	for i, v := range d.Liking {
		s := Score{Panelist: d.Panelist[i], Sample: d.Version[i], Attribute: "liking", Value: v}
		if d.Position != nil {
			s.Position = d.Position[i]
		}
		t.Scores = append(t.Scores, s)
	}
	return t
}

func analysed(t *testing.T, table *Table, o Options) *Result {
	t.Helper()
	r, err := Analyse(table, o)
	if err != nil {
		t.Fatal(err)
	}
	return r.Results[0]
}

func termObject(t Term) object {
	return object{"df": t.DF, "ss": t.SS, "ms": t.MS, "F": t.F, "p": t.P}
}

func anovaObject(r *Result, panelist, version string) object {
	a := r.Anova
	return object{
		panelist: termObject(a.Panelist), version: termObject(a.Sample),
		"Residuals": object{"df": a.Residual.DF, "ss": a.Residual.SS, "ms": a.Residual.MS, "F": nil, "p": nil},
	}
}

func tukeyObject(r *Result) object {
	o := map[string][]any{}
	add := func(k string, v any) { o[k] = append(o[k], v) }
	for _, p := range r.Pairs {
		add("a", p.A)
		add("b", p.B)
		add("difference", p.Difference)
		add("se", p.SE)
		add("t", p.Difference/p.SE)
		add("p_tukey", p.P)
		add("ci95_tukey_low", p.Low)
		add("ci95_tukey_high", p.High)
	}
	out := object{"q_critical_95": float64((r.Pairs[0].High-r.Pairs[0].Difference)/r.Pairs[0].SE) * math.Sqrt2}
	for k, v := range o {
		out[k] = v
	}
	return out
}

func dunnettObject(r *Result, control, version, p string) object {
	o := map[string][]any{}
	add := func(k string, v any) { o[k] = append(o[k], v) }
	for _, a := range r.AgainstOriginal {
		add(version, a.Sample)
		add("difference", a.Difference)
		add("se", a.SE)
		add("t", a.Difference/a.SE)
		add(p, a.P)
		add("ci95_low", a.Low)
		add("ci95_high", a.High)
	}
	a := r.AgainstOriginal[0]
	out := object{"control": control, "df": r.Anova.Residual.DF, "t_critical_95_two_sided": (a.High - a.Difference) / a.SE, "t_critical_95": (a.High - a.Difference) / a.SE}
	for k, v := range o {
		out[k] = v
	}
	return out
}

func each(r *Result, pick func(Sample) any) (out []any) {
	for _, s := range r.Samples {
		out = append(out, pick(s))
	}
	return out
}

// notOurs are keys of what the report does not hold.
var notOurs = []string{
	"sd", "lsd_95", "partial_eta2_version", "p_unadjusted", "p_holm", "p_bonferroni", "p_bh",
	"correlation", "p_dunnett_two_sided_lower", "p_dunnett_lower_version_worse", "computation", "grand_mean", "sed",
}

// Complete blocks: R 4.2.2 lm and aov; quadrature for Tukey and Dunnett.
func TestCompleteBlocksMatchTheReference(t *testing.T) {
	for _, name := range []string{"rcbd_anova", "rcbd_anova_5versions", "rcbd_anova_wine"} {
		t.Run(name, func(t *testing.T) {
			var in struct {
				Data    data
				Control string
			}
			f := read(t, name, &in)
			r := analysed(t, in.Data.table(), Options{Original: in.Control})
			f.Hold(t, object{
				"n_panelists": r.Panelists, "n_versions": len(r.Samples), "anova": anovaObject(r, "panelist", "version"),
				"version": each(r, func(s Sample) any { return s.Name }), "mean": each(r, func(s Sample) any { return s.Mean }),
				"se_mean_block": r.Samples[0].SE, "residual_sd": r.ResidualSD,
				"ci95_mean_low": each(r, func(s Sample) any { return s.Low }), "ci95_mean_high": each(r, func(s Sample) any { return s.High }),
				"tukey": tukeyObject(r), "dunnett": dunnettObject(r, in.Control, "version", "p_dunnett_two_sided"),
			}, notOurs...)
		})
	}
}

// Separate groups are one panelist with replicates: Westfall and others 1999,
// p. 66, as in R's package multcomp.
func TestUnequalGroupsMatchTheReference(t *testing.T) {
	var in struct {
		Data struct {
			G []string
			Y []float64
		}
		Control string
	}
	f := read(t, "oneway_tukey_dunnett_recovery", &in)
	table := &Table{}
	for i, y := range in.Data.Y {
		table.Scores = append(table.Scores, Score{Panelist: "all", Sample: in.Data.G[i], Attribute: "minutes", Value: y, Replicate: fmt.Sprint(i)})
	}
	r := analysed(t, table, Options{Original: in.Control})
	a := anovaObject(r, "none", "g")
	var n []any
	for _, s := range r.Samples {
		n = append(n, s.N)
	}
	f.Hold(t, object{
		"anova": a, "group": each(r, func(s Sample) any { return s.Name }), "mean": each(r, func(s Sample) any { return s.Mean }), "n": n,
		"tukey": tukeyObject(r), "dunnett": dunnettObject(r, in.Control, "group", "p_two_sided"),
	}, append([]string{"p_one_sided_group_lower", "se_dunnett"}, notOurs...)...)
}

func mixedObject(m *Mixed) object {
	var mean, se, df []any
	for _, s := range m.Samples {
		mean, se, df = append(mean, s.AdjustedMean), append(se, s.SE), append(df, s.DF)
	}
	return object{"var_panelist": m.VarPanelist, "var_residual": m.VarResidual, "emm": mean, "emm_se": se, "emm_df": df}
}

// typeII leaves out of the file what is sequential: panelists before versions,
// and versions and residuals after panelists named a second time.
func typeII(f *reference.File) {
	e := f.Expected.(object)
	delete(e["anova_version_adjusted_for_panelist"].(object), "panelist")
	first := e["anova_typeI_version_first"].(object)
	delete(first, "version")
	delete(first, "Residuals")
}

// Missing servings: R's lm for the fixed model; lme4 polished by Newton and
// lmerTest's degrees of freedom for the mixed one; mvtnorm 1.1.3 for Dunnett.
func TestMissingServingsMatchTheReference(t *testing.T) {
	var in struct {
		Data    data
		Control string
	}
	f := read(t, "missing_cells", &in)
	r := analysed(t, in.Data.table(), Options{Original: in.Control})
	mixed := mixedObject(r.Mixed)
	typeII(f)
	mixed["icc"] = r.Mixed.VarPanelist / (r.Mixed.VarPanelist + r.Mixed.VarResidual)
	first := r.Mixed.Samples[0]
	estimate, se, df := []any{first.AdjustedMean}, []any{first.SE}, []any{first.DF}
	p := []any{Number(2) * Number(tail(float64(first.AdjustedMean/first.SE), float64(first.DF)))}
	for _, a := range r.Mixed.AgainstOriginal {
		estimate, se, df, p = append(estimate, a.Difference), append(se, a.SE), append(df, a.DF), append(p, a.P)
	}
	mixed["estimate"], mixed["se"], mixed["df"], mixed["p"] = estimate, se, df, p
	test := r.Mixed.Test
	mixed["F_test_treatment_basis"] = object{"F": test.F, "num_df": test.DF1, "den_df": test.DF2, "p": test.P}
	f.Hold(t, object{
		"n_obs": r.Servings, "n_missing": 7, "raw_mean": each(r, func(s Sample) any { return s.Mean }), "n_by_version": each(r, func(s Sample) any { return s.N }),
		"anova_version_adjusted_for_panelist": anovaObject(r, "panelist of Type II", "version"),
		"anova_typeI_version_first":           object{"panelist": termObject(r.Anova.Panelist)},
		"version":                             each(r, func(s Sample) any { return s.Name }),
		"emm":                                 each(r, func(s Sample) any { return s.AdjustedMean }), "emm_se": each(r, func(s Sample) any { return s.SE }),
		"df_residual": r.Anova.Residual.DF, "residual_sd": r.ResidualSD,
		"tukey": tukeyObject(r), "dunnett": dunnettObject(r, in.Control, "version", "p_dunnett_two_sided"), "mixed": mixed,
	}, append([]string{"reml_criterion", "coef_names", "t", "F_test_typeIII_basis", "pairs"}, notOurs...)...)
}

// Balanced incomplete blocks: the textbook's formulas; lme4 and lmerTest.
func TestIncompleteBlocksMatchTheReference(t *testing.T) {
	var in struct{ Data data }
	f := read(t, "bib_ratings", &in)
	r := analysed(t, in.Data.table(), Options{Original: "B"})
	a, mixed := r.Anova, mixedObject(r.Mixed)
	for _, x := range r.Mixed.AgainstOriginal {
		if x.Sample == "A" {
			mixed["first_minus_second"] = object{"estimate": x.Difference, "se": x.SE, "df": x.DF, "t": x.Difference / x.SE, "p": x.P}
		}
	}
	f.Hold(t, object{
		"t": len(r.Samples), "b": r.Panelists, "r": r.Samples[0].N,
		"versions": each(r, func(s Sample) any { return s.Name }), "raw_mean": each(r, func(s Sample) any { return s.Mean }),
		"adjusted_mean": each(r, func(s Sample) any { return s.AdjustedMean }), "ss_version_adjusted": a.Sample.SS, "F": a.Sample.F,
		"df": []any{a.Sample.DF, a.Residual.DF}, "p": a.Sample.P, "residual_ms": a.Residual.MS, "sed": r.Pairs[0].SE, "mixed": mixed,
	}, "k", "lambda", "efficiency_factor")
}

// Real data with gaps: R's carrots, lme4 and lmerTest.
func TestCarrotsMatchTheReference(t *testing.T) {
	var in struct {
		Data struct {
			Consumer, Product []string
			Y                 []float64
		}
	}
	f := read(t, "mixed_carrots", &in)
	d := data{Panelist: in.Data.Consumer, Version: in.Data.Product, Liking: in.Data.Y}
	table := d.table()
	list, _, err := prepare(table, Options{})
	if err != nil {
		t.Fatal(err)
	}
	m := mixedOf(newResult(list[0], "Bolero_E", Options{}))
	first := m.Samples[0]
	estimate, se, df := []any{first.AdjustedMean}, []any{first.SE}, []any{first.DF}
	for _, a := range m.AgainstOriginal {
		estimate, se, df = append(estimate, a.Difference), append(se, a.SE), append(df, a.DF)
	}
	f.Hold(t, object{
		"variance": []any{m.VarPanelist, m.VarResidual}, "estimate": estimate, "se": se, "df": df,
	}, "variance_terms", "sd", "reml_criterion", "logLik_REML", "coef_names", "t", "p", "F_tests", "ranova")
}

// Order and carry-over: R's lm.
func TestOrderMatchesTheReference(t *testing.T) {
	var in struct{ Data data }
	f := read(t, "order_carryover", &in)
	r := analysed(t, in.Data.table(), Options{})
	o := r.Order
	var means []any
	slices.SortFunc(o.Samples, func(a, b OrderSample) int { return strings.Compare(a.Name, b.Name) })
	for _, s := range o.Samples {
		means = append(means, s.AdjustedMean)
	}
	test := func(x Test) object { return object{"df": x.DF, "ss": x.SS, "F": x.F, "p": x.P} }
	carry := test(o.Carryover.Test)
	carry["residual_df"], carry["version_given_carryover_F"], carry["version_given_carryover_p"] = o.Carryover.ResidualDF, o.Carryover.Sample.F, o.Carryover.Sample.P
	f.Hold(t, object{
		"residual_ms": o.Residual.MS, "residual_df": o.Residual.DF, "position": test(o.Position), "version": test(o.Sample),
		"first_vs_later":                    object{"estimate": o.FirstVsLater.Effect, "se": o.FirstVsLater.SE, "t": o.FirstVsLater.Effect / o.FirstVsLater.SE, "df": o.FirstVsLater.DF, "p": o.FirstVsLater.P},
		"version_emm_adjusted_for_position": means, "carryover": carry,
	}, "position_mean_raw")
	for _, code := range []string{NoteFirst, NoteCarryover} {
		if !slices.Contains(r.Notes, code) {
			t.Errorf("note %s is missing from %v", code, r.Notes)
		}
	}
}

func tail(t, df float64) float64 { return tAbove(math.Abs(t), df) }
