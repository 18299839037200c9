package mixed

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/mat"

	"parewell/recipes/problem"
)

func labels(prefix string, of ...int) (out []string) {
	for _, k := range of {
		out = append(out, fmt.Sprint(prefix, k))
	}
	return out
}

// tasting simulates evenings of the same people with fresh pots.
type tasting struct {
	y                            []float64
	x                            [][]float64
	taster, evening, pot, sample Factor
}

func simulate(r *rand.Rand, people, evenings, versions int, sd [4]float64) tasting {
	d := tasting{
		taster: Factor{Name: "taster"}, evening: Factor{Name: "evening"}, pot: Factor{Name: "pot"}, sample: Factor{Name: "taster by version"},
	}
	draw := func(sd float64) func(string) float64 {
		seen := map[string]float64{}
		return func(l string) float64 {
			if _, ok := seen[l]; !ok {
				seen[l] = sd * r.NormFloat64()
			}
			return seen[l]
		}
	}
	a, b, c := draw(sd[0]), draw(sd[1]), draw(sd[2])
	for p := range people {
		for e := range evenings {
			for v := range versions {
				if r.Float64() < 0.1 {
					continue
				}
				person, night, pot := fmt.Sprint("P", p), fmt.Sprint("E", e), fmt.Sprint("E", e, "V", v)
				d.taster.Level = append(d.taster.Level, person)
				d.evening.Level = append(d.evening.Level, person+night)
				d.pot.Level = append(d.pot.Level, pot)
				d.sample.Level = append(d.sample.Level, person+fmt.Sprint("V", v))
				row := make([]float64, versions)
				row[0] = 1
				if v > 0 {
					row[v] = 1
				}
				d.x = append(d.x, row)
				d.y = append(d.y, 6-0.3*float64(v)+a(person)+b(person+night)+c(pot)+sd[3]*r.NormFloat64())
			}
		}
	}
	return d
}

// plainLogLik is the restricted log likelihood straight from its definition, by
// dense matrices: the check that the shortcuts are only shortcuts.
func plainLogLik(y []float64, x [][]float64, f []Factor, variance []float64, residual float64) float64 {
	n, p := len(y), len(x[0])
	v := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			s := 0.0
			if i == j {
				s = residual
			}
			for k, fac := range f {
				if fac.Level[i] == fac.Level[j] {
					s += variance[k]
				}
			}
			v.SetSym(i, j, s)
		}
	}
	xs := mat.NewDense(n, p, slices.Concat(x...))
	var chol mat.Cholesky
	chol.Factorize(v)
	var vx, xvx, vy mat.Dense
	_ = chol.SolveTo(&vx, xs)
	xvx.Mul(xs.T(), &vx)
	ym := mat.NewDense(n, 1, slices.Clone(y))
	_ = chol.SolveTo(&vy, ym)
	var rhs, b, fit mat.Dense
	rhs.Mul(xs.T(), &vy)
	_ = b.Solve(&xvx, &rhs)
	fit.Mul(xs, &b)
	fit.Sub(ym, &fit)
	var vr mat.Dense
	_ = chol.SolveTo(&vr, &fit)
	q := 0.0
	for i := range n {
		q += fit.At(i, 0) * vr.At(i, 0)
	}
	return -0.5 * (float64(n-p)*math.Log(2*math.Pi) + chol.LogDet() + math.Log(mat.Det(&xvx)) + q)
}

