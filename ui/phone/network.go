package phone

import (
	"io"
	"log"
	"net"
	"net/http"
	"net/netip"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// silent keeps the server's own log, which names addresses, from anywhere.
func silent() *log.Logger { return log.New(io.Discard, "", 0) }

// door is a listener that lets in the house only, and no more connections than
// limits allow.
type door struct {
	net.Listener
	limits limits
	peers  func(string) bool

	mu sync.Mutex
	n  int
	by map[netip.Addr]int
}

func newDoor(l net.Listener, lim limits, peers func(string) bool) *door {
	if peers == nil {
		peers = nearby
	}
	return &door{Listener: l, limits: lim, peers: peers, by: map[netip.Addr]int{}}
}

// Accept waits for the next connection that is let in; others are closed unread.
func (d *door) Accept() (net.Conn, error) {
	for {
		c, err := d.Listener.Accept()
		if err != nil {
			return nil, err
		}
		a := addressOf(c.RemoteAddr().String())
		if d.peers(a.String()) && d.enter(a) {
			return &guest{Conn: c, gone: sync.OnceFunc(func() { d.left(a) })}, nil
		}
		_ = c.Close()
	}
}

func (d *door) enter(a netip.Addr) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.n >= d.limits.conns || d.by[a] >= d.limits.connsEach {
		return false
	}
	d.n++
	d.by[a]++
	return true
}

func (d *door) left(a netip.Addr) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.n--
	if d.by[a]--; d.by[a] <= 0 {
		delete(d.by, a)
	}
}

// guest is a connection that tells the door when it goes.
type guest struct {
	net.Conn
	gone func()
}

// Close closes the connection.
func (g *guest) Close() error {
	g.gone()
	return g.Conn.Close()
}

// CloseWrite lets the other side read the last of an answer to what was too long
// to be read whole; the server looks for it.
func (g *guest) CloseWrite() error {
	if c, ok := g.Conn.(interface{ CloseWrite() error }); ok {
		return c.CloseWrite()
	}
	return nil
}

// addressOf reads "address:port"; the zero address if it is none.
func addressOf(hostPort string) netip.Addr {
	ap, err := netip.ParseAddrPort(hostPort)
	if err != nil {
		return netip.Addr{}
	}
	return ap.Addr().Unmap().WithZone("")
}

// nearby tells whether an address is in the house: private, link-local, this
// machine, or in a network this machine is in.
func nearby(ip string) bool {
	a, err := netip.ParseAddr(ip)
	if err != nil {
		return false
	}
	if a.IsPrivate() || a.IsLoopback() || a.IsLinkLocalUnicast() {
		return true
	}
	return slices.ContainsFunc(networks(), func(p netip.Prefix) bool { return p.Masked().Contains(a) })
}

// networks returns this machine's addresses with their networks; interfaces that
// are down have none.
func networks() []netip.Prefix {
	var out []netip.Prefix
	all, err := net.Interfaces()
	if err != nil {
		return nil
	}
	for _, i := range all {
		if i.Flags&net.FlagUp == 0 {
			continue
		}
		addresses, err := i.Addrs()
		if err != nil {
			continue
		}
		for _, a := range addresses {
			if p, err := netip.ParsePrefix(a.String()); err == nil {
				out = append(out, netip.PrefixFrom(p.Addr().Unmap().WithZone(""), p.Bits()))
			}
		}
	}
	return out
}

// Links returns the page's address on each network this machine is in now, IPv4
// first; none when it is in no network. A link that listens on this machine only
// is of use on this machine only.
func (s *Server) Links() []string {
	var four, six []string
	for _, a := range s.addresses() {
		link := "http://" + netip.AddrPortFrom(a, uint16(s.port)).String() + "/j/" + s.token
		if a.Is4() {
			four = append(four, link)
		} else {
			six = append(six, link)
		}
	}
	return append(four, six...)
}

// addresses are those a phone can open. A browser takes no address that needs
// the name of an interface beside it, so link-local ones are left out.
func (s *Server) addresses() []netip.Addr {
	if a, err := netip.ParseAddr(s.host); err == nil && !a.IsUnspecified() {
		return []netip.Addr{a}
	}
	only4 := s.host == "0.0.0.0"
	var out []netip.Addr
	for _, p := range networks() {
		a := p.Addr()
		if a.IsGlobalUnicast() && !(only4 && a.Is6()) && !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	if a, ok := namedHost(s.host); ok {
		out = append(out, a)
	}
	return out
}

// namedHost is for a server told to listen on "localhost".
func namedHost(host string) (netip.Addr, bool) {
	return netip.AddrFrom4([4]byte{127, 0, 0, 1}), host == "localhost"
}

// ours tells whether a request was meant for this machine: its Host is the
// address that the connection came to, or this machine's own name. A name from
// elsewhere that someone made point here is not.
func ours(r *http.Request) bool {
	local, _ := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if local == nil {
		return false
	}
	here, err := netip.ParseAddrPort(local.String())
	if err != nil {
		return false
	}
	host, port, err := net.SplitHostPort(r.Host)
	if err != nil {
		host, port = strings.Trim(r.Host, "[]"), "80"
	}
	if port != strconv.Itoa(int(here.Port())) {
		return false
	}
	address := here.Addr().Unmap().WithZone("")
	if a, err := netip.ParseAddr(host); err == nil {
		return a.Unmap() == address
	}
	host = strings.TrimSuffix(strings.ToLower(host), ".")
	return slices.Contains(names(), host) || host == "localhost" && address.IsLoopback()
}

func names() []string {
	name, err := os.Hostname()
	if err != nil || name == "" {
		return nil
	}
	name = strings.ToLower(name)
	if strings.Contains(name, ".") {
		return []string{name}
	}
	return []string{name, name + ".local"}
}
