package ratings

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"parewell/analysis/stats"
)

// world makes up scores of which the truth is known.
type world struct {
	tasters  int
	evenings [][]int // by tasting: versions served
	pots     []int   // by version: pots in each tasting; nil one each
	potSD    float64
	missing  float64 // chance that a serving is missed
	scale    float64 // spread of how widely tasters score
	shift    float64 // spread of evenings
}

// Six versions of four swaps, none, each alone, all: as in the reference data.
var (
	ticks     = [][]bool{{false, false, false, false}, {true, false, false, false}, {false, true, false, false}, {false, false, true, false}, {false, false, false, true}, {true, true, true, true}}
	truth     = []float64{-0.2, -1.3, 0, -0.6}
	names4    = []string{"a", "b", "c", "d"}
	oneSitter = [][]int{{0, 1, 2, 3, 4, 5}}
)

const scatter = 0.95

func swapsOf(on [][]bool) *Swaps {
	s := &Swaps{Names: names4, On: on}
	for v := range on {
		s.Samples = append(s.Samples, fmt.Sprint("V", v))
	}
	return s
}

// scores draws a table.
func (w world) scores(r *rand.Rand, s *Swaps) *Table {
	t := &Table{Swaps: s}
	level, width := make([]float64, w.tasters), make([]float64, w.tasters)
	for p := range level {
		level[p], width[p] = 6.5+1.2*r.NormFloat64(), math.Max(0.2, 1+w.scale*r.NormFloat64())
	}
	for e, served := range w.evenings {
		evening := w.shift * r.NormFloat64()
		var pots [][]float64
		for _, v := range served {
			n := 1
			if w.pots != nil {
				n = w.pots[v]
			}
			list := make([]float64, n)
			for i := range list {
				list[i] = w.potSD * r.NormFloat64()
			}
			pots = append(pots, list)
		}
		for p := range w.tasters {
			for i, v := range served {
				w.serve(r, t, serving{e, p, v, pots[i], level[p] + evening, width[p]})
			}
		}
	}
	return t
}

type serving struct {
	evening, taster, version int
	pots                     []float64
	level, width             float64
}

func (w world) serve(r *rand.Rand, t *Table, x serving) {
	for k, pot := range x.pots {
		if r.Float64() < w.missing {
			continue
		}
		change := 0.0
		for i, on := range t.Swaps.On[x.version] {
			if on {
				change += truth[i]
			}
		}
		y := x.level + x.width*(change+pot+scatter*r.NormFloat64())
		name := ""
		if len(x.pots) > 1 {
			name = fmt.Sprint(x.evening, ".", k)
		}
		t.Scores = append(t.Scores, Score{
			Tasting: fmt.Sprint(x.evening), Panelist: fmt.Sprint(x.taster), Sample: fmt.Sprint("V", x.version), Attribute: "liking", Value: y, Pot: name,
		})
	}
}

// tally counts over trials.
type tally struct {
	covered, trials float64
	sum, squares    []float64
	family          int // a real zero called a change, Holm
	noted           map[string]int
	widths          float64
	whole           float64 // all together against the original, as versions
}

func (w world) run(t *testing.T, seed uint64, trials int) *tally {
	t.Helper()
	r := rand.New(rand.NewPCG(seed, 7))
	s := swapsOf(ticks)
	c := &tally{sum: make([]float64, 4), squares: make([]float64, 4), noted: map[string]int{}}
	for range trials {
		report, err := SwapEffects(w.scores(r, s), Options{})
		if err != nil {
			t.Fatal(err)
		}
		res := report.Results[0]
		for i, x := range res.Swaps {
			if x.Low <= Number(truth[i]) && Number(truth[i]) <= x.High {
				c.covered++
			}
			c.trials++
			c.widths += float64(x.High - x.Low)
			d := float64(x.Effect) - truth[i]
			c.sum[i] += d
			c.squares[i] += d * d
		}
		d, se, df, ok := res.Effects.Direct("V5", "V0")
		if ok && math.Abs(d+2.1) <= stats.TPoint(0.05, df)*se {
			c.whole++
		}
		if res.Swaps[2].PHolm < 0.05 {
			c.family++
		}
		for _, n := range res.Notes {
			c.noted[n]++
		}
	}
	return c
}

func (c *tally) cover() float64 { return c.covered / c.trials }

// biased tells a mean error beyond 4.5 of its standard errors.
func (c *tally) biased() bool {
	n := c.trials / 4
	for i, s := range c.sum {
		if math.Abs(s/n) > 4.5*math.Sqrt(c.squares[i])/n {
			return true
		}
	}
	return false
}

