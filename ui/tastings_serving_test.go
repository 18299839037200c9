package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/ui/parts"
	"parewell/ui/sheets"
)

// serve plans a tasting, begins it and shows it.
func (k *kitchenWindow) serve(edit func(*sheets.PlanFields), codes ...string) *recipes.Tasting {
	k.t.Helper()
	r := k.setTable(codes...)
	t := k.plan(r, edit)
	k.do(tasting.Begin(t.ID))
	k.settle()
	k.showTastings(r.ID, t.ID)
	k.settle()
	t = k.book().Tasting(t.ID)
	if t.State != recipes.TastingServing {
		k.t.Fatal("serving did not begin")
	}
	return t
}

// gridAt focuses the grid at its first field.
func (k *kitchenWindow) gridAt() *scoreGrid {
	k.t.Helper()
	g := k.tastings().states[recipes.TastingServing].(*servingTasting).grid
	g.begin(-1)
	return g
}

func (k *kitchenWindow) types(text string) {
	for _, r := range text {
		if f := k.win.Canvas().Focused(); f != nil {
			f.TypedRune(r)
		}
	}
	k.settle()
}

// scoreOf is what a source says of a cup, -1 for nothing.
func (k *kitchenWindow) scoreOf(id recipes.ID, seat, code int, source recipes.Source, key string) float64 {
	s := servingOf(k.book(), id, tasting.Answer{Seat: seat, Code: code, Source: source})
	if s == nil {
		return -1
	}
	v, ok := s.Scores[key]
	if !ok {
		return -1
	}
	return v
}

// enterAnywhere presses Enter where no field has the keyboard.
func (k *kitchenWindow) enterAnywhere() {
	k.win.Canvas().Unfocus()
	k.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyReturn})
	k.settle()
}

func twoAsked(f *sheets.PlanFields) { f.Attributes = "Flavour" }

// A ballot is typed without a hand leaving the digits: they are kept at once and
// go on along the tray of the seat; what is no answer is refused in place.
func TestAPaperBallotIsTypedByDigits(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(twoAsked, "AB", "CD", "EF")
	k.picture("tastings-serving")
	g := k.gridAt()
	seat := tt.Seats[0]
	k.types("1234567") // four cups, two questions each: the last cup's second is left
	for i, c := range seat.Cups {
		if got := k.scoreOf(tt.ID, 1, c.Code, recipes.FromPaper, "Overall"); got != float64(2*i+1) {
			t.Errorf("cup %d in place %d: %v", c.Code, i+1, got)
		}
	}
	if got := k.scoreOf(tt.ID, 1, seat.Cups[3].Code, recipes.FromPaper, "Flavour"); got != -1 {
		t.Errorf("the last question was answered: %v", got)
	}
	k.types("0")
	if row, _ := g.table.Selected(); row != 0 || !strings.Contains(g.where.Text(), "“0” was not kept") {
		t.Errorf("0 is no score, but: %q", g.where.Text())
	}
	k.picture("tastings-refused")
	k.types("8")
	if got := k.scoreOf(tt.ID, 1, seat.Cups[3].Code, recipes.FromPaper, "Flavour"); got != 8 {
		t.Errorf("corrected: %v", got)
	}
	k.types("111") // no code of this tray
	if !strings.Contains(g.where.Text(), "was not kept") {
		t.Errorf("111 is no code: %q", g.where.Text())
	}
	if said := g.where.Text(); strings.Contains(said, "?:") || !strings.Contains(said, "Usual? Type") || !strings.Contains(said, fmt.Sprintf("Type one of %d, ", seat.Cups[0].Code)) || !strings.HasSuffix(said, "“I could not tell”.") {
		t.Errorf("what a code's field takes: %q", said)
	}
	k.types(strconv.Itoa(seat.Cups[1].Code))
	if got := k.scoreOf(tt.ID, 1, 0, recipes.FromPaper, recipes.AskUsual); got != float64(seat.Cups[1].Code) {
		t.Errorf("the last question: %v", got)
	}
	if row, col := g.table.Selected(); row != 1 || g.grid.Columns[col-1].Code != tt.Seats[1].Cups[0].Code {
		t.Errorf("it did not go on to the next tray: %d %d", row, col)
	}
	missing := len(tasting.Missing(k.book(), k.book().Tasting(tt.ID)))
	if missing != 2*4 {
		t.Errorf("%d cups are missing", missing)
	}
}

