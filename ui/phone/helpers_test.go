package phone

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// secrets are what a kitchen knows and no phone may.
var secrets = []string{
	"Haddock gratin", "sample-id-original", "sample-id-oat", "version-oat", "half the cream", "Margarethe", "panelist-m",
	"gratin",
}

// cookKitchen is a tasting in memory. It holds secrets beside its ballots, as a
// real one does.
type cookKitchen struct {
	mu      sync.Mutex
	tasting *recipes.Tasting
	given   map[int]Given
	saves   int
	over    bool
	broken  error
	slow    time.Duration
	began   chan int // told when a save begins; may be nil
}

func (k *cookKitchen) Ballot(seat int) (*tasting.Ballot, Given, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	s := k.tasting.Seat(seat)
	if s == nil {
		return nil, nil, errors.New("no such seat at the Haddock gratin")
	}
	return tasting.BallotOf(k.tasting, s), maps.Clone(k.given[seat]), nil
}

func (k *cookKitchen) Save(ctx context.Context, seat, code int, scores map[string]float64, note string) error {
	if k.began != nil {
		k.began <- seat
	}
	if k.slow > 0 {
		select {
		case <-time.After(k.slow):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.broken != nil {
		return k.broken
	}
	if k.given[seat] == nil {
		k.given[seat] = Given{}
	}
	k.given[seat][code] = Said{maps.Clone(scores), note}
	k.saves++
	return nil
}

func (k *cookKitchen) Serving() bool {
	k.mu.Lock()
	defer k.mu.Unlock()
	return !k.over
}

func (k *cookKitchen) copy() map[int]Given {
	k.mu.Lock()
	defer k.mu.Unlock()
	out := map[int]Given{}
	for seat, g := range k.given {
		out[seat] = maps.Clone(g)
	}
	return out
}

func (k *cookKitchen) change(f func()) {
	k.mu.Lock()
	defer k.mu.Unlock()
	f()
}

// supper lays a tasting of the kind for so many seats; codes differ by seat as
// they do in tests of trays.
func supper(test string, seats int) *cookKitchen {
	t := &recipes.Tasting{ID: "t", Recipe: "Haddock gratin", Name: "half the cream", Date: "2026-11-25", Test: test, State: recipes.TastingServing}
	if test == recipes.TestLiking {
		t.Attributes = []recipes.Attribute{{Name: "Liking", Kind: recipes.AskLiking}, {Name: "Creaminess", Kind: recipes.AskIntensity}, {Name: "Salt", Kind: recipes.AskJustRight}}
	}
	samples := []recipes.ID{"sample-id-original", "sample-id-oat", "version-oat"}
	for n := 1; n <= seats; n++ {
		s := recipes.Seat{Number: n, Panelist: recipes.ID("panelist-m" + strconv.Itoa(n))}
		if test == "duo-trio" {
			s.Reference = samples[0]
		}
		for i := range samples {
			s.Cups = append(s.Cups, recipes.Cup{Sample: samples[(i+n)%3], Code: 100 + (n*271+i*137)%900})
		}
		t.Seats = append(t.Seats, s)
	}
	return &cookKitchen{tasting: t, given: map[int]Given{}}
}

func numbers(n int) []int {
	var out []int
	for i := range n {
		out = append(out, i+1)
	}
	return out
}

func open(tb testing.TB, k Kitchen, seats int, change func(*limits)) *Server {
	tb.Helper()
	l := usual
	l.burst, l.rate = 1000, 1000 // the tests' own; what is usual is tested by itself
	if change != nil {
		change(&l)
	}
	s, err := Open(Options{Kitchen: k, Seats: numbers(seats), Listen: "127.0.0.1:0", limits: &l})
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := s.Close(); err != nil {
			tb.Errorf("closing: %v", err)
		}
	})
	return s
}

func base(s *Server) string { return "http://127.0.0.1:" + strconv.Itoa(s.port) }

