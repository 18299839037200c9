package justright

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"parewell/analysis/stats"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// num is nil for what JSON cannot hold.
func num(v float64) any {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return v
}

func testForm(r stats.TResult) object {
	low, high := r.Interval(0.95)
	return object{"t": num(r.T), "df": num(r.DF), "p": num(r.P), "ci95": []any{num(low), num(high)}}
}

func sideForm(s Side) object {
	return object{
		"n": s.N, "pct": 100 * s.Share, "mean_liking": num(s.Mean), "mean_drop": num(s.Drop),
		"weighted_penalty": num(s.Penalty), "flag_20pct": s.Flag,
		"welch": testForm(s.Welch), "pooled": testForm(s.Pooled),
	}
}

func attributeForm(a Attribute) object {
	return object{
		"attribute": a.Name, "counts_1_to_5": a.Counts, "overall_mean": a.Mean,
		"jar":        object{"n": a.Right.N, "pct": 100 * a.Right.Share, "mean_liking": a.Right.Mean},
		"too_little": sideForm(a.Little), "too_much": sideForm(a.Much),
		"total_penalty": a.Total, "jar_mean_minus_overall": a.Right.Mean - a.Mean,
		"regression": object{
			"sigma": a.Sigma, "df": a.DF, "drop": []float64{a.Little.Drop, a.Much.Drop},
			"se": []float64{a.Little.SE, a.Much.SE}, "p": []float64{a.Little.P, a.Much.P},
		},
		"direction_sign_test_p": a.Direction,
	}
}

func chiForm(c ChiSquare) object { return object{"chi2": c.Chi2, "df": c.DF, "p": c.P} }

func TestPenaltiesOfTheReference(t *testing.T) {
	var in struct {
		Data struct {
			Attr1, Attr2, Attr3 []int
			Liking              []float64
		}
		Table Table `json:"jar_table_version1_rows_version2_cols"`
	}
	f := read(t, "jar_penalty", &in)
	d := in.Data
	r, err := Analyse(d.Liking, Question{"attr1", d.Attr1}, Question{"attr2", d.Attr2}, Question{"attr3", d.Attr3})
	if err != nil {
		t.Fatal(err)
	}
	var attributes []object
	for _, a := range r.Attributes {
		attributes = append(attributes, attributeForm(a))
	}
	c, err := in.Table.Compare()
	if err != nil {
		t.Fatal(err)
	}
	f.Hold(t, object{
		"n": len(d.Liking), "attributes": attributes,
		"stuart_maxwell": chiForm(c.Marginal), "bowker": chiForm(c.Symmetry),
	})
}

func TestNobodyFoundItJustRight(t *testing.T) {
	r, err := Analyse([]float64{5, 6, 5, 4}, Question{"salt", []int{1, 2, 4, 5}})
	if err != nil {
		t.Fatal(err)
	}
	a := r.Attributes[0]
	if !math.IsNaN(a.Little.Drop) || !math.IsNaN(a.Much.Drop) || !math.IsNaN(a.Total) || !math.IsNaN(a.Little.Holm) {
		t.Errorf("a drop from nobody: %+v", a)
	}
	said := say(r.Explain())
	if !strings.Contains(said, "nobody to compare") || strings.Contains(said, "points") {
		t.Error(said)
	}
}