// What was refused is told until it is mended, no longer.
func TestARefusalIsToldUntilItIsMended(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(func(f *sheets.PlanFields) { f.Attributes = "" }, "AB")
	g := k.gridAt()
	k.types("5")
	k.Window.do(tasting.Seat(tt.ID, 99, ""))
	k.settle()
	if said := k.status.Message(); !strings.Contains(said, "no longer at the tasting") {
		t.Fatalf("a refusal: %q", said)
	}
	k.types("6")
	if said := k.status.Message(); said != "Entered 1 ballot" {
		t.Errorf("after it was mended: %q", said)
	}
	last := len(g.grid.Columns) // the last field of the table has nowhere to go on to
	g.table.Select(0, last)
	k.win.Canvas().Focus(g.table)
	k.types("111")
	if g.where.Role != parts.RoleError {
		t.Fatalf("111 is no code: %q", g.where.Text())
	}
	k.types("0")
	if g.where.Role == parts.RoleError {
		t.Errorf("the refusal stays after 0: %q", g.where.Text())
	}
}

// An answer is taken away by Delete, and typed over after Enter.
func TestAnAnswerIsTypedOver(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(twoAsked, "AB", "CD", "EF")
	g := k.gridAt()
	k.types("12345678")
	g.table.Select(0, 1)
	k.press(fyne.KeyDelete)
	k.settle()
	if got := k.scoreOf(tt.ID, 1, g.grid.Columns[0].Code, recipes.FromPaper, g.grid.Columns[0].Ask.Key); got != -1 {
		t.Errorf("an answer taken away is still there: %v", got)
	}
	g.table.Select(0, 3) // typed over: Enter opens the field, one digit closes it
	k.press(fyne.KeyReturn)
	k.types("9")
	if c := g.grid.Columns[2]; k.scoreOf(tt.ID, 1, c.Code, recipes.FromPaper, c.Ask.Key) != 9 {
		t.Error("an answer is not typed over")
	}
	k.picture("tastings-typed")
}

// A second entry starts empty; where it differs, the cook chooses.
func TestASecondEntryIsHeldAgainstTheFirst(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(func(f *sheets.PlanFields) { f.Attributes = "" }, "AB")
	k.gridAt()
	k.types("5678")
	k.pins["tastings.second"].(*parts.Check).OnChange(true)
	k.settle()
	if got := k.table("tastings.grid").Data().Rows[0].Cells[1].Text; got != "" {
		t.Fatalf("the second entry shows the first: %q", got)
	}
	k.types("5478")
	second := tt.Seats[0].Cups[1].Code
	if d := tasting.Disagreements(k.book(), k.book().Tasting(tt.ID)); len(d) != 1 || d[0].Code != second {
		t.Fatalf("%+v", d)
	}
	k.picture("tastings-second")
	pressPin(k, "tastings.close")
	k.picture("tastings-differ")
	pressPin(k, "tastings.choose.0.1")
	k.picture("tastings-settled")
	if d := tasting.Disagreements(k.book(), k.book().Tasting(tt.ID)); len(d) != 0 {
		t.Errorf("chosen, and still: %+v", d)
	}
}

