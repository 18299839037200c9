package phone

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"sync"
	"testing"
	"time"

	"parewell/recipes"
)

// clock is a time that tests move.
type clock struct{ at time.Time }

func (c *clock) now() time.Time       { return c.at }
func (c *clock) wait(d time.Duration) { c.at = c.at.Add(d) }
func newClock() *clock                { return &clock{time.Date(2026, 11, 25, 19, 30, 0, 0, time.UTC)} }

func from(i int) netip.Addr { return netip.AddrFrom4([4]byte{192, 168, byte(i >> 8), byte(i)}) }

func (g *gate) try(a netip.Addr, right bool) bool {
	if !g.mayTry(a) {
		return false
	}
	g.tried(a, right)
	return true
}

// TestWrongCodesWait: five are free, then each doubles the wait, a right one of
// one's own between does not help, and half an hour forgives.
func TestWrongCodesWait(t *testing.T) {
	c := newClock()
	g := newGate(usual, c.now)
	a := from(1)
	for i := range usual.free {
		if !g.try(a, false) {
			t.Fatalf("try %d was refused", i)
		}
		g.try(a, true)
	}
	for i, want := range []time.Duration{20, 40, 80, 160, 320, 640, 900, 900} {
		if !g.try(a, false) {
			t.Fatalf("wrong code %d was not even looked at", usual.free+i+1)
		}
		c.wait(want*time.Second - time.Second)
		if g.mayTry(a) {
			t.Errorf("wait %d ended before %d s", i, want)
		}
		c.wait(time.Second)
		if !g.mayTry(a) {
			t.Errorf("wait %d is longer than %d s", i, want)
		}
	}
	c.wait(31 * time.Minute)
	for range usual.free {
		g.try(a, false)
	}
	if !g.mayTry(a) {
		t.Error("half an hour did not forgive")
	}
}

// TestWrongCodesTogether: many addresses together are slowed too, but not the
// phones that gave a right code.
func TestWrongCodesTogether(t *testing.T) {
	c := newClock()
	g := newGate(usual, c.now)
	good := from(1)
	g.try(good, true)
	looked := 0
	for i := range 5000 {
		if g.try(from(100+i), false) {
			looked++
		}
	}
	if looked != int(usual.wrongBurst) {
		t.Errorf("%d wrong codes were looked at, want %v", looked, usual.wrongBurst)
	}
	if !g.mayTry(good) {
		t.Error("a good phone is locked out by others")
	}
	c.wait(time.Hour)
	looked = 0
	for i := range 5000 {
		if g.try(from(10000+i), false) {
			looked++
		}
	}
	if looked > int(usual.wrongBurst) {
		t.Errorf("%d after an hour", looked)
	}
	if len(g.by) > usual.callers {
		t.Errorf("%d addresses are remembered", len(g.by))
	}
	if g.by[good] == nil {
		t.Error("the good phone was forgotten for strangers")
	}
}

func TestRates(t *testing.T) {
	c := newClock()
	g := newGate(usual, c.now)
	passed := 0
	for range 1000 {
		if g.pass(from(1), true) {
			passed++
		}
	}
	if passed != int(usual.burst) {
		t.Errorf("%d requests of one address passed, want %v", passed, usual.burst)
	}
	c.wait(time.Second)
	if !g.pass(from(1), true) {
		t.Error("a second later none passes")
	}
	for i := range 2000 {
		g.pass(from(10+i), false)
	}
	if g.pass(from(3000), false) {
		t.Error("a crowd of strangers is not slowed")
	}
	if !g.pass(from(3001), true) {
		t.Error("the strangers' crowd keeps a seated phone out")
	}
	c.wait(-time.Hour) // a clock put back harms nobody
	if !g.pass(from(3001), true) {
		t.Error("a clock put back locks a phone out")
	}
}

func TestTooManyTries(t *testing.T) {
	s := open(t, supper(recipes.TestLiking, 1), 1, nil)
	bad, good := sit(t, s, "127.0.0.1"), sit(t, s, "127.0.0.2")
	bad.get("/j/" + s.token)
	for i := range 7 {
		bad.post("/j/"+s.token, bad.form("code", fmt.Sprintf("CCCCC%d", i)))
	}
	bad.want(http.StatusTooManyRequests, "Too many tries")
	bad.post("/j/"+s.token, bad.form("code", s.Codes()[1]))
	bad.want(http.StatusTooManyRequests)
	good.join(s, 1)
	good.want(200, "<span>1 of 4</span>")
}

