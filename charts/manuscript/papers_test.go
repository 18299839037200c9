package manuscript

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// secrets are what must stand on no paper of a taster's; whole words, in any case
// but for letters of versions.
var secrets = regexp.MustCompile(`\b[ABC]\b|(?i:\b(light|lighter|healthy|reduced|new|original|oat drink|oat and thyme|double cream|half the|quarter|haddock|gratin|leek|thyme|smp\d|va|vb|vc)\b)`)

func TestTastersReadNothingOfTheVersions(t *testing.T) {
	for _, test := range []string{recipes.TestLiking, "ranking", "triangle", "duo-trio", "tetrad", "2-afc", "3-afc", "preference"} {
		n := 4
		if tasting.Trays(test) {
			n = 2
		}
		s := newSupper(t, 12)
		tt := s.plan(test, 12, n, nil)
		ask := usual()
		ask.Parts = []Part{PartInvitation, PartLabels, PartBallots}
		p := s.papers(tt, ask)
		d := PapersDocument(p, A4)
		inside(t, d)
		text := readBack(t, d)
		if found := secrets.FindAllString(text, -1); found != nil {
			t.Errorf("%s: tasters read %q", test, found)
		}
		for _, tray := range p.Trays {
			for _, code := range tray.Codes {
				if !strings.Contains(text, fmt.Sprint(code)) {
					t.Errorf("%s: no cup %d", test, code)
				}
			}
		}
		for _, table := range p.Tables() {
			var b bytes.Buffer
			if err := table.WriteCSV(&b); err != nil {
				t.Fatal(err)
			}
			if found := secrets.FindAllString(b.String(), -1); found != nil {
				t.Errorf("%s: the file %s says %q", test, table.Name, found)
			}
		}
		ask.Parts = nil
		look(t, "papers-"+test, PapersDocument(s.papers(tt, ask), Letter))
		if d.Title != "Tasting of 4 Mar 2026" {
			t.Errorf("the file is called %q", d.Title)
		}
		// the same words are found where they may stand, so the search can fail
		ask.Parts = []Part{PartRun}
		if kitchen := readBack(t, PapersDocument(s.papers(tt, ask), A4)); !secrets.MatchString(kitchen) || !strings.Contains(kitchen, words.Say("papers.kitchen-only")) {
			t.Errorf("%s: the run sheet says nothing: %s", test, kitchen)
		}
	}
}

func TestEveryKitchenPageSaysWhoItIsNotFor(t *testing.T) {
	s := newSupper(t, 24)
	ask := usual()
	for _, part := range Parts() {
		ask.Parts = []Part{part}
		d := PapersDocument(s.papers(s.plan(recipes.TestLiking, 24, 5, nil), ask), Letter)
		if len(d.Pages) == 0 {
			t.Errorf("%s: no pages", part)
		}
		for i := range d.Pages {
			if got := strings.Contains(d.Pages[i].Words(), words.Say("papers.kitchen-only")); got != part.Kitchen() {
				t.Errorf("%s, page %d: marked %v", part, i+1, got)
			}
		}
	}
}

func TestTablesFromOneSeatToSixty(t *testing.T) {
	for _, row := range []struct {
		name           string
		seats, samples int
	}{{"one seat", 1, 2}, {"a supper", 8, 4}, {"two dozen", 24, 5}, {"a hall", 60, 8}} {
		for _, paper := range []Paper{A4, Letter} {
			s := newSupper(t, row.seats)
			p := s.papers(s.plan(recipes.TestLiking, row.seats, row.samples, nil), usual())
			d := PapersDocument(p, paper)
			inside(t, d)
			if len(p.Ballots) != row.seats || len(p.Trays) != row.seats || len(p.Tests) != row.samples {
				t.Errorf("%s: %d ballots, %d trays, %d test sheets", row.name, len(p.Ballots), len(p.Trays), len(p.Tests))
			}
			for i := range d.Pages {
				if n := strings.Count(d.Pages[i].Words(), "page ") + strings.Count(d.Pages[i].Words(), "sheet "); n == 0 {
					t.Errorf("%s: page %d has no number", row.name, i+1)
				}
			}
			look(t, fmt.Sprintf("papers-%d-%s", row.seats, paper.Key), d)
		}
	}
}

