package main

import (
	"context"
	"crypto/rand"
	"encoding/csv"
	"fmt"
	"os"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"

	"parewell/analysis/sensory"
	"parewell/recipes"
	"parewell/recipes/tasting"
	"parewell/recipes/workbook"
)

// cmdSit seats four tasters at a liking test of the first recipe's original and
// its first two versions, and begins to serve: sit FILE. Codes come from a fixed
// seed.
func cmdSit(ts *testscript.TestScript, _ bool, args []string) {
	f, err := workbook.Open(ts.MkAbs(args[0]), workbook.Options{})
	ts.Check(err)
	defer f.Close()
	do := func(v recipes.Verb) {
		_, err := f.Apply(context.Background(), v, recipes.ByCook)
		ts.Check(err)
	}
	id := func() recipes.ID { return recipes.NewID(rand.Reader) }
	for _, x := range f.Book().Foods() { // as if every pack had been read
		if !x.Allergens.Recorded {
			do(recipes.RecordAllergens(x.Ref, x.Allergens))
		}
	}
	r := f.Book().Recipes()[0]
	t := &recipes.Tasting{
		ID: "tasting000000001", Recipe: r.ID, Date: "2026-03-04", Test: recipes.TestLiking, Limit: 0.5, Seed: 7, Portion: 60,
		Attributes: []recipes.Attribute{{Name: "Overall", Kind: recipes.AskLiking}, {Name: "Saltiness", Kind: recipes.AskJustRight}},
	}
	var samples []*recipes.Sample
	var ids, people []recipes.ID
	for i := range 3 {
		s := &recipes.Sample{ID: id()}
		if i > 0 {
			s.Version = f.Book().Versions(r.ID)[i-1].ID
		}
		samples, ids = append(samples, s), append(ids, s.ID)
	}
	for i := range 4 {
		p := &recipes.Panelist{ID: id(), Code: fmt.Sprintf("T%d", i+1), Asked: true, Consent: "2026-03-01", Careful: recipes.No}
		do(tasting.PutTaster(p))
		people = append(people, p.ID)
	}
	d, err := sensory.Plan(sensory.Ask{Test: sensory.Liking, Samples: 3, Panelists: 5, Seed: t.Seed}) // one seat is free
	ts.Check(err)
	for i, s := range samples {
		s.Code = d.SampleCode(i)
	}
	t.Seats = d.Seats(ids, people)
	do(tasting.Put(t, samples))
	do(tasting.Begin(t.ID))
}

// cmdFill fills blank ballots in, with semicolons and a byte-order mark as a
// spreadsheet may save them: fill BLANK FILLED.
func cmdFill(ts *testscript.TestScript, _ bool, args []string) {
	rows, err := csv.NewReader(strings.NewReader(ts.ReadFile(args[0]))).ReadAll()
	ts.Check(err)
	var b strings.Builder
	b.WriteString("\ufeff")
	for i, r := range rows {
		switch {
		case i == 0, r[0] == "5": // nobody sits there
		case r[1] == "":
			r[4] = "0"
		default:
			r[2], r[3] = "7,0", "3"
		}
		b.WriteString(strings.Join(r, ";") + "\r\n")
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(b.String()), 0o600))
}

// cmdTyped types one paper ballot's first score, 2, as the window does: typed FILE.
func cmdTyped(ts *testscript.TestScript, _ bool, args []string) {
	f, err := workbook.Open(ts.MkAbs(args[0]), workbook.Options{})
	ts.Check(err)
	defer f.Close()
	t := f.Book().Tasting("tasting000000001")
	a := tasting.Answer{Seat: 1, Code: t.Seats[0].Cups[0].Code, Scores: map[string]float64{"Overall": 2}, Source: recipes.FromPaper}
	_, err = f.Apply(context.Background(), tasting.Record(t.ID, func() recipes.ID { return recipes.NewID(rand.Reader) }, a), recipes.ByCook)
	ts.Check(err)
}

// cmdCode puts the first code of blank ballots where a file says CODE.
func cmdCode(ts *testscript.TestScript, _ bool, args []string) {
	rows, err := csv.NewReader(strings.NewReader(ts.ReadFile(args[0]))).ReadAll()
	ts.Check(err)
	text := strings.ReplaceAll(ts.ReadFile(args[1]), "CODE", rows[1][1])
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(text), 0o600))
}
