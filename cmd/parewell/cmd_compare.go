package main

import (
	"encoding/json"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"parewell/analysis/nutrition"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/measure"
	"parewell/recipes/problem"
	"parewell/recipes/reading"
	"parewell/recipes/words"
)

var compareFlags = []flagSpec{{"measures", true}, {"json", false}}

// compared is one recipe file as read and reckoned.
type compared struct {
	draft  *reading.Draft
	titled nutrition.Titled
}

// runCompare reads an original and versions of it, each on its own, and says
// what one serving of each holds and how it differs.
func runCompare(c *call) (int, error) {
	g, err := parse(c.args, compareFlags)
	if err != nil {
		return exitBad, err
	}
	if len(g.operands) < 2 {
		return exitBad, problem.New(c.name, words.Say("cmd.compare.two"), words.Say("cmd.see-help-of", c.name))
	}
	system, err := systemOf(g)
	if err != nil {
		return exitBad, err
	}
	table, err := foodTable(nil)
	if err != nil {
		return exitBad, err
	}
	all, err := compareAll(g.operands, c.in, reading.Options{System: system, Foods: table}, table)
	if err != nil {
		return exitBad, err
	}
	titled := make([]nutrition.Titled, len(all))
	for i := range all {
		titled[i] = all[i].titled
	}
	report := nutrition.NewReport(titled)
	if g.has("json") {
		return exitWell, writeJSON(c.out, report)
	}
	if err := writeComparison(c.out, report); err != nil {
		return exitBad, err
	}
	return exitWell, writeDoubts(c.out, all, table)
}

// systemOf reads --measures; none given means US.
func systemOf(g *given) (measure.System, error) {
	if !g.has("measures") {
		return measure.US, nil
	}
	name := g.flags["measures"]
	if strings.TrimSpace(name) == "" {
		return 0, problem.New("--measures", words.Say("cmd.flag-value"), words.Say("cmd.measures.hint"))
	}
	system, err := measure.ParseSystem(name)
	return system, problem.At("--measures", err)
}

func compareAll(names []string, in io.Reader, opt reading.Options, table *food.Table) ([]compared, error) {
	all := make([]compared, 0, len(names))
	stdin := 0
	for _, name := range names {
		if name == "-" {
			stdin++
		}
		if stdin > 1 {
			return nil, problem.New(placeName(name), words.Say("cmd.stdin-twice"), "")
		}
		one, err := compareOne(name, in, opt, table)
		if err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	return all, nil
}

// compareOne reads a file that holds one recipe and reckons it as it stands.
func compareOne(name string, in io.Reader, opt reading.Options, table *food.Table) (compared, error) {
	drafts, err := readRecipes(name, in, opt)
	if err != nil {
		return compared{}, err
	}
	if len(drafts) != 1 {
		return compared{}, problem.New(name, words.Say("cmd.compare.one-each", len(drafts)), words.Say("cmd.compare.one-each.hint"))
	}
	d := drafts[0]
	account := nutrition.Of(recipes.Compose(standIn(d), nil, nil), table.Get)
	return compared{d, nutrition.Titled{Title: titleOf(d, name), From: d.ServingsFrom, Account: account}}, nil
}

// standIn is the draft as a recipe whose lines are known by what they say: a
// line that is not known ("salt to taste") and stands unchanged in two texts is
// one unknown, and cancels in their difference as it does inside a workbook.
func standIn(d *reading.Draft) *recipes.Recipe {
	r := d.Recipe(func() recipes.ID { return "" })
	seen := map[string]int{}
	for _, l := range r.Lines {
		text := strings.ToLower(l.Text)
		seen[text]++
		l.ID = recipes.ID(text + "/" + strconv.Itoa(seen[text]))
	}
	return r
}

// titleOf is the recipe's own title, else the file's name.
func titleOf(d *reading.Draft, name string) string {
	switch {
	case d.Title != "":
		return d.Title
	case name == "-":
		return placeName(name)
	}
	base := filepath.Base(name)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// writeJSON writes v indented, the letters of other scripts as they are.
func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