func TestHosts(t *testing.T) {
	rows := []struct {
		local, host string
		want        bool
	}{
		{"192.168.1.5:8417", "192.168.1.5:8417", true},
		{"192.168.1.5:80", "192.168.1.5", true},
		{"192.168.1.5:8417", "192.168.1.5", false},
		{"192.168.1.5:8417", "192.168.1.6:8417", false},
		{"[::ffff:192.168.1.5]:8417", "192.168.1.5:8417", true},
		{"[fd00::5]:8417", "[fd00::5]:8417", true},
		{"[fd00::5]:8417", "[fd00:0:0:0::5]:8417", true},
		{"[fd00::5]:8417", "[fd00::6]:8417", false},
		{"127.0.0.1:8417", "localhost:8417", true},
		{"192.168.1.5:8417", "localhost:8417", false},
		{"192.168.1.5:8417", "evil.example:8417", false},
		{"192.168.1.5:8417", "192.168.1.5.evil.example:8417", false},
		{"192.168.1.5:8417", "", false},
		{"192.168.1.5:8417", ":8417", false},
		{"192.168.1.5:8417", "3232235781:8417", false},
	}
	for _, n := range names() {
		rows = append(rows, struct {
			local, host string
			want        bool
		}{"192.168.1.5:8417", n + ".:8417", true})
	}
	for _, r := range rows {
		q := httptest.NewRequest(http.MethodGet, "/", nil)
		q.Host = r.host
		q = q.WithContext(context.WithValue(q.Context(), http.LocalAddrContextKey, net.Addr(net.TCPAddrFromAddrPort(netip.MustParseAddrPort(r.local)))))
		if got := ours(q); got != r.want {
			t.Errorf("at %s for %q: %v", r.local, r.host, got)
		}
	}
}

func TestNearby(t *testing.T) {
	for ip, want := range map[string]bool{
		"192.168.3.4": true, "10.1.2.3": true, "172.16.0.9": true, "fd12::1": true, "fe80::1": true, "127.0.0.1": true,
		"203.0.113.7": false, "2001:db8::1": false, "invalid IP": false, "": false,
	} {
		if got := nearby(ip); got != want {
			t.Errorf("%q: %v", ip, got)
		}
	}
}

func TestDoor(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	s, err := Open(Options{Kitchen: k, Seats: []int{1}, Listen: "127.0.0.1:0", peers: func(ip string) bool { return ip != "127.0.0.66" }})
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if _, err := sit(t, s, "127.0.0.66").web.Get(base(s)); err == nil {
		t.Error("someone from outside was answered")
	}
	sit(t, s, "127.0.0.1").join(s, 1)
}

// TestTwoAtOnce: tasters answer at the same time, one of them is cut off in the
// middle of a form and sends it again, every form is sent three times at once.
// Run it with the race detector.
func TestTwoAtOnce(t *testing.T) {
	k := supper(recipes.TestLiking, 2)
	k.slow = 2 * time.Millisecond
	s := open(t, k, 2, nil)
	var wait sync.WaitGroup
	for seat := 1; seat <= 2; seat++ {
		d := sit(t, s, "127.0.0."+fmt.Sprint(seat))
		d.join(s, seat)
		wait.Go(func() {
			for i := range 3 {
				v := d.form("q0", fmt.Sprint(seat+i), "q1", "5", "q2", "3", "note", "")
				if seat == 2 {
					cutOff(d, v.Encode())
				}
				var copies sync.WaitGroup
				for range 2 {
					copies.Go(func() {
						if resp, err := d.web.PostForm(d.base+"/t", v); err == nil {
							resp.Body.Close()
						}
					})
				}
				copies.Wait()
				d.post("/t", v)
				d.want(200, fmt.Sprintf("<span>%d of 4</span>", i+2))
			}
		})
	}
	wait.Go(func() {
		for range 20 {
			s.Progress()
			s.Links()
		}
	})
	wait.Wait()
	differ(t, "answered", s.Answered(), map[int]int{1: 3, 2: 3})
	for seat := 1; seat <= 2; seat++ {
		for i, c := range k.tasting.Seat(seat).Cups {
			if got := k.copy()[seat][c.Code].Scores["Liking"]; got != float64(seat+i) {
				t.Errorf("seat %d, cup %d: %v", seat, i, got)
			}
		}
	}
	if k.saves != 6 {
		t.Errorf("%d saves, want 6", k.saves)
	}
}

// cutOff sends half of a form and hangs up, then a whole one without waiting for
// its answer.
func cutOff(d *diner, body string) {
	cookie := ""
	u, _ := http.NewRequest(http.MethodGet, d.base, nil)
	for _, c := range d.web.Jar.Cookies(u.URL) {
		cookie = c.Name + "=" + c.Value
	}
	for _, part := range []string{body[:len(body)/2], body} {
		c, err := net.Dial("tcp", u.URL.Host)
		if err != nil {
			d.tb.Error(err)
			return
		}
		_, _ = fmt.Fprintf(c, "POST /t HTTP/1.1\r\nHost: %s\r\nCookie: %s\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: %d\r\n\r\n%s", u.URL.Host, cookie, len(body), part)
		_ = c.Close()
	}
}