// TestThreeFactorsAgainstTheDefinition checks likelihood, its top and the
// observed information against the dense definition.
func TestThreeFactorsAgainstTheDefinition(t *testing.T) {
	for seed := range uint64(12) {
		d := simulate(rand.New(rand.NewPCG(seed, 7)), 9, 3, 3, [4]float64{1, 0.7, 0.5, 1.1})
		f := []Factor{d.pot, d.taster, d.evening}
		m := mustFit(t, d.y, d.x, f...)
		at := make([]float64, 3)
		for i, c := range m.Components {
			at[i] = c.Variance
		}
		top := plainLogLik(d.y, d.x, f, at, m.Residual)
		if math.Abs(top-m.LogLik) > 1e-8 {
			t.Errorf("seed %d: log likelihood %v, by definition %v", seed, m.LogLik, top)
		}
		for i := range 4 {
			for _, h := range []float64{-1e-3, 1e-3} {
				v, res := slices.Clone(at), m.Residual
				if i < 3 {
					v[i] += h
				} else {
					res += h
				}
				if i < 3 && v[i] < 0 {
					continue
				}
				if l := plainLogLik(d.y, d.x, f, v, res); l > top+1e-12 {
					t.Errorf("seed %d: variance %d moved by %v is likelier by %v", seed, i, h, l-top)
				}
			}
		}
		holdInformation(t, m, d, f, at)
	}
}

// holdInformation compares the observed information with second differences.
func holdInformation(t *testing.T, m *Model, d tasting, f []Factor, at []float64) {
	t.Helper()
	const h = 1e-3
	full := append([]float64{m.Residual}, make([]float64, 3)...)
	for k, i := range m.d.order {
		full[k+1] = at[i]
	}
	likelihood := func(v []float64) float64 {
		back := make([]float64, 3)
		for k, i := range m.d.order {
			back[i] = v[k+1]
		}
		return plainLogLik(d.y, d.x, f, back, v[0])
	}
	for _, i := range m.movable {
		for _, j := range m.movable {
			if full[i] < 2*h || full[j] < 2*h {
				continue
			}
			second := 0.0
			for _, s := range [][3]float64{{1, 1, 1}, {1, -1, -1}, {-1, 1, -1}, {-1, -1, 1}} {
				v := slices.Clone(full)
				v[i] += s[0] * h
				v[j] += s[1] * h
				second += s[2] * likelihood(v)
			}
			got, want := m.slope.observed[i][j], -second/(4*h*h)
			if math.Abs(got-want) > 2e-3*(1+math.Abs(want)) {
				t.Errorf("information %d %d: %v, by differences %v", i, j, got, want)
			}
		}
	}
}

// TestBalancedIsTheAnalysisOfVariance: in complete blocks F and its degrees of
// freedom are those of blocks and the variance of tasters is (MS - MSE)/k
// (textbook; Searle, Casella & McCulloch 1992 ch. 4, from memory).
func TestBalancedIsTheAnalysisOfVariance(t *testing.T) {
	// 4 tasters by 3 versions; by hand: tasters SS 18.6667 on 3, versions 5.1667 on
	// 2, rest 0.8333 on 6.
	y := []float64{7, 6, 5, 8, 8, 7, 5, 4, 4, 6, 6, 4}
	who := labels("P", 1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4)
	what := labels("V", 1, 2, 3, 1, 2, 3, 1, 2, 3, 1, 2, 3)
	m := mustFit(t, y, design(12, treatment(what)...), Factor{"taster", who})
	f := m.FTest(units(3)[1:])
	// Grand 70/12; taster means 6, 7.6667, 4.3333, 5.3333; version means 6.5, 6, 5.
	mse := m.Residual
	taster := (3*(36+529./9+169./9+256./9) - 4900./12) / 3
	version := (4*(6.5*6.5+36+25) - 4900./12) / 2
	total := 432.0 - 4900./12
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"residual", mse, (total - 3*taster - 2*version) / 6},
		{"taster", m.Components[0].Variance, (taster - mse) / 3},
		{"F", f.F, version / mse},
		{"df", f.Den, 6},
	} {
		if math.Abs(c.got-c.want) > 1e-8*math.Abs(c.want) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}

