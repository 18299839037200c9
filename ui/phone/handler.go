package phone

import (
	"io"
	"mime"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"
)

// cookieName names no program: the cookie goes to all that this machine serves.
const cookieName = "tray"

// visit is one request on its way to an answer.
type visit struct {
	*Server
	w      http.ResponseWriter
	r      *http.Request
	cookie string // "" none
	place  *place // nil: at no seat
}

// answer is the whole page: who may ask, how often, then what.
func (s *Server) answer(w http.ResponseWriter, r *http.Request) {
	v := &visit{Server: s, w: w, r: r}
	if c, err := r.Cookie(cookieName); err == nil && len(c.Value) == 43 {
		v.cookie = c.Value
	}
	v.place = s.at(v.cookie)
	v.guard()
	switch {
	case !s.gate.pass(addressOf(r.RemoteAddr), v.place != nil):
		w.Header().Set("Retry-After", "20")
		v.plain(http.StatusTooManyRequests, "busy")
	case !ours(r):
		v.plain(http.StatusMisdirectedRequest, "misdirected")
	case s.closing.Load() || !s.kitchen.Serving():
		w.Header().Set("Connection", "close")
		v.plain(http.StatusGone, "ended")
	case r.Method == http.MethodGet && (r.ContentLength != 0 || len(r.TransferEncoding) > 0):
		w.Header().Set("Connection", "close")
		v.plain(http.StatusBadRequest, "bad")
	default:
		v.route()
	}
}

// guard sets what every answer carries. The pages have no script; style is let in
// by a nonce when there is one.
func (v *visit) guard() {
	h := v.w.Header()
	h.Set("Content-Security-Policy", policy(""))
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("X-Frame-Options", "DENY")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cache-Control", "no-store")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=(), usb=(), display-capture=()")
}

func policy(nonce string) string {
	style := ""
	if nonce != "" {
		style = "style-src 'nonce-" + nonce + "'; "
	}
	return "default-src 'none'; " + style + "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
}

// route finds what a path and method ask for. Paths are compared as sent: one
// that is written in any roundabout way is none of ours.
func (v *visit) route() {
	path := v.r.URL.EscapedPath()
	token, door := strings.CutPrefix(path, "/j/")
	back, again := strings.CutPrefix(path, "/t/")
	switch {
	case path == "/":
		v.by(v.home, nil)
	case path == "/t":
		v.by(v.show, v.save)
	case again:
		v.by(func() { v.look(back) }, nil)
	case path == "/leave":
		v.by(nil, v.goAway)
	case door && same(token, v.token):
		v.by(v.enter, v.tryCode)
	default:
		v.plain(http.StatusNotFound, "nothing")
	}
}

// by calls what a method is for; nil where there is nothing.
func (v *visit) by(get, post func()) {
	do, allow := get, "GET"
	if v.r.Method == http.MethodPost {
		do = post
	}
	if get == nil {
		allow = "POST"
	} else if post != nil {
		allow = "GET, POST"
	}
	if do == nil || v.r.Method != http.MethodGet && v.r.Method != http.MethodPost {
		v.w.Header().Set("Allow", allow)
		v.w.Header().Set("Connection", "close")
		v.plain(http.StatusMethodNotAllowed, "bad")
		return
	}
	do()
}

// to sends the phone on to a page of ours.
func (v *visit) to(path string) {
	v.w.Header().Set("Location", path)
	v.w.WriteHeader(http.StatusSeeOther)
}

func (v *visit) home() {
	if v.place != nil {
		v.to("/t")
		return
	}
	v.plain(http.StatusOK, "scan")
}

// enter shows where the seat's code is typed. A phone that has a seat goes on
// where it was.
func (v *visit) enter() {
	if v.place != nil {
		v.to("/t")
		return
	}
	v.askCode(http.StatusOK, "")
}

// askCode shows the form for the code; a phone without a cookie gets one, which
// is at no seat.
func (v *visit) askCode(status int, alert string) {
	if v.cookie == "" && !v.renew() {
		return
	}
	v.render(status, view{Kind: "join", Alert: alert, Form: v.formToken(v.cookie, "join"), Action: "/j/" + v.token})
}

