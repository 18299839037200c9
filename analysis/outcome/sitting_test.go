package outcome_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

// hall is a made-up soup with a version and tasters, to hold tastings of.
type hall struct {
	testing.TB
	book *recipes.Book
	n    int
}

func (h *hall) id() recipes.ID { h.n++; return recipes.ID(fmt.Sprintf("id%06d", h.n)) }

func (h *hall) do(v recipes.Verb) {
	h.Helper()
	c, err := v(h.book)
	if err == nil {
		h.book, err = h.book.With(c)
	}
	if err != nil {
		h.Fatal(err)
	}
}

func newHall(tb testing.TB, tasters int) *hall {
	h := &hall{TB: tb, book: &recipes.Book{}}
	cream := &food.Food{Ref: food.Ref{Source: "test", Code: "1"}, Name: "Cream", Allergens: food.Allergens{Recorded: true}}
	cream.Per100.Set(food.EnergyKcal, 400)
	h.do(recipes.AddRecipe(&recipes.Recipe{ID: "r", Title: "Soup", Servings: 2, ServingsFrom: recipes.ServingsStated, Edition: 1, Lines: []*recipes.Line{
		{ID: "l", Text: "cream", Name: "cream", Grams: 100, GramsFrom: recipes.GramsWeight, Food: cream.Ref, PartEaten: 1},
	}}, []*food.Food{cream}))
	h.do(recipes.AddVersion("r", "A", "", ""))
	h.do(recipes.AddSwap(&recipes.Swap{ID: "half", Recipe: "r", Name: "half the cream", Ops: []recipes.Op{{Kind: recipes.OpMultiply, Line: "l", Factor: 0.5}}}, nil, "A"))
	for i := range tasters {
		h.do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID(fmt.Sprint("p", i)), Code: fmt.Sprintf("P%02d", i), Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
	return h
}

// hold serves the original and A to n tasters and records what say gives of each
// seat; then it closes.
func (h *hall) hold(id recipes.ID, test string, n int, say func(seat *recipes.Seat) []tasting.Answer) {
	h.Helper()
	d, err := sensory.Plan(sensory.Ask{Test: sensory.Test(test), Samples: 2, Panelists: n, Seed: 5})
	if err != nil {
		h.Fatal(err)
	}
	samples := []*recipes.Sample{{ID: id + "o"}, {ID: id + "a", Version: "A"}}
	var ids, people []recipes.ID
	for i, s := range samples {
		s.Code = d.SampleCode(i)
		ids = append(ids, s.ID)
	}
	for i := range n {
		people = append(people, recipes.ID(fmt.Sprint("p", i)))
	}
	t := &recipes.Tasting{ID: id, Recipe: "r", Date: "2026-03-04", Test: test, Limit: 0.5, Seats: d.Seats(ids, people)}
	if test == recipes.TestLiking {
		t.Attributes = []recipes.Attribute{{Name: "Overall", Kind: recipes.AskLiking}}
	}
	h.do(tasting.Put(t, samples))
	h.do(tasting.Begin(id))
	var all []tasting.Answer
	for i := range t.Seats {
		for _, a := range say(h.book.Tasting(id).Seat(i + 1)) {
			a.Seat, a.Source = i+1, recipes.FromPaper
			all = append(all, a)
		}
	}
	h.do(tasting.Record(id, h.id, all...))
	h.do(tasting.Close(id, "2026-03-04T21:00:00Z", "test"))
}

// 18 of 36 right in a triangle test: p = 0.0266 exactly (binomial with 1/3; the
// case of analysis/sensory's reference table).
func TestATriangleIsCountedFromItsTrays(t *testing.T) {
	h := newHall(t, 36)
	h.hold("t", "triangle", 36, func(seat *recipes.Seat) []tasting.Answer {
		count := map[recipes.ID]int{}
		for _, c := range seat.Cups {
			count[c.Sample]++
		}
		right := seat.Number%2 == 0
		for _, c := range seat.Cups {
			if (count[c.Sample] == 1) == right {
				return []tasting.Answer{{Scores: map[string]float64{recipes.AskChoice: float64(c.Code)}}}
			}
		}
		return nil
	})
	s, err := outcome.SittingOf(h.book, "t")
	if err != nil {
		t.Fatal(err)
	}
	if c := s.Counted; c == nil || c.N != 36 || c.Correct != 18 || math.Abs(c.PDifference-sensory.AtLeast(36, 18, 1.0/3)) > 1e-12 {
		t.Errorf("%+v", s.Counted)
	}
	h.do(tasting.SetAside("t", "p1", "had a cold", "2026-03-05"))
	if s, err = outcome.SittingOf(h.book, "t"); err != nil || s.Counted.N != 35 {
		t.Errorf("one set aside: %+v %v", s.Counted, err)
	}
}

func TestNoPreferenceIsLeftOutAndTold(t *testing.T) {
	h := newHall(t, 12)
	h.hold("t", "preference", 12, func(seat *recipes.Seat) []tasting.Answer {
		v := 0.0
		for _, c := range seat.Cups {
			if seat.Number > 3 && (c.Sample == "to") == (seat.Number > 5) {
				v = float64(c.Code)
			}
		}
		return []tasting.Answer{{Scores: map[string]float64{recipes.AskChoice: v}}}
	})
	s, err := outcome.SittingOf(h.book, "t")
	if err != nil || s.None != 3 || s.Counted.N != 9 || s.Counted.Correct != 7 {
		t.Errorf("%+v %+v %v", s, s.Counted, err)
	}
}

func TestRanksAddUp(t *testing.T) {
	h := newHall(t, 7)
	h.hold("t", "ranking", 7, func(seat *recipes.Seat) []tasting.Answer {
		var out []tasting.Answer
		for _, c := range seat.Cups {
			place := 1.0
			if (c.Sample == "ta") == (seat.Number < 6) {
				place = 2
			}
			out = append(out, tasting.Answer{Code: c.Code, Scores: map[string]float64{recipes.AskRank: place}})
		}
		if seat.Number == 7 {
			return out[:1]
		}
		return out
	})
	s, err := outcome.SittingOf(h.book, "t")
	if err != nil {
		t.Fatal(err)
	}
	// Five put the original first, one the version, one ranked one cup only.
	if r := s.Ranked; r.N != 6 || r.Left != 1 || r.RankSums[0] != 7 || r.RankSums[1] != 11 || math.Abs(r.Test.Chi2-16.0/6) > 1e-9 {
		t.Errorf("%+v", s.Ranked)
	}
}

func TestRatedTastingsArePooledWithoutTheSetAside(t *testing.T) {
	h := newHall(t, 8)
	say := func(seat *recipes.Seat) []tasting.Answer {
		var out []tasting.Answer
		for _, c := range seat.Cups {
			v := 6 + float64(seat.Number%3)
			if strings.HasSuffix(string(c.Sample), "a") {
				v -= 1 + float64(seat.Number%2)
			}
			out = append(out, tasting.Answer{Code: c.Code, Scores: map[string]float64{"Overall": v}})
		}
		usual := 0.0
		for _, c := range seat.Cups {
			if strings.HasSuffix(string(c.Sample), "o") {
				usual = float64(c.Code)
			}
		}
		return append(out, tasting.Answer{Scores: map[string]float64{recipes.AskUsual: usual}})
	}
	h.hold("t1", recipes.TestLiking, 8, say)
	h.hold("t2", recipes.TestLiking, 6, say)
	p, err := outcome.PoolOf(h.book, "r")
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Table.Scores) != 28 || p.Panelists() != 8 || !p.Peeked || p.Limit != 0.5 || len(p.Swaps) != 1 || len(p.Notes()) != 4 {
		t.Errorf("%d scores, %d tasters, %+v, %q", len(p.Table.Scores), p.Panelists(), p, p.Notes())
	}
	if k := p.Knew[0]; !k.Told() || k.Right != 8 || k.Chance != 0.5 {
		t.Errorf("%+v", k)
	}
	h.do(tasting.SetAside("t1", "p0", "burnt tongue", "2026-03-05"))
	if p, _ = outcome.PoolOf(h.book, "r"); len(p.Table.Scores) != 26 || len(p.Aside) != 1 {
		t.Errorf("%d scores with one set aside", len(p.Table.Scores))
	}
	h.do(recipes.ChangeDish("", h.id, recipes.SetServings("r", 3)))
	if _, err := outcome.PoolOf(h.book, "r"); err == nil {
		t.Error("scores of the old edition went to the new one")
	}
}

