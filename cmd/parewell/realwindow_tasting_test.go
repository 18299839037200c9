//go:build realwindow

package main

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"parewell/charts/manuscript"
	"parewell/recipes"
	"parewell/recipes/exchange"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
	"parewell/testdata/chromium"
)

// How the 31 ballots of the evening come in, by seat.
const (
	paperSeats = 24
	screenSeat = 25
	phoneFirst = 26
	phoneLast  = 30
	fileSeat   = 31
)

// overallOf is what a seat says of a cup: some number that tells ballots apart.
func overallOf(seat, place int) int { return 1 + (seat*4+place*7)%9 }
func flavourOf(seat, place int) int { return 1 + (seat*5+place*2)%9 }

// TestRealWindowTasting holds a whole tasting: planned and printed in the window,
// 24 ballots typed, one on the screen, five on two phones at once of which one
// dies on the way, one from a file, closed. Every score is then in the workbook,
// once.
func TestRealWindowTasting(t *testing.T) {
	home := t.TempDir()
	book := demoWorkbook(t, home)
	guests(t, book, 15)
	s := newScreen(t, 1920, 1080)
	w := s.launch(home, program(t), nil, book).find().fill(1920, 1080)
	w.openRecipe(workedOn)
	w.click(words.Say("tab.tastings"))
	w.click(words.Say("tastings.plan"))
	plan := w.planAnEvening(book)
	w.printPapers(home)
	w.click(words.Say("tastings.begin"))
	w.act("serving", book, func() { w.click(words.Say("tastings.begin")) })
	w.typeBallots(book, plan, 1, paperSeats-4)
	w.ballotOnScreen(book, plan)
	w.typeBallots(book, plan, paperSeats-3, paperSeats) // after the machine came back
	w.ballotsOnPhones(book, plan)
	w.ballotFromFile(home, book, plan)
	w.click(words.Say("tastings.close"))
	_, after := w.act("closing", book, func() { w.click(words.Say("tastings.close")) })
	everyScoreOnce(t, after, plan)
	w.leave()
}

