package panel

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

func panelistForm(p Panelist) object {
	return object{
		"assessor": p.Name, "mean": p.Mean, "sd_all": p.SD, "range": p.Range(),
		"F_product": p.F, "df": []int{p.DF1, p.DF2}, "p": p.P, "mse": p.MSE,
		"repeatability_sd": p.Repeatability, "agreement_r_with_others": p.Agreement,
		"scale_slope_on_others": p.Slope,
	}
}

func wholeForm(w *Whole) object {
	terms := []Term{w.Tasters, w.Samples, w.Interaction, w.Error}
	var df []int
	var ss, ms []float64
	for _, t := range terms {
		df, ss, ms = append(df, t.DF), append(ss, t.SS), append(ms, t.MS)
	}
	return object{
		"df": df, "ss": ss, "ms": ms,
		"F_product_vs_interaction": w.OfSamples.F, "p_product_vs_interaction": w.OfSamples.P,
		"F_interaction": w.OfInteraction.F, "p_interaction": w.OfInteraction.P,
		"F_assessor": w.OfTasters.F, "p_assessor": w.OfTasters.P,
	}
}

func TestPanelsOfTheReference(t *testing.T) {
	for _, name := range []string{"panel_performance", "panel_performance_tvbo", "panel_performance_tvbo_sharpness"} {
		t.Run(name, func(t *testing.T) {
			var in struct {
				Data struct {
					Assessor, Product []string
					Score             []float64
				}
			}
			f := read(t, name, &in)
			var scores []Score
			for i, v := range in.Data.Score {
				scores = append(scores, Score{in.Data.Assessor[i], in.Data.Product[i], v})
			}
			p := must(t, scores)
			var people []object
			for _, x := range p.Panelists {
				people = append(people, panelistForm(x))
			}
			// The names of the terms are the file's.
			f.Hold(t, object{"assessors": people, "panel": wholeForm(p.Whole)}, "terms")
			checkWords(t, p)
		})
	}
}

func must(t *testing.T, scores []Score) *Panel {
	t.Helper()
	p, err := Analyse(scores)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func say(phrases []words.Phrase) string {
	var out []string
	for _, p := range phrases {
		out = append(out, p.String())
	}
	return strings.Join(out, " ")
}

// checkWords: every sentence is whole, and none judges a person.
func checkWords(t *testing.T, p *Panel) {
	t.Helper()
	all := say(p.Explain())
	for i := range p.Panelists {
		all += " " + say(p.Panelists[i].Explain())
	}
	for _, never := range []string{"[", "{", "?", "NaN", "Inf", " bad", "poor", "wrong taster", "unreliable", "weak", "fail"} {
		if strings.Contains(all, never) {
			t.Errorf("%q stands in %q", never, all)
		}
	}
}

// rows makes scores of a table, one row a taster; NaN is not tasted.
func rows(table ...[]float64) (scores []Score) {
	for i, row := range table {
		for j, v := range row {
			if !math.IsNaN(v) {
				scores = append(scores, Score{fmt.Sprint("T", i+1), fmt.Sprint("S", j+1), v})
			}
		}
	}
	return scores
}

// TestByHand: T1 scores 1 2 3 against means of the others 4 5 9: correlation
// 5/sqrt(2*14), slope 5/14, level 2 - 6.
func TestByHand(t *testing.T) {
	p := must(t, rows([]float64{1, 2, 3}, []float64{3, 4, 8}, []float64{5, 6, 10}))
	x := p.Panelists[0]
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"mean", x.Mean, 2},
		{"SD", x.SD, 1},
		{"range", x.Range(), 2},
		{"level", x.Level, -4},
		{"agreement", x.Agreement, 5 / math.Sqrt(28)},
		{"slope", x.Slope, 5. / 14},
		// Sample means 3 4 7, taster means 2 5 7: SS 26, 38; all 84 - 64 left.
		{"samples", p.Whole.Samples.SS, 26},
		{"tasters", p.Whole.Tasters.SS, 38},
		{"left over", p.Whole.Interaction.SS, 4},
		{"F", p.Whole.OfSamples.F, 13},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	if !math.IsNaN(x.F) || !math.IsNaN(x.Repeatability) || !math.IsNaN(p.Repeatability) || !math.IsNaN(p.Whole.OfInteraction.F) {
		t.Error("repeats where there are none")
	}
}

// TestOneBlindDuplicate is what a tasting at home has: S1 comes twice.
func TestOneBlindDuplicate(t *testing.T) {
	scores := append(rows([]float64{6, 5, 7}, []float64{7, 7, 7}, []float64{4, 6, 5}),
		Score{"T1", "S1", 8}, Score{"T2", "S1", 7}, Score{"T3", "S1", 4})
	p := must(t, scores)
	x := p.Panelists[0]
	// T1: S1 6 8, S2 5, S3 7: within 2 on 1.
	if x.Gap != 2 || math.Abs(x.MSE-2) > 1e-12 || x.DF2 != 1 || x.DF1 != 2 || p.Whole != nil || p.RepeatDF != 3 {
		t.Errorf("%+v", x)
	}
	if math.Abs(p.Repeatability-math.Sqrt(2./3)) > 1e-12 {
		t.Errorf("panel %v", p.Repeatability)
	}
	if said := say(p.Explain()); !p.Alike || !strings.Contains(said, "A sample was served more often than the others") || strings.Contains(said, "Not every taster") {
		t.Errorf("everybody had one sample twice, and it says: %s", said)
	}
	if q := must(t, scores[:len(scores)-1]); q.Alike || !strings.Contains(say(q.Explain()), "Not every taster scored every sample equally often") {
		t.Errorf("one taster had it once, and it says: %s", say(q.Explain()))
	}
	for i, want := range []string{"up to 2 points apart", "gave every one of 4 scores as 7", "got the same score"} {
		if said := say(p.Panelists[i].Explain()); !strings.Contains(said, want) {
			t.Errorf("%q lacks %q", said, want)
		}
	}
	if said := say(p.Panelists[0].Explain()); !strings.Contains(said, "3 samples shared with others are too few") || strings.Contains(said, "told apart") {
		t.Error(said)
	}
	checkWords(t, p)
}

