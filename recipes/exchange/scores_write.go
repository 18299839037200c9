package exchange

import (
	"encoding/csv"
	"io"
	"maps"
	"slices"
	"strconv"

	"parewell/recipes"
	"parewell/recipes/tasting"
)

// WriteBallots writes what a tasting's ballots say, by seat and code and never by
// version, in long form: for any state, and what ReadScores reads. What does not
// count is left out.
func WriteBallots(w io.Writer, b *recipes.Book, t *recipes.Tasting) error {
	out := csv.NewWriter(w)
	out.Write([]string{columnPanelist, columnSample, columnAttribute, columnScore, "position", columnNote}) //nolint:errcheck // Error tells
	for _, seat := range t.Seats {
		p := b.Panelist(seat.Panelist)
		if p == nil {
			continue
		}
		for at, code := range append(codesOf(seat), 0) {
			for _, s := range b.Servings(t.ID) {
				if s.Panelist == p.ID && s.Counts() && codeOf(seat, s.Sample) == code {
					writeServing(out, p.Code, code, at+1, s)
				}
			}
		}
	}
	out.Flush()
	return out.Error()
}

func codesOf(seat recipes.Seat) []int {
	var out []int
	for _, c := range seat.Cups {
		out = append(out, c.Code)
	}
	return out
}

// codeOf is the code of a sample on a tray, 0 for the tray itself, -1 for none.
func codeOf(seat recipes.Seat, sample recipes.ID) int {
	if sample == "" {
		return 0
	}
	for _, c := range seat.Cups {
		if c.Sample == sample {
			return c.Code
		}
	}
	return -1
}

func writeServing(out *csv.Writer, taster string, code, at int, s *recipes.Serving) {
	position := ""
	if code != 0 {
		position = strconv.Itoa(at)
	}
	cup := codeText(code)
	for i, q := range slices.Sorted(maps.Keys(s.Scores)) {
		note := ""
		if i == 0 {
			note = s.Note
		}
		out.Write([]string{safe(taster), cup, safe(q), plainNumber(s.Scores[q]), position, safe(note)}) //nolint:errcheck // Error tells
	}
}

// codeText is the code of a cup in a file, empty for the whole tray.
func codeText(code int) string {
	if code == 0 {
		return ""
	}
	return strconv.Itoa(code)
}

func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// WriteScores writes the scores of closed tastings by what was served, in the
// long form that the analysis reads (panelist, sample, attribute, score, tasting,
// position, replicate, pot). It refuses one that is not closed.
func WriteScores(w io.Writer, b *recipes.Book, ids ...recipes.ID) error {
	out := csv.NewWriter(w)
	out.Write([]string{columnPanelist, columnSample, columnAttribute, columnScore, "tasting", "position", "replicate", "pot"}) //nolint:errcheck // Error tells
	for _, id := range ids {
		rows, err := tasting.Rows(b, id)
		if err != nil {
			return err
		}
		t := b.Tasting(id)
		again := map[[3]string]int{}
		for _, r := range rows {
			k := [3]string{string(r.Panelist), r.Name, r.Attribute}
			again[k]++
			out.Write([]string{ //nolint:errcheck // Error tells
				safe(r.Taster), safe(r.Name), safe(r.Attribute), plainNumber(r.Score), safe(tastingName(t)),
				strconv.Itoa(r.Position), strconv.Itoa(again[k]), safe(r.Pot),
			})
		}
	}
	out.Flush()
	return out.Error()
}

// tastingName tells tastings of one day apart.
func tastingName(t *recipes.Tasting) string {
	if t.Name != "" {
		return t.Date + " " + t.Name
	}
	return t.Date
}

// WriteSwaps writes which swaps were on in what the tastings served: a row a
// sample, a 0/1 column a swap, from the served records.
func WriteSwaps(w io.Writer, b *recipes.Book, recipe recipes.ID, ids ...recipes.ID) error {
	on, names := servedSwaps(b, ids)
	var swaps []*recipes.Swap
	for _, s := range b.Swaps(recipe) {
		if slices.ContainsFunc(slices.Collect(maps.Values(on)), func(m map[recipes.ID]bool) bool { return m[s.ID] }) {
			swaps = append(swaps, s)
		}
	}
	out := csv.NewWriter(w)
	head := []string{columnSample}
	for _, s := range swaps {
		head = append(head, safe(s.Name))
	}
	out.Write(head) //nolint:errcheck // Error tells
	for _, name := range names {
		row := []string{safe(name)}
		for _, s := range swaps {
			bit := "0"
			if on[name][s.ID] {
				bit = "1"
			}
			row = append(row, bit)
		}
		out.Write(row) //nolint:errcheck // Error tells
	}
	out.Flush()
	return out.Error()
}

// servedSwaps returns the swaps of every served name of a recipe; benchmark
// dishes are no versions and stay out.
func servedSwaps(b *recipes.Book, ids []recipes.ID) (map[string]map[recipes.ID]bool, []string) {
	on := map[string]map[recipes.ID]bool{}
	var names []string
	for _, id := range ids {
		t := b.Tasting(id)
		if t == nil {
			continue
		}
		for _, s := range tasting.InOrder(b, id) {
			name := tasting.NameOf(b, t, s)
			if s.Dish != "" || s.Served == nil || on[name] != nil {
				continue
			}
			on[name] = map[recipes.ID]bool{}
			for _, x := range s.Served.Swaps {
				on[name][x.ID] = true
			}
			names = append(names, name)
		}
	}
	return on, names
}

// WriteBlankBallots writes the ballots of a tasting with nothing filled in, one
// cup a row in tasting order and one column a question, by codes only: what
// ReadScores takes back.
func WriteBlankBallots(w io.Writer, b *recipes.Book, t *recipes.Tasting) error {
	t = tasting.Ready(b, t)
	ask, whole := tasting.Questions(t), wholeQuestions(t)
	out := csv.NewWriter(w)
	head := []string{columnPanelist, columnSample}
	for _, q := range append(ask, whole...) {
		head = append(head, safe(q.Key))
	}
	out.Write(append(head, columnNote)) //nolint:errcheck // Error tells
	for _, seat := range t.Seats {
		name := strconv.Itoa(seat.Number)
		if p := b.Panelist(seat.Panelist); p != nil {
			name = p.Code
		}
		rows := seat.Cups
		if len(whole) > 0 {
			rows = append(slices.Clone(rows), recipes.Cup{})
		}
		for _, c := range rows {
			row := make([]string, len(head)+1)
			row[0], row[1] = safe(name), codeText(c.Code)
			out.Write(row) //nolint:errcheck // Error tells
		}
	}
	out.Flush()
	return out.Error()
}

// wholeQuestions are those asked once of a tray, whichever tray it is.
func wholeQuestions(t *recipes.Tasting) []tasting.Question {
	if len(t.Seats) == 0 {
		return nil
	}
	return tasting.Closing(t, &t.Seats[0])
}