// TestLongNames has names that no column holds.
func TestLongNames(t *testing.T) {
	s := newSupper(t, 3)
	long := strings.Repeat("very creamy and ", 9) + "smooth"
	word := strings.Repeat("m", 90)
	tt := s.plan(recipes.TestLiking, 3, 3, func(t *recipes.Tasting) {
		t.Attributes = append(t.Attributes, recipes.Attribute{Name: long, Kind: recipes.AskLiking}, recipes.Attribute{Name: word, Kind: recipes.AskIntensity})
		t.Cooks, t.Serves, t.Cleanser = word, long, long
	})
	for _, paper := range []Paper{A4, Letter} {
		p := s.papers(tt, PapersAsk{Vessel: long})
		p.Dish, p.Trays[0].Taster, p.Shopping[0].Food = long+word, word, long
		d := PapersDocument(p, paper)
		inside(t, d)
		look(t, "papers-long-"+paper.Key, d)
	}
}

// TestALotToAsk has more of one cup than a page holds.
func TestALotToAsk(t *testing.T) {
	s := newSupper(t, 1)
	tt := s.plan(recipes.TestLiking, 1, 2, func(t *recipes.Tasting) {
		for i := range 45 {
			t.Attributes = append(t.Attributes, recipes.Attribute{Name: fmt.Sprintf("Thing %d", i), Kind: recipes.AskLiking})
		}
	})
	d := PapersDocument(s.papers(tt, PapersAsk{Parts: []Part{PartBallots}}), Letter)
	inside(t, d)
	all := readBack(t, d)
	for i := range 45 {
		if n := len(regexp.MustCompile(fmt.Sprintf(`\bThing %d\b`, i)).FindAllString(all, -1)); n != 2 {
			t.Errorf("thing %d is asked %d times, want once a cup", i, n)
		}
	}
	for i := range d.Pages {
		if !strings.Contains(d.Pages[i].Words(), "Seat 1") {
			t.Errorf("page %d does not say whose it is", i+1)
		}
	}
}

func TestTimesAreWorkedBack(t *testing.T) {
	s := newSupper(t, 20)
	tt := s.plan(recipes.TestLiking, 20, 3, nil)
	p := s.papers(tt, usual())
	// 20 minutes' hold less 5 of rest, half a minute a cup, 3 cups: 10 trays a wave.
	if len(p.Run.Waves) != 2 || len(p.Run.Waves[0].Seats) != 10 || len(p.Run.Waves[1].Seats) != 10 {
		t.Fatalf("waves %+v", p.Run.Waves)
	}
	f := p.Run.Waves[0].Fires[0]
	// 30 cups take 15 minutes: from 19:15; out 19:10 to rest; in 18:35; oven on 18:20.
	if f.Portion != "19:15" || f.Out != "19:10" || f.In != "18:35" || f.On != "18:20" || f.Late != "19:30" || f.Minutes != "35" || f.Heat != "200 °C" {
		t.Errorf("%+v", f)
	}
	if f.Grams != "660 g" { // 10 cups x 60 g and a tenth
		t.Errorf("the wave takes %s", f.Grams)
	}
	// 15 minutes to fill, 11 to taste: the next wave a quarter of an hour later.
	if w := p.Run.Waves[1]; w.Serve != "19:45" || w.Fires[0].Out != "19:25" || w.Fires[0].On != words.Say("papers.run.still-on") {
		t.Errorf("%+v", w)
	}
	if len(p.Run.Warnings) != 0 {
		t.Errorf("warnings %q", p.Run.Warnings)
	}
	ask := usual()
	ask.PerWave = 20
	if p = s.papers(tt, ask); len(p.Run.Waves) != 1 || len(p.Run.Warnings) != 1 || !strings.Contains(p.Run.Warnings[0], "takes 35 minutes") {
		t.Errorf("one great wave: %d waves, %q", len(p.Run.Waves), p.Run.Warnings)
	}
}

