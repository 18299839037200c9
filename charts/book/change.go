package book

import (
	"math"

	"parewell/analysis/claims"
	"parewell/analysis/nutrition"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/words"
)

// Change sets one serving of the version beside one of the original, both in
// the amounts as printed.
type Change struct {
	Text string      `json:"text"` // one line
	Rows []ChangeRow `json:"rows"`
}

// ChangeRow is one nutrient before and after. Percent is nil where it is not
// known; Bound is "exact", "at_least", "at_most" or "unknown".
type ChangeRow struct {
	Key     string          `json:"key"`
	Name    string          `json:"name"`
	Before  string          `json:"before"`
	After   string          `json:"after"`
	Amount  *float64        `json:"amount,omitempty"` // after less before, in the nutrient's unit
	Percent *float64        `json:"percent,omitempty"`
	Bound   nutrition.Bound `json:"bound"`
}

// changed are the nutrients of the line before and after.
var changed = []shown{{nutrient: food.EnergyKcal}, {nutrient: food.Fat}, {nutrient: food.SaturatedFat}, {nutrient: food.Sodium}}

func changeOf(before, after *nutrition.Account, o Options) *Change {
	c := &Change{}
	var said []string
	for _, s := range changed {
		r := changeRow(before, after, s, o)
		c.Rows = append(c.Rows, r)
		if s.nutrient != food.SaturatedFat {
			said = append(said, r.words(plainName(s.nutrient, o), s.nutrient.Unit()))
		}
	}
	c.Text = words.Say("book.change", words.Join(said))
	if helping := smallerHelping(before, after); helping != "" {
		c.Text += " " + helping
	}
	return c
}

// A page says what a serving of another weight does by itself where it weighs at
// least tellHelping more or less than one of the original, and that is at least
// tellShare of the whole change. Common practice, no source.
const (
	tellHelping = 0.03
	tellShare   = 0.25
)

// smallerHelping says how much of the change in energy is that a serving is another
// weight than one of the original; "" where it is much the same or not known.
func smallerHelping(before, after *nutrition.Account) string {
	x := nutrition.Compare(before, after, food.EnergyKcal)
	ratio := after.HelpingGrams() / before.HelpingGrams()
	if x.Bound != nutrition.Exact || math.IsNaN(x.Portion) || math.IsNaN(ratio) || math.Abs(ratio-1) < tellHelping || math.Abs(x.Portion) < tellShare*math.Abs(x.Amount) {
		return ""
	}
	key := "book.change.smaller"
	if ratio > 1 {
		key = "book.change.larger"
	}
	return words.Say(key, words.Trim(100*math.Abs(ratio-1), 0)+" %", words.Signed(x.Portion, 0)+" kcal", words.Signed(x.Recipe, 0)+" kcal")
}

func changeRow(before, after *nutrition.Account, s shown, o Options) ChangeRow {
	b, a := rowOf(before, s, before.PerServing(s.nutrient), o), rowOf(after, s, after.PerServing(s.nutrient), o)
	x := nutrition.Compare(before, after, s.nutrient)
	r := ChangeRow{Key: a.Key, Name: a.Name, Before: b.Text, After: a.Text, Bound: x.Bound}
	if x.Bound == nutrition.NotSure {
		return r
	}
	v := x.Amount
	r.Amount = &v
	if !math.IsNaN(x.Percent) {
		p := x.Percent
		r.Percent = &p
	}
	return r
}

// plainName is a nutrient's name inside a sentence.
func plainName(n food.Nutrient, o Options) string {
	if n == food.Sodium && o.SaltNotSodium {
		return words.Say("book.salt")
	}
	return words.Say("nutrient." + n.Key())
}

// words say the row: "energy 455 kcal instead of 684 kcal (–33 %)".
func (r *ChangeRow) words(name, unit string) string {
	switch {
	case r.Bound == nutrition.NotSure:
		return words.Say("book.change.unknown", name)
	case r.Bound == nutrition.AtLeast:
		return words.Say("book.change.at-least", name, amountIn(-*r.Amount, unit), r.After)
	case r.Bound == nutrition.AtMost:
		return words.Say("book.change.at-most", name, amountIn(-*r.Amount, unit), r.After)
	case r.Before == r.After:
		return words.Say("book.change.same", name, r.After)
	case r.Percent == nil:
		return words.Say("book.change.plain", name, r.After, r.Before)
	}
	return words.Say("book.change.exact", name, r.After, r.Before, words.Percent(*r.Percent))
}

func amountIn(v float64, unit string) string {
	return words.Number(v, words.Decimals(unit)) + " " + unit
}