func TestNothingIsToldBeforeClosing(t *testing.T) {
	h := newHall(t, 4)
	if _, err := outcome.PoolOf(h.book, "r"); err == nil {
		t.Error("a pool of nothing")
	}
	t2 := &recipes.Tasting{ID: "t", Recipe: "r", Date: "2026-03-04", Test: "triangle", Seats: []recipes.Seat{
		{Number: 1, Panelist: "p0", Cups: []recipes.Cup{{Sample: "o", Code: 482}, {Sample: "a", Code: 619}, {Sample: "o", Code: 275}}},
	}}
	h.do(tasting.Put(t2, []*recipes.Sample{{ID: "o", Code: "482"}, {ID: "a", Version: "A", Code: "619"}}))
	h.do(tasting.Begin("t"))
	if _, err := outcome.SittingOf(h.book, "t"); err == nil {
		t.Error("an open tasting told its result")
	}
}

func TestHomeAnswersAreKeptByDay(t *testing.T) {
	h := newHall(t, 3)
	plan := &recipes.Tasting{ID: "t", Recipe: "r", Date: "2026-03-04", Test: recipes.TestHome}
	for i := range 3 {
		plan.Seats = append(plan.Seats, recipes.Seat{Number: i + 1, Panelist: recipes.ID(fmt.Sprint("p", i)), Cups: []recipes.Cup{{Sample: "a", Code: 482}}})
	}
	h.do(tasting.Put(plan, []*recipes.Sample{{ID: "a", Version: "A", Code: "482"}}))
	h.do(tasting.Begin("t"))
	for i, date := range []string{"2026-03-10", "2026-03-10", "2026-03-17"} {
		h.do(tasting.Record("t", h.id, tasting.Answer{Seat: i + 1, Code: 482, Date: date, Source: recipes.FromPaper, Note: "nice", Scores: map[string]float64{
			recipes.AskAsWritten: 1, recipes.AskLeft: float64(i), recipes.AskAgain: float64(i % 2), recipes.AskMissed: 0,
		}}))
	}
	s, err := outcome.SittingOf(h.book, "t")
	if err != nil || len(s.Home) != 2 {
		t.Fatalf("%+v %v", s, err)
	}
	if d := s.Home[0]; d.Again != 1 || d.NotAgain != 1 || d.Left != [3]int{1, 1, 0} || d.AsWritten != 2 || len(d.Notes) != 2 {
		t.Errorf("%+v", d)
	}
}

