package main

import (
	"fmt"
	"strings"
)

// figure is one number of a benchmark, brought to the unit it is shown in.
type figure struct {
	name, unit string // as the benchmark reports it
	per        float64
	shown      string
}

func ms(name string) figure  { return figure{name, "ns/op", 1e6, "ms"} }
func own(n, u string) figure { return figure{n, u, 1, u[strings.LastIndexByte(u, '-')+1:]} }

// budget is a line of the table. Ours may be most, in the shown unit, when that is
// set; and must keep to the floor as keeps says, when there is one.
type budget struct {
	what, rule string
	ours       figure
	most       float64
	floor      figure
	floorName  string
	keeps      func(ours, floor float64) bool
	needs      string // what a line that was skipped wants
}

func within(times float64) func(o, f float64) bool {
	return func(o, f float64) bool { return o <= times*f }
}

func faster(times float64) func(o, f float64) bool {
	return func(o, f float64) bool { return times*o <= f }
}

const (
	screen    = "Xvfb"
	foodTable = "the published food tables beside the repository"
)

// budgets are those of the design, section 13.
var budgets = []budget{
	{
		what: "first painted frame, demo open", rule: "1.5 x or +250 ms of a bare window", needs: screen,
		ours: own("RealWindowStart", "parewell-ms"), floor: own("RealWindowStart", "bare-ms"), floorName: "bare window",
		keeps: func(o, f float64) bool { return o <= 1.5*f || o <= f+250 },
	},
	{
		what: "resident memory, demo open", rule: "1.5 x a bare window", needs: screen,
		ours: own("RealWindowStart", "parewell-MB"), floor: own("RealWindowStart", "bare-MB"), floorName: "bare window", keeps: within(1.5),
	},
	{what: "food search, 8,790 foods, p99 a keystroke", rule: "1 ms", ours: figure{"Search8790", "p99-ns/key", 1e6, "ms"}, most: 1, needs: foodTable},
	{what: "the same beside the starter foods, p99", rule: "1 ms", ours: figure{"SearchBeside", "p99-ns/key", 1e6, "ms"}, most: 1, needs: foodTable},
	{
		what: "200 typed queries", rule: "10 x faster than FTS5", ours: ms("Search8790NoSlips"),
		floor: ms("FTS8790"), floorName: "SQLite FTS5, ranked", keeps: faster(10), needs: foodTable,
	},
	{what: "every version of a recipe after an edit", rule: "1 ms", ours: ms("EveryVersionOfOneRecipe"), most: 1},
	{what: "1,000 recipes x 6 versions x 12 lines", rule: "100 ms", ours: ms("WholeBook"), most: 100},
	{what: "swap effects and lack of fit, 200 x 12 x 6", rule: "50 ms", ours: ms("SwapEffects/*"), most: 50},
	{
		what: "the same, complete", rule: "20 x faster than R", needs: "R",
		ours: own("BesideR/missing=0", "parewell-ms"), floor: own("BesideR/missing=0", "lm-ms"), floorName: "R lm", keeps: faster(20),
	},
	{
		what: "the same, a tenth missing", rule: "20 x faster than R", needs: "R",
		ours: own("BesideR/missing=0.1", "parewell-ms"), floor: own("BesideR/missing=0.1", "lm-ms"), floorName: "R lm", keeps: faster(20),
	},
	{
		what: "beside R's mixed model, complete", rule: "none: lmer fits effects alone", needs: "R with lme4",
		ours: own("BesideR/missing=0", "parewell-ms"), floor: own("BesideR/missing=0", "lmer-ms"), floorName: "R lmer", keeps: within(1),
	},
	{what: "trade-offs over 20 swaps", rule: "200 ms", ours: ms("Best20*"), most: 200},
	{what: "next-version search", rule: "1 s", ours: ms("Next20*"), most: 1000},
	{what: "open 1,000 recipes, 10,000 versions, 100,000 scores", rule: "300 ms", ours: ms("OpenLarge"), most: 300},
	{what: "an edit of that workbook up to its commit", rule: "50 ms", ours: figure{"Apply", "µs-before-commit/op", 1e3, "ms"}, most: 50},
	{what: "slowest page switch, painting left out", rule: "50 ms", ours: own("Switch", "slowest-ms"), most: 50},
	{what: "versions page after an edit", rule: "50 ms", ours: ms("ShowAfterEdit"), most: 50},
	{what: "a tick, its commit included", rule: "50 ms", ours: ms("SwapsToggle"), most: 50},
	{what: "a keystroke in the food search", rule: "50 ms", ours: ms("FoodsKeystroke"), most: 50, needs: foodTable},
	{
		what: "import of USDA SR28, 8,790 foods", rule: "2 x the sqlite3 shell", needs: "sqlite3 and " + foodTable,
		ours: own("Import", "parewell-ms"), floor: own("Import", "sqlite3-ms"), floorName: "sqlite3 .import", keeps: within(2),
	},
	{what: "slowest chart of numbers to the screen", rule: "30 ms", ours: ms("Screen/*"), most: 30},
	{what: "slowest chart of scores to the screen", rule: "30 ms", ours: ms("ScoreScreen/*"), most: 30},
	{
		what: "PNG at 300 dpi", rule: "1.5 x gonum/plot alone",
		ours: ms("PNG300/figure"), floor: ms("PNG300/floor"), floorName: "gonum/plot", keeps: within(1.5),
	},
}

func table(m figures) string {
	var b strings.Builder
	b.WriteString("| what | budget | measured | floor in the same run | verdict |\n| --- | --- | ---: | ---: | --- |\n")
	for _, x := range budgets {
		b.WriteString(x.line(m))
	}
	return b.String()
}

func (x budget) line(m figures) string {
	ours, ok := m.value(x.ours)
	floor, haveFloor := 0.0, true
	if x.keeps != nil {
		floor, haveFloor = m.value(x.floor)
	}
	if !ok || !haveFloor {
		needs := x.needs
		if needs == "" {
			needs = "its benchmark"
		}
		return fmt.Sprintf("| %s | %s | | | skipped: wants %s |\n", x.what, x.rule, needs)
	}
	beside, verdict := "", "met"
	if x.keeps != nil {
		ratio := fmt.Sprintf("%.2f x", ours/floor)
		if ours < floor {
			ratio = fmt.Sprintf("%.1f x faster", floor/ours)
		}
		beside = fmt.Sprintf("%s: %s (%s)", x.floorName, shown(floor, x.floor.shown), ratio)
	}
	if x.most > 0 && ours > x.most || x.keeps != nil && !x.keeps(ours, floor) {
		verdict = "**missed**"
	}
	return fmt.Sprintf("| %s | %s | %s | %s | %s |\n", x.what, x.rule, shown(ours, x.ours.shown), beside, verdict)
}

func (m figures) value(f figure) (float64, bool) {
	v, ok := m.of(f.name, f.unit)
	return v / f.per, ok
}

// shown writes three digits that count.
func shown(v float64, unit string) string {
	switch {
	case v >= 100:
		return fmt.Sprintf("%.0f %s", v, unit)
	case v >= 10:
		return fmt.Sprintf("%.1f %s", v, unit)
	case v >= 1:
		return fmt.Sprintf("%.2f %s", v, unit)
	}
	return fmt.Sprintf("%.3f %s", v, unit)
}
