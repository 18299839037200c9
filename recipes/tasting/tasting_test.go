package tasting_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
)

func wantError(t *testing.T, err error, part string) {
	t.Helper()
	if err == nil || !strings.Contains(err.Error(), part) {
		t.Errorf("got %v, want an error about %q", err, part)
	}
}

func TestATastingMovesForwardOnly(t *testing.T) {
	k := lay(t)
	k.plan()
	wantError(t, k.try(k.answer(1, recipes.FromPaper, 7)), "once serving has begun")
	wantError(t, k.try(tasting.Close("t", "2026-03-04T21:00:00Z", "")), "only a tasting that is serving")
	k.do(tasting.Begin("t"))
	if s := k.book.Sample("t", "sa"); s.Served == nil || len(s.Served.Swaps) != 1 || len(s.Served.Lines) != 3 || s.Served.Lines[1].Food != oat.Ref {
		t.Fatalf("A was not frozen as it is: %+v", s.Served)
	}
	wantError(t, k.try(tasting.Put(k.book.Tasting("t"), k.book.Samples("t"))), "the plan stays")
	wantError(t, k.try(tasting.Remove("t")), "the plan stays")
	for seat := 1; seat <= 3; seat++ {
		k.do(k.answer(seat, recipes.FromPaper, 7))
	}
	if n := len(tasting.Missing(k.book, k.book.Tasting("t"))); n != 3 {
		t.Errorf("%d missing, want the three cups of seat 4", n)
	}
	if _, err := tasting.Rows(k.book, "t"); err == nil {
		t.Error("scores met versions before closing")
	}
	wantError(t, k.try(tasting.Close("t", "2026-03-04T21:00:00Z", "")), "3 answers are missing")
	k.do(tasting.Away("t", 4, "went home"))
	k.do(tasting.Close("t", "2026-03-04T21:00:00Z", ""))
	rows, err := tasting.Rows(k.book, "t")
	if err != nil || len(rows) != 3*3*2 || rows[0].Taster != "AB" || rows[0].Position != 1 {
		t.Errorf("%d rows, first %+v, %v", len(rows), rows[0], err)
	}
	wantError(t, k.try(k.answer(4, recipes.FromPaper, 6)), "is closed")
}

func TestSafetyHasNoOverride(t *testing.T) {
	for _, row := range []struct {
		name   string
		change func(k *table)
		want   string
	}{
		{"allergic to the original alone", func(k *table) { taster(k, func(p *recipes.Panelist) { p.Allergens = food.Milk }) }, "allergic to milk"},
		{"allergic to a version alone, by what may be in it", func(k *table) { taster(k, func(p *recipes.Panelist) { p.Allergens = food.TreeNut }) }, "left out of the whole tasting"},
		{"never asked", func(k *table) { taster(k, func(p *recipes.Panelist) { p.Asked = false }) }, "ask CD about allergies first"},
		{"no consent", func(k *table) { taster(k, func(p *recipes.Panelist) { p.Consent = "" }) }, "has not given consent"},
		{"a food nobody looked at", func(k *table) {
			k.do(recipes.AddSwap(&recipes.Swap{ID: "crumb", Recipe: "gratin", Name: "Crumb", Ops: []recipes.Op{{Kind: recipes.OpAdd, Lines: []*recipes.Line{line("", crumb, 40)}}}}, nil, "B"))
		}, "nobody has written down which allergens these hold: Crumb"},
		{"a cleanser nobody looked at", func(k *table) {
			n := *k.book.Tasting("t")
			n.Cleanser = "crackers"
			k.do(tasting.Put(&n, tasting.InOrder(k.book, "t")))
		}, "crackers"},
	} {
		t.Run(row.name, func(t *testing.T) {
			k := lay(t)
			k.plan()
			row.change(k)
			err := k.try(tasting.Begin("t"))
			wantError(t, err, row.want)
			if left := strings.Contains(row.want, "allergic") || strings.Contains(row.want, "left out"); err != nil && strings.Contains(err.Error(), "settle this") == left && k.book.Panelist("CD").Allergens != 0 {
				t.Errorf("nobody can settle it: %v", err)
			}
			k.do(tasting.Seat("t", 2, "")) // the seat left empty is the way on for a person
		})
	}
}

