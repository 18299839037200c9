package phone

import (
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"parewell/recipes"
)

// promises are words that would tell a taster what to think (DESIGN: invitation,
// ballot and phone page never say them), and what a program might let slip.
var promises = []string{
	"light", "lighter", "healthy", "healthier", "reduced", "new", "original", "version", "versions", "swap", "less", "fat",
	"calories", "improved", "panelist", "id", "undefined", "nil", "golang", "go-http",
}

// markup is what pages are made of, which a word in it does not show.
var markup = regexp.MustCompile(`\b(id|aria-describedby)="[\w-]+"`)

// hideCodes replaces what may differ between seats: codes of cups, the seat's
// number, and what is random. Each keeps its length.
func hideCodes(page string, k *cookKitchen, seat int) string {
	// What is random goes first: the digits of a code may stand in it by chance.
	page = regexp.MustCompile(`name="form" value="[\w-]{43}"`).ReplaceAllString(page, `name="form" value="*"`)
	page = regexp.MustCompile(`nonce="[\w-]{22}"`).ReplaceAllString(page, `nonce="*"`)
	head, body, _ := strings.Cut(page, "</style>") // a style has figures of its own
	for i, c := range k.tasting.Seat(seat).Cups {
		body = strings.ReplaceAll(body, strconv.Itoa(c.Code), "#"+string(rune('a'+i))+"#")
	}
	page = head + "</style>" + body
	return regexp.MustCompile(`Seat  +\d+`).ReplaceAllString(page, "Seat   #")
}

// evening walks a whole ballot and returns all that was served, page by page.
func evening(t *testing.T, s *Server, k *cookKitchen, seat int) (pages []string, sizes []string) {
	d := sit(t, s, "127.0.0."+strconv.Itoa(seat))
	take := func() {
		var head strings.Builder
		h := d.header.Clone()
		for _, name := range []string{"Date", "Set-Cookie", "Content-Security-Policy"} {
			h.Del(name) // the time, and what is random
		}
		if err := h.Write(&head); err != nil {
			t.Fatal(err)
		}
		pages = append(pages, hideCodes(strings.ReplaceAll(head.String()+d.body, s.token, "*"), k, seat)) // digits of a code may stand in the token by chance
		sizes = append(sizes, strconv.Itoa(d.status)+" "+d.header.Get("Content-Length"))
	}
	d.get("/j/" + s.token)
	take()
	d.post("/j/"+s.token, d.form("code", s.Codes()[seat]))
	take()
	d.post("/t", d.form())
	take()
	for range 3 {
		d.post("/t", d.form("q0", "5"))
		take()
		d.likes(5, 5, 3, "")
		take()
	}
	d.post("/t", d.form("q0", "0", "note", ""))
	take()
	for _, p := range []string{"/nothing", "/t/1", "/", "/leave"} {
		d.get(p)
		take()
	}
	return pages, sizes
}

// TestAllSeatsAlike: what twelve seats are served is free of secrets and promises
// and, after hiding the codes, the same byte for byte, whatever stands in whose
// first cup.
func TestAllSeatsAlike(t *testing.T) {
	k := supper(recipes.TestLiking, 12)
	s := open(t, k, 12, nil)
	first, firstSizes := evening(t, s, k, 1)
	words := regexp.MustCompile(`(?i)\b(` + strings.Join(promises, "|") + `)\b`)
	for _, p := range first {
		if m := words.FindString(markup.ReplaceAllString(p, "")); m != "" {
			t.Errorf("a page says %q", m)
		}
		if strings.Contains(p, "[phone.") || strings.Contains(p, "[ballot.") || strings.Contains(p, "ZgotmplZ") {
			t.Errorf("a page has a sentence missing:\n%s", p)
		}
	}
	for seat := 2; seat <= 12; seat++ {
		pages, sizes := evening(t, s, k, seat)
		differ(t, "sizes at seat "+strconv.Itoa(seat), sizes, firstSizes)
		for i := range first {
			if pages[i] != first[i] {
				t.Errorf("seat %d, page %d is not that of seat 1", seat, i)
			}
			for _, secret := range secrets {
				if strings.Contains(strings.ToLower(pages[i]), strings.ToLower(secret)) {
					t.Errorf("seat %d, page %d has %q", seat, i, secret)
				}
			}
		}
	}
	t.Logf("%d pages of 12 seats; status and size: %v", 12*len(first), firstSizes)
}

// TestHeaders: what every answer carries, errors too.
func TestHeaders(t *testing.T) {
	s := open(t, supper(recipes.TestLiking, 1), 1, nil)
	d := sit(t, s, "127.0.0.1")
	for _, p := range []string{"/", "/j/" + s.token, "/t", "/nothing", "/leave"} {
		d.get(p)
		for name, want := range map[string]string{
			"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer", "Cache-Control": "no-store", "X-Frame-Options": "DENY", "Server": "", "X-Powered-By": "",
		} {
			if got := d.header.Get(name); got != want {
				t.Errorf("%s: %s is %q, want %q", p, name, got, want)
			}
		}
		csp := d.header.Get("Content-Security-Policy")
		nonce := regexp.MustCompile(`style nonce="([\w-]{22})"`).FindStringSubmatch(d.body)
		for _, want := range []string{"default-src 'none'", "frame-ancestors 'none'", "form-action 'self'", "base-uri 'none'", "style-src 'nonce-" + nonce[1] + "'"} {
			if !strings.Contains(csp, want) {
				t.Errorf("%s: no %s in %q", p, want, csp)
			}
		}
		if strings.Contains(csp, "unsafe") || strings.Contains(csp, "script") || strings.Contains(d.body, "<script") || strings.Contains(d.body, "http:") || strings.Contains(d.body, "https:") {
			t.Errorf("%s: script, or something from elsewhere", p)
		}
	}
	d.web.Jar = nil
	d.get("/j/" + s.token)
	c := d.header.Get("Set-Cookie")
	for _, want := range []string{"HttpOnly", "SameSite=Strict", "Path=/"} {
		if !strings.Contains(c, want) {
			t.Errorf("the cookie %q lacks %s", c, want)
		}
	}
	if d.post("/j/"+s.token, d.form("code", s.Codes()[1])); d.status != http.StatusForbidden || !strings.Contains(d.body, "keeps no cookies") {
		t.Errorf("a phone without cookies: %d", d.status)
	}
}
