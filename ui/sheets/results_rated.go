package sheets

import (
	"math"
	"slices"

	"parewell/analysis/ratings"
	"parewell/charts"
	"parewell/recipes/words"
)

// ScoresData is what the chart of scores shows of one of Asked.
func (r *Results) ScoresData(asked, title string) charts.ScoresData {
	d := charts.ScoresData{Title: title, Attribute: r.AskedName(asked)}
	if r.overall(asked) {
		d.Limit = r.Tasting.Limit
	}
	res := r.result(asked)
	if res == nil {
		return d
	}
	for _, s := range ordered(r, res.Samples, sampleName) {
		letter, name, original := r.sampleOf(s.Name)
		d.Rows = append(d.Rows, charts.ScoreRow{
			Letter: letter, Name: name, Original: original, N: s.N,
			Mean: number(s.AdjustedMean), Low: atLeastLow(s), High: atMostHigh(s),
		})
	}
	return d
}

// ordered puts results of samples in the plan's order.
func ordered[T any](r *Results, all []T, name func(T) string) []T {
	out := slices.Clone(all)
	slices.SortStableFunc(out, func(a, b T) int {
		return slices.Index(r.sitting.Names, name(a)) - slices.Index(r.sitting.Names, name(b))
	})
	return out
}

func sampleName(s ratings.Sample) string   { return s.Name }
func againstName(a ratings.Against) string { return a.Sample }

// atLeastLow and atMostHigh keep an interval within the scale: nobody can score
// below 1 or above 9.
func atLeastLow(s ratings.Sample) float64 {
	return math.Min(math.Max(number(s.Low), 1), math.Max(number(s.AdjustedMean), 1))
}

func atMostHigh(s ratings.Sample) float64 {
	return math.Max(math.Min(number(s.High), 9), math.Min(number(s.AdjustedMean), 9))
}

// SpreadData is how many gave which score.
func (r *Results) SpreadData(asked, title string) charts.SpreadData {
	d := charts.SpreadData{Title: title, Attribute: r.AskedName(asked)}
	if res := r.result(asked); res != nil {
		for _, s := range ordered(r, res.Samples, sampleName) {
			row := charts.SpreadRow{}
			row.Letter, row.Name, row.Original = r.sampleOf(s.Name)
			for _, c := range s.Distribution {
				if k := int(c.Score); k >= 1 && k <= 9 {
					row.Counts[k-1] += c.Count
				}
			}
			d.Rows = append(d.Rows, row)
		}
	}
	return d
}

// RightsData is who found a thing too little, just right or too much.
func (r *Results) RightsData(asked, title string) charts.JustRightData {
	d := charts.JustRightData{Title: title}
	for _, x := range r.sitting.Rights {
		row := charts.JustRightRow{Counts: x.Counts[asked]}
		row.Letter, row.Name, row.Original = r.sampleOf(x.Name)
		d.Rows = append(d.Rows, row)
	}
	return d
}

// NamedSheet is a table of numbers: its plain name, and the trade's name for how
// it was reckoned.
type NamedSheet struct {
	Title, Caption string
	Sheet          Sheet
}

// Numbers are the figures behind one of Asked.
func (r *Results) Numbers(asked string) []NamedSheet {
	if r.Kind() == ResultsRanked {
		return []NamedSheet{r.rankSheet()}
	}
	if r.Kind() == ResultsTrays {
		return r.traysSheet()
	}
	res := r.result(asked)
	if res == nil {
		return nil
	}
	out := []NamedSheet{
		{words.Say("results.means"), words.Say("results.means.how"), r.means(res)},
	}
	if len(res.AgainstOriginal) > 0 {
		out = append(out, NamedSheet{words.Say("results.against"), words.Say("results.against.how"), r.against(res)})
	}
	if len(res.Pairs) > 0 {
		out = append(out, NamedSheet{words.Say("results.pairs"), words.Say("results.pairs.how"), pairs(res)})
	}
	return append(out, NamedSheet{words.Say("results.tests"), words.Say("results.tests.how"), tests(res)})
}

func scoreCell(v float64, decimals int) Cell {
	c := Cell{Text: words.Number(v, decimals), Number: true, Bar: noBar()}
	if math.IsNaN(v) {
		c.Text, c.Muted = words.Say("library.none"), true
	}
	return c
}

func signedCell(v float64) Cell {
	c := Cell{Text: words.Signed(v, 2), Number: true, Bar: noBar()}
	if math.IsNaN(v) {
		c.Text, c.Muted = words.Say("library.none"), true
	}
	return c
}

