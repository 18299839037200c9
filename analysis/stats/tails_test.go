package stats

import (
	"fmt"
	"math"
	"testing"
)

// TestTails holds the tails against mpmath 1.3.0 at 30 digits (regularised
// incomplete beta and gamma functions, erfc), far tails and odd df included.
func TestTails(t *testing.T) {
	tests := []struct {
		name      string
		got, want float64
	}{
		{"t .3, 1", TAbove(0.3, 1), 0.4072264209222577},
		{"t 2.5, 3", TAbove(2.5, 3), 0.04385332350403277},
		{"t 12, 5", TAbove(12, 5), 3.544746258580761e-5},
		{"t 40, 10", TAbove(40, 10), 1.140428871542877e-12},
		{"t 1e6, 1", TAbove(1e6, 1), 3.183098861836846e-7},
		{"t 1e5, 7", TAbove(1e5, 7), 1.320520673478876e-33},
		{"t .001, 4", TAbove(1e-3, 4), 0.499625000078125},
		{"t 3.2, 45.7", TAbove(3.2, 45.7), 0.00124981816887111},
		{"t 8, 1000.5", TAbove(8, 1000.5), 1.712498355586963e-15},
		{"t 6, 1e6", TAbove(6, 1e6), 9.869249061772173e-10},
		{"t 2, .3", TAbove(2, 0.3), 0.2821348494803914},
		{"t 30, 200", TAbove(30, 200), 2.862080604413926e-76},
		{"t -2.5, 3", TAbove(-2.5, 3), 1 - 0.04385332350403277},
		{"t 1e160, 1", TAbove(1e160, 1), 1 / (math.Pi * 1e160)}, // Cauchy
		{"F 3, 33", FAbove(3.206598, 3, 33), 0.03566418337157593},
		{"F 2, 7", FAbove(0.01, 2, 7), 0.9900639505363296},
		{"F 4, 20", FAbove(250, 4, 20), 9.075690179387443e-17},
		{"F 1, 5", FAbove(1e8, 1, 5), 1.898033245751761e-19},
		{"F 500, 300", FAbove(1.2, 500, 300), 0.04082709982730237},
		{"F 5, 1e5", FAbove(60, 5, 1e5), 1.24810213696579e-62},
		{"F 1, .7", FAbove(2, 1, 0.7), 0.4558207002785836},
		{"F 1, 1", FAbove(9, 1, 1), 0.2048327646991335},
		{"F 1, Inf is chi-square", FAbove(3.84, 1, math.Inf(1)), 0.0500435212487051},
		{"chi 3.84, 1", Chi2Above(3.84, 1), 0.0500435212487051},
		{"chi 1e-4, 1", Chi2Above(1e-4, 1), 0.9920212873707368},
		{"chi 200, 4", Chi2Above(200, 4), 3.757276735781044e-42},
		{"chi 1200, 3", Chi2Above(1200, 3), 7.331671591550678e-260},
		{"chi 10, 10", Chi2Above(10, 10), 0.4404932850652124},
		{"chi 1100, 1000", Chi2Above(1100, 1000), 0.01461440812629519},
		{"chi .5, .3", Chi2Above(0.5, 0.3), 0.156049167096862},
		{"chi 101000, 1e5", Chi2Above(101000, 1e5), 0.01286884037723367},
		{"normal -3", NormalAbove(-3), 0.9986501019683699},
		{"normal 5", NormalAbove(5), 2.866515718791939e-7},
		{"normal 20", NormalAbove(20), 2.753624118606234e-89},
		{"normal 37", NormalAbove(37), 5.725571222524577e-300},
		{"normal point .3", NormalPoint(0.3), 0.5244005127080408},
		{"normal point .025", NormalPoint(0.025), 1.959963984540054},
		{"normal point 1e-10", NormalPoint(1e-10), 6.361340902404056},
		{"normal point 1e-300", NormalPoint(1e-300), 37.0470962993612},
		{"normal point .975", NormalPoint(0.975), -1.959963984540054},
	}
	worst := 0.0
	for _, tt := range tests {
		worst = math.Max(worst, math.Abs(tt.got/tt.want-1))
		if !near(tt.got, tt.want, 1e-11) {
			t.Errorf("%s: got %.16g, want %.16g", tt.name, tt.got, tt.want)
		}
	}
	t.Logf("largest relative error %.1e", worst)
}

