package main

import (
	"fmt"
	"io"
	"math"

	"parewell/analysis/nutrition"
	"parewell/analysis/sheet"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/exchange"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Size of exported charts: a text column of a book page at a printer's
// resolution.
const (
	chartWidthMM  = 160
	chartHeightMM = 80
	chartDPI      = 300
)

// chartNutrients are the panels of the change chart.
var chartNutrients = []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium}

// exportRecipe writes one recipe's files under a name and says which.
func exportRecipe(out io.Writer, to *folder, b *recipes.Book, r *recipes.Recipe, name string) error {
	s := sheet.Of(b, r)
	files := []exported{{name + ".csv", func(w io.Writer) error { return exchange.WriteCSV(w, s) }}}
	if len(s.Columns) > 1 {
		fig, err := charts.ChangeChart(changeData(s))
		if err != nil {
			return err
		}
		files = append(files, chartFiles(name+" - change", fig)...)
	}
	for _, f := range files {
		if err := to.put(f.name, f.write); err != nil {
			return err
		}
		if _, err := fmt.Fprintln(out, words.Say("cmd.export.wrote", f.name)); err != nil {
			return err
		}
	}
	if len(s.Columns) == 1 {
		_, err := fmt.Fprintln(out, words.Say("cmd.export.no-versions", r.Title))
		return err
	}
	return nil
}

// exported is a file to write: its name and what fills it.
type exported struct {
	name  string
	write func(io.Writer) error
}

func chartFiles(name string, fig *charts.Figure) []exported {
	return []exported{
		{name + ".png", func(w io.Writer) error { return fig.WritePNG(w, chartWidthMM, chartHeightMM, chartDPI) }},
		{name + ".svg", func(w io.Writer) error { return fig.WriteSVG(w, chartWidthMM, chartHeightMM) }},
		{name + ".pdf", func(w io.Writer) error { return fig.WritePDF(w, chartWidthMM, chartHeightMM) }},
		{name + ".txt", func(w io.Writer) error { _, err := fmt.Fprintln(w, fig.Alt()); return err }},
	}
}

// changeData puts the changes of a recipe's versions into the chart's terms;
// the first eight versions where there are more.
func changeData(s *exchange.Sheet) charts.ChangeData {
	d := charts.ChangeData{Title: s.Recipe.Title}
	versions := s.Columns[1:min(len(s.Columns), charts.Versions+1)]
	for _, c := range versions {
		d.Versions = append(d.Versions, charts.ChangeVersion{Letter: c.Draft.Version.Letter, Name: c.Draft.Version.Name})
	}
	for _, n := range chartNutrients {
		p := charts.ChangePanel{Label: words.Say("cmd.chart." + n.Key()), Unit: n.Unit(), Original: math.NaN()}
		if f := s.Columns[0].Per[n]; f.Known {
			p.Original, p.AtLeast = f.Amount, f.AtLeast
		}
		for _, c := range versions {
			x := c.Change[n]
			p.Changes = append(p.Changes, charts.Change{
				Amount: x.Amount, Percent: x.Percent, Known: x.Bound != string(nutrition.NotSure), Bound: x.Bound,
			})
		}
		d.Panels = append(d.Panels, p)
	}
	return d
}