func taster(k *table, edit func(*recipes.Panelist)) {
	p := *k.book.Panelist("CD")
	edit(&p)
	k.do(tasting.PutTaster(&p))
}

func TestAlcoholAsksFirst(t *testing.T) {
	wine := foodOf("9", "Wine", checked)
	wine.Per100.Set(food.Alcohol, 10)
	k := lay(t)
	k.do(recipes.AddLine("gratin", line("l9", wine, 100), "", []*food.Food{wine}))
	k.plan()
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "CD", Code: "CD", Asked: true, Consent: "2026-03-01"}))
	wantError(t, k.try(tasting.Begin("t")), "ask CD about pregnancy, age and illness first")
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "CD", Code: "CD", Asked: true, Consent: "2026-03-01", Careful: recipes.Yes}))
	wantError(t, k.try(tasting.Begin("t")), "should not have alcohol")
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "CD", Code: "CD", Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	k.do(tasting.Begin("t"))
}

func TestWhatATasterDoesNotEatIsNotServed(t *testing.T) {
	k := lay(t)
	k.plan()
	taster(k, func(p *recipes.Panelist) { p.DoesNotEat = []string{"Oats"} })
	k.do(tasting.Begin("t"))
	seat := k.book.Tasting("t").Seat(2)
	if len(seat.Cups) != 2 || slices.ContainsFunc(seat.Cups, func(c recipes.Cup) bool { return c.Sample == "sa" }) {
		t.Errorf("tray %+v still holds version A", seat.Cups)
	}
}

// Every ballot says what the plan says is taken between samples.
func TestABallotSaysWhatIsTakenBetweenSamples(t *testing.T) {
	k := lay(t)
	n := *k.plan()
	for _, test := range []string{recipes.TestLiking, "triangle", "tetrad", "ranking"} {
		n.Test, n.Cleanser = test, ""
		if b := tasting.BallotOf(&n, n.Seat(1)); !strings.Contains(b.Intro, "Sip water between them.") || b.Between != "" {
			t.Errorf("%s: %q", test, b.Intro)
		}
		n.Cleanser = "plain cracker"
		if b := tasting.BallotOf(&n, n.Seat(1)); !strings.Contains(b.Intro, "Between them: plain cracker.") || strings.Contains(b.Intro, "water") || strings.Contains(b.Intro, "sheet") || b.Between == "" {
			t.Errorf("%s: %q", test, b.Intro)
		}
	}
}

func TestTwoSourcesWaitForAChoice(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(tasting.Begin("t"))
	k.do(k.answer(1, recipes.FromPaper, 7))
	k.do(k.answer(1, recipes.FromPhone, 7))
	if d := tasting.Disagreements(k.book, k.book.Tasting("t")); len(d) != 0 {
		t.Errorf("the same answers disagree: %+v", d)
	}
	k.do(k.answer(1, recipes.FromPhone, 5)) // she may answer again
	d := tasting.Disagreements(k.book, k.book.Tasting("t"))
	if len(d) != 3 || !slices.Equal(d[0].Keys, []string{"Overall"}) || len(d[0].Servings) != 2 {
		t.Fatalf("%+v", d)
	}
	wantError(t, k.try(tasting.Close("t", "x", "early")), "3 cups have two entries that disagree")
	for _, x := range d {
		i := slices.IndexFunc(x.Servings, func(s *recipes.Serving) bool { return s.Source == recipes.FromPaper })
		k.do(tasting.Choose("t", x.Servings[i].ID))
	}
	k.do(tasting.Close("t", "x", "early"))
	rows, _ := tasting.Rows(k.book, "t")
	for _, r := range rows {
		if r.Attribute == "Overall" && r.Score != 7 {
			t.Errorf("the other entry counts: %+v", r)
		}
	}
	if len(k.book.Servings("t")) != 6 {
		t.Error("what was not chosen is not kept")
	}
}

