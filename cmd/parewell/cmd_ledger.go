package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"os/signal"
	"strings"

	"parewell/analysis/ledger"
	"parewell/analysis/outcome"
	"parewell/analysis/ratings"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/words"
	"parewell/ui/sheets"
)

var ledgerFlags = []flagSpec{{"recipe", true}, {"attribute", true}, {"nutrient", true}, {"limit", true}, {"json", false}}

// runLedger sets what each swap takes off against what it does to liking.
func runLedger(c *call) (int, error) {
	g, err := parse(c.args, ledgerFlags)
	if err == nil {
		err = oneFile(c, g)
	}
	if err != nil {
		return exitBad, err
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	l, err := readLedger(ctx, g)
	if err != nil {
		return exitBad, err
	}
	if g.has("json") {
		return exitWell, writeJSON(c.out, l.report())
	}
	return exitWell, l.write(c)
}

// ledgerOf is the ledger of one recipe.
type ledgerOf struct {
	book     *recipes.Book
	recipe   *recipes.Recipe
	pool     *outcome.Pool
	result   *ratings.Result
	evidence *ledger.Evidence
	table    *ledger.Table
	best     *ledger.Tradeoffs
	next     *ledger.Plan
	nutrient food.Nutrient
}

func readLedger(ctx context.Context, g *given) (*ledgerOf, error) {
	name := g.operands[0]
	b, err := readBook(name)
	if err != nil {
		return nil, err
	}
	l := &ledgerOf{book: b, nutrient: food.EnergyKcal}
	if key, ok := g.flags["nutrient"]; ok {
		if l.nutrient, ok = food.ByKey(strings.TrimSpace(key)); !ok {
			return nil, problem.New("--nutrient", words.Say("cmd.ledger.nutrient", key), words.Say("cmd.ledger.nutrient.hint"))
		}
	}
	if l.recipe, err = ledgerRecipe(name, b, g); err != nil {
		return nil, err
	}
	if l.pool, err = outcome.PoolOf(b, l.recipe.ID); err != nil {
		return nil, named(name, err)
	}
	attribute := g.flags["attribute"]
	if attribute == "" {
		attribute = l.pool.Attributes()[0]
	}
	report, err := ratings.Analyse(l.pool.Table, ratings.Options{Original: l.pool.Original(), Attribute: attribute, Limit: l.pool.Limit})
	if err != nil {
		return nil, flagged(err)
	}
	l.result = report.Results[0]
	if l.evidence, err = outcome.EvidenceOf(b, l.recipe, l.pool, l.result); err != nil {
		return nil, err
	}
	return l, l.judge(ctx, g)
}

// judge makes the table, against another limit when one is tried, and looks for
// trade-offs and what to do next against the recorded one.
func (l *ledgerOf) judge(ctx context.Context, g *given) error {
	limit, err := g.number("limit", 0, 0, 8)
	if err != nil {
		return err
	}
	l.table, err = ledger.Judge(l.evidence, l.nutrient.Key())
	if err == nil && limit > 0 {
		l.table, err = ledger.WhatIf(l.evidence, l.nutrient.Key(), limit)
	}
	if err == nil {
		l.best, err = ledger.Best(ctx, l.evidence, ledger.Goal{Nutrient: l.nutrient.Key()})
	}
	if err == nil {
		ask := ledger.Ask{Nutrient: l.nutrient.Key(), Seed: 1, Cups: sheets.MostPerSitting(l.book, l.recipe), Repeat: true} // as the window asks
		if name := l.result.Attribute; !l.pool.Overall(name) {
			a, _ := l.pool.Tastings[0].Attribute(name)
			ask.Score, ask.NoPromise = name, a.Kind != recipes.AskLiking
		}
		l.next, err = ledger.Next(ctx, l.evidence, ask)
	}
	return err
}

// ledgerRecipe is the recipe that --recipe names, or the only one with a closed
// tasting of scores.
func ledgerRecipe(name string, b *recipes.Book, g *given) (*recipes.Recipe, error) {
	if g.has("recipe") {
		chosen, err := chosenRecipes(name, b, g)
		if err != nil {
			return nil, err
		}
		return chosen[0], nil
	}
	var found []*recipes.Recipe
	var titles []string
	for _, r := range b.Recipes() {
		if _, err := outcome.PoolOf(b, r.ID); err == nil {
			found = append(found, r)
			titles = append(titles, r.Title)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, problem.New(name, words.Say("outcome.none-at-all"), words.Say("outcome.none.hint"))
	}
	return nil, problem.New(name, words.Say("cmd.ledger.which"), words.Say("cmd.export.have", words.Join(titles)))
}

// ledgerReport is the JSON of ledger. What is not known is null. Changes in liking
// are points against the original, at 90 %; savings are positive when lighter.
type ledgerReport struct {
	Recipe        string        `json:"recipe"`
	Edition       int           `json:"edition"`
	Attribute     string        `json:"attribute"`
	Nutrient      string        `json:"nutrient"`
	Limit         float64       `json:"limit"`
	RecordedLimit float64       `json:"recorded_limit"`
	Tastings      []string      `json:"tastings"`
	Panelists     int           `json:"panelists"`
	Notes         []string      `json:"notes"`
	Swaps         []swapReport  `json:"swaps"`
	Wholes        []wholeReport `json:"wholes"`
	Tradeoffs     []comboReport `json:"tradeoffs"`
	ForLimit      *comboReport  `json:"for_limit"`
	Next          []string      `json:"next"`
}

type likingReport struct {
	Effect *float64 `json:"effect"`
	SE     *float64 `json:"se"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
}

type swapReport struct {
	Swap    string   `json:"swap"`
	Verdict string   `json:"verdict"`
	Saving  *float64 `json:"saving"`
	likingReport
	TiedTo     []string `json:"tied_to"`
	Pots       int      `json:"pots"`
	LostPer100 *float64 `json:"lost_per_100_kcal"`
	Says       []string `json:"says"`
}

type wholeReport struct {
	Version string `json:"version"`
	Verdict string `json:"verdict"`
	likingReport
	Pots int      `json:"pots"`
	Says []string `json:"says"`
}

type comboReport struct {
	Swaps    []string `json:"swaps"`
	Standing string   `json:"standing"`
	Saving   *float64 `json:"saving"`
	likingReport
	Says string `json:"says"`
}

func orNull(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

func liking(i ledger.Interval) likingReport {
	return likingReport{orNull(i.Effect), orNull(i.SE), orNull(i.Low), orNull(i.High)}
}

func saving(s ledger.Saving) *float64 {
	if !s.Known {
		return nil
	}
	return &s.Amount
}

// sentences says phrases that have something to say.
func sentences(list ...words.Phrase) []string {
	out := []string{}
	for _, p := range list {
		if p.Key != "" {
			out = append(out, words.Capital(p.String()))
		}
	}
	return out
}

func (l *ledgerOf) report() *ledgerReport {
	r := &ledgerReport{
		Recipe: l.recipe.Title, Edition: l.pool.Edition, Attribute: l.result.Attribute, Nutrient: l.nutrient.Key(),
		Limit: l.table.Limit, RecordedLimit: l.table.Recorded, Tastings: []string{}, Panelists: l.pool.Panelists(),
		Notes: append(sentences(l.table.Heads()...), l.pool.Notes()...), Swaps: []swapReport{}, Wholes: []wholeReport{}, Tradeoffs: []comboReport{},
		Next: sentences(l.next.Says()...),
	}
	for _, t := range l.pool.Tastings {
		r.Tastings = append(r.Tastings, t.Date)
	}
	for i := range l.table.Rows {
		v := &l.table.Rows[i]
		x := swapReport{v.Name, string(v.Kind), saving(v.Saving), liking(v.Interval), v.Ties, v.Pots, orNull(v.LostPer100), sentences(append(v.Sentences(), v.Saving.Note(words.Say("nutrient."+l.nutrient.Key())))...)}
		if x.TiedTo == nil {
			x.TiedTo = []string{}
		}
		r.Swaps = append(r.Swaps, x)
	}
	for i := range l.table.Wholes {
		w := &l.table.Wholes[i]
		r.Wholes = append(r.Wholes, wholeReport{w.Name, string(w.Kind), liking(w.Interval), w.Pots, sentences(w.Line(), w.Warning(), w.PotsNote(), w.MoreNote())})
	}
	for i := range l.best.Ranked {
		r.Tradeoffs = append(r.Tradeoffs, combo(&l.best.Ranked[i]))
	}
	if l.best.ForLimit != nil {
		x := combo(l.best.ForLimit)
		r.ForLimit = &x
	}
	if l.next.Tasting != nil {
		r.Next = append(r.Next, sentences(l.next.Tasting.Says()...)...)
	}
	return r
}

func combo(c *ledger.Combo) comboReport {
	names := c.Names
	if names == nil {
		names = []string{}
	}
	return comboReport{names, string(c.Standing), saving(c.Saving), liking(c.Interval), strings.Join(sentences(c.Note()), " ")}
}

// write says the ledger: what to know first, the swaps, the whole versions, what
// to do next.
func (l *ledgerOf) write(c *call) error {
	say := func(lines ...string) error {
		for _, s := range lines {
			if _, err := fmt.Fprintln(c.out, s); err != nil {
				return err
			}
		}
		return nil
	}
	r := l.report()
	head := words.Say("cmd.ledger.head", r.Recipe, r.Attribute, words.Trim(r.Limit, 2), len(r.Tastings))
	if r.Limit == 0 {
		head = words.Say("cmd.ledger.no-limit", r.Recipe, r.Attribute)
	}
	if err := say(head); err != nil {
		return err
	}
	if err := say(append(r.Notes, "")...); err != nil {
		return err
	}
	t := &table{right: map[int]bool{1: true}}
	t.row(words.Say("cmd.ledger.swap"), words.Say("nutrient."+l.nutrient.Key())+" "+l.nutrient.Unit(), words.Say("cmd.ledger.liking"), words.Say("cmd.ledger.verdict"))
	for i := range l.table.Rows {
		v := &l.table.Rows[i]
		t.row(v.Name, changeText(v.Saving, l.nutrient), intervalText(v.Interval), v.Label().String())
	}
	if err := t.write(c.out); err != nil {
		return err
	}
	lines := []string{""}
	for i := range l.table.Rows {
		v := &l.table.Rows[i]
		if p := v.Saving.Note(words.Say("nutrient." + l.nutrient.Key())); p.Key != "" {
			lines = append(lines, words.Say("cmd.ledger.about", v.Name, p.String()))
		}
	}
	if len(lines) > 1 {
		lines = append(lines, "")
	}
	for _, w := range r.Wholes {
		lines = append(lines, w.Says...)
	}
	return say(append(append(lines, ""), r.Next...)...)
}

// changeText is what a swap takes off, as a change: lighter is negative.
func changeText(s ledger.Saving, n food.Nutrient) string {
	switch {
	case !s.Known && s.Bound != "":
		return words.Say("change."+string(s.Bound), words.Signed(0-s.Amount, words.Decimals(n.Unit())))
	case !s.Known:
		return words.Unknown
	}
	return words.Signed(0-s.Amount, words.Decimals(n.Unit()))
}

func intervalText(i ledger.Interval) string {
	if math.IsNaN(i.Effect) || math.IsNaN(i.Low) {
		return words.Unknown
	}
	return words.Say("cmd.ledger.interval", words.Signed(i.Effect, 1), words.Signed(i.Low, 1), words.Signed(i.High, 1))
}
