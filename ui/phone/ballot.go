package phone

import (
	"context"
	"net/http"
	"strconv"

	"parewell/recipes/tasting"
)

// tray is a seat's ballot as it stands.
type tray struct {
	ballot *tasting.Ballot
	given  Given
	list   []screen
	at     int // the screen she has come to; len(list) when all is answered
}

// tray asks the kitchen for the seat's ballot; nil when that fails, and then it
// is answered.
func (v *visit) tray() *tray {
	b, given, err := v.kitchen.Ballot(v.place.seat)
	if err != nil || b == nil {
		v.report(err)
		v.plain(http.StatusServiceUnavailable, "trouble")
		return nil
	}
	list := screensOf(b)
	return &tray{b, given, list, reached(list, given)}
}

func (v *visit) report(err error) {
	if v.trouble != nil && err != nil {
		v.trouble(v.place.seat, err)
	}
}

// show shows where she has come to.
func (v *visit) show() {
	if v.place == nil {
		v.plain(http.StatusForbidden, "unseated")
		return
	}
	t := v.tray()
	if t == nil {
		return
	}
	v.mu.Lock()
	started, notice := v.place.started, v.place.notice
	v.place.notice = ""
	v.mu.Unlock()
	switch {
	case t.at == 0 && !started && len(t.given) == 0:
		v.render(http.StatusOK, v.welcomeView(t))
	case t.at == len(t.list):
		v.render(http.StatusOK, v.doneView(t, notice))
	default:
		v.render(http.StatusOK, v.screenView(t, t.at, notice, reply{answers: t.given}))
	}
}

// look shows an answered screen again, where the ballot lets her go back.
func (v *visit) look(number string) {
	if v.place == nil {
		v.plain(http.StatusForbidden, "unseated")
		return
	}
	t := v.tray()
	if t == nil {
		return
	}
	n, ok := whole(number)
	i := int(n) - 1
	if !ok || number != strconv.Itoa(int(n)) || i < 0 || i >= t.at || !mayGoBack(t.ballot) {
		v.to("/t")
		return
	}
	v.render(http.StatusOK, v.screenView(t, i, "", reply{answers: t.given}))
}

// save takes a screen's answers. Screens are numbered from 1; 0 is the
// introduction. The page takes no cup's code from a phone: which cup a form
// belongs to follows from the screen its token was made for.
func (v *visit) save() {
	form, ok := v.form("form", "screen", "note", "skip", "q*")
	if !ok {
		return
	}
	number, fine := whole(form["screen"])
	if v.place == nil || !fine || !same(form["form"], v.formToken(v.cookie, purpose(int(number)))) {
		v.plain(http.StatusForbidden, "unseated")
		return
	}
	if number == 0 {
		v.mu.Lock()
		v.place.started = true
		v.mu.Unlock()
		v.to("/t")
		return
	}
	v.place.turn.Lock()
	defer v.place.turn.Unlock()
	if v.at(v.cookie) != v.place { // another phone took the seat while this one waited
		v.plain(http.StatusForbidden, "unseated")
		return
	}
	v.saveScreen(int(number)-1, form)
}

// purpose of the form of a screen.
func purpose(number int) string { return "screen " + strconv.Itoa(number) }

// saveScreen saves one screen's answers. Sent a second time, the same answers
// change nothing; others are taken only where the ballot lets her go back.
func (v *visit) saveScreen(i int, form map[string]string) {
	t := v.tray()
	if t == nil {
		return
	}
	if i > t.at || i >= len(t.list) {
		v.to("/t")
		return
	}
	sc := t.list[i]
	r, ok := sc.read(form, t.given)
	if !ok {
		v.plain(http.StatusBadRequest, "bad")
		return
	}
	again := i < t.at
	switch {
	case again && equal(r.answers, t.given):
	case again && !mayGoBack(t.ballot):
		v.mu.Lock()
		v.place.notice = "kept"
		v.mu.Unlock()
		v.to("/t")
		return
	case !r.complete():
		v.render(http.StatusUnprocessableEntity, v.screenView(t, i, "", r))
		return
	case !v.keep(sc, r.answers):
		v.render(http.StatusServiceUnavailable, v.screenView(t, i, "unsaved", r))
		return
	}
	if again && i+1 < t.at && mayGoBack(t.ballot) {
		v.to("/t/" + strconv.Itoa(i+2))
		return
	}
	v.to("/t")
}

// keep saves answers in the order of the cups. A phone that drops off meanwhile
// does not stop it; the tasting's end does.
func (v *visit) keep(sc screen, answers Given) bool {
	ctx, cancel := context.WithTimeout(v.base, v.limits.save)
	defer cancel()
	for _, code := range sc.cups {
		if v.closing.Load() {
			return false
		}
		a := answers[code]
		if err := v.kitchen.Save(ctx, v.place.seat, code, a.Scores, a.Note); err != nil {
			v.report(err)
			return false
		}
	}
	return true
}