// guests adds tasters, and writes down what stands on every pack.
func guests(t testing.TB, book string, n int) {
	t.Helper()
	f, err := workbook.Open(book, workbook.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	do := func(v recipes.Verb) {
		if _, err := f.Apply(context.Background(), v, recipes.ByCook); err != nil {
			t.Fatal(err)
		}
	}
	for _, x := range f.Book().Foods() {
		if !x.Allergens.Recorded {
			do(recipes.RecordAllergens(x.Ref, x.Allergens))
		}
	}
	for _, p := range f.Book().Panelists() { // the test of who is left out is elsewhere
		if p.Allergens != 0 {
			c := *p
			c.Allergens = 0
			do(tasting.PutTaster(&c))
		}
	}
	for i := range n {
		code := fmt.Sprintf("V%02d", i+1)
		do(tasting.PutTaster(&recipes.Panelist{ID: recipes.ID("guest" + code), Code: code, Asked: true, Consent: "2026-03-01", Careful: recipes.No}))
	}
}

// planAnEvening fills the planner in and keeps it.
func (w *window) planAnEvening(book string) recipes.ID {
	w.t.Helper()
	w.click(words.Say("plan.attributes.usual"))
	w.settle()
	w.key("ctrl+a")
	w.typeText("Flavour")
	_, after := w.act("the plan", book, func() { w.click(words.Say("plan.save")) })
	all := after.TastingsOf(recipeCalled(w.t, after, workedOn).ID)
	if len(all) != 1 || len(all[0].Seats) != fileSeat || len(all[0].Attributes) != 2 || len(all[0].Seats[0].Cups) != 4 {
		w.t.Fatalf("planned: %+v", all)
	}
	return all[0].ID
}

// printPapers saves the papers as a file.
func (w *window) printPapers(home string) {
	w.t.Helper()
	to := filepath.Join(home, "papers.pdf")
	w.click(words.Say("tastings.papers"))
	w.click(words.Say("print.save"))
	w.waitFor(words.Say("print.save.ok"))
	w.settle() // the field has the keyboard
	w.key("ctrl+a")
	w.typeText(to)
	w.key("Return")
	w.until("the papers are written", func() bool {
		for _, name := range []string{manuscript.KitchenFolder + manuscript.ForKitchen.FileName("papers"), manuscript.ForTasters.FileName("papers")} {
			b, err := os.ReadFile(filepath.Join(home, filepath.FromSlash(name)+".pdf"))
			if err != nil || !bytes.HasPrefix(b, []byte("%PDF")) || len(b) < 20_000 {
				return false
			}
		}
		return true
	})
	w.settle()
}

// typeBallots types the paper ballots of some seats one after another, each along its
// own tray; the keyboard goes on from the last answer of one to the first of the next.
func (w *window) typeBallots(book string, id recipes.ID, from, to int) {
	w.t.Helper()
	b := bookAt(w.t, book)
	t, had := b.Tasting(id), len(b.Servings(id))
	w.waitFor(words.Say("tastings.close"))
	w.clickCell(b.Panelist(t.Seat(from).Panelist).Code, strconv.Itoa(t.Seat(from).Cups[0].Code))
	for seat := from; seat <= to; seat++ {
		var digits strings.Builder
		for place := range t.Seat(seat).Cups {
			fmt.Fprintf(&digits, "%d%d", overallOf(seat, place), flavourOf(seat, place))
		}
		w.typeText(digits.String() + strconv.Itoa(t.Seat(seat).Cups[seat%4].Code))
	}
	w.until("the paper ballots are on disk", func() bool { return len(bookAt(w.t, book).Servings(id)) == had+5*(to-from+1) })
}

// ballotOnScreen lets one taster answer at the machine, by the keys.
func (w *window) ballotOnScreen(book string, id recipes.ID) {
	w.t.Helper()
	t := bookAt(w.t, book).Tasting(id)
	w.click(words.Say("tastings.screen"))
	w.waitFor(words.Say("tastings.screen.seat")) // the grid names seats too
	w.click(words.Say("tasting.seat", screenSeat))
	w.click(words.Say("tastings.screen.begin"))
	for place, c := range t.Seat(screenSeat).Cups {
		w.waitFor(strconv.Itoa(c.Code))
		w.settle()
		w.key(strconv.Itoa(overallOf(screenSeat, place)))
		w.settle()
		w.key(strconv.Itoa(flavourOf(screenSeat, place)))
		w.settle()
	}
	w.click(words.Say("ballot.cannot-tell"))
	w.waitFor(words.Say("tastings.screen.thanks"))
	w.click(words.Say("tastings.screen.lock"))
	w.waitFor(words.Say("tastings.screen.leave"))
	w.settle()
	w.typeText(words.Say("tastings.screen.cook"))
	w.click(words.Say("tastings.screen.leave.ok"))
	w.waitFor(words.Say("tastings.close"))
}

// ballotsOnPhones has five tasters answer on two phones at once; one phone dies in
// the middle of a ballot, which is taken up again on the other.
func (w *window) ballotsOnPhones(book string, id recipes.ID) {
	w.t.Helper()
	t := bookAt(w.t, book).Tasting(id)
	w.click(words.Say("tastings.phones"))
	w.click(words.Say("tastings.phone.on"))
	link := w.linkShown()
	codes := w.joinCodes(bookAt(w.t, book), t)
	one, two := chromium.Start(w.t), chromium.Start(w.t)
	first := &phoneTaster{one, link}
	second := &phoneTaster{two, link}
	done := make(chan bool)
	go func() {
		defer close(done)
		first.whole(codes[phoneFirst], t.Seat(phoneFirst), 0, 4)
		first.whole(codes[phoneFirst+1], t.Seat(phoneFirst+1), 0, 2)
		one.Kill()
	}()
	second.whole(codes[phoneFirst+2], t.Seat(phoneFirst+2), 0, 4)
	second.whole(codes[phoneFirst+3], t.Seat(phoneFirst+3), 0, 4)
	<-done
	second.whole(codes[phoneFirst+1], t.Seat(phoneFirst+1), 2, 4)
	second.whole(codes[phoneLast], t.Seat(phoneLast), 0, 4)
	w.key("Escape")
	w.waitFor(words.Say("tastings.phones.on"))
}

// linkShown is the link as it stands on the screen, broken into lines or not.
func (w *window) linkShown() string {
	w.t.Helper()
	w.waitFor("http://")
	link, on := "", false
	for _, text := range w.texts() {
		on = on && text != words.Say("tastings.phone.copy") || strings.HasPrefix(text, "http://")
		if on {
			link += text
		}
	}
	return link
}

// joinCodes reads the code of each seat off the screen.
func (w *window) joinCodes(b *recipes.Book, t *recipes.Tasting) map[int]string {
	w.t.Helper()
	out := map[int]string{}
	w.click(b.Panelist(t.Seat(1).Panelist).Code)
	for seat := phoneFirst; seat <= phoneLast; seat++ {
		who := b.Panelist(t.Seat(seat).Panelist).Code
		for range 40 {
			if _, ok := w.object(who); ok {
				break
			}
			w.key("Down")
		}
		at := w.waitFor(who)
		for _, o := range w.view().Objects {
			if o.Y > at.Y-8 && o.Y < at.Y+8 && len(o.Text) == 6 && !strings.Contains(o.Text, " ") {
				out[seat] = o.Text
			}
		}
		if out[seat] == "" {
			w.t.Fatalf("no code to hand over for %s: %v", who, w.texts())
		}
	}
	return out
}

// phoneTaster is a person with a phone.
type phoneTaster struct {
	*chromium.Browser
	link string
}

// whole joins a seat and answers its cups from one place to another; with the last
// cup the whole ballot.
func (p *phoneTaster) whole(code string, seat *recipes.Seat, from, to int) {
	p.Phone(390, 844, "light")
	p.Do("Network.clearBrowserCookies", nil)
	p.Do("Page.navigate", map[string]any{"url": p.link})
	p.Until(`!!document.querySelector('#code')`)
	p.Write("#code", code)
	p.Press(".go")
	p.Until(`document.querySelector('.go')?.textContent=='Begin'||!!document.querySelector('.cup b')`)
	if from == 0 {
		p.Press(".go")
	}
	for place := from; place < to; place++ {
		p.Until(fmt.Sprintf(`document.querySelector('.cup b')?.textContent=='%d'`, seat.Cups[place].Code))
		p.Choose(fmt.Sprintf("input[name=q0][value='%d']", overallOf(seat.Number, place)))
		p.Choose(fmt.Sprintf("input[name=q1][value='%d']", flavourOf(seat.Number, place)))
		p.Press("button.go")
	}
	if to == len(seat.Cups) {
		p.Until(`document.body.innerText.includes('usual recipe')`)
		p.Choose("input[name=q0][value='0']")
		p.Press("button.go")
		p.Until(`document.body.innerText.includes('Thank you')`)
		return
	}
	p.Until(fmt.Sprintf(`document.querySelector('.cup b')?.textContent=='%d'`, seat.Cups[to].Code))
}

// ballotFromFile reads one ballot from a file; one with a bad row is refused first
// and leaves nothing.
func (w *window) ballotFromFile(home, book string, id recipes.ID) {
	w.t.Helper()
	b := bookAt(w.t, book)
	t := b.Tasting(id)
	who := b.Panelist(t.Seat(fileSeat).Panelist).Code
	rows := "panelist,sample,Overall,Flavour,usual\n"
	for place, c := range t.Seat(fileSeat).Cups {
		rows += fmt.Sprintf("%s,%d,%d,%d,\n", who, c.Code, overallOf(fileSeat, place), flavourOf(fileSeat, place))
	}
	rows += who + ",0,,,0\n"
	if a, faults, err := exchange.ReadScores([]byte(rows), "one.csv", b, t); err != nil || len(faults) > 0 || len(a) != 5 {
		w.t.Fatal(a, faults, err)
	}
	path := filepath.Join(home, "one.csv")
	if err := os.WriteFile(path, []byte(rows), 0o600); err != nil {
		w.t.Fatal(err)
	}
	w.act("the file of scores", book, func() {
		w.openFileMenu()
		w.click(words.Say("tastings.read"))
		w.waitFor(words.Say("tastings.read.ok"))
		w.settle()
		w.key("ctrl+a")
		w.typeText(path)
		w.key("Return")
	})
	w.settle()
}

// openFileMenu opens the menu that holds reading and writing of scores.
func (w *window) openFileMenu() {
	w.t.Helper()
	for _, name := range []string{words.Say("tastings.files"), words.Say("tastings.more")} {
		if o, ok := w.object(name); ok && o.Text == name {
			w.click(name)
			time.Sleep(200 * time.Millisecond)
			return
		}
	}
	w.t.Fatal("no menu of files")
}

// everyScoreOnce holds the workbook to every score of every ballot, once.
func everyScoreOnce(t *testing.T, b *recipes.Book, id recipes.ID) {
	t.Helper()
	plan := b.Tasting(id)
	if plan.State != recipes.TastingClosed || len(tasting.Missing(b, plan)) != 0 {
		t.Errorf("%s with %d missing", plan.State, len(tasting.Missing(b, plan)))
	}
	sources := map[recipes.Source]int{}
	for _, s := range b.Servings(id) {
		sources[s.Source]++
	}
	want := map[recipes.Source]int{recipes.FromPaper: paperSeats * 5, recipes.FromScreen: 5, recipes.FromPhone: 25, recipes.FromFile: 5}
	if !maps.Equal(sources, want) {
		t.Errorf("servings by source: %v, want %v", sources, want)
	}
	rows, err := tasting.Rows(b, id)
	if err != nil || len(rows) != fileSeat*4*2 {
		t.Fatalf("%d scores, want %d: %v", len(rows), fileSeat*4*2, err)
	}
	for _, r := range rows {
		seat := plan.SeatOf(r.Panelist).Number
		score := overallOf(seat, r.Position-1)
		if r.Attribute == "Flavour" {
			score = flavourOf(seat, r.Position-1)
		}
		if int(r.Score) != score {
			t.Errorf("seat %d, cup %d, %s: %v, want %d", seat, r.Position, r.Attribute, r.Score, score)
		}
	}
}
