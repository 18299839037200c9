package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"time"

	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/food/tables"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
)

var foodsImportFlags = []flagSpec{{"release", true}, {"json", false}}

// badNamed is how many bad rows are named; the others are counted.
const badNamed = 20

// runFoodsImport takes published food tables into a workbook, which is made if
// it is not there: all of them in one change, or none.
func runFoodsImport(c *call, args []string) (int, error) {
	g, err := parse(args, foodsImportFlags)
	if err != nil {
		return exitBad, err
	}
	if len(g.operands) < 2 {
		return exitBad, problem.New(c.name+" import", words.Say("cmd.foods.import.what"), words.Say("cmd.see-help-of", c.name))
	}
	name := g.operands[0]
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	read, err := readTables(ctx, c, g)
	if err != nil {
		return exitBad, err
	}
	done, err := takeIn(ctx, name, read)
	if err != nil {
		return exitBad, err
	}
	if g.has("json") {
		return exitWell, writeJSON(c.out, map[string]any{"workbook": name, "tables": tableReports(done)})
	}
	return exitWell, writeTables(c.out, name, done)
}

// readTables reads the sources, with progress on a terminal.
func readTables(ctx context.Context, c *call, g *given) ([]*tables.Import, error) {
	o := tables.Options{Release: g.flags["release"]}
	end := func() {}
	if isTerminal(c.err) {
		o.Progress, end = progressOn(c.err)
	}
	read, err := tables.ReadAll(ctx, g.operands[1:], o)
	end()
	if errors.Is(err, context.Canceled) {
		return nil, problem.Wrap(err, c.name+" import", words.Say("cmd.foods.import.stopped"), "")
	}
	return read, err
}

// isTerminal tells whether a person watches what is written to w.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	st, err := f.Stat()
	return err == nil && st.Mode()&os.ModeCharDevice != 0
}

// progressOn shows progress in one line of a terminal; end takes it off.
func progressOn(w io.Writer) (progress func(done, total int), end func()) {
	last := -1
	progress = func(done, total int) {
		if p := 100 * done / max(total, 1); p != last {
			last = p
			fmt.Fprint(w, "\r"+words.Say("cmd.foods.import.progress", p)) //nolint:errcheck // a lost figure is no loss
		}
	}
	return progress, func() {
		if last >= 0 {
			fmt.Fprint(w, "\r\x1b[K") //nolint:errcheck // see above
		}
	}
}

// takenIn is one table and what became of it.
type takenIn struct {
	*tables.Import
	already bool
}

// takeIn writes tables into the workbook, in one change; a new workbook that
// cannot be filled is taken away again.
func takeIn(ctx context.Context, name string, read []*tables.Import) (done []takenIn, err error) {
	into := func(f *workbook.File) (err error) {
		done, err = apply(ctx, f, read)
		return named(name, err)
	}
	if _, err := os.Stat(name); !errors.Is(err, fs.ErrNotExist) {
		return done, withWorkbook(name, workbook.Options{}, into)
	}
	f, err := workbook.Create(name, workbook.Options{})
	if err != nil {
		return nil, named(name, err)
	}
	if err = into(f); err == nil {
		return done, named(name, f.Close())
	}
	f.Close()       //nolint:errcheck // the first error tells more
	os.Remove(name) //nolint:errcheck // likewise; it is ours, and empty
	return nil, err
}

func apply(ctx context.Context, f *workbook.File, read []*tables.Import) ([]takenIn, error) {
	var (
		done   []takenIn
		verbs  []recipes.Verb
		blocks []workbook.Block
	)
	for _, im := range read {
		r, block, err := workbook.NewRelease(im.Name, im.Digest, im.Foods, time.Now())
		if err != nil {
			return nil, err
		}
		done = append(done, takenIn{im, f.Book().Release(r.Source, r.Release).Same(r)})
		verbs, blocks = append(verbs, recipes.ImportRelease(r)), append(blocks, block)
	}
	verb := verbs[0]
	if len(verbs) > 1 {
		verb = recipes.All(words.P("did.import-tables", len(verbs)), "", verbs...)
	}
	_, err := f.Apply(ctx, verb, recipes.ByImport, blocks...)
	return done, err
}

// writeTables says what came in and which rows did not.
func writeTables(out io.Writer, name string, done []takenIn) error {
	for _, t := range done {
		key := "cmd.foods.import.did"
		if t.already {
			key = "cmd.foods.import.already"
		}
		lines := []string{words.Say(key, words.Number(float64(len(t.Foods)), 0), t.Name, name)}
		if t.Count.Left > 0 {
			lines = append(lines, words.Say("cmd.foods.import.left", t.Count.Left))
		}
		if t.Count.Bad > 0 {
			lines = append(lines, words.Say("cmd.foods.import.bad", t.Count.Bad, words.Number(float64(t.Count.Rows), 0)))
		}
		for _, p := range t.Bad[:min(len(t.Bad), badNamed)] {
			lines = append(lines, "  "+p.Error())
		}
		if more := t.Count.Bad - badNamed; more > 0 {
			lines = append(lines, "  "+words.Say("cmd.foods.import.more", more))
		}
		for _, l := range lines {
			if _, err := fmt.Fprintln(out, l); err != nil {
				return err
			}
		}
	}
	return nil
}

// tableReport is one table in the JSON of foods import.
type tableReport struct {
	Name    string      `json:"name"`
	Source  string      `json:"source"`
	Release string      `json:"release"`
	Foods   int         `json:"foods"`
	Rows    int         `json:"rows"`
	BadRows int         `json:"bad_rows"`
	LeftOut int         `json:"left_out"` // foods of sorts no cook uses
	Already bool        `json:"already"`
	Bad     []rowReport `json:"bad"`
}

type rowReport struct {
	Where string `json:"where"`
	What  string `json:"what"`
}

func tableReports(done []takenIn) []tableReport {
	out := make([]tableReport, 0, len(done))
	for _, t := range done {
		r := tableReport{
			Name: t.Name, Source: t.Source, Release: t.Release, Foods: len(t.Foods), Rows: t.Count.Rows,
			BadRows: t.Count.Bad, LeftOut: t.Count.Left, Already: t.already, Bad: []rowReport{},
		}
		for _, p := range t.Bad {
			r.Bad = append(r.Bad, rowReport{p.Where, p.What})
		}
		out = append(out, r)
	}
	return out
}

// withImported is a table that also finds the foods of the tables that were
// imported into a workbook.
func withImported(f *workbook.File, table *food.Table) (*food.Table, error) {
	var all []*food.Food
	for _, r := range f.Book().Releases() {
		foods, err := f.Release(context.Background(), r)
		if err != nil {
			return nil, named(filepath.Clean(f.Path()), err)
		}
		for _, x := range foods {
			if table.Get(x.Ref) == nil {
				all = append(all, x)
			}
		}
	}
	if len(all) == 0 {
		return table, nil
	}
	return table.Beside(food.NewTable(all)), nil
}
