package main

import (
	"fmt"

	"parewell/analysis/sensory"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

var discriminateFlags = []flagSpec{{"test", true}, {"n", true}, {"correct", true}, {"pd", true}, {"json", false}}

// runDiscriminate reads the count of a test with right answers, or of a
// preference.
func runDiscriminate(c *call) (int, error) {
	g, err := parse(c.args, discriminateFlags)
	if err != nil {
		return exitBad, err
	}
	if err := noOperands(c, g); err != nil {
		return exitBad, err
	}
	d, err := discriminated(g)
	if err != nil {
		return exitBad, err
	}
	if g.has("json") {
		return exitWell, writeJSON(c.out, d)
	}
	for _, p := range d.Explain() {
		if _, err := fmt.Fprintln(c.out, p.String()); err != nil {
			return exitBad, err
		}
	}
	return exitWell, nil
}

func discriminated(g *given) (*sensory.Discrimination, error) {
	if !g.has("test") {
		return nil, problem.New("--test", words.Say("cmd.discriminate.test"), words.Say("sensory.bad.test.hint"))
	}
	test, err := sensory.ParseTest(g.flags["test"])
	if err != nil {
		return nil, flagged(err)
	}
	n, err := g.whole("n", -1)
	if err != nil {
		return nil, err
	}
	correct, err := g.whole("correct", -1)
	if err != nil {
		return nil, err
	}
	var limit *float64
	if g.has("pd") {
		pd, err := g.number("pd", 0, 0, 1)
		if err != nil {
			return nil, err
		}
		limit = &pd
	}
	d, err := sensory.Discriminate(test, n, correct, limit)
	return d, flagged(err)
}
