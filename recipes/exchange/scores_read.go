package exchange

import (
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes"
	"parewell/recipes/delimited"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Columns of a file of scores, in long form (one score a row) or wide (one cup a
// row, a column for each question). In the header any order, any case.
const (
	columnPanelist  = "panelist"
	columnSample    = "sample" // the code on the cup; empty or 0: the whole tray
	columnAttribute = "attribute"
	columnScore     = "score"
	columnNote      = "note"
)

// passed are columns that our own files carry and a reading does not need.
var passed = map[string]bool{"tasting": true, "date": true, "position": true, "replicate": true, "pot": true, "version": true}

// ReadScores reads ballots of a tasting from CSV: comma, or semicolon or tab with
// decimal comma, long or wide, with or without a byte-order mark. A taster is
// named by her code or her seat's number. Every bad row is named in faults with
// its line; then nothing of the file may be taken in. err is for a file that
// cannot be read at all.
func ReadScores(data []byte, name string, b *recipes.Book, t *recipes.Tasting) (answers []tasting.Answer, faults []error, err error) {
	r := &scoreReader{name: name, book: b, tasting: t, at: map[cup]*tasting.Answer{}, line: map[cup]map[string]int{}}
	if err := r.read(data); err != nil {
		return nil, nil, err
	}
	for _, k := range r.order {
		answers = append(answers, *r.at[k])
	}
	if len(answers) == 0 && len(r.faults) == 0 {
		return nil, nil, problem.New(name, words.Say("exchange.scores.none"), words.Say("exchange.scores.hint"))
	}
	return answers, r.faults, nil
}

type cup struct{ seat, code int }

type scoreReader struct {
	name    string
	book    *recipes.Book
	tasting *recipes.Tasting
	comma   bool // figures have a decimal comma
	columns map[string]int
	wide    map[int]string // column to question
	at      map[cup]*tasting.Answer
	line    map[cup]map[string]int // where a question was answered
	order   []cup
	faults  []error
}

func (r *scoreReader) read(data []byte) error {
	var c *csv.Reader
	c, r.comma = delimited.Open(data)
	head, err := c.Read()
	if err != nil {
		return problem.New(r.name, words.Say("exchange.scores.none"), words.Say("exchange.scores.hint"))
	}
	if err := r.header(head); err != nil {
		return err
	}
	for {
		row, err := c.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			var bad *csv.ParseError
			line := 1
			if errors.As(err, &bad) {
				line = bad.Line
			}
			r.fault(line, problem.New("", words.Say("exchange.scores.quotes"), ""))
			return nil
		}
		line, _ := c.FieldPos(0)
		r.row(line, row)
	}
}

// header finds the columns. A header with neither attribute nor score is wide:
// what is left are questions.
func (r *scoreReader) header(head []string) error {
	r.columns, r.wide = map[string]int{}, map[int]string{}
	for i, h := range head {
		h = strings.TrimSpace(h)
		key := strings.ToLower(h)
		if _, twice := r.columns[key]; twice && h != "" {
			return problem.New(r.name, words.Say("exchange.scores.column-twice", h), "")
		}
		r.columns[key] = i
		switch key {
		case columnPanelist, columnSample, columnAttribute, columnScore, columnNote, "":
		default:
			if !passed[key] {
				r.wide[i] = bare(h)
			}
		}
	}
	_, attribute := r.columns[columnAttribute]
	_, score := r.columns[columnScore]
	_, panelist := r.columns[columnPanelist]
	if !panelist || attribute != score || !attribute && len(r.wide) == 0 {
		return problem.New(r.name, words.Say("exchange.scores.header"), words.Say("exchange.scores.hint"))
	}
	if attribute {
		r.wide = nil
	}
	return nil
}

func (r *scoreReader) fault(line int, err error) {
	r.faults = append(r.faults, problem.At(words.Say("exchange.scores.line", r.name, line), err))
}

func (r *scoreReader) field(row []string, column string) string {
	if i, ok := r.columns[column]; ok && i < len(row) {
		return bare(strings.TrimSpace(row[i]))
	}
	return ""
}

// bare takes off the apostrophe that our files put before what a spreadsheet
// would run.
func bare(s string) string {
	if rest, ok := strings.CutPrefix(s, "'"); ok && safe(rest) != rest {
		return rest
	}
	return s
}

// row reads one row; what is wrong with it is a fault, and the next is read.
func (r *scoreReader) row(line int, row []string) {
	if strings.TrimSpace(strings.Join(row, "")) == "" {
		return
	}
	seat, err := r.seat(r.field(row, columnPanelist))
	if err != nil {
		r.fault(line, err)
		return
	}
	code := 0
	if text := r.field(row, columnSample); text != "" && text != "0" {
		if code, err = strconv.Atoi(text); err != nil {
			r.fault(line, problem.New("", words.Say("exchange.scores.code", text), ""))
			return
		}
	}
	if !r.onTray(line, seat, code) {
		return
	}
	if r.wide == nil {
		if score := r.field(row, columnScore); score != "" {
			r.score(line, seat, code, r.field(row, columnAttribute), score)
		}
	} else {
		for i := range row {
			if q, ok := r.wide[i]; ok && strings.TrimSpace(row[i]) != "" {
				c, name := codeIn(q, code)
				r.score(line, seat, c, name, strings.TrimSpace(row[i]))
			}
		}
	}
	if note := r.field(row, columnNote); note != "" && r.somebody(line, seat) {
		r.answer(cup{seat, code}).Note = note
	}
}

// onTray names a cup that does not stand at a seat, answered or not.
func (r *scoreReader) onTray(line, seat, code int) bool {
	cups := r.tasting.Seat(seat).Cups
	if code == 0 || slices.ContainsFunc(cups, func(c recipes.Cup) bool { return c.Code == code }) {
		return true
	}
	r.fault(line, problem.New("", words.Say("error.code-none", code), ""))
	return false
}

// somebody names an answer of a seat where nobody sits; rows of it that say nothing
// are passed over.
func (r *scoreReader) somebody(line, seat int) bool {
	if r.tasting.Seat(seat).Panelist != "" {
		return true
	}
	r.fault(line, problem.New(words.Say("tasting.seat", seat), words.Say("error.seat-empty"), words.Say("exchange.scores.seat-empty.hint")))
	return false
}

// codeIn takes a code off a wide column's heading ("482 Overall").
func codeIn(heading string, code int) (int, string) {
	first, rest, ok := strings.Cut(heading, " ")
	if n, err := strconv.Atoi(first); ok && err == nil && n >= 100 && n <= 999 {
		return n, strings.TrimSpace(rest)
	}
	return code, heading
}

// seat finds a taster by code or by the number of the seat.
func (r *scoreReader) seat(text string) (int, error) {
	if text == "" {
		return 0, problem.New("", words.Say("exchange.scores.nobody"), "")
	}
	for _, s := range r.tasting.Seats {
		if p := r.book.Panelist(s.Panelist); p != nil && strings.EqualFold(p.Code, text) {
			return s.Number, nil
		}
	}
	if n, err := strconv.Atoi(text); err == nil && r.tasting.Seat(n) != nil {
		return n, nil
	}
	return 0, problem.New("", words.Say("exchange.scores.who", text), "")
}

func (r *scoreReader) answer(k cup) *tasting.Answer {
	if r.at[k] == nil {
		r.at[k] = &tasting.Answer{Seat: k.seat, Code: k.code, Scores: map[string]float64{}, Source: recipes.FromFile}
		r.line[k] = map[string]int{}
		r.order = append(r.order, k)
	}
	return r.at[k]
}

// score takes one score down, held against its question.
func (r *scoreReader) score(line, seat, code int, question, text string) {
	if !r.somebody(line, seat) {
		return
	}
	if r.comma {
		text = strings.Replace(text, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		r.fault(line, problem.New("", words.Say("exchange.scores.number", text), ""))
		return
	}
	a := tasting.Answer{Seat: seat, Code: code, Scores: map[string]float64{question: v}}
	name, err := tasting.Fits(r.tasting, a, question)
	if err != nil {
		r.fault(line, err)
		return
	}
	k := cup{seat, code}
	to := r.answer(k)
	if was := r.line[k][name]; was != 0 {
		r.fault(line, problem.New("", words.Say("exchange.scores.twice", name, was), ""))
		return
	}
	to.Scores[name], r.line[k][name] = v, line
}