// TestVarianceAtZero: tasters who differ less than chance would have it get a
// variance of 0, and the model is plain least squares with n - p degrees.
func TestVarianceAtZero(t *testing.T) {
	y := []float64{5, 7, 7, 5, 6, 6, 5, 7}
	who := labels("P", 1, 1, 2, 2, 3, 3, 4, 4)
	x := design(8, []float64{0, 1, 0, 1, 0, 1, 0, 1})
	m := mustFit(t, y, x, Factor{"taster", who})
	if got := m.AtZero(); !slices.Equal(got, []string{"taster"}) {
		t.Errorf("at zero: %v", got)
	}
	est, se, df, _, _ := m.Contrast([]float64{0, 1})
	// Means 5.75 and 6.25, sums of squares 2.75 each, on 6 degrees.
	s2 := (2.75 + 2.75) / 6
	if math.Abs(est-0.5) > 1e-12 || math.Abs(se-math.Sqrt(s2/2)) > 1e-9 || math.Abs(df-6) > 1e-9 {
		t.Errorf("got %v %v %v, want .5 %v 6", est, se, df, math.Sqrt(s2/2))
	}
	for who, v := range m.Predicted(0) {
		if v != 0 {
			t.Errorf("%s has a shift of %v without a variance", who, v)
		}
	}
	if lrt, p, err := m.WithoutFactor(0); err != nil || lrt != 0 || p != 1 {
		t.Errorf("leaving it out: %v %v %v", lrt, p, err)
	}
}

func TestColumnsServedTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	d := simulate(r, 10, 2, 3, [4]float64{1, 0, 0, 1})
	x := make([][]float64, len(d.x))
	for i, row := range d.x {
		x[i] = append(slices.Clone(row), row[1]+2*row[2])
	}
	m := mustFit(t, d.y, x, d.taster)
	if m.Rank != 3 || m.Estimable([]float64{0, 1, 0, 0}) || !math.IsNaN(m.Coef[1]) {
		t.Errorf("rank %d, coefficients %v", m.Rank, m.Coef)
	}
	whole := mustFit(t, d.y, d.x, d.taster)
	want, wantSE, _, _, _ := whole.Contrast([]float64{0, 1, 0})
	est, se, _, _, _ := m.Contrast([]float64{0, 1, 0, 1})
	if math.Abs(est-want) > 1e-9 || math.Abs(se-wantSE) > 1e-9 {
		t.Errorf("together %v (%v), want %v (%v)", est, se, want, wantSE)
	}
	if f := m.FTest([][]float64{{0, 1, 0, 0}}); !math.IsNaN(f.F) {
		t.Errorf("tested what cannot be told: %+v", f)
	}
	if f := m.FTest([][]float64{{0, 1, 0, 1}, {0, 2, 0, 2}}); f.Num != 1 {
		t.Errorf("the same row twice counts %d", f.Num)
	}
}

// TestUnitsAndOrderDoNotMatter: points times 1000 plus a level, rows shuffled,
// factors turned round.
func TestUnitsAndOrderDoNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	d := simulate(r, 12, 3, 4, [4]float64{1, 0.5, 0.6, 1})
	m := mustFit(t, d.y, d.x, d.taster, d.pot)
	e := tasting{}
	for _, i := range r.Perm(len(d.y)) {
		e.y = append(e.y, 1000*d.y[i]+5)
		e.x = append(e.x, d.x[i])
		e.taster.Level = append(e.taster.Level, d.taster.Level[i])
		e.pot.Level = append(e.pot.Level, d.pot.Level[i])
	}
	n := mustFit(t, e.y, e.x, e.pot, e.taster)
	for c := 1; c < 4; c++ {
		a, b, df, _, p := m.Contrast(unit(4, c))
		a2, b2, df2, _, p2 := n.Contrast(unit(4, c))
		for _, v := range [][2]float64{{1000 * a, a2}, {1000 * b, b2}, {df, df2}, {p, p2}} {
			if math.Abs(v[0]-v[1]) > 1e-6*math.Abs(v[0]) {
				t.Errorf("contrast %d: %v against %v", c, v[0], v[1])
			}
		}
	}
}

