package phone

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"net/url"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
)

// attack is one hostile or broken request. It goes out raw, so that it can be as
// wrong as it likes. status 0 means that no answer, or any refusal, will do.
type attack struct {
	name   string
	raw    string
	status int
}

// stage is what an attacker may know: the link, a seat and its session, another's
// seat, and a ballot page's hidden fields.
type stage struct {
	s            *Server
	host, cookie string
	form         string // token of the screen she is at
	screen       string
	leave        string
	joinForm     string
}

func (g *stage) request(method, path, body string, headers ...string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s HTTP/1.1\r\n", method, path)
	all := []string{"Host", g.host, "Cookie", cookieName + "=" + g.cookie, "Connection", "close"}
	if body != "" {
		all = append(all, "Content-Type", "application/x-www-form-urlencoded", "Content-Length", strconv.Itoa(len(body)))
	}
	all = append(all, headers...)
	over := map[string]bool{}
	for i := len(all) - 2; i >= 0; i -= 2 { // what is given last stands
		if k := all[i]; !over[k] {
			over[k] = true
			fmt.Fprintf(&b, "%s: %s\r\n", k, all[i+1])
		}
	}
	return b.String() + "\r\n" + body
}

// ballot is a form for /t; name and value pairs replace those of a good one.
func (g *stage) ballot(pairs ...string) string {
	v := url.Values{"form": {g.form}, "screen": {g.screen}, "q0": {"5"}, "q1": {"5"}, "q2": {"3"}, "note": {""}}
	for i := 0; i < len(pairs); i += 2 {
		v.Set(pairs[i], pairs[i+1])
	}
	return v.Encode()
}

