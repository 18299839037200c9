package book

import (
	"math"

	"parewell/analysis/outcome"
	"parewell/analysis/ratings"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// scores are the figures of what was scored in the closed tastings of the
// present edition: means, distributions, just about right, and the map of swaps.
func (d *drawer) scores() {
	if d.tasted == nil {
		return
	}
	title := d.recipe.Title
	for _, asked := range d.tasted.pool.Attributes() {
		res := d.tasted.result(asked)
		if res == nil {
			continue
		}
		name := scoreName(asked)
		means := charts.ScoresData{Attribute: name}
		if asked == d.tasted.liked {
			means.Limit = d.tasted.pool.Limit
		}
		spread := charts.SpreadData{Attribute: name}
		for _, s := range res.Samples {
			letter, full, original := d.sample(s.Name)
			means.Rows = append(means.Rows, scoreRow(s, letter, full, original))
			spread.Rows = append(spread.Rows, charts.SpreadRow{Letter: letter, Name: full, Original: original, Counts: counts(s)})
		}
		fig, err := charts.ScoresChart(means)
		d.putRange(words.Say("book.file.scores", name), words.Say("book.figure.scores.caption", title, name, res.Panelists), RowsHigh(len(means.Rows)), fig, err)
		fig, err = charts.SpreadChart(spread)
		d.put(words.Say("book.file.spread", name), words.Say("book.figure.spread.caption", title, name), RowsHigh(len(spread.Rows))+0.15, fig, err)
	}
	d.rights()
	d.swapMap()
}

// sample names a sample for a chart.
func (d *drawer) sample(name string) (letter, full string, original bool) {
	if name == outcome.Original() {
		return "", words.Say("charts.scores.original"), true
	}
	if v := d.book.Version(d.recipe.ID, d.tasted.pool.Names[name]); v != nil && v.Letter == name {
		return v.Letter, v.Name, false
	}
	return "", name, false
}

// scoreRow keeps an interval within the scale: nobody can score below 1 or above
// 9.
func scoreRow(s ratings.Sample, letter, name string, original bool) charts.ScoreRow {
	mean := float64(s.AdjustedMean)
	return charts.ScoreRow{
		Letter: letter, Name: name, Original: original, N: s.N, Mean: mean,
		Low:  math.Min(math.Max(float64(s.Low), 1), math.Max(mean, 1)),
		High: math.Max(math.Min(float64(s.High), 9), math.Min(mean, 9)),
	}
}

func counts(s ratings.Sample) (out [9]int) {
	for _, c := range s.Distribution {
		if k := int(c.Score); k >= 1 && k <= 9 {
			out[k-1] += c.Count
		}
	}
	return out
}

// rights is one figure for each thing that was asked as too little, just right,
// too much: the samples of the latest tasting that asked it.
func (d *drawer) rights() {
	latest := map[string]charts.JustRightData{}
	var order []string
	for _, t := range d.tasted.pool.Tastings {
		all, err := outcome.RightsOf(d.book, t)
		if err != nil {
			continue
		}
		for _, a := range t.Attributes {
			if a.Kind != recipes.AskJustRight {
				continue
			}
			if _, seen := latest[a.Name]; !seen {
				order = append(order, a.Name)
			}
			var data charts.JustRightData
			for _, x := range all {
				row := charts.JustRightRow{Counts: x.Counts[a.Name]}
				row.Letter, row.Name, row.Original = d.sample(x.Name)
				data.Rows = append(data.Rows, row)
			}
			latest[a.Name] = data
		}
	}
	for _, asked := range order {
		fig, err := charts.JustRightChart(latest[asked])
		d.put(words.Say("book.file.right-for", scoreName(asked)), words.Say("book.figure.just-right.caption", d.recipe.Title, scoreName(asked)), RowsHigh(len(latest[asked].Rows)), fig, err)
	}
}

// swapMap sets what each swap takes off against what it does to liking.
func (d *drawer) swapMap() {
	t := d.tasted.table
	if t == nil || len(t.Rows) == 0 {
		return
	}
	data := charts.SwapMapData{Nutrient: words.Say("book.figure." + food.EnergyKcal.Key()), Unit: food.EnergyKcal.Unit(), Attribute: scoreName(d.tasted.score), Limit: t.Limit, Places: t.Digits()}
	data.Swaps = charts.MapSwaps(t)
	for i := range data.Swaps {
		data.Swaps[i].Verdict = d.verdict(data.Swaps[i].Verdict)
	}
	name, caption := words.Say("book.file.map"), words.Say("book.figure.map.caption", d.recipe.Title)
	if !d.liking() {
		name = words.Say("book.file.map-by", scoreName(d.tasted.score))
		caption = words.Say("book.figure.map-by.caption", d.recipe.Title, scoreName(d.tasted.score))
	}
	fig, err := charts.SwapMap(data)
	d.putRange(name, d.energy(caption), 0.62, fig, err)
}
