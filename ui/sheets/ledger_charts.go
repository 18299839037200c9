package sheets

import (
	"errors"
	"math"
	"slices"

	"parewell/analysis/ledger"
	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/problem"
	"parewell/recipes/words"
)

// title names a nutrient for a chart.
func (s shownAs) title() string { return Capital(s.name) }

// limit is where charts draw the line: none for what is not liking.
func (v *LedgerView) limit() float64 {
	if !v.Overall {
		return 0
	}
	return v.Table.Limit
}

// attribute names the score for a chart.
func (v *LedgerView) attribute() string { return v.l.AttributeName(v.Ask.Attribute) }

// MapData is what the keep-or-drop map shows; title may be empty.
func (v *LedgerView) MapData(title string) charts.SwapMapData {
	as := v.as()
	d := charts.SwapMapData{Title: title, Nutrient: as.title(), Unit: as.unit, Attribute: v.attribute(), Limit: v.limit(), Places: v.Table.Digits()}
	d.Swaps = charts.MapSwaps(v.Table)
	for i := range d.Swaps {
		d.Swaps[i].Saving *= as.times
		d.Swaps[i].Verdict = v.chartVerdict(v.Table.Rows[i].Kind)
	}
	return d
}

// chartVerdict is a verdict as charts take it. On what is not liking there is
// none but whether it can be told.
func (v *LedgerView) chartVerdict(k ledger.Kind) charts.Verdict {
	if v.Overall {
		return charts.Verdict(k)
	}
	switch k {
	case ledger.Tied, ledger.AlwaysOn, ledger.NotTasted:
		return charts.Verdict(k)
	}
	return charts.NoLimit
}

// Falls are the versions a waterfall can be drawn of: those with swaps on.
func (l *Ledger) Falls() []*recipes.Version {
	var out []*recipes.Version
	for _, v := range l.versions[1:] {
		if len(l.Book.On(v)) > 0 {
			out = append(out, v)
		}
	}
	return out
}

// FallData is what the waterfall of a version shows: what each swap takes off in
// that version, a change of helping as a step of its own.
func (v *LedgerView) FallData(version recipes.ID, title string) (charts.WaterfallData, error) {
	n, at, as := v.Ask.Nutrient, v.l.place(version), v.as()
	d := charts.WaterfallData{Title: title, Nutrient: as.title(), Unit: as.unit, Limit: v.limit(), Places: v.Table.Digits()}
	if v.l.Tasted() {
		d.Attribute = v.attribute()
	}
	if at < 1 {
		return d, nil
	}
	d.Original = as.times * known(v.l.bench.Accounts[0].PerServing(n))
	d.Version = v.fallEnd(at, as.times*known(v.l.bench.Accounts[at].PerServing(n)))
	on := v.l.Book.On(v.l.versions[at])
	savings, err := v.l.kitchen.SavingsOf(v.l.Recipe, v.l.versions[at], on)
	if err != nil {
		return d, err
	}
	swaps := make([]int, len(on))
	for i, s := range on {
		swaps[i] = slices.Index(v.l.swaps, s)
		d.Steps = append(d.Steps, charts.WaterfallStep{Name: s.Name, Change: as.times * exact(savings.Of(i, n)), Effect: math.NaN(), Low: math.NaN(), High: math.NaN()})
	}
	charts.JudgeSteps(d.Steps, swaps, v.Table)
	for i := range d.Steps {
		d.Steps[i].Verdict = v.chartVerdict(ledger.Kind(d.Steps[i].Verdict))
	}
	if h := savings.Helping(n); h.Amount != 0 {
		d.Steps = append(d.Steps, charts.WaterfallStep{Name: words.Say("keep.helping"), Change: as.times * h.Amount, Effect: math.NaN(), Low: math.NaN(), High: math.NaN()})
	}
	return d, nil
}

// place finds a version beside the evidence's; -1 for none.
func (l *Ledger) place(id recipes.ID) int {
	for i, v := range l.versions {
		if v != nil && v.ID == id {
			return i
		}
	}
	return -1
}