// TestByHand: three just right (mean 7), two too little (mean 4), one too much
// (5), of six: mean 17/3, penalties 1 and 1/3, together 7 - 17/3.
func TestByHand(t *testing.T) {
	r, err := Analyse([]float64{6, 7, 8, 3, 5, 5, 9}, Question{"salt", []int{3, 3, 3, 1, 2, 4, 0}})
	if err != nil {
		t.Fatal(err)
	}
	a := r.Attributes[0]
	// Welch by hand: variances 1/3 and 2/2, t = 3/sqrt(4/3), df = (16/9)/(1/18+1).
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"answered", float64(a.N), 6},
		{"blank", float64(a.Blank), 1},
		{"drop", a.Little.Drop, 3},
		{"penalty", a.Little.Penalty, 1},
		{"other penalty", a.Much.Penalty, 1. / 3},
		{"total", a.Total, 7 - 17./3},
		{"t", a.Little.Welch.T, 3 / math.Sqrt(4./3)},
		{"df", a.Little.Welch.DF, 16. / 9 / (1./18 + 1)},
		{"sigma", a.Sigma, math.Sqrt(4. / 3)},
		{"direction", a.Direction, 1},
		{"Holm over the one test there is", a.Little.Holm, a.Little.Welch.P},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	if !math.IsNaN(a.Much.Welch.P) || !math.IsNaN(a.Much.Low) || !a.Little.Flag || a.Much.Flag || !a.Much.Few {
		t.Errorf("a side of one: %+v", a.Much)
	}
	a.Little.Penalty += 0.01
	a.Total += 0.01
	if a.AddsUp() {
		t.Error("spoilt figures add up")
	}
}

func TestPenaltiesAlwaysAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	for range 500 {
		n := 2 + r.IntN(40)
		liking, answers := make([]float64, n), make([]int, n)
		for i := range n {
			liking[i], answers[i] = float64(1+r.IntN(9)), r.IntN(6)
		}
		res, err := Analyse(liking, Question{"x", answers})
		var p *problem.Error
		if err != nil {
			if !errors.As(err, &p) || !strings.Contains(err.Error(), "the same") {
				t.Fatal(err)
			}
			continue
		}
		a := res.Attributes[0]
		if a.Right.N > 0 && math.Abs(a.Total-(a.Right.Mean-a.Mean)) > 1e-12 {
			t.Errorf("%v %v: %v", liking, answers, a.Total)
		}
		if s := say(res.Explain()); strings.ContainsAny(s, "[]?{}") || strings.Contains(s, "NaN") {
			t.Errorf("said %q", s)
		}
	}
}

// TestStuartMaxwellClosedForm holds it to d'S^-1 d over two of three answers.
func TestStuartMaxwellClosedForm(t *testing.T) {
	for _, row := range []Table{{{9, 14, 2}, {4, 22, 3}, {1, 2, 3}}, {{0, 1, 0}, {5, 2, 7}, {3, 0, 1}}, {{1, 0, 4}, {2, 2, 0}, {0, 0, 0}}} {
		var d [2]float64
		var s [2][2]float64
		for i := range 2 {
			m := row.mcnemar(i)
			d[i] = float64(m.First - m.Second)
			s[i][i] = float64(m.First + m.Second - 2*row[i][i])
			s[i][1-i] = -row.moved(i, 1-i)
		}
		det := s[0][0]*s[1][1] - s[0][1]*s[1][0]
		want := (d[0]*d[0]*s[1][1] - 2*d[0]*d[1]*s[0][1] + d[1]*d[1]*s[0][0]) / det
		if got := row.stuartMaxwell(); math.Abs(got.Chi2-want) > 1e-12*want || got.DF != 2 {
			t.Errorf("%v: %+v, want %v", row, got, want)
		}
	}
	one := Table{{5, 6, 0}, {1, 4, 0}, {0, 0, 3}}
	if got := one.stuartMaxwell(); got.DF != 1 || math.Abs(got.Chi2-25./7) > 1e-12 {
		t.Errorf("one pair only: %+v", got)
	}
}

