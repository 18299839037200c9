package sheets

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/tasting"
)

// servingBook has a tasting of a test that is serving, with n tasters.
func servingBook(t *testing.T, n int, edit func(*PlanFields)) (*recipes.Book, func(...recipes.Verb)) {
	t.Helper()
	b := planBook(t, n)
	p := planned(b, edit)
	if !p.Ready() {
		t.Fatal(p.Faults)
	}
	do := func(verbs ...recipes.Verb) {
		t.Helper()
		for _, v := range verbs {
			c, err := v(b)
			if err != nil {
				t.Fatal(err)
			}
			next, err := b.With(c)
			if err != nil {
				t.Fatal(err)
			}
			*b = *next
		}
	}
	do(tasting.Put(p.Tasting, p.Samples), tasting.Begin("t"))
	return b, do
}

func TestTheGridOfScoresIsBlind(t *testing.T) {
	b, _ := servingBook(t, 4, func(*PlanFields) {})
	g := NewScoreGrid(b, b.Tasting("t"), recipes.FromPaper, "", "")
	codes := []int{}
	for _, c := range g.Columns {
		if c.Code != 0 && !slices.Contains(codes, c.Code) {
			codes = append(codes, c.Code)
		}
	}
	if len(codes) != 3 || !slices.IsSorted(codes) {
		t.Errorf("columns are not in the order of codes: %v", codes)
	}
	s := g.Sheet()
	for _, c := range s.Columns {
		for _, name := range []string{"riginal", "A", "B"} {
			if c.Title == name || strings.Contains(c.Title, "riginal") {
				t.Errorf("a heading tells a version: %q", c.Title)
			}
		}
	}
	if _, err := ScoresByVersion(b, b.Tasting("t")); err == nil {
		t.Error("scores by version before closing")
	}
}

func TestTypingGoesOnAlongTheTray(t *testing.T) {
	b, _ := servingBook(t, 3, func(f *PlanFields) { f.Attributes = "Flavour" })
	at := b.Tasting("t")
	g := NewScoreGrid(b, at, recipes.FromPaper, "", "")
	row, col, ok := g.First(-1, true)
	var codes []int
	for ok && row == 0 {
		codes = append(codes, g.Columns[col].Code)
		row, col, ok = g.Next(row, col, true)
	}
	var want []int
	for _, c := range at.Seats[0].Cups {
		want = append(want, c.Code, c.Code)
	}
	if want = append(want, 0); !slices.Equal(codes, want) {
		t.Errorf("%v, want %v", codes, want)
	}
	if row != 1 {
		t.Error("it does not go on to the next seat")
	}
}

func TestWhatIsTypedIsHeldAgainstTheQuestion(t *testing.T) {
	b, _ := servingBook(t, 2, func(f *PlanFields) { f.Attributes = "" })
	g := NewScoreGrid(b, b.Tasting("t"), recipes.FromPaper, "", "")
	last, cup := len(g.Columns)-1, b.Tasting("t").Seats[0].Cups[0].Code
	for _, row := range []struct {
		name     string
		col      int
		text     string
		complete bool
		fits     bool
	}{
		{"a score", 0, "9", true, true},
		{"none", 0, "0", true, false},
		{"a letter", 0, "x", true, false},
		{"a tenth", 0, "10", true, false},
		{"a code begun", last, "48", false, false},
		{"a code of the tray", last, fmt.Sprint(cup), true, true},
		{"could not tell", last, "0", true, true},
		{"no code", last, "111", true, false},
	} {
		t.Run(row.name, func(t *testing.T) {
			if got := g.Complete(row.col, row.text); got != row.complete {
				t.Errorf("complete %v", got)
			}
			if _, err := g.Fit(0, row.col, row.text); (err == nil) != row.fits {
				t.Errorf("%v", err)
			}
		})
	}
}

