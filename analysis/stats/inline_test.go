package stats

import (
	"math"
	"slices"
	"testing"
)

// These need no reference folder: small published or hand-worked cases.

func TestHolm(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		name    string
		p, want []float64
	}{
		{"nothing", nil, nil},
		{"one", []float64{0.2}, []float64{0.2}},
		{"worked by hand", []float64{0.01, 0.04, 0.03, 0.005}, []float64{0.03, 0.06, 0.06, 0.02}},
		{"capped", []float64{0.9, 0.8}, []float64{1, 1}},
		{"NaN is no test", []float64{0.01, nan, 0.04}, []float64{0.02, nan, 0.04}},
		{"all NaN", []float64{nan, nan}, []float64{nan, nan}},
	} {
		if got := Holm(tt.p); !slices.EqualFunc(got, tt.want, func(a, b float64) bool { return near(a, b, 1e-15) }) {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}

func TestRanks(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		name    string
		x, want []float64
		ties    float64
	}{
		{"nothing", nil, []float64{}, 0},
		{"no ties", []float64{30, 10, 20}, []float64{3, 1, 2}, 0},
		{"a pair and a triple", []float64{5, 5, 7, 7, 7, 9}, []float64{1.5, 1.5, 4, 4, 4, 6}, 6 + 24},
		{"missing", []float64{2, nan, 1}, []float64{2, nan, 1}, 0},
		{"infinite", []float64{math.Inf(1), 0, math.Inf(1), math.Inf(-1)}, []float64{3.5, 2, 3.5, 1}, 6},
	} {
		got, ties := Ranks(tt.x)
		if ties != tt.ties || !slices.EqualFunc(got, tt.want, func(a, b float64) bool { return near(a, b, 0) }) {
			t.Errorf("%s: got %v %v, want %v %v", tt.name, got, ties, tt.want, tt.ties)
		}
	}
}