// A taster answers at the machine by digits: one cup a time, no way back to
// another cup, and only the cook leaves.
func TestABallotOnTheWholeScreen(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(twoAsked, "AB", "CD")
	content := k.win.Content()
	s := k.ballotHere(tt, 0)
	k.settle()
	k.picture("ballot-seats")
	k.types("2")
	k.picture("ballot-intro")
	k.press(fyne.KeyReturn)
	k.picture("ballot-question")
	cups := tt.Seats[1].Cups
	k.types("7")
	if got := k.scoreOf(tt.ID, 2, cups[0].Code, recipes.FromScreen, "Overall"); got != 7 {
		t.Fatalf("%v", got)
	}
	if !s.run.MayGoBack(s.at) {
		t.Error("within a cup there is no way back")
	}
	k.press(fyne.KeyLeft)
	k.types("6")
	k.types("5")
	if s.run.MayGoBack(s.at) {
		t.Error("there is a way back to a cup that was answered")
	}
	k.picture("ballot-second")
	for range 6 {
		k.types("4")
	}
	k.picture("ballot-last")
	k.types("5") // could not tell: after four codes
	k.picture("ballot-thanks")
	if got := k.scoreOf(tt.ID, 2, cups[0].Code, recipes.FromScreen, "Overall"); got != 6 {
		t.Errorf("changed within the cup: %v", got)
	}
	if got := k.scoreOf(tt.ID, 2, 0, recipes.FromScreen, recipes.AskUsual); got != 0 {
		t.Errorf("could not tell: %v", got)
	}
	k.pressAnywhere(fyne.KeyEscape)
	k.picture("ballot-cook")
	k.types("wine")
	k.enterAnywhere()
	if k.win.Content() == content {
		t.Fatal("a wrong word gave the kitchen back")
	}
	k.pins["ballot.word"].(*parts.Entry).SetText("Kitchen")
	k.enterAnywhere()
	if k.win.Content() != content || k.win.MainMenu() == nil {
		t.Error("the kitchen did not come back")
	}
}

// A file of scores comes in whole or not at all.
func TestScoresFromAFile(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(twoAsked, "AB", "CD")
	code := strconv.Itoa(tt.Seats[0].Cups[0].Code)
	read := func(text string) {
		path := filepath.Join(k.dir, "scores.csv")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		k.readScores(tt, "")
		k.pins["file.name"].(*parts.Entry).SetText(path)
		k.press(fyne.KeyReturn)
		k.settle()
		k.settle()
	}
	read("panelist,sample,attribute,score\nAB," + code + ",Overall,7\nAB," + code + ",Overall,7\nAB," + code + ",Flavour,12\nZZ," + code + ",Overall,3\nCD,111,Overall,3\n")
	k.picture("tastings-bad-rows")
	if rows := k.table("tastings.bad").Data().Rows; len(rows) != 4 {
		t.Errorf("%d rows are told of: %+v", len(rows), rows)
	}
	if n := len(k.book().Servings(tt.ID)); n != 0 {
		t.Fatalf("%d servings of a bad file", n)
	}
	k.pressAnywhere(fyne.KeyEscape)
	read("panelist,sample,attribute,score\nAB," + code + ",Overall,7\n")
	if got := k.scoreOf(tt.ID, 1, tt.Seats[0].Cups[0].Code, recipes.FromFile, "Overall"); got != 7 {
		t.Errorf("%v", got)
	}
	k.picture("tastings-file")
}

