package stats

import (
	"bufio"
	"bytes"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"parewell/testdata/reference"
)

// digits is the number of correct significant digits, at most 15, the precision
// NIST certifies.
func digits(got, want float64) float64 {
	switch {
	case math.IsNaN(got):
		return 0
	case got == want:
		return 15
	case want == 0:
		return math.Max(0, math.Min(15, -math.Log10(math.Abs(got))))
	}
	return math.Max(0, math.Min(15, -math.Log10(math.Abs(got/want-1))))
}

// least is the fewest digits over pairs of got, want; it must reach floor.
func least(t *testing.T, set string, floor float64, pairs ...float64) {
	t.Helper()
	fewest := 15.0
	for i := 0; i < len(pairs); i += 2 {
		d := digits(pairs[i], pairs[i+1])
		if d < floor {
			t.Errorf("%s value %d: got %.16g, certified %.16g, %.1f digits", set, i/2, pairs[i], pairs[i+1], d)
		}
		fewest = math.Min(fewest, d)
	}
	t.Logf("%-10s %.1f digits", set, fewest)
}

// TestNISTUnivariate holds mean, SD and lag-one autocorrelation against the
// certified values of NIST's univariate sets. NumAcc4 is the one of higher
// difficulty: its 10000000.2 is off by 7e-10 before the first sum. Lew and
// Lottery, whole numbers of at most three digits, are not kept here; nor is
// PiDigits, which cannot be counted out: the first 5,000 digits of pi add up to
// 22,679, those of the set by its certified mean to 22,674.
func TestNISTUnivariate(t *testing.T) {
	tests := []struct {
		name          string
		x             []float64
		mean, sd, lag float64
		floor         float64
	}{
		{"Mavro", mavro, 2.00185600000000, 0.000429123454003053, 0.937989183438248, 12},
		{"Michelso", michelson, 299.852400000000, 0.0790105478190518, 0.535199668621283, 12},
		{"NumAcc1", []float64{10000001, 10000003, 10000002}, 10000002, 1, -0.5, 14},
		{"NumAcc2", alternating(1.2, 1.1, 1.3), 1.2, 0.1, -0.999, 14},
		{"NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, -0.999, 9},
		{"NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, -0.999, 8},
	}
	for _, tt := range tests {
		least(t, tt.name, tt.floor, Mean(tt.x), tt.mean, SD(tt.x), tt.sd, LagOne(tt.x), tt.lag)
	}
}

// alternating is first and then a, b five hundred times.
func alternating(first, a, b float64) []float64 {
	x := []float64{first}
	for range 500 {
		x = append(x, a, b)
	}
	return x
}

var number = regexp.MustCompile(`[-+]?\d+\.?\d*(E[-+]?\d+)?`)

// numbersOf lists the numbers of each line of a NIST file.
func numbersOf(t *testing.T, name string) (lines []string, numbers [][]float64) {
	t.Helper()
	in := bufio.NewScanner(bytes.NewReader(reference.Bytes(t, "nist-strd", name+".dat")))
	for in.Scan() {
		var row []float64
		for _, s := range number.FindAllString(in.Text(), -1) {
			v, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		lines, numbers = append(lines, in.Text()), append(numbers, row)
	}
	return lines, numbers
}

// TestNISTAnova holds the one-way analysis against NIST's sets: SiRstv and
// SmLs01-03 of lower, AtmWtAg and SmLs04-06 of average difficulty, SmLs07-09 of
// higher, where a score of 1000000000000.4 is off by 2e-5 as a float64 and a
// spread of 0.1 cannot keep more than about four digits whatever the arithmetic.
func TestNISTAnova(t *testing.T) {
	floors := map[string]float64{
		"SiRstv": 12, "SmLs01": 13, "SmLs02": 13, "SmLs03": 13, "AtmWtAg": 9, "SmLs04": 9, "SmLs05": 9, "SmLs06": 9,
		"SmLs07": 2, "SmLs08": 2, "SmLs09": 2,
	}
	for _, name := range []string{
		"SiRstv", "SmLs01", "SmLs02", "SmLs03", "AtmWtAg", "SmLs04", "SmLs05", "SmLs06", "SmLs07", "SmLs08", "SmLs09",
	} {
		lines, numbers := numbersOf(t, name)
		var between, within []float64
		rSquared, sd := 0.0, 0.0
		var groups [][]float64
		for i, l := range lines[:60] {
			n := numbers[i]
			switch {
			case strings.HasPrefix(l, "Between") && len(n) == 4:
				between = n
			case strings.HasPrefix(l, "Within") && len(n) == 3:
				within = n
			case strings.Contains(l, "Certified R-Squared"):
				rSquared = n[len(n)-1]
			case strings.Contains(l, "Standard Deviation") && len(n) == 1:
				sd = n[0]
			}
		}
		for _, n := range numbers[60:] {
			if len(n) == 2 {
				for len(groups) < int(n[0]) {
					groups = append(groups, nil)
				}
				groups[int(n[0])-1] = append(groups[int(n[0])-1], n[1])
			}
		}
		r := OneWay(groups)
		least(t, name, floors[name], float64(r.DFBetween), between[0], r.Between, between[1], r.MSBetween, between[2],
			r.F, between[3], float64(r.DFWithin), within[0], r.Within, within[1], r.MSWithin, within[2],
			r.RSquared, rSquared, r.ResidualSD, sd)
	}
}

// TestNISTNorris holds a straight line against Norris (lower difficulty).
func TestNISTNorris(t *testing.T) {
	_, numbers := numbersOf(t, "Norris")
	var x [][]float64
	var y []float64
	for _, n := range numbers[60:] {
		if len(n) == 2 {
			x, y = append(x, []float64{1, n[1]}), append(y, n[0])
		}
	}
	fit, err := LeastSquares(x, y)
	if err != nil {
		t.Fatal(err)
	}
	least(t, "Norris", 12, fit.Coef[0], -0.262323073774029, fit.SE[0], 0.232818234301152,
		fit.Coef[1], 1.00211681802045, fit.SE[1], 0.429796848199937e-03, fit.Sigma, 0.884796396144373,
		1-fit.RSS/fit.TSS, 0.999993745883712, fit.RSS, 26.6173985294224)
}

// TestNISTLongley: higher difficulty, six columns nearly made up of each other.
func TestNISTLongley(t *testing.T) {
	var x [][]float64
	var y []float64
	for _, row := range longley {
		x, y = append(x, append([]float64{1}, row[1:]...)), append(y, row[0])
	}
	certified(t, "Longley", 12, x, y, []float64{
		-3482258.63459582, 15.0618722713733, -0.358191792925910e-01, -2.02022980381683,
		-1.03322686717359, -0.511041056535807e-01, 1829.15146461355,
	}, []float64{
		890420.383607373, 84.9149257747669, 0.334910077722432e-01, 0.488399681651699,
		0.214274163161675, 0.226073200069370, 455.478499142212,
	}, 304.854073561965)
}

// TestNISTFilip: higher difficulty, a polynomial of degree ten. The powers are
// rounded to float64 here as they would be anywhere, which costs half the digits.
func TestNISTFilip(t *testing.T) {
	var x [][]float64
	var y []float64
	for _, row := range filip {
		x, y = append(x, powers(row[1], 10)), append(y, row[0])
	}
	certified(t, "Filip", 6, x, y, []float64{
		-1467.48961422980, -2772.17959193342, -2316.37108160893, -1127.97394098372, -354.478233703349, -75.1242017393757,
		-10.8753180355343, -1.06221498588947, -0.670191154593408e-01, -0.246781078275479e-02, -0.402962525080404e-04,
	}, []float64{
		298.084530995537, 559.779865474950, 466.477572127796, 227.204274477751, 71.6478660875927, 15.2897178747400,
		2.23691159816033, 0.221624321934227, 0.142363763154724e-01, 0.535617408889821e-03, 0.896632837373868e-05,
	}, 0.334801051324544e-02)
}

// TestNISTWampler: polynomials of degree five; 1 and 2 fit perfectly.
func TestNISTWampler(t *testing.T) {
	se := []float64{2152.32624678170, 2363.55173469681, 779.343524331583, 101.475507550350, 5.64566512170752, 0.112324854679312}
	for _, tt := range []struct {
		name  string
		base  float64 // coefficient j is base^j
		noise float64
	}{
		{"Wampler1", 1, 0},
		{"Wampler2", 0.1, 0},
		{"Wampler3", 1, 1},
		{"Wampler4", 1, 100},
		{"Wampler5", 1, 10000},
	} {
		var x [][]float64
		var y, want, wantSE []float64
		for i := range 21 {
			x = append(x, powers(float64(i), 5))
			exact := new(big.Rat)
			for j := range 6 { // tenths rounded once, as printed in the set
				term := big.NewRat(int64(math.Pow(float64(i), float64(j))), 1)
				if tt.base != 1 {
					term.Quo(term, big.NewRat(int64(math.Pow(10, float64(j))), 1))
				}
				exact.Add(exact, term)
			}
			v, _ := exact.Float64()
			y = append(y, v+tt.noise*wamplerNoise[i])
		}
		for j := range 6 {
			want, wantSE = append(want, math.Pow(tt.base, float64(j))), append(wantSE, tt.noise*se[j])
		}
		certified(t, tt.name, 11, x, y, want, wantSE, tt.noise*2360.14502379268)
	}
}

func powers(x float64, most int) []float64 {
	row := []float64{1}
	for j := range most {
		row = append(row, row[j]*x)
	}
	return row
}

func certified(t *testing.T, name string, floor float64, x [][]float64, y, coef, se []float64, sigma float64) {
	t.Helper()
	fit, err := LeastSquares(x, y)
	if err != nil {
		t.Fatal(err)
	}
	if fit.Rank != len(coef) {
		t.Fatalf("%s: rank %d, want %d", name, fit.Rank, len(coef))
	}
	pairs := []float64{fit.Sigma, sigma}
	for j, c := range coef {
		pairs = append(pairs, fit.Coef[j], c, fit.SE[j], se[j])
	}
	least(t, name, floor, pairs...)
}
