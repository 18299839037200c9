package sheets

import (
	"slices"
	"strconv"
	"strings"

	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// ServingCaption says in one line what a tasting that is serving asks.
func ServingCaption(b *recipes.Book, t *recipes.Tasting) string {
	out := []string{words.Say("plan.ask." + t.Test), words.Say("tastings.samples", len(b.Samples(t.ID)))}
	if l := limitText(t); l != "" {
		out = append(out, l)
	}
	return strings.Join(out, " · ")
}

// Differing is one question that two entries of a cup answer differently.
type Differing struct {
	Seat, Code int
	What       string // "AB, cup 482: Overall"
	Ways       []Way
}

// Way is one entry of a cup: where it came from and what it says.
type Way struct {
	Serving recipes.ID
	Text    string // "paper: 7"
}

// Differences lists what the cook has to choose between, a cup or tray each.
func Differences(b *recipes.Book, t *recipes.Tasting) []Differing {
	var out []Differing
	for _, d := range tasting.Disagreements(b, t) {
		seat := t.Seat(d.Seat)
		x := Differing{Seat: d.Seat, Code: d.Code}
		who := b.Panelist(seat.Panelist).Code
		if d.Code == 0 {
			x.What = words.Say("tastings.differ.tray", d.Seat, who)
		} else {
			x.What = words.Say("tastings.differ.cup", d.Seat, who, d.Code)
		}
		for _, s := range d.Servings {
			x.Ways = append(x.Ways, Way{Serving: s.ID, Text: words.Say("tastings.way", words.Say("tastings.from."+string(s.Source)), saidIn(t, seat, s, d.Keys))})
		}
		out = append(out, x)
	}
	return out
}

// saidIn lists what an entry says of some questions.
func saidIn(t *recipes.Tasting, seat *recipes.Seat, s *recipes.Serving, keys []string) string {
	var out []string
	for _, q := range append(tasting.Questions(t), tasting.Closing(t, seat)...) {
		if v, ok := s.Scores[q.Key]; ok && slices.Contains(keys, q.Key) {
			out = append(out, words.Say("tastings.said", shortAsk(q), answerText(q, v)))
		}
	}
	return strings.Join(out, ", ")
}

// Pot is a sample by the name of its pot.
type Pot struct {
	Sample *recipes.Sample
	Name   string // "Original", "A", "A (pot 2)" where the version has two
}

// Pots lists a tasting's samples by pot, in the order planned. No code stands
// beside a name: which cups a pot fills is on the run sheet only.
func Pots(b *recipes.Book, t *recipes.Tasting) []Pot {
	var out []Pot
	all := tasting.InOrder(b, t.ID)
	for _, s := range all {
		name := Capital(tasting.NameOf(b, t, s))
		if slices.ContainsFunc(all, func(x *recipes.Sample) bool { return x.ID != s.ID && x.Version == s.Version && x.Dish == s.Dish }) {
			name = words.Say("tastings.pot", name, max(1, s.Pot))
		}
		out = append(out, Pot{s, name})
	}
	return out
}

// FreeTasters are those who have no seat at a tasting and are not left out of it,
// as suggestions: key and code.
func FreeTasters(b *recipes.Book, t *recipes.Tasting) [][2]string {
	var out [][2]string
	s := tasting.Check(b, t, b.Samples(t.ID))
	for _, p := range b.Panelists() {
		if x := s.Taster(p); !p.Removed && t.SeatOf(p.ID) == nil && !x.LeftOut(t.Test) {
			out = append(out, [2]string{string(p.ID), p.Code})
		}
	}
	return out
}

// EmptySeats are the numbers of seats where nobody sits.
func EmptySeats(t *recipes.Tasting) []int {
	var out []int
	for _, s := range t.Seats {
		if s.Panelist == "" {
			out = append(out, s.Number)
		}
	}
	return out
}

// SeatName names a seat with its taster's code.
func SeatName(b *recipes.Book, seat *recipes.Seat) string {
	if p := b.Panelist(seat.Panelist); p != nil {
		return words.Say("tastings.seat.of", seat.Number, p.Code)
	}
	return words.Say("tastings.seat.empty", seat.Number)
}

// OwingSeats are the numbers of seated tasters who still owe an answer.
func OwingSeats(b *recipes.Book, t *recipes.Tasting) []int {
	var out []int
	for _, g := range tasting.Missing(b, t) {
		if !slices.Contains(out, g.Seat) {
			out = append(out, g.Seat)
		}
	}
	return out
}

// ClosedFacts says how a closed tasting ended, a sentence each.
func ClosedFacts(b *recipes.Book, t *recipes.Tasting) []string {
	day, _, _ := strings.Cut(t.Closed, "T")
	out := []string{words.Say("tastings.closed.on", dayText(day))}
	if n := len(t.Late) + len(b.Corrections(t.ID)); n == 0 {
		out[0] += " " + words.Say("tastings.closed.untouched")
	} else {
		out[0] += " " + words.Say("tastings.closed.corrected", n)
	}
	if t.Early != "" {
		out = append(out, words.Say("tastings.closed.early", t.Early))
	}
	for i := range t.Seats {
		if seat := &t.Seats[i]; seat.Away != "" && seat.Panelist != "" {
			key := "tastings.closed.away"
			if slices.ContainsFunc(b.Servings(t.ID), func(s *recipes.Serving) bool { return s.Panelist == seat.Panelist }) {
				key = "tastings.closed.left"
			}
			out = append(out, words.Say(key, SeatName(b, seat), seat.Away))
		}
	}
	if n := len(tasting.Missing(b, t)); n > 0 {
		out = append(out, words.Say("tastings.closed.missing", n))
	}
	return out
}

// Corrections lists what was entered or corrected of a closed tasting since: its
// scores after closing, and the record of what was served.
func Corrections(b *recipes.Book, t *recipes.Tasting) Sheet {
	s := Sheet{Corner: words.Say("tastings.corrected.on"), Columns: []Column{
		{Key: "what", Title: words.Say("tastings.corrected.what"), Index: -1},
		{Key: "was", Title: words.Say("tastings.corrected.was"), Index: -1},
		{Key: "is", Title: words.Say("tastings.corrected.is"), Index: -1},
		{Key: "why", Title: words.Say("tastings.corrected.why"), Index: -1},
	}}
	list := slices.Clone(t.Late)
	for _, c := range b.Corrections(t.ID) {
		list = append(list, recipes.LateNote{At: c.At, What: words.Say("tastings.corrected.of", words.Join(c.Of), c.What), Was: c.Was, Is: c.Is, Why: c.Why})
	}
	slices.SortStableFunc(list, func(x, y recipes.LateNote) int { return strings.Compare(x.At, y.At) })
	for i, n := range list {
		day, _, _ := strings.Cut(n.At, "T")
		row := Row{Key: strconv.Itoa(i), Label: text(dayText(day))}
		for _, said := range []string{Capital(n.What), orNothing(n.Was), orNothing(n.Is), n.Why} {
			row.Cells = append(row.Cells, Cell{Text: said, Wrap: true, Bar: noBar()})
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

// orNothing is a text, "nothing" in words for none.
func orNothing(s string) string {
	if s == "" {
		return words.Say("tastings.corrected.nothing")
	}
	return s
}

// ScoresByVersion is the plain list of a closed tasting's scores: what was asked
// a column, a taster's sample a row. It is empty, with why, before closing.
func ScoresByVersion(b *recipes.Book, t *recipes.Tasting) (Sheet, error) {
	rows, err := tasting.Rows(b, t.ID)
	if err != nil {
		return Sheet{}, err
	}
	s := Sheet{Corner: words.Say("tastings.taster"), Columns: []Column{
		{Key: "sample", Title: words.Say("tastings.sample"), Index: -1},
		{Key: "place", Title: words.Say("tastings.position"), Index: -1, Number: true},
	}}
	ask := tasting.Questions(t)
	for _, q := range ask {
		s.Columns = append(s.Columns, Column{Key: q.Key, Title: shortAsk(q), Index: -1, Number: true})
	}
	at := map[string]int{}
	for _, r := range rows {
		key := string(r.Panelist) + "/" + string(r.Sample)
		i, ok := at[key]
		if !ok {
			i = len(s.Rows)
			at[key] = i
			name := text(Capital(r.Name))
			if r.Late {
				name.Sub = words.Say("tastings.late")
			}
			row := Row{Key: key, Label: text(r.Taster), Cells: []Cell{name, {Text: strconv.Itoa(r.Position), Number: true, Bar: noBar()}}}
			for range ask {
				row.Cells = append(row.Cells, Cell{Bar: noBar(), Number: true})
			}
			s.Rows = append(s.Rows, row)
		}
		if n := slices.IndexFunc(ask, func(q tasting.Question) bool { return q.Key == r.Attribute }); n >= 0 {
			s.Rows[i].Cells[2+n].Text = answerText(ask[n], r.Score)
		}
	}
	return s, nil
}

// Picked lists what tasters of a closed tasting answered of their whole trays.
func Picked(b *recipes.Book, t *recipes.Tasting) (Sheet, error) {
	s := Sheet{Corner: words.Say("tastings.taster")}
	rows := map[recipes.ID]int{}
	for _, q := range wholeOf(t) {
		list, err := tasting.Choices(b, t.ID, q.Key)
		if err != nil {
			return Sheet{}, err
		}
		s.Columns = append(s.Columns, Column{Key: q.Key, Title: shortAsk(q), Index: -1}, Column{Key: q.Key + "/right", Title: words.Say("tastings.right"), Index: -1, Tight: true})
		for _, c := range list {
			i, ok := rows[c.Panelist]
			if !ok {
				i = len(s.Rows)
				rows[c.Panelist] = i
				s.Rows = append(s.Rows, Row{Key: string(c.Panelist), Label: text(c.Taster), Cells: make([]Cell, 2*len(wholeOf(t)))})
			}
			at := len(s.Columns) - 2
			s.Rows[i].Cells[at], s.Rows[i].Cells[at+1] = text(pickedText(b, t, q, c)), rightCell(t, c)
		}
	}
	return s, nil
}

// PickedSays says what was asked of the whole tray, how many were right, and what
// that means; the headline tells it of a test of trays.
func PickedSays(b *recipes.Book, t *recipes.Tasting) []string {
	var out []string
	for _, q := range wholeOf(t) {
		list, err := tasting.Choices(b, t.ID, q.Key)
		if err != nil || len(list) == 0 {
			continue
		}
		if q.Key == recipes.AskUsual {
			out = append(out, usualSays(b, t, q.Label))
			continue
		}
		right := 0
		for _, c := range list {
			if c.Right {
				right++
			}
		}
		test := sensory.Test(t.Test)
		if !test.Counts() || test.TwoSided() {
			out = append(out, q.Label)
			continue
		}
		label := q.Label
		if q.Key == recipes.AskPair {
			label = words.Say("plan.ask." + t.Test) // the question itself names a cup of one tray
		}
		out = append(out, words.Say("tastings.picked.right", label, strconv.Itoa(right), len(list), words.Trim(float64(len(list))*test.Guess(), 1)))
	}
	return out
}

// usualSays is the last question's sum: who could not tell is not right.
func usualSays(b *recipes.Book, t *recipes.Tasting, label string) string {
	k, ok := outcome.KnewOf(b, t)
	if !ok {
		return label
	}
	means := "tastings.picked.usual.not"
	if k.Told() {
		means = "tastings.picked.usual.more"
	}
	said := words.Say("tastings.picked.usual", label, strconv.Itoa(k.Right), k.Asked, words.Trim(float64(k.Named)*k.Chance, 1))
	return said + " " + words.Say(means)
}

func pickedText(b *recipes.Book, t *recipes.Tasting, q tasting.Question, c tasting.Choice) string {
	if x := b.Sample(t.ID, c.Sample); x != nil {
		return words.Say("tastings.picked", c.Code, Capital(tasting.NameOf(b, t, x)))
	}
	return answerText(q, float64(c.Code))
}

func rightCell(t *recipes.Tasting, c tasting.Choice) Cell {
	switch {
	case t.Test == "preference" || t.Test == "2-afc":
		return text("")
	case c.Right:
		return Cell{Text: words.Say("tastings.right.yes"), Mark: Met, Bar: noBar()}
	}
	return Cell{Text: words.Say("tastings.right.no"), Muted: true, Bar: noBar()}
}

// WhoOwes says who has not answered what, a seat each.
func WhoOwes(b *recipes.Book, t *recipes.Tasting) []string {
	var out []string
	for _, number := range OwingSeats(b, t) {
		var codes []string
		for _, g := range tasting.Missing(b, t) {
			switch {
			case g.Seat != number:
			case g.Code == 0:
				codes = append(codes, words.Say("tastings.tray"))
			default:
				codes = append(codes, strconv.Itoa(g.Code))
			}
		}
		out = append(out, words.Say("tastings.who-owes", SeatName(b, t.Seat(number)), strings.Join(codes, ", ")))
	}
	return out
}

// Where says which field is chosen, for the line above the table: the seat, its
// taster and what is asked.
func (g *ScoreGrid) Where(row, col int) string {
	if row < 0 || row >= len(g.Tasting.Seats) || col < 0 || col >= len(g.Columns) {
		return ""
	}
	seat := &g.Tasting.Seats[row]
	who := words.Say("tastings.nobody")
	if p := g.book.Panelist(seat.Panelist); p != nil {
		who = p.Code
	}
	if !g.On(seat, g.Columns[col]) {
		return words.Say("tastings.where.off", seat.Number, who)
	}
	return words.Say("tastings.where", seat.Number, who, g.Help(seat, g.Columns[col]))
}

// MissingText says how many answers are still owed, and how many cups have two
// entries that disagree.
func MissingText(b *recipes.Book, t *recipes.Tasting) string {
	missing, differ := len(tasting.Missing(b, t)), len(tasting.Disagreements(b, t))
	text := words.Say("tastings.missing.none")
	if missing > 0 {
		text = words.Say("tastings.missing", missing)
	}
	if differ > 0 {
		text += " " + words.Say("tastings.disagree", differ)
	}
	return text
}
