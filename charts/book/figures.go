package book

import (
	"math"
	"slices"
	"strings"

	"parewell/analysis/ledger"
	"parewell/analysis/nutrition"
	"parewell/analysis/outcome"
	"parewell/analysis/sensory"
	"parewell/charts"
	"parewell/recipes"
	"parewell/recipes/food"
	"parewell/recipes/problem"
	"parewell/recipes/tasting"
	"parewell/recipes/words"
)

// Figure is one figure of a recipe with what belongs beside it. Nothing that was
// only predicted is in it.
type Figure struct {
	Number  int            `json:"number"`  // in its recipe's folder, from 1
	Recipe  string         `json:"recipe"`  // its title
	Version string         `json:"version"` // letter of the version on the page; "" the original
	Name    string         `json:"name"`    // what it shows, in a few words
	Caption string         `json:"caption"`
	Alt     string         `json:"alt"`
	Figure  *charts.Figure `json:"-"`
	WideMM  float64        `json:"wide_mm"`
	HighMM  float64        `json:"high_mm"`
}

// FiguresOf makes every figure of a recipe that its numbers and closed tastings
// allow: what its versions change, where the calories are, what each swap of the
// version takes off, and the scores. Energy is counted by the options' rule, of
// the recipe's own amounts. wide is in millimetres; heights follow. An empty
// version has no waterfalls. Errors: the recipe or version is gone.
func FiguresOf(b *recipes.Book, recipe, version recipes.ID, o Options, wide float64) ([]Figure, error) {
	return FiguresBy(b, recipe, version, "", o, wide)
}

// FiguresBy is FiguresOf with swaps and versions judged by another score than
// liking: score is what the tastings asked, such as "Flavour", "" for liking.
// Errors beside those of FiguresOf: the recipe's tastings did not ask for it.
func FiguresBy(b *recipes.Book, recipe, version recipes.ID, score string, o Options, wide float64) ([]Figure, error) {
	d, err := drawnOf(b, recipe, version, score, o, wide)
	if err != nil {
		return nil, err
	}
	return d.out, nil
}

// drawnOf draws the figures.
func drawnOf(b *recipes.Book, recipe, version recipes.ID, score string, o Options, wide float64) (*drawer, error) {
	r := b.Recipe(recipe)
	if r == nil {
		return nil, problem.New("", words.Say("error.recipe-gone"), words.Say("error.gone.hint"))
	}
	v := b.Version(recipe, version)
	if version != "" && v == nil {
		return nil, problem.New(r.Title, words.Say("book.no-version"), words.Say("error.gone.hint"))
	}
	o = o.settled()
	d := &drawer{book: b, recipe: r, version: v, options: o, kitchen: kitchenOf(b, o.Rule), wide: wide, tasted: tastedOf(b, r, true, score)}
	if d.tasted != nil {
		if asked := d.tasted.pool.Attributes(); score != "" && !slices.Contains(asked, score) {
			return nil, problem.New(score, words.Say("book.no-score", r.Title), words.Say("book.no-score.hint", words.Join(asked)))
		}
		d.tasted.countBy(d.kitchen, b, r)
	}
	d.accounts()
	d.nutrients()
	d.falls()
	d.scores()
	d.sittings()
	return d, nil
}

// drawer gathers the figures of one recipe.
type drawer struct {
	book     *recipes.Book
	recipe   *recipes.Recipe
	version  *recipes.Version
	options  Options
	kitchen  nutrition.Kitchen
	wide     float64
	tasted   *tasted
	versions []*recipes.Version
	before   *nutrition.Account
	after    []*nutrition.Account // of versions
	out      []Figure
}

// accounts reckons the original and as many versions as a chart has room for;
// the one that is printed is among them.
func (d *drawer) accounts() {
	d.versions = d.book.Versions(d.recipe.ID)
	if len(d.versions) > charts.Versions {
		kept := d.versions[:charts.Versions]
		if d.version != nil && d.version.Order > kept[charts.Versions-1].Order {
			kept = append(append([]*recipes.Version{}, kept[:charts.Versions-1]...), d.version)
		}
		d.versions = kept
	}
	d.before = d.kitchen.Of(d.book.Draft(d.recipe, nil))
	all := []*nutrition.Account{d.before}
	for _, v := range d.versions {
		d.after = append(d.after, d.kitchen.Of(d.book.Draft(d.recipe, v)))
	}
	nutrition.CommonBasis(append(all, d.after...))
}

// put keeps a figure; one that its numbers do not allow is left out. high is a
// share of the width; a figure that cuts a name at that is made higher.
func (d *drawer) put(name, caption string, high float64, fig *charts.Figure, err error) {
	if err != nil {
		return
	}
	letter := ""
	if d.version != nil {
		letter = d.version.Letter
	}
	d.out = append(d.out, Figure{
		Number: len(d.out) + 1, Recipe: d.recipe.Title, Version: letter, Name: name, Caption: caption, Alt: fig.PaperAlt(), Figure: fig,
		WideMM: d.wide, HighMM: fig.HighMM(d.wide, math.Round(d.wide*high)),
	})
}

