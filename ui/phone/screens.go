package phone

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// screenKind is what a screen is about.
type screenKind string

const (
	cupScreen   screenKind = "cup"   // one cup
	orderScreen screenKind = "order" // all cups, each with its place
	trayScreen  screenKind = "tray"  // what is asked once
)

// screen is one page of a ballot, sent in one form.
type screen struct {
	kind screenKind
	cups []int // whose answers it takes; code 0 is the tray
	ask  []tasting.Question
}

// screensOf cuts a ballot into pages in the ballot's order: each cup, then their
// order where that is asked, then what is asked once.
func screensOf(b *tasting.Ballot) []screen {
	var each, order []tasting.Question
	for _, q := range b.Ask {
		if q.Kind == tasting.AskOrders {
			order = append(order, q)
		} else {
			each = append(each, q)
		}
	}
	var out []screen
	if len(each) > 0 {
		for _, c := range b.Cups {
			out = append(out, screen{cupScreen, []int{c}, each})
		}
	}
	if len(order) > 0 {
		out = append(out, screen{orderScreen, b.Cups, order})
	}
	if len(b.Whole) > 0 {
		out = append(out, screen{trayScreen, []int{0}, b.Whole})
	}
	return out
}

// done tells whether a screen was answered: all that must be is, or she said
// that she would not taste.
func (sc screen) done(g Given) bool {
	for _, c := range sc.cups {
		said, ok := g[c]
		if !ok {
			return false
		}
		for _, q := range sc.ask {
			if _, ok := said.Scores[q.Key]; !ok && !q.Free && len(said.Scores) > 0 {
				return false
			}
		}
	}
	return true
}

// owes tells whether a screen asks anything that must be answered.
func (sc screen) owes() bool {
	return slices.ContainsFunc(sc.ask, func(q tasting.Question) bool { return !q.Free })
}

// reached is the first screen not answered yet, from 0; their number when all
// are.
func reached(list []screen, g Given) int {
	for i, sc := range list {
		if !sc.done(g) {
			return i
		}
	}
	return len(list)
}

// mayGoBack tells whether answers may be looked at and changed again. The ballot
// says so where cups are compared with one another; where each is judged by
// itself, a second look would be a comparison. At home there is no order to keep.
func mayGoBack(b *tasting.Ballot) bool {
	return b.Test == "ranking" || b.Test == recipes.TestHome
}

// field names a question of a screen in its form; of an order, with the place of
// the cup on the tray.
func (sc screen) field(question, cup int) string {
	name := "q" + strconv.Itoa(question)
	if sc.kind == orderScreen {
		name += "c" + strconv.Itoa(cup)
	}
	return name
}

// reply is a form that was read: answers by code, and what is wrong with them.
type reply struct {
	answers Given
	missing map[string]bool // fields that must be answered and are not
	twice   map[string]bool // fields of cups given one place together
}

func (r reply) complete() bool { return len(r.missing)+len(r.twice) == 0 }

// read takes a screen's form apart. Not ok means that it holds what no page of
// ours could have sent. before is what was given earlier: where a cup is asked
// about on two screens, one does not wipe out the other.
func (sc screen) read(form map[string]string, before Given) (reply, bool) {
	r := reply{Given{}, map[string]bool{}, map[string]bool{}}
	note, ok := cleanNote(form["note"])
	if !ok || form["skip"] != "" && (form["skip"] != "1" || !sc.owes()) || sc.kind == orderScreen && note != "" {
		return r, false
	}
	known := 0
	for i, cup := range sc.cups {
		said := Said{Scores: map[string]float64{}, Note: note}
		if sc.kind == orderScreen {
			said.Note = before[cup].Note
			maps.Copy(said.Scores, before[cup].Scores)
		}
		for j, q := range sc.ask {
			name := sc.field(j, i)
			delete(said.Scores, q.Key)
			text, sent := form[name]
			if sent {
				known++
			}
			v, ok := whole(text)
			switch {
			case form["skip"] != "": // what she had picked before she gave up is not kept
			case text == "" && !q.Free:
				r.missing[name] = true
			case text == "":
			case !ok || !q.Takes(v) || sc.kind == orderScreen && v > float64(len(sc.cups)):
				return r, false
			default:
				said.Scores[q.Key] = v
			}
		}
		r.answers[cup] = said
	}
	sc.markTwice(form, &r)
	return r, known == asked(form)
}

// asked counts the answers in a form, all but what every form has.
func asked(form map[string]string) int {
	n := 0
	for name := range form {
		if !slices.Contains([]string{"form", "screen", "note", "skip"}, name) {
			n++
		}
	}
	return n
}

// markTwice finds cups that share a place.
func (sc screen) markTwice(form map[string]string, r *reply) {
	if sc.kind != orderScreen || form["skip"] != "" {
		return
	}
	for j := range sc.ask {
		at := map[string]string{}
		for i := range sc.cups {
			name := sc.field(j, i)
			v := form[name]
			if other, taken := at[v]; taken && v != "" {
				r.twice[name], r.twice[other] = true, true
			}
			at[v] = name
		}
	}
}

// whole reads a number of one to three digits and nothing else.
func whole(s string) (float64, bool) {
	if len(s) == 0 || len(s) > 3 || strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return float64(n), err == nil
}

// cleanNote takes control characters out and cuts a note to what is kept; not ok
// when it is no text.
func cleanNote(s string) (string, bool) {
	if !utf8.ValidString(s) {
		return "", false
	}
	s = strings.Map(func(r rune) rune {
		if r != '\n' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			return -1
		}
		return r
	}, s)
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > tasting.LongestNote {
		s = strings.TrimSpace(string(r[:tasting.LongestNote]))
	}
	return s, true
}

// equal tells whether answers are what was given already.
func equal(answers, given Given) bool {
	for c, a := range answers {
		g, ok := given[c]
		if !ok || a.Note != g.Note || !maps.Equal(a.Scores, g.Scores) {
			return false
		}
	}
	return true
}
