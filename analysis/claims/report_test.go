package claims

import (
	"encoding/json"
	"strings"
	"testing"
)

func TestReportsAreJSONWhateverIsUnknown(t *testing.T) {
	vague := facts(nil, nil)
	for n := range vague.Version.PerServing {
		vague.Version.PerServing[n] = Anything
	}
	for _, f := range []Facts{vague, facts(nil, nil), {}, facts(amounts{fat: 20}, amounts{fat: 10})} {
		b, err := json.Marshal(NewReports(Judge(f), "the original"))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(b), "[claims") {
			t.Errorf("a sentence is missing in %s", b)
		}
	}
	f := facts(amounts{fat: 20}, amounts{fat: 10})
	got := newReport(new(ruling(t, f, "us.food.reduced-fat")), "the original")
	if got.Low == nil || *got.Low != 50 || *got.Threshold != 25 || *got.BasisG != 100 || got.Verdict != May || len(got.Needs) == 0 {
		t.Errorf("%+v", got)
	}
}

func BenchmarkJudge(b *testing.B) {
	f := facts(amounts{kcal: 400, fat: 30, sat: 10, na: 900, chol: 90, sugars: 20}, amounts{kcal: 200, fat: 10, sat: 3, na: 400, chol: 40, sugars: 4, fibre: 9})
	for b.Loop() {
		Judge(f)
	}
}