// What the intervals promise holds: 90 % of them contain the truth wherever
// nothing unknowable stands in the way, and where it does a note says so. Rates
// are over swaps; seeds are fixed, so the test gives the same every time.
func TestSwapIntervalsCover(t *testing.T) {
	two := [][]int{{0, 1, 2, 5}, {0, 3, 4, 5}}
	three := [][]int{{0, 1, 2, 5}, {0, 3, 4, 5}, {0, 1, 3, 4}}
	for _, row := range []struct {
		name      string
		w         world
		low, high float64
		note      string // in every trial
	}{
		{"one tasting", world{tasters: 24, evenings: oneSitter}, 0.885, 0.915, NoteOnePotEach},
		{"8 tasters", world{tasters: 8, evenings: oneSitter}, 0.885, 0.915, NoteOnePotEach},
		{"a fifth of servings missing", world{tasters: 24, evenings: oneSitter, missing: 0.2}, 0.885, 0.915, NoteOnePotEach},
		{"tasters score more and less widely", world{tasters: 24, evenings: oneSitter, scale: 0.25}, 0.875, 0.915, NoteOnePotEach},
		// Two degrees of freedom for pots, and pots that happen to agree are not believed.
		{"two evenings far apart", world{tasters: 24, evenings: two, shift: 2}, 0.89, 1, NoteFewPots},
		{"two evenings far apart, pots", world{tasters: 24, evenings: two, shift: 2, potSD: 0.3}, 0.89, 0.97, NoteFewPots},
		{"all versions on two evenings, pots", world{tasters: 16, evenings: [][]int{oneSitter[0], oneSitter[0]}, shift: 2, potSD: 0.3}, 0.88, 0.95, ""},
		{"pots, each version once: they cannot", world{tasters: 24, evenings: oneSitter, potSD: 0.3}, 0.50, 0.80, NoteOnePotEach},
		{"pots, every version twice", world{tasters: 24, evenings: oneSitter, pots: []int{2, 2, 2, 2, 2, 2}, potSD: 0.3}, 0.88, 0.93, ""},
		{"pots, the original and all together twice", world{tasters: 24, evenings: oneSitter, pots: []int{2, 1, 1, 1, 1, 2}, potSD: 0.3}, 0.87, 0.95, NoteFewPots},
		{"pots, one version twice", world{tasters: 24, evenings: oneSitter, pots: []int{2, 1, 1, 1, 1, 1}, potSD: 0.3}, 0.87, 0.96, NoteFewPots},
		{"pots, three evenings, servings missing", world{tasters: 16, evenings: three, potSD: 0.3, missing: 0.1, shift: 1}, 0.87, 0.95, ""},
		{"pots alike, every version twice", world{tasters: 24, evenings: oneSitter, pots: []int{2, 2, 2, 2, 2, 2}}, 0.89, 0.97, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			t.Parallel()
			c := row.w.run(t, 11, 2500)
			whole := c.whole / c.trials * 4
			t.Logf("%.1f %% of the 90 %% intervals contain the truth; they are %.2f wide; whole versions %.1f %%", 100*c.cover(), c.widths/c.trials, 100*whole)
			if whole < row.low-0.03 || whole > row.high+0.03 {
				t.Errorf("whole versions: coverage %.3f", whole)
			}
			if c.cover() < row.low || c.cover() > row.high {
				t.Errorf("coverage %.3f, want %v to %v", c.cover(), row.low, row.high)
			}
			if c.biased() && row.w.scale == 0 {
				t.Errorf("biased: mean errors %v over %v trials", c.sum, c.trials/4)
			}
			if row.note != "" && c.noted[row.note] != int(c.trials)/4 {
				t.Errorf("note %s in %d of %v trials", row.note, c.noted[row.note], c.trials/4)
			}
		})
	}
}