// TestAChoiceKeepsWhatNobodyContests: choosing one entry of a cup loses no answer that
// only the other has.
func TestAChoiceKeepsWhatNobodyContests(t *testing.T) {
	k := lay(t)
	k.plan()
	n := *k.book.Tasting("t")
	n.Attributes = append(slices.Clone(n.Attributes), recipes.Attribute{Name: "Flavour", Kind: recipes.AskIntensity})
	k.do(tasting.Put(&n, tasting.InOrder(k.book, "t")))
	k.do(tasting.Begin("t"))
	cup := k.book.Tasting("t").Seat(1).Cups[0]
	say := func(source recipes.Source, scores map[string]float64) {
		k.do(tasting.Record("t", k.id, tasting.Answer{Seat: 1, Code: cup.Code, Source: source, Scores: scores}))
	}
	say(recipes.FromPaper, map[string]float64{"Overall": 6})
	say(recipes.FromFile, map[string]float64{"Overall": 7, "Flavour": 5})
	d := tasting.Disagreements(k.book, k.book.Tasting("t"))
	if len(d) != 1 || !slices.Equal(d[0].Keys, []string{"Overall"}) {
		t.Fatalf("%+v", d)
	}
	i := slices.IndexFunc(d[0].Servings, func(s *recipes.Serving) bool { return s.Source == recipes.FromPaper })
	k.do(tasting.Choose("t", d[0].Servings[i].ID))
	for _, s := range k.book.Servings("t") {
		if s.Counts() && (s.Scores["Overall"] != 6 || s.Scores["Flavour"] != 5) {
			t.Errorf("%+v", s)
		}
	}
}

func TestAnswersAreHeldAgainstTheirQuestion(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(tasting.Begin("t"))
	for _, row := range []struct {
		name string
		a    tasting.Answer
		want string
	}{
		{"no such seat", tasting.Answer{Seat: 9, Code: 482}, "there is no seat 9"},
		{"another's code", tasting.Answer{Seat: 1, Code: 111}, "no cup with the code 111"},
		{"off the scale", tasting.Answer{Seat: 1, Code: 482, Scores: map[string]float64{"Overall": 10}}, "10 does not answer “Overall”; it takes whole numbers from 1 to 9"},
		{"off the smaller scale", tasting.Answer{Seat: 1, Code: 482, Scores: map[string]float64{"Salt": 6}}, "whole numbers from 1 to 5"},
		{"half a point", tasting.Answer{Seat: 1, Code: 482, Scores: map[string]float64{"Overall": 6.5}}, "6.5 does not answer"},
		{"not asked", tasting.Answer{Seat: 1, Code: 482, Scores: map[string]float64{"Colour": 5}}, "nothing called “Colour”"},
		{"asked of the tray", tasting.Answer{Seat: 1, Code: 482, Scores: map[string]float64{"usual": 482}}, "nothing called “usual”"},
		{"the last question takes a code of the tray", tasting.Answer{Seat: 1, Scores: map[string]float64{"usual": 333}}, "333 does not answer"},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.a.Source = recipes.FromPaper
			wantError(t, k.try(tasting.Record("t", k.id, row.a)), row.want)
		})
	}
	if len(k.book.Servings("t")) != 0 {
		t.Error("something was half kept")
	}
	k.do(tasting.Record("t", k.id, tasting.Answer{Seat: 1, Scores: map[string]float64{"usual": 0}, Source: recipes.FromScreen}))
}