// TestSleep: the extra hours of sleep of ten patients (Student 1908), whose t of
// 4.0621 and p of .002833 are printed in R's help, exact signed-rank p 2/512.
func TestSleep(t *testing.T) {
	first := []float64{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}
	second := []float64{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
	d := pairedSet{Original: first, Lighter: second}.differences()
	p := PairedT(d)
	if !near(p.T, 4.0621, 1e-5) || !near(p.P, 0.002833, 1e-4) || p.DF != 9 {
		t.Errorf("t %g, p %g, df %g", p.T, p.P, p.DF)
	}
	for _, rule := range []ZeroRule{DropZeros, PrattZeros} {
		if r := SignedRank(d, rule); r.P != 2./512 || r.Zeros != 1 || !near(r.HodgesLehmann, 1.3, 1e-12) {
			t.Errorf("rule %d: p %g, %d zeros, shift %g", rule, r.P, r.Zeros, r.HodgesLehmann)
		}
	}
	if w := Welch(second, first); !near(w.T, 1.8608, 1e-4) || !near(w.DF, 17.776, 1e-4) || !near(w.P, 0.07939, 1e-3) {
		t.Errorf("Welch t %g, df %g, p %g: R's help prints 1.8608, 17.776, .07939", w.T, w.DF, w.P)
	}
}

// TestFriedmanSmall: three rows in the same order of three: Q = 6, W = 1 and one
// order in 6² agrees with the first row's; the 7 x 6 turmeric example of a
// textbook sheet prints 34.51.
func TestFriedmanSmall(t *testing.T) {
	r := Friedman([][]float64{{1, 2, 3}, {4, 5, 6}, {2, 7, 9}})
	if !near(r.Chi2, 6, 1e-14) || !near(r.W, 1, 1e-14) || r.Exact == nil || !near(*r.Exact, 1./36, 1e-14) {
		t.Errorf("Q %g, W %g, exact %v", r.Chi2, r.W, r.Exact)
	}
	if !math.IsNaN(r.F) || !math.IsNaN(r.PF) {
		t.Errorf("F %g, p %g: perfect agreement has no F", r.F, r.PF)
	}
	var rows [][]float64
	for range 6 {
		rows = append(rows, []float64{1, 2, 3, 4, 5, 6})
	}
	r = Friedman(append(rows, []float64{1, 2, 3, 4, 6, 5}))
	if math.Abs(r.Chi2-34.51) > 0.005 {
		t.Errorf("Q %g, printed 34.51", r.Chi2)
	}
}

// TestSkillingsMack: on complete rows it is Friedman's Q, on balanced incomplete
// ones Durbin's; with one rank missing it is neither and not balanced.
func TestSkillingsMack(t *testing.T) {
	nan := math.NaN()
	for name, rows := range map[string][][]float64{
		"complete": {{1, 2, 3}, {2, 1, 3}, {1, 3, 2}, {1, 2, 3}},
		"balanced": {{1, 2, nan}, {1, nan, 2}, {nan, 1, 2}, {2, 1, nan}, {1, nan, 2}, {nan, 1, 2}},
	} {
		want := Friedman(rows)
		got := emptyFriedman()
		got.K = 3
		var ranks [][]float64
		for _, row := range rows {
			r, _ := Ranks(row)
			ranks = append(ranks, r)
		}
		got.skillingsMack(ranks)
		if !near(got.Chi2, want.Chi2, 1e-12) || got.DF != 2 || !near(got.P, want.P, 1e-12) {
			t.Errorf("%s: %g on %g, want %g", name, got.Chi2, got.DF, want.Chi2)
		}
	}
	r := Friedman([][]float64{{1, 2, 3}, {2, 1, nan}, {1, 3, 2}, {nan, nan, 1}})
	if !r.Incomplete || r.Lambda != 0 || r.N != 3 || math.IsNaN(r.P) || !math.IsNaN(r.LSD) || r.Pairs() != nil || r.Exact != nil {
		t.Errorf("unbalanced: %+v", r)
	}
}

// TestDurbinTies: with ties the statistic grows by what the variance loses.
func TestDurbinTies(t *testing.T) {
	nan := math.NaN()
	r := Friedman([][]float64{{1, 2, nan}, {1, nan, 2}, {nan, 1, 1}})
	// Rank sums 2, 3.5, 3.5 about 3; 12*2/(2*3*1*3) * 1.5 = 2, tie divisor 2/3.
	if !near(r.Uncorrected, 2, 1e-14) || !near(r.Tie, 2./3, 1e-14) || !near(r.Chi2, 3, 1e-14) || r.Lambda != 1 {
		t.Errorf("%+v", r)
	}
}

// TestLeastSquaresHandWorked: the line through three points by hand, and swaps
// always made together, whose sum alone can be told.
func TestLeastSquaresHandWorked(t *testing.T) {
	f := fitOf(t, [][]float64{{1, 0}, {1, 1}, {1, 2}}, []float64{1, 3, 4})
	// slope 3/2, level 7/6; residuals -1/6, 1/3, -1/6; variance of the slope RSS/2.
	for _, v := range [][2]float64{
		{f.Coef[0], 7. / 6},
		{f.Coef[1], 1.5},
		{f.RSS, 1. / 6},
		{f.SE[1], math.Sqrt(1. / 12)},
		{f.Cov[0][1], -1. / 12},
		{f.Fitted[1], 8. / 3},
		{f.TSS, 14. / 3},
	} {
		if !near(v[0], v[1], 1e-14) {
			t.Errorf("got %.16g, want %.16g", v[0], v[1])
		}
	}
	x := [][]float64{{1, 0, 0}, {1, 1, 1}, {1, 0, 0}, {1, 1, 1}}
	f = fitOf(t, x, []float64{7, 5, 6, 5})
	d, se, ok := f.Contrast([]float64{0, 1, 1})
	if f.Rank != 2 || !ok || !near(d, -1.5, 1e-14) || !near(se, 0.5, 1e-14) {
		t.Errorf("both together: %g ± %g, %v, rank %d", d, se, ok, f.Rank)
	}
	if _, _, ok := f.Contrast([]float64{0, 1, 0}); ok || !math.IsNaN(f.Coef[1]) || !math.IsNaN(f.SE[2]) || math.IsNaN(f.Coef[0]) {
		t.Errorf("one alone: %v, coefficients %v", ok, f.Coef)
	}
}

// TestLeastSquaresRounding: a column made up of others but for float64 rounding
// counts as made up.
func TestLeastSquaresRounding(t *testing.T) {
	var x [][]float64
	var y []float64
	for i := range 12 {
		a, b := float64(i)/7, math.Sin(float64(i))
		x, y = append(x, []float64{1, a, b, 0.1*a + 0.3*b - 0.7}), append(y, float64(i%5))
	}
	f := fitOf(t, x, y)
	if f.Rank != 3 || len(f.Null) != 1 {
		t.Errorf("rank %d, null space %v", f.Rank, f.Null)
	}
}

func TestLeastSquaresErrors(t *testing.T) {
	for name, tt := range map[string]struct {
		x [][]float64
		y []float64
	}{
		"no rows":      {nil, nil},
		"no columns":   {[][]float64{{}}, []float64{1}},
		"ragged":       {[][]float64{{1, 2}, {1}}, []float64{1, 2}},
		"lengths":      {[][]float64{{1}, {1}}, []float64{1}},
		"missing":      {[][]float64{{1}, {1}}, []float64{1, math.NaN()}},
		"infinite":     {[][]float64{{1}, {math.Inf(1)}}, []float64{1, 2}},
		"far too much": {[][]float64{{1}, {1e200}}, []float64{1, 2}},
	} {
		if f, err := LeastSquares(tt.x, tt.y); err == nil || f != nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func BenchmarkLeastSquaresPanel(b *testing.B) {
	var x [][]float64
	var y []float64
	for p := range 120 {
		for v := range 8 {
			row := make([]float64, 128)
			row[p], row[120+v] = 1, 1
			x, y = append(x, row), append(y, float64((p*7+v*3)%9))
		}
	}
	for b.Loop() {
		if f, err := LeastSquares(x, y); err != nil || f.Rank != 127 {
			b.Fatal(err)
		}
	}
}

func BenchmarkFriedmanExactEdge(b *testing.B) {
	var rows [][]float64
	for i := range 40 {
		rows = append(rows, []float64{float64(i % 3), 1, float64(i % 5), 3, float64(i % 4)})
	}
	for b.Loop() {
		Friedman(rows)
	}
}

func BenchmarkDunnettPointNearFactor(b *testing.B) {
	c := equalCorrelation(5, 0.5)
	c[0][1], c[1][0] = 0.52, 0.52
	for b.Loop() {
		DunnettPoint(0.05, c, 30)
	}
}

func BenchmarkDunnettPoint(b *testing.B) {
	c := equalCorrelation(5, 0.5)
	for b.Loop() {
		DunnettPoint(0.05, c, 30)
	}
}
