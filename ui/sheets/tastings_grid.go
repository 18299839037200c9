package sheets

import (
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// ScoreColumn is one thing asked: a question of the cup with a code, or with
// code 0 of the whole tray.
type ScoreColumn struct {
	Code int
	Ask  tasting.Question
}

// ScoreGrid is the table that paper ballots are typed into: a row a seat, a
// column a question of a cup. Cups stand in the order of their codes, which says
// nothing of what is in them.
type ScoreGrid struct {
	book    *recipes.Book
	Tasting *recipes.Tasting
	Source  recipes.Source // what is typed counts as
	Date    string         // of a dish taken home, "" otherwise
	Columns []ScoreColumn
}

// LastColumn is the key of the column that says what is still owed.
const LastColumn = "owed"

// NewScoreGrid lays out a tasting that is serving or closed. only is the key of
// the one question to show, "" for all.
func NewScoreGrid(b *recipes.Book, t *recipes.Tasting, source recipes.Source, date, only string) *ScoreGrid {
	g := &ScoreGrid{book: b, Tasting: t, Source: source, Date: date}
	var codes []int
	for _, s := range t.Seats {
		for _, c := range s.Cups {
			if !slices.Contains(codes, c.Code) {
				codes = append(codes, c.Code)
			}
		}
	}
	slices.Sort(codes)
	ask := tasting.Questions(t)
	for _, code := range codes {
		for _, q := range ask {
			if only == "" || only == q.Key {
				g.Columns = append(g.Columns, ScoreColumn{code, q})
			}
		}
	}
	for _, q := range wholeOf(t) {
		if only == "" || only == q.Key {
			g.Columns = append(g.Columns, ScoreColumn{0, q})
		}
	}
	return g
}

// wholeOf are the questions asked once of a tray, whichever tray it is.
func wholeOf(t *recipes.Tasting) []tasting.Question {
	if len(t.Seats) == 0 {
		return nil
	}
	return tasting.Closing(t, &t.Seats[0])
}

// ScoreQuestions lists what can be shown by itself: key and label of each thing
// asked.
func ScoreQuestions(t *recipes.Tasting) [][2]string {
	var out [][2]string
	for _, q := range append(tasting.Questions(t), wholeOf(t)...) {
		out = append(out, [2]string{q.Key, shortAsk(q)})
	}
	return out
}

// shortAsk names a question in a heading.
func shortAsk(q tasting.Question) string {
	if key := "tastings.short." + q.Key; words.Current().Has(key) {
		return words.Say(key)
	}
	return q.Label
}

// Sheet is the table. Values of another source than the one typed are muted.
func (g *ScoreGrid) Sheet() Sheet {
	s := Sheet{Corner: words.Say("tastings.seat")}
	for _, c := range g.Columns {
		title, sub := strconv.Itoa(c.Code), shortAsk(c.Ask)
		if c.Code == 0 {
			title, sub = sub, words.Say("tastings.tray")
		} else if n := g.sampleName(c.Code); n != "" {
			title = n
		}
		s.Columns = append(s.Columns, Column{Key: strconv.Itoa(c.Code) + "/" + c.Ask.Key, Index: -1, Title: title, Sub: sub, Number: true})
	}
	s.Columns = append(s.Columns, Column{Key: LastColumn, Index: -1, Title: words.Say("tastings.owed"), Number: true})
	owed := map[int]int{}
	for _, m := range tasting.Missing(g.book, g.Tasting) {
		owed[m.Seat]++
	}
	for i := range g.Tasting.Seats {
		s.Rows = append(s.Rows, g.row(&g.Tasting.Seats[i], owed))
	}
	return s
}

// sampleName names a cup of a dish taken home, which is not blind.
func (g *ScoreGrid) sampleName(code int) string {
	if tasting.Blind(g.Tasting) {
		return ""
	}
	for _, s := range g.Tasting.Seats {
		for _, c := range s.Cups {
			if x := g.book.Sample(g.Tasting.ID, c.Sample); c.Code == code && x != nil {
				return Capital(tasting.NameOf(g.book, g.Tasting, x))
			}
		}
	}
	return ""
}

func (g *ScoreGrid) row(seat *recipes.Seat, owed map[int]int) Row {
	r := Row{Key: strconv.Itoa(seat.Number), Label: Cell{Text: words.Say("tastings.nobody"), Sub: strconv.Itoa(seat.Number), Muted: true, Bar: noBar()}}
	if p := g.book.Panelist(seat.Panelist); p != nil {
		r.Label.Text, r.Label.Muted = p.Code, seat.Away != ""
	}
	for i := range g.Columns {
		r.Cells = append(r.Cells, g.cell(seat, g.Columns[i]))
	}
	r.Cells = append(r.Cells, g.owedCell(seat, owed[seat.Number]))
	return r
}

// On tells whether a column is on a seat's tray and somebody sits there.
func (g *ScoreGrid) On(seat *recipes.Seat, c ScoreColumn) bool {
	if seat.Panelist == "" {
		return false
	}
	return c.Code == 0 || slices.ContainsFunc(seat.Cups, func(x recipes.Cup) bool { return x.Code == c.Code })
}

func (g *ScoreGrid) cell(seat *recipes.Seat, c ScoreColumn) Cell {
	out := Cell{Bar: noBar(), Number: true}
	if !g.On(seat, c) {
		if seat.Panelist != "" {
			out.Text, out.Muted, out.Tip = "–", true, words.Say("tastings.not-on-tray")
		}
		return out
	}
	out.Editable, out.Tip = true, g.Help(seat, c)
	own, others := g.servings(seat, c)
	if own != nil {
		if v, ok := own.Scores[c.Ask.Key]; ok {
			out.Text = answerText(c.Ask, v)
		}
	}
	if g.Source == recipes.FromSecond {
		return out
	}
	for _, s := range others {
		v, ok := s.Scores[c.Ask.Key]
		if !ok {
			continue
		}
		from := words.Say("tastings.from." + string(s.Source))
		switch t := answerText(c.Ask, v); {
		case out.Text == "":
			out.Text, out.Muted, out.Tip = t, true, from
		case out.Text != t:
			out.Mark, out.Tip = Look, words.Say("tastings.differs", from, t)
		}
	}
	return out
}

// servings are what counts of a seat's answers in a column: the one of the
// grid's own source, and those of others.
func (g *ScoreGrid) servings(seat *recipes.Seat, c ScoreColumn) (own *recipes.Serving, others []*recipes.Serving) {
	var sample recipes.ID
	for _, x := range seat.Cups {
		if x.Code == c.Code {
			sample = x.Sample
		}
	}
	for _, s := range g.book.Servings(g.Tasting.ID) {
		switch {
		case s.Panelist != seat.Panelist || s.Sample != sample || s.Date != g.Date || !s.Counts():
		case s.Source == g.Source:
			own = s
		default:
			others = append(others, s)
		}
	}
	return own, others
}

// answerText is an answer as it is typed: codes and figures as they are, 0 of a
// code in words, options in words.
func answerText(q tasting.Question, v float64) string {
	switch {
	case q.Kind == tasting.AskCode && v == 0:
		return words.Say("tastings.none")
	case q.Kind == tasting.AskYesNo && int(v) >= 0 && int(v) < len(q.Options):
		return q.Options[int(v)]
	}
	return words.Trim(v, 2)
}

// Help says what a column asks and takes: "Overall, cup 482: 1 dislike extremely
// to 9 like extremely".
func (g *ScoreGrid) Help(seat *recipes.Seat, c ScoreColumn) string {
	q := g.question(seat, c)
	what := strings.TrimSuffix(q.Label, "?") // a colon follows
	if c.Code != 0 {
		what = words.Say("tastings.help.cup", what, g.cupName(c.Code))
	}
	switch q.Kind {
	case tasting.AskCode:
		var codes []string
		for _, code := range q.Codes {
			codes = append(codes, strconv.Itoa(code))
		}
		if q.Free { // the last question is long; its short name does here
			q.Label = shortAsk(q)
		}
		if q.Nothing != "" {
			return words.Say("tastings.help.nothing", q.Label, strings.Join(codes, ", "), q.Nothing)
		}
		return words.Say("tastings.help.codes", q.Label, strings.Join(codes, ", "))
	case tasting.AskYesNo:
		var out []string
		for i, o := range q.Options {
			out = append(out, words.Say("tastings.help.option", i, o))
		}
		return words.Say("tastings.help", what, strings.Join(out, ", "))
	}
	if n := len(q.Anchors); n > 1 {
		return words.Say("tastings.help.scale", what, int(q.Low), q.Anchors[0], int(q.High), q.Anchors[n-1])
	}
	return words.Say("tastings.help", what, q.Range())
}

func (g *ScoreGrid) cupName(code int) string {
	if n := g.sampleName(code); n != "" {
		return n
	}
	return strconv.Itoa(code)
}

// question is the column's as this seat is asked it: codes are those of her tray.
func (g *ScoreGrid) question(seat *recipes.Seat, c ScoreColumn) tasting.Question {
	if c.Code == 0 {
		for _, q := range tasting.Closing(g.Tasting, seat) {
			if q.Key == c.Ask.Key {
				return q
			}
		}
	}
	return c.Ask
}

// Complete tells whether what is typed is a whole answer, so that nothing more
// need be pressed: a digit where one is enough, three of a code.
func (g *ScoreGrid) Complete(col int, text string) bool {
	if col < 0 || col >= len(g.Columns) || text == "" {
		return false
	}
	switch q := g.Columns[col].Ask; q.Kind {
	case tasting.AskCode:
		return text == "0" || len(text) == 3
	case tasting.AskYesNo:
		return true
	default:
		return q.High <= 9 || len(text) == 2
	}
}

// Fit reads what was typed for a seat, or says in one sentence why it is no
// answer.
func (g *ScoreGrid) Fit(row, col int, typed string) (float64, error) {
	seat, c := &g.Tasting.Seats[row], g.Columns[col]
	q := g.question(seat, c)
	typed = strings.TrimSpace(typed)
	v, err := strconv.Atoi(typed)
	if err != nil || !q.Takes(float64(v)) {
		return 0, problem.New("", words.Say("tastings.refused", typed, g.Help(seat, c)), "")
	}
	if q.Kind == tasting.AskOrders {
		for _, cup := range seat.Cups {
			if cup.Code != c.Code && g.value(seat, ScoreColumn{cup.Code, c.Ask}) == float64(v) {
				return 0, problem.New("", words.Say("tastings.place-twice", v, g.cupName(cup.Code)), "")
			}
		}
	}
	return float64(v), nil
}

// value is the answer that counts in a column, 0 for none.
func (g *ScoreGrid) value(seat *recipes.Seat, c ScoreColumn) float64 {
	own, others := g.servings(seat, c)
	if own != nil {
		if v, ok := own.Scores[c.Ask.Key]; ok || g.Source == recipes.FromSecond {
			return v
		}
	}
	if g.Source == recipes.FromSecond {
		return 0
	}
	for _, s := range others {
		if v, ok := s.Scores[c.Ask.Key]; ok {
			return v
		}
	}
	return 0
}

// Next is the field to type into after one: along the tray in the seat's own
// tasting order, cup by cup, then the tray's questions, then the next taster who
// is there; or along the row. ok is false at the end of the table.
func (g *ScoreGrid) Next(row, col int, alongTray bool) (r, c int, ok bool) {
	if row < 0 || row >= len(g.Tasting.Seats) {
		return 0, 0, false
	}
	order := g.order(&g.Tasting.Seats[row], alongTray)
	if i := slices.Index(order, col); i >= 0 && i+1 < len(order) {
		return row, order[i+1], true
	}
	for r = row + 1; r < len(g.Tasting.Seats); r++ {
		if o := g.order(&g.Tasting.Seats[r], alongTray); len(o) > 0 && g.Tasting.Seats[r].Away == "" {
			return r, o[0], true
		}
	}
	return 0, 0, false
}

// First is the first field of the table to type into, the first of a seat when
// row is 0 or more.
func (g *ScoreGrid) First(row int, alongTray bool) (r, c int, ok bool) {
	if row >= 0 && row < len(g.Tasting.Seats) {
		if o := g.order(&g.Tasting.Seats[row], alongTray); len(o) > 0 {
			return row, o[0], true
		}
	}
	for r := range g.Tasting.Seats {
		if o := g.order(&g.Tasting.Seats[r], alongTray); len(o) > 0 && g.Tasting.Seats[r].Away == "" {
			return r, o[0], true
		}
	}
	return 0, 0, false
}

// Owing finds the first field of a seat without an answer; false when it has all.
func (g *ScoreGrid) Owing(row int, alongTray bool) (c int, ok bool) {
	if row < 0 || row >= len(g.Tasting.Seats) {
		return 0, false
	}
	seat := &g.Tasting.Seats[row]
	for _, c := range g.order(seat, alongTray) {
		if g.cell(seat, g.Columns[c]).Text == "" {
			return c, true
		}
	}
	return 0, false
}

// order lists a seat's columns in the order they are typed.
func (g *ScoreGrid) order(seat *recipes.Seat, alongTray bool) []int {
	var out []int
	add := func(code int) {
		for i, c := range g.Columns {
			if c.Code == code && g.On(seat, c) {
				out = append(out, i)
			}
		}
	}
	if !alongTray {
		for i, c := range g.Columns {
			if g.On(seat, c) {
				out = append(out, i)
			}
		}
		return out
	}
	for _, c := range seat.Cups {
		add(c.Code)
	}
	add(0)
	return out
}
