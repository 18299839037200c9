// Package phone serves the ballot to the tasters' own phones from the cook's
// machine while a tasting is serving: plain pages in the same house, no script,
// nothing from elsewhere. It knows seats, codes of cups and questions; versions,
// samples, people and the recipe never reach it.
package phone

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"errors"
	"image"
	"io"
	"net"
	"net/http"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/ui/phone/qr"
)

// Said is what a taster answered on a cup or, once, on her whole tray. Without
// scores she said that she would not taste it.
type Said struct {
	Scores map[string]float64 // by Question.Key
	Note   string
}

// Given is what a taster answered on a phone so far, by the code of the cup; 0
// is the whole tray. What came from paper is not among it.
type Given map[int]Said

// Kitchen is the tasting that is served. Its methods are called from several
// goroutines at once.
type Kitchen interface {
	// Ballot returns a seat's ballot and what she answered on a phone so far.
	Ballot(seat int) (*tasting.Ballot, Given, error)
	// Save keeps a taster's answer on a cup, or with code 0 on the tray, in place
	// of her earlier one from a phone; it returns after the commit. Scores are
	// such as the ballot's questions take; none at all when she would not taste.
	// It refuses once the tasting no longer serves.
	Save(ctx context.Context, seat, code int, scores map[string]float64, note string) error
	// Serving tells whether answers are taken; once false it stays so.
	Serving() bool
}

// Preferred is where the page listens when Options.Listen is empty and the port
// is free, so that a machine's firewall need be told only once.
const Preferred = ":8417"

// Tickets are what was handed out to the tasters: the end of the link and each
// seat's code. They are secrets of the evening.
type Tickets struct {
	Link  string
	Codes map[int]string
}

// Options of a Server. Kitchen and Seats are needed, all else has a default.
type Options struct {
	Kitchen Kitchen
	Seats   []int                       // numbers of the seats that may answer
	Again   *Tickets                    // of a server that was closed, so that what was handed out holds; nil draws them
	Listen  string                      // "host:port"; "" is Preferred, else any free port, on all interfaces
	Random  io.Reader                   // of tokens and codes; nil is the system's
	Now     func() time.Time            // nil is time.Now
	Trouble func(seat int, err error)   // told when Kitchen fails, which the taster sees only as "try again"; may be nil
	limits  *limits                     // set by tests alone
	peers   func(ip string) (fine bool) // set by tests alone
}

// place is one seat: its join code, and the phone that answers for it now.
type place struct {
	seat int
	code string
	turn sync.Mutex // held while an answer is checked and saved

	// guarded by Server.mu
	session [sha256.Size]byte // digest of the cookie; zero when nobody joined
	joined  bool
	started bool   // has read the introduction
	notice  string // said once on the next page
}

// Server serves the ballot page until Close.
type Server struct {
	kitchen Kitchen
	now     func() time.Time
	trouble func(int, error)
	limits  limits
	token   string // of the link
	key     []byte // of form tokens
	host    string // what was asked to listen on; "" is all interfaces
	port    int

	randomMu sync.Mutex
	random   io.Reader

	mu       sync.Mutex
	places   map[int]*place
	sessions map[[sha256.Size]byte]*place

	gate    *gate
	web     *http.Server
	closing atomic.Bool
	base    context.Context // of saving; a phone that drops off does not end it
	stop    context.CancelFunc
	done    chan struct{}
}

// Open begins serving. It fails when the machine lets nobody listen, or when
// there is no seat.
func Open(o Options) (*Server, error) {
	if o.Kitchen == nil || len(o.Seats) == 0 {
		return nil, problem.New("", words.Say("phone.error.seats"), "")
	}
	s := &Server{
		kitchen: o.Kitchen, now: o.Now, trouble: o.Trouble, random: o.Random, limits: usual,
		places: map[int]*place{}, sessions: map[[sha256.Size]byte]*place{}, done: make(chan struct{}),
	}
	if s.now == nil {
		s.now = time.Now
	}
	if s.random == nil {
		s.random = rand.Reader
	}
	if o.limits != nil {
		s.limits = *o.limits
	}
	s.gate = newGate(s.limits, s.now)
	if err := s.deal(o.Seats, o.Again); err != nil {
		return nil, problem.Wrap(err, "", words.Say("phone.error.random"), "")
	}
	l, err := s.listen(o.Listen)
	if err != nil {
		return nil, problem.Wrap(err, "", words.Say("phone.error.listen"), words.Say("phone.error.listen.hint"))
	}
	s.serve(newDoor(l, s.limits, o.peers))
	return s, nil
}