// kinds of attack, each a little different every time. What holds for all: the
// kitchen stays as it was.
var kinds = []func(g *stage, r *rand.Rand) attack{
	func(g *stage, r *rand.Rand) attack {
		m := pick(r, "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "HEAD", "PROPFIND", "get", "POSTS", "\x00")
		return attack{"method " + m, g.request(m, pick(r, "/t", "/", "/leave", "/j/"+g.s.token), ""), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		p := pick(r, "/../../etc/passwd", "/j/../t", "//t", "/t/", "/t/..", "/%74", "/t%00", "/.git/config", "/j/", "/j/"+strings.ToUpper(g.s.token), "/t/1/2", "/static/", "/debug/pprof/", "/%2e%2e/%2e%2e/workbook", "/T", "/t;x", "/j/"+g.s.token+"/")
		return attack{"path " + p, g.request("GET", p, ""), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		token := word(r, linkAlphabet, linkLength)
		return attack{"a guessed link", g.request("GET", "/j/"+token, ""), 404}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a huge body", g.request("POST", "/t", g.ballot("note", strings.Repeat("x", 20<<10+r.IntN(200<<10)))), 413}
	},
	func(g *stage, r *rand.Rand) attack {
		body := g.ballot("note", strings.Repeat("y", 40<<10))
		return attack{"a huge body in chunks", g.request("POST", "/t", "", "Transfer-Encoding", "chunked", "Content-Type", "application/x-www-form-urlencoded") +
			fmt.Sprintf("%x\r\n%s\r\n0\r\n\r\n", len(body), body), 413}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a body cut short", g.request("POST", "/t", g.ballot(), "Content-Length", strconv.Itoa(5000+r.IntN(1000))), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a length that is none", g.request("POST", "/t", g.ballot(), "Content-Length", pick(r, "-1", "1e3", "99999999999999999999", "x")), 400}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"two lengths", g.request("POST", "/t", g.ballot(), "Transfer-Encoding", pick(r, "gzip", "identity, chunked", "chunked, chunked", "xchunked")), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		v := pick(r, "0", "10", "-1", "99", "5.5", "1e0", "NaN", "٣", "5 ", "", "null", "999", "1000", "0x5", "5\x00")
		return attack{"score " + v, g.request("POST", "/t", g.ballot("q0", v)), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		v := pick(r, "6", "9", "0")
		return attack{"just-right " + v, g.request("POST", "/t", g.ballot("q2", v)), 400}
	},
	func(g *stage, r *rand.Rand) attack {
		n := pick(r, "q3", "q9", "q-1", "Liking", "usual", "seat", "code", "q0c0", "sample", "q", "q00", "qqqqqqqqqqqqqqqqqq", "__proto__", "q0[]", "")
		return attack{"question " + n, g.request("POST", "/t", g.ballot(n, "5")), 400}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a question twice", g.request("POST", "/t", g.ballot()+"&q0="+strconv.Itoa(1+r.IntN(9))), 400}
	},
	func(g *stage, r *rand.Rand) attack {
		b := pick(r, "%zz=1", "q0=%", "a;b;c", "form="+g.form+"&screen=1&note=%ff%fe&q0=5&q1=5&q2=3", "\x00\x01\x02", "{\"q0\":5}", strings.Repeat("&", 9000), strings.Repeat("q0=1&", 3000))
		return attack{"encoding", g.request("POST", "/t", b), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		k := pick(r, "multipart/form-data; boundary=x", "application/json", "text/plain", "", "application/x-www-form-urlencoded, text/plain", "a/b;;;")
		return attack{"kind " + k, g.request("POST", "/t", g.ballot(), "Content-Type", k), 415}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a compressed body", g.request("POST", "/t", g.ballot(), "Content-Encoding", pick(r, "gzip", "br")), 415}
	},
	func(g *stage, r *rand.Rand) attack {
		t := pick(r, "", "x", g.form[1:]+"A", g.leave, g.joinForm, word(r, linkAlphabet, 43))
		return attack{"a form token that is not this form's", g.request("POST", "/t", g.ballot("form", t)), 403}
	},
	func(g *stage, r *rand.Rand) attack {
		n := pick(r, "0", "2", "3", "4", "5", "99", "999", "-1", "x", "")
		return attack{"another screen " + n, g.request("POST", "/t", g.ballot("screen", n)), 403}
	},
	func(g *stage, r *rand.Rand) attack {
		c := pick(r, "", word(r, linkAlphabet, 43), strings.Repeat("A", 43), strings.Repeat("A", 4000), "x; y=z", "\"\"")
		return attack{"another cookie", g.request("POST", "/t", g.ballot(), "Cookie", cookieName+"="+c), 403}
	},
	func(g *stage, r *rand.Rand) attack {
		o := pick(r, "http://evil.example", "https://"+g.host, "http://127.0.0.1", "file://", "http://"+g.host+".evil.example")
		return attack{"from " + o, g.request("POST", "/t", g.ballot(), "Origin", o), 403}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"from another site", g.request("POST", "/t", g.ballot(), "Sec-Fetch-Site", pick(r, "cross-site", "same-site")), 403}
	},
	func(g *stage, r *rand.Rand) attack {
		h := pick(r, "evil.example", "evil.example:"+strconv.Itoa(g.s.port), "127.0.0.1", "127.0.0.1:80", "192.168.0.1:"+strconv.Itoa(g.s.port), "[::1]:"+strconv.Itoa(g.s.port), "127.0.0.1.nip.example:"+strconv.Itoa(g.s.port), "localhost.:1", "0.0.0.0:"+strconv.Itoa(g.s.port))
		return attack{"host " + h, g.request("GET", "/t", "", "Host", h), 421}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a host in the path", g.request("GET", "http://evil.example/t", ""), 421}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"two hosts", "GET /t HTTP/1.1\r\nHost: " + g.host + "\r\nHost: evil.example\r\nConnection: close\r\n\r\n", 400}
	},
	func(g *stage, r *rand.Rand) attack {
		x := pick(r, "/j/"+g.s.token+"%0d%0aSet-Cookie:%20tray=x", "/t?x=%0d%0aX-Bad:%201", "/t/%0d%0aX-Bad:1")
		return attack{"a header in the path", g.request("GET", x, ""), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a header in a header", g.request("GET", "/nothing", "", "X-A", "b\r\nX-Bad: 1", "Referer", "\x01"), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a huge header", g.request("GET", "/t", "", "X-Long", strings.Repeat("z", 16<<10+r.IntN(64<<10))), 431}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a GET with a body", g.request("GET", "/t", g.ballot()), 400}
	},
	func(g *stage, r *rand.Rand) attack {
		b := make([]byte, 1+r.IntN(400))
		for i := range b {
			b[i] = byte(r.Uint32())
		}
		return attack{"noise", string(b) + "\r\n\r\n", 0}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"another protocol", pick(r, "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03", "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", "GET /t\r\n\r\n", "GET /t HTTP/9.9\r\n\r\n", "SSH-2.0-x\r\n", "OPTIONS * HTTP/1.1\r\nHost: "+g.host+"\r\nConnection: close\r\n\r\n"), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		code := word(r, codeAlphabet, pickInt(r, 1, 6, 6, 6, 12))
		return attack{"a guessed code", g.request("POST", "/j/"+g.s.token, url.Values{"form": {g.joinForm}, "code": {code}}.Encode()), 0}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"a code without a form", g.request("POST", "/j/"+g.s.token, "code="+g.s.Codes()[1]), 403}
	},
	func(g *stage, r *rand.Rand) attack {
		return attack{"out of a seat without its token", g.request("POST", "/leave", "form="+pick(r, "", g.form, "x")), 403}
	},
}

func pick(r *rand.Rand, of ...string) string { return of[r.IntN(len(of))] }
func pickInt(r *rand.Rand, of ...int) int    { return of[r.IntN(len(of))] }

func word(r *rand.Rand, alphabet string, n int) string {
	b := make([]byte, n)
	for i := range b {
		b[i] = alphabet[r.IntN(len(alphabet))]
	}
	return string(b)
}

func hostileRuns() int {
	if n, err := strconv.Atoi(os.Getenv("PAREWELL_HOSTILE")); err == nil && n > 0 {
		return n
	}
	return 500
}

// TestHostile sends many wrong requests and wants the kitchen unchanged, and good
// tasters served among them.
func TestHostile(t *testing.T) {
	k := supper(recipes.TestLiking, 12)
	s := open(t, k, 12, func(l *limits) {
		l.read, l.header, l.wrongBurst, l.callers = 300*time.Millisecond, 300*time.Millisecond, 1e6, 200
	})
	victim := sit(t, s, "127.0.0.1")
	victim.join(s, 1)
	g := &stage{s: s, host: strings.TrimPrefix(base(s), "http://"), form: victim.form().Get("form"), screen: "1"}
	all := hidden.FindAllStringSubmatch(victim.body, -1)
	g.leave = all[len(all)-1][2]
	for _, c := range victim.web.Jar.Cookies(mustURL(t, base(s))) {
		g.cookie = c.Value
	}
	g.joinForm = s.formToken(g.cookie, "join")
	before := k.copy()
	r := rand.New(rand.NewPCG(11, 25))
	counts := map[int]int{}
	good, start := 0, time.Now()
	var longest time.Duration
	for i := range hostileRuns() {
		a := kinds[i%len(kinds)](g, r)
		from := fmt.Sprintf("127.0.%d.%d", 1+i/200%200, 1+i%200)
		status, head, err := send(g.host, from, a.raw)
		if err != nil {
			t.Fatalf("%s: %v", a.name, err)
		}
		counts[status]++
		switch {
		case a.status != 0 && status != a.status:
			t.Errorf("%s: status %d, want %d", a.name, status, a.status)
		case a.status == 0 && strings.HasPrefix(a.name, "score") && status != 400 && status != 422:
			t.Errorf("%s: status %d", a.name, status)
		case status >= 500 && status != 501 && status != 505: // the last two are the protocol's own
			t.Errorf("%s: status %d", a.name, status)
		case strings.Contains(head, "X-Bad") || strings.Contains(head, "Server:") || strings.Contains(head, secrets[0]):
			t.Errorf("%s: answered\n%s", a.name, head)
		}
		if i%100 == 50 && good < 11 {
			good++
			began := time.Now()
			d := sit(t, s, "127.0.0."+strconv.Itoa(10+good))
			d.join(s, good+1)
			d.likes(1+good%9, 5, 3, "")
			d.want(200, "<span>2 of 4</span>")
			before[good+1] = Given{k.tasting.Seats[good].Cups[0].Code: {map[string]float64{"Liking": float64(1 + good%9), "Creaminess": 5, "Salt": 3}, ""}}
			longest = max(longest, time.Since(began))
		}
		if now := k.copy(); !reflect.DeepEqual(now, before) {
			t.Fatalf("%s: the kitchen changed: %v", a.name, now)
		}
	}
	victim.get("/t")
	victim.want(200, "<span>1 of 4</span>")
	victim.likes(4, 4, 4, "")
	victim.want(200, "<span>2 of 4</span>")
	t.Logf("%d requests in %v, by status %v; %d good tasters served between, the slowest in %v", hostileRuns(), time.Since(start).Round(time.Millisecond), counts, good, longest.Round(time.Millisecond))
}

func mustURL(t *testing.T, s string) *url.URL {
	t.Helper()
	u, err := url.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return u
}

// send writes raw bytes and returns the answer's status and head; 0 when the
// server hung up without one.
func send(host, from, raw string) (int, string, error) {
	d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP(from)}, Timeout: 5 * time.Second}
	c, err := d.Dial("tcp", host)
	if err != nil {
		return 0, "", err
	}
	defer c.Close()
	if err := c.SetDeadline(time.Now().Add(8 * time.Second)); err != nil {
		return 0, "", err
	}
	_, _ = io.WriteString(c, raw) // the server may hang up before it has all
	if tcp, ok := c.(*net.TCPConn); ok {
		_ = tcp.CloseWrite() // nothing more will come; waiting phones have their own test
	}
	resp, err := http.ReadResponse(bufio.NewReader(c), nil)
	var slow net.Error
	switch {
	case errors.As(err, &slow) && slow.Timeout():
		return 0, "", err
	case err != nil:
		return 0, "", nil
	}
	defer resp.Body.Close()
	body, _ := io.ReadAll(io.LimitReader(resp.Body, 1<<20))
	var head strings.Builder
	_ = resp.Header.Write(&head)
	return resp.StatusCode, head.String() + "\n" + string(body), nil
}

