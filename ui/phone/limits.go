package phone

import (
	"net/netip"
	"sync"
	"time"
)

// limits keep one guest, or one broken phone, from taking the page from others.
// From memory: a taster needs some 20 requests in an evening, a code is mistyped
// once or twice.
type limits struct {
	header, read, write, idle time.Duration
	save                      time.Duration // longest an answer may take to be kept
	headerBytes               int
	bodyBytes                 int64 // a note of 1,000 characters takes up to 12,000 when sent
	conns, connsEach          int
	burst, rate               float64 // requests of one address: at once, and a second
	allBurst, allRate         float64 // of all addresses that have no seat
	free                      int     // wrong codes without a wait
	wait, longest             time.Duration
	forget                    time.Duration // wrong codes are forgotten after
	wrongBurst, wrongRate     float64       // wrong codes of all addresses: at once, and a second
	callers                   int           // addresses remembered
}

var usual = limits{
	header: 5 * time.Second, read: 10 * time.Second, write: 20 * time.Second, idle: 30 * time.Second,
	save: 10 * time.Second, headerBytes: 8 << 10, bodyBytes: 16 << 10, conns: 256, connsEach: 32,
	burst: 60, rate: 5, allBurst: 400, allRate: 100,
	free: 5, wait: 20 * time.Second, longest: 15 * time.Minute, forget: 30 * time.Minute,
	wrongBurst: 60, wrongRate: 0.1, callers: 1024,
}

// bucket lets so many through at once and so many a second after.
type bucket struct {
	left float64
	at   time.Time
}

func (b *bucket) fill(now time.Time, burst, rate float64) {
	if b.at.IsZero() {
		b.left, b.at = burst, now
		return
	}
	b.left = min(burst, b.left+rate*max(0, now.Sub(b.at).Seconds()))
	b.at = now
}

func (b *bucket) take(now time.Time, burst, rate float64) bool {
	if b.fill(now, burst, rate); b.left < 1 {
		return false
	}
	b.left--
	return true
}

// caller is what is remembered of an address.
type caller struct {
	requests bucket
	seen     time.Time
	good     bool // has given a right code
	wrong    int
	wrongAt  time.Time
	until    time.Time // no code is looked at before
}

// gate counts requests and wrong codes.
type gate struct {
	mu     sync.Mutex
	limits limits
	now    func() time.Time
	all    bucket
	wrong  bucket
	by     map[netip.Addr]*caller
}

func newGate(l limits, now func() time.Time) *gate {
	return &gate{limits: l, now: now, by: map[netip.Addr]*caller{}}
}

// of finds an address, forgetting the one not seen for longest where there are
// too many; those that gave a right code are forgotten last.
func (g *gate) of(a netip.Addr, now time.Time) *caller {
	c := g.by[a]
	if c == nil {
		if len(g.by) >= g.limits.callers {
			g.forget()
		}
		c = &caller{}
		g.by[a] = c
	}
	c.seen = now
	return c
}

func (g *gate) forget() {
	var out netip.Addr
	var old *caller
	for a, c := range g.by {
		if old == nil || old.good && !c.good || old.good == c.good && c.seen.Before(old.seen) {
			out, old = a, c
		}
	}
	delete(g.by, out)
}

// pass tells whether a request may be answered; seated ones do not wait for the
// strangers' crowd.
func (g *gate) pass(a netip.Addr, seated bool) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	now := g.now()
	if !g.of(a, now).requests.take(now, g.limits.burst, g.limits.rate) {
		return false
	}
	return seated || g.all.take(now, g.limits.allBurst, g.limits.allRate)
}

// mayTry tells whether a code from the address is looked at: not while it waits
// for wrong ones, and not while strangers together try too many.
func (g *gate) mayTry(a netip.Addr) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	now := g.now()
	c := g.of(a, now)
	g.wrong.fill(now, g.limits.wrongBurst, g.limits.wrongRate)
	return !now.Before(c.until) && (c.good || g.wrong.left >= 1)
}

// tried keeps how a code turned out. A right one does not wipe out wrong ones
// before it, or a guest could guess at others' codes between two of her own.
func (g *gate) tried(a netip.Addr, right bool) {
	g.mu.Lock()
	defer g.mu.Unlock()
	now := g.now()
	c := g.of(a, now)
	if right {
		c.good = true
		return
	}
	g.wrong.take(now, g.limits.wrongBurst, g.limits.wrongRate)
	if now.Sub(c.wrongAt) > g.limits.forget {
		c.wrong = 0
	}
	c.wrong, c.wrongAt = c.wrong+1, now
	if over := c.wrong - g.limits.free; over > 0 {
		c.until = now.Add(min(g.limits.longest, g.limits.wait<<min(over-1, 20)))
	}
}