// picture is the chart of what the version changes, or of where the calories are,
// from the amounts as printed.
func (m *maker) picture(before, after *nutrition.Account) *Picture {
	if m.o.NoChart {
		return nil
	}
	draw, high, caption := func() (*charts.Figure, error) {
		return charts.ChangeChart(printedChange(before, m.version, after, m.o))
	}, figureHigh, "book.figure.change.caption"
	if m.o.Shares {
		draw, high, caption = func() (*charts.Figure, error) { return charts.ShareChart(printedShares(before, m.version, after)) }, sharesHigh, "book.figure.shares.caption"
	}
	fig, err := draw()
	if err != nil {
		return nil // nothing of it is known: there is nothing to draw
	}
	said := words.Say(caption, m.out.Title) + " " + EnergyLine(kitchenOf(m.book, m.o.Rule))
	return &Picture{Figure: fig, HighMM: high, Caption: said, Alt: fig.PaperAlt()}
}

// drawn is a nutrient as figures show it: as the page beside them names it, in
// its unit, and what of that one of the nutrient's own units is.
func drawn(n food.Nutrient, o Options) (label, unit string, each float64) {
	if n == food.Sodium && o.SaltNotSodium {
		return words.Say("book.figure.salt_g"), "g", nutrition.SaltGrams(1)
	}
	return words.Say("book.figure." + n.Key()), n.Unit(), 1
}

// changePanels are the nutrients of the chart of changes.
var changePanels = []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium}

// changeData is what the chart of changes shows, at most as many versions as it
// has room for.
func changeData(before *nutrition.Account, versions []*recipes.Version, accounts []*nutrition.Account, o Options) charts.ChangeData {
	var d charts.ChangeData
	last := min(len(versions), charts.Versions)
	for _, v := range versions[:last] {
		d.Versions = append(d.Versions, charts.ChangeVersion{Letter: v.Letter, Name: v.Name})
	}
	for _, n := range changePanels {
		label, unit, each := drawn(n, o)
		p := charts.ChangePanel{Label: label, Unit: unit, Original: math.NaN()}
		if f := before.PerServing(n); !f.Nowhere && !f.About {
			p.Original, p.AtLeast = each*f.Amount, f.AtLeast
		}
		for _, a := range accounts[:last] {
			c := nutrition.Compare(before, a, n)
			p.Changes = append(p.Changes, charts.Change{
				Amount: each * c.Amount, Percent: c.Percent, Known: c.Bound != nutrition.NotSure, Bound: string(c.Bound),
			})
		}
		d.Panels = append(d.Panels, p)
	}
	return d
}

// printedChange is the chart of one page: its numbers are those that the page
// prints beside it, rounded once, by the page's rule.
func printedChange(before *nutrition.Account, v *recipes.Version, after *nutrition.Account, o Options) charts.ChangeData {
	d := changeData(before, []*recipes.Version{v}, []*nutrition.Account{after}, o)
	d.Versions = thisRecipe()
	for i, n := range changePanels {
		panel := &d.Panels[i]
		b, ok := roundedIn(before, n, panel.Unit, o)
		if !ok {
			continue
		}
		panel.Said = b.Text
		a, ok := roundedIn(after, n, panel.Unit, o)
		if c := &panel.Changes[0]; ok && c.Bound == string(nutrition.Exact) {
			c.Said = words.Signed(a.Value-b.Value, max(decimalsOf(a.Value), decimalsOf(b.Value)))
		}
	}
	return d
}

// thisRecipe names the version on its own page: letters are the kitchen's.
func thisRecipe() []charts.ChangeVersion {
	return []charts.ChangeVersion{{Name: words.Say("book.figure.this")}}
}

// printedShares is where the calories of the original and of the page's version
// come from.
func printedShares(before *nutrition.Account, v *recipes.Version, after *nutrition.Account) charts.ShareData {
	d := sharesOf(before, []*recipes.Version{v}, []*nutrition.Account{after})
	d.Versions = append(d.Versions[:1], thisRecipe()...)
	return d
}

// roundedIn is a serving's figure as the page prints it; false where it is not
// wholly known, is printed as less than something, or in another unit.
func roundedIn(a *nutrition.Account, n food.Nutrient, unit string, o Options) (claims.Printed, bool) {
	f := a.PerServing(n)
	if f.Nowhere || f.AtLeast || f.About {
		return claims.Printed{}, false
	}
	p := printed(n, f, o)
	return p, p.Unit == unit && (p.Value > 0 || f.Amount == 0)
}

// decimalsOf is how many decimals, two at the most, a rounded number has.
func decimalsOf(v float64) int {
	for d, step := range []float64{1, 10} {
		if math.Abs(v*step-math.Round(v*step)) < 1e-6 {
			return d
		}
	}
	return 2
}
