package sheets

import (
	"math"
	"strings"
	"testing"

	"parewell/analysis/ledger"
	"parewell/analysis/sensory"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

func TestResultsOfLiking(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	r := NewResults(g.book, "t1")
	if r.Kind() != ResultsRated || len(r.Asked()) != 2 {
		t.Fatalf("%s %v %v", r.Kind(), r.Asked(), r.Err)
	}
	overall := r.Asked()[0]
	said := r.Says(overall)
	if !strings.Contains(said.Head, "C scored") || !strings.HasSuffix(said.Head, ". All 12 planned tasters answered.") || len(said.More) != 4 || !strings.Contains(said.More[0], "95 % range") {
		t.Errorf("%+v", said)
	}
	l, err := NewLedger(g.book, g.book.Recipe("r"))
	if err != nil {
		t.Fatal(err)
	}
	table, err := ledger.Judge(l.evidence[overall], food.EnergyKcal.Key())
	if err != nil || len(table.Wholes) != 3 {
		t.Fatalf("%+v %v", table, err)
	}
	for i := range table.Wholes { // as Keep or drop says it of the same scores
		if line := table.Wholes[i].Line().String(); !strings.Contains(said.More[3], line) {
			t.Errorf("%q is not in %q", line, said.More[3])
		}
	}
	if r.Says("Flavour").More != nil && strings.Contains(strings.Join(r.Says("Flavour").More, " "), "your limit") {
		t.Error("the limit is of how much the dish is liked")
	}
	if !strings.Contains(strings.Join(said.Notes, " "), "19 of 20") {
		t.Errorf("nothing says what a 95 %% range is: %v", said.Notes)
	}
	for _, s := range append([]string{said.Head}, append(said.More, said.Notes...)...) {
		if low := strings.ToLower(s); strings.Contains(low, "significant") || strings.Contains(low, "no difference") {
			t.Errorf("%q", s)
		}
	}
	d := r.ScoresData(overall, "")
	if d.Limit != 0.5 || len(d.Rows) != 4 || !d.Rows[0].Original || d.Rows[1].Letter != "A" {
		t.Errorf("%+v", d)
	}
	if _, err := charts.ScoresChart(d); err != nil {
		t.Error(err)
	}
	if r.ScoresData("Flavour", "").Limit != 0 {
		t.Error("the limit is drawn for flavour")
	}
	if _, err := charts.SpreadChart(r.SpreadData(overall, "")); err != nil {
		t.Error(err)
	}
	n := r.Numbers(overall)
	if len(n) != 4 || len(n[0].Sheet.Rows) != 4 || len(n[1].Sheet.Rows) != 3 || len(n[2].Sheet.Rows) != 6 || len(n[3].Sheet.Rows) < 4 {
		t.Errorf("%+v", n)
	}
	if len(r.CSV()) != 1+2*(4+3+6) {
		t.Errorf("%d rows", len(r.CSV()))
	}
}

func TestATasterIsSetAsideAndTheResultSaysSo(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	p := NewResults(g.book, "t1").Panel(words.Say("plan.overall"))
	if len(p.Tasters) != 12 || p.Sheet.Rows[0].Cells[4].Text != "counts" {
		t.Fatalf("%+v", p)
	}
	if c := p.Sheet.Rows[0].Cells[3]; c.Text != "too few samples (4)" { // as the sentence says, and no number that claims more
		t.Errorf("%+v, %v", c, NewResults(g.book, "t1").TasterSays(words.Say("plan.overall"), p.Tasters[0]))
	}
	g.do(tasting.SetAside("t1", p.Tasters[0], "had a cold", "2026-03-05"))
	r := NewResults(g.book, "t1")
	p = r.Panel(words.Say("plan.overall"))
	if c := p.Sheet.Rows[0]; !c.Label.Struck || c.Cells[4].Text != "set aside: had a cold" || c.Cells[0].Text != "–" {
		t.Errorf("%+v", c)
	}
	if d := r.ScoresData(r.Asked()[0], ""); d.Rows[0].N != 11 {
		t.Errorf("still %d scores", d.Rows[0].N)
	}
	if head := r.Says(r.Asked()[0]).Head; !strings.Contains(head, "All 12 planned tasters answered. Set aside, and not counted here: "+g.book.Panelist(p.Tasters[0]).Code+" (on 5 Mar 2026).") {
		t.Errorf("beside the answer: %q", head)
	}
	if notes := strings.Join(r.Says(r.Asked()[0]).Notes, " "); !strings.Contains(notes, "had a cold") {
		t.Errorf("%q", notes)
	}
}

func TestResultsOfJustRight(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", func(f *PlanFields) { f.Test, f.Attributes = string(sensory.JustRight), "Saltiness" }, func(s *recipes.Sample, taster, cup int) map[string]float64 {
		said := 3.0
		if s.Version == "C" && taster%2 == 0 {
			said = 2
		}
		return map[string]float64{words.Say("plan.overall"): 5 + said + math.Max(0, wobble(taster, cup)-1), "Saltiness": said}
	})
	r := NewResults(g.book, "t1")
	if a := r.Asked(); len(a) != 2 || !r.IsRight("Saltiness") {
		t.Fatalf("%v %v", a, r.Err)
	}
	said := r.Says("Saltiness")
	if !strings.Contains(said.Head, "C 6 of 12") || len(said.More) != 5 {
		t.Errorf("%+v", said)
	}
	d := r.RightsData("Saltiness", "")
	if len(d.Rows) != 4 || d.Rows[3].Counts != [5]int{0, 6, 6, 0, 0} {
		t.Errorf("%+v", d)
	}
	if _, err := charts.JustRightChart(d); err != nil {
		t.Error(err)
	}
}