// Error rates: the F test of samples, Tukey's and Dunnett's families, Friedman's
// test, the lack of fit and Holm's family of swaps each err in about 5 of 100
// where nothing is there to find, and equivalence at a true difference of just
// the limit in at most 5 of 100.
func TestErrorRatesHold(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	var template []Score
	for p := range 16 {
		for v := range 4 {
			template = append(template, Score{Panelist: fmt.Sprint(p), Sample: fmt.Sprint("V", v), Attribute: "liking"})
		}
	}
	c := columns(&Table{Scores: template}, "")[0]
	const trials = 4000
	wrong := map[string]float64{}
	count := func(name string, yes bool) {
		if yes {
			wrong[name]++
		}
	}
	for trial := range trials {
		level := make([]float64, len(c.size))
		for b := range level {
			level[b] = 6 + 1.3*r.NormFloat64()
		}
		for i := range c.y {
			c.y[i] = level[c.block[i]] + 1.1*r.NormFloat64()
			if c.sample[i] == 3 {
				c.y[i] -= 0.8
			}
		}
		res := newResult(c, "V0", Options{})
		d, se := res.fit.effect[3]-res.fit.effect[0], math.Sqrt(c.bySample.between(0, 3)*res.ms)
		count("equivalence at the limit", stats.TOST(d, se, float64(res.fit.df), 0.8).P < 0.05)
		for i := range c.y { // and without any difference
			if c.sample[i] == 3 {
				c.y[i] += 0.8
			}
		}
		res = newResult(c, "V0", Options{})
		res.anova()
		count("F test", res.Anova.Sample.P < 0.05)
		if trial%8 == 0 { // its exact tail takes time
			res.rank()
			for range 8 {
				count("Friedman", res.Friedman.P < 0.05)
			}
		}
		count("Tukey", anyBeyond(res, []int{0, 1, 2, 3}, res.tukeyPoint()))
		count("Dunnett", anyBeyond(res, []int{0}, res.dunnettPoint()))
	}
	for name, limits := range map[string][2]float64{
		"F test": {0.037, 0.063}, "Friedman": {0.02, 0.085}, "Tukey": {0.037, 0.063}, "Dunnett": {0.037, 0.063}, "equivalence at the limit": {0.035, 0.063},
	} {
		rate := wrong[name] / trials
		t.Logf("%s: %.3f", name, rate)
		if rate < limits[0] || rate > limits[1] {
			t.Errorf("%s errs in %.3f of trials, want %v", name, rate, limits)
		}
	}
}

func (r *Result) tukeyPoint() float64 {
	return r.column.band("test tukey", func() float64 { return stats.TukeyPoint(0.05, len(r.column.samples), float64(r.fit.df)) / math.Sqrt2 })
}

func (r *Result) dunnettPoint() float64 {
	return r.column.band("test dunnett", func() float64 {
		t, _ := stats.DunnettPoint(0.05, r.column.bySample.correlations(0, []int{1, 2, 3}), float64(r.fit.df))
		return t
	})
}

// anyBeyond tells a difference from any of the first samples beyond the point.
func anyBeyond(r *Result, from []int, point float64) bool {
	l := r.column.bySample
	for _, a := range from {
		for b := range l.levels {
			if a != b && math.Abs(r.fit.effect[a]-r.fit.effect[b]) > point*math.Sqrt(l.between(a, b)*r.ms) {
				return true
			}
		}
	}
	return false
}

func TestLackOfFitErrsAtItsRate(t *testing.T) {
	for _, row := range []struct {
		name      string
		w         world
		low, high float64
	}{
		{"one pot each", world{tasters: 20, evenings: oneSitter}, 0.036, 0.064},
		{"every version twice", world{tasters: 20, evenings: oneSitter, pots: []int{2, 2, 2, 2, 2, 2}, potSD: 0.3}, 0.03, 0.07},
		{"two versions twice, servings missing", world{tasters: 20, evenings: oneSitter, pots: []int{2, 1, 1, 1, 1, 2}, potSD: 0.3, missing: 0.1}, 0, 0.06},
	} {
		r, s, wrong, family := rand.New(rand.NewPCG(5, 9)), swapsOf(ticks), 0.0, 0.0
		const trials = 3000
		for range trials {
			report, err := SwapEffects(row.w.scores(r, s), Options{})
			if err != nil {
				t.Fatal(err)
			}
			res := report.Results[0]
			if res.LackOfFit.P < 0.05 {
				wrong++
			}
			if res.Swaps[2].PHolm < 0.05 {
				family++
			}
		}
		t.Logf("%s: lack of fit %.3f, a swap without effect called one %.3f", row.name, wrong/trials, family/trials)
		if rate := wrong / trials; rate < row.low || rate > row.high {
			t.Errorf("%s: lack of fit errs in %.3f", row.name, rate)
		}
		if rate := family / trials; rate > 0.06 {
			t.Errorf("%s: a swap without effect is called one in %.3f", row.name, rate)
		}
	}
}

// An interaction as large as the scatter is found as lack of fit, so the test
// above does not pass for want of sight.
func TestLackOfFitSeesAnInteraction(t *testing.T) {
	r, s := rand.New(rand.NewPCG(8, 8)), swapsOf(ticks)
	table := world{tasters: 40, evenings: oneSitter}.scores(r, s)
	for i := range table.Scores {
		if table.Scores[i].Sample == "V5" {
			table.Scores[i].Value -= 2
		}
	}
	res := analysed(t, table, Options{})
	if res.LackOfFit.P > 0.01 || !slices.Contains(res.Notes, NoteLackOfFit) {
		t.Errorf("lack of fit p %v, notes %v", res.LackOfFit.P, res.Notes)
	}
}
