package sheets

import (
	"math"

	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Charted are the nutrients of the chart of changes.
var Charted = []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium}

// charted is how many columns a chart takes: the original and the first eight
// versions.
func (x *Bench) charted() int { return min(len(x.Versions), charts.Versions+1) }

// ChartCaption says what a chart leaves out; empty when it shows everything.
func (x *Bench) ChartCaption() string {
	if len(x.Versions)-1 > charts.Versions {
		return words.Say("versions.chart.first", charts.Versions, len(x.Versions)-1)
	}
	return ""
}

// ChangeData is what the chart of changes shows; title may be empty.
func (x *Bench) ChangeData(title string) charts.ChangeData {
	d := charts.ChangeData{Title: title}
	last := x.charted()
	for _, v := range x.Versions[1:last] {
		d.Versions = append(d.Versions, charts.ChangeVersion{Letter: v.Letter, Name: v.Name})
	}
	for _, n := range Charted {
		p := charts.ChangePanel{Label: words.Say("chart." + n.Key()), Unit: n.Unit(), Original: math.NaN()}
		if f := x.Original().PerServing(n); !f.Nowhere && !f.About {
			p.Original, p.AtLeast = f.Amount, f.AtLeast
		}
		for i := 1; i < last; i++ {
			c := x.Change(i, n)
			p.Changes = append(p.Changes, charts.Change{
				Amount: c.Amount, Percent: c.Percent, Known: c.Bound != nutrition.NotSure, Bound: string(c.Bound),
			})
		}
		d.Panels = append(d.Panels, p)
	}
	return d
}

// ShareData is what the chart of where the calories are shows, per serving.
// What is taken off has no bar: it has no calories of its own.
func (x *Bench) ShareData(title string) charts.ShareData {
	d := charts.ShareData{Title: title, Unit: food.EnergyKcal.Unit()}
	last := x.charted()
	at := map[string]int{}
	for i := range last {
		v := charts.ChangeVersion{Name: words.Say("original")}
		if x.Versions[i] != nil {
			v = charts.ChangeVersion{Letter: x.Versions[i].Letter, Name: x.Versions[i].Name}
		}
		d.Versions = append(d.Versions, v)
		a := x.Accounts[i]
		for k := range a.Lines {
			amount, known := a.LineAmount(k, food.EnergyKcal)
			if a.Draft.Lines[k].Gone() || known && amount <= 0 {
				continue
			}
			if !known {
				amount = math.NaN()
			}
			name := LineName(a.Draft.Lines[k].Line)
			part, ok := at[name]
			if !ok {
				part = len(d.Parts)
				at[name] = part
				d.Parts = append(d.Parts, charts.SharePart{Name: name, Amounts: make([]float64, last)})
			}
			d.Parts[part].Amounts[i] += amount / a.Draft.Servings
		}
	}
	return d
}
