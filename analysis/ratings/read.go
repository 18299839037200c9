package ratings

import (
	"encoding/csv"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes/delimited"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// What a file may hold: scores outside are slips, and so are more different
// samples than anybody cooks (the columns are then confused).
const (
	LowestScore  = -100
	HighestScore = 100
	MostSamples  = 100
	MostSwaps    = 64
	mostPosition = 1000
)

// sheet reads the rows of a CSV file: comma, or semicolon or tab with decimal
// comma, with or without a byte-order mark, any line ends.
type sheet struct {
	name    string
	comma   bool // figures have a decimal comma
	csv     *csv.Reader
	columns map[string]int
	head    []string
	faults  []error
	line    int
}

func newSheet(data []byte, name string) (*sheet, error) {
	s := &sheet{name: name, columns: map[string]int{}}
	s.csv, s.comma = delimited.Open(data)
	head, err := s.csv.Read()
	if err != nil {
		return nil, problem.New(name, words.Say("ratings.bad.empty"), words.Say("ratings.bad.header.hint"))
	}
	for i, h := range head {
		h = bare(h)
		key := strings.ToLower(h)
		if _, twice := s.columns[key]; twice && h != "" {
			return nil, problem.New(name, words.Say("ratings.bad.column-twice", h), "")
		}
		s.columns[key] = i
		s.head = append(s.head, h)
	}
	return s, nil
}

// bare takes off blanks and the apostrophe that keeps a spreadsheet from running
// a cell.
func bare(s string) string {
	s = strings.TrimSpace(s)
	if rest, ok := strings.CutPrefix(s, "'"); ok && rest != "" && strings.ContainsRune("=+-@", rune(rest[0])) {
		return rest
	}
	return s
}

// next is the next row that holds something; nil at the end.
func (s *sheet) next() []string {
	for {
		row, err := s.csv.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			var bad *csv.ParseError
			if errors.As(err, &bad) {
				s.line = bad.Line
			}
			s.fault(problem.New("", words.Say("ratings.bad.quotes"), ""))
			return nil
		}
		s.line, _ = s.csv.FieldPos(0)
		if strings.TrimSpace(strings.Join(row, "")) != "" {
			return row
		}
	}
}

func (s *sheet) field(row []string, column string) string {
	if i, ok := s.columns[column]; ok && i < len(row) {
		return bare(row[i])
	}
	return ""
}

// fault names a bad row by its line.
func (s *sheet) fault(err error) { s.faultAt(s.line, err) }

func (s *sheet) faultAt(line int, err error) {
	s.faults = append(s.faults, problem.At(words.Say("ratings.bad.line", line), err))
}

// number reads a figure; texts like "nan" are none.
func (s *sheet) number(text string) (float64, bool) {
	if s.comma {
		text = strings.Replace(text, ",", ".", 1)
	}
	if strings.Trim(text, "+-.0123456789eE") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil
}

// mostFaults are said in one message; the error's causes hold them all.
const mostFaults = 5

// done is the error of all bad rows together; nil when there are none.
func (s *sheet) done() error {
	if len(s.faults) == 0 {
		return nil
	}
	var said []string
	for _, f := range s.faults[:min(len(s.faults), mostFaults)] {
		said = append(said, f.Error())
	}
	if more := len(s.faults) - mostFaults; more > 0 {
		said = append(said, words.Say("ratings.bad.more", more))
	}
	return problem.Wrap(errors.Join(s.faults...), s.name, strings.Join(said, "; "), "")
}

// ReadScores reads SCORES.csv in long form: columns panelist, sample, attribute
// and score, and any of tasting, position, replicate, pot, cook and day, in any
// order; others are passed over. A row without a score is a serving that was
// missed: it is counted and left out. Every bad row is named with its line in
// the one *problem.Error, whose cause joins them all; nothing is read then.
func ReadScores(data []byte, name string) (*Table, error) {
	s, err := newSheet(data, name)
	if err != nil {
		return nil, err
	}
	for _, need := range []string{"panelist", "sample", "attribute", "score"} {
		if _, ok := s.columns[need]; !ok {
			return nil, problem.New(name, words.Say("ratings.bad.header", need), words.Say("ratings.bad.header.hint"))
		}
	}
	t := &Table{}
	seen := map[Score]int{}
	for row := s.next(); row != nil; row = s.next() {
		if score, ok := s.score(row, t); ok {
			key := score
			key.Value, key.Position, key.Line, key.Cook, key.Day = 0, 0, 0, "", ""
			if was := seen[key]; was != 0 {
				s.fault(problem.New("", words.Say("ratings.bad.twice", score.Panelist, score.Sample, score.Attribute, was), words.Say("ratings.bad.twice.hint")))
				continue
			}
			seen[key] = s.line
			t.Scores = append(t.Scores, score)
		}
	}
	s.slips(t)
	if err := s.done(); err != nil {
		return nil, err
	}
	if len(t.Scores) == 0 {
		return nil, problem.New(name, words.Say("ratings.bad.empty"), words.Say("ratings.bad.header.hint"))
	}
	if n := len(t.Samples()); n > MostSamples {
		return nil, problem.New(name, words.Say("ratings.bad.many", n), words.Say("ratings.bad.header.hint"))
	}
	return t, nil
}

