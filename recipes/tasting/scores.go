package tasting

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// Answer is what one taster says of one cup (of her whole tray when Code is 0),
// as it comes from a grid, a ballot, a phone or a file.
type Answer struct {
	Seat   int
	Code   int
	Scores map[string]float64
	Note   string
	Date   string // of a dish taken home
	Source recipes.Source
	At     string // instant, for a correction after closing
	Why    string // reason of such a correction
	Gone   string // of such a correction: the question whose answer is taken away
}

// LongestNote is how many characters of a note are kept.
const LongestNote = 1000

// Record writes one answer. The same taster, cup and source answer again by
// replacing; another source stands beside it until the cook chooses. A person's
// own answer on the screen or a phone is never undone. After closing the answer
// is a dated correction that tells what it replaces: At must say when, and Why the
// reason. fresh draws an ID.
func Record(id recipes.ID, fresh func() recipes.ID, answers ...Answer) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, err := find(b, id)
		if err != nil {
			return recipes.Change{}, err
		}
		if t.State == recipes.TastingPlanned {
			return recipes.Change{}, refuse(t.Date, "error.not-serving")
		}
		closed := t.State == recipes.TastingClosed
		if err := mayCorrect(t, answers); err != nil {
			return recipes.Change{}, err
		}
		c := did(t, "did.scores", len(answers))
		var notes []recipes.LateNote
		next := map[string]*recipes.Serving{}
		for _, a := range answers {
			s, err := serving(b, t, a)
			if err != nil {
				return recipes.Change{}, err
			}
			key := strings.Join([]string{string(s.Panelist), string(s.Sample), string(s.Source), s.Date}, "/")
			if next[key] != nil {
				return recipes.Change{}, refuse(words.Say("tasting.seat", a.Seat), "error.answer-twice", a.Code)
			}
			next[key] = s
			if closed {
				told := late(b, t, a, s, &c)
				if len(told) == 0 {
					continue
				}
				notes = append(notes, told...)
			}
			old := same(b, t, s)
			if old == nil {
				s.ID = fresh()
				put(&c, nil, s)
			} else {
				s.ID = old.ID
				put(&c, old, s)
			}
			c.Final = c.Final || a.Source == recipes.FromPhone || a.Source == recipes.FromScreen
		}
		c.Label = scoresLabel(c, len(answers))
		listed(&c, t, notes)
		return c, nil
	}
}

// listed puts corrections under their tasting; they cannot be undone.
func listed(c *recipes.Change, t *recipes.Tasting, notes []recipes.LateNote) {
	if len(notes) == 0 {
		return
	}
	n := *t
	n.Late = append(slices.Clone(t.Late), notes...)
	put(c, t, &n)
	c.Label, c.Final = lateLabel(notes), true
}

// mayCorrect refuses what is recorded after closing without a date and a reason.
func mayCorrect(t *recipes.Tasting, answers []Answer) error {
	for _, a := range answers {
		switch {
		case t.State != recipes.TastingClosed:
		case a.At == "":
			return refuse(t.Date, "error.tasting-closed")
		case strings.TrimSpace(a.Why) == "":
			return problem.New(t.Date, words.Say("error.late-why"), words.Say("error.late-why.hint"))
		}
	}
	return nil
}

// serving checks an answer and makes the entity of it, without ID.
func serving(b *recipes.Book, t *recipes.Tasting, a Answer) (*recipes.Serving, error) {
	where := words.Say("tasting.seat", a.Seat)
	seat := t.Seat(a.Seat)
	if seat == nil {
		return nil, refuse("", "error.seat-none", a.Seat)
	}
	if seat.Panelist == "" {
		return nil, refuse(where, "error.seat-empty")
	}
	s := &recipes.Serving{
		Tasting: t.ID, Panelist: seat.Panelist, Source: a.Source, Scores: maps.Clone(a.Scores),
		Note: cut(a.Note), Date: a.Date, Late: t.State == recipes.TastingClosed,
	}
	if s.Scores == nil {
		s.Scores = map[string]float64{}
	}
	if a.Code != 0 {
		i := slices.IndexFunc(seat.Cups, func(c recipes.Cup) bool { return c.Code == a.Code })
		if i < 0 {
			return nil, refuse(where, "error.code-none", a.Code)
		}
		s.Sample, s.Position = seat.Cups[i].Sample, i+1
	}
	for _, name := range slices.Sorted(maps.Keys(s.Scores)) {
		if err := allowed(t, seat, a.Code, name, s.Scores[name]); err != nil {
			return nil, problem.At(where, err)
		}
	}
	return s, nil
}