// TestTPointTurnsBack goes there and back, down to 1e-200.
func TestTPointTurnsBack(t *testing.T) {
	for _, df := range []float64{0.5, 1, 2, 3.3, 10, 29, 120, 1e4, 1e7, math.Inf(1)} {
		for _, p := range []float64{0.49, 0.25, 0.05, 0.025, 1e-4, 1e-9, 1e-30, 1e-200} {
			if v := TPoint(p, df); !near(TAbove(v, df), p, 1e-10) && v < 1e300 {
				t.Errorf("df %g: t(%g) = %g, whose tail is %g", df, p, v, TAbove(v, df))
			}
			if got, want := TPoint(1-p, df), -TPoint(1-(1-p), df); got != want {
				t.Errorf("df %g: t(1-%g) = %g, want %g", df, p, got, want)
			}
		}
	}
}

// TestStudentizedTails holds Tukey's and one-factor Dunnett's tails against sums
// made with mpmath 1.3.0 (inner integral by tanh-sinh, outer by a finer
// trapezoidal sum, 20 digits).
func TestStudentizedTails(t *testing.T) {
	oneFactor := func(load ...float64) [][]float64 {
		c := equalCorrelation(len(load), 1)
		for i, a := range load {
			for j, b := range load {
				if i != j {
					c[i][j] = a * b
				}
			}
		}
		return c
	}
	dunnett := func(x float64, c [][]float64, df float64) float64 { p, _ := DunnettAbove(x, c, df); return p }
	tests := []struct {
		name      string
		got, want float64
	}{
		{"Tukey 3.5, 3, 10", TukeyAbove(3.5, 3, 10), 0.077103310838412},
		{"Tukey 20, 4, 5", TukeyAbove(20, 4, 5), 0.0001241255231021},
		{"Tukey 8, 6, 30", TukeyAbove(8, 6, 30), 5.0102728968192e-5},
		{"Tukey .5, 3, 7", TukeyAbove(0.5, 3, 7), 0.9340512781113},
		{"Tukey 40, 3, 2", TukeyAbove(40, 3, 2), 0.0022785026535341},
		{"Tukey 3.3145, 3, Inf", TukeyAbove(3.3145, 3, math.Inf(1)), 0.049999387596061},
		{"Tukey 12, 5, Inf", TukeyAbove(12, 5, math.Inf(1)), 2.1519690364999e-16},
		{"Tukey 4.2, 30, Inf", TukeyAbove(4.2, 30, math.Inf(1)), 0.40742633631828},
		{"Dunnett 2.4, 3 x .5, 20", dunnett(2.4, equalCorrelation(3, 0.5), 20), 0.066480643668792},
		{"Dunnett 6, unequal, 12", dunnett(6, oneFactor(0.3, 0.95, 0.6), 12), 0.00017608996804046},
		{"Dunnett 3, nearly fixed, 8", dunnett(3, oneFactor(0.99, 0.999, 0.2, -0.7), 8), 0.044308870404835},
		{"Tukey of two is t", TukeyAbove(3*math.Sqrt2, 2, 9), 2 * TAbove(3, 9)},
		{"Tukey of two far out", TukeyAbove(20*math.Sqrt2, 2, 60), 2 * TAbove(20, 60)},
		{"Tukey of two, df 1", TukeyAbove(1e6*math.Sqrt2, 2, 1), 2 * TAbove(1e6, 1)},
		{"Tukey of two, df 1e6", TukeyAbove(2*math.Sqrt2, 2, 1e6), 2 * TAbove(2, 1e6)},
		{"Dunnett of one is t", dunnett(2.7, equalCorrelation(1, 1), 14), 2 * TAbove(2.7, 14)},
		{"Dunnett of twins is t", dunnett(2.7, equalCorrelation(5, 1), 14), 2 * TAbove(2.7, 14)},
		{"Dunnett of opposites is t", dunnett(2.7, [][]float64{{1, -1}, {-1, 1}}, 14), 2 * TAbove(2.7, 14)},
		{"Dunnett independent, Inf", dunnett(2, equalCorrelation(4, 0), math.Inf(1)), 1 - math.Pow(1-2*NormalAbove(2), 4)},
	}
	worst := 0.0
	for _, tt := range tests {
		worst = math.Max(worst, math.Abs(tt.got/tt.want-1))
		if !near(tt.got, tt.want, quadratureError) {
			t.Errorf("%s: got %.14g, want %.14g", tt.name, tt.got, tt.want)
		}
	}
	t.Logf("largest relative error %.1e", worst)
}