// putRange is put for a figure of ranges: what says how far to trust them stands
// in its caption and in its text alternative.
func (d *drawer) putRange(name, caption string, high float64, fig *charts.Figure, err error) {
	if err != nil {
		return
	}
	notes := d.care()
	d.put(name, strings.Join(append([]string{caption}, notes...), " "), high, fig.Noting(notes...), nil)
}

// energy puts by which factors energy is counted behind a caption.
func (d *drawer) energy(caption string) string {
	return caption + " " + EnergyLine(kitchenOf(d.book, d.options.Rule))
}

// RowsHigh is a height, as a share of the width, that gives each row of a chart its
// room.
func RowsHigh(rows int) float64 { return 0.22 + 0.07*float64(min(max(rows, 2), 12)) }

func (d *drawer) nutrients() {
	title := d.recipe.Title
	if len(d.versions) > 0 {
		fig, err := charts.ChangeChart(changeData(d.before, d.versions, d.after, d.options))
		d.put(words.Say("book.file.change"), d.energy(words.Say("book.figure.changes.caption", title)), RowsHigh(len(d.versions)), fig, err)
	}
	fig, err := charts.ShareChart(sharesOf(d.before, d.versions, d.after))
	d.put(words.Say("book.file.share"), d.energy(words.Say("book.figure.share.caption", title)), RowsHigh(len(d.versions)+1)+0.1, fig, err)
}

// sharesOf are the calories of every ingredient in the original and in versions,
// per serving.
func sharesOf(before *nutrition.Account, versions []*recipes.Version, after []*nutrition.Account) charts.ShareData {
	data := charts.ShareData{Unit: food.EnergyKcal.Unit(), Versions: []charts.ChangeVersion{{Name: words.Say("charts.scores.original")}}}
	for _, v := range versions {
		data.Versions = append(data.Versions, charts.ChangeVersion{Letter: v.Letter, Name: v.Name})
	}
	at := map[string]int{}
	for n, a := range append([]*nutrition.Account{before}, after...) {
		for i := range a.Lines {
			l := &a.Draft.Lines[i]
			kcal, known := a.LineAmount(i, food.EnergyKcal)
			if l.Gone() || known && kcal <= 0 {
				continue
			}
			if !known {
				kcal = math.NaN()
			}
			name := l.Line.Name
			if name == "" {
				name = l.Line.Text
			}
			k, ok := at[name]
			if !ok {
				k = len(data.Parts)
				at[name] = k
				data.Parts = append(data.Parts, charts.SharePart{Name: name, Amounts: make([]float64, len(data.Versions))})
			}
			data.Parts[k].Amounts[n] += kcal / a.Draft.Servings
		}
	}
	return data
}

// falls are the waterfalls of the version: one a nutrient.
func (d *drawer) falls() {
	if d.version == nil || len(d.book.On(d.version)) == 0 {
		return
	}
	for _, n := range []food.Nutrient{food.EnergyKcal, food.Fat, food.Sodium} {
		data, err := d.fall(n)
		if err != nil {
			continue
		}
		caption := words.Say("book.figure.fall.caption", d.recipe.Title, plainName(n, d.options), d.version.Letter)
		if n == food.EnergyKcal {
			caption = d.energy(caption)
		}
		fig, err := charts.Waterfall(data)
		put := d.put
		if data.Attribute != "" {
			put = d.putRange
		}
		put(words.Say("book.file.fall", data.Nutrient), caption, RowsHigh(len(data.Steps)+2), fig, err)
	}
}

func (d *drawer) fall(n food.Nutrient) (charts.WaterfallData, error) {
	nan := math.NaN()
	on := d.book.On(d.version)
	savings, err := d.kitchen.SavingsOf(d.recipe, d.version, on)
	if err != nil {
		return charts.WaterfallData{}, err
	}
	label, unit, each := drawn(n, d.options)
	data := charts.WaterfallData{
		Nutrient: label, Unit: unit, Original: each * whole(d.before.PerServing(n)),
		Version: charts.WaterfallEnd{
			Letter: d.version.Letter, Name: d.version.Name, Effect: nan, Low: nan, High: nan,
			Amount: each * whole(d.kitchen.Of(d.book.Draft(d.recipe, d.version)).PerServing(n)),
		},
	}
	for i, s := range on {
		data.Steps = append(data.Steps, charts.WaterfallStep{Name: s.Name, Change: each * exactly(savings.Of(i, n)), Effect: nan, Low: nan, High: nan})
	}
	d.judge(&data, on)
	if h := savings.Helping(n); h.Amount != 0 {
		data.Steps = append(data.Steps, charts.WaterfallStep{Name: words.Say("book.helping"), Change: each * exactly(h), Effect: nan, Low: nan, High: nan})
	}
	return data, nil
}