// TestLevelsDoNotPassForSamples: tasters of high level had only some samples; the
// others' means must follow the samples all the same.
func TestLevelsDoNotPassForSamples(t *testing.T) {
	no := math.NaN()
	// Additive: taster levels 0 0 4 4, samples 1 2 3 4 5.
	p := must(t, rows(
		[]float64{1, 2, 3, 4, 5},
		[]float64{1, 2, 3, no, no},
		[]float64{5, 6, 7, no, no},
		[]float64{no, no, 7, 8, 9},
	))
	x := p.Panelists[0]
	if math.Abs(x.Agreement-1) > 1e-9 || math.Abs(x.Slope-1) > 1e-6 {
		t.Errorf("agreement %v, slope %v: both should be 1", x.Agreement, x.Slope)
	}
	if p.Panelists[1].Missed != 2 || p.Panelists[1].Shared != 3 || p.Whole != nil {
		t.Errorf("%+v", p.Panelists[1])
	}
	checkWords(t, p)
}

// The few words of a table never claim more than the sentence does.
func TestAgreementInShort(t *testing.T) {
	for _, row := range []struct {
		name, want string
		scores     [][]float64
	}{
		{"too few", "too few samples (3)", [][]float64{{1, 2, 3}, {2, 3, 4}}},
		{"the same order", "much the same order", [][]float64{{1, 2, 3, 4, 5}, {2, 3, 4, 5, 6}}},
		{"the other way round", "rather the opposite", [][]float64{{5, 4, 3, 2, 1}, {2, 3, 4, 5, 6}}},
		{"all alike", "all scored alike", [][]float64{{5, 5, 5, 5, 5}, {2, 3, 4, 5, 6}}},
	} {
		p := must(t, rows(row.scores...))
		if got := p.Panelists[0].Agrees().String(); got != row.want {
			t.Errorf("%s: %q, want %q", row.name, got, row.want)
		}
	}
}

func TestSaid(t *testing.T) {
	table := [][]float64{{2, 4, 5, 7, 8, 9}, {3, 4, 5, 6, 8, 8}, {8, 7, 6, 5, 3, 2}, {8, 8, 9, 9, 9, 9}, {2, 3, 5, 6, 7, 8}, {3, 3, 5, 6, 8, 9}}
	p := must(t, rows(table...))
	for i, want := range []string{"much the same order", "from 3 to 8", "rather the opposite order", "points above the others"} {
		if said := say(p.Panelists[i].Explain()); !strings.Contains(said, want) {
			t.Errorf("%q lacks %q", said, want)
		}
	}
	if said := say(p.Explain()); !strings.Contains(said, "6 tasters, 6 samples, 36 scores.") || !strings.Contains(said, "Serve one of them twice") || !strings.Contains(said, "reason to set a taster aside") {
		t.Error(said)
	}
	checkWords(t, p)
}

func TestFaults(t *testing.T) {
	for _, row := range []struct {
		name, want string
		scores     []Score
	}{
		{"empty", "no scores", nil},
		{"one taster", "T1 is the only taster", rows([]float64{5, 6, 7})},
		{"all equal", "all scores are the same", rows([]float64{5, 5}, []float64{5, 5})},
		{"NaN", "score 2", []Score{{"a", "x", 1}, {"a", "y", math.NaN()}}},
		{"infinite", "score 1", []Score{{"a", "x", math.Inf(1)}, {"a", "y", 4}}},
		{"no name", "score 1 lacks", []Score{{"", "x", 1}, {"a", "y", 2}}},
		{"no sample", "score 2 lacks", []Score{{"a", "x", 1}, {"a", "", 2}}},
	} {
		t.Run(row.name, func(t *testing.T) {
			p, err := Analyse(row.scores)
			var e *problem.Error
			if p != nil || !errors.As(err, &e) || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want %q", err, row.want)
			}
		})
	}
}

// TestOddPanels: whatever the gaps, nothing panics, figures are sound or NaN, and
// the sentences are whole.
func TestOddPanels(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	read := 0
	for range 1000 {
		var scores []Score
		for range 1 + r.IntN(25) {
			scores = append(scores, Score{fmt.Sprint("T", r.IntN(4)), fmt.Sprint("S", r.IntN(6)), float64(1 + r.IntN(9))})
		}
		p, err := Analyse(scores)
		if err != nil {
			continue
		}
		read++
		checkWords(t, p)
		n := 0
		for _, x := range p.Panelists {
			n += x.N
			if math.Abs(x.Agreement) > 1 || x.Low > x.Mean || x.High < x.Mean || x.P < 0 || x.P > 1 {
				t.Errorf("%+v", x)
			}
		}
		if n != len(scores) {
			t.Errorf("%d scores of %d", n, len(scores))
		}
	}
	if read < 800 {
		t.Errorf("only %d panels were read", read)
	}
}