// answerTrays has every taster answer a test of trays; right says who was right.
func (g *evening) answerTrays(test string, limit string, right func(taster int) bool) {
	g.t.Helper()
	f := NewPlan(g.book, g.book.Recipe("r"), "2026-03-04")
	f.Test, f.Versions = test, map[recipes.ID]int{"A": 1}
	if limit != "" {
		f.Similar, f.Limit = true, limit
	}
	p := ReadPlan(f, &recipes.Tasting{ID: "t1", Recipe: "r", Seed: 7}, g.book, g.id)
	if !p.Ready() {
		g.t.Fatal(p.Faults)
	}
	g.do(tasting.Put(p.Tasting, p.Samples))
	g.do(tasting.Begin("t1"))
	for i, seat := range g.book.Tasting("t1").Seats {
		g.do(tasting.Record("t1", g.id, tasting.Answer{Seat: seat.Number, Source: recipes.FromPaper, Scores: map[string]float64{recipes.AskChoice: float64(picked(seat, right(i)))}}))
	}
	g.do(tasting.Close("t1", "2026-03-04T21:00:00Z", ""))
}

// picked is the code of the odd cup, or of another one.
func picked(seat recipes.Seat, odd bool) int {
	count := map[recipes.ID]int{}
	for _, c := range seat.Cups {
		count[c.Sample]++
	}
	for _, c := range seat.Cups {
		if (count[c.Sample] == 1) == odd {
			return c.Code
		}
	}
	return 0
}

func TestResultsOfTheOddOneOut(t *testing.T) {
	for _, row := range []struct {
		name  string
		right int // of 12
		limit string
		want  string
	}{
		{"found", 9, "", "do notice"},
		{"not settled", 5, "", "does not settle"},
		{"alike", 1, "0.5", "alike enough"},
	} {
		t.Run(row.name, func(t *testing.T) {
			g := newEvening(t)
			g.answerTrays(string(sensory.Triangle), row.limit, func(i int) bool { return i < row.right })
			r := NewResults(g.book, "t1")
			if r.Kind() != ResultsTrays {
				t.Fatal(r.Err)
			}
			said := r.Says("")
			if !strings.Contains(said.Head, row.want) || strings.Contains(strings.Join(said.More, " "), "d-prime") {
				t.Errorf("%+v", said)
			}
			if n := r.Numbers(""); len(n) != 1 || len(n[0].Sheet.Rows) != 4 || row.right > 4 && !strings.Contains(n[0].Caption, "d-prime") {
				t.Errorf("%+v", n)
			}
			d, ok := r.CountData("")
			if !ok || d.Rows[0].Right != row.right || d.Rows[0].N != 12 || d.Rows[0].Needed != 8 {
				t.Errorf("%+v", d)
			}
			if (d.Rows[0].AtMost >= 0) != (row.limit != "") {
				t.Errorf("at most %d", d.Rows[0].AtMost)
			}
			if _, err := charts.RightChart(d); err != nil {
				t.Error(err)
			}
			if len(r.CSV()) != 2 {
				t.Errorf("%v", r.CSV())
			}
		})
	}
}

// Nothing is said that only bad luck in guessing suggests, and which of two is
// preferred is said of dishes and never of right answers.
func TestWhatGuessingCannotTell(t *testing.T) {
	g := newEvening(t)
	g.answerTrays(string(sensory.Triangle), "", func(int) bool { return false })
	if head := NewResults(g.book, "t1").Says("").Head; !strings.Contains(head, "fewer answers are right than guessing") || strings.Contains(head, "0 %") {
		t.Error(head)
	}
	g = newEvening(t)
	g.answerTrays(string(sensory.Preference), "", func(int) bool { return true })
	said := NewResults(g.book, "t1").Says("")
	if all := strings.Join(said.More, " "); strings.Contains(all, "right") || !strings.HasPrefix(said.More[0], "“The first” is") {
		t.Error(said.More)
	}
}

