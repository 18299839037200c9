package manuscript

import (
	"encoding/csv"
	"io"
	"slices"
	"strconv"
	"strings"

	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Table is one table of the papers for a spreadsheet. Weights are grams with "."
// for decimals and no unit; a cell is empty where nothing is known.
type Table struct {
	Name string // of its file, without an ending
	Part Part
	Head []string
	Rows [][]string
}

// WriteCSV writes a table: UTF-8, "," between cells, rows ending in CR LF (RFC
// 4180). A text that a spreadsheet would run as a formula gets an apostrophe in
// front.
func (t *Table) WriteCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	for _, row := range slices.Concat([][]string{t.Head}, t.Rows) {
		safe := make([]string, len(row))
		for i, c := range row {
			safe[i] = harmless(c)
		}
		if err := out.Write(safe); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// harmless keeps a text from being run as a formula; a number stays a number.
func harmless(s string) string {
	if s == "" || !strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return s
	}
	if _, err := strconv.ParseFloat(s, 64); err == nil {
		return s
	}
	return "'" + s
}

// Tables are the tables of the parts to print, in the order of the papers; one
// without rows is left out.
func (p *TastingPapers) Tables() []Table {
	var out []Table
	for _, part := range p.printed() {
		for _, t := range p.tablesOf(part) {
			if t.Part = part; len(t.Rows) > 0 {
				out = append(out, t)
			}
		}
	}
	return out
}

func (p *TastingPapers) tablesOf(part Part) []Table {
	switch part {
	case PartInvitation:
		return []Table{p.allergenTable()}
	case PartAmounts:
		return []Table{p.amountTable(), p.shoppingTable()}
	case PartTests:
		return []Table{p.testTable()}
	case PartRun:
		return []Table{p.timeTable(), p.portionTable(), p.keyTable()}
	case PartLabels:
		return []Table{p.labelTable()}
	case PartBallots:
		return []Table{p.ballotTable()}
	}
	return nil
}

// csvHead are the names of columns: of the printed tables in lower case, or of
// files alone after "csv.".
func csvHead(keys ...string) []string {
	var out []string
	for _, k := range keys {
		if own, ok := strings.CutPrefix(k, "csv."); ok {
			out = append(out, say("csv."+own))
			continue
		}
		out = append(out, strings.ToLower(say("col."+k)))
	}
	return out
}

func (p *TastingPapers) allergenTable() Table {
	t := Table{Name: "allergens", Head: csvHead("csv.allergen")}
	for _, a := range p.Invite.Allergens {
		t.Rows = append(t.Rows, []string{a})
	}
	return t
}

func (p *TastingPapers) amountTable() Table {
	t := Table{Name: "amounts", Head: csvHead("pot", "cups", "csv.needed", "csv.once", "csv.times", "csv.makes", "from")}
	for _, x := range p.Pots {
		t.Rows = append(t.Rows, slices.Concat([]string{x.Pot, strconv.Itoa(x.Cups)}, x.CSV, []string{x.From}))
	}
	return t
}

func (p *TastingPapers) shoppingTable() Table {
	t := Table{Name: "shopping", Head: csvHead("food", "csv.needed", "csv.on-hand", "csv.buy", "about", "csv.check", "for")}
	for _, x := range p.Shopping {
		t.Rows = append(t.Rows, slices.Concat([]string{x.Food}, x.CSV, []string{x.About, strings.Join(x.Check, "; "), x.For}))
	}
	return t
}

func (p *TastingPapers) testTable() Table {
	t := Table{Name: "test-sheets", Head: csvHead("pot", "csv.ingredient", "csv.grams", "csv.as-cooked")}
	for i := range p.Tests {
		s := &p.Tests[i]
		name := words.Say("original")
		if s.Letter != "" {
			name = words.Say("print.version", s.Letter)
		}
		for _, in := range s.Ingredients {
			if !in.Heading {
				t.Rows = append(t.Rows, []string{name + " · " + s.Serves, in.Text, in.Grams, ""})
			}
		}
	}
	return t
}

func (p *TastingPapers) timeTable() Table {
	t := Table{Name: "run-times", Head: csvHead("wave", "csv.seats", "csv.serve", "pot", "vessel", "heat", "on", "in", "minutes", "out", "portion", "late", "csv.all")}
	for _, w := range p.Run.Waves {
		for _, f := range w.Fires {
			t.Rows = append(t.Rows, []string{
				strconv.Itoa(w.Number), spans(w.Seats), w.Serve, f.Pot, f.Vessel, f.Heat, f.On, f.In, f.Minutes, f.Out, f.Portion, f.Late, f.CSVGrams,
			})
		}
	}
	return t
}

func (p *TastingPapers) portionTable() Table {
	t := Table{Name: "run-portions", Head: csvHead("wave", "code", "sample", "cups", "csv.each", "csv.all", "celsius", "held")}
	for _, w := range p.Run.Waves {
		for _, x := range w.Portions {
			t.Rows = append(t.Rows, slices.Concat([]string{strconv.Itoa(w.Number), x.Code, x.Sample, strconv.Itoa(x.Cups)}, x.CSV, []string{"", ""}))
		}
	}
	return t
}

func (p *TastingPapers) keyTable() Table {
	t := Table{Name: "run-trays", Head: csvHead("wave", "seat", "taster", "csv.place", "code", "sample")}
	for _, s := range p.Run.Sheet {
		head := []string{strconv.Itoa(s.Wave), strconv.Itoa(s.Seat), s.Taster}
		if s.Open.Sample != "" {
			t.Rows = append(t.Rows, slices.Concat(head, []string{"0", "", s.Open.Sample}))
		}
		for i, c := range s.Cups {
			t.Rows = append(t.Rows, slices.Concat(head, []string{strconv.Itoa(i + 1), strconv.Itoa(c.Code), c.Sample}))
		}
	}
	return t
}

func (p *TastingPapers) labelTable() Table {
	t := Table{Name: "labels", Head: csvHead("seat", "taster", "wave", "csv.place", "code")}
	for i := range p.Trays {
		x := &p.Trays[i]
		head := []string{strconv.Itoa(x.Seat), x.Taster, strconv.Itoa(x.Wave)}
		if x.Open {
			t.Rows = append(t.Rows, slices.Concat(head, []string{"0", say("labels.open")}))
		}
		for at, code := range x.Codes {
			t.Rows = append(t.Rows, slices.Concat(head, []string{strconv.Itoa(at + 1), strconv.Itoa(code)}))
		}
	}
	return t
}

// ballotTable lists what is asked at each seat: of each cup, then of the tray.
func (p *TastingPapers) ballotTable() Table {
	t := Table{Name: "ballots", Head: csvHead("seat", "csv.place", "code", "csv.question", "csv.takes")}
	for _, b := range p.Ballots {
		for i, code := range b.Cups {
			for j := range b.Ask {
				t.Rows = append(t.Rows, []string{strconv.Itoa(b.Seat), strconv.Itoa(i + 1), strconv.Itoa(code), b.Ask[j].Label, takes(&b.Ask[j])})
			}
		}
		for j := range b.Whole {
			t.Rows = append(t.Rows, []string{strconv.Itoa(b.Seat), "", "", b.Whole[j].Label, takes(&b.Whole[j])})
		}
	}
	return t
}

// takes says what a question takes, as a person would tick it.
func takes(q *tasting.Question) string {
	if list := options(q); len(list) > 0 {
		return strings.Join(list, "; ")
	}
	return q.Range()
}