func TestJustRightIsReadBesideLiking(t *testing.T) {
	h := newHall(t, 10)
	d, err := sensory.Plan(sensory.Ask{Test: sensory.JustRight, Samples: 2, Panelists: 10, Seed: 5})
	if err != nil {
		t.Fatal(err)
	}
	plan := &recipes.Tasting{ID: "t", Recipe: "r", Date: "2026-03-04", Test: "just-about-right", Limit: 0.5, Attributes: []recipes.Attribute{
		{Name: "Overall", Kind: recipes.AskLiking}, {Name: "Salt", Kind: recipes.AskJustRight},
	}}
	people := make([]recipes.ID, 10)
	for i := range people {
		people[i] = recipes.ID(fmt.Sprint("p", i))
	}
	plan.Seats = d.Seats([]recipes.ID{"o", "a"}, people)
	h.do(tasting.Put(plan, []*recipes.Sample{{ID: "o", Code: d.SampleCode(0)}, {ID: "a", Version: "A", Code: d.SampleCode(1)}}))
	h.do(tasting.Begin("t"))
	for _, seat := range h.book.Tasting("t").Seats {
		for _, c := range seat.Cups {
			liking, salt := 7.0, 3.0
			if c.Sample == "a" && seat.Number > 4 { // six of ten find too little salt, and like it two points less
				liking, salt = 5, 2
			}
			h.do(tasting.Record("t", h.id, tasting.Answer{Seat: seat.Number, Code: c.Code, Source: recipes.FromPaper, Scores: map[string]float64{"Overall": liking + float64(seat.Number%2), "Salt": salt}}))
		}
	}
	h.do(tasting.Close("t", "2026-03-04T21:00:00Z", ""))
	s, err := outcome.SittingOf(h.book, "t")
	if err != nil || len(s.Rights) != 2 {
		t.Fatalf("%+v %v", s, err)
	}
	if r := s.Rights[1]; r.Counts["Salt"] != [5]int{0, 6, 4, 0, 0} || r.Result == nil || math.Abs(r.Result.Attributes[0].Little.Drop-2) > 1e-12 {
		t.Errorf("%+v", s.Rights[1])
	}
	if got := s.Report.Results[0]; len(s.Report.Results) != 1 || got.Attribute != "Overall" {
		t.Error("just about right was taken for a score")
	}
	if p, err := outcome.PanelOf(s.Pool, "Overall"); err != nil || len(p.Panelists) != 10 {
		t.Error(err)
	}
}