// renew gives the phone a fresh cookie; false when it could not, and that is
// answered.
func (v *visit) renew() bool {
	value, err := v.secret(32)
	if err != nil {
		v.plain(http.StatusInternalServerError, "trouble")
		return false
	}
	v.cookie = value
	http.SetCookie(v.w, &http.Cookie{Name: cookieName, Value: value, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
	return true
}

// tryCode takes a seat's code. The phone's cookie is changed with it, so that one
// planted before is worth nothing.
func (v *visit) tryCode() {
	form, ok := v.form("form", "code")
	if !ok {
		return
	}
	if v.cookie == "" || !same(form["form"], v.formToken(v.cookie, "join")) {
		v.askCode(http.StatusForbidden, "again")
		return
	}
	from := addressOf(v.r.RemoteAddr)
	if !v.gate.mayTry(from) {
		v.w.Header().Set("Retry-After", strconv.Itoa(int(v.limits.wait/time.Second)))
		v.askCode(http.StatusTooManyRequests, "wait")
		return
	}
	p := v.seatOf(form["code"])
	v.gate.tried(from, p != nil)
	if p == nil {
		v.askCode(http.StatusForbidden, "code")
		return
	}
	if v.renew() {
		v.join(p, v.cookie)
		v.to("/t")
	}
}

// goAway frees the phone for another taster.
func (v *visit) goAway() {
	form, ok := v.form("form")
	if !ok {
		return
	}
	if v.place == nil || !same(form["form"], v.formToken(v.cookie, "leave")) {
		v.plain(http.StatusForbidden, "unseated")
		return
	}
	v.leave(v.cookie)
	v.to("/j/" + v.token)
}

// form reads a posted form: only fields that are expected (a name ending in *
// expects all that begin so), each once, in no more bytes than a ballot needs.
// What is not so is answered here, and ok is false.
func (v *visit) form(expect ...string) (fields map[string]string, ok bool) {
	status, key := v.sent()
	if status == 0 {
		body, err := io.ReadAll(http.MaxBytesReader(v.w, v.r.Body, v.limits.bodyBytes))
		values, bad := url.ParseQuery(string(body))
		fields = map[string]string{}
		for name, list := range values {
			if len(list) != 1 || !expected(name, expect) {
				status, key = http.StatusBadRequest, "bad"
				break
			}
			fields[name] = list[0]
		}
		if int64(len(body)) >= v.limits.bodyBytes {
			status, key = http.StatusRequestEntityTooLarge, "bad"
		} else if err != nil || bad != nil {
			status, key = http.StatusBadRequest, "bad"
		}
	}
	if status != 0 {
		v.w.Header().Set("Connection", "close")
		v.plain(status, key)
		return nil, false
	}
	return fields, true
}

// sent checks how a form was sent, before its body is read: from a page of ours,
// in the plain form of forms. Browsers name no origin, or "null", where a page
// asks for no referrer, as ours do.
func (v *visit) sent() (status int, key string) {
	origin, site := v.r.Header.Get("Origin"), v.r.Header.Get("Sec-Fetch-Site")
	if origin != "" && origin != "null" && origin != "http://"+v.r.Host || site != "" && site != "same-origin" && site != "none" {
		return http.StatusForbidden, "bad"
	}
	kind, _, err := mime.ParseMediaType(v.r.Header.Get("Content-Type"))
	if err != nil || kind != "application/x-www-form-urlencoded" || v.r.Header.Get("Content-Encoding") != "" {
		return http.StatusUnsupportedMediaType, "bad"
	}
	if v.r.ContentLength > v.limits.bodyBytes {
		return http.StatusRequestEntityTooLarge, "bad"
	}
	return 0, ""
}

func expected(name string, expect []string) bool {
	for _, e := range expect {
		if p, any := strings.CutSuffix(e, "*"); name == e || any && strings.HasPrefix(name, p) && len(name) < 12 {
			return true
		}
	}
	return false
}