// judge adds what tastings say of the swaps that are on and of the version: what
// was tasted only.
func (d *drawer) judge(data *charts.WaterfallData, on []*recipes.Swap) {
	if d.tasted == nil || d.tasted.table == nil {
		return
	}
	data.Attribute, data.Limit, data.Places = scoreName(d.tasted.score), d.tasted.table.Limit, d.tasted.table.Digits()
	all, swaps := d.book.Swaps(d.recipe.ID), make([]int, len(on))
	for i, s := range on {
		swaps[i] = slices.Index(all, s)
	}
	charts.JudgeSteps(data.Steps, swaps, d.tasted.table)
	for i := range data.Steps {
		data.Steps[i].Verdict = d.verdict(data.Steps[i].Verdict)
	}
	for _, w := range d.tasted.table.Wholes {
		if end := &data.Version; w.Name == d.version.Letter && !math.IsNaN(w.Effect) {
			end.Effect, end.Low, end.High, end.Verdict = w.Effect, w.Low, w.High, d.verdict(charts.Verdict(w.Kind))
		}
	}
}

// liking tells that swaps are judged by how much they are liked.
func (d *drawer) liking() bool { return d.tasted.score == d.tasted.liked }

// verdict is a verdict as the score it is on allows it.
func (d *drawer) verdict(v charts.Verdict) charts.Verdict {
	if d.liking() {
		return v
	}
	return v.Neutral()
}

// keepOrDrop is the table of the swaps as rows for a file, nil where none was
// tasted.
func (d *drawer) keepOrDrop() [][]string {
	if d.tasted == nil || d.tasted.table == nil || len(d.tasted.table.Rows) == 0 {
		return nil
	}
	name := outcome.LineNames(d.book, d.recipe)
	saved := func(version int) ledger.Saving {
		v := d.book.Version(d.recipe.ID, recipes.ID(d.tasted.evidence.Versions[version].ID))
		after := d.kitchen.Of(d.book.Draft(d.recipe, v))
		before := d.kitchen.Of(d.book.Draft(d.recipe, nil))
		return outcome.SavingOf(nutrition.Compare(before, after, food.EnergyKcal), name)
	}
	return KeepOrDrop(d.tasted.table, food.EnergyKcal, scoreName(d.tasted.score), d.liking(), saved)
}

// whole is a figure all of which is known, else NaN.
func whole(f nutrition.Figure) float64 {
	if f.Nowhere || f.AtLeast || f.About {
		return math.NaN()
	}
	return f.Amount
}

func exactly(c nutrition.Change) float64 {
	if c.Bound != nutrition.Exact {
		return math.NaN()
	}
	return c.Amount
}

// sittings are figures of tests that are no scores: trays, and dishes taken
// home once that tasting is closed.
func (d *drawer) sittings() {
	var right charts.RightData
	for _, t := range d.book.TastingsOf(d.recipe.ID) {
		if t.State != recipes.TastingClosed || t.Edition != d.recipe.Edition || !tasting.Trays(t.Test) && t.Test != recipes.TestHome {
			continue
		}
		s, err := outcome.SittingOf(d.book, t.ID)
		if err != nil {
			continue
		}
		if t.Test == recipes.TestHome {
			d.home(t, s)
		} else if c := s.Counted; c != nil && t.Test != string(sensory.Preference) && len(right.Rows) < 12 {
			right.Rows = append(right.Rows, rightRow(s, c))
		}
	}
	if len(right.Rows) > 0 {
		fig, err := charts.RightChart(right)
		d.put(words.Say("book.file.right"), words.Say("book.figure.right.caption", d.recipe.Title), RowsHigh(len(right.Rows)), fig, err)
	}
}

func rightRow(s *outcome.Sitting, c *sensory.Discrimination) charts.RightRow {
	row := charts.RightRow{
		Name:  words.Say("book.figure.right.row", words.Say("book.test."+s.Tasting.Test), words.DayOf(s.Tasting.Date), words.Join(s.Names)),
		Right: c.Correct, N: c.N, Chance: c.PGuess, AtMost: -1,
	}
	if n, ok := sensory.MinCorrect(c.Test, c.N, sensory.UsualAlpha); ok {
		row.Needed = n
	}
	if c.Similar != nil {
		if n, ok := sensory.MaxCorrect(c.Test, c.N, s.Tasting.Limit, sensory.UsualAlpha); ok {
			row.AtMost = n
		}
	}
	return row
}

func (d *drawer) home(t *recipes.Tasting, s *outcome.Sitting) {
	var data charts.HomeData
	for _, x := range s.Home {
		data.Dates = append(data.Dates, charts.HomeDate{Label: words.DayOf(x.Date), Again: x.Again, NotAgain: x.NotAgain, Left: x.Left})
	}
	fig, err := charts.HomeChart(data)
	d.put(words.Say("book.file.home", t.Date), words.Say("book.figure.home.caption", d.recipe.Title), RowsHigh(len(data.Dates)), fig, err)
}