func TestTimesWithoutAClock(t *testing.T) {
	s := newSupper(t, 4)
	tt := s.plan(recipes.TestLiking, 4, 2, func(t *recipes.Tasting) { t.Time = "" })
	f := s.papers(tt, PapersAsk{}).Run.Waves[0].Fires[0]
	if f.Out != "–4 min" || f.In != "–39 min" || f.On != "–54 min" {
		t.Errorf("%+v", f)
	}
	early := s.plan(recipes.TestLiking, 4, 2, func(t *recipes.Tasting) { t.Time = "00:10" })
	if f := s.papers(early, PapersAsk{}).Run.Waves[0].Fires[0]; f.In != "23:31" {
		t.Errorf("over midnight: %+v", f)
	}
	bad := *tt
	bad.Time = "half past"
	if _, err := PapersOf(s.book, &bad, nutrition.In(s.book), PapersAsk{}); err == nil || !strings.Contains(err.Error(), "no time of day") {
		t.Errorf("a time that is none: %v", err)
	}
}

// TestEveryCupIsFilled holds run sheet, labels and ballots against the seats.
func TestEveryCupIsFilled(t *testing.T) {
	s := newSupper(t, 23)
	tt := s.plan(recipes.TestLiking, 23, 5, func(t *recipes.Tasting) { t.Seats[4].Away = "ill" })
	p := s.papers(tt, usual())
	cups := map[string]int{}
	for _, w := range p.Run.Waves {
		for _, x := range w.Portions {
			cups[x.Code] += x.Cups
		}
	}
	for _, x := range s.book.Samples("t") {
		if cups[x.Code] != 22 {
			t.Errorf("%s has %d cups, want one for each who is there", x.Code, cups[x.Code])
		}
	}
	seats := map[int]bool{}
	for i, k := range p.Run.Sheet {
		seat := tt.Seat(k.Seat)
		if seat.Away != "" || seats[k.Seat] || p.Trays[i].Seat != k.Seat {
			t.Errorf("seat %d", k.Seat)
		}
		seats[k.Seat] = true
		for j, c := range k.Cups {
			if c.Code != seat.Cups[j].Code || p.Trays[i].Codes[j] != c.Code || p.Ballots[i].Cups[j] != c.Code {
				t.Errorf("seat %d, cup %d: %+v", k.Seat, j+1, c)
			}
		}
	}
}

func TestWhatIsOnHandIsStruckOff(t *testing.T) {
	s := newSupper(t, 8)
	p := s.papers(s.plan(recipes.TestLiking, 8, 4, nil), usual())
	by := map[string]Bought{}
	for _, x := range p.Shopping {
		by[x.Food] = x
	}
	if w := by["White wine"]; !w.Done || w.OnHand == "" {
		t.Errorf("wine %+v", w)
	}
	if c := by["Double cream"]; c.Done || c.OnHand != "120 g" || c.About == "" {
		t.Errorf("cream %+v", c)
	}
	if l := by["Leek"]; l.Done || !slices.Equal(l.Check, []string{"a little more leek to taste"}) || !strings.Contains(l.Buy, "or more") {
		t.Errorf("leek %+v", l)
	}
}

func TestAPromiseIsRefusedOnTastersPapers(t *testing.T) {
	s := newSupper(t, 2)
	tt := s.plan(recipes.TestLiking, 2, 2, func(t *recipes.Tasting) {
		t.Attributes = append(t.Attributes, recipes.Attribute{Name: "Light texture", Kind: recipes.AskLiking})
	})
	if _, err := PapersOf(s.book, tt, nutrition.In(s.book), PapersAsk{}); err == nil || !strings.Contains(err.Error(), "“Light” would stand on a paper that tasters read") {
		t.Errorf("got %v", err)
	}
	if _, err := PapersOf(s.book, tt, nutrition.In(s.book), PapersAsk{Parts: []Part{PartRun, PartAmounts}}); err != nil {
		t.Errorf("the kitchen may read it: %v", err)
	}
	if _, err := PapersOf(s.book, tt, nutrition.In(s.book), PapersAsk{Parts: []Part{PartRun}, Rest: -1}); err == nil {
		t.Error("a rest of less than nothing")
	}
	if _, err := Papers(&TastingPapers{Parts: []Part{"menu"}}, A4); err == nil || !strings.Contains(err.Error(), "no such paper") {
		t.Errorf("an unknown part: %v", err)
	}
}

