package phone

import (
	"bytes"
	"errors"
	"net/http"
	"net/netip"
	"strconv"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// TestEvening follows one taster from the link to the thanks.
func TestEvening(t *testing.T) {
	k := supper(recipes.TestLiking, 3)
	s := open(t, k, 3, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 2)
	var order []int
	for i := range 3 {
		d.want(http.StatusOK, "<span>"+strconv.Itoa(i+1)+" of 4</span>", "like extremely", "medium", "just about right")
		order = append(order, d.cup())
		d.likes(5+i, 3, 2, " <b>salty</b> & good\r\n\x00")
	}
	b, _, _ := k.Ballot(2)
	differ(t, "her order", order, b.Cups)
	d.want(http.StatusOK, "which was the usual recipe", "Save and finish", "I could not tell")
	d.post("/t", d.form("q0", strconv.Itoa(order[1]), "note", ""))
	d.want(http.StatusOK, "Thank you.", "All answered")
	want := Given{0: {map[string]float64{"usual": float64(order[1])}, ""}}
	for i, c := range order {
		want[c] = Said{map[string]float64{"Liking": float64(5 + i), "Creaminess": 3, "Salt": 2}, "<b>salty</b> & good"}
	}
	differ(t, "what was kept", k.copy(), map[int]Given{2: want})
	differ(t, "answered", s.Answered(), map[int]int{1: 0, 2: 4, 3: 0})
	if p := s.Progress()[2]; !p.Joined || p.Of != 4 {
		t.Errorf("progress %+v", p)
	}
}

// TestOtherTests goes through the ballots that ask otherwise.
func TestOtherTests(t *testing.T) {
	rows := []struct {
		test  string
		steps func(*diner, []int)
		want  func([]int) Given
	}{
		{"triangle", func(d *diner, c []int) {
			d.want(200, "odd one out", "Taste in this order")
			d.post("/t", d.form("q0", strconv.Itoa(c[2]), "note", "guess"))
		}, func(c []int) Given { return Given{0: {map[string]float64{"choice": float64(c[2])}, "guess"}} }},
		{"duo-trio", func(d *diner, c []int) {
			d.want(200, "open sample")
			d.post("/t", d.form("q0", strconv.Itoa(c[0]), "note", ""))
		}, func(c []int) Given { return Given{0: {map[string]float64{"choice": float64(c[0])}, ""}} }},
		{"preference", func(d *diner, _ []int) {
			d.want(200, "No preference")
			d.post("/t", d.form("q0", "0", "note", ""))
		}, func([]int) Given { return Given{0: {map[string]float64{"choice": 0}, ""}} }},
		{"ranking", func(d *diner, c []int) {
			d.want(200, strconv.Itoa(c[0])+": Place, 1 for the one you like most")
			d.post("/t", d.form("q0c0", "1", "q0c1", "1", "q0c2", "2"))
			d.want(422, "same place", "its own place")
			d.post("/t", d.form("q0c0", "3", "q0c1", "1", "q0c2", "2"))
			d.want(200, "Back")
			d.get("/t/1")
			differ(t, "picked again", len(checked.FindAllString(d.body, -1)), 3)
			d.post("/t", d.form("q0c0", "2", "q0c1", "1", "q0c2", "3"))
			d.want(200, "usual recipe")
			d.post("/t", d.form("note", ""))
			d.want(200, "Look at my answers again")
		}, func(c []int) Given {
			g := Given{0: {map[string]float64{}, ""}}
			for i, n := range []float64{2, 1, 3} {
				g[c[i]] = Said{map[string]float64{"rank": n}, ""}
			}
			return g
		}},
		{recipes.TestHome, func(d *diner, _ []int) {
			for range 3 {
				d.want(200, "How much was left over?", "Half or more")
				d.post("/t", d.form("q0", "1", "q1", "2", "q2", "0", "q3", "1", "note", ""))
			}
		}, func(c []int) Given {
			g := Given{}
			for _, x := range c {
				g[x] = Said{map[string]float64{"as written": 1, "left": 2, "again": 0, "missed": 1}, ""}
			}
			return g
		}},
	}
	for _, r := range rows {
		t.Run(r.test, func(t *testing.T) {
			k := supper(r.test, 1)
			s := open(t, k, 1, nil)
			d := sit(t, s, "127.0.0.1")
			d.join(s, 1)
			b, _, _ := k.Ballot(1)
			r.steps(d, b.Cups)
			d.want(200, "Thank you.")
			differ(t, "kept", k.copy()[1], r.want(b.Cups))
		})
	}
}

// TestForwardOnly: an answered cup stays as it is; the same answer sent again is
// welcome.
func TestForwardOnly(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	s := open(t, k, 1, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	first := d.form("q0", "7", "q1", "5", "q2", "3", "note", "x")
	one := d.cup()
	d.post("/t", first)
	two := d.cup()
	if one == two {
		t.Fatal("still at the first cup")
	}
	d.post("/t", first)
	d.want(200)
	if d.cup() != two || strings.Contains(d.body, "Your first answer stays") || k.saves != 1 {
		t.Errorf("the same answer again: at %d, %d saves", d.cup(), k.saves)
	}
	first.Set("q0", "1")
	d.post("/t", first)
	d.want(200, "Your first answer stays")
	d.get("/t")
	if strings.Contains(d.body, "Your first answer stays") {
		t.Error("the notice is said twice")
	}
	for _, p := range []string{"/t/1", "/t/2", "/t/3", "/t/0", "/t/-1", "/t/x", "/t/01"} {
		d.get(p)
		if d.path != "/t" || d.cup() != two {
			t.Errorf("%s led to %s, cup %d", p, d.path, d.cup())
		}
	}
	if got := k.copy()[1][one].Scores["Liking"]; got != 7 {
		t.Errorf("liking %v, want 7", got)
	}
}

// TestIncomplete: what is missing is marked, what was picked stays picked, and
// nothing is saved.
func TestIncomplete(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	s := open(t, k, 1, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	d.post("/t", d.form("q0", "7", "q2", "3", "note", "<script>alert(1)</script>"))
	d.want(422, "marked below", "Please pick one.", "&lt;script&gt;")
	if got := checked.FindAllStringSubmatch(d.body, -1); len(got) != 2 || got[0][2] != "7" {
		t.Errorf("picked: %v", got)
	}
	if k.saves != 0 {
		t.Error("half an answer was saved")
	}
}

func TestWouldNotTaste(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	s := open(t, k, 1, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	one := d.cup()
	d.post("/t", d.form("q0", "7", "skip", "1", "note", ""))
	d.want(200, "<span>2 of 4</span>")
	differ(t, "kept", k.copy()[1], Given{one: {map[string]float64{}, ""}})
}

// TestTrouble: a kitchen that cannot save is not shown to the taster, her answers
// stay on the page, and the cook is told.
func TestTrouble(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	var told []error
	s, err := Open(Options{Kitchen: k, Seats: []int{1}, Listen: "127.0.0.1:0", Trouble: func(_ int, err error) { told = append(told, err) }})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	k.change(func() { k.broken = errors.New("the disk with the Haddock gratin is full") })
	d.likes(1, 2, 3, "hm")
	d.want(503, "could not be saved", "hm")
	if strings.Contains(d.body, "Haddock") || len(checked.FindAllString(d.body, -1)) != 3 || len(told) != 1 {
		t.Errorf("the page after a failure; the cook was told %v", told)
	}
	k.change(func() { k.broken = nil })
	d.likes(1, 2, 3, "hm")
	d.want(200, "<span>2 of 4</span>")
}

// TestSecondPhone: the latest phone has the seat; what the first saved stays.
func TestSecondPhone(t *testing.T) {
	k := supper(recipes.TestLiking, 2)
	s := open(t, k, 2, nil)
	a, b := sit(t, s, "127.0.0.1"), sit(t, s, "127.0.0.2")
	a.join(s, 1)
	a.likes(4, 4, 4, "")
	late := a.form("q0", "9", "q1", "9", "q2", "5", "note", "")
	b.get("/j/" + s.token)
	b.post("/j/"+s.token, b.form("code", strings.ToLower(s.Codes()[1][:3])+" "+s.Codes()[1][3:]))
	b.want(200, "<span>2 of 4</span>")
	a.post("/t", late)
	a.want(403, "take your seat again")
	if got := len(k.copy()[1]); got != 1 {
		t.Errorf("%d cups answered, want 1", got)
	}
	b.likes(5, 5, 5, "")
	b.want(200, "<span>3 of 4</span>")
	// And a phone passed on to a neighbour.
	leave := hidden.FindAllStringSubmatch(b.body, -1)
	b.post("/leave", map[string][]string{"form": {leave[len(leave)-1][2]}})
	b.want(200, "on your card")
	b.post("/j/"+s.token, b.form("code", s.Codes()[2]))
	b.want(200, "Seat   2", "Begin")
}

// TestEnd: when the tasting ends nothing more is taken, and Close frees the port
// while a phone still hangs on.
func TestEnd(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	s := open(t, k, 1, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	k.change(func() { k.over = true })
	d.likes(4, 4, 4, "")
	d.want(410, "The tasting is over")
	if k.saves != 0 {
		t.Error("an answer was taken after the end")
	}
	start := time.Now()
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	if took := time.Since(start); took > 3*time.Second {
		t.Errorf("closing took %v", took)
	}
	if _, err := d.web.Get(d.base + "/"); err == nil {
		t.Error("still answers after Close")
	}
	if err := s.Close(); err != nil {
		t.Errorf("a second Close: %v", err)
	}
}

// TestSavesFinish: an answer on its way when the server closes is kept, and its
// taster hears so.
func TestSavesFinish(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	k.slow, k.began = 300*time.Millisecond, make(chan int, 4)
	s := open(t, k, 1, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	d.web.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	sent := make(chan struct{})
	go func() {
		defer close(sent)
		d.likes(4, 4, 4, "")
	}()
	<-k.began
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	<-sent
	if d.status != 303 || k.saves != 1 {
		t.Errorf("status %d, %d saves", d.status, k.saves)
	}
}

func TestLinksAndCodes(t *testing.T) {
	s, err := Open(Options{Kitchen: supper(recipes.TestLiking, 40), Seats: numbers(40)})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	seen := map[string]bool{}
	for seat, c := range s.Codes() {
		if len(c) != codeLength || strings.Trim(c, codeAlphabet) != "" || seen[c] {
			t.Errorf("seat %d: code %q", seat, c)
		}
		seen[c] = true
	}
	for _, l := range s.Links() {
		rest := strings.TrimPrefix(l, "http://")
		at, token, ok := strings.Cut(rest, "/j/")
		ap, err := netip.ParseAddrPort(at)
		if !ok || err != nil || int(ap.Port()) != s.port || ap.Addr().IsLoopback() || len(token) != linkLength {
			t.Errorf("link %q", l)
		}
		img, err := s.QR(l)
		if err != nil || img.Bounds().Dx() < 200 {
			t.Errorf("%q: %v", l, err)
		}
	}
	if len(networks()) > 1 && len(s.Links()) == 0 {
		t.Error("this machine is in a network and there is no link")
	}
	if _, err := s.QR(strings.Repeat("x", 300)); err == nil {
		t.Error("a text too long was drawn")
	}
}

// TestTickets: closed and opened again with one seat more, link and codes hold.
func TestTickets(t *testing.T) {
	k := supper(recipes.TestLiking, 3)
	s := open(t, k, 2, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	d.likes(4, 4, 4, "")
	was := s.Tickets()
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	again, err := Open(Options{Kitchen: k, Seats: []int{1, 2, 3}, Listen: "127.0.0.1:0", Again: was})
	if err != nil {
		t.Fatal(err)
	}
	defer again.Close()
	now := again.Tickets()
	if now.Link != was.Link || now.Codes[1] != was.Codes[1] || now.Codes[2] != was.Codes[2] || !made(now.Codes[3], codeAlphabet, codeLength) {
		t.Errorf("tickets %+v, were %+v", now, was)
	}
	d = sit(t, again, "127.0.0.1")
	d.get("/j/" + was.Link)
	d.post("/j/"+was.Link, d.form("code", was.Codes[1]))
	d.want(200, "<span>2 of 4</span>")
	bent, err := Open(Options{Kitchen: k, Seats: []int{1, 2}, Listen: "127.0.0.1:0", Again: &Tickets{Link: "short", Codes: map[int]string{1: was.Codes[1], 2: was.Codes[1]}}})
	if err != nil {
		t.Fatal(err)
	}
	defer bent.Close()
	if c := bent.Tickets(); len(c.Link) != linkLength || c.Codes[1] == c.Codes[2] {
		t.Errorf("bent tickets were taken: %+v", c)
	}
}

// TestOthersThings: a code of another tray is no answer, and a form made for one
// phone is worth nothing on another.
func TestOthersThings(t *testing.T) {
	k := supper("triangle", 2)
	s := open(t, k, 2, nil)
	a, b := sit(t, s, "127.0.0.1"), sit(t, s, "127.0.0.2")
	a.join(s, 1)
	b.join(s, 2)
	hers, _, _ := k.Ballot(2)
	page := a.body
	for _, v := range []string{strconv.Itoa(hers.Cups[0]), "0", "1", "99"} {
		a.body = page
		a.post("/t", a.form("q0", v, "note", ""))
		a.want(400)
	}
	mine, _, _ := k.Ballot(1)
	a.body = page
	b.post("/t", a.form("q0", strconv.Itoa(mine.Cups[0]), "note", ""))
	b.want(403)
	if len(k.copy()) != 0 {
		t.Errorf("kept: %v", k.copy())
	}
}

func TestOpenRefuses(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	rows := []struct {
		name string
		o    Options
	}{
		{"nobody", Options{Kitchen: k}},
		{"no kitchen", Options{Seats: []int{1}}},
		{"no randomness", Options{Kitchen: k, Seats: []int{1}, Random: bytes.NewReader(nil)}},
		{"no such address", Options{Kitchen: k, Seats: []int{1}, Listen: "192.0.2.1:0"}},
		{"no address", Options{Kitchen: k, Seats: []int{1}, Listen: "here"}},
	}
	for _, r := range rows {
		if s, err := Open(r.o); err == nil {
			_ = s.Close()
			t.Errorf("%s: opened", r.name)
		}
	}
}

func TestRead(t *testing.T) {
	if _, ok := cleanNote("a\xff"); ok {
		t.Error("a note that is no text was taken")
	}
	long, ok := cleanNote(strings.Repeat("é", 2000) + "\x07")
	if !ok || len([]rune(long)) != tasting.LongestNote {
		t.Errorf("a long note: %d characters", len([]rune(long)))
	}
	for _, s := range []string{"", "1e1", "-1", "+1", "1.5", "0x1", "1000", "１", " 1", "NaN"} {
		if v, ok := whole(s); ok {
			t.Errorf("%q was read as %v", s, v)
		}
	}
}

// TestWhatIsTakenBetweenSamples: a phone says what the plan says, not water.
func TestWhatIsTakenBetweenSamples(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	k.tasting.Cleanser = "plain cracker"
	s := open(t, k, 1, nil)
	d := sit(t, s, "127.0.0.1")
	d.join(s, 1)
	d.want(http.StatusOK, "First this: plain cracker. Then taste.")
	if strings.Contains(d.body, "water") {
		t.Error("it says water")
	}
}
