package main

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"parewell/recipes"
	"parewell/recipes/exchange"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
	"parewell/recipes/workbook"
	"parewell/ui/sheets"
)

var tastingFlags = []flagSpec{{"tasting", true}, {"to", true}, {"early", true}, {"why", true}, {"json", false}}

// tastingActs are the subcommands of tasting.
var tastingActs = []string{"list", "ballots", "import", "scores", "close"}

// runTasting lists the tastings of a workbook, writes ballots, takes scores in
// and closes.
func runTasting(c *call) (int, error) {
	if len(c.args) == 0 {
		return exitBad, problem.New(c.name, words.Say("cmd.tasting.what"), words.Say("cmd.see-help-of", c.name))
	}
	act := c.args[0]
	g, err := parse(c.args[1:], tastingFlags)
	if err != nil {
		return exitBad, err
	}
	want := 1
	if act == "import" {
		want = 2
	}
	run := map[string]func(*call, *given) error{
		"list": listTastings, "ballots": writeBallots, "import": importScores, "scores": writeScores, "close": closeTasting,
	}[act]
	switch {
	case run == nil:
		return exitBad, problem.New(c.name+" "+act, words.Say("cmd.no-command"), hintNearest(act, tastingActs))
	case len(g.operands) != want:
		return exitBad, problem.New(c.name+" "+act, words.Say("cmd.tasting.files"), words.Say("cmd.see-help-of", c.name))
	}
	if err := run(c, g); err != nil {
		return exitBad, err
	}
	return exitWell, nil
}

// tastingReport is a tasting in the JSON of tasting list. Before it is closed
// nothing in it tells which code is which version.
type tastingReport struct {
	ID          string   `json:"id"`
	Recipe      string   `json:"recipe"`
	Date        string   `json:"date"`
	Name        string   `json:"name,omitempty"`
	Test        string   `json:"test"`
	State       string   `json:"state"`
	Samples     int      `json:"samples"`
	Seats       int      `json:"seats"`
	Seated      int      `json:"seated"`
	Missing     int      `json:"missing"`
	Disagreeing int      `json:"disagreeing"`
	Early       string   `json:"early,omitempty"`
	Corrections int      `json:"corrections"`
	Attributes  []string `json:"attributes"`
}

func reportTasting(b *recipes.Book, t *recipes.Tasting) tastingReport {
	r := tastingReport{
		ID: string(t.ID), Recipe: b.Recipe(t.Recipe).Title, Date: t.Date, Name: t.Name, Test: t.Test, State: string(t.State),
		Samples: len(b.Samples(t.ID)), Seats: len(t.Seats), Early: t.Early, Corrections: len(t.Late), Attributes: []string{},
	}
	for _, s := range t.Seats {
		if s.Panelist != "" {
			r.Seated++
		}
	}
	for _, a := range t.Attributes {
		r.Attributes = append(r.Attributes, a.Name)
	}
	if t.State == recipes.TastingServing {
		r.Missing, r.Disagreeing = len(tasting.Missing(b, t)), len(tasting.Disagreements(b, t))
	}
	return r
}

func listTastings(c *call, g *given) error {
	b, err := readBook(g.operands[0])
	if err != nil {
		return err
	}
	all := []tastingReport{}
	for _, t := range b.Tastings() {
		all = append(all, reportTasting(b, t))
	}
	if g.has("json") {
		return writeJSON(c.out, map[string]any{"tastings": all})
	}
	if len(all) == 0 {
		_, err := fmt.Fprintln(c.out, words.Say("cmd.tasting.none"))
		return err
	}
	t := &table{right: map[int]bool{4: true, 5: true, 6: true}}
	t.row(words.List("cmd.tasting.columns")...)
	for _, r := range all {
		n := func(v int) string { return words.Number(float64(v), 0) }
		t.row(r.Date, r.Recipe, r.Test, words.Say("tasting.state."+r.State), n(r.Samples), n(r.Seated), n(r.Missing), r.ID)
	}
	return t.write(c.out)
}