// diner is a taster's phone.
type diner struct {
	tb     testing.TB
	web    *http.Client
	base   string
	path   string // where she is
	status int
	body   string
	header http.Header
}

// sit makes a phone that comes from one of this machine's own addresses.
func sit(tb testing.TB, s *Server, from string) *diner {
	jar, err := cookiejar.New(nil)
	if err != nil {
		tb.Fatal(err)
	}
	d := &net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(from)}, Timeout: 5 * time.Second}
	transport := &http.Transport{DialContext: d.DialContext, MaxIdleConnsPerHost: 2}
	tb.Cleanup(transport.CloseIdleConnections)
	return &diner{tb: tb, base: base(s), web: &http.Client{Jar: jar, Transport: transport, Timeout: 20 * time.Second}}
}

func (d *diner) keep(resp *http.Response, err error) error {
	if err != nil {
		return err
	}
	defer resp.Body.Close()
	b, err := io.ReadAll(resp.Body)
	d.status, d.body, d.header, d.path = resp.StatusCode, string(b), resp.Header, resp.Request.URL.Path
	return err
}

func (d *diner) get(path string) {
	d.tb.Helper()
	if err := d.keep(d.web.Get(d.base + path)); err != nil {
		d.tb.Fatalf("GET %s: %v", path, err)
	}
}

func (d *diner) post(path string, v url.Values) {
	d.tb.Helper()
	if err := d.keep(d.web.PostForm(d.base+path, v)); err != nil {
		d.tb.Fatalf("POST %s: %v", path, err)
	}
}

var (
	hidden  = regexp.MustCompile(`<input type="hidden" name="(\w+)" value="([^"]*)"`)
	formOf  = regexp.MustCompile(`(?s)<form.*?</form>`)
	cupOf   = regexp.MustCompile(`<h1 class="cup">.*?<b>(\d+)</b>`)
	checked = regexp.MustCompile(`name="(\w+)" value="(\d+)"[^>]* checked`)
)

// form is the page's first form with its hidden fields and what is given.
func (d *diner) form(more ...string) url.Values {
	v := url.Values{}
	for _, m := range hidden.FindAllStringSubmatch(formOf.FindString(d.body), -1) {
		v.Set(m[1], m[2])
	}
	for i := 0; i+1 < len(more); i += 2 {
		v.Set(more[i], more[i+1])
	}
	return v
}

func (d *diner) cup() int {
	m := cupOf.FindStringSubmatch(d.body)
	if m == nil {
		return 0
	}
	n, _ := strconv.Atoi(m[1])
	return n
}

func (d *diner) want(status int, texts ...string) {
	d.tb.Helper()
	if d.status != status {
		d.tb.Fatalf("at %s: status %d, want %d\n%s", d.path, d.status, status, d.plain())
	}
	for _, x := range texts {
		if !strings.Contains(d.body, x) {
			d.tb.Fatalf("at %s: no %q in\n%s", d.path, x, d.plain())
		}
	}
}

var styleOf = regexp.MustCompile(`(?s)<style.*?</style>`)

func (d *diner) plain() string { return styleOf.ReplaceAllString(d.body, "") }

// join goes from the link to the first page of the ballot.
func (d *diner) join(s *Server, seat int) {
	d.tb.Helper()
	d.get("/j/" + s.token)
	d.want(http.StatusOK, "on your card")
	d.post("/j/"+s.token, d.form("code", s.Codes()[seat]))
	d.want(http.StatusOK, fmt.Sprintf("Seat %3d", seat), "Begin")
	d.post("/t", d.form())
}

// likes answers one cup of a liking test.
func (d *diner) likes(liking, cream, salt int, note string) {
	d.tb.Helper()
	d.post("/t", d.form("q0", strconv.Itoa(liking), "q1", strconv.Itoa(cream), "q2", strconv.Itoa(salt), "note", note))
}

func differ(t *testing.T, name string, got, want any) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%s:\n got %v\nwant %v", name, got, want)
	}
}