func cut(s string) string {
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > LongestNote {
		return string(r[:LongestNote])
	}
	return s
}

// allowed refuses a score that its question does not take.
func allowed(t *recipes.Tasting, seat *recipes.Seat, code int, name string, v float64) error {
	for _, q := range append(Questions(t), Closing(t, seat)...) {
		if q.Key != name || q.Whole != (code == 0) {
			continue
		}
		if q.Takes(v) {
			return nil
		}
		return problem.New("", words.Say("error.score-of", words.Trim(v, 2), q.Label), words.Say("error.score-of.hint", q.Range()))
	}
	return problem.New("", words.Say("error.score-unknown", name), "")
}

// same finds the serving that an answer replaces.
func same(b *recipes.Book, t *recipes.Tasting, s *recipes.Serving) *recipes.Serving {
	for _, x := range b.Servings(t.ID) {
		if x.Panelist == s.Panelist && x.Sample == s.Sample && x.Source == s.Source && x.Date == s.Date {
			return x
		}
	}
	return nil
}

// Disagreement is one taster's answers on one cup that came in two ways and do
// not agree.
type Disagreement struct {
	Seat     int
	Code     int // 0: the tray
	Servings []*recipes.Serving
	Keys     []string // the questions they differ in
}

// Disagreements lists, by seat and cup, what the cook has to choose between.
func Disagreements(b *recipes.Book, t *recipes.Tasting) []Disagreement {
	var out []Disagreement
	if !Blind(t) {
		return nil
	}
	byKey := servingsOf(b, t)
	for _, seat := range t.Seats {
		for _, code := range codesOf(seat) {
			list := byKey[cupKey{seat.Panelist, sampleOf(seat, code)}]
			if keys := differing(list); len(keys) > 0 {
				out = append(out, Disagreement{Seat: seat.Number, Code: code, Servings: list, Keys: keys})
			}
		}
	}
	return out
}

type cupKey struct{ panelist, sample recipes.ID }

// servingsOf groups what counts by taster and sample.
func servingsOf(b *recipes.Book, t *recipes.Tasting) map[cupKey][]*recipes.Serving {
	out := map[cupKey][]*recipes.Serving{}
	for _, s := range b.Servings(t.ID) {
		if s.Counts() {
			k := cupKey{s.Panelist, s.Sample}
			out[k] = append(out[k], s)
		}
	}
	return out
}

// codesOf lists the cups of a seat in tasting order, then 0 for the tray.
func codesOf(seat recipes.Seat) []int {
	var out []int
	for _, c := range seat.Cups {
		out = append(out, c.Code)
	}
	return append(out, 0)
}

func sampleOf(seat recipes.Seat, code int) recipes.ID {
	for _, c := range seat.Cups {
		if c.Code == code {
			return c.Sample
		}
	}
	return ""
}

// differing lists the questions that servings answer differently; one that only
// some answer does not disagree.
func differing(list []*recipes.Serving) []string {
	seen := map[string]float64{}
	var out []string
	for _, s := range list {
		for k, v := range s.Scores {
			if old, ok := seen[k]; ok && old != v && !slices.Contains(out, k) {
				out = append(out, k)
			}
			seen[k] = v
		}
	}
	slices.Sort(out)
	return out
}