// TestDunnettWithoutFactor holds the lattice against the exact quadrature, with
// which it must agree within the error it states, and against two cases known
// otherwise: all pairs of three means are correlated .5, .5, -.5 and singular,
// and their largest |T| sqrt 2 is the studentized range; 4 means likewise.
func TestDunnettWithoutFactor(t *testing.T) {
	for _, k := range []int{3, 4, 5} {
		for _, df := range []float64{4, 20, math.Inf(1)} {
			for _, x := range []float64{0.8, 2.2, 3.5} {
				want := TukeyAbove(x*math.Sqrt2, k, df)
				got, leave := DunnettAbove(x, pairCorrelations(k), df)
				if math.Abs(got-want) > leave || leave > 1e-3 {
					t.Errorf("k %d df %g t %g: got %.8g ± %.1e, want %.8g", k, df, x, got, leave, want)
				}
			}
		}
		point, leave := DunnettPoint(0.05, pairCorrelations(k), 20)
		if want := TukeyPoint(0.05, k, 20) / math.Sqrt2; math.Abs(point-want) > leave || leave > 4e-3 {
			t.Errorf("k %d: point %.8g ± %.1e, want %.8g", k, point, leave, want)
		}
	}
	for _, c := range [][][]float64{equalCorrelation(4, 0.5), equalCorrelation(6, 0.8)} {
		want, _ := DunnettAbove(2.3, c, 15)
		got, leave := plainLattice(c, 15).above(2.3)
		if math.Abs(got-want) > leave || leave > 1e-3 {
			t.Errorf("%d comparisons: got %.8g ± %.1e, want %.8g", len(c), got, leave, want)
		}
		t.Logf("%d comparisons: off by %.1e, %.1e stated", len(c), math.Abs(got-want), leave)
	}
}

// pairCorrelations are those of all differences of k means of equal precision.
func pairCorrelations(k int) [][]float64 {
	var rows [][]float64
	for i := range k {
		for j := range i {
			row := make([]float64, k)
			row[i], row[j] = math.Sqrt(0.5), -math.Sqrt(0.5)
			rows = append(rows, row)
		}
	}
	c := make([][]float64, len(rows))
	for i, a := range rows {
		for _, b := range rows {
			c[i] = append(c[i], inner(a, b))
		}
	}
	return c
}

// TestPublishedPoints keeps a few values of printed tables, so that a clone
// without the reference folder checks something: t and Tukey as in any
// statistics textbook, Dunnett two-sided as printed by Dunnett 1964, Biometrics
// 20:482 (from memory, two decimals).
func TestPublishedPoints(t *testing.T) {
	dunnett := func(m int, df float64) float64 { p, _ := DunnettPoint(0.05, equalCorrelation(m, 0.5), df); return p }
	tests := []struct {
		name, got, want string
	}{
		{"t .025, 11", fmt.Sprintf("%.3f", TPoint(0.025, 11)), "2.201"},
		{"t .05, 20", fmt.Sprintf("%.3f", TPoint(0.05, 20)), "1.725"},
		{"q 3, 20", fmt.Sprintf("%.2f", TukeyPoint(0.05, 3, 20)), "3.58"},
		{"q 5, Inf", fmt.Sprintf("%.2f", TukeyPoint(0.05, 5, math.Inf(1))), "3.86"},
		{"q .01, 4, 10", fmt.Sprintf("%.2f", TukeyPoint(0.01, 4, 10)), "5.77"},
		{"Dunnett 2, 20", fmt.Sprintf("%.2f", dunnett(2, 20)), "2.38"},
		{"Dunnett 4, 60", fmt.Sprintf("%.2f", dunnett(4, 60)), "2.51"},
	}
	for _, tt := range tests {
		if tt.got != tt.want {
			t.Errorf("%s: got %s, want %s", tt.name, tt.got, tt.want)
		}
	}
}

// plainLattice is the lattice without its control, which would know the answer.
func plainLattice(c [][]float64, df float64) *lattice {
	l := newLattice(c, df)
	l.control = nil
	return l
}

// TestDunnettNearFactor: with missing cells the correlations are nearly, not
// quite, one-factor. The lattice with its control must agree with the plain one
// and state an error far smaller.
func TestDunnettNearFactor(t *testing.T) {
	c := equalCorrelation(4, 0.5)
	for i, off := range []float64{0.02, -0.015, 0.01} {
		c[i][i+1], c[i+1][i] = 0.5+off, 0.5+off
	}
	got, leave := DunnettAbove(2.5, c, 22)
	plain, wide := plainLattice(c, 22).above(2.5)
	if math.Abs(got-plain) > leave+wide || leave > wide/5 || leave > 1e-5 {
		t.Errorf("got %.8g ± %.1e, plain %.8g ± %.1e", got, leave, plain, wide)
	}
	t.Logf("%.8g ± %.1e, plain %.8g ± %.1e", got, leave, plain, wide)
}