// deal draws the link's token, the key of form tokens and a code for each seat;
// tickets handed out before are kept where they are of our making.
func (s *Server) deal(seats []int, again *Tickets) error {
	if again == nil {
		again = &Tickets{}
	}
	var err error
	if s.token = again.Link; !made(s.token, linkAlphabet, linkLength) {
		if s.token, err = s.letters(linkAlphabet, linkLength); err != nil {
			return err
		}
	}
	if s.key, err = s.draw(32); err != nil {
		return err
	}
	taken := map[string]bool{}
	for _, n := range seats {
		code := again.Codes[n]
		for s.places[n] == nil {
			if made(code, codeAlphabet, codeLength) && !taken[code] {
				taken[code], s.places[n] = true, &place{seat: n, code: code}
			} else if code, err = s.letters(codeAlphabet, codeLength); err != nil {
				return err
			}
		}
	}
	return nil
}

func (s *Server) listen(address string) (net.Listener, error) {
	if address != "" {
		host, _, err := net.SplitHostPort(address)
		if err != nil {
			return nil, err
		}
		s.host = host
		return net.Listen("tcp", address)
	}
	if l, err := net.Listen("tcp", Preferred); err == nil {
		return l, nil
	}
	return net.Listen("tcp", ":0")
}

func (s *Server) serve(l net.Listener) {
	if a, ok := l.Addr().(*net.TCPAddr); ok {
		s.port = a.Port
	}
	s.base, s.stop = context.WithCancel(context.Background())
	s.web = &http.Server{
		Handler: http.HandlerFunc(s.answer), ReadHeaderTimeout: s.limits.header, ReadTimeout: s.limits.read,
		WriteTimeout: s.limits.write, IdleTimeout: s.limits.idle, MaxHeaderBytes: s.limits.headerBytes,
		DisableGeneralOptionsHandler: true, ErrorLog: silent(),
	}
	go func() {
		defer close(s.done)
		_ = s.web.Serve(l) // ends with Close; a listener that fails ends it too
	}()
}

// Close takes no further answer from now on, lets one that is being saved finish
// for up to two seconds, and frees the port. Do not call it while holding what
// Kitchen.Save needs. A second call does nothing.
func (s *Server) Close() error {
	if s.closing.Swap(true) {
		return nil
	}
	defer s.stop()
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	err := s.web.Shutdown(ctx)
	if errors.Is(err, context.DeadlineExceeded) {
		err = s.web.Close()
	}
	<-s.done
	return err
}

// Codes returns the join code of each seat, to be handed to the taster who sits
// there: six letters and digits that are not mistaken for others.
func (s *Server) Codes() map[int]string {
	out := map[int]string{}
	for n, p := range s.places {
		out[n] = p.code
	}
	return out
}

// Tickets returns what to open the page again with, after Close, so that links
// and codes already handed out still hold. Phones type their code again.
func (s *Server) Tickets() *Tickets { return &Tickets{Link: s.token, Codes: s.Codes()} }

// QR draws a link black on white, 8 pixels a module, with its quiet zone.
func (s *Server) QR(link string) (image.Image, error) {
	c, err := qr.Encode(link)
	if err != nil {
		return nil, problem.Wrap(err, "", words.Say("phone.error.qr"), "")
	}
	return c.Image(8), nil
}

// Progress of one seat.
type Progress struct {
	Joined bool // a phone is at the seat
	Done   int  // parts answered: cups, the order, the last question
	Of     int  // parts of the ballot
}

// Progress returns how far each seat has come on its phone. It asks
// Kitchen.Ballot; a seat whose ballot fails has Of 0.
func (s *Server) Progress() map[int]Progress {
	out := map[int]Progress{}
	for n, p := range s.places {
		s.mu.Lock()
		at := Progress{Joined: p.joined}
		s.mu.Unlock()
		if b, given, err := s.kitchen.Ballot(n); err == nil && b != nil {
			list := screensOf(b)
			at.Of = len(list)
			for _, sc := range list {
				if sc.done(given) {
					at.Done++
				}
			}
		}
		out[n] = at
	}
	return out
}

// Answered returns how many parts of its ballot each seat has answered on its
// phone: cups, the order, the last question.
func (s *Server) Answered() map[int]int {
	out := map[int]int{}
	for n, p := range s.Progress() {
		out[n] = p.Done
	}
	return out
}

// seats lists the seats in order.
func (s *Server) seats() []int {
	var out []int
	for n := range s.places {
		out = append(out, n)
	}
	slices.Sort(out)
	return out
}