func TestResultsOfARanking(t *testing.T) {
	for _, row := range []struct {
		name string
		rank func(taster, place int) int
		want string
	}{
		{"all agree", func(_, place int) int { return place }, "in this order: the original (mean place 1), A"},
		{"all differ", func(taster, place int) int { return (taster+place)%4 + 1 }, "do not settle an order"},
	} {
		t.Run(row.name, func(t *testing.T) {
			g := newEvening(t)
			g.hold("t1", func(f *PlanFields) { f.Test = string(sensory.Ranking) }, func(s *recipes.Sample, taster, _ int) map[string]float64 {
				place := map[recipes.ID]int{"": 1, "A": 2, "B": 3, "C": 4}[s.Version]
				return map[string]float64{recipes.AskRank: float64(row.rank(taster, place))}
			})
			r := NewResults(g.book, "t1")
			if r.Kind() != ResultsRanked {
				t.Fatal(r.Err)
			}
			if said := r.Says(""); !strings.Contains(said.Head, row.want) {
				t.Errorf("%+v", said)
			}
			if n := r.Numbers(""); len(n) != 1 || len(n[0].Sheet.Rows) != 4 {
				t.Errorf("%+v", n)
			}
		})
	}
}

func TestResultsFromHomeAreFromMemory(t *testing.T) {
	g := newEvening(t)
	f := NewPlan(g.book, g.book.Recipe("r"), "2026-03-04")
	f.Test, f.Versions, f.Original = recipes.TestHome, map[recipes.ID]int{"A": 1}, false
	p := ReadPlan(f, &recipes.Tasting{ID: "t1", Recipe: "r", Seed: 7}, g.book, g.id)
	if !p.Ready() {
		t.Fatal(p.Faults)
	}
	g.do(tasting.Put(p.Tasting, p.Samples))
	g.do(tasting.Begin("t1"))
	for i, seat := range g.book.Tasting("t1").Seats[:3] {
		g.do(tasting.Record("t1", g.id, tasting.Answer{Seat: seat.Number, Code: seat.Cups[0].Code, Source: recipes.FromPaper, Date: "2026-03-0" + words.Trim(float64(5+i), 0), Scores: map[string]float64{
			recipes.AskAgain: float64(i % 2), recipes.AskLeft: 0, recipes.AskAsWritten: 1, recipes.AskMissed: 0,
		}}))
	}
	r := NewResults(g.book, "t1")
	if r.Kind() != ResultsHome {
		t.Fatal(r.Kind(), r.Err)
	}
	said := r.Says("")
	if said.Head != "1 of 3 would have it again." || len(said.Notes) != 1 || !strings.Contains(said.Notes[0], "From memory and not blind") {
		t.Errorf("%+v", said)
	}
	d, ok := r.HomeData("")
	if !ok || len(d.Dates) != 3 {
		t.Errorf("%+v", d)
	}
	if _, err := charts.HomeChart(d); err != nil {
		t.Error(err)
	}
}

// After a score entered late the answer says that the result had been seen.
func TestALateScoreIsToldBesideTheAnswer(t *testing.T) {
	g := newEvening(t)
	g.hold("t1", nil, liking)
	head := func() string {
		r := NewResults(g.book, "t1")
		return r.Says(r.Asked()[0]).Head
	}
	if said := head(); strings.Contains(said, "had been seen") {
		t.Errorf("nothing was entered since: %q", said)
	}
	at := g.book.Tasting("t1")
	seat := at.Seats[0]
	g.do(tasting.Record("t1", func() recipes.ID { return "late1" }, tasting.Answer{
		Seat: seat.Number, Code: seat.Cups[0].Code, Scores: map[string]float64{words.Say("plan.overall"): 1}, Source: recipes.FromFile, At: "2026-03-06T10:00:00Z", Why: "found under the tray",
	}))
	if said := head(); !strings.Contains(said, "The result had been seen when one answer was entered or changed (on 6 Mar 2026).") {
		t.Errorf("%q", said)
	}
	r := NewResults(g.book, "t1")
	if notes := strings.Join(r.Says(r.Asked()[0]).Notes, " "); !strings.Contains(notes, "One correction was made after the tasting of") {
		t.Errorf("%q", notes)
	}
}