func TestFaults(t *testing.T) {
	nan := math.NaN()
	who, one := labels("P", 1, 1, 2, 2, 3, 3), labels("P", 1, 1, 1, 1, 1, 1)
	y := []float64{5, 6, 7, 7, 4, 6}
	x := design(6, []float64{0, 1, 0, 1, 0, 1})
	f := func(l []string) []Factor { return []Factor{{"taster", l}} }
	for _, row := range []struct {
		name, want string
		y          []float64
		x          [][]float64
		f          []Factor
	}{
		{"no scores", "no scores", nil, nil, nil},
		{"a score is missing", "row 3", []float64{5, 6, nan, 7, 4, 6}, x, f(who)},
		{"infinite", "row 1", []float64{math.Inf(1), 6, 7, 7, 4, 6}, x, f(who)},
		{"NaN in a column", "row 2", y, design(6, []float64{0, nan, 0, 1, 0, 1}), f(who)},
		{"too few rows of columns", "6 scores and 5", y, x[:5], f(who)},
		{"ragged", "row 2", y, [][]float64{{1}, {1, 2}, {1}, {1}, {1}, {1}}, f(who)},
		{"no columns", "nothing is said", y, make([][]float64, 6), f(who)},
		{"all equal", "all scores are the same", []float64{6, 6, 6, 6, 6, 6}, x, f(who)},
		{"one taster", "taster: there is only one", y, x, f(one)},
		{"labels too few", "5 labels for 6", y, x, f(who[:5])},
		{"a blank label", "row 6 has no label", y, x, f(append(slices.Clone(who[:5]), ""))},
		{"each score its own", "each score has one of its own", y, x, f(labels("P", 1, 2, 3, 4, 5, 6))},
		{"no scatter but a difference", "no scatter", []float64{6, 5, 7, 6, 4, 3}, x, f(who)},
		{"a column for each score", "too few", y, units(6), nil},
		{"pot is version", "pot: cannot be told", y, x, []Factor{{"taster", who}, {"pot", labels("V", 0, 1, 0, 1, 0, 1)}}},
		{"the same people twice", "taster and guest", y, x, []Factor{{"taster", who}, {"guest", labels("G", 7, 7, 8, 8, 9, 9)}}},
	} {
		t.Run(row.name, func(t *testing.T) {
			m, err := Fit(row.y, row.x, row.f)
			var p *problem.Error
			if !errors.As(err, &p) || m != nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want %q", err, row.want)
			}
		})
	}
}

// TestNothingPanics throws small odd data at Fit: every answer is a fault in
// words or a model whose figures are sound.
func TestNothingPanics(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 4))
	fits := 0
	for range 3000 {
		n := 1 + r.IntN(14)
		y, x := make([]float64, n), make([][]float64, n)
		factors := make([]Factor, r.IntN(4))
		for i := range factors {
			factors[i].Name = fmt.Sprint("f", i)
		}
		for i := range n {
			y[i] = float64(1 + r.IntN(9))
			x[i] = []float64{1, float64(r.IntN(2)), float64(r.IntN(3))}
			for k := range factors {
				factors[k].Level = append(factors[k].Level, fmt.Sprint(r.IntN(2+k*2)))
			}
		}
		m, err := Fit(y, x, factors)
		if err != nil {
			var p *problem.Error
			if !errors.As(err, &p) || strings.Contains(err.Error(), "[") {
				t.Fatalf("%T: %v", err, err)
			}
			if strings.Contains(err.Error(), "did not settle") {
				t.Errorf("did not settle: %v %v %v", y, x, factors)
			}
			continue
		}
		fits++
		for c := range 3 {
			_, se, df, _, p := m.Contrast(unit(3, c))
			if m.Estimable(unit(3, c)) && !(se > 0 && df > 0 && p >= 0 && p <= 1) {
				t.Errorf("se %v df %v p %v for %v %v %v", se, df, p, y, x, factors)
			}
		}
	}
	if fits < 500 {
		t.Errorf("only %d fits", fits)
	}
}

