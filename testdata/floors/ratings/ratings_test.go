//go:build floors

package ratings

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"parewell/analysis/ratings"
)

const (
	panelists, versions, swaps, attributes = 200, 12, 8, 6
	turns                                  = 5
)

// made is the budget's table, the same every time; a share of servings is missing.
func made(missing float64) *ratings.Table {
	r := rand.New(rand.NewPCG(1, 2))
	t := &ratings.Table{Swaps: &ratings.Swaps{}}
	for s := range swaps {
		t.Swaps.Names = append(t.Swaps.Names, string(rune('a'+s)))
	}
	for v := range versions {
		on := make([]bool, swaps)
		for i := range on {
			on[i] = v > 0 && (v == i+1 || v > swaps && r.IntN(2) == 0)
		}
		t.Swaps.Samples, t.Swaps.On = append(t.Swaps.Samples, fmt.Sprintf("V%02d", v)), append(t.Swaps.On, on)
	}
	for p := range panelists {
		level := 6 + r.NormFloat64()
		for v := range versions {
			for a := range attributes {
				score := math.Round(level - 0.1*float64(v) + r.NormFloat64())
				if r.Float64() >= missing {
					t.Scores = append(t.Scores, ratings.Score{
						Panelist: fmt.Sprintf("P%03d", p), Sample: t.Swaps.Samples[v], Attribute: fmt.Sprintf("A%d", a), Value: min(9, max(1, score)),
					})
				}
			}
		}
	}
	return t
}

// write puts the table down for R.
func write(t testing.TB, table *ratings.Table, name string) {
	t.Helper()
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.Write(append([]string{"attribute", "panelist", "version", "pot", "score"}, table.Swaps.Names...))
	for _, s := range table.Scores {
		row := []string{s.Attribute, s.Panelist, s.Sample, s.Sample, strconv.FormatFloat(s.Value, 'g', -1, 64)}
		for _, on := range table.Swaps.On[slices.Index(table.Swaps.Samples, s.Sample)] {
			row = append(row, map[bool]string{true: "1", false: "0"}[on])
		}
		w.Write(row)
	}
	if w.Flush(); w.Error() != nil {
		t.Fatal(w.Error())
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestBesideR has R fit the same scores: coefficients agree.
func TestBesideR(t *testing.T) {
	for _, missing := range []float64{0, 0.1} {
		t.Run(fmt.Sprintf("missing %v", missing), func(t *testing.T) {
			table, dir := made(missing), t.TempDir()
			out := filepath.Join(dir, "coefficients.csv")
			inR(t, table, dir, out)
			full, err := ratings.Analyse(table, ratings.Options{})
			if err != nil {
				t.Fatal(err)
			}
			agree(t, full, out)
		})
	}
}

// BenchmarkBesideR fits the budget's scores by turns in R and here. One op is one
// start of R, which takes the median of its own turns, beside as many fits here.
// Budget: a twentieth of lm's time.
func BenchmarkBesideR(b *testing.B) {
	for _, missing := range []float64{0, 0.1} {
		b.Run(fmt.Sprintf("missing=%v", missing), func(b *testing.B) {
			table, dir := made(missing), b.TempDir()
			took := map[string][]float64{}
			for b.Loop() {
				for model, ms := range inR(b, table, dir, filepath.Join(dir, "coefficients.csv")) {
					took[model] = append(took[model], ms)
				}
				for range 2*turns + 1 {
					start := time.Now()
					if _, err := ratings.SwapEffects(table, ratings.Options{}); err != nil {
						b.Fatal(err)
					}
					took["parewell"] = append(took["parewell"], 1000*time.Since(start).Seconds())
				}
			}
			b.ReportMetric(0, "ns/op")
			for model, all := range took {
				slices.Sort(all)
				b.ReportMetric(all[len(all)/2], model+"-ms")
			}
		})
	}
}

// inR has R fit a table, write the coefficients to a file and say for each of its
// models how many milliseconds a fit took.
func inR(t testing.TB, table *ratings.Table, dir, out string) map[string]float64 {
	t.Helper()
	program, err := exec.LookPath("Rscript")
	if err != nil {
		t.Skip("Rscript is not installed")
	}
	in := filepath.Join(dir, "data.csv")
	write(t, table, in)
	said, err := exec.Command(program, "ratings.R", in, out, fmt.Sprint(turns)).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	ms := map[string]float64{}
	for line := range strings.Lines(string(said)) {
		model, text, _ := strings.Cut(strings.TrimSpace(line), " ")
		seconds, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatalf("R said %q", said)
		}
		ms[model] = 1000 * seconds
	}
	return ms
}

// agree holds R's coefficients against ours: lm to 1e-9, lmer to its own stopping.
func agree(t *testing.T, report *ratings.Report, name string) {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	worst := map[string]float64{}
	for _, row := range rows[1:] {
		number := func(i int) float64 {
			v, err := strconv.ParseFloat(strings.TrimSpace(row[i]), 64)
			if err != nil {
				return math.NaN()
			}
			return v
		}
		at := slices.IndexFunc(report.Results, func(r *ratings.Result) bool { return r.Attribute == strings.TrimSpace(row[0]) })
		r, model := report.Results[at], strings.TrimSpace(row[1])
		i := slices.Index(swapNames(r), strings.TrimSpace(row[2]))
		got := r.Swaps[i].Estimate
		if model == "lmer" {
			got = r.Mixed.Swaps[i].Estimate
		} else {
			worst[model] = max(worst[model], math.Abs(float64(r.LackOfFit.F)/number(5)-1))
		}
		worst[model] = max(worst[model], math.Abs(float64(got.Effect)-number(3)), math.Abs(float64(got.SE)/number(4)-1))
	}
	t.Logf("%d coefficients; widest apart %v", len(rows)-1, worst)
	if len(rows) < swaps*attributes || !(worst["lm"] < 1e-9) || !(worst["lmer"] < 1e-4) {
		t.Errorf("apart by %v", worst)
	}
}

func swapNames(r *ratings.Result) (out []string) {
	for _, s := range r.Swaps {
		out = append(out, s.Swap)
	}
	return out
}
