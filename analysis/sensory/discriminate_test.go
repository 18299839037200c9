package sensory

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
)

// TestPublished guards the statistics where the reference folder is absent:
// figures printed by others, with where they stand.
func TestPublished(t *testing.T) {
	rows := []struct {
		name, source string
		got, want    float64
		within       float64
	}{
		{"triangle 18 of 36", "exact sum by rational arithmetic", PGuess(Triangle, 36, 18), 0.0283492101907158, 1e-14},
		{"duo-trio 26 of 32", "exact sum by rational arithmetic", PGuess(DuoTrio, 32, 26), 0.000267526367679238, 1e-15},
		{"2-AFC 7 of 7", "1/128", PGuess(TwoAFC, 7, 7), 1.0 / 128, 1e-16},
		{"preference 34 of 50", "exact sum by rational arithmetic", PGuess(Preference, 50, 34), 0.0153466778326301, 1e-14},
		{"preference 25 of 50", "all panels", PGuess(Preference, 50, 25), 1, 0},
		{"upper limit, none of 12", "1 - 0.025^(1/12)", Exact(12, 0, 0.95).High, 1 - math.Pow(0.025, 1.0/12), 1e-14},
		{"2-AFC 76 of 100 d-prime", "Bi 2024, doi 10.20944/preprints202409.2372.v1, 3.1", dprime(TwoAFC, 100, 76), 0.9989, 5e-5},
		{"triangle 42 of 100 d-prime", "Bi 2024, 3.1", dprime(Triangle, 100, 42), 1.0125, 5e-5},
		{"duo-trio 58 of 100 d-prime", "Bi 2024, 3.1", dprime(DuoTrio, 100, 58), 0.9831, 5e-5},
		{"tetrad 49 of 100 d-prime", "Bi 2024, 3.1", dprime(Tetrad, 100, 49), 0.98628, 1e-5},
		{"tetrad 49 of 100 variance", "Bi 2024, 3.1", variance(Tetrad, 100, 49), 0.032627, 5e-7},
		{"triangle 42 of 100 variance", "Bi 2024, 3.1", variance(Triangle, 100, 42), 0.0985, 5e-5},
		{"pd 0.3, triangle, 60: most right", "ISO 4120 similarity, recomputed", float64(most(Triangle, 60, 0.3)), 25, 0},
		{"tasters for 0.1 of the scale", "Hough et al. 2006: 112", math.Ceil(RoughTasters(0.23, 0.1, 0.05, 0.9)), 112, 0},
		{"t 5 % two-sided, 20 df", "printed tables", tPoint(0.025, 20), 2.086, 5e-4},
		{"F 5 %, 3 and 33 df", "printed tables", fPoint(0.05, 3, 33), 2.89, 5e-3},
	}
	for _, r := range rows {
		if !(math.Abs(r.got-r.want) <= r.within) {
			t.Errorf("%s: %.15g, want %.15g (%s)", r.name, r.got, r.want, r.source)
		}
	}
}

func dprime(k Test, n, x int) float64 { d, _ := k.DPrime(float64(x) / float64(n)); return d }

func variance(k Test, n, x int) float64 { se, _ := k.DPrimeSE(n, x); return se * se }

func most(k Test, n int, pd float64) int { x, _ := MaxCorrect(k, n, pd, 0.05); return x }

// TestMinCorrectTables: printed minimum tables at 5 % (ISO 4120, 10399, 5495
// table A.1; Roessler et al. 1978, J. Food Sci. 43:940).
func TestMinCorrectTables(t *testing.T) {
	rows := []struct {
		test Test
		n    []int
		want []int
	}{
		{Triangle, []int{12, 18, 24, 30, 36, 48, 60}, []int{8, 10, 13, 15, 18, 22, 27}},
		{Tetrad, []int{6, 24, 60}, []int{5, 13, 27}},
		{DuoTrio, []int{12, 18, 24, 30, 36, 48, 60}, []int{10, 13, 17, 20, 24, 31, 37}},
		{TwoAFC, []int{5, 8, 24}, []int{5, 7, 17}},
		{Preference, []int{12, 18, 24, 30, 36, 48, 60}, []int{10, 14, 18, 21, 25, 32, 39}},
	}
	for _, r := range rows {
		for i, n := range r.n {
			if x, ok := MinCorrect(r.test, n, 0.05); !ok || x != r.want[i] {
				t.Errorf("%s, %d: %d, want %d", r.test, n, x, r.want[i])
			}
		}
	}
	if _, ok := MinCorrect(Triangle, 3, 0.01); ok {
		t.Error("3 of 3 in a triangle is 1/27: not 1 %")
	}
	if _, ok := MinCorrect(TwoAFC, 6, 0.01); ok {
		t.Error("6 of 6 in a 2-AFC is 1/64: not 1 %")
	}
	if x, ok := MinCorrect(TwoAFC, 3, 0.125); !ok || x != 3 {
		t.Error("3 of 3 in a 2-AFC is exactly 1/8")
	}
}