// TestQuickEnough: the sizes a kitchen can reach. Limits are ten times what is
// usual, for busy machines.
func TestQuickEnough(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, row := range []struct {
		name  string
		d     tasting
		f     func(d tasting) []Factor
		limit time.Duration
	}{
		{"200 tasters, 12 samples", simulate(r, 200, 1, 12, [4]float64{1, 0, 0, 1}), func(d tasting) []Factor { return []Factor{d.taster} }, 2 * time.Second},
		{"60 tasters, 3 evenings, 6 versions, pots", simulate(r, 60, 3, 6, [4]float64{1, 0.5, 0.4, 1}), func(d tasting) []Factor { return []Factor{d.taster, d.evening, d.pot} }, 10 * time.Second},
		{"80 tasters by 12 samples, two evenings", simulate(r, 80, 2, 12, [4]float64{1, 0, 0.4, 1}), func(d tasting) []Factor { return []Factor{d.taster, d.sample, d.pot} }, 60 * time.Second},
	} {
		if testing.Short() && row.limit > 10*time.Second {
			continue
		}
		begin := time.Now()
		m := mustFit(t, row.d.y, row.d.x, row.f(row.d)...)
		took := time.Since(begin)
		t.Logf("%s: %d scores, %v, variances %.3g %+v", row.name, m.N, took, m.Residual, m.Components)
		if took > row.limit {
			t.Errorf("%s took %v", row.name, took)
		}
	}
}

// TestDisconnectedVersions: two pairs of versions without a common taster (A, B
// and C, D) are compared between tasters when these are random; within pairs the
// difference is the plain one, 1.5 (hand arithmetic of edge_cases.json).
func TestDisconnectedVersions(t *testing.T) {
	y := []float64{6, 5, 7, 5, 8, 6, 7, 6}
	who := labels("P", 1, 1, 2, 2, 3, 3, 4, 4)
	what := []string{"A", "B", "A", "B", "C", "D", "C", "D"}
	m := mustFit(t, y, design(8, treatment(what)...), Factor{"taster", who})
	for _, c := range []struct {
		name string
		c    []float64
		want float64
	}{
		{"A less B", []float64{0, -1, 0, 0}, 1.5},
		{"C less D", []float64{0, 0, 1, -1}, 1.5},
		{"A less C", []float64{0, 0, -1, 0}, -1},
	} {
		est, se, _, _, _ := m.Contrast(c.c)
		if math.Abs(est-c.want) > 1e-9 || !(se > 0) {
			t.Errorf("%s: %v (%v), want %v", c.name, est, se, c.want)
		}
	}
	b := []float64{0, 1, 0, 0}
	_, se, _, _, _ := m.Contrast(b)
	if v := m.Covariance(b, b); math.Abs(v-se*se) > 1e-12 {
		t.Errorf("covariance with itself %v, standard error %v", v, se)
	}
}

// TestShiftsSumToZero: predicted shifts of a factor sum to 0 when the level is a
// fixed effect.
func TestShiftsSumToZero(t *testing.T) {
	d := simulate(rand.New(rand.NewPCG(21, 7)), 15, 3, 3, [4]float64{1, 0.7, 0.5, 1})
	m := mustFit(t, d.y, d.x, d.taster, d.pot)
	for i, c := range m.Components {
		sum, most := 0.0, 0.0
		for _, v := range m.Predicted(i) {
			sum += v
			most = math.Max(most, math.Abs(v))
		}
		if math.Abs(sum) > 1e-9 || !c.Zero && most == 0 {
			t.Errorf("%s: shifts sum to %v, largest %v", c.Name, sum, most)
		}
	}
	if m.Predicted(2) != nil || m.Predicted(-1) != nil {
		t.Error("shifts of a factor that is not there")
	}
	if _, _, err := m.WithoutFactor(5); err == nil {
		t.Error("left out a factor that is not there")
	}
}
