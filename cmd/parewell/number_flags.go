package main

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// whole reads a flag that is a whole number; one that is not given is otherwise,
// and refused where otherwise is below 0.
func (g *given) whole(name string, otherwise int) (int, error) {
	text, ok := g.flags[name]
	if !ok && otherwise < 0 {
		return 0, problem.New("--"+name, words.Say("cmd.number.missing"), "")
	}
	if !ok {
		return otherwise, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0, problem.New("--"+name, words.Say("cmd.number.whole", text), "")
	}
	return n, nil
}

// number reads a flag from low to high; one that is not given is otherwise.
func (g *given) number(name string, otherwise, low, high float64) (float64, error) {
	text, ok := g.flags[name]
	if !ok {
		return otherwise, nil
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || math.IsNaN(v) || v < low || v > high {
		return 0, problem.New("--"+name, words.Say("cmd.number.between", text, low, high), "")
	}
	return v, nil
}

// flagged turns the field that an analysis names into the flag that sets it.
func flagged(err error) error {
	var p *problem.Error
	if !errors.As(err, &p) {
		return err
	}
	q := *p
	q.Where = "--" + q.Where
	return &q
}

// noOperands refuses what stands beside the flags of a command that has flags
// only.
func noOperands(c *call, g *given) error {
	if len(g.operands) == 0 {
		return nil
	}
	return problem.New(g.operands[0], words.Say("cmd.flags-only"), words.Say("cmd.see-help-of", c.name))
}