func rangeCell(low, high float64, say func(float64) string) Cell {
	if math.IsNaN(low) || math.IsNaN(high) {
		return Cell{Text: words.Say("library.none"), Muted: true, Number: true, Bar: noBar()}
	}
	return Cell{Text: words.Say("results.range", say(low), say(high)), Number: true, Bar: noBar()}
}

func two(v float64) string    { return words.Number(v, 2) }
func twoWay(v float64) string { return words.Signed(v, 2) }

func column(key string) Column {
	return Column{Key: key, Title: words.Say("results.column." + key), Number: true, Index: -1}
}

func pCell(p float64) Cell { return Cell{Text: pText(p), Number: true, Bar: noBar()} }

func (r *Results) means(res *ratings.Result) Sheet {
	s := Sheet{Corner: words.Say("results.sample"), Columns: []Column{column("n"), column("mean"), column("adjusted"), column("range")}}
	for _, x := range ordered(r, res.Samples, sampleName) {
		s.Rows = append(s.Rows, Row{Key: x.Name, Label: text(Capital(x.Name)), Cells: []Cell{
			scoreCell(float64(x.N), 0), scoreCell(number(x.Mean), 2), scoreCell(number(x.AdjustedMean), 2), rangeCell(number(x.Low), number(x.High), two),
		}})
	}
	return s
}

func (r *Results) against(res *ratings.Result) Sheet {
	s := Sheet{Corner: words.Say("results.sample"), Columns: []Column{column("difference"), column("range"), column("p")}}
	alike := false
	for _, x := range res.AgainstOriginal {
		alike = alike || x.Equivalent != nil
	}
	if alike {
		s.Columns = append(s.Columns, column("alike"))
	}
	for _, x := range ordered(r, res.AgainstOriginal, againstName) {
		row := Row{Key: x.Sample, Label: text(Capital(x.Sample)), Cells: []Cell{
			signedCell(number(x.Difference)), rangeCell(number(x.Low), number(x.High), twoWay), pCell(number(x.P)),
		}}
		if alike {
			p := math.NaN()
			if x.Equivalent != nil {
				p = number(x.Equivalent.P)
			}
			row.Cells = append(row.Cells, pCell(p))
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

func pairs(res *ratings.Result) Sheet {
	s := Sheet{Corner: words.Say("results.pair"), Columns: []Column{column("difference"), column("range"), column("p")}}
	for _, x := range res.Pairs {
		s.Rows = append(s.Rows, Row{Key: x.A + "/" + x.B, Label: text(words.Say("results.pair.of", Capital(x.A), x.B)), Cells: []Cell{
			signedCell(number(x.Difference)), rangeCell(number(x.Low), number(x.High), twoWay), pCell(number(x.P)),
		}})
	}
	return s
}

// tests are the tests of everything at once, in plain words with the trade's
// name beside.
func tests(res *ratings.Result) Sheet {
	s := Sheet{Corner: words.Say("results.question"), Columns: []Column{{Key: "how", Title: words.Say("results.column.how"), Index: -1}, column("p")}}
	add := func(key, how string, p float64) {
		s.Rows = append(s.Rows, Row{Key: key, Label: Cell{Text: words.Say("results.test." + key), Wrap: true, Bar: noBar()}, Cells: []Cell{{Text: how, Muted: true, Wrap: true, Bar: noBar()}, pCell(p)}})
	}
	f := res.Anova
	add("any", words.Say("results.how.f", two(number(f.Sample.F)), f.Sample.DF, f.Residual.DF), number(f.Sample.P))
	if x := res.Friedman; x.Chi2.Known() {
		add("ranks", words.Say("results.how.ranks", two(number(x.Chi2)), words.Trim(number(x.DF), 0), two(number(x.W))), number(x.P))
	}
	if m := res.Mixed; m != nil && m.Test.F.Known() {
		add("mixed", words.Say("results.how.mixed", two(number(m.Test.F)), m.Test.DF1, words.Trim(number(m.Test.DF2), 1)), number(m.Test.P))
	}
	if o := res.Order; o != nil {
		add("place", words.Say("results.how.place"), number(o.Position.P))
		add("first", words.Say("results.how.first", words.Signed(number(o.FirstVsLater.Effect), 2)), number(o.FirstVsLater.P))
		if o.Carryover != nil {
			add("before", words.Say("results.how.before"), number(o.Carryover.P))
		}
	}
	return s
}