// Somebody comes late, somebody takes an empty seat, somebody stays away; who
// must not taste is refused where it is asked.
func TestWhoSitsAtTheTable(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(func(f *sheets.PlanFields) { f.Attributes, f.Empty = "", "1" }, "AB")
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "late", Code: "LL", Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "unasked", Code: "UU"}))
	k.do(tasting.PutTaster(&recipes.Panelist{ID: "seated", Code: "SS", Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	k.settle()
	k.lateTaster(k.book().Tasting(tt.ID))
	k.pins["tastings.taster"].(*parts.Picker).SetKey("unasked")
	k.enterAnywhere()
	k.settle()
	k.picture("tastings-late-refused")
	n := len(tt.Seats)
	if len(k.book().Tasting(tt.ID).Seats) != n {
		t.Fatal("a taster nobody asked sat down")
	}
	k.pins["tastings.taster"].(*parts.Picker).SetKey("late")
	k.enterAnywhere()
	k.settle()
	now := k.book().Tasting(tt.ID)
	if len(now.Seats) != n+1 || now.Seats[n].Panelist != "late" || !now.Seats[n].Late || len(now.Seats[n].Cups) != 4 {
		t.Fatalf("%+v", now.Seats)
	}
	k.picture("tastings-late-papers")
	k.pressAnywhere(fyne.KeyReturn) // leads to its papers
	k.settle()
	for part, box := range map[string]bool{"ballots": true, "labels": true, "run-sheet": true, "invitation": false, "amounts": false} {
		if k.pins["papers."+part].(*parts.Check).On() != box {
			t.Errorf("%s: box %v", part, !box)
		}
	}
	k.picture("tastings-papers-seat")
	k.pressAnywhere(fyne.KeyEscape)
	k.settle()
	k.seatSomebody(now, 0)
	k.pins["tastings.taster"].(*parts.Picker).SetKey("seated")
	k.enterAnywhere()
	k.settle()
	now = k.book().Tasting(tt.ID)
	if now.SeatOf("seated") == nil {
		t.Fatal("the empty seat stays empty")
	}
	k.stayedAway(now, now.SeatOf("seated").Number)
	k.pins["tastings.away.why"].(*parts.Entry).SetText("ill")
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	if k.book().Tasting(tt.ID).SeatOf("seated").Away != "ill" {
		t.Error("nobody stayed away")
	}
	k.picture("tastings-table")
}

// The facts of a sample are written down by pot; the papers come out as a file.
func TestSamplesAndPapers(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(nil, "AB", "CD")
	k.sampleFacts(tt)
	name := sheets.Pots(k.book(), tt)[0].Name
	k.pins["tastings.sample.cook."+name].(*parts.Entry).SetText("Jo")
	k.pins["tastings.sample.heat."+name].(*parts.Entry).SetText("hot")
	k.picture("tastings-samples")
	k.press(fyne.KeyReturn)
	k.pins["tastings.sample.heat."+name].(*parts.Entry).SetText("62")
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	if s := sheets.Pots(k.book(), tt)[0].Sample; s.Cook != "Jo" || s.Celsius != 62 {
		t.Errorf("%+v", s)
	}
	k.printPapers(k.book().Tasting(tt.ID))
	list := k.pins["papers.list"].(*parts.Matrix)
	k.until("the shopping list is there", func() bool { return len(list.Data().Rows) > 1 })
	food := list.Data().Rows[0].Key
	k.pins["papers.hand"].(*parts.Entry).SetText("90 kg " + food)
	k.until(food+" is struck off", func() bool { return list.Data().Rows[0].Cells[0].Struck })
	k.picture("tastings-papers")
	k.pins["papers.hand"].(*parts.Entry).SetText("butter")
	k.enterAnywhere()
	k.settle()
	k.pins["papers.hand"].(*parts.Entry).SetText("200 g butter")
	k.enterAnywhere()
	k.until("the papers are made", func() bool { _, ok := k.win.Canvas().Focused().(*parts.Entry); return ok })
	path := filepath.Join(k.dir, "papers.pdf")
	k.pins["file.name"].(*parts.Entry).SetText(path)
	k.pressAnywhere(fyne.KeyReturn)
	k.settle()
	for _, name := range []string{"kitchen/papers kitchen.pdf", "papers for the tasters.pdf"} {
		k.until(name+" is written", func() bool {
			data, err := os.ReadFile(filepath.Join(k.dir, name))
			return err == nil && strings.HasPrefix(string(data), "%PDF")
		})
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("the papers of the kitchen and for the tasters are in one file")
	}
}

// TestDigitsTypedOnASeatsName are the first answers that its ballot still needs: what
// is typed is never lost without a word.
func TestDigitsTypedOnASeatsName(t *testing.T) {
	k := openKitchen(t, false, fyne.NewSize(1280, 800))
	tt := k.serve(twoAsked, "AB", "CD")
	g := k.gridAt()
	g.table.Select(1, 0)
	k.types("76")
	cup := tt.Seats[1].Cups[0].Code
	if k.scoreOf(tt.ID, 2, cup, recipes.FromPaper, "Overall") != 7 || k.scoreOf(tt.ID, 2, cup, recipes.FromPaper, "Flavour") != 6 {
		t.Errorf("%v", k.book().Servings(tt.ID))
	}
	g.table.Select(1, 0)
	k.types("5")
	if got := k.scoreOf(tt.ID, 2, tt.Seats[1].Cups[1].Code, recipes.FromPaper, "Overall"); got != 5 {
		t.Errorf("the next cup has %v", got)
	}
}
