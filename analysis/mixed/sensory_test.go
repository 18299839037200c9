package mixed

import (
	"maps"
	"math"
	"slices"
	"testing"

	"parewell/analysis/stats"
	"parewell/testdata/reference"
)

// column is a 0/1 column: 1 where a label is the one wanted.
func column(labels []string, want string) []float64 {
	out := make([]float64, len(labels))
	for i, l := range labels {
		if l == want {
			out[i] = 1
		}
	}
	return out
}

func levels(labels []string) []string {
	seen := map[string]bool{}
	for _, l := range labels {
		seen[l] = true
	}
	return slices.Sorted(maps.Keys(seen))
}

// design puts columns after one of ones.
func design(n int, columns ...[]float64) [][]float64 {
	x := make([][]float64, n)
	for i := range x {
		x[i] = []float64{1}
		for _, c := range columns {
			x[i] = append(x[i], c[i])
		}
	}
	return x
}

// treatment is a column for each level but the first.
func treatment(labels []string) (columns [][]float64) {
	for _, l := range levels(labels)[1:] {
		columns = append(columns, column(labels, l))
	}
	return columns
}

func product(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] * b[i]
	}
	return out
}

func mustFit(t *testing.T, y []float64, x [][]float64, f ...Factor) *Model {
	t.Helper()
	m, err := Fit(y, x, f)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func unit(n, at int) []float64 {
	c := make([]float64, n)
	c[at] = 1
	return c
}

// coefficients are the columns est, se, df, t, p as the files lay them out.
func coefficients(m *Model, rows [][]float64) object {
	var est, se, df, tt, p []float64
	for _, r := range rows {
		a, b, c, d, e := m.Contrast(r)
		est, se, df, tt, p = append(est, a), append(se, b), append(df, c), append(tt, d), append(p, e)
	}
	return object{"estimate": est, "se": se, "df": df, "t": tt, "p": p}
}

func units(n int) (rows [][]float64) {
	for i := range n {
		rows = append(rows, unit(n, i))
	}
	return rows
}

// lmerForm is what mixed_*.json expect of a model.
func lmerForm(t *testing.T, f *reference.File, m *Model) object {
	t.Helper()
	want := f.Expected.(object)
	out := coefficients(m, units(len(m.Coef)))
	out["reml_criterion"], out["logLik_REML"] = m.Deviance, m.LogLik
	var variance, sd []float64
	var lrt, p []float64
	for i, c := range m.Components {
		variance, sd = append(variance, c.Variance), append(sd, c.SD)
		l, q, err := m.WithoutFactor(i)
		if err != nil {
			t.Fatal(err)
		}
		lrt, p = append(lrt, l), append(p, q)
	}
	out["variance"], out["sd"] = append(variance, m.Residual), append(sd, math.Sqrt(m.Residual))
	out["ranova"] = object{"LRT": lrt, "p": p}
	var tests []any
	for _, w := range want["F_tests"].([]any) {
		r := m.FTest(rowsOf(w.(object)["L"]))
		tests = append(tests, object{"F": r.F, "num_df": r.Num, "den_df": r.Den, "p": r.P})
	}
	out["F_tests"] = tests
	return out
}

func rowsOf(v any) (rows [][]float64) {
	for _, r := range v.([]any) {
		var row []float64
		for _, x := range r.([]any) {
			row = append(row, x.(float64))
		}
		rows = append(rows, row)
	}
	return rows
}

// TestCarrots: lmerTest's data of that name (see the file for source and method).
func TestCarrots(t *testing.T) {
	var in struct {
		Data struct {
			Consumer, Product []string
			Y                 []float64
		}
	}
	f := read(t, "mixed_carrots", &in)
	d := in.Data
	m := mustFit(t, d.Y, design(len(d.Y), treatment(d.Product)...), Factor{"Consumer", d.Consumer})
	// Names and the rows of the tests are input.
	f.Hold(t, lmerForm(t, f, m), "variance_terms", "coef_names", "term", "L")
}

// TestTelevisions: lmerTest's TVbo, two nested factors of the same people.
func TestTelevisions(t *testing.T) {
	var in struct {
		Data struct {
			Assessor, TVset, Picture []string
			Y                        []float64
		}
	}
	f := read(t, "mixed_tvbo", &in)
	d := in.Data
	sets, pictures := treatment(d.TVset), treatment(d.Picture)
	columns := append(slices.Clone(sets), pictures...)
	for _, p := range pictures {
		for _, s := range sets {
			columns = append(columns, product(s, p))
		}
	}
	people := Factor{"Assessor", d.Assessor}
	m := mustFit(t, d.Y, design(len(d.Y), columns...), people, Cross("Assessor:TVset", people, Factor{"TVset", d.TVset}))
	f.Hold(t, lmerForm(t, f, m), "variance_terms", "coef_names", "term", "L")
}

type liking struct {
	Panelist, Version []string
	Liking            []float64
	A, B, C, D        []float64
}

// means are the contrasts of each version's mean, treatment columns given.
func means(k int) (rows [][]float64) {
	for i := range k {
		c := unit(k, i)
		c[0] = 1
		rows = append(rows, c)
	}
	return rows
}

func less(a, b []float64) []float64 {
	out := slices.Clone(a)
	axpy(-1, b, out)
	return out
}

// TestMissingCells holds the mixed part of the file; the fixed part is other
// packages' business.
func TestMissingCells(t *testing.T) {
	var in struct{ Data liking }
	f := read(t, "missing_cells", &in)
	d := in.Data
	f.Expected = object{"mixed": f.Expected.(object)["mixed"]}
	m := mustFit(t, d.Liking, design(len(d.Liking), treatment(d.Version)...), Factor{"panelist", d.Panelist})
	form := func(r F) object { return object{"F": r.F, "num_df": r.Num, "den_df": r.Den, "p": r.P} }
	want := f.Expected.(object)["mixed"].(object)
	out := coefficients(m, units(5))
	v := m.Components[0].Variance
	out["var_panelist"], out["var_residual"], out["icc"] = v, m.Residual, v/(v+m.Residual)
	out["reml_criterion"] = m.Deviance
	out["F_test_typeIII_basis"] = form(m.FTest(rowsOf(want["F_test_typeIII_basis"].(object)["L"])))
	out["F_test_treatment_basis"] = form(m.FTest(units(5)[1:]))
	emm := coefficients(m, means(5))
	out["emm"], out["emm_se"], out["emm_df"] = emm["estimate"], emm["se"], emm["df"]
	out["pairs"] = pairsForm(m)
	f.Hold(t, object{"mixed": out}, "coef_names", "L", "a", "b")
}

func pairsForm(m *Model) object {
	var rows [][]float64
	at := means(5)
	for i := range at {
		for j := i + 1; j < len(at); j++ {
			rows = append(rows, less(at[i], at[j]))
		}
	}
	out := coefficients(m, rows)
	p := out["p"].([]float64)
	var tukey []float64
	for i, t := range out["t"].([]float64) {
		tukey = append(tukey, stats.TukeyAbove(math.Abs(t)*math.Sqrt2, 5, out["df"].([]float64)[i]))
	}
	out["difference"], out["p_unadjusted"], out["p_tukey"], out["p_holm"] = out["estimate"], p, tukey, stats.Holm(p)
	return out
}

func TestIncompleteBlocks(t *testing.T) {
	var in struct{ Data liking }
	f := read(t, "bib_ratings", &in)
	d := in.Data
	f.Expected = object{"mixed": f.Expected.(object)["mixed"]}
	m := mustFit(t, d.Liking, design(len(d.Liking), treatment(d.Version)...), Factor{"panelist", d.Panelist})
	emm := coefficients(m, means(5))
	est, se, df, tt, p := m.Contrast(less(means(5)[0], means(5)[1]))
	f.Hold(t, object{"mixed": object{
		"var_panelist": m.Components[0].Variance, "var_residual": m.Residual,
		"emm": emm["estimate"], "emm_se": emm["se"], "emm_df": emm["df"],
		"first_minus_second": object{"estimate": est, "se": se, "df": df, "t": tt, "p": p},
	}})
}

func TestSwapsWithMissingCells(t *testing.T) {
	var in struct{ Data liking }
	f := read(t, "swap_effects_missing", &in)
	d := in.Data
	f.Expected = object{"mixed": f.Expected.(object)["mixed"]}
	m := mustFit(t, d.Liking, design(len(d.Liking), d.A, d.B, d.C, d.D), Factor{"panelist", d.Panelist})
	out := coefficients(m, units(5)[1:])
	out["var_panelist"], out["var_residual"] = m.Components[0].Variance, m.Residual
	f.Hold(t, object{"mixed": out})
}

// TestTypeThreeWithFixedBlocks: without random factors Fit is least squares; the
// file's Type III tests are its columns in sum-to-zero coding.
func TestTypeThreeWithFixedBlocks(t *testing.T) {
	var in struct {
		Data struct {
			Panelist, A, B []string
			Y              []float64
		}
	}
	f := read(t, "type123_unbalanced", &in)
	d := in.Data
	signs := func(labels []string, plus string) []float64 {
		out := column(labels, plus)
		for i := range out {
			out[i] = 2*out[i] - 1
		}
		return out
	}
	a, b := signs(d.A, "cold"), signs(d.B, "no")
	columns := append(treatment(d.Panelist), a, b, product(a, b))
	m := mustFit(t, d.Y, design(len(d.Y), columns...))
	last := len(columns)
	third := object{}
	for name, at := range map[string]int{"A": last - 2, "B": last - 1, "AB": last} {
		r := m.FTest([][]float64{unit(last+1, at)})
		third[name] = object{"ss": r.F * m.Residual, "df": r.Num, "F": r.F, "p": r.P}
	}
	f.Expected = object{
		"residual_ms": f.Expected.(object)["residual_ms"], "residual_df": f.Expected.(object)["residual_df"],
		"type_III": f.Expected.(object)["type_III"],
	}
	f.Hold(t, object{"residual_ms": m.Residual, "residual_df": m.N - m.Rank, "type_III": third})
}
