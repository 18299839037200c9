package main

import (
	"archive/zip"
	"bytes"
	"context"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"parewell/recipes"
	"parewell/recipes/exchange"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

// Before a tasting is closed, nothing that any command says or writes depends on
// which code is which dish, but what the kitchen needs to fill the cups and what
// the export of all data folds up: every command is run on two workbooks that
// differ in nothing else.
func TestNoCommandTellsWhatACupHolds(t *testing.T) {
	home := t.TempDir()
	one, two := filepath.Join(home, "one"), filepath.Join(home, "two")
	for _, d := range []string{one, two} {
		if err := os.Mkdir(d, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(one)
	quietly(t, "demo", "book.parewell")
	serveTwo(t, "book.parewell")
	data, err := os.ReadFile("book.parewell")
	if err != nil || os.WriteFile(filepath.Join(two, "book.parewell"), data, 0o600) != nil {
		t.Fatal(err)
	}
	first := turnedBy(t, 1)
	t.Chdir(two)
	second := turnedBy(t, 2)
	kitchen := regexp.MustCompile(`^papers-(liking|triangle)/kitchen/(papers-kitchen-(a4|letter)[.]pdf|run-(trays|portions)[.]csv)$`)
	differ := 0
	for name, a := range first {
		b := second[name]
		if strings.HasSuffix(name, "workbook.json") {
			a, b = foldedAway(a), foldedAway(b)
		}
		switch same := bytes.Equal(a, b); {
		case kitchen.MatchString(name) && !same:
			differ++
		case !same:
			t.Errorf("%s tells dishes apart", name)
		}
	}
	if len(first) < 60 || len(first) != len(second) || differ == 0 {
		t.Errorf("%d and %d outputs, %d of the kitchen differ", len(first), len(second), differ)
	}
}

// turnedBy is every output with the dishes moved on by so many codes.
func turnedBy(t *testing.T, n int) map[string][]byte {
	t.Helper()
	withBook(t, "book.parewell", func(do func(recipes.Verb), b func() *recipes.Book) {
		do(turnCups(b().Tasting("liking0000000001"), n))
		do(turnCups(b().Tasting("triangle00000001"), n))
	})
	return everyOutput(t)
}

func quietly(t *testing.T, args ...string) []byte {
	t.Helper()
	var out, errOut bytes.Buffer
	run(args, strings.NewReader(""), &out, &errOut)
	return append(out.Bytes(), errOut.Bytes()...)
}

// everyOutput is what each command says and writes in the present folder.
func everyOutput(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	for _, line := range []string{
		"check book.parewell", "claims book.parewell", "ledger book.parewell --recipe gratin", "ledger book.parewell --recipe gratin --json",
		"tasting list book.parewell", "tasting list book.parewell --json",
		"tasting ballots book.parewell --tasting liking0000000001 --to papers-liking",
		"tasting ballots book.parewell --tasting triangle00000001 --to papers-triangle",
		"tasting scores book.parewell --tasting liking0000000001 --to scores",
		"tasting close book.parewell --tasting liking0000000001",
		"data book.parewell --to data", "data book.parewell --to data-people --with-people",
		"export book.parewell --to export", "print book.parewell --to print --book --formats svg",
	} {
		out["$ "+line] = quietly(t, strings.Fields(line)...)
	}
	b, err := readBook("book.parewell")
	if err != nil {
		t.Fatal(err)
	}
	for _, id := range []recipes.ID{"liking0000000001", "triangle00000001"} { // as the window saves them
		var file bytes.Buffer
		if err := exchange.WriteBallots(&file, b, b.Tasting(id)); err != nil {
			t.Fatal(err)
		}
		out["ballots "+string(id)] = file.Bytes()
	}
	err = filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !strings.HasPrefix(path, "book.parewell") && d.Name() != ".parewell-export" {
			out[filepath.ToSlash(path)], err = readPages(path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// readPages is a file, of a DOCX its pages: the rest names the minute it was made.
func readPages(path string) ([]byte, error) {
	if filepath.Ext(path) != ".docx" {
		return os.ReadFile(path)
	}
	z, err := zip.OpenReader(path)
	if err != nil {
		return nil, err
	}
	defer z.Close()
	f, err := z.Open("word/document.xml")
	if err != nil {
		return nil, err
	}
	return io.ReadAll(f)
}

// foldedAway leaves out the one list of the data that may tell.
func foldedAway(data []byte) []byte {
	before, rest, _ := bytes.Cut(data, []byte(`"sealed": [`))
	_, after, _ := bytes.Cut(rest, []byte("]"))
	return append(slices.Clone(before), after...)
}

func withBook(t *testing.T, name string, act func(do func(recipes.Verb), b func() *recipes.Book)) {
	t.Helper()
	f, err := workbook.Open(name, workbook.Options{Now: func() time.Time { return time.Date(2026, 3, 4, 12, 0, 0, 0, time.UTC) }})
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	act(func(v recipes.Verb) {
		t.Helper()
		if _, err := f.Apply(context.Background(), v, recipes.ByCook); err != nil {
			t.Fatal(err)
		}
	}, f.Book)
}

// serveTwo adds a tasting by liking with two pots of a version, and an odd one
// out, both serving and half answered.
func serveTwo(t *testing.T, name string) {
	t.Helper()
	withBook(t, name, func(do func(recipes.Verb), b func() *recipes.Book) {
		r := b().Recipes()[0]
		for _, f := range b().Foods() {
			if !f.Allergens.Recorded {
				do(recipes.RecordAllergens(f.Ref, f.Allergens))
			}
		}
		v := b().Versions(r.ID)[0].ID
		var people []recipes.ID
		for _, code := range []string{"X1", "X2"} {
			p := &recipes.Panelist{ID: recipes.ID("taster" + code), Code: code, Asked: true, Consent: "2026-03-01", Careful: recipes.No}
			do(tasting.PutTaster(p))
			people = append(people, p.ID)
		}
		lay := func(id recipes.ID, test string, samples []*recipes.Sample, trays [][]int, codes []int) {
			tt := &recipes.Tasting{ID: id, Recipe: r.ID, Date: "2026-03-04", Test: test, Limit: 0.5, Seed: 7, Portion: 60, Attributes: []recipes.Attribute{{Name: "Overall", Kind: recipes.AskLiking}}}
			for n, tray := range trays {
				seat := recipes.Seat{Number: n + 1, Panelist: people[n]}
				for i, s := range tray {
					seat.Cups = append(seat.Cups, recipes.Cup{Sample: samples[s].ID, Code: codes[i]})
				}
				tt.Seats = append(tt.Seats, seat)
			}
			do(tasting.Put(tt, samples))
			do(tasting.Begin(id))
		}
		lay("liking0000000001", recipes.TestLiking, []*recipes.Sample{
			{ID: "s1", Pot: 1, Code: "482"}, {ID: "s2", Version: v, Pot: 1, Code: "571"}, {ID: "s3", Version: v, Pot: 2, Code: "639"},
		}, [][]int{{0, 1, 2}, {0, 1, 2}}, []int{482, 571, 639})
		lay("triangle00000001", "triangle", []*recipes.Sample{{ID: "s4", Pot: 1, Code: "215"}, {ID: "s5", Version: v, Pot: 1, Code: "369"}},
			[][]int{{0, 1, 0}, {1, 1, 0}}, []int{215, 369, 748})
		n := 0
		fresh := func() recipes.ID { n++; return recipes.ID("answer" + string(rune('a'+n))) }
		for i, code := range []int{482, 571, 639} {
			do(tasting.Record("liking0000000001", fresh, tasting.Answer{Seat: 1, Code: code, Scores: map[string]float64{"Overall": float64(4 + i)}, Source: recipes.FromPaper}))
		}
		do(tasting.Record("triangle00000001", fresh, tasting.Answer{Seat: 1, Scores: map[string]float64{recipes.AskChoice: 369}, Source: recipes.FromPaper}))
	})
}

// turnCups puts other dishes under the same codes; answers stay with the codes.
func turnCups(t *recipes.Tasting, by int) recipes.Verb {
	return func(b *recipes.Book) (recipes.Change, error) {
		all := tasting.InOrder(b, t.ID)
		to := map[recipes.ID]recipes.ID{}
		for i, s := range all {
			to[s.ID] = all[(i+by)%len(all)].ID
		}
		c := recipes.Change{Label: words.P("did.nothing")}
		n := *t
		n.Seats = slices.Clone(t.Seats)
		for i := range n.Seats {
			cups := slices.Clone(n.Seats[i].Cups)
			for j := range cups {
				cups[j].Sample = to[t.Seats[i].Cups[j].Sample]
				if tasting.Trays(t.Test) { // another cup is the odd one
					cups[j].Sample = t.Seats[i].Cups[(j+by)%len(cups)].Sample
				}
			}
			n.Seats[i].Cups = cups
		}
		c.Edits = append(c.Edits, recipes.Edit{Before: t, After: &n})
		for _, s := range all {
			m := *b.Sample(t.ID, to[s.ID])
			m.Code = s.Code
			c.Edits = append(c.Edits, recipes.Edit{Before: b.Sample(t.ID, m.ID), After: &m})
		}
		for _, x := range b.Servings(t.ID) {
			if m := *x; m.Sample != "" {
				m.Sample = to[m.Sample]
				c.Edits = append(c.Edits, recipes.Edit{Before: x, After: &m})
			}
		}
		return c, nil
	}
}