func TestComparison(t *testing.T) {
	first := []int{1, 2, 2, 2, 1, 2, 3, 3, 4, 2, 2, 0}
	second := []int{3, 3, 3, 3, 3, 3, 3, 2, 3, 3, 2, 3}
	c, err := Compare(first, second)
	if err != nil {
		t.Fatal(err)
	}
	// 8 gained, 1 lost: exact two-sided 2 (1 + 9)/512.
	if c.N != 11 || c.Blank != 1 || c.Right.Gained != 8 || c.Right.Lost != 1 || math.Abs(c.Right.P-20./512) > 1e-14 {
		t.Errorf("%+v", c)
	}
	said := say(c.Explain("salt"))
	for _, want := range []string{"just right for 2 of 11", "for 9 in the second", "for more people", "9 tasters changed"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q lacks %q", said, want)
		}
	}
	same, err := Compare(first, first)
	if err != nil || !math.IsNaN(same.Marginal.P) || same.Right.P != 1 {
		t.Errorf("nobody changed: %+v %v", same, err)
	}
	if said := say(same.Explain("salt")); !strings.Contains(said, "Nobody changed") {
		t.Error(said)
	}
}

func TestFaults(t *testing.T) {
	ok := []int{3, 2, 4}
	for _, row := range []struct {
		name, want string
		liking     []float64
		answers    []int
	}{
		{"empty", "no tasters", nil, nil},
		{"one taster", "one taster", []float64{6}, []int{3}},
		{"all equal", "liked it the same", []float64{6, 6, 6}, ok},
		{"NaN", "taster 2", []float64{6, math.NaN(), 6}, ok},
		{"infinite", "taster 1", []float64{math.Inf(-1), 5, 6}, ok},
		{"lengths", "2 answers for 3", []float64{6, 7, 8}, ok[:2]},
		{"a six", "6 is no answer", []float64{6, 7, 8}, []int{3, 6, 1}},
		{"below", "-1 is no answer", []float64{6, 7, 8}, []int{3, -1, 1}},
	} {
		t.Run(row.name, func(t *testing.T) {
			r, err := Analyse(row.liking, Question{"salt", row.answers})
			fault(t, r == nil, err, row.want)
		})
	}
	r, err := Analyse([]float64{5, 6})
	fault(t, r == nil, err, "no question")
	c, err := Compare([]int{3}, []int{3, 2})
	fault(t, c == nil, err, "1 answers")
	c, err = Compare([]int{3, 9}, []int{3, 2})
	fault(t, c == nil, err, "the first version, taster 2: 9 is no answer")
	c, err = Compare([]int{3, 0}, []int{3, 2})
	fault(t, c == nil, err, "fewer than two")
	c, err = Table{{-1, 5, 5}}.Compare()
	fault(t, c == nil, err, "not a number of tasters")
}

func fault(t *testing.T, none bool, err error, want string) {
	t.Helper()
	var p *problem.Error
	if !none || !errors.As(err, &p) || !strings.Contains(err.Error(), want) {
		t.Errorf("got %v, want %q", err, want)
	}
}

func TestSaid(t *testing.T) {
	liking, answers := []float64{}, []int{}
	add := func(n, answer int, scores ...float64) {
		for i := range n {
			answers = append(answers, answer)
			liking = append(liking, scores[i%len(scores)])
		}
	}
	add(20, 3, 7, 8, 7, 6)
	add(14, 2, 5, 6, 4, 5)
	add(3, 4, 7, 8, 6)
	r, err := Analyse(liking, Question{"salt", answers})
	if err != nil {
		t.Fatal(err)
	}
	said := say(r.Explain())
	for _, want := range []string{
		"salt: 20 of 37 tasters found it just right, 14 too little, 3 too much.",
		"The 14 who found too little (38 %) liked the dish 1.9 points less",
		"more than chance would do", "one taster in five says so", "few people", "do not prove",
		"More tasters ask for more of it than for less: 14 against 3.",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("%q lacks %q", said, want)
		}
	}
	if _, err := json.Marshal(r.Explain()); err != nil {
		t.Error(err)
	}
}

func say(phrases []words.Phrase) string {
	var out []string
	for _, p := range phrases {
		out = append(out, p.String())
	}
	return strings.Join(out, " ")
}