// score reads one row; false when it holds none or is bad.
func (s *sheet) score(row []string, t *Table) (Score, bool) {
	get := func(column string) string { return s.field(row, column) }
	out := Score{
		Panelist: get("panelist"), Sample: get("sample"), Attribute: get("attribute"), Tasting: get("tasting"),
		Pot: get("pot"), Replicate: get("replicate"), Cook: get("cook"), Day: get("day"), Line: s.line,
	}
	for _, need := range []string{"panelist", "sample", "attribute"} {
		if get(need) == "" {
			s.fault(problem.New("", words.Say("ratings.bad.cell", need), ""))
			return out, false
		}
	}
	if text := get("position"); text != "" {
		v, ok := s.number(text)
		if !ok || v != math.Trunc(v) || v < 1 || v > mostPosition {
			s.fault(problem.New("", words.Say("ratings.bad.position", text), ""))
			return out, false
		}
		out.Position = int(v)
	}
	text := get("score")
	if text == "" {
		t.Blank++
		return out, false
	}
	v, ok := s.number(text)
	switch {
	case !ok:
		s.fault(problem.New("", words.Say("ratings.bad.number", text), ""))
	case v < LowestScore || v > HighestScore:
		s.fault(problem.New("", words.Say("ratings.bad.range", text, LowestScore, HighestScore), ""))
	default:
		out.Value = v
		return out, true
	}
	return out, false
}

// slips refuses scores above 10 or below 0 where at least 19 in 20 of the
// attribute's scores keep to 0-10: "77" for "7".
func (s *sheet) slips(t *Table) {
	all, odd := map[string]int{}, map[string]int{}
	far := func(x *Score) bool { return x.Value < 0 || x.Value > 10 }
	for i := range t.Scores {
		x := &t.Scores[i]
		all[x.Attribute]++
		if far(x) {
			odd[x.Attribute]++
		}
	}
	for i := range t.Scores {
		x := &t.Scores[i]
		if far(x) && odd[x.Attribute]*20 <= all[x.Attribute] {
			s.faultAt(x.Line, problem.New("", words.Say("ratings.bad.slip", words.Trim(x.Value, 2), x.Attribute), ""))
		}
	}
}

// ReadSwaps reads SWAPS.csv: a column sample, then one column a swap with 1
// where it is on and 0 where it is not. A row with no figures is a dish that is
// no version. Bad rows are named as by [ReadScores].
func ReadSwaps(data []byte, name string) (*Swaps, error) {
	s, err := newSheet(data, name)
	if err != nil {
		return nil, err
	}
	at, ok := s.columns["sample"]
	for len(s.head) > 0 && s.head[len(s.head)-1] == "" {
		s.head = s.head[:len(s.head)-1]
	}
	out := &Swaps{Names: slices.Delete(slices.Clone(s.head), min(at, len(s.head)), min(at+1, len(s.head)))}
	if !ok || len(out.Names) == 0 || slices.Contains(out.Names, "") || len(out.Names) > MostSwaps {
		return nil, problem.New(name, words.Say("ratings.bad.swap-header", MostSwaps), words.Say("ratings.bad.swap-header.hint"))
	}
	lines := map[string]int{}
	for row := s.next(); row != nil; row = s.next() {
		sample := s.field(row, "sample")
		switch was := lines[sample]; {
		case sample == "":
			s.fault(problem.New("", words.Say("ratings.bad.cell", "sample"), ""))
			continue
		case was != 0:
			s.fault(problem.New("", words.Say("ratings.bad.sample-twice", sample, was), ""))
			continue
		}
		lines[sample] = s.line
		if on, ok := s.ticks(row, at); ok {
			out.Samples, out.On = append(out.Samples, sample), append(out.On, on)
		}
	}
	if err := s.done(); err != nil {
		return nil, err
	}
	if len(out.Samples) == 0 {
		return nil, problem.New(name, words.Say("ratings.bad.empty"), words.Say("ratings.bad.swap-header.hint"))
	}
	return out, nil
}

// ticks reads the figures of a row; nil when it has none.
func (s *sheet) ticks(row []string, sample int) (on []bool, ok bool) {
	blank := 0
	for i := range s.head {
		if i == sample {
			continue
		}
		text := ""
		if i < len(row) {
			text = bare(row[i])
		}
		if text == "" {
			blank++
		} else if v, isNumber := s.number(text); !isNumber || v != 0 && v != 1 {
			s.fault(problem.New("", words.Say("ratings.bad.tick", text, s.head[i]), ""))
			return nil, false
		}
		on = append(on, text != "" && strings.Trim(text, "0.,+-eE") != "")
	}
	if blank == len(on) {
		return nil, true
	}
	if blank > 0 || len(row) > len(s.head) && strings.TrimSpace(strings.Join(row[len(s.head):], "")) != "" {
		s.fault(problem.New("", words.Say("ratings.bad.ticks"), words.Say("ratings.bad.swap-header.hint")))
		return nil, false
	}
	return on, true
}
