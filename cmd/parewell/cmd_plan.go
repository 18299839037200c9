package main

import (
	"crypto/rand"
	"fmt"
	"io"
	"math/big"
	"strconv"
	"strings"

	"parewell/analysis/sensory"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

var planFlags = []flagSpec{
	{"samples", true},
	{"panelists", true},
	{"test", true},
	{"seed", true},
	{"per-sitting", true},
	{"original-always", false},
	{"same-reference", false},
	{"limit", true},
	{"scatter", true},
	{"json", false},
}

// runPlan plans a tasting: codes, serving orders, how even they are and what
// the panel can show.
func runPlan(c *call) (int, error) {
	g, err := parse(c.args, planFlags)
	if err != nil {
		return exitBad, err
	}
	if err := noOperands(c, g); err != nil {
		return exitBad, err
	}
	limit, err := g.number("limit", 0, 0, 8)
	if err != nil {
		return exitBad, err
	}
	scatter, err := g.number("scatter", sensory.UsualScatter, 0.1, 10)
	if err != nil {
		return exitBad, err
	}
	ask, err := askOf(g)
	if err != nil {
		return exitBad, err
	}
	d, err := sensory.Plan(ask)
	if err != nil {
		return exitBad, flagged(err)
	}
	if g.has("json") {
		return exitWell, writeJSON(c.out, d.Report(scatter))
	}
	return exitWell, writePlan(c.out, d, limit, scatter)
}

// askOf reads what is to be planned. A seed that is not given is drawn, and
// stands in what is written, so that the plan can be had again.
func askOf(g *given) (a sensory.Ask, err error) {
	a = sensory.Ask{Test: sensory.Liking, OriginalAlways: g.has("original-always"), ConstantReference: g.has("same-reference")}
	if g.has("test") {
		if a.Test, err = sensory.ParseTest(g.flags["test"]); err != nil {
			return a, flagged(err)
		}
	}
	samples := -1
	if a.Test.Counts() {
		samples = 2
	}
	if a.Samples, err = g.whole("samples", samples); err != nil {
		return a, err
	}
	if a.Panelists, err = g.whole("panelists", -1); err != nil {
		return a, err
	}
	if a.PerSitting, err = g.whole("per-sitting", 0); err != nil {
		return a, err
	}
	a.Seed, err = seedOf(g)
	return a, err
}

// mostSeed keeps a drawn seed short enough to write on paper.
const mostSeed = 999_999_999

func seedOf(g *given) (uint64, error) {
	text, ok := g.flags["seed"]
	if !ok {
		n, err := rand.Int(rand.Reader, big.NewInt(mostSeed))
		if err != nil {
			return 0, err
		}
		return n.Uint64() + 1, nil
	}
	seed, err := strconv.ParseUint(strings.TrimSpace(text), 10, 64)
	if err != nil {
		return 0, problem.New("--seed", words.Say("cmd.number.whole", text), words.Say("cmd.seed.hint"))
	}
	return seed, nil
}

// writePlan says the plan: trays, then what it is worth.
func writePlan(out io.Writer, d *sensory.Design, limit, scatter float64) error {
	a := d.Ask
	head := words.Say("cmd.plan.head", string(a.Test), a.Samples, a.Panelists, strconv.FormatUint(a.Seed, 10))
	if _, err := fmt.Fprintf(out, "%s\n%s\n\n", head, words.Say("cmd.plan.kitchen")); err != nil {
		return err
	}
	if err := trayTable(d).write(out); err != nil {
		return err
	}
	_, err := fmt.Fprintln(out)
	for _, p := range d.Explain(limit, scatter) {
		if err == nil {
			_, err = fmt.Fprintln(out, p.String())
		}
	}
	return err
}

// trayTable lists what each taster gets: code and sample, in order.
func trayTable(d *sensory.Design) *table {
	t := &table{right: map[int]bool{0: true}}
	head := []string{words.Say("cmd.plan.taster")}
	if d.Trays[0].Reference >= 0 {
		head = append(head, words.Say("cmd.plan.reference"))
	}
	for i := range d.Trays[0].Samples {
		head = append(head, strconv.Itoa(i+1))
	}
	t.row(head...)
	for _, tray := range d.Trays {
		row := []string{strconv.Itoa(tray.Panelist)}
		if tray.Reference >= 0 {
			row = append(row, sensory.SampleName(tray.Reference))
		}
		for i, s := range tray.Samples {
			row = append(row, strconv.Itoa(tray.Codes[i])+" "+sensory.SampleName(s))
		}
		t.row(row...)
	}
	return t
}