// oneTasting is the one that --tasting names by ID, date or name; without the
// flag the only one there is in a state that fits.
func oneTasting(name string, b *recipes.Book, g *given, fits func(*recipes.Tasting) bool) (*recipes.Tasting, error) {
	want := strings.TrimSpace(g.flags["tasting"])
	var found []*recipes.Tasting
	for _, t := range b.Tastings() {
		switch {
		case want == "" && fits(t), want != "" && (string(t.ID) == want || t.Date == want || strings.EqualFold(t.Name, want)):
			found = append(found, t)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, problem.New(name, words.Say("cmd.tasting.no"), words.Say("cmd.tasting.list", name))
	}
	return nil, problem.New(name, words.Say("cmd.tasting.many", len(found)), words.Say("cmd.tasting.list", name))
}

func serving(t *recipes.Tasting) bool { return t.State == recipes.TastingServing }

// importScores takes a file of scores in: all of it, or nothing with every bad
// row named; into a closed tasting only with a reason.
func importScores(c *call, g *given) error {
	name, file := g.operands[0], g.operands[1]
	data, err := os.ReadFile(file)
	if err != nil {
		return fileFault(file, err)
	}
	return withWorkbook(name, workbook.Options{}, func(f *workbook.File) error {
		t, err := oneTasting(name, f.Book(), g, serving)
		if err != nil {
			return err
		}
		answers, faults, err := exchange.ReadScores(data, file, f.Book(), t)
		if err != nil {
			return err
		}
		if len(faults) > 0 {
			return badScores(file, faults)
		}
		for i := range answers {
			answers[i].At, answers[i].Why = time.Now().Format(time.RFC3339), g.flags["why"]
		}
		_, err = f.Apply(context.Background(), tasting.Record(t.ID, func() recipes.ID { return recipes.NewID(rand.Reader) }, answers...), recipes.ByImport)
		if err != nil {
			return named(name, err)
		}
		differ := contradicted(f.Book(), f.Book().Tasting(t.ID), answers)
		if g.has("json") {
			return writeJSON(c.out, map[string]any{"tasting": string(t.ID), "ballots": len(answers), "disagreeing": differ})
		}
		fmt.Fprintln(c.out, words.Say("cmd.tasting.did-import", len(answers), name)) //nolint:errcheck // what went in is what counts
		return tellContradicted(c.out, differ)
	})
}

// contradiction is a cup, or a whole tray, of which an imported ballot says otherwise
// than another entry.
type contradiction struct {
	Seat int      `json:"seat"`
	Code int      `json:"code,omitempty"` // 0: the whole tray
	What string   `json:"what"`
	Says []string `json:"says"`
}

// contradicted lists which of the answers contradict another entry.
func contradicted(b *recipes.Book, t *recipes.Tasting, answers []tasting.Answer) []contradiction {
	out := []contradiction{}
	for _, d := range sheets.Differences(b, t) {
		if !slices.ContainsFunc(answers, func(a tasting.Answer) bool { return a.Seat == d.Seat && a.Code == d.Code }) {
			continue
		}
		x := contradiction{Seat: d.Seat, Code: d.Code, What: d.What}
		for _, w := range d.Ways {
			x.Says = append(x.Says, w.Text)
		}
		out = append(out, x)
	}
	return out
}

// tellContradicted says what has to be chosen between before closing.
func tellContradicted(out io.Writer, list []contradiction) error {
	if len(list) == 0 {
		return nil
	}
	lines := []string{words.Say("cmd.tasting.differ", len(list))}
	for _, x := range list {
		lines = append(lines, "  "+words.Say("cmd.tasting.differs", x.What, strings.Join(x.Says, "; ")))
	}
	_, err := fmt.Fprintln(out, strings.Join(lines, "\n"))
	return err
}

// mostFaults is how many bad rows the one line of an error names.
const mostFaults = 5

// badScores names the bad rows of a file of which nothing was taken.
func badScores(file string, faults []error) error {
	said := make([]string, 0, mostFaults+1)
	for _, f := range faults[:min(len(faults), mostFaults)] {
		said = append(said, f.Error())
	}
	if more := len(faults) - mostFaults; more > 0 {
		said = append(said, words.Say("cmd.tasting.bad-more", more))
	}
	return problem.New(file, words.Say("cmd.tasting.bad-rows", len(faults)), strings.Join(said, "; "))
}

// closeTasting ends one; its results open with it.
func closeTasting(c *call, g *given) error {
	name := g.operands[0]
	return withWorkbook(name, workbook.Options{}, func(f *workbook.File) error {
		t, err := oneTasting(name, f.Book(), g, serving)
		if err != nil {
			return err
		}
		if _, err := f.Apply(context.Background(), tasting.Close(t.ID, time.Now().Format(time.RFC3339), g.flags["early"]), recipes.ByCook); err != nil {
			return named(name, err)
		}
		if g.has("json") {
			return writeJSON(c.out, reportTasting(f.Book(), f.Book().Tasting(t.ID)))
		}
		_, err = fmt.Fprintln(c.out, words.Say("cmd.tasting.did-close", t.Date))
		return err
	})
}

// inFolder writes files into the folder of --to. A name may hold one folder more.
func inFolder(c *call, g *given, files map[string]func(io.Writer) error) error {
	if err := toFolder(c, g); err != nil {
		return err
	}
	inside := map[string]map[string]func(io.Writer) error{"": {}}
	for name, write := range files {
		dir, base := path.Split(name)
		if inside[dir] == nil {
			inside[dir] = map[string]func(io.Writer) error{}
		}
		inside[dir][base] = write
	}
	for _, dir := range slices.Sorted(maps.Keys(inside)) {
		if err := intoOne(c.out, g.flags["to"], dir, inside[dir]); err != nil {
			return err
		}
	}
	return nil
}

func intoOne(out io.Writer, to, dir string, files map[string]func(io.Writer) error) error {
	folder, err := openFolder(filepath.Join(to, filepath.FromSlash(dir)))
	if err != nil {
		return err
	}
	for _, name := range sortedNames(files) {
		if err = folder.put(name, files[name]); err != nil {
			break
		}
		fmt.Fprintln(out, words.Say("cmd.tasting.wrote", dir+name)) //nolint:errcheck // the files are what counts
	}
	return folder.end(err)
}

// writeBallots writes what is needed at the table, by codes only.
func writeBallots(c *call, g *given) error {
	name := g.operands[0]
	b, err := readBook(name)
	if err != nil {
		return err
	}
	t, err := oneTasting(name, b, g, func(t *recipes.Tasting) bool { return t.State != recipes.TastingClosed })
	if err != nil {
		return err
	}
	files, err := paperFiles(b, t)
	if err != nil {
		return err
	}
	return inFolder(c, g, files)
}

// writeScores writes closed tastings for analyse: scores and swaps.
func writeScores(c *call, g *given) error {
	name := g.operands[0]
	b, err := readBook(name)
	if err != nil {
		return err
	}
	t, err := oneTasting(name, b, g, func(t *recipes.Tasting) bool { return t.State == recipes.TastingClosed })
	if err != nil {
		return err
	}
	if _, err := tasting.Rows(b, t.ID); err != nil {
		return named(name, err)
	}
	return inFolder(c, g, map[string]func(io.Writer) error{
		"scores.csv": func(w io.Writer) error { return exchange.WriteScores(w, b, t.ID) },
		"swaps.csv":  func(w io.Writer) error { return exchange.WriteSwaps(w, b, t.Recipe, t.ID) },
	})
}