func TestABallotTellsNoVersionsApart(t *testing.T) {
	k := lay(t)
	plan := k.plan()
	raw, err := json.Marshal(tasting.BallotOf(plan, plan.Seat(2)))
	if err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{"ratin", "Oat", "ream", `"so`, `"sa`, `"sb`, "riginal", "Light", "lighter", "ealthy", "educed", " new"} {
		if strings.Contains(string(raw), secret) {
			t.Errorf("the ballot says %q: %s", secret, raw)
		}
	}
	if b := tasting.BallotOf(plan, plan.Seat(2)); !slices.Equal(b.Cups, []int{619, 275, 482}) || len(b.Ask) != 2 || len(b.Whole) != 1 {
		t.Errorf("%+v", b)
	}
}

func TestARemovedPersonLeavesANumber(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(tasting.Begin("t"))
	k.do(k.answer(2, recipes.FromPaper, 4))
	wantError(t, k.try(func(b *recipes.Book) (recipes.Change, error) {
		return recipes.Change{Edits: []recipes.Edit{{Before: b.Panelist("CD")}}}, nil
	}), "remove the person’s details")
	k.do(tasting.RemoveTaster("CD"))
	p := k.book.Panelist("CD")
	if !p.Removed || p.Code != "No. 1" || p.Asked || p.Consent != "" || tasting.Sittings(k.book, "CD") != 1 {
		t.Errorf("%+v", p)
	}
	k.do(tasting.Seat("t", 3, ""))
	k.do(tasting.RemoveTaster("EF"))
	if k.book.Panelist("EF") != nil {
		t.Error("one who never sat down left something")
	}
}

func TestTraysAreReadByTheirTest(t *testing.T) {
	for _, row := range []struct {
		test      string
		cups      []recipes.ID
		reference recipes.ID
		key       string
		picks     int // which cup
		right     bool
	}{
		{"triangle", []recipes.ID{"so", "sa", "so"}, "", recipes.AskChoice, 1, true},
		{"triangle", []recipes.ID{"so", "sa", "so"}, "", recipes.AskChoice, 2, false},
		{"triangle", []recipes.ID{"sa", "sa", "so"}, "", recipes.AskChoice, 2, true},
		{"duo-trio", []recipes.ID{"so", "sa"}, "sa", recipes.AskChoice, 1, true},
		{"duo-trio", []recipes.ID{"so", "sa"}, "so", recipes.AskChoice, 1, false},
		{"tetrad", []recipes.ID{"sa", "so", "sa", "so"}, "", recipes.AskPair, 2, true},
		{"tetrad", []recipes.ID{"sa", "so", "sa", "so"}, "", recipes.AskPair, 1, false},
		{"2-afc", []recipes.ID{"sa", "so"}, "", recipes.AskChoice, 1, true}, // the first planned sample has more
		{"preference", []recipes.ID{"sa", "so"}, "", recipes.AskChoice, 0, false},
	} {
		k := lay(t)
		plan := &recipes.Tasting{ID: "t", Recipe: "gratin", Date: "2026-03-04", Test: row.test}
		seat := recipes.Seat{Number: 1, Panelist: "AB", Reference: row.reference}
		for i, id := range row.cups {
			seat.Cups = append(seat.Cups, recipes.Cup{Sample: id, Code: 200 + 7*i})
		}
		plan.Seats = []recipes.Seat{seat}
		k.do(tasting.Put(plan, []*recipes.Sample{{ID: "so", Code: "200"}, {ID: "sa", Version: "A", Code: "207"}}))
		k.do(tasting.Begin("t"))
		k.do(tasting.Record("t", k.id, tasting.Answer{Seat: 1, Scores: map[string]float64{row.key: float64(200 + 7*row.picks)}, Source: recipes.FromPaper}))
		k.do(tasting.Close("t", "x", ""))
		got, err := tasting.Choices(k.book, "t", row.key)
		if err != nil || len(got) != 1 || got[0].Right != row.right {
			t.Errorf("%s %v picking cup %d: %+v %v", row.test, row.cups, row.picks, got, err)
		}
	}
}

