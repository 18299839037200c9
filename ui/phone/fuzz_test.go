package phone

import (
	"context"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// FuzzHandler sends any method, path, form and headers from a phone that has a
// seat. Nothing crashes, no answer is a fault of ours, and only what the ballot
// takes is ever saved.
func FuzzHandler(f *testing.F) {
	k := supper(recipes.TestLiking, 2)
	s := open(f, k, 2, func(l *limits) { l.burst, l.wrongBurst = 1e9, 1e9 })
	cookie := strings.Repeat("c", 43)
	s.join(s.places[1], cookie)
	local := &net.TCPAddr{IP: net.IPv4(192, 168, 1, 5), Port: 8417}
	for _, x := range [][4]string{
		{"POST", "/t", "screen=1&q0=5&q1=5&q2=3&note=", "1"},
		{"POST", "/t", "screen=1&skip=1&note=x", "1"},
		{"POST", "/t", "screen=4&q0=0", "4"},
		{"POST", "/leave", "", "leave"},
		{"POST", "/j/" + s.token, "code=CCCCCC", "join"},
		{"GET", "/t/1", "", ""},
		{"PUT", "/../t?x=%zz", "\xff", "0"},
	} {
		f.Add(x[0], x[1], x[2], x[3], "")
	}
	f.Fuzz(func(t *testing.T, method, path, body, purposeOf, origin string) {
		k.change(func() { k.given = map[int]Given{} })
		s.join(s.places[1], cookie)
		if strings.Trim(purposeOf, "0123456789") == "" {
			purposeOf = "screen " + purposeOf
		}
		r, err := http.NewRequestWithContext(context.WithValue(t.Context(), http.LocalAddrContextKey, net.Addr(local)), method, "http://192.168.1.5:8417"+path, strings.NewReader(body+"&form="+s.formToken(cookie, purposeOf)))
		if err != nil {
			return
		}
		r.RemoteAddr = "192.168.1.9:40000"
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Cookie", cookieName+"="+cookie)
		r.Header.Set("Origin", origin)
		if method == http.MethodGet {
			r.Body, r.ContentLength = http.NoBody, 0
		}
		w := httptest.NewRecorder()
		s.answer(w, r)
		if w.Code >= 500 || w.Code < 200 {
			t.Errorf("status %d", w.Code)
		}
		if w.Code != http.StatusSeeOther && w.Body.Len() == 0 {
			t.Errorf("status %d with nothing to read", w.Code)
		}
		check(t, k)
	})
}

// check wants every kept answer to be one that its ballot takes.
func check(t *testing.T, k *cookKitchen) {
	for seat, given := range k.copy() {
		if seat != 1 {
			t.Errorf("seat %d answered", seat)
		}
		b, _, _ := k.Ballot(1)
		for code, said := range given {
			for key, v := range said.Scores {
				fine := false
				for _, q := range append(append([]tasting.Question{}, b.Ask...), b.Whole...) {
					fine = fine || q.Key == key && q.Takes(v) && q.Whole == (code == 0)
				}
				if !fine {
					t.Errorf("%s of %d is %v", key, code, v)
				}
			}
		}
	}
}