func TestDiscriminate(t *testing.T) {
	limit := 0.3
	d, err := Discriminate(Triangle, 36, 18, &limit)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(d)
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{
		`"test":"triangle"`, `"n":36`, `"correct":18`, `"p_guess":0.333`, `"p_difference":0.0283`, `"pc":0.5`, `"pd":0.25`,
		`"pd_low":0`, `"pd_high":0.506`, `"d_prime":1.466`, `"d_prime_se":0.437`, `"similar":{"pd_limit":0.3,"p":0.4`,
	} {
		if !strings.Contains(string(b), key) {
			t.Errorf("%s is not in %s", key, b)
		}
	}
	for _, r := range []struct {
		name       string
		test       Test
		n, correct int
		want       string
	}{
		{"all right", DuoTrio, 12, 12, `"d_prime":null,"d_prime_se":null`},
		{"at guessing", Triangle, 24, 8, `"d_prime":0,"d_prime_se":null`},
		{"under guessing", Tetrad, 24, 2, `"pd":0,"pd_low":0,"pd_high":0,"d_prime":0,"d_prime_se":null`},
		{"one taster", TwoAFC, 1, 0, `"p_difference":1`},
	} {
		d, err := Discriminate(r.test, r.n, r.correct, nil)
		if err != nil {
			t.Fatal(err)
		}
		if b, _ := json.Marshal(d); !strings.Contains(string(b), r.want) || strings.Contains(string(b), "similar") {
			t.Errorf("%s: %s", r.name, b)
		}
	}
}

func TestDiscriminateRefuses(t *testing.T) {
	share := func(v float64) *float64 { return &v }
	for _, r := range []struct {
		name       string
		test       Test
		n, correct int
		limit      *float64
		says       string
	}{
		{"nobody", Triangle, 0, 0, nil, "at least 1"},
		{"more right than answers", Triangle, 6, 7, nil, "7 right answers are more than all 6"},
		{"below nothing", Tetrad, 6, -1, nil, "below 0"},
		{"no right answers", Liking, 6, 3, nil, "no right answers"},
		{"a limit over 1", Triangle, 6, 3, share(30), "between 0 and 1"},
		{"a limit of 0", Triangle, 6, 3, share(0), "between 0 and 1"},
		{"no number", Triangle, 6, 3, share(math.NaN()), "between 0 and 1"},
		{"a preference with a limit", Preference, 6, 3, share(0.3), "preference"},
		{"far too many", Triangle, mostAnswers + 1, 3, nil, "at most"},
	} {
		if _, err := Discriminate(r.test, r.n, r.correct, r.limit); err == nil || !strings.Contains(err.Error(), r.says) {
			t.Errorf("%s: %v", r.name, err)
		}
	}
}

// TestExplain holds the sentences, whatever comes of a test: the answer first,
// never "no difference".
func TestExplain(t *testing.T) {
	share := func(v float64) *float64 { return &v }
	for _, r := range []struct {
		name       string
		test       Test
		n, correct int
		limit      *float64
		first      string
	}{
		{"noticed", Triangle, 36, 18, nil, "Tasters do notice: about 25 % of people truly tell them apart (95 % limits 0 % to 51 %)."},
		{"open", Triangle, 36, 14, nil, "This does not settle whether people notice: up to 35 % of them may."},
		{"alike", Triangle, 72, 24, share(0.3), "They are alike enough: fewer than 30 % of people can tell them apart. The risk that this is wrong is 0.05 %."},
		{"small but real", Triangle, 500, 200, share(0.3), "Tasters do notice: about 10 % of people truly tell them apart (95 % limits 4 % to 17 %)."},
		{"preferred", Preference, 50, 34, nil, "More people prefer the first: 68 % of them (95 % limits 53 % to 80 %)."},
		{"the other preferred", Preference, 50, 16, nil, "More people prefer the second: 68 % of them (95 % limits 53 % to 80 %)."},
		{"not settled", Preference, 24, 14, nil, "This does not settle which is preferred: between 37 % and 78 % of people may prefer the first."},
	} {
		d, err := Discriminate(r.test, r.n, r.correct, r.limit)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, p := range d.Explain() {
			all = append(all, p.String())
		}
		text := strings.Join(all, " ")
		if all[0] != r.first || strings.ContainsAny(text, "[]{}") || strings.Contains(text, "no difference") {
			t.Errorf("%s: %s", r.name, text)
		}
	}
}

// TestExtremes: large panels and rare chances stay numbers.
func TestExtremes(t *testing.T) {
	for _, k := range []Test{Triangle, DuoTrio, Tetrad, TwoAFC, ThreeAFC, Preference} {
		for _, n := range []int{1, 2, 3, 1000, mostAnswers} {
			for _, x := range []int{0, 1, n / 3, n / 2, n - 1, n} {
				d, err := Discriminate(k, n, max(0, x), nil)
				if err != nil {
					t.Fatal(err)
				}
				if _, err := json.Marshal(d); err != nil {
					t.Errorf("%s %d of %d: %v", k, x, n, err)
				}
				if d.PDLow > d.PD+1e-12 || d.PD > d.PDHigh+1e-12 || d.PDifference < 0 || d.PDifference > 1 {
					t.Errorf("%s %d of %d: %+v", k, x, n, d)
				}
			}
		}
	}
	if p := AtLeast(1000, 1000, 0.5); math.Abs(math.Log2(p)+1000) > 1e-9 {
		t.Errorf("2^-1000 is %g", p)
	}
}