func TestAmountsCoverEveryCup(t *testing.T) {
	k := lay(t)
	k.plan()
	for _, a := range tasting.Amounts(k.book, k.book.Tasting("t")) {
		if a.Cups != 4 || a.Grams < 263.99 || a.Grams > 264.01 { // 4 x 60 g and a tenth
			t.Errorf("%+v", a)
		}
	}
	if w := tasting.Waves(k.book.Tasting("t"), 3); len(w) != 2 || len(w[0]) != 3 || len(w[1]) != 1 {
		t.Errorf("waves %v", w)
	}
}

func TestOnlyTheServedIsFrozen(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(recipes.SetServings("gratin", 5)) // a plan freezes nothing
	k.do(tasting.Begin("t"))
	edit := recipes.Tick("gratin", "A", "less", true)
	err := k.try(edit)
	var served *recipes.ServedError
	if !errors.As(err, &served) || served.Version != "A" || served.Tasting != "t" {
		t.Fatalf("got %v", err)
	}
	k.do(recipes.RenameVersion("gratin", "A", "a new name")) // a name is no dish
	before := k.book
	k.do(recipes.ChangeDish("A", k.id, edit))
	if v := k.book.Version("gratin", "A"); !slices.Equal(v.Swaps, before.Version("gratin", "A").Swaps) {
		t.Error("the served version changed")
	}
	var made *recipes.Version
	for _, v := range k.book.Versions("gratin") {
		if before.Version("gratin", v.ID) == nil {
			made = v
		}
	}
	if made == nil || made.Letter != "C" || !made.Has("less") || !made.Has("oat") {
		t.Fatalf("the new version is %+v", made)
	}
}

func TestChangingAServedSwapMakesANewOne(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(recipes.AddVersion("gratin", "D", "", ""))
	k.do(recipes.Tick("gratin", "D", "less", true))
	k.do(tasting.Begin("t"))
	s := *k.book.Swap("gratin", "less")
	digest := s.Digest()
	s.Ops = []recipes.Op{{Kind: recipes.OpMultiply, Line: "l2", Factor: 0.25}}
	k.do(recipes.ChangeDish("B", k.id, recipes.EditSwap(&s, nil)))
	if k.book.Swap("gratin", "less").Digest() != digest {
		t.Error("one swap means two changes now")
	}
	if k.book.Version("gratin", "D").Has("less") || len(k.book.Version("gratin", "D").Swaps) != 1 {
		t.Error("a version that was not served keeps the old swap")
	}
	if !k.book.Version("gratin", "B").Has("less") || len(k.book.Versions("gratin")) != 4 {
		t.Error("the served version lost its swap, or no version was made beside it")
	}
}

func TestChangingAServedOriginalStartsAnEdition(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(tasting.Begin("t"))
	edit := recipes.SetServings("gratin", 6)
	wantError(t, k.try(edit), "the tasters had A, B and the original on 4 Mar 2026")
	k.do(recipes.ChangeDish("", k.id, edit))
	if r := k.book.Recipe("gratin"); r.Edition != 2 || r.Servings != 6 || k.book.Tasting("t").Edition != 1 {
		t.Errorf("%+v", r)
	}
	k.do(recipes.SetServings("gratin", 7)) // the new edition is not served yet
}

func TestACorrectionRenewsTheRecord(t *testing.T) {
	k := lay(t)
	k.plan()
	k.do(tasting.Begin("t"))
	l := k.book.Recipe("gratin").Line("l1").WithGrams(420)
	edit := recipes.SetLine("gratin", l, nil)
	k.do(recipes.Correct("2026-03-06T10:00:00Z", "the scales were read wrong", edit))
	for _, id := range []recipes.ID{"so", "sa", "sb"} {
		s := k.book.Sample("t", id).Served
		if s.Lines[0].Grams != 420 || len(s.Corrected) != 1 || s.Corrected[0].At != "2026-03-06T10:00:00Z" {
			t.Errorf("%s: %+v", id, s)
		}
	}
	if k.book.Recipe("gratin").Edition != 1 {
		t.Error("a correction started an edition")
	}
}