// The whole screen asks every test's questions, and takes what it offers.
func TestEveryTestHasABallotForTheScreen(t *testing.T) {
	for _, test := range PlanTests {
		t.Run(test, func(t *testing.T) {
			b, do := servingBook(t, 6, func(f *PlanFields) {
				f.Test = test
				if tasting.Trays(test) {
					delete(f.Versions, "B")
				}
				if test == PlanOneThing {
					f.Attributes = "Creaminess"
				}
			})
			n := 0
			fresh := func() recipes.ID { n++; return recipes.ID(fmt.Sprint("a", n)) }
			for {
				r := NewBallotRun(b, b.Tasting("t"), 1, "")
				i := r.Reached()
				if i == len(r.Steps) {
					break
				}
				if n > 40 {
					t.Fatal("it never ends")
				}
				choices := r.Choices(i)
				k := slices.IndexFunc(choices, func(c BallotChoice) bool { return !c.Taken })
				if k < 0 || r.Heading(i) == "" || r.Progress(i) == "" {
					t.Fatal("nothing to choose")
				}
				scores := map[string]float64{r.Steps[i].Ask.Key: choices[k].Value}
				for key, v := range r.Given[r.Steps[i].Code] {
					scores[key] = v
				}
				do(tasting.Record("t", fresh, tasting.Answer{Seat: 1, Code: r.Steps[i].Code, Scores: scores, Source: recipes.FromScreen}))
				n++
			}
			if slices.Contains(OwingSeats(b, b.Tasting("t")), 1) {
				t.Error("all screens are answered and an answer is owed")
			}
		})
	}
}

func TestWhatIsOnHandIsRead(t *testing.T) {
	for text, none := range map[string]bool{"": false, "0": true, "5": false} {
		if ask, _ := ReadPapers(PapersFields{Rest: text}); ask.NoRest != none {
			t.Errorf("a rest of %q: none %v", text, ask.NoRest)
		}
	}
	for _, row := range []struct {
		name, text string
		grams      float64
		wrong      bool
	}{
		{"grams", "200 g butter", 200, false},
		{"kilos", "1.5 kg butter\n", 1500, false},
		{"twice", "100 g butter; 50 g butter", 150, false},
		{"nothing", "", 0, false},
		{"no weight", "butter", 0, true},
		{"no food", "200 g", 0, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			ask, faults := ReadPapers(PapersFields{OnHand: row.text})
			if (faults[PapersHandField] != "") != row.wrong || ask.OnHand["butter"] != row.grams {
				t.Errorf("%v %v", ask.OnHand, faults)
			}
		})
	}
}

// What is on hand is struck off the list in the window too.
func TestTheShoppingList(t *testing.T) {
	s := Shopping([]manuscript.Bought{
		{Food: "Butter", Buy: "120 g", OnHand: "200 g", For: "orig., A", Done: true},
		{Food: "Leek", Buy: "300 g or more", Check: []string{"a little more leek"}, For: "A"},
	})
	if len(s.Rows) != 2 || !s.Rows[0].Label.Struck || !s.Rows[0].Cells[0].Struck || s.Rows[1].Label.Struck || s.Rows[1].Label.Text != "Leek · to check: a little more leek" {
		t.Errorf("%+v", s.Rows)
	}
}

// A planned tasting says of its panel what the planner said.
func TestAPlannedTastingSaysWhatThePanelCanShow(t *testing.T) {
	for _, test := range PlanTests {
		for _, n := range []int{1, 5, 14} {
			b := planBook(t, n)
			p := planned(b, func(f *PlanFields) {
				*f = f.For(test, b, "r", *f)
				if f.Attributes = "Creaminess"; tasting.Trays(test) {
					f.Limit = "0.3"
				}
			})
			if !p.Ready() {
				t.Fatal(test, p.Faults)
			}
			c, err := tasting.Put(p.Tasting, p.Samples)(b)
			if err != nil {
				t.Fatal(err)
			}
			if b, err = b.With(c); err != nil {
				t.Fatal(err)
			}
			said := CanShow(b, b.Tasting("t"))
			for _, s := range said {
				if !slices.ContainsFunc(p.Says, func(x Saying) bool { return x.Text == s }) {
					t.Errorf("%s, %d tasters: the planner does not say %q", test, n, s)
				}
			}
			if counted := test == recipes.TestLiking || tasting.Trays(test); counted && len(said) == 0 {
				t.Errorf("%s, %d tasters: nothing is said", test, n)
			}
			facts := PlannedFacts(b, b.Tasting("t"))
			at := slices.IndexFunc(facts.Rows, func(r Row) bool { return r.Key == "shows" })
			if (at >= 0) != (len(said) > 0) || at >= 0 && !strings.Contains(facts.Rows[at].Cells[0].Text, said[0]) {
				t.Errorf("%s, %d tasters: the page does not say it", test, n)
			}
		}
	}
}

