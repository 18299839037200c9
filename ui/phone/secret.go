package phone

import (
	"crypto/hmac"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"io"
	"strings"
)

// What a link is written in: 32 small letters and digits that can be typed from
// paper, 5 bits each. 26 of them are 130 random bits.
const (
	linkAlphabet = "0123456789abcdefghjkmnpqrstvwxyz"
	linkLength   = 26
)

// What a seat's code is written in: capitals and digits that are neither taken
// for one another in print or handwriting (no 0 O Q, 1 I L, 2 Z, 5 S, 8 B, 6 G,
// U V) nor, without vowels, spell words. 18^6 is 34 million.
const (
	codeAlphabet = "CDFHJKMNPRTWXY3479"
	codeLength   = 6
)

// draw returns n random bytes.
func (s *Server) draw(n int) ([]byte, error) {
	b := make([]byte, n)
	s.randomMu.Lock()
	defer s.randomMu.Unlock()
	_, err := io.ReadFull(s.random, b)
	return b, err
}

// letters draws a text of n letters, each as likely as any other: bytes that do
// not divide evenly are drawn again.
func (s *Server) letters(alphabet string, n int) (string, error) {
	even := 256 / len(alphabet) * len(alphabet)
	out := make([]byte, 0, n)
	for len(out) < n {
		b, err := s.draw(1)
		if err != nil {
			return "", err
		}
		if int(b[0]) < even {
			out = append(out, alphabet[int(b[0])%len(alphabet)])
		}
	}
	return string(out), nil
}

// made tells whether a text is n letters of an alphabet, as letters draws it.
func made(text, alphabet string, n int) bool {
	return len(text) == n && strings.Trim(text, alphabet) == ""
}

// secret draws a cookie's value, 256 bits, or a style's nonce.
func (s *Server) secret(bytes int) (string, error) {
	b, err := s.draw(bytes)
	return base64.RawURLEncoding.EncodeToString(b), err
}

// formToken binds a form to the phone it was sent to and to what it is for, so
// that neither another site, another phone nor another form can send it.
func (s *Server) formToken(cookie, purpose string) string {
	mac := hmac.New(sha256.New, s.key)
	mac.Write([]byte(cookie))
	mac.Write([]byte{0})
	mac.Write([]byte(purpose))
	return base64.RawURLEncoding.EncodeToString(mac.Sum(nil))
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// seatOf finds the seat of a typed code, nil if there is none. It compares with
// every seat, so that time tells nothing.
func (s *Server) seatOf(typed string) *place {
	clean := strings.ToUpper(strings.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '\u00a0' {
			return -1
		}
		return r
	}, typed))
	var found *place
	for _, n := range s.seats() {
		if p := s.places[n]; same(clean, p.code) {
			found = p
		}
	}
	return found
}

// join gives a seat to the phone with this cookie. The latest phone wins: one
// that sat there before is asked for its code again, so that a seat never has
// two phones answering at once; what was saved stays.
func (s *Server) join(p *place, cookie string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.sessions, p.session)
	p.session = sha256.Sum256([]byte(cookie))
	p.joined, p.started, p.notice = true, false, ""
	s.sessions[p.session] = p
}

// leave frees the seat of a cookie.
func (s *Server) leave(cookie string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	digest := sha256.Sum256([]byte(cookie))
	if p := s.sessions[digest]; p != nil {
		delete(s.sessions, digest)
		p.joined, p.session = false, [sha256.Size]byte{}
	}
}

// at returns the place a cookie answers for, nil if none. Cookies are found by
// their digest: how long it takes says nothing about another's cookie.
func (s *Server) at(cookie string) *place {
	if cookie == "" {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.sessions[sha256.Sum256([]byte(cookie))]
}
