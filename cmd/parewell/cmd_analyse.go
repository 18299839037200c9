package main

import (
	"fmt"
	"io"
	"strconv"

	"parewell/analysis/ratings"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

var analyseFlags = []flagSpec{{"swaps", true}, {"original", true}, {"attribute", true}, {"limit", true}, {"json", false}}

// usualLimit is the acceptable drop where none is given, in points.
const usualLimit = 0.5

// runAnalyse says what scores tell of samples and of swaps.
func runAnalyse(c *call) (int, error) {
	g, err := parse(c.args, analyseFlags)
	if err != nil {
		return exitBad, err
	}
	if len(g.operands) != 1 {
		key := "cmd.analyse.scores"
		if len(g.operands) > 1 {
			key = "cmd.analyse.one"
		}
		return exitBad, problem.New(c.name, words.Say(key), words.Say("cmd.see-help-of", c.name))
	}
	limit, err := g.number("limit", usualLimit, 0, 100)
	if err != nil {
		return exitBad, err
	}
	t, err := scoresOf(c, g)
	if err != nil {
		return exitBad, err
	}
	r, err := ratings.Analyse(t, ratings.Options{Original: g.flags["original"], Attribute: g.flags["attribute"], Limit: limit})
	if err != nil {
		return exitBad, err
	}
	if g.has("json") {
		return exitWell, writeJSON(c.out, r)
	}
	return exitWell, writeRatings(c.out, r)
}

// scoresOf reads the scores and, if given, the swaps.
func scoresOf(c *call, g *given) (*ratings.Table, error) {
	name := g.operands[0]
	data, err := readSource(name, c.in)
	if err != nil {
		return nil, err
	}
	t, err := ratings.ReadScores(data, placeName(name))
	if err != nil {
		return nil, err
	}
	if file := g.flags["swaps"]; g.has("swaps") {
		data, err := readSource(file, c.in)
		if err != nil {
			return nil, err
		}
		if t.Swaps, err = ratings.ReadSwaps(data, placeName(file)); err != nil {
			return nil, err
		}
	}
	return t, nil
}

func writeRatings(out io.Writer, r *ratings.Report) error {
	for i, res := range r.Results {
		if i > 0 {
			if _, err := fmt.Fprintln(out); err != nil {
				return err
			}
		}
		if err := writeResult(out, res); err != nil {
			return err
		}
	}
	if len(r.Results) > 1 {
		_, err := fmt.Fprintf(out, "\n%s\n", words.Say("ratings.note.attributes", len(r.Results)))
		return err
	}
	return nil
}

// writeResult says one attribute: a sentence, means, differences, swaps, notes.
func writeResult(out io.Writer, r *ratings.Result) error {
	a := r.Anova
	if _, err := fmt.Fprintf(out, "%s\n%s\n\n%s\n", r.Head(), words.Say("cmd.analyse.served", r.Panelists, r.Servings), words.Say("cmd.analyse.means")); err != nil {
		return err
	}
	if err := meansTable(r).write(out); err != nil {
		return err
	}
	if len(r.AgainstOriginal) > 0 {
		if err := writePhrases(out, words.Say("cmd.analyse.against", r.Original), r.Against()); err != nil {
			return err
		}
	}
	if err := writePhrases(out, words.Say("cmd.analyse.swaps"), r.SwapLines()); err != nil {
		return err
	}
	if a.Sample.P.Known() {
		details := "cmd.analyse.details"
		if r.SwapPart != nil {
			details = "cmd.analyse.details-swaps"
		}
		if _, err := fmt.Fprintf(out, "\n%s\n%s\n", words.Say("cmd.analyse.test", ratings.Chance(a.Sample.P), ratings.Chance(r.Friedman.P)), words.Say(details, r.Original)); err != nil {
			return err
		}
	}
	return writePhrases(out, "", r.Explain())
}

// writePhrases writes lines under a heading; nothing when there are none.
func writePhrases(out io.Writer, head string, lines []words.Phrase) error {
	if len(lines) == 0 {
		return nil
	}
	if _, err := fmt.Fprintln(out); err != nil {
		return err
	}
	indent := ""
	if head != "" {
		indent = "  "
		if _, err := fmt.Fprintln(out, head); err != nil {
			return err
		}
	}
	for _, p := range lines {
		if _, err := fmt.Fprintln(out, indent+p.String()); err != nil {
			return err
		}
	}
	return nil
}

func meansTable(r *ratings.Result) *table {
	t := &table{right: map[int]bool{1: true, 2: true}}
	t.row(words.Say("cmd.analyse.sample"), words.Say("cmd.analyse.n"), words.Say("cmd.analyse.mean"), words.Say("cmd.analyse.range"))
	for _, s := range r.Samples {
		span := words.Unknown
		if s.Low.Known() {
			span = words.Say("ratings.range", words.Number(float64(s.Low), 2), words.Number(float64(s.High), 2))
		}
		t.row(s.Name, strconv.Itoa(s.N), words.Number(float64(s.AdjustedMean), 2), span)
	}
	return t
}
