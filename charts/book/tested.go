package book

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Tested is how this very version was cooked and tasted. Only closed tastings
// count, and a result stands only where the dish is still the one tasted.
type Tested struct {
	Edition  int          `json:"edition"`
	Cooked   int          `json:"cooked"`  // tests that were kept
	Weighed  int          `json:"weighed"` // of those, with a cooked weight
	Tastings []TastedOnce `json:"tastings"`
	Changed  bool         `json:"changed"` // changed since it was last tasted
	Result   string       `json:"result,omitempty"`
	Care     []string     `json:"care,omitempty"` // what to keep in mind with the result

	kind ledger.Kind // of the liking in Result, empty for none
}

// TastedOnce is one closed tasting of the version.
type TastedOnce struct {
	Tasting recipes.ID `json:"tasting"`
	Date    string     `json:"date"`
	Edition int        `json:"edition"`
	Panel   int        `json:"panel"` // tasters who answered on it
	Pots    int        `json:"pots"`
	Changed bool       `json:"changed"` // the dish is another since
}

func testedOf(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) Tested {
	id := recipes.ID("")
	if v != nil {
		id = v.ID
	}
	t := Tested{Edition: r.Edition, Tastings: []TastedOnce{}}
	for _, x := range b.TestsOf(r.ID, id) {
		if x.SetAside != "" {
			continue
		}
		t.Cooked++
		if _, ok := x.CookedGrams(); ok {
			t.Weighed++
		}
	}
	now := b.ServedRecord(r, v)
	for _, x := range b.TastingsOf(r.ID) {
		if once, ok := tastedIn(b, r, x, id, now); ok {
			t.Tastings = append(t.Tastings, once)
			t.Changed = once.Changed
		}
	}
	if v != nil && len(t.Tastings) > 0 && !t.Changed {
		t.result(b, r, v)
	}
	return t
}

// tastedIn tells of one tasting, false where it is not closed, not blind, or had
// nothing of the version in it.
func tastedIn(b *recipes.Book, r *recipes.Recipe, x *recipes.Tasting, version recipes.ID, now *recipes.Served) (TastedOnce, bool) {
	if x.State != recipes.TastingClosed || !tasting.Blind(x) {
		return TastedOnce{}, false
	}
	once := TastedOnce{Tasting: x.ID, Date: x.Date, Edition: x.Edition, Changed: x.Edition != r.Edition}
	pots, mine := map[string]bool{}, map[recipes.ID]bool{}
	for _, s := range b.Samples(x.ID) {
		if s.Version != version || s.Dish != "" || s.Served == nil {
			continue
		}
		mine[s.ID], pots[tasting.PotOf(s)] = true, true
		once.Changed = once.Changed || !sameDish(s.Served, now)
	}
	if len(mine) == 0 {
		return TastedOnce{}, false
	}
	for i := range x.Seats {
		seat := &x.Seats[i]
		had := slices.ContainsFunc(seat.Cups, func(c recipes.Cup) bool { return mine[c.Sample] })
		if had && answered(b, x.ID, seat.Panelist) {
			once.Panel++
		}
	}
	once.Pots = len(pots)
	return once, true
}

func answered(b *recipes.Book, id, panelist recipes.ID) bool {
	return panelist != "" && slices.ContainsFunc(b.Servings(id), func(s *recipes.Serving) bool { return s.Panelist == panelist && s.Counts() })
}

// sameDish tells whether what was served is what would be served today: amounts,
// foods, techniques, steps and swaps.
func sameDish(a, b *recipes.Served) bool {
	if a.Servings != b.Servings || a.Dish != b.Dish || !slices.Equal(a.Steps, b.Steps) || !slices.Equal(a.Swaps, b.Swaps) {
		return false
	}
	return slices.EqualFunc(a.Lines, b.Lines, func(x, y recipes.ServedLine) bool {
		same := math.Abs(x.Grams-y.Grams) <= 1e-9*math.Abs(x.Grams) && x.Known == y.Known && x.Kind == y.Kind &&
			x.PartEaten == y.PartEaten && x.Technique == y.Technique && x.State == y.State && x.Food == y.Food
		return same && (!x.Food.Zero() || x.Name == y.Name)
	})
}

// result says what the tastings of the present edition found of the version.
func (t *Tested) result(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) {
	var said []string
	if s := t.liking(b, r, v); s != "" {
		said = append(said, s)
	}
	for _, once := range t.Tastings {
		if s := traysOf(b, once); s != "" && !once.Changed {
			said = append(said, s)
		}
	}
	t.Result = strings.Join(said, " ")
}

// liking is the version's change in liking against the original with its range
// and what that means for the limit set before tasting.
func (t *Tested) liking(b *recipes.Book, r *recipes.Recipe, v *recipes.Version) string {
	x := tastedOf(b, r, false, "")
	if x == nil || x.table == nil {
		return ""
	}
	for i := range x.table.Wholes {
		w := &x.table.Wholes[i]
		if w.Name != v.Letter || math.IsNaN(w.Effect) || math.IsNaN(w.Low) {
			continue
		}
		if w.Pots < 2 {
			t.Care = append(t.Care, words.Say("book.tested.one-pot"))
		}
		t.Care = append(t.Care, Care(x.pool, nil)...)
		t.kind = w.Kind
		return words.Say("book.tested.liking."+string(w.Kind), words.Signed(w.Effect, 1), words.Signed(w.Low, 1), words.Signed(w.High, 1), words.Trim(w.Limit, 2))
	}
	return ""
}

// traysOf says what a test of trays found; "" for other tests.
func traysOf(b *recipes.Book, once TastedOnce) string {
	x := b.Tasting(once.Tasting)
	if x == nil || !tasting.Trays(x.Test) {
		return ""
	}
	s, err := outcome.SittingOf(b, x.ID)
	if err != nil || s.Counted == nil {
		return ""
	}
	if x.Test == string(sensory.Preference) {
		return words.Say("book.tested.preferred", s.Counted.Correct, s.Counted.N, s.Names[0])
	}
	return words.Say("book.tested.trays", words.Say("book.test."+x.Test), s.Counted.Correct, s.Counted.N, words.Trim(float64(s.Counted.N)*s.Counted.PGuess, 1))
}

// Lines say how it was tested, one sentence each.
func (t *Tested) Lines() []string {
	out := []string{words.Say("book.tested.cooked", times(t.Cooked), times(t.Weighed))}
	if t.Cooked == 0 {
		out[0] = words.Say("book.tested.never")
	}
	if len(t.Tastings) == 0 {
		return append(out, words.Say("book.tested.not-tasted"))
	}
	for _, x := range t.Tastings {
		out = append(out, words.Say("book.tested.once", words.DayOf(x.Date), x.Edition, x.Panel, words.Say("book.tested.pots", x.Pots)))
	}
	if t.Changed {
		return append(out, words.Say("book.tested.changed"))
	}
	if t.Result != "" {
		out = append(out, t.Result)
	}
	return append(out, t.Care...)
}

func times(n int) string {
	switch n {
	case 0:
		return words.Say("book.times.none")
	case 2:
		return words.Say("book.times.twice")
	}
	return words.Say("book.times", n)
}
