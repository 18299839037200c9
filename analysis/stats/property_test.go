package stats

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"parewell/recipes/problem"
)

// odd draws ordinary, extreme and senseless numbers.
func odd(r *rand.Rand) float64 {
	special := []float64{
		0, -1, 1, 0.5, 2, 1e-320, 1e-9, 1e9, 1e150, 1e300, -1e300, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64,
	}
	if r.IntN(3) > 0 {
		return special[r.IntN(len(special))]
	}
	return r.NormFloat64() * math.Pow(10, float64(r.IntN(6)-2))
}

func odds(r *rand.Rand, most int) []float64 {
	x := make([]float64, r.IntN(most+1))
	for i := range x {
		x[i] = odd(r)
	}
	return x
}

func oddTable(r *rand.Rand) [][]float64 {
	x := make([][]float64, r.IntN(6))
	for i := range x {
		x[i] = odds(r, 4)
		if i > 0 && r.IntN(4) > 0 { // mostly not ragged
			x[i] = make([]float64, len(x[0]))
			for j := range x[i] {
				x[i][j] = float64(r.IntN(9))
			}
		}
	}
	return x
}

// TestNothingPanics throws whatever numbers at everything: a chance is NaN or in
// [0, 1], an error is a *problem.Error, and nothing panics or hangs.
func TestNothingPanics(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 15))
	chance := func(name string, p float64, in ...any) {
		t.Helper()
		if !math.IsNaN(p) && !(p >= 0 && p <= 1) {
			t.Errorf("%s%v: chance %g", name, in, p)
		}
	}
	for range 3000 {
		a, b, c, k := odd(r), odd(r), odd(r), r.IntN(9)-2
		chance("normal", NormalAbove(a), a)
		chance("t", TAbove(a, b), a, b)
		chance("F", FAbove(a, b, c), a, b, c)
		chance("chi-square", Chi2Above(a, b), a, b)
		chance("Tukey", TukeyAbove(a, k, b), a, k, b)
		x, y := odds(r, 12), odds(r, 5)
		chance("paired", PairedT(x).P, x)
		chance("Welch", Welch(x, y).P, x, y)
		chance("TOST", TOST(a, b, c, odd(r)).P, a, b, c)
		chance("one-way", OneWay(oddTable(r)).P)
		for _, rule := range []ZeroRule{DropZeros, PrattZeros, 7} {
			s := SignedRank(x, rule)
			chance("signed rank", s.P, x)
			chance("signed rank normal", s.PCorrected, x)
			chance("sign", s.PSign, x)
		}
		for i, p := range Holm(x) {
			if math.IsNaN(p) != math.IsNaN(x[i]) {
				t.Errorf("Holm of %v: %v", x, Holm(x))
			}
		}
		f := Friedman(oddTable(r))
		chance("Friedman", f.P, f)
		chance("Friedman F", f.PF, f)
		f.Pairs()
		chance("Page", Page(oddTable(r), x).P)
		_, _, _ = Mean(x), SD(x), LagOne(x)
		fit, err := LeastSquares(oddTable(r), y)
		var p *problem.Error
		if err != nil && !errors.As(err, &p) {
			t.Errorf("not an error for people: %v", err)
		}
		if fit != nil {
			fit.Contrast(x)
		}
	}
}

// TestPointsOfAnything: points and Dunnett with whatever they are given.
func TestPointsOfAnything(t *testing.T) {
	r := rand.New(rand.NewPCG(16, 23))
	for range 150 {
		a, b, k := odd(r), odd(r), r.IntN(6)
		for name, v := range map[string]float64{
			"normal": NormalPoint(a), "t": TPoint(a, b), "Tukey": TukeyPoint(a, k, b),
		} {
			if inside := a >= 0 && a <= 1; !inside && !math.IsNaN(v) {
				t.Errorf("%s point of %g, %g: %g", name, a, b, v)
			}
		}
		p, leave := DunnettAbove(a, oddTable(r), b)
		if !math.IsNaN(p) && !(p >= 0 && p <= 1 && leave >= 0) {
			t.Errorf("Dunnett %g, %g: %g ± %g", a, b, p, leave)
		}
		DunnettPoint(a, oddTable(r), b)
	}
}

// TestNoCorrelation lists matrices that are none.
func TestNoCorrelation(t *testing.T) {
	for name, c := range map[string][][]float64{
		"empty":             nil,
		"ragged":            {{1, 0}, {0}},
		"diagonal":          {{1, 0}, {0, 2}},
		"not symmetric":     {{1, 0.2}, {0.3, 1}},
		"beyond one":        {{1, 1.2}, {1.2, 1}},
		"NaN":               {{1, math.NaN()}, {math.NaN(), 1}},
		"not positive":      {{1, 0.9, -0.9}, {0.9, 1, 0.9}, {-0.9, 0.9, 1}},
		"twins that differ": {{1, 1, 0.5}, {1, 1, -0.5}, {0.5, -0.5, 1}},
	} {
		p, leave := DunnettAbove(2, c, 10)
		point, _ := DunnettPoint(0.05, c, 10)
		if !math.IsNaN(p) || !math.IsNaN(leave) || !math.IsNaN(point) {
			t.Errorf("%s: got %g ± %g, point %g", name, p, leave, point)
		}
	}
}

// TestTailsFall: each tail falls as its statistic grows, and its point turns it
// back, over random settings.
func TestTailsFall(t *testing.T) {
	r := rand.New(rand.NewPCG(42, 1))
	for range 40 {
		df, k := 2*math.Exp(5*r.Float64()), 2+r.IntN(8)
		x := 6 * r.Float64()
		if TukeyAbove(x, k, df) < TukeyAbove(x+0.01, k, df) || FAbove(x, 2, df) < FAbove(x+0.01, 2, df) {
			t.Errorf("k %d, df %g: a tail rises at %g", k, df, x)
		}
		alpha := math.Pow(10, -6*r.Float64())
		if q := TukeyPoint(alpha, k, df); !near(TukeyAbove(q, k, df), alpha, 1e-9) {
			t.Errorf("k %d, df %g: q(%g) = %g, whose tail is %g", k, df, alpha, q, TukeyAbove(q, k, df))
		}
		c := equalCorrelation(k, r.Float64())
		d, _ := DunnettPoint(alpha, c, df)
		if p, _ := DunnettAbove(d, c, df); !near(p, alpha, 1e-9) {
			t.Errorf("m %d, df %g: Dunnett's point of %g has tail %g", k, df, alpha, p)
		}
	}
}

// TestInputStays: nothing changes what it was given.
func TestInputStays(t *testing.T) {
	p := []float64{0.03, 0.01, math.NaN(), 0.02}
	rows := [][]float64{{3, 1, 2}, {2, 2, 1}, {1, 3, 3}}
	y := []float64{5, 3, 1}
	Holm(p)
	Ranks(p)
	Friedman(rows)
	SignedRank(y, PrattZeros)
	if _, err := LeastSquares(rows, y); err != nil {
		t.Fatal(err)
	}
	DunnettAbove(2, equalCorrelation(3, 1), 5)
	if p[0] != 0.03 || p[1] != 0.01 || p[3] != 0.02 || rows[0][0] != 3 || rows[2][2] != 3 || y[0] != 5 || y[2] != 1 {
		t.Error("an argument changed")
	}
}