// A closed tasting says who was away or left, and what was corrected since of its
// scores and of what was served.
func TestAClosedTastingTellsOfItsPeopleAndCorrections(t *testing.T) {
	b, do := servingBook(t, 3, func(f *PlanFields) { f.Attributes = "" })
	cup := b.Tasting("t").Seats[0].Cups[0].Code
	n := 0
	fresh := func() recipes.ID { n++; return recipes.ID(fmt.Sprint("z", n)) }
	answer := tasting.Answer{Seat: 1, Code: cup, Scores: map[string]float64{"Overall": 6}, Source: recipes.FromPaper}
	do(tasting.Record("t", fresh, answer), tasting.Away("t", 1, "called away"), tasting.Away("t", 2, "ill"), tasting.Close("t", "2026-03-04T21:00:00Z", "late"))
	facts := strings.Join(ClosedFacts(b, b.Tasting("t")), "\n")
	for _, want := range []string{"Nothing was corrected since", "left before the end: called away", "was away: ill", "answers were never given"} {
		if !strings.Contains(facts, want) {
			t.Errorf("%q is not said: %s", want, facts)
		}
	}
	answer.Scores, answer.At, answer.Why = map[string]float64{"Overall": 7}, "2026-03-06T09:00:00Z", "misread"
	cream := *b.Recipe("r").Lines[0]
	cream.Grams = 200
	do(recipes.Correct("2026-03-05T09:00:00Z", "the scales said so", recipes.SetLine("r", &cream, nil)),
		tasting.Record("t", fresh, answer))
	rows := Corrections(b, b.Tasting("t")).Rows
	var said []string
	for _, r := range rows {
		for _, c := range r.Cells {
			said = append(said, c.Text)
		}
	}
	if len(rows) != 2 || !slices.Contains(said, "the scales said so") || !slices.Contains(said, fmt.Sprintf("Seat 1, cup %d: Overall", cup)) || said[len(said)-3] != "6" || said[len(said)-2] != "7" {
		t.Errorf("%q", said)
	}
	if said := ClosedFacts(b, b.Tasting("t"))[0]; !strings.HasSuffix(said, "2 corrections since then are listed below.") {
		t.Error(said)
	}
}

// Whoever left in the middle is not away; the sum of the last question says what it
// means.
func TestWhoLeftAndWhatTheLastQuestionMeans(t *testing.T) {
	b, do := servingBook(t, 8, func(*PlanFields) {})
	at := b.Tasting("t")
	n := 0
	fresh := func() recipes.ID { n++; return recipes.ID(fmt.Sprint("u", n)) }
	one := func(seat recipes.Seat, usual int) tasting.Answer {
		return tasting.Answer{Seat: seat.Number, Scores: map[string]float64{recipes.AskUsual: float64(usual)}, Source: recipes.FromPaper}
	}
	original := func(seat recipes.Seat) int {
		for _, c := range seat.Cups {
			if s := b.Sample("t", c.Sample); tasting.Original(s) {
				return c.Code
			}
		}
		return 0
	}
	for i, seat := range at.Seats[:6] {
		code := 0 // could not tell
		if i < 4 {
			code = original(seat)
		}
		do(tasting.Record("t", fresh, one(seat, code)))
	}
	do(tasting.Away("t", 1, "called away"), tasting.Away("t", 8, "ill"))
	g := NewScoreGrid(b, b.Tasting("t"), recipes.FromPaper, "", "")
	last := func(row int) string { r := g.Sheet().Rows[row]; return r.Cells[len(r.Cells)-1].Text }
	if last(0) != "left" || last(7) != "away" {
		t.Errorf("%q %q", last(0), last(7))
	}
	do(tasting.Close("t", "2026-03-04T21:00:00Z", "test"))
	said := strings.Join(PickedSays(b, b.Tasting("t")), " ")
	if want := "One last thing: could you tell which was the usual recipe? 4 of 6 named it rightly; guessing alone would get about 1.3 right. That is more than guessing explains: read the liking with care."; said != want {
		t.Errorf("%q", said)
	}
}