// Choose settles a disagreement: the serving counts, others of the same taster
// and sample are kept but do not. What they alone say, and do not say differently
// from one another, goes on with it.
func Choose(id, servingID recipes.ID) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, chosen, err := entered(b, id, servingID)
		if err != nil {
			return recipes.Change{}, err
		}
		c := did(t, "did.choose-score")
		counts := *chosen
		counts.Dropped = ""
		var others []*recipes.Serving
		for _, s := range b.Servings(id) {
			if s.Panelist != chosen.Panelist || s.Sample != chosen.Sample || s.ID == chosen.ID {
				continue
			}
			if s.Counts() {
				others = append(others, s)
			}
			n := *s
			n.Dropped = words.Say("tasting.dropped.chosen")
			put(&c, s, &n)
		}
		counts.Scores = withUncontested(chosen.Scores, others)
		put(&c, chosen, &counts)
		return c, nil
	}
}

// withUncontested are scores with those of others that they lack and the others
// agree on.
func withUncontested(scores map[string]float64, others []*recipes.Serving) map[string]float64 {
	out := maps.Clone(scores)
	if out == nil {
		out = map[string]float64{}
	}
	contested := differing(others)
	for _, s := range others {
		for key, v := range s.Scores {
			if _, has := scores[key]; !has && !slices.Contains(contested, key) {
				out[key] = v
			}
		}
	}
	return out
}

// Gap is an answer that a seated taster still owes: a cup, or her tray (Code 0).
type Gap struct{ Seat, Code int }

// Missing lists what tasters who stayed have not answered, by seat.
func Missing(b *recipes.Book, t *recipes.Tasting) []Gap {
	var out []Gap
	byKey := servingsOf(b, t)
	for _, seat := range t.Seats {
		if seat.Panelist == "" || seat.Away != "" {
			continue
		}
		for _, code := range codesOf(seat) {
			if !complete(t, seat, code, byKey[cupKey{seat.Panelist, sampleOf(seat, code)}]) {
				out = append(out, Gap{seat.Number, code})
			}
		}
	}
	return out
}

// complete tells whether all that must be answered of a cup or tray is; the last
// question is asked, never owed.
func complete(t *recipes.Tasting, seat recipes.Seat, code int, list []*recipes.Serving) bool {
	for _, q := range append(Questions(t), Closing(t, &seat)...) {
		if q.Whole != (code == 0) || q.Free {
			continue
		}
		if !slices.ContainsFunc(list, func(s *recipes.Serving) bool { _, ok := s.Scores[q.Key]; return ok }) {
			return false
		}
	}
	return true
}

// Clear takes one source's answer on a cup away again, while serving.
func Clear(id, servingID recipes.ID) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		t, s, err := entered(b, id, servingID)
		if err != nil {
			return recipes.Change{}, err
		}
		c := did(t, "did.clear-score")
		put(&c, s, nil)
		return c, nil
	}
}

// entered finds an entry of a tasting that is not closed.
func entered(b *recipes.Book, id, servingID recipes.ID) (*recipes.Tasting, *recipes.Serving, error) {
	t, err := find(b, id)
	if err != nil {
		return nil, nil, err
	}
	if err := notClosed(t); err != nil {
		return nil, nil, err
	}
	for _, s := range b.Servings(id) {
		if s.ID == servingID {
			return t, s, nil
		}
	}
	return nil, nil, gone("error.serving-gone")
}

// isCode tells whether a number is a code.
func isCode(v float64) bool { return v == math.Trunc(v) && v >= 100 && v <= 999 }

func codeText(v float64) string { return strconv.Itoa(int(v)) }

// Fits holds one answer to one question against what is asked, before it is
// recorded: the question's own name (however it was spelled), or why not.
func Fits(t *recipes.Tasting, a Answer, question string) (string, error) {
	seat := t.Seat(a.Seat)
	if seat == nil {
		return "", refuse("", "error.seat-none", a.Seat)
	}
	if a.Code != 0 && !slices.ContainsFunc(seat.Cups, func(c recipes.Cup) bool { return c.Code == a.Code }) {
		return "", refuse("", "error.code-none", a.Code)
	}
	for _, q := range append(Questions(t), Closing(t, seat)...) {
		if strings.EqualFold(q.Key, strings.TrimSpace(question)) {
			return q.Key, allowed(t, seat, a.Code, q.Key, a.Scores[question])
		}
	}
	return "", refuse("", "error.score-unknown", question)
}