// TestManyAndSlow: one guest who opens all connections she can, and sends a byte
// now and then, keeps nobody else out, and is shown out in time.
func TestManyAndSlow(t *testing.T) {
	k := supper(recipes.TestLiking, 1)
	s := open(t, k, 1, func(l *limits) { l.header, l.read = 700*time.Millisecond, time.Second })
	host := strings.TrimPrefix(base(s), "http://")
	d := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.ParseIP("127.0.0.9")}, Timeout: 5 * time.Second}
	gone := make(chan time.Duration, 80)
	start := time.Now()
	for i := range 80 {
		c, err := d.Dial("tcp", host)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		go func() {
			raw := "GET /t HTTP/1.1\r\nHost: " + host + "\r\nX-Slow: "
			if i%2 == 0 {
				raw = "POST /t HTTP/1.1\r\nHost: " + host + "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 400\r\n\r\n"
			}
			_, _ = io.WriteString(c, raw)
			for _, err := io.WriteString(c, "q"); err == nil; _, err = io.WriteString(c, "q") {
				time.Sleep(50 * time.Millisecond)
			}
			gone <- time.Since(start)
		}()
	}
	guest := sit(t, s, "127.0.0.1")
	guest.join(s, 1)
	guest.likes(4, 4, 4, "")
	guest.want(200, "<span>2 of 4</span>")
	served := time.Since(start)
	var last time.Duration
	for range 80 {
		select {
		case last = <-gone:
		case <-time.After(10 * time.Second):
			t.Fatal("a slow phone still holds on")
		}
	}
	t.Logf("80 slow connections: the good taster was through in %v, the last slow one shown out after %v", served.Round(time.Millisecond), last.Round(time.Millisecond))
}