// known is a figure all of which is known, else NaN.
func known(f nutrition.Figure) float64 {
	if f.Nowhere || f.AtLeast {
		return math.NaN()
	}
	return f.Amount
}

func (v *LedgerView) fallEnd(at int, amount float64) charts.WaterfallEnd {
	version := v.l.versions[at]
	end := charts.WaterfallEnd{Letter: version.Letter, Name: version.Name, Amount: amount, Effect: math.NaN(), Low: math.NaN(), High: math.NaN()}
	for _, w := range v.Table.Wholes {
		if w.Version == at {
			end.Effect, end.Low, end.High = w.Effect, w.Low, w.High
			end.Verdict = v.chartVerdict(w.Kind)
		}
	}
	return end
}

// exact is a change that is known, else NaN.
func exact(c nutrition.Change) float64 {
	if c.Bound != nutrition.Exact {
		return math.NaN()
	}
	return c.Amount
}

// FrontData is what the chart of trade-offs shows: every version that was tasted
// and the best of what was not.
func (v *LedgerView) FrontData(t *Trades, title string) charts.FrontierData {
	n, as := v.Ask.Nutrient, v.as()
	d := charts.FrontierData{Title: title, Nutrient: as.title(), Unit: as.unit, Attribute: words.Say("keep.overall"), Limit: t.Best.Limit, Considered: t.Best.Considered}
	same := v.Ask.Limit == t.Ask.Limit
	if !same { // for print: against the recorded limit, and nothing is called the best
		d.Limit = v.l.Limit()
	}
	seen := map[int]bool{}
	add := func(c *ledger.Combo) {
		if !c.Saving.Known || math.IsNaN(c.Effect) {
			return
		}
		o := charts.FrontierOption{Name: words.Join(shortNames(t.swapsOf(c))), Saving: as.times * c.Saving.Amount, Effect: c.Effect, Low: c.Low, High: c.High, Tasted: c.Printable()}
		if c.Version >= 0 && c.Version < len(v.l.versions) && v.l.versions[c.Version] != nil {
			o.Letter, o.Name = v.l.versions[c.Version].Letter, v.l.versions[c.Version].Name
			seen[c.Version] = true
		}
		o.Best = same && t.Best.ForLimit != nil && sameCombo(c, t.Best.ForLimit)
		d.Options = append(d.Options, o)
	}
	for i := range t.Best.Frontier {
		add(&t.Best.Frontier[i])
	}
	e := v.l.evidence[v.l.Overall()]
	for _, w := range v.overallWholes() {
		if s := v.l.saved(w.Version, n); !seen[w.Version] && s.Known && !math.IsNaN(w.Effect) {
			d.Options = append(d.Options, charts.FrontierOption{
				Letter: e.Versions[w.Version].Name, Name: v.l.versions[w.Version].Name, Saving: as.times * s.Amount, Effect: w.Effect, Low: w.Low, High: w.High, Tasted: true,
			})
		}
	}
	return d
}

// overallWholes are the whole versions judged by overall liking.
func (v *LedgerView) overallWholes() []ledger.Whole {
	if v.Overall {
		return v.Table.Wholes
	}
	over, err := v.l.View(LedgerAsk{Nutrient: v.Ask.Nutrient})
	if err != nil {
		return nil
	}
	return over.Table.Wholes
}

func sameCombo(a, b *ledger.Combo) bool {
	if len(a.Swaps) != len(b.Swaps) {
		return false
	}
	for i := range a.Swaps {
		if a.Swaps[i] != b.Swaps[i] {
			return false
		}
	}
	return true
}

// AnyTasted tells whether the chart of trade-offs has anything for paper.
func (v *LedgerView) AnyTasted(t *Trades) bool {
	return t != nil && t.Best != nil && slices.ContainsFunc(v.FrontData(t, "").Options, func(o charts.FrontierOption) bool { return o.Tasted })
}

// Sentence says a problem with its hint in one line, for where a chart would be.
func Sentence(err error) string {
	var p *problem.Error
	if !errors.As(err, &p) {
		return err.Error()
	}
	if p.Hint == "" {
		return Capital(p.What) + "."
	}
	return Capital(p.What) + ": " + p.Hint + "."
}