func TestTheInvitationWarns(t *testing.T) {
	s := newSupper(t, 2)
	tt := s.plan(recipes.TestLiking, 2, 2, nil)
	ask := PapersAsk{Parts: []Part{PartInvitation}}
	text := strings.Join(strings.Fields(readBack(t, PapersDocument(s.papers(tt, ask), A4))), " ")
	for _, want := range []string{"contain or may contain: milk, fish, rye, barley or oats and sulphites", "Some samples contain alcohol", "removed at any time", "I agree to take part", "4 Mar 2026", "19:30", "Guardian"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in: %s", want, text)
		}
	}
	crumb := &food.Food{Ref: food.Ref{Source: "test", Release: "1", Code: "9"}, Name: "Light crumb"}
	s.do(recipes.AddLine("gratin", &recipes.Line{ID: "l9", Text: "crumbs", Name: "crumbs", Grams: 40, GramsFrom: recipes.GramsWeight, Food: crumb.Ref, PartEaten: 1}, "", []*food.Food{crumb}))
	text = readBack(t, PapersDocument(s.papers(tt, ask), A4))
	if !strings.Contains(text, "still being checked") || strings.Contains(strings.ToLower(text), "crumb") {
		t.Errorf("a food nobody has checked: %s", text)
	}
}

func TestTablesAsFiles(t *testing.T) {
	s := newSupper(t, 6)
	s.do(tasting.PutTaster(&recipes.Panelist{ID: "p0", Code: "=1+1", Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	p := s.papers(s.plan(recipes.TestLiking, 6, 3, nil), usual())
	var names []string
	for _, table := range p.Tables() {
		names = append(names, table.Name)
		var b bytes.Buffer
		if err := table.WriteCSV(&b); err != nil {
			t.Fatal(err)
		}
		if strings.Contains(b.String(), "[papers") || strings.Contains(b.String(), ",=1") || !strings.Contains(b.String(), "\r\n") {
			t.Errorf("%s: %s", table.Name, b.String())
		}
		for _, row := range table.Rows {
			if len(row) != len(table.Head) {
				t.Errorf("%s: a row of %d cells under %d heads", table.Name, len(row), len(table.Head))
			}
		}
	}
	want := []string{"allergens", "amounts", "shopping", "test-sheets", "run-times", "run-portions", "run-trays", "labels", "ballots"}
	if !slices.Equal(names, want) {
		t.Errorf("tables %v", names)
	}
}

func TestTheSamePapersGiveTheSameFiles(t *testing.T) {
	s := newSupper(t, 5)
	p := s.papers(s.plan(recipes.TestLiking, 5, 3, nil), usual())
	one, err1 := Papers(p, A4)
	two, err2 := Papers(p, A4)
	if err1 != nil || err2 != nil || len(one) != 2 || len(two) != 2 {
		t.Fatalf("%v %v: %d and %d files", err1, err2, len(one), len(two))
	}
	for i := range one {
		if !bytes.Equal(one[i].PDF, two[i].PDF) || !bytes.HasPrefix(one[i].PDF, []byte("%PDF-1.")) {
			t.Errorf("%s: %d and %d bytes", one[i].Reader, len(one[i].PDF), len(two[i].PDF))
		}
	}
}

// TestTheKitchensPapersAreAFileOfTheirOwn: what tasters get has no page that tells
// versions apart, and no page is in neither file.
func TestTheKitchensPapersAreAFileOfTheirOwn(t *testing.T) {
	s := newSupper(t, 4)
	tt := s.plan(recipes.TestLiking, 4, 3, nil)
	pages := func(f File) int { return bytes.Count(f.PDF, []byte("/Type /Page\n")) }
	all, err := Papers(s.papers(tt, usual()), Letter)
	if err != nil || len(all) != 2 || all[0].Reader != ForKitchen || all[1].Reader != ForTasters {
		t.Fatalf("%v: %d files", err, len(all))
	}
	if got, want := pages(all[0])+pages(all[1]), len(PapersDocument(s.papers(tt, usual()), Letter).Pages); got != want {
		t.Errorf("%d pages in two files, %d in all", got, want)
	}
	for _, part := range Parts() {
		ask := usual()
		ask.Parts = []Part{part}
		one, err := Papers(s.papers(tt, ask), Letter)
		if err != nil || len(one) != 1 || one[0].Reader != part.Reader() || part.Kitchen() && one[0].Reader == ForTasters {
			t.Errorf("%s alone: %v, %d files", part, err, len(one))
		}
	}
	if _, err := Papers(&TastingPapers{Parts: []Part{PartBallots}}, A4); err == nil {
		t.Error("ballots of nobody should be told")
	}
}

func BenchmarkPapers24Seats(b *testing.B) {
	s := newSupper(b, 24)
	t := s.plan(recipes.TestLiking, 24, 5, nil)
	for b.Loop() {
		if _, err := Papers(s.papers(t, usual()), A4); err != nil {
			b.Fatal(err)
		}
	}
}

// No paper is made while somebody who is left out still has a seat; a seat left
// empty is on none.
func TestNobodyLeftOutGetsATray(t *testing.T) {
	s := newSupper(t, 4)
	tt := s.plan("liking", 4, 3, nil)
	s.do(tasting.PutTaster(&recipes.Panelist{ID: "p1", Code: "Q2X", Asked: true, Allergens: food.Milk, Consent: "2026-03-01", Careful: recipes.No}))
	_, err := PapersOf(s.book, tt, nutrition.In(s.book), PapersAsk{})
	if err == nil || !strings.Contains(err.Error(), "Seat 2: Q2X is allergic to milk") || !strings.Contains(err.Error(), "leave the seat empty") || strings.Contains(err.Error(), "settle") {
		t.Fatalf("papers with a tray for her: %v", err)
	}
	s.do(tasting.LeaveEmpty("t", 2))
	p := s.papers(s.book.Tasting("t"), PapersAsk{})
	for _, x := range p.Trays {
		if x.Seat == 2 {
			t.Errorf("a label for the seat left empty: %+v", x)
		}
	}
	if len(p.Ballots) != 3 || len(p.Run.Sheet) != 3 || p.Pots[0].Cups != 3 {
		t.Errorf("%d ballots, %d trays on the run sheet, %d cups", len(p.Ballots), len(p.Run.Sheet), p.Pots[0].Cups)
	}
	s.do(tasting.Seat("t", 2, "p1"))
	if seat := s.book.Tasting("t").Seat(2); seat.Away != "" {
		t.Error("somebody sits there and it is still left empty")
	}
}

// The invitation names what is eaten between samples, and lists what it holds with
// the rest; a name that promises something is refused like any other.
func TestTheInvitationNamesTheCracker(t *testing.T) {
	s := newSupper(t, 4)
	tt := s.plan("triangle", 4, 2, func(x *recipes.Tasting) { x.Cleanser, x.CleanFree, x.Cleans = "sesame cracker", true, food.Sesame })
	text := strings.Join(strings.Fields(readBack(t, PapersDocument(s.papers(tt, PapersAsk{Parts: []Part{PartInvitation, PartBallots}}), A4))), " ")
	for _, want := range []string{"what is eaten between them (sesame cracker), taken together", "oats, sesame and", "Between them: sesame cracker."} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
	if strings.Contains(text, "water") {
		t.Error("water, where the plan says cracker")
	}
	n := *tt
	n.Cleanser = "lighter cracker"
	if _, err := PapersOf(s.book, &n, nutrition.In(s.book), PapersAsk{}); err == nil || !strings.Contains(err.Error(), "lighter") {
		t.Errorf("a promise between samples: %v", err)
	}
}

// A place laid late has a ballot and labels of its own; the run sheet has them all.
func TestPapersOfOneSeat(t *testing.T) {
	s := newSupper(t, 4)
	p := s.papers(s.plan("triangle", 4, 2, nil), PapersAsk{Seats: []int{3}, Parts: []Part{PartBallots, PartLabels, PartRun}})
	if len(p.Ballots) != 1 || p.Ballots[0].Seat != 3 || len(p.Trays) != 1 || p.Trays[0].Seat != 3 || len(p.Run.Sheet) != 4 {
		t.Errorf("%d ballots, %d trays, %d on the run sheet", len(p.Ballots), len(p.Trays), len(p.Run.Sheet))
	}
}
